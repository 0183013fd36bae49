/** The first sheet: what the job is, a picture of its parts, the data fields of ISO 7200, what is in the booklet, and the shop it was worked out for. */
import { sayAngle } from '../../brake/index.js';
import { sayThickness } from '../../model/display.js';
import type { Brake, Die, Named, Roller, Saw, Sheet } from '../../model/shop.js';
import type { Block, Figure } from '../documents/blocks.js';
import { foldedFigure } from '../folded-figure.js';
import type { Mark } from '../pages/page.js';
import { linesOf, type Type } from '../pages/type.js';
import { blankSketch } from './blank-figure.js';
import { grey, letters } from './strokes.js';
import { type BookletInput, type BookletOptions, type BookletPart, type Saying, sayingIn } from './types.js';

export const coverBlocks = (input: BookletInput, options: BookletOptions, type: Type): readonly Block[] => {
  const { fields, parts } = input;
  const pieces = parts.reduce((sum, { part }) => sum + part.quantity + part.quantityOpposite, 0);
  // Chapters besides the parts: the shop, cautions, cutting, trials, what was not checked.
  const contents = Math.ceil((parts.length + 5) / 2) * 5;
  const picture = familyPicture(parts, { ...options, tallest: Math.max(60, options.tallest - 70 - contents) }, type);
  return [
    { kind: 'gap', height: 4 },
    { kind: 'paragraph', text: input.title, size: 10, bold: true },
    {
      kind: 'paragraph',
      text: `Job booklet: ${parts.length} ${parts.length === 1 ? 'part' : 'parts'}, ${pieces} ${pieces === 1 ? 'piece' : 'pieces'} to make${fileWords(input)}.`,
      size: 3.4,
    },
    ...(picture === undefined ? [] : [{ kind: 'figures', figures: [picture] } as const]),
    {
      kind: 'form',
      rows: [
        [
          { name: 'Legal owner', share: 2, ...given(fields.owner) },
          { name: 'Identification number', share: 1.4, ...given(fields.number) },
          { name: 'Revision index', ...given(fields.revision) },
        ],
        [
          { name: 'Created by', share: 1.6, ...given(fields.creator) },
          { name: 'Approved by', share: 1.6, ...given(fields.approver) },
          { name: 'Date of issue', value: fields.date, share: 1.2 },
        ],
      ],
    },
    { kind: 'heading', level: 2, text: 'Contents' },
    { kind: 'contents' },
    {
      kind: 'paragraph',
      text: 'True-size patterns are files of their own, to print on long paper or in tiles, or to send to a cutting table: planish pattern FILE PART -o OUT.pdf (or .dxf, .svg).',
    },
  ];
};
/** A file or a few by name, more by their number: the chapters name each. */
const fileWords = ({ files }: BookletInput): string =>
  files.length > 3 ? ` from ${files.length} files` : ` from ${files.map(({ name }) => name).join(', ')}`;

const given = (value: string | undefined): { readonly value?: string } => (value === undefined ? {} : { value });

/** At most so many parts are pictured; the largest come first. */
const mostPictured = 9;
const extentOf = ({ folded, blank }: BookletPart): number =>
  folded === undefined
    ? Math.hypot(blank?.width ?? 0, blank?.height ?? 0)
    : Math.hypot(
        folded.envelope.max.x - folded.envelope.min.x,
        folded.envelope.max.y - folded.envelope.min.y,
        folded.envelope.max.z - folded.envelope.min.z,
      );

/** All parts side by side, each as large as its place allows, with its name and how many. */
const familyPicture = (parts: readonly BookletPart[], options: BookletOptions, type: Type): Figure | undefined => {
  const shown = parts
    .filter(({ blank }) => blank !== undefined)
    .map((one, index) => ({ one, index, extent: extentOf(one) }))
    .sort((a, b) => b.extent - a.extent)
    .slice(0, mostPictured)
    .sort((a, b) => a.index - b.index);
  if (shown.length === 0) return undefined;
  const columns = shown.length === 1 ? 1 : shown.length <= 4 ? 2 : 3;
  const rows = Math.ceil(shown.length / columns);
  const cell = { width: options.room / columns, height: Math.min(80, options.tallest / rows) };
  const inner = { width: cell.width - 8, height: cell.height - 9 };
  const marks = shown.flatMap(({ one }, i): readonly Mark[] => {
    const { part, blank, folded } = one;
    if (blank === undefined) return [];
    const figure =
      folded === undefined || blank.bends.length === 0
        ? blankSketch(part, blank, inner.width, inner.height)
        : foldedFigure(part, folded.blank, folded, { unit: one.unit, beads: one.beads, room: inner, sized: false });
    const x = (i % columns) * cell.width;
    const y = (rows - 1 - Math.floor(i / columns)) * cell.height;
    const [name = part.name] = linesOf(type, part.name, 2.6, cell.width - 14);
    const count = part.quantity + part.quantityOpposite;
    return [
      {
        kind: 'placed',
        marks: figure.marks,
        to: { x: x + (cell.width - figure.width) / 2, y: y + 7 + (inner.height - figure.height) / 2 },
      },
      letters(count === 1 ? name : `${name}  × ${count}`, { x: x + cell.width / 2, y: y + 2 }, 2.6, { anchor: 'middle', colour: grey }),
    ];
  });
  return {
    width: options.room,
    height: rows * cell.height,
    words: `the parts of the job: ${shown.map(({ one }) => one.part.name).join(', ')}`,
    marks,
  };
};

const unique = <T extends Named>(things: readonly T[]): readonly T[] => {
  const seen = new Set<string>();
  return things.filter(({ file, name }) => {
    const key = `${file}\n${name}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
};

const methodWords = (sheet: Sheet): string => {
  const { method } = sheet;
  switch (method?.kind) {
    case undefined:
      return 'not stated';
    case 'k':
      return `K ${method.k}, as the sheet states it`;
    case 'din':
      return 'DIN 6935, no trial';
    case 'handbook':
      return `handbook rule for ${method.temper}, no trial`;
    case 'aircraft':
      return 'aircraft handbook formula, no trial';
    case 'trial':
      return `trial ${method.trial}, ${(method.strips ?? []).length} bent and measured`;
  }
};

/** Sheets, stock and machines that the parts were worked out for. */
export const shopBlocks = (input: BookletInput, options: BookletOptions): readonly Block[] => {
  const saying = sayingIn(options.unit, options);
  const parts = input.parts.map(({ part }) => part);
  const sheets = unique(parts.flatMap((part) => ('sheet' in part && part.sheet !== undefined ? [part.sheet.value] : [])));
  const stocks = unique(parts.flatMap((part) => ('stock' in part && part.stock !== undefined ? [part.stock.value] : [])));
  const dies = new Set(input.parts.flatMap(({ beads }) => beads?.beads.map(({ die }) => die.name) ?? []));
  const machines = [
    ...unique(parts.flatMap(({ brakes }) => brakes)).map((brake) => [brake.name, 'brake', brakeWords(brake, saying)]),
    ...unique(parts.flatMap(({ rollers }) => rollers)).map((roller) => [roller.name, 'bead roller', rollerWords(roller, saying)]),
    ...unique(parts.flatMap((part) => part.dies))
      .filter(({ name }) => dies.has(name))
      .map((die) => [die.name, 'dies', dieWords(die, saying)]),
    ...unique(parts.flatMap(({ saws }) => saws)).map((saw) => [saw.name, 'saw', sawWords(saw, saying)]),
  ];
  if (sheets.length + stocks.length + machines.length === 0) return [];
  return [
    { kind: 'heading', level: 1, text: 'The shop it was worked out for' },
    { kind: 'paragraph', text: 'Another sheet, another delivery or another brake gives other sizes. Check these lines before you cut.' },
    ...(sheets.length === 0
      ? []
      : [
          {
            kind: 'table',
            columns: [
              { title: 'sheet', share: 1.4, bold: true },
              { title: 'thickness', share: 1.2, align: 'right' },
              { title: 'material', share: 2 },
              { title: 'bend radius', share: 1.1, align: 'right' },
              { title: 'bends reckoned by', share: 3 },
            ],
            rows: sheets.map((sheet) => [
              sheet.name,
              sayThickness(sheet.thickness, options.unit),
              [sheet.material?.name, sheet.material?.coating].filter(Boolean).join(', ') || 'not named',
              sheet.bendRadius === undefined ? '–' : saying.bare(sheet.bendRadius),
              methodWords(sheet),
            ]),
          } as const,
        ]),
    ...(stocks.length === 0
      ? []
      : [
          {
            kind: 'table',
            columns: [
              { title: 'stock', share: 2, bold: true },
              { title: 'kind', share: 1.2 },
              { title: 'material', share: 2 },
              { title: 'sold in lengths of', share: 2, align: 'right' },
            ],
            rows: stocks.map((stock) => [
              stock.name,
              stock.type,
              stock.material?.name ?? 'not named',
              stock.length === undefined ? '–' : saying.say(stock.length),
            ]),
          } as const,
        ]),
    ...(machines.length === 0
      ? []
      : [
          {
            kind: 'table',
            columns: [
              { title: 'machine', share: 1.4, bold: true },
              { title: 'kind', share: 1 },
              { title: 'as described', share: 5 },
            ],
            rows: machines,
          } as const,
        ]),
  ];
};

const listed = (words: readonly string[]): string => (words.length === 0 ? 'nothing said of it' : words.join(', '));
const size = (word: string, value: number | undefined, { say }: Saying): readonly string[] =>
  value === undefined ? [] : [`${word} ${say(value)}`];
const brakeWords = (brake: Brake, saying: Saying): string => {
  const sections = (['nose', 'bed', 'apron'] as const).filter((tool) => brake[tool] !== undefined);
  return listed([
    brake.type === 'leaf' ? 'one leaf' : `fingers ${brake.fingers.map(saying.bare).join(', ')}`,
    ...size('length', brake.length, saying),
    ...(brake.capacity === undefined
      ? []
      : [
          `bends ${sayThickness(brake.capacity.thickness, saying.display.unit)}${brake.capacity.material === undefined ? '' : ` of ${brake.capacity.material.name}`}`,
        ]),
    ...size('least flange', brake.leastFlange, saying),
    ...(brake.greatestTurn === undefined ? [] : [`turns ${sayAngle(brake.greatestTurn)}`]),
    ...size('jaw', brake.jaw, saying),
    ...size('fingers deep', brake.depth, saying),
    sections.length === 0 ? 'no nose, bed or apron described' : `${sections.join(', ')} described`,
  ]);
};
const rollerWords = (roller: Roller, saying: Saying): string =>
  listed([
    ...size('throat', roller.throat, saying),
    ...(roller.thickest === undefined
      ? []
      : [
          `beads ${sayThickness(roller.thickest.thickness, saying.display.unit)}${roller.thickest.material === undefined ? '' : ` of ${roller.thickest.material.name}`}`,
        ]),
    ...size('frame', roller.arm, saying),
  ]);
const dieWords = (die: Die, saying: Saying): string =>
  listed([
    die.shape,
    ...size('width', die.width, saying),
    ...size('depth', die.depth, saying),
    ...size('tightest turn', die.tightestTurn, saying),
    ...size('per pass', die.perPass, saying),
  ]);
const sawWords = (saw: Saw, saying: Saying): string => listed(size('kerf', saw.kerf, saying));
