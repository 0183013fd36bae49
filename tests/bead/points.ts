/** Places on a path, reckoned without the program: for checks by counting. */
import type { Path } from '../../server/bead/index.js';
import type { XY } from '../../server/model/part.js';

export interface Place {
  readonly at: XY;
  readonly along: XY;
  readonly s: number;
}

/** @param count on each arc, and `straight` on each line, along which the direction stays */
export const pathPoints = (path: Path | undefined, count: number, straight = count): readonly Place[] => {
  const out: Place[] = [];
  let from = path?.start ?? { x: 0, y: 0 };
  let before = 0;
  for (const move of path?.moves ?? []) {
    if (move.kind === 'line') {
      const length = Math.hypot(move.to.x - from.x, move.to.y - from.y);
      const t = { x: (move.to.x - from.x) / length, y: (move.to.y - from.y) / length };
      for (let i = 0; i <= straight; i++) {
        const s = (length * i) / straight;
        out.push({ at: { x: from.x + t.x * s, y: from.y + t.y * s }, along: t, s: before + s });
      }
      before += length;
    } else {
      const { centre } = move;
      const radius = Math.hypot(from.x - centre.x, from.y - centre.y);
      const sign = move.turn === 'left' ? 1 : -1;
      const first = Math.atan2(from.y - centre.y, from.x - centre.x);
      const last = Math.atan2(move.to.y - centre.y, move.to.x - centre.x);
      let sweep = sign * (last - first);
      while (sweep <= 1e-9) sweep += 2 * Math.PI;
      for (let i = 0; i <= count; i++) {
        const a = first + (sign * sweep * i) / count;
        out.push({
          at: { x: centre.x + radius * Math.cos(a), y: centre.y + radius * Math.sin(a) },
          along: { x: -sign * Math.sin(a), y: sign * Math.cos(a) },
          s: before + (radius * sweep * i) / count,
        });
      }
      before += radius * sweep;
    }
    from = move.to;
  }
  return out;
};
