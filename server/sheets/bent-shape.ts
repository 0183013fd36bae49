/** The side view of stock bent in one plane: straights and arcs of its middle line, grown by half of what stands across it. */
import type { Loop, Move, Point } from '../shape/path.js';

export type Stretch =
  | { readonly kind: 'straight'; readonly length: number }
  /** `turn` rad, to the left when positive; `radius` to the middle of the stock. */
  | { readonly kind: 'bend'; readonly turn: number; readonly radius: number };

export interface BentShape {
  /** Anticlockwise. */
  readonly outline: Loop;
  /** Middle of every bend, in order. */
  readonly centres: readonly Point[];
  /** Lines across where straight and bend meet. */
  readonly tangents: readonly (readonly [Point, Point])[];
}

interface Stand {
  readonly at: Point;
  readonly heading: number;
}
const aside = ({ at, heading }: Stand, by: number): Point => ({ x: at.x - Math.sin(heading) * by, y: at.y + Math.cos(heading) * by });
const ahead = ({ at, heading }: Stand, by: number): Point => ({ x: at.x + Math.cos(heading) * by, y: at.y + Math.sin(heading) * by });

/**
 * From (0, 0) toward +x.
 *
 * @param across thickness of the stock in the plane of the bends, mm
 * @param cut    how far behind its long point each end stops, at its right and at its left side, mm; nothing where the end is a bend
 */
export const bentShape = (
  stretches: readonly Stretch[],
  across: number,
  cut: { readonly start: readonly [number, number]; readonly finish: readonly [number, number] } = { start: [0, 0], finish: [0, 0] },
): BentShape => {
  const half = across / 2;
  const stands: Stand[] = [{ at: { x: 0, y: 0 }, heading: 0 }];
  const centres: Point[] = [];
  for (const stretch of stretches) {
    const stand = stands[stands.length - 1] as Stand;
    if (stretch.kind === 'straight') stands.push({ at: ahead(stand, stretch.length), heading: stand.heading });
    else {
      const side = Math.sign(stretch.turn) * stretch.radius;
      const centre = aside(stand, side);
      const heading = stand.heading + stretch.turn;
      stands.push({ at: { x: centre.x + Math.sin(heading) * side, y: centre.y - Math.cos(heading) * side }, heading });
      centres.push(centre);
    }
  }
  const first = stands[0] as Stand;
  const last = stands[stands.length - 1] as Stand;
  const beginAt = (side: -1 | 1): Point => aside({ ...first, at: ahead(first, cut.start[side === -1 ? 0 : 1]) }, side * half);
  const endAt = (side: -1 | 1): Point => aside({ ...last, at: ahead(last, -cut.finish[side === -1 ? 0 : 1]) }, side * half);
  const path = (side: -1 | 1): readonly Move[] => {
    let bend = 0;
    return stretches.map((stretch, i): Move => {
      const end = stands[i + 1] as Stand;
      const to = i === stretches.length - 1 ? endAt(side) : aside(end, side * half);
      if (stretch.kind === 'straight') return { kind: 'line', to };
      const centre = centres[bend++] as Point;
      const turn = stretch.turn > 0 ? 'left' : 'right';
      const radius = stretch.radius + (turn === 'left' ? -side : side) * half;
      // An inside radius of nothing is a corner.
      return radius < 1e-6 ? { kind: 'line', to } : { kind: 'arc', to, centre, turn };
    });
  };
  const right = path(-1);
  const left = path(1);
  const back = left
    .map((move, i): Move => {
      const to = i === 0 ? beginAt(1) : (left[i - 1] as Move).to;
      return move.kind === 'line'
        ? { kind: 'line', to }
        : { kind: 'arc', to, centre: move.centre, turn: move.turn === 'left' ? 'right' : 'left' };
    })
    .reverse();
  return {
    outline: [...right, { kind: 'line', to: endAt(1) }, ...back, { kind: 'line', to: beginAt(-1) }],
    centres,
    tangents: stands.slice(1, -1).map((stand) => [aside(stand, -half), aside(stand, half)] as const),
  };
};
