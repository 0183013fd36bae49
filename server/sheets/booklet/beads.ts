/** The roller work of one part: in which order, with which dies, from which end, how deep in each pass; what is trimmed afterwards. */
import { type BeadResult, edgeOfSheet, frameOver, type RunEnd, runEnds } from '../../bead/index.js';
import { sayAngle } from '../../brake/index.js';
import { sayBendSum } from '../../model/display.js';
import type { Point } from '../../shape/path.js';
import type { Block } from '../documents/blocks.js';
import type { Saying } from './types.js';

/** A bow below this is not worth a line, mm. Common practice, no source. */
const hair = 1;

export const beadBlocks = (beads: BeadResult | undefined, saying: Saying): readonly Block[] => {
  if (beads === undefined) return [];
  return [...schedule(beads, saying), ...takenIn(beads, saying), ...bowed(beads, saying), ...others(beads, saying)];
};

const schedule = (beads: BeadResult, saying: Saying): readonly Block[] => {
  if (beads.schedule.length === 0) return [];
  const { dieChanges, turnOvers } = beads.setUps;
  const changes =
    dieChanges === 0 ? 'without a change of dies' : dieChanges === 1 ? 'with one change of dies' : `with ${dieChanges} changes of dies`;
  const turns =
    turnOvers === 0
      ? 'without turning the sheet over'
      : turnOvers === 1
        ? 'turning the sheet over once'
        : `turning the sheet over ${turnOvers} times`;
  const first = beads.schedule[0];
  const inches = saying.display.unit?.name === 'inch' || saying.display.unit?.name === 'foot';
  const depth = (mm: number): string => sayBendSum(mm, saying.display.unit).replace(/ \w+$/, '');
  const rollers = [...new Set(beads.schedule.flatMap(({ roller }) => roller ?? []))];
  return [
    { kind: 'heading', level: 2, text: rollers.length === 0 ? 'Rolling the beads' : `Rolling the beads on ${rollers.join(', ')}` },
    {
      kind: 'paragraph',
      text:
        `Before any bend, in this order, ${changes} and ${turns}. ` +
        'Put the end named first into the dies; the sheet then runs away from you with the frame on your right, over the side named (as the sheet is drawn). Roll the whole bead at one depth before you set the next.',
    },
    {
      kind: 'table',
      tick: true,
      columns: [
        { title: '', share: 0.4, align: 'right', bold: true },
        { title: 'bead', share: 1.3, bold: true },
        { title: 'die', share: 1.7 },
        { title: 'sheet lies', share: 1.1 },
        { title: 'frame over', share: 1.1 },
        { title: 'starts at (left, bottom)', share: 2.3 },
        { title: 'ends at (left, bottom)', share: 2.3 },
        { title: `depths from flat, ${inches ? 'in' : 'mm'}`, share: 1.8 },
      ],
      rows: beads.schedule.map((row) => {
        const ends = runEnds(beads, row);
        const at = (end: RunEnd | undefined): string =>
          end === undefined ? '' : `${saying.bare(end.at.x)}, ${saying.bare(end.at.y)}${end.runsOff ? ' (the edge)' : ''}`;
        return [
          String(row.step),
          row.track,
          `${row.die}${row.dies === 'turned over' ? ', pair turned over' : ''}${row.changesDie && row !== first ? ' (change)' : ''}`,
          `${row.lies}${row.turnsOver && row !== first ? ' (turn over)' : ''}`,
          frameOver(beads, row),
          at(ends?.first),
          ends?.allRound === true ? 'the same, all round' : at(ends?.last),
          row.passes.length === 0 ? 'not known' : row.passes.map(depth).join(', '),
        ];
      }),
    },
  ];
};
const takenIn = (beads: BeadResult, saying: Saying): readonly Block[] => {
  const growth = beads.drawIn?.growth;
  if (growth === undefined || Math.max(growth.used.width, growth.used.height, growth.full.width, growth.full.height) < 0.005) return [];
  const sum = (mm: number): string => sayBendSum(mm, saying.display.unit);
  const more = ({ width, height }: { readonly width: number; readonly height: number }): string =>
    [...(width < 0.005 ? [] : [`${sum(width)} wider`]), ...(height < 0.005 ? [] : [`${sum(height)} higher`])].join(' and ') || 'no larger';
  const shares = [...new Set(beads.beads.flatMap(({ forming }) => forming?.shareFrom ?? []))];
  return [
    {
      kind: 'paragraph',
      text:
        `Rolling draws the sheet in: it is cut ${more(growth.used)} than it has to be afterwards ` +
        `(anything from no more at all to ${more(growth.full)}, as all or none of each bead comes from stretch). ` +
        `Reckoned ${shares.length === 0 ? 'from the dies' : `by ${shares.join('; ')}`}. After rolling, before bending: measure over the edges, and mark bend lines anew where the sheet has not come in as reckoned.`,
    },
  ];
};

const bowed = (beads: BeadResult, saying: Saying): readonly Block[] => {
  const bows = (beads.drawIn?.bows ?? []).filter(({ amount }) => amount > hair);
  if (bows.length === 0) return [];
  return [
    { kind: 'heading', level: 3, text: 'Edges to trim after rolling' },
    {
      kind: 'table',
      tick: true,
      columns: [
        { title: 'edge', share: 2.2 },
        { title: 'trim up to', share: 1.1, align: 'right', bold: true },
        { title: 'deepest at (left, bottom)', share: 2 },
        { title: 'trim to the line between', share: 3 },
      ],
      rows: bows.map((bow) => {
        const at = (p: Point): string => `${saying.bare(p.x)}, ${saying.bare(p.y)}`;
        return [
          edgeOfSheet(bow),
          sayBendSum(bow.amount, saying.display.unit),
          at(bow.dimension[0]),
          `${at(bow.trim[0])}\nand ${at(bow.trim[1])}`,
        ];
      }),
    },
    {
      kind: 'paragraph',
      text: 'These edges are cut straight and bow inward where the beads cross them least. The numbers of this table count on the rolled sheet, from its left and bottom edge once they are trimmed.',
    },
  ];
};

const others = (beads: BeadResult, saying: Saying): readonly Block[] => {
  const items = [
    ...beads.tips.flatMap((tip) =>
      tip.edges.flatMap(({ edge, work }) => [
        `Tip ${tip.id}: turn ${edge} ${tip.direction} by ${sayAngle(tip.turn)}, ${saying.say(tip.width)} wide, a little more in each pass.`,
        ...(work?.notes ?? []).map(asSentence),
      ]),
    ),
    ...beads.crossBreaks.flatMap((one) => [
      `Cross-break ${one.direction}: two light bends from corner to corner, the middle ${saying.say(one.depth)} proud.`,
      ...one.work.notes.map(asSentence),
    ]),
    ...beads.dimples.flatMap((one) => [
      `${one.id}: rim of the ${saying.say(one.diameter)} hole pressed ${one.direction}.`,
      ...(one.work?.notes ?? []).map(asSentence),
    ]),
  ];
  return items.length === 0
    ? []
    : [
        { kind: 'heading', level: 3, text: 'Other work on the sheet before bending' },
        { kind: 'list', mark: 'tick', items: [...new Set(items)] },
      ];
};
export const asSentence = (text: string): string => {
  const capital = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.!?]$/.test(capital) ? capital : `${capital}.`;
};
