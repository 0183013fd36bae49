/** What a job of cutting came to, as its list, its drawings and its tables read it. */
import type { BillRow, LengthOutcome, PartCut, SheetOutcome, SheetPicture, StraightCut } from '../../stock/index.js';

export interface CuttingOutcome {
  readonly sheets: readonly (SheetOutcome & {
    readonly pictures: readonly SheetPicture[];
    /** The search ended by itself, and not because its time was up. */
    readonly settled: boolean;
  })[];
  readonly lengths: readonly LengthOutcome[];
  readonly parts: readonly PartCut[];
  /** Parts that are left out, and why. */
  readonly left: readonly { readonly part: string; readonly reason: string }[];
  readonly bill: readonly BillRow[];
}

/** The number of each part in this job, from 1, by which it is found in drawings and tables. */
export const numbersOf = ({ parts }: CuttingOutcome): ReadonlyMap<string, number> =>
  new Map(parts.flatMap(({ name }, i) => [[name, i + 1] as const, [`${name} (opposite hand)`, i + 1] as const]));

export const money = (amount: number | undefined, currency: string): string =>
  amount === undefined ? '' : `${amount < 0 ? '−' : ''}${currency}${Math.abs(amount).toFixed(2)}`;

/** Sums by the sign of money, in the order in which the signs are met. */
export const costs = (bill: readonly BillRow[]): readonly { readonly currency: string; readonly sum: number }[] => {
  const sums = new Map<string, number>();
  for (const { cost, currency } of bill) if (cost !== undefined) sums.set(currency, (sums.get(currency) ?? 0) + cost);
  return [...sums].map(([currency, sum]) => ({ currency, sum }));
};

/** What is left of a sheet worth keeping, as the shop file writes a remnant: across the grain, then along it. */
export const remnantsOf = ({ offcuts, grain }: SheetPicture): readonly { readonly across: number; readonly along: number }[] =>
  offcuts.map(({ width, height }) => (grain === 'x' ? { across: height, along: width } : { across: width, along: height }));

/** Narrower than this is not told of as left, mm: as in the nesting. */
const leastLeft = 50;
/** What is left once the straight cuts are made in their order: a rectangle that one of them runs through comes apart there. */
export const leftAfter = (picture: SheetPicture, cuts: readonly StraightCut[], kerf: number): SheetPicture => {
  type Rest = SheetPicture['offcuts'][number];
  const parted = (rests: readonly Rest[], { axis, at, from, to }: StraightCut): readonly Rest[] =>
    rests.flatMap((rest): readonly Rest[] => {
      const [size, along, other] = axis === 'x' ? (['width', 'y', 'height'] as const) : (['height', 'x', 'width'] as const);
      const [near, far] = [at - kerf / 2 - rest[axis], rest[axis] + rest[size] - at - kerf / 2];
      if (near <= 0 || far <= 0 || to <= rest[along] || from >= rest[along] + rest[other]) return [rest];
      return [
        { ...rest, [size]: near },
        { ...rest, [axis]: at + kerf / 2, [size]: far },
      ].filter(({ width, height }) => Math.min(width, height) >= leastLeft);
    });
  return { ...picture, offcuts: cuts.reduce(parted, picture.offcuts) };
};
