/**
 * What changed between two versions of a file's parts, in the terms in which they were designed: sheet, outline, steps of the edges, corners, holes, beads;
 * and after those what follows from them: blank, bends, mass, reach, order.
 */
import type { BeadResult } from '../bead/types.js';
import type { Blank } from '../blank/types.js';
import type { MeasureRow } from '../measure/index.js';
import type { Part } from '../model/part.js';
import type { Box, Point } from '../shape/path.js';
import { type CompareOptions, writtenFacts } from './compare-facts.js';
import type { Facts } from './compare-piece.js';
import type { Figure } from './documents/blocks.js';
import { type Drawing, drawBlank } from './drawing.js';
import { type Ink, type Mark, narrow, type Page, wide } from './pages/page.js';
import { inkOf, marksOfStroke } from './pattern-marks.js';
import { drawPiece } from './piece-drawing.js';
import { isCutFromLength } from './piece-words.js';

/** One version of a part with all that is known of it. */
export interface Version {
  readonly part: Part;
  readonly blank: Blank | undefined;
  /** What its beads come to. */
  readonly beads?: BeadResult | undefined;
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

/** What reads alike and is not is told from `exact`: sizes nearer to one another than a rule reads. */
const differences = (
  name: string,
  old: Facts,
  now: Facts,
  kind: Change['kind'],
  exact: { readonly old: Facts; readonly now: Facts } = { old, now },
): readonly Change[] =>
  [...new Set([...old.keys(), ...now.keys()])].flatMap((what) => {
    const [before, after] = old.get(what) === now.get(what) ? [exact.old.get(what), exact.now.get(what)] : [old.get(what), now.get(what)];
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
      ...differences(name, writtenFacts(before.part, options), writtenFacts(after.part, options), 'written', {
        old: writtenFacts(before.part, options, true),
        now: writtenFacts(after.part, options, true),
      }),
      ...differences(name, measured(before), measured(after), 'follows'),
    ];
    if (changes.length > 0) changes.push(...differences(name, order(before), order(after), 'follows'));
    return { name, state: changes.length === 0 ? 'same' : 'changed', changes, old: before, new: after };
  });
};

const oldInk: Ink = { width: narrow, dash: [3, 1.5], colour: '#a03020' };
const newInk: Ink = { width: wide };

const origin: Point = { x: 0, y: 0 };
const drawingOf = (
  { part, blank, beads }: Version,
  options: CompareOptions,
): { readonly drawing: Drawing; readonly datum: Point } | undefined => {
  if (isCutFromLength(part)) {
    // No words are drawn: letters only set the bent shape apart from the straight one, in both versions alike.
    const drawing = part.broken ? undefined : drawPiece(part, options, 2);
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
  return blank === undefined ? undefined : { drawing: drawBlank(part, blank, { ...options, beads }), datum: blank.datum };
};

interface Overlay {
  /** Lower left corner of both at the origin, mm of the part. */
  readonly marks: readonly Mark[];
  readonly width: number;
  readonly height: number;
}
/** Old thin and dashed, new solid, the two laid over one another as the parts' own coordinates lie; lines `thick` times as wide as on a sheet. */
const overlayOf = ({ old, new: now }: PartComparison, options: CompareOptions, thick: (size: number) => number): Overlay | undefined => {
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
  const [width, height] = [max.x - min.x, max.y - min.y];
  const factor = thick(Math.max(width, height));
  const thicker = (ink: Ink): Ink => ({
    ...ink,
    width: ink.width * factor,
    ...(ink.dash === undefined ? {} : { dash: ink.dash.map((each) => each * factor) }),
  });
  const marks = shown.map(
    ({ drawing, datum, isOld }): Mark => ({
      kind: 'placed',
      to: { x: datum.x - min.x, y: datum.y - min.y },
      marks: drawing.strokes.flatMap((stroke) =>
        marksOfStroke(stroke, (layer) => {
          const own = inkOf(layer);
          if (own === undefined || layer === 'brake_line' || layer === 'mark') return undefined;
          return thicker(isOld ? oldInk : own.width === wide ? newInk : { width: narrow });
        }),
      ),
    }),
  );
  return { marks, width, height };
};

const sayOverlay = ({ old, new: now }: PartComparison): string =>
  old === undefined ? 'new' : now === undefined ? 'old' : 'old thin and dashed, new solid';

/** The overlay as one page at true size. A large part gets thick lines and letters: its picture is looked at from afar. */
export const overlayPage = (part: PartComparison, options: CompareOptions): Page | undefined => {
  const letters = (size: number): number => Math.max(3.5, size * 0.018);
  const overlay = overlayOf(part, options, (size) => letters(size) / 3.5);
  if (overlay === undefined) return undefined;
  const { width, height, marks } = overlay;
  const size = letters(Math.max(width, height));
  const margin = Math.max(8, width * 0.03);
  return {
    title: `${part.name}: ${sayOverlay(part)}`,
    width: Math.max(width + 2 * margin, size * 26),
    height: height + 2 * margin + size * 3,
    marks: [
      { kind: 'placed', marks, to: { x: margin, y: margin + size * 3 } },
      { kind: 'text', text: `${part.name}: ${sayOverlay(part)}`, at: { x: margin, y: size * 1.2 }, size },
    ],
  };
};

/** The overlay as a figure, as large as the room allows and no larger than the part. mm on paper */
export const overlayFigure = (part: PartComparison, options: CompareOptions, room: number, tallest: number): Figure | undefined => {
  const overlay = overlayOf(part, options, () => 1);
  if (overlay === undefined || overlay.width <= 0 || overlay.height <= 0) return undefined;
  const air = 2;
  const scale = Math.min(1, (room - 2 * air) / overlay.width, (tallest - 2 * air) / overlay.height);
  return {
    width: overlay.width * scale + 2 * air,
    height: overlay.height * scale + 2 * air,
    words: `${part.name}: ${sayOverlay(part)}`,
    caption: `${part.name}: ${sayOverlay(part)}`,
    marks: [{ kind: 'placed', marks: overlay.marks, scale, to: { x: air, y: air } }],
  };
};
