/** A bend zone's own flat coordinates: x across it from the parent's tangent line, y along the bend. */
import type { Hinge } from '../shape/hinges.js';
import type { Point } from '../shape/path.js';

export interface OnZone {
  readonly into: (p: Point) => Point;
  readonly outOf: (p: Point) => Point;
  readonly along: Point;
}

export const zoneCoordinates = ({ tangentParent: [from, to] }: Pick<Hinge, 'tangentParent'>): OnZone => {
  const length = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  return {
    along,
    into: (p) => {
      const dx = p.x - from.x;
      const dy = p.y - from.y;
      return { x: dx * along.y - dy * along.x, y: dx * along.x + dy * along.y };
    },
    outOf: ({ x, y }) => ({ x: from.x + along.y * x + along.x * y, y: from.y - along.x * x + along.y * y }),
  };
};
