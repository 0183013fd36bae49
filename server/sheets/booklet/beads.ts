/** The roller work of one part: in which order, with which dies, from which end, how deep in each pass; what is trimmed afterwards. */
import type { BeadResult, ScheduleRow } from '../../bead/index.js';
import { sayAngle } from '../../brake/index.js';
import { sayBendSum } from '../../model/display.js';
import { signedArea } from '../../shape/loops.js';
import type { Point } from '../../shape/path.js';
import type { Block } from '../documents/blocks.js';
import type { Saying } from './types.js';

/** A bow below this is not worth a line, mm. Common practice, no source. */
const hair = 1;

export const beadBlocks = (beads: BeadResult | undefined, saying: Saying): readonly Block[] => {
  if (beads === undefined) return [];
  return [...schedule(beads, saying), ...takenIn(beads, saying), ...bowed(beads, saying), ...others(beads, saying)];
};

const near = (a: Point, b: Point): boolean => Math.hypot(a.x - b.x, a.y - b.y) < 1e-3;

/** Where an end of a run lies on the sheet as it is marked. */
const onSheet = (beads: BeadResult, row: ScheduleRow, p: Point): Point => {
  const track = beads.beads.flatMap(({ tracks }) => tracks).find(({ id }) => id === row.track);
  const mark = beads.drawIn?.marks.find((one) => one.track === row.track)?.path;
  const shift = beads.drawIn?.shift ?? { x: 0, y: 0 };
  if (track !== undefined && mark !== undefined) {
    if (near(track.path.start, p)) return mark.start;
    const last = track.path.moves.length - 1;
    if (last >= 0 && near((track.path.moves[last] as { readonly to: Point }).to, p)) return mark.moves[last]?.to ?? p;
  }
  return { x: p.x + shift.x, y: p.y + shift.y };
};

const schedule = (beads: BeadResult, saying: Saying): readonly Block[] => {
  if (beads.schedule.length === 0) return [];
  const { dieChanges, turnOvers } = beads.setUps;
  const times = (count: number, word: string): string => (count === 0 ? `no ${word}` : count === 1 ? `one ${word}` : `${count} ${word}s`);
  const first = beads.schedule[0];
  const rollers = [...new Set(beads.schedule.flatMap(({ roller }) => roller ?? []))];
  return [
    { kind: 'heading', level: 2, text: rollers.length === 0 ? 'Rolling the beads' : `Rolling the beads on ${rollers.join(', ')}` },
    {
      kind: 'paragraph',
      text:
        `Before any bend, in this order: ${times(dieChanges, 'change of dies')}, the sheet turned over ${turnOvers === 0 ? 'never' : turnOvers === 1 ? 'once' : `${turnOvers} times`}. ` +
        'Put the end named first into the dies; the sheet then runs away from you with the frame on your right, over the side named (as the sheet is drawn). Roll the whole bead at one depth before you set the next.',
    },
    {
      kind: 'table',
      tick: true,
      columns: [
        { title: '', share: 0.5, align: 'right', bold: true },
        { title: 'bead', share: 1.5, bold: true },
        { title: 'die', share: 2 },
        { title: 'sheet lies', share: 1.3 },
        { title: 'frame over', share: 1.1 },
        { title: 'starts at (left, bottom)', share: 2 },
        { title: 'ends at (left, bottom)', share: 2 },
        { title: 'depths from flat', share: 1.9 },
      ],
      rows: beads.schedule.map((row) => {
        const at = (p: Point): string => {
          const { x, y } = onSheet(beads, row, p);
          return `${saying.bare(x)}, ${saying.bare(y)}`;
        };
        return [
          String(row.step),
          row.track,
          `${row.die}${row.dies === 'turned over' ? ', pair turned over' : ''}${row.changesDie && row !== first ? ' (change)' : ''}`,
          `${row.lies}${row.turnsOver && row !== first ? ' (turn over)' : ''}`,
          frameToward(beads, row),
          at(row.fromPoint),
          near(row.fromPoint, row.toPoint) ? 'the same, all round' : at(row.toPoint),
          row.passes.length === 0 ? 'not known' : row.passes.map((depth) => sayBendSum(depth, saying.display.unit)).join(', '),
        ];
      }),
    },
  ];
};
/** Over which part of the sheet the frame stands: the middle of a ring or what lies round it, else the edge that it is nearest to face. */
const frameToward = (beads: BeadResult, row: ScheduleRow): string => {
  const path = beads.beads.flatMap(({ tracks }) => tracks).find(({ id }) => id === row.track)?.path;
  if (path === undefined) return row.frame;
  if (path.closed) return signedArea(path.moves) > 0 === (row.frame === 'left') ? 'inside' : 'outside';
  const first = path.moves[0]?.to ?? path.start;
  const along = { x: first.x - path.start.x, y: first.y - path.start.y };
  const sign = row.frame === 'left' ? 1 : -1;
  const toward = { x: -along.y * sign, y: along.x * sign };
  if (Math.abs(toward.x) > Math.abs(toward.y)) return toward.x > 0 ? 'right' : 'left';
  return toward.y > 0 ? 'top' : 'bottom';
};

const takenIn = (beads: BeadResult, saying: Saying): readonly Block[] => {
  const growth = beads.drawIn?.growth;
  if (growth === undefined || Math.max(growth.used.width, growth.used.height, growth.full.width, growth.full.height) < 0.005) return [];
  const sum = (mm: number): string => sayBendSum(mm, saying.display.unit);
  const shares = [...new Set(beads.beads.flatMap(({ forming }) => forming?.shareFrom ?? []))];
  return [
    {
      kind: 'paragraph',
      text:
        `Rolling draws the sheet in: it is cut ${sum(growth.used.width)} wider and ${sum(growth.used.height)} higher than it has to be afterwards ` +
        `(nothing at all up to ${sum(growth.full.width)} and ${sum(growth.full.height)}, if all or none of each bead came from stretch). ` +
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
        { title: 'edge', share: 1 },
        { title: 'trim up to', share: 1.2, align: 'right', bold: true },
        { title: 'deepest at (left, bottom)', share: 2 },
        { title: 'trim to the line between', share: 3 },
      ],
      rows: bows.map((bow) => {
        const at = (p: Point): string => `${saying.bare(p.x)}, ${saying.bare(p.y)}`;
        return [
          bow.edge?.replace(/^edge:/, '') ?? 'unnamed',
          sayBendSum(bow.amount, saying.display.unit),
          at(bow.dimension[0]),
          `${at(bow.trim[0])} and ${at(bow.trim[1])}`,
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
