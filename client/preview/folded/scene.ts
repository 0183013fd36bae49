/** The part as three.js draws it: one surface, its edges, what is lit; and what lies under the pointer. */
import {
  BufferAttribute,
  BufferGeometry,
  type Color,
  DirectionalLight,
  DoubleSide,
  HemisphereLight,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  type OrthographicCamera,
  Raycaster,
  Scene,
  Vector2,
  WebGLRenderer,
} from 'three';
import { LineMaterial } from 'three/addons/lines/LineMaterial.js';
import { LineSegments2 } from 'three/addons/lines/LineSegments2.js';
import { LineSegmentsGeometry } from 'three/addons/lines/LineSegmentsGeometry.js';
import type { FoldedModel } from '../../../server/lsp/protocol.js';
import { type Colours, mixed, readColours } from './colours.js';
import { type Placed, placedPart, type Range } from './placing.js';

const WIDE = 1.7;
const LIT_WIDTH = 3.2;

export interface PartScene {
  setModel(model: FoldedModel): void;
  setTurned(turned: (bend: string) => number): void;
  setLit(lit: ReadonlySet<string>, pointed: string | undefined): void;
  recolour(): void;
  resize(width: number, height: number): void;
  draw(camera: OrthographicCamera): void;
  /** The feature at a spot of the canvas, −1…1 both ways; bends and holes win within reach of the pointer over the faces round them. */
  featureAt(camera: OrthographicCamera, x: number, y: number): string | undefined;
  corners(): Float32Array;
}

interface Shown {
  readonly placed: Placed;
  readonly surface: Mesh<BufferGeometry, MeshLambertMaterial>;
  readonly fills: Mesh<BufferGeometry, MeshBasicMaterial>;
  readonly rims: LineSegments2;
  readonly tangents: LineSegments;
  readonly featureOfTriangle: readonly string[];
  readonly featureOfFill: readonly string[];
}

/** Spots round the pointer that count as under it, px. */
const REACH = 4;
const COMPASS = [0, 1, 2, 3, 4, 5, 6, 7].map((eighth) => (eighth * Math.PI) / 4);

/** @throws Error when the browser gives no WebGL */
export const createScene = (canvas: HTMLCanvasElement): PartScene => {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true, powerPreference: 'low-power' });
  renderer.setClearAlpha(0);
  const scene = new Scene();
  const sky = new HemisphereLight(0xffffff, 0xffffff, 1.5);
  sky.position.set(0, 0, 1);
  const lamp = new DirectionalLight(0xffffff, 1.9);
  scene.add(sky, lamp, lamp.target);
  let colours: Colours = readColours();
  let model: FoldedModel | undefined;
  let shown: Shown | undefined;
  let lit: ReadonlySet<string> = new Set();
  let pointed: string | undefined;
  const size = new Vector2(1, 1);
  const rimMaterial = new LineMaterial({ linewidth: WIDE });
  const litMaterial = new LineMaterial({ linewidth: LIT_WIDTH });
  const tangentMaterial = new LineBasicMaterial({ transparent: true, opacity: 0.75 });
  const surfaceMaterial = new MeshLambertMaterial({
    vertexColors: true,
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 1,
  });
  // A hole is pointed at through its filling, which is never seen.
  const fillMaterial = new MeshBasicMaterial({ side: DoubleSide, visible: false });
  let litLines: LineSegments2 | undefined;
  const rays = new Raycaster();

  const drop = (): void => {
    if (shown === undefined) return;
    for (const each of [shown.surface, shown.fills, shown.rims, shown.tangents]) {
      scene.remove(each);
      each.geometry.dispose();
    }
  };

  const colourOf = ({ feature, side }: Range, of: FoldedModel, down: ReadonlySet<string>, faults: ReadonlyMap<string, string>): Color => {
    const plain = side === 'face' ? colours.face : side === 'back' ? colours.back : colours.rim;
    const isBend = feature.startsWith('bend:');
    const bend = down.has(feature.slice(5)) ? colours.down : colours.up;
    const base = feature === `face:${of.moving.root}`;
    let colour = isBend
      ? mixed(plain, bend, side === 'back' ? 0.42 : 0.5)
      : base || side === 'rim'
        ? plain
        : mixed(plain, colours.ink, 0.06);
    const fault = faults.get(feature);
    if (fault !== undefined && !feature.startsWith('cut:'))
      colour = mixed(colour, fault === 'error' ? colours.error : colours.warning, 0.5);
    if (lit.has(feature)) colour = mixed(colour, colours.lit, 0.6);
    else if (pointed === feature) colour = mixed(colour, colours.lit, 0.28);
    return colour;
  };

  const paint = (): void => {
    if (shown === undefined || model === undefined) return;
    const { placed, surface } = shown;
    const down = new Set(model.down);
    const faults = new Map(model.faults.map(({ id, severity }) => [id, severity]));
    const attribute = surface.geometry.getAttribute('color');
    for (const range of placed.corners) {
      const { r, g, b } = colourOf(range, model, down, faults);
      for (let i = range.first; i < range.first + range.count; i++) attribute.setXYZ(i, r, g, b);
    }
    attribute.needsUpdate = true;
    rimMaterial.color.copy(colours.ink);
    litMaterial.color.copy(colours.lit);
    tangentMaterial.color.copy(colours.tangent);
    tangentMaterial.opacity = colours.highContrast ? 1 : 0.75;
    rimMaterial.linewidth = colours.highContrast ? WIDE * 1.5 : WIDE;
  };

  /** The edges of what is lit or pointed at, drawn over the others. */
  const drawLit = (): void => {
    if (litLines !== undefined) {
      scene.remove(litLines);
      litLines.geometry.dispose();
      litLines = undefined;
    }
    if (shown === undefined) return;
    const { placed } = shown;
    const wanted = (feature: string): boolean => lit.has(feature) || (pointed === feature && feature.startsWith('cut:'));
    const runs: number[] = [];
    for (const [ranges, from] of [
      [placed.rimRanges, placed.rims],
      [placed.tangentRanges, placed.tangents],
    ] as const) {
      for (const { feature, first, count } of ranges)
        if (wanted(feature)) for (let i = 6 * first; i < 6 * (first + count); i++) runs.push(from[i] ?? 0);
    }
    if (runs.length === 0) return;
    litLines = new LineSegments2(new LineSegmentsGeometry().setPositions(runs), litMaterial);
    litLines.frustumCulled = false;
    litLines.renderOrder = 1;
    scene.add(litLines);
  };

  const refreshed = (geometry: BufferGeometry, names: readonly string[]): void => {
    for (const name of names) geometry.getAttribute(name).needsUpdate = true;
    geometry.computeBoundingSphere();
  };

  return {
    setModel: (next) => {
      drop();
      model = next;
      const placed = placedPart(next.moving);
      const geometry = new BufferGeometry();
      geometry.setAttribute('position', new BufferAttribute(placed.positions, 3));
      geometry.setAttribute('normal', new BufferAttribute(placed.normals, 3));
      geometry.setAttribute('color', new BufferAttribute(new Float32Array(placed.positions.length), 3));
      geometry.setIndex(new BufferAttribute(placed.triangles, 1));
      const surface = new Mesh(geometry, surfaceMaterial);
      const filled = new BufferGeometry();
      filled.setAttribute('position', new BufferAttribute(placed.fills, 3));
      const fills = new Mesh(filled, fillMaterial);
      const edges = new LineSegmentsGeometry();
      edges.setPositions(placed.rims);
      const rims = new LineSegments2(edges, rimMaterial);
      const joints = new BufferGeometry();
      joints.setAttribute('position', new BufferAttribute(placed.tangents, 3));
      const tangents = new LineSegments(joints, tangentMaterial);
      for (const each of [surface, fills, rims, tangents]) each.frustumCulled = false;
      scene.add(surface, fills, rims, tangents);
      shown = {
        placed,
        surface,
        fills,
        rims,
        tangents,
        featureOfTriangle: placed.faces.flatMap(({ feature, count }) => new Array<string>(count).fill(feature)),
        featureOfFill: placed.fillRanges.flatMap(({ feature, count }) => new Array<string>(count).fill(feature)),
      };
      paint();
    },
    setTurned: (turned) => {
      if (shown === undefined) return;
      const { placed, surface, fills, rims, tangents } = shown;
      placed.place(turned);
      refreshed(surface.geometry, ['position', 'normal']);
      refreshed(fills.geometry, ['position']);
      refreshed(tangents.geometry, ['position']);
      // The edges' corners lie interleaved in an array of their own, one after the other as here.
      const start = rims.geometry.getAttribute('instanceStart');
      if ('data' in start) {
        start.data.array.set(placed.rims);
        start.data.needsUpdate = true;
      }
      drawLit();
    },
    setLit: (ids, under) => {
      lit = ids;
      pointed = under;
      paint();
      drawLit();
    },
    recolour: () => {
      colours = readColours();
      paint();
    },
    resize: (width, height) => {
      renderer.setPixelRatio(window.devicePixelRatio);
      renderer.setSize(width, height, false);
      size.set(width, height);
      for (const material of [rimMaterial, litMaterial]) material.resolution.copy(size);
    },
    draw: (camera) => {
      // The light stands over the reader's left shoulder wherever the part is looked at from.
      lamp.position.set(-0.45, 0.75, 1).applyQuaternion(camera.quaternion);
      renderer.render(scene, camera);
    },
    featureAt: (camera, x, y) => {
      if (shown === undefined) return undefined;
      const { surface, fills, featureOfTriangle, featureOfFill } = shown;
      const hit = (dx: number, dy: number): string | undefined => {
        rays.setFromCamera(new Vector2(x + (2 * dx) / size.x, y + (2 * dy) / size.y), camera);
        const [first] = rays.intersectObjects([surface, fills], false);
        if (first === undefined) return undefined;
        return (first.object === fills ? featureOfFill : featureOfTriangle)[first.faceIndex ?? -1];
      };
      const under = hit(0, 0);
      if (under !== undefined && !under.startsWith('face:')) return under;
      for (const angle of COMPASS) {
        const near = hit(REACH * Math.cos(angle), REACH * Math.sin(angle));
        if (near !== undefined && (under === undefined || !near.startsWith('face:'))) return near;
      }
      return under;
    },
    corners: () => shown?.placed.positions ?? new Float32Array(0),
  };
};
