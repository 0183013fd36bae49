/** Panels with beads built by hand, as the language would give them. */
import type { Span } from '../../grammar/syntax.js';
import { type BeadResult, type WorkedBead, workBeads } from '../../server/bead/index.js';
import { layOut } from '../../server/blank/index.js';
import type { Blank } from '../../server/blank/types.js';
import type { Bead, BeadPath, Panel, Sourced, XY } from '../../server/model/part.js';
import type { Die, Roller } from '../../server/model/shop.js';

let next = 1000;
const span = (): Span => ({ start: next, end: ++next });
const somewhere = { file: 'bench.planish', span: { start: 0, end: 1 } };
export const sourced = <T>(value: T): Sourced<T> => ({ value, span: span() });

/** A half-round die, 10 wide and 3 deep, that turns no tighter than 20. */
export const halfRound = (change: Partial<Die> = {}): Die => ({
  ...somewhere,
  name: 'half_round_10',
  shape: 'round',
  width: 10,
  depth: 3,
  tightestTurn: 20,
  perPass: 1.5,
  ...change,
});
export const stepDie = (change: Partial<Die> = {}): Die => ({
  ...somewhere,
  name: 'step_3',
  shape: 'step',
  width: 8,
  depth: 3,
  tightestTurn: 20,
  perPass: undefined,
  ...change,
});
export const roller = (throat: number, arm?: number): Roller => ({ ...somewhere, name: 'hand_roller', throat, thickest: undefined, arm });

export const line = (fromX: number, fromY: number, toX: number, toY: number): BeadPath => ({
  kind: 'line',
  from: sourced({ x: fromX, y: fromY }),
  to: sourced({ x: toX, y: toY }),
});
export const border = (inset: number, corner?: number): BeadPath => ({
  kind: 'rectangle',
  inset: sourced(inset),
  corner: corner === undefined ? undefined : sourced(corner),
});
export const along = (edges: readonly string[], inset: number, corner?: number): BeadPath => ({
  kind: 'along',
  edges: edges.map(sourced),
  inset: sourced(inset),
  corner: corner === undefined ? undefined : sourced(corner),
});
export const through = (points: readonly XY[], corner?: number): BeadPath => ({
  kind: 'path',
  points: points.map(sourced),
  corner: corner === undefined ? undefined : sourced(corner),
});
export const circle = (x: number, y: number, radius: number): BeadPath => ({
  kind: 'circle',
  centre: sourced({ x, y }),
  radius: sourced(radius),
});

export const bead = (id: string, path: BeadPath, change: Partial<Bead> = {}): Bead => ({
  kind: 'bead',
  id,
  die: sourced(halfRound()),
  direction: 'up',
  path,
  start: 'open',
  finish: 'open',
  width: undefined,
  copy: { mirrorX: false, mirrorY: false, shift: { x: 0, y: 0 } },
  nameSpan: span(),
  pathSpan: span(),
  span: span(),
  ...change,
});

export const beaded = (panel: Panel, beads: readonly Bead[], rollers: readonly Roller[] = []): Panel => ({ ...panel, beads, rollers });

export interface Worked {
  readonly blank: Blank;
  readonly result: BeadResult;
  readonly bead: (id: string) => WorkedBead;
}
export const work = (panel: Panel): Worked => {
  const { blank, findings } = layOut(panel);
  if (blank === undefined) throw new Error(`no blank: ${findings.map((f) => f.message).join('; ')}`);
  const result = workBeads(panel, blank);
  return {
    blank,
    result,
    bead: (id) => {
      const found = result.beads.find((one) => one.id === id);
      if (found === undefined) throw new Error(`no bead ${id}: ${result.unworked.map((u) => u.message).join('; ')}`);
      return found;
    },
  };
};
