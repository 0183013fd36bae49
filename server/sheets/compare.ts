/**
 * What changed between two versions of a file's parts, in the terms in which they were designed: sheet, outline, steps of the edges, corners, holes, beads;
 * and after those what follows from them: blank, bends, mass, reach, order.
 */
import type { Blank } from '../blank/types.js';
import type { MeasureRow } from '../measure/index.js';
import type { Part } from '../model/part.js';
import type { Box, Point } from '../shape/path.js';
import { type CompareOptions, writtenFacts } from './compare-facts.js';
import type { Facts } from './compare-piece.js';
import { type Drawing, drawBlank } from './drawing.js';
import { type Ink, type Mark, narrow, type Page, wide } from './pages/page.js';
import { inkOf, marksOfStroke } from './pattern-marks.js';
import { drawPiece } from './piece-drawing.js';
import { isCutFromLength } from './piece-words.js';

/** One version of a part with all that is known of it. */
export interface Version {
  readonly part: Part;
  readonly blank: Blank | undefined;
  /** Its measured properties, as the table for people has them. */
  readonly rows: readonly MeasureRow[];
  /** The order in which its bends are made, in words; looked for only when something else has changed, since that takes its time. */
  readonly order?: () => string | undefined;
}
export interface Change {
  readonly part: string;
  /** `edge top, flange 1: length`, `blank width`. */
  readonly what: string;
  readonly old: string | undefined;
  readonly new: string | undefined;
  /** Written by the designer, or what follows from it. */
  readonly kind: 'written' | 'follows';
}
export interface PartComparison {
  readonly name: string;
  readonly state: 'same' | 'changed' | 'added' | 'removed';
  readonly changes: readonly Change[];
  readonly old: Version | undefined;
  readonly new: Version | undefined;
}
/** What is measured and yet only repeats what is written, told already: sizes of the sheet, angles, what a piece is cut from and how. */
const repeats = (row: MeasureRow, part: Part): boolean => {
  const path = row.path.slice(part.name.length + 1);
  if (isCutFromLength(part)) {
    const follows = ['short_length', 'mass', 'start.run', 'finish.run', 'eye.length', ...(part.kind === 'strap' ? ['length'] : [])];
    return !follows.includes(path);
  }
  // The part's own mass is the blank's; the sums of a bend all follow from its allowance.
  return (
    row.quantity === 'text' ||
    path === 'quantity' ||
    path === 'thickness' ||
    path.startsWith('sheet.') ||
    path === 'blank.mass' ||
    /^bends\..*\.(turn|deduction|setback|k)$/.test(path)
  );
};

/** Rows of the measured table without the part's own name in front. */
const measured = ({ part, rows }: Version): Facts =>
  new Map(
    rows
      .filter((row) => !repeats(row, part))
      .map(({ path, text }) => {
        const place = path.slice(part.name.length + 1);
        const dot = place.lastIndexOf('.');
        const property = place.slice(dot + 1).replaceAll('_', ' ');
        return [dot < 0 ? property : `${place.slice(0, dot)}: ${property}`, text];
      }),
  );

const differences = (name: string, old: Facts, now: Facts, kind: Change['kind']): readonly Change[] =>
  [...new Set([...old.keys(), ...now.keys()])].flatMap((what) => {
    const [before, after] = [old.get(what), now.get(what)];
    return before === after ? [] : [{ part: name, what, old: before, new: after, kind }];
  });

const order = (version: Version): Facts => {
  const words = version.order?.();
  return new Map(words === undefined ? [] : [['order of bending', words]]);
};

/** Sizes that were always going to follow are told only where they differ. */
export const compareParts = (old: readonly Version[], now: readonly Version[], options: CompareOptions): readonly PartComparison[] => {
  const names = [...new Set([...old, ...now].map(({ part }) => part.name))];
  return names.map((name): PartComparison => {
    const before = old.find(({ part }) => part.name === name);
    const after = now.find(({ part }) => part.name === name);
    if (before === undefined || after === undefined)
      return { name, state: before === undefined ? 'added' : 'removed', changes: [], old: before, new: after };
    const changes = [
      ...differences(name, writtenFacts(before.part, options), writtenFacts(after.part, options), 'written'),
      ...differences(name, measured(before), measured(after), 'follows'),
    ];
    if (changes.length > 0) changes.push(...differences(name, order(before), order(after), 'follows'));
    return { name, state: changes.length === 0 ? 'same' : 'changed', changes, old: before, new: after };
  });
};

const oldInk: Ink = { width: narrow, dash: [3, 1.5], colour: '#a03020' };
const newInk: Ink = { width: wide };

const origin: Point = { x: 0, y: 0 };
const drawingOf = ({ part, blank }: Version, options: CompareOptions): { readonly drawing: Drawing; readonly datum: Point } | undefined => {
  if (isCutFromLength(part)) {
    const drawing = part.broken ? undefined : drawPiece(part, options);
    if (drawing === undefined) return undefined;
    // The bent shape stands above the straight stock.
    const { min, max } = drawing.box;
    const all = [min, max, ...(drawing.beyond ?? [])];
    const box: Box = {
      min: { x: Math.min(...all.map(({ x }) => x)), y: Math.min(...all.map(({ y }) => y)) },
      max: { x: Math.max(...all.map(({ x }) => x)), y: Math.max(...all.map(({ y }) => y)) },
    };
    return { drawing: { ...drawing, box }, datum: origin };
  }
  return blank === undefined ? undefined : { drawing: drawBlank(part, blank, options), datum: blank.datum };
};

/** Old thin and dashed, new solid, the two laid over one another as the parts' own coordinates lie. One page, at true size; scaled by whoever places it. */
export const overlayPage = ({ name, old, new: now }: PartComparison, options: CompareOptions): Page | undefined => {
  const shown = [old, now].flatMap((version) => {
    const drawn = version === undefined ? undefined : drawingOf(version, options);
    return drawn === undefined ? [] : [{ ...drawn, isOld: version === old }];
  });
  if (shown.length === 0) return undefined;
  const boxes = shown.map(
    ({ drawing, datum }): Box => ({
      min: { x: drawing.box.min.x + datum.x, y: drawing.box.min.y + datum.y },
      max: { x: drawing.box.max.x + datum.x, y: drawing.box.max.y + datum.y },
    }),
  );
  const min = { x: Math.min(...boxes.map((box) => box.min.x)), y: Math.min(...boxes.map((box) => box.min.y)) };
  const max = { x: Math.max(...boxes.map((box) => box.max.x)), y: Math.max(...boxes.map((box) => box.max.y)) };
  const margin = Math.max(8, (max.x - min.x) * 0.03);
  const words = Math.max(3.5, Math.max(max.x - min.x, max.y - min.y) * 0.018);
  const scale = words / 3.5;
  const thicker = (ink: Ink): Ink => ({
    ...ink,
    width: ink.width * scale,
    ...(ink.dash === undefined ? {} : { dash: ink.dash.map((each) => each * scale) }),
  });
  const marks = shown.map(
    ({ drawing, datum, isOld }): Mark => ({
      kind: 'placed',
      to: { x: datum.x - min.x + margin, y: datum.y - min.y + margin + words * 3 },
      marks: drawing.strokes.flatMap((stroke) =>
        marksOfStroke(stroke, (layer) => {
          const own = inkOf(layer);
          if (own === undefined || layer === 'brake_line' || layer === 'mark') return undefined;
          return thicker(isOld ? oldInk : own.width === wide ? newInk : { width: narrow });
        }),
      ),
    }),
  );
  const width = max.x - min.x + 2 * margin;
  return {
    title: `${name}: old dashed, new solid`,
    width: Math.max(width, words * 26),
    height: max.y - min.y + 2 * margin + words * 3,
    marks: [...marks, { kind: 'text', text: `${name}: old thin and dashed, new solid`, at: { x: margin, y: words * 1.2 }, size: words }],
  };
};
