/** A mark-out in words and tables: lines from the left edge, from the bottom edge, centres, and what is square to neither. */
import { decimal, sayLengthBare } from '../model/display.js';
import type { Point } from '../shape/path.js';
import type { Block, Column, InnerBlock } from './documents/blocks.js';
import type { DisplayOptions } from './drawing.js';
import { joinedRuns, type MarkOut, type PunchedCentre, type ScribedLine, same } from './mark-out.js';

/** So many rows don't make two columns. */
export const few = 4;

/** From this many centres on, those of one size at one height are told as a row. */
const many = 12;
const leastRow = 4;
const inRows = (
  centres: readonly PunchedCentre[],
): {
  readonly rows: readonly { readonly y: number; readonly xs: readonly number[]; readonly size: string }[];
  readonly single: readonly PunchedCentre[];
} => {
  if (centres.length < many) return { rows: [], single: centres };
  const groups: { y: number; size: string; own: PunchedCentre[] }[] = [];
  for (const centre of centres) {
    const known = groups.find(({ y, size }) => size === centre.size && Math.abs(y - centre.at.y) < same);
    if (known === undefined) groups.push({ y: centre.at.y, size: centre.size, own: [centre] });
    else known.own.push(centre);
  }
  return {
    rows: groups
      .filter(({ own }) => own.length >= leastRow)
      .map(({ y, size, own }) => ({ y, size, xs: own.map(({ at }) => at.x).sort((a, b) => a - b) }))
      .sort((a, b) => a.y - b.y),
    single: groups.filter(({ own }) => own.length < leastRow).flatMap(({ own }) => own),
  };
};

export interface MarkOutOptions extends DisplayOptions {
  /** The other unit beside the file's own. */
  readonly bothUnits?: boolean;
}

/** How a place is printed: as a rule reads it, exactly, and in the other unit when both are wanted; each rounded from the exact total. */
export interface Numbers {
  readonly own: string;
  readonly say: (mm: number) => string;
  readonly both: boolean;
  /** A cell for each column of `heads`. */
  readonly number: (mm: number) => readonly string[];
  readonly heads: (word: string) => readonly Column[];
  /** The exact place within a sentence. */
  readonly exact: (mm: number) => string;
}
export const numbersOf = (options: MarkOutOptions): Numbers => {
  const { unit, bothUnits: both = false } = options;
  const inches = unit?.name === 'inch';
  const own = inches ? 'in' : unit?.name === undefined || unit.name === 'millimetre' ? 'mm' : unit.name;
  const say = (mm: number): string => sayLengthBare(mm, unit, options.denominator);
  // Thousandths of an inch, hundredths of a millimetre.
  const exact = (mm: number): string => (inches ? (mm / 25.4).toFixed(3) : decimal(mm, 2));
  const other = (mm: number): string => (inches ? mm.toFixed(2) : (mm / 25.4).toFixed(3));
  const otherUnit = inches ? 'mm' : 'in';
  return {
    own,
    say,
    both,
    number: (mm) => [say(mm), exact(mm), ...(both ? [other(mm)] : [])],
    heads: (word) => [
      { title: `${word} ${own}`, share: 1.2, align: 'right', bold: true },
      { title: 'exact', share: 1, align: 'right' },
      ...(both ? [{ title: otherUnit, share: 1, align: 'right' as const }] : []),
    ],
    exact: (mm) => `${exact(mm)}${both ? ` (${other(mm)} ${otherUnit})` : ''}`,
  };
};

/** Two lines nearer than this can't be scribed side by side: the width of a scribed line with its burr, mm. Common practice, no source. */
const scribe = 0.2;

/** What is scribed as one line: the brake line where there is one, since the work is laid to it, with the exact places of what lies a hair off it. */
interface Scribed {
  readonly at: number;
  readonly what: readonly string[];
  readonly runs: ScribedLine['runs'];
  readonly beside: readonly { readonly at: number; readonly what: string }[];
}
const bendName = (what: string): string => what.replace(/^(?:bend|brake line) /, '');
const isBend = (what: string): boolean => what.startsWith('bend ');
const isBrake = (what: string): boolean => what.startsWith('brake line ');
const bent = (line: ScribedLine): string =>
  line.what
    .filter((what) => isBend(what) || isBrake(what))
    .map(bendName)
    .sort()
    .join('\n');
const asScribed = (lines: readonly ScribedLine[]): readonly Scribed[] => {
  const taken = new Set<ScribedLine>();
  return lines.flatMap((line): readonly Scribed[] => {
    if (taken.has(line)) return [];
    const only = (one: ScribedLine, is: (what: string) => boolean, not: (what: string) => boolean): boolean =>
      one.what.some(is) && !one.what.some(not);
    const pair = (brake: ScribedLine, bend: ScribedLine): boolean => only(brake, isBrake, isBend) && only(bend, isBend, isBrake);
    const mate = lines.find(
      (one) =>
        one !== line &&
        !taken.has(one) &&
        Math.abs(one.at - line.at) < scribe &&
        (pair(line, one) || pair(one, line)) &&
        bent(one) === bent(line),
    );
    if (mate === undefined) return [{ at: line.at, what: line.what, runs: line.runs, beside: [] }];
    taken.add(mate);
    const [brake, bend] = line.what.some(isBrake) ? [line, mate] : [mate, line];
    const others = bend.what.filter((what) => !isBend(what));
    return [
      {
        at: brake.at,
        what: brake.what,
        runs: joinedRuns([...brake.runs, ...bend.runs]),
        beside: [{ at: bend.at, what: ['middle', ...others].join(' and ') }],
      },
    ];
  });
};

/** The sheet's words and tables for one part. */
export const markOutBlocks = (out: MarkOut, options: MarkOutOptions): readonly Block[] => {
  const numbers = numbersOf(options);
  const { own, say, number, heads, exact } = numbers;
  const scribed = (from: 'left' | 'bottom', title: string): readonly Block[] => {
    const rows = asScribed(out.lines.filter((line) => line.from === from && line.at > same));
    if (rows.length === 0) return [];
    return [
      { kind: 'heading', level: 3, text: title },
      {
        kind: 'table',
        tick: true,
        columns: [
          ...heads('at'),
          { title: 'scribe', share: 4.4 },
          { title: from === 'left' ? 'between (from bottom)' : 'between (from left)', share: 2.4 },
        ],
        rows: rows.map((line) => [
          ...number(line.at),
          scribedWords(line, exact),
          line.runs.map(([start, end]) => `${say(start)} and ${say(end)}`).join('\n'),
        ]),
      },
    ];
  };
  return [
    {
      kind: 'paragraph',
      text: `Square up ${say(out.width)} × ${say(out.height)} ${own} or more; cut to that, both diagonals are ${say(Math.hypot(out.width, out.height))} ${own}. Face toward you. Every number counts from the left or the bottom edge, none from the line before it.`,
    },
    ...scribed('left', 'From the left edge'),
    ...scribed('bottom', 'From the bottom edge'),
    ...centreBlocks(out, numbers),
    ...slopingBlocks(out, numbers),
  ];
};

/** `brake line top.1 up 90°  R 1/16 (middle 2.954); cut`. */
const scribedWords = ({ what, beside }: Scribed, exact: (mm: number) => string): string => {
  const bends = what.filter((one) => isBend(one) || isBrake(one));
  const others = what.filter((one) => !isBend(one) && !isBrake(one));
  const near = beside.map((one) => `${one.what} ${exact(one.at)}`).join(', ');
  return [...(bends.length === 0 ? [] : [`${joined(bends)}${near === '' ? '' : ` (${near})`}`]), ...others].join('; ');
};

/** `brake line top.1.left.1, bottom.1.left.1 up 90° R 1/16` where the same is done at both; else each in full. */
const joined = (what: readonly string[]): string => {
  const parts = what.map((one) => /^(brake line|bend) (\S+)\s+(.*)$/.exec(one));
  const [first] = parts;
  if (what.length < 2 || first === null || first === undefined || parts.some((part) => part?.[1] !== first[1] || part?.[3] !== first[3]))
    return what.join('; ');
  return `${first[1]} ${parts.map((part) => part?.[2]).join(', ')}  ${first[3]}`;
};

const centreBlocks = (out: MarkOut, { own, say, both, number, heads }: Numbers): readonly Block[] => {
  const { rows, single } = inRows(out.centres);
  const table: readonly InnerBlock[] =
    single.length === 0
      ? []
      : [
          {
            kind: 'table',
            tick: true,
            columns: [...heads('left'), ...heads('bottom'), { title: 'what goes there', share: both ? 3.6 : 1.8 }],
            rows: single.map(({ at, what }) => [...number(at.x), ...number(at.y), what]),
          },
        ];
  return [
    ...(rows.length === 0
      ? []
      : [
          { kind: 'heading', level: 3, text: 'Rows of centres to punch' } as const,
          {
            kind: 'table',
            tick: true,
            columns: [...heads('bottom'), { title: `left ${own}`, share: 5.8 }, { title: 'what goes there', share: 1.4 }],
            rows: rows.map((row) => [...number(row.y), row.xs.map((x) => say(x)).join(' · '), `${row.xs.length} × ${row.size}`]),
          } as const,
        ]),
    ...(single.length === 0
      ? []
      : [
          { kind: 'heading', level: 3, text: rows.length === 0 ? 'Centres to punch' : 'Single centres to punch' } as const,
          ...(both || single.length <= few ? table : [{ kind: 'columns', count: 2, blocks: table } as const]),
        ]),
  ];
};

const slopingBlocks = (out: MarkOut, { number }: Numbers): readonly Block[] => {
  if (out.drawn.length === 0) return [];
  // One line of the cell for each way of writing: the fraction over the decimals.
  const point = ({ x, y }: Point): string => {
    const [xs, ys] = [number(x), number(y)];
    return xs.map((each, i) => `${each}, ${ys[i] ?? ''}`).join('\n');
  };
  const arcs = out.drawn.some(({ arc }) => arc !== undefined);
  const table: InnerBlock = {
    kind: 'table',
    tick: true,
    columns: [
      { title: 'from (left, bottom)', share: 2 },
      { title: 'to (left, bottom)', share: 2 },
      ...(arcs
        ? [
            { title: 'arc about (left, bottom)', share: 2 },
            { title: 'radius', share: 1 },
          ]
        : []),
      { title: 'what', share: arcs ? 1.6 : 0.9 },
    ],
    rows: out.drawn.map(({ from, to, arc, what }) => [
      point(from),
      point(to),
      ...(arcs ? (arc === undefined ? ['', ''] : [point(arc.centre), number(arc.radius).join('\n')]) : []),
      what,
    ]),
  };
  return [{ kind: 'heading', level: 3, text: 'Sloping lines and arcs' }, arcs ? table : { kind: 'columns', count: 2, blocks: [table] }];
};
