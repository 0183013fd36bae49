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
  Vector3,
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
  /** Of the sheet: the sizes are its own, without what is raised out of it. */
  corners(): Float32Array;
}

interface Shown {
  readonly placed: Placed;
  readonly surface: Mesh<BufferGeometry, MeshLambertMaterial>;
  readonly fills: Mesh<BufferGeometry, MeshBasicMaterial>;
  /** The edges in sight, and the thin lines where bends begin and end: written anew whenever something else is in sight. */
  readonly wide: LineSegments2;
  readonly thin: LineSegments;
  readonly featureOfTriangle: readonly string[];
  readonly featureOfFill: readonly string[];
}

/** Faces that turn to the eye by less than this (cosine) are seen edge on. */
const TURNED = 1e-4;
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
  const wideMaterial = new LineMaterial({ linewidth: WIDE });
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
    for (const each of [shown.surface, shown.fills, shown.wide, shown.thin]) {
      scene.remove(each);
      each.geometry.dispose();
    }
  };

  const colourOf = ({ feature, side }: Range, of: FoldedModel, down: ReadonlySet<string>, faults: ReadonlyMap<string, string>): Color => {
    const plain = side === 'face' ? colours.face : side === 'back' ? colours.back : colours.rim;
    const isBend = feature.startsWith('bend:');
    const isRaised = !isBend && !feature.startsWith('face:');
    const bend = down.has(feature.slice(5)) ? colours.down : colours.up;
    const base = feature === `face:${of.moving.root}`;
    let colour = isBend
      ? mixed(plain, bend, side === 'back' ? 0.42 : 0.5)
      : base || side === 'rim'
        ? plain
        : mixed(plain, colours.ink, isRaised ? 0.12 : 0.06);
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
    wideMaterial.color.copy(colours.ink);
    litMaterial.color.copy(colours.lit);
    const swatches = {
      face: colours.face,
      back: colours.back,
      up: mixed(colours.face, colours.up, 0.5),
      down: mixed(colours.face, colours.down, 0.5),
      error: mixed(colours.face, colours.error, 0.5),
      warning: mixed(colours.face, colours.warning, 0.5),
    };
    for (const [name, colour] of Object.entries(swatches)) canvas.parentElement?.style.setProperty(`--${name}_swatch`, colour.getStyle());
    tangentMaterial.color.copy(colours.tangent);
    tangentMaterial.opacity = colours.highContrast ? 1 : 0.75;
    wideMaterial.linewidth = colours.highContrast ? WIDE * 1.5 : WIDE;
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
    for (const { feature, first, count } of placed.edgeRanges) {
      if (!wanted(feature)) continue;
      for (let edge = first; edge < first + count; edge++) {
        if (placed.edgeKinds[edge] !== 'smooth') for (let i = 6 * edge; i < 6 * edge + 6; i++) runs.push(placed.edges[i] ?? 0);
      }
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

  /** Edges at least one of whose sides is turned to the eye; what the sheet itself hides is left to the depth of the picture. */
  const drawEdges = ({ placed, wide, thin }: Shown, camera: OrthographicCamera): void => {
    const start = wide.geometry.getAttribute('instanceStart');
    const lines = thin.geometry.getAttribute('position');
    if (!('data' in start) || !('array' in lines)) return;
    const [bold, fine] = [start.data.array, lines.array];
    const { x, y, z } = camera.getWorldDirection(new Vector3()).negate();
    const { edges, edgeNormals, edgeKinds } = placed;
    let [boldEnd, fineEnd] = [0, 0];
    for (let edge = 0; edge < edgeKinds.length; edge++) {
      const i = 6 * edge;
      const toward = (at: number): number => (edgeNormals[at] ?? 0) * x + (edgeNormals[at + 1] ?? 0) * y + (edgeNormals[at + 2] ?? 0) * z;
      const [first, second] = [toward(i) > TURNED, toward(i + 3) > TURNED];
      const kind = edgeKinds[edge];
      if (!first && !second) continue;
      if (kind === 'sharp' || first !== second) {
        for (let k = 0; k < 6; k++) bold[boldEnd + k] = edges[i + k] ?? 0;
        boldEnd += 6;
      } else if (kind === 'tangent') {
        for (let k = 0; k < 6; k++) fine[fineEnd + k] = edges[i + k] ?? 0;
        fineEnd += 6;
      }
    }
    start.data.needsUpdate = true;
    wide.geometry.instanceCount = boldEnd / 6;
    lines.needsUpdate = true;
    thin.geometry.setDrawRange(0, fineEnd / 3);
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
      const wide = new LineSegments2(new LineSegmentsGeometry().setPositions(new Float32Array(placed.edges.length)), wideMaterial);
      const joints = new BufferGeometry();
      joints.setAttribute('position', new BufferAttribute(new Float32Array(placed.edges.length), 3));
      const thin = new LineSegments(joints, tangentMaterial);
      for (const each of [surface, fills, wide, thin]) each.frustumCulled = false;
      scene.add(surface, fills, wide, thin);
      shown = {
        placed,
        surface,
        fills,
        wide,
        thin,
        featureOfTriangle: placed.faces.flatMap(({ feature, count }) => new Array<string>(count).fill(feature)),
        featureOfFill: placed.fillRanges.flatMap(({ feature, count }) => new Array<string>(count).fill(feature)),
      };
      paint();
    },
    setTurned: (turned) => {
      if (shown === undefined) return;
      const { placed, surface, fills } = shown;
      placed.place(turned);
      refreshed(surface.geometry, ['position', 'normal']);
      refreshed(fills.geometry, ['position']);
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
      for (const material of [wideMaterial, litMaterial]) material.resolution.copy(size);
    },
    draw: (camera) => {
      if (shown !== undefined) drawEdges(shown, camera);
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
    corners: () => shown?.placed.positions.subarray(0, 3 * shown.placed.sheetCorners) ?? new Float32Array(0),
  };
};
