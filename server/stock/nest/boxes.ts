/**
 * Upright rectangles in a strip: the front line of what is laid is kept as steps, and the deepest step is filled next, by every rectangle in turn
 * that fits, or left as waste as far as the length aimed at allows.
 */
import type { Random } from './random.js';

export interface BoxKind {
  /** Length along the strip and height across it, for each shape it may take. */
  readonly sides: readonly { readonly shape: number; readonly width: number; readonly height: number }[];
  readonly count: number;
}
export interface LaidBox {
  readonly kind: number;
  readonly shape: number;
  readonly x: number;
  readonly y: number;
}
export interface BoxAnswer {
  /** All of them, when they were laid. */
  readonly laid: readonly LaidBox[] | undefined;
  /** Every way was tried. */
  readonly exhausted: boolean;
}

interface Step {
  readonly y: number;
  readonly height: number;
  readonly level: number;
}

/** The front line with the stretch y … y + height of step `at` raised to `level`; steps of one level are joined. */
const raised = (steps: readonly Step[], at: number, height: number, level: number): Step[] => {
  const out: Step[] = [];
  const add = (step: Step): void => {
    const last = out[out.length - 1];
    if (last !== undefined && last.level === step.level) out[out.length - 1] = { ...last, height: last.height + step.height };
    else if (step.height > 0) out.push(step);
  };
  for (let i = 0; i < steps.length; i++) {
    const step = steps[i] as Step;
    if (i !== at) add(step);
    else {
      add({ y: step.y, height, level });
      add({ y: step.y + height, height: step.height - height, level: step.level });
    }
  }
  return out;
};

/**
 * Lays all rectangles in a strip of this height and length, if it finds how.
 *
 * @param length may be infinite: then the first way down is taken
 * @param budget placements tried at most
 * @param noise 0 takes what fits best first; more shuffles the order
 */
export const layBoxes = (
  kinds: readonly BoxKind[],
  height: number,
  length: number,
  budget: number,
  noise: number,
  random: Random,
): BoxAnswer => {
  const left = kinds.map((kind) => kind.count);
  const laid: LaidBox[] = [];
  let remaining = left.reduce((sum, count) => sum + count, 0);
  let nodes = 0;
  const area = kinds.reduce((sum, kind) => {
    const side = kind.sides[0];
    return side === undefined ? sum : sum + kind.count * side.width * side.height;
  }, 0);
  const open = !Number.isFinite(length);

  const descend = (steps: readonly Step[], waste: number): boolean => {
    if (remaining === 0) return true;
    if (nodes++ > budget) return false;
    let at = 0;
    for (let i = 1; i < steps.length; i++) if ((steps[i] as Step).level < (steps[at] as Step).level) at = i;
    const step = steps[at] as Step;
    const before = steps[at - 1]?.level ?? Number.POSITIVE_INFINITY;
    const after = steps[at + 1]?.level ?? Number.POSITIVE_INFINITY;
    const wall = Math.min(before, after, length);
    const choices: { kind: number; side: BoxKind['sides'][number]; score: number }[] = [];
    kinds.forEach((kind, k) => {
      if ((left[k] as number) === 0) return;
      for (const side of kind.sides) {
        if (side.height > step.height || step.level + side.width > length) continue;
        const fills = side.height === step.height ? 2 : side.height / step.height;
        const end = step.level + side.width;
        const flush = end === before || end === after || end === length ? 1 : 0;
        const size = (side.width * side.height * kinds.length) / area;
        choices.push({ kind: k, side, score: fills + flush + 0.5 * Math.min(1, size) + noise * random.next() });
      }
    });
    choices.sort((a, b) => b.score - a.score || a.kind - b.kind);
    for (const { kind, side } of choices) {
      left[kind] = (left[kind] as number) - 1;
      remaining--;
      laid.push({ kind, shape: side.shape, x: step.level, y: step.y });
      if (descend(raised(steps, at, side.height, step.level + side.width), waste)) return true;
      laid.pop();
      remaining++;
      left[kind] = left[kind] + 1;
      if (nodes > budget) return false;
    }
    if (!Number.isFinite(wall)) return false;
    const lost = step.height * (wall - step.level);
    if (!open && (lost > waste || lost === 0)) return false;
    return descend(raised(steps, at, step.height, wall), waste - lost);
  };

  const done = descend([{ y: 0, height, level: 0 }], open ? Number.POSITIVE_INFINITY : length * height - area);
  return { laid: done ? laid : undefined, exhausted: !done && nodes <= budget };
};

/** Lengths between two limits that rectangles laid end to end can amount to, shortest first; undefined when there are too many to list. */
export const reachableLengths = (kinds: readonly BoxKind[], least: number, most: number): readonly number[] | undefined => {
  let sums = new Set<number>([0]);
  for (const kind of kinds) {
    for (let c = 0; c < kind.count; c++) {
      const next = new Set(sums);
      for (const sum of sums) for (const side of kind.sides) if (sum + side.width <= most) next.add(sum + side.width);
      if (next.size > 20_000) return undefined;
      if (next.size === sums.size) break;
      sums = next;
    }
  }
  return [...sums].filter((sum) => sum >= least).sort((a, b) => a - b);
};
