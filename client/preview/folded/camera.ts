/** From where the part is looked at: turning, moving, nearer and farther, standard sides, and the whole part in sight. */
import { Box3, OrthographicCamera, Vector3 } from 'three';
import { OrbitControls } from 'three/addons/controls/OrbitControls.js';
import type { Look } from '../kept.js';

export interface Eye {
  readonly camera: OrthographicCamera;
  resize(width: number, height: number): void;
  /** The part's corners as they stand; while the whole is wanted in sight, the view follows them. */
  follow(corners: Float32Array): void;
  setLook(look: Look): void;
  /** As it is to be kept; without how far the part is folded, which the eye doesn't know. */
  look(): Omit<Look, 'turned'>;
  orbit(around: number, down: number): void;
  move(right: number, down: number): void;
  zoom(factor: number): void;
  fit(): void;
  /** Turns to a side, gently unless the reader wants no motion. */
  turnTo(side: string): void;
  /** Where a place in space is on the canvas, px. */
  onCanvas(x: number, y: number, z: number): { readonly x: number; readonly y: number };
}

const SIDES: Readonly<Record<string, { readonly around: number; readonly down: number }>> = {
  iso: { around: Math.PI / 4, down: Math.acos(1 / Math.sqrt(3)) },
  front: { around: 0, down: Math.PI / 2 },
  right: { around: Math.PI / 2, down: Math.PI / 2 },
  top: { around: 0, down: 0 },
};
/** Clear space round the part, px: room for its sizes, and for the colour key at the foot. */
const MARGIN = 54;
const TURN_TIME = 260;
const MOST_IN = 60;
const MOST_OUT = 6;

export const calm = (): boolean => matchMedia('(prefers-reduced-motion: reduce)').matches;

/** @param changed called whenever something else is seen than before; `byHand` when the reader did it */
export const createEye = (canvas: HTMLCanvasElement, changed: (byHand: boolean) => void): Eye => {
  const camera = new OrthographicCamera(-1, 1, 1, -1, 0, 10);
  camera.up.set(0, 0, 1);
  const controls = new OrbitControls(camera, canvas);
  controls.enableDamping = false;
  controls.zoomToCursor = true;
  controls.rotateSpeed = 0.9;
  const screen = { width: 1, height: 1 };
  const box = new Box3();
  let radius = 1;
  let held = false;
  let own = false;
  let turning = 0;

  /** Does something to the camera that is not the reader's hand on it. */
  const quietly = (act: () => void): void => {
    own = true;
    act();
    controls.update();
    own = false;
  };
  const stand = (around: number, down: number): void => {
    const distance = 8 * radius;
    const flat = Math.sin(down);
    camera.position
      .set(flat * Math.sin(around), -flat * Math.cos(around), Math.cos(down))
      .multiplyScalar(distance)
      .add(controls.target);
    camera.near = 0;
    camera.far = 2 * distance;
    camera.updateProjectionMatrix();
  };
  const angles = (): { readonly around: number; readonly down: number } => ({
    around: controls.getAzimuthalAngle(),
    down: controls.getPolarAngle(),
  });

  /** Least and greatest of the part's box along the screen's two directions and away from it, mm from the middle of what is seen: sizes stand on its edges. */
  const extent = (): { readonly low: Vector3; readonly high: Vector3 } => {
    camera.updateMatrixWorld();
    const [right, up, back] = [new Vector3(), new Vector3(), new Vector3()];
    camera.matrixWorld.extractBasis(right, up, back);
    const low = new Vector3(Infinity, Infinity, Infinity);
    const high = new Vector3(-Infinity, -Infinity, -Infinity);
    const p = new Vector3();
    for (let i = 0; i < 8; i++) {
      p.set(i & 1 ? box.max.x : box.min.x, i & 2 ? box.max.y : box.min.y, i & 4 ? box.max.z : box.min.z).sub(controls.target);
      p.set(p.dot(right), p.dot(up), p.dot(back));
      low.min(p);
      high.max(p);
    }
    return { low, high };
  };
  const room = (): { readonly width: number; readonly height: number } => ({
    width: Math.max(40, screen.width - 2 * MARGIN),
    height: Math.max(40, screen.height - 2 * MARGIN),
  });
  const wholeScale = (): number => {
    const { low, high } = extent();
    return Math.min(room().width / Math.max(1, high.x - low.x), room().height / Math.max(1, high.y - low.y));
  };

  /** The whole part in sight and in the middle. */
  const fitNow = (): void => {
    if (box.isEmpty()) return;
    const { around, down } = angles();
    const { low, high } = extent();
    const [right, up, back] = [new Vector3(), new Vector3(), new Vector3()];
    camera.matrixWorld.extractBasis(right, up, back);
    const scale = wholeScale();
    quietly(() => {
      controls.target
        .addScaledVector(right, (low.x + high.x) / 2)
        .addScaledVector(up, (low.y + high.y) / 2)
        .addScaledVector(back, (low.z + high.z) / 2);
      stand(around, down);
      camera.zoom = scale;
      controls.minZoom = scale / MOST_OUT;
      controls.maxZoom = scale * MOST_IN;
      camera.updateProjectionMatrix();
    });
  };
  /** While it is turned by hand, it only grows smaller, and only when it would go out of sight. */
  const keepInSight = (): void => {
    const { low, high } = extent();
    const across = Math.max(-low.x, high.x);
    const upright = Math.max(-low.y, high.y);
    const scale = Math.min(room().width / 2 / Math.max(0.5, across), room().height / 2 / Math.max(0.5, upright));
    if (camera.zoom <= scale) return;
    camera.zoom = scale;
    camera.updateProjectionMatrix();
  };

  const before = { zoom: camera.zoom, target: controls.target.clone() };
  const remember = (): void => {
    before.zoom = camera.zoom;
    before.target.copy(controls.target);
  };
  controls.addEventListener('change', () => {
    if (own) return;
    if (Math.abs(camera.zoom - before.zoom) > 1e-9 || before.target.distanceTo(controls.target) > 1e-9) held = true;
    else if (!held) keepInSight();
    remember();
    changed(true);
  });
  controls.addEventListener('start', () => {
    turning++;
  });

  const glide = (around: number, down: number): void => {
    const from = angles();
    const turn = ++turning;
    // The short way round.
    const way = Math.atan2(Math.sin(around - from.around), Math.cos(around - from.around));
    const started = performance.now();
    const step = (): void => {
      if (turn !== turning) return;
      const share = calm() ? 1 : Math.min(1, (performance.now() - started) / TURN_TIME);
      const eased = share * share * (3 - 2 * share);
      quietly(() => stand(from.around + way * eased, from.down + (down - from.down) * eased));
      if (!held) fitNow();
      remember();
      changed(share === 1);
      if (share < 1) requestAnimationFrame(step);
    };
    step();
  };

  return {
    camera,
    resize: (width, height) => {
      screen.width = width;
      screen.height = height;
      camera.left = -width / 2;
      camera.right = width / 2;
      camera.top = height / 2;
      camera.bottom = -height / 2;
      camera.updateProjectionMatrix();
      if (!held) fitNow();
      remember();
    },
    follow: (corners) => {
      box.setFromArray(corners);
      radius = 2 * Math.max(1, ...[box.min, box.max].flatMap((corner) => corner.toArray().map(Math.abs)));
      if (!held) fitNow();
      else {
        const { around, down } = angles();
        quietly(() => stand(around, down));
      }
      remember();
    },
    setLook: (look) => {
      turning++;
      held = look.held !== undefined;
      quietly(() => {
        if (look.held !== undefined) {
          controls.target.fromArray(look.held.middle);
          camera.zoom = look.held.scale;
        }
        stand(look.around, look.down);
      });
      if (!held) fitNow();
      remember();
    },
    look: () => {
      const { x, y, z } = controls.target;
      return { ...angles(), held: held ? { scale: camera.zoom, middle: [x, y, z] } : undefined };
    },
    orbit: (around, down) => {
      turning++;
      const now = angles();
      quietly(() => stand(now.around + around, Math.min(Math.PI, Math.max(0, now.down + down))));
      if (!held) fitNow();
      remember();
      changed(true);
    },
    move: (right, down) => {
      const [x, y] = [new Vector3(), new Vector3()];
      camera.matrixWorld.extractBasis(x, y, new Vector3());
      const { around, down: tilt } = angles();
      held = true;
      quietly(() => {
        controls.target.addScaledVector(x, -right / camera.zoom).addScaledVector(y, down / camera.zoom);
        stand(around, tilt);
      });
      remember();
      changed(true);
    },
    zoom: (factor) => {
      held = true;
      quietly(() => {
        camera.zoom = Math.min(controls.maxZoom, Math.max(controls.minZoom, camera.zoom * factor));
        camera.updateProjectionMatrix();
      });
      remember();
      changed(true);
    },
    fit: () => {
      held = false;
      fitNow();
      remember();
      changed(true);
    },
    turnTo: (name) => {
      const side = SIDES[name];
      if (side === undefined) return;
      held = false;
      glide(side.around, side.down);
    },
    onCanvas: (x, y, z) => {
      const p = new Vector3(x, y, z).project(camera);
      return { x: ((p.x + 1) / 2) * screen.width, y: ((1 - p.y) / 2) * screen.height };
    },
  };
};
