/** Places on the ends of a bend zone. */
import type { Point } from '../shape/path.js';

/** Where an end, followed out from the parent's tangent line, has come this far from it; a step is taken at its first point. */
export const onEnd = (end: readonly Point[], at: Point, out: Point, distance: number): Point => {
  let before = at;
  let reached = 0;
  for (const p of end) {
    const far = (p.x - at.x) * out.x + (p.y - at.y) * out.y;
    if (far >= distance - 1e-12) {
      const share = far - reached < 1e-12 ? 1 : (distance - reached) / (far - reached);
      return { x: before.x + (p.x - before.x) * share, y: before.y + (p.y - before.y) * share };
    }
    before = p;
    reached = far;
  }
  return { x: before.x + out.x * (distance - reached), y: before.y + out.y * (distance - reached) };
};
