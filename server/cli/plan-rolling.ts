/** The part of `planish plan` that comes before the brake: beads in the order they are rolled, set-up by set-up. */
import { type BeadResult, edgeOfSheet, frameOver, type RunEnd, runEnds, type ScheduleRow, type WorkedBead } from '../bead/index.js';
import { sayAngle, sayBendSum, sayLength, sayLengthBare, saySize } from '../model/display.js';
import type { HomeUnit } from '../model/model.js';

/** A bow below this is not worth a line, mm. Common practice, no source. */
const hair = 1;

/** Beads that no roller of the shop reaches. */
export const outOfReach = (beads: BeadResult | undefined): readonly WorkedBead[] =>
  (beads?.beads ?? []).filter(({ reaches }) => reaches.length > 0 && !reaches.some(({ fits }) => fits));

/** For programs: mm, places from the lower left corner of the sheet as cut. Undefined for a part without beads. */
export const rollingReport = (beads: BeadResult | undefined): object | undefined => {
  if (beads === undefined || beads.schedule.length === 0) return undefined;
  const at = (end: RunEnd | undefined): readonly number[] | undefined => (end === undefined ? undefined : [end.at.x, end.at.y]);
  return {
    possible: outOfReach(beads).length === 0,
    die_changes: beads.setUps.dieChanges,
    turn_overs: beads.setUps.turnOvers,
    sheet_to_cut_mm: beads.drawIn === undefined ? undefined : [beads.drawIn.asCut.width, beads.drawIn.asCut.height],
    steps: beads.schedule.map((row) => {
      const ends = runEnds(beads, row);
      const reach = beads.beads.find(({ id }) => id === row.bead)?.reaches[0];
      return {
        step: row.step,
        bead: row.bead,
        track: row.track,
        roller: row.roller,
        die: row.die,
        dies: row.dies,
        lies: row.lies,
        frame_over: frameOver(beads, row),
        from_mm: at(ends?.first),
        to_mm: at(ends?.last),
        all_round: ends?.allRound ?? false,
        depths_mm: row.passes,
        reach_mm: reach?.needed,
        throat_mm: reach?.throat,
        fits: reach?.fits,
      };
    }),
  };
};

export interface RollingLine {
  readonly text: string;
  readonly kind: 'head' | 'set-up' | 'step' | 'detail' | 'note';
}

const times = (count: number): string => (count === 1 ? 'once' : count === 2 ? 'twice' : `${count} times`);
const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

/** What is done to go over to a row from the one before; undefined when nothing changes. */
const setUpOf = (row: ScheduleRow, first: boolean): string | undefined => {
  const fit = `fit ${row.die}${row.dies === 'turned over' ? ', the pair turned over' : ''}`;
  if (first) return `${fit}; the sheet ${row.lies}`;
  const steps = [...(row.changesDie ? [fit] : []), ...(row.turnsOver ? [`turn the sheet over, ${row.lies}`] : [])];
  return steps.length === 0 ? undefined : steps.join('; ');
};

/** Tips, cross-breaks and pressed rims: once the beads are rolled, and before any bend. */
const otherLines = ({ tips, crossBreaks, dimples, schedule }: BeadResult, unit: HomeUnit | undefined): readonly RollingLine[] => {
  const say = (mm: number): string => sayLength(mm, unit);
  const pressed = new Map<string, number>();
  for (const { diameter, direction } of dimples) {
    const words = `press the rim of the ${say(diameter)} hole ${direction}`;
    pressed.set(words, (pressed.get(words) ?? 0) + 1);
  }
  const work = [
    ...[...pressed].map(([words, count]) => (count === 1 ? words : `${words}, ${count} of them`)),
    ...tips.map(
      ({ edges, width, turn, direction }) =>
        `tip ${edges.map(({ edge }) => edge).join(', ')} ${direction} by ${sayAngle(turn)}, ${say(width)} wide`,
    ),
    ...crossBreaks.map(({ direction, depth }) => `cross-break ${direction}, the middle ${say(depth)} proud`),
  ];
  if (work.length === 0) return [];
  return [{ kind: 'note', text: `${schedule.length === 0 ? 'Before any bend' : 'Then, still before any bend'}: ${work.join('; ')}.` }];
};

/** The schedule as lines, without a head of the part's own. Empty for a part without roller work. */
export const rollingLines = (beads: BeadResult | undefined, unit: HomeUnit | undefined): readonly RollingLine[] => {
  if (beads === undefined) return [];
  if (beads.schedule.length === 0) return otherLines(beads, unit);
  const bare = (mm: number): string => sayLengthBare(mm, unit);
  const place = ({ at, runsOff }: RunEnd): string => `(${bare(at.x)}, ${bare(at.y)})${runsOff ? ' at the edge' : ''}`;
  const rollers = [...new Set(beads.schedule.flatMap(({ roller }) => roller ?? []))];
  const { dieChanges, turnOvers } = beads.setUps;
  const lines: RollingLine[] = [
    {
      kind: 'head',
      text: `Rolling, before any bend${rollers.length === 0 ? '; no roller described, so reach is not checked' : `, on ${rollers.join(', ')}`}`,
    },
  ];
  beads.schedule.forEach((row, index) => {
    const setUp = setUpOf(row, index === 0);
    if (setUp !== undefined) lines.push({ kind: 'set-up', text: setUp });
    lines.push({ kind: 'step', text: row.track });
    const ends = runEnds(beads, row);
    const reach = beads.beads.find(({ id }) => id === row.bead)?.reaches[0];
    const run =
      ends === undefined ? '' : ends.allRound ? `all round from ${place(ends.first)}` : `from ${place(ends.first)} to ${place(ends.last)}`;
    const over = frameOver(beads, row);
    lines.push({ kind: 'detail', text: `${run}, the frame ${over === 'inside' || over === 'outside' ? over : `over the ${over}`}` });
    const depths = row.passes.map((depth) => sayBendSum(depth, unit));
    lines.push({
      kind: 'detail',
      text:
        depths.length === 0
          ? 'depth not known: the die does not say'
          : `${counted(depths.length, 'pass', 'passes')}, set to ${depths.join(', then ')} from flat`,
    });
    if (reach !== undefined && !reach.fits)
      lines.push({ kind: 'detail', text: `out of reach: ${bare(reach.needed)} of sheet, and the throat is ${bare(reach.throat)}` });
  });
  const { drawIn } = beads;
  lines.push({
    kind: 'note',
    text: `${dieChanges === 0 ? 'The dies are not changed' : `The dies are changed ${times(dieChanges)}`}, the sheet is ${turnOvers === 0 ? 'not turned over' : `turned over ${times(turnOvers)}`}. Places count from the left and the bottom edge of the sheet as it is cut${drawIn === undefined ? '' : `, ${saySize(drawIn.asCut.width, drawIn.asCut.height, unit)}`}; the end named first goes in first, the sheet running away with the frame on your right. Roll each depth right along before you set the next.`,
  });
  const bows = (drawIn?.bows ?? []).filter(({ amount }) => amount > hair);
  if (bows.length > 0)
    lines.push({
      kind: 'note',
      text: `Trim after rolling: ${bows.map((bow) => `${edgeOfSheet(bow)} up to ${sayBendSum(bow.amount, unit)}`).join('; ')}.`,
    });
  return [...lines, ...otherLines(beads, unit)];
};
