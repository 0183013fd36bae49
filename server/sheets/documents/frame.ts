/**
 * The frame of a page and the title strip at its foot. Frame and margins after ISO 5457: 20 mm at the filing edge, 10 mm at the others. Fields of the strip
 * after ISO 7200.
 */
import { boxMark, lineMark, type Mark, wide } from '../pages/page.js';
import type { Paper } from '../pages/paper.js';
import { linesOf, type Type } from '../pages/type.js';
import type { TitleBlock } from './blocks.js';
import { rule } from './slab.js';

const filing = 20;
const border = 10;
const strip = 14;
const inset = 5;

/** What frame and strip leave for the text, mm from the lower left corner of the page. */
export const textArea = (
  paper: Paper,
): { readonly left: number; readonly width: number; readonly top: number; readonly bottom: number } => ({
  left: filing + inset,
  width: paper.width - filing - border - 2 * inset,
  top: paper.height - border - inset,
  bottom: border + strip + inset,
});

export interface Place {
  readonly sheet: number;
  readonly sheets: number;
  /** The chapter on this page: the supplementary title. */
  readonly chapter: string;
}

export const frame = (paper: Paper, title: TitleBlock, { sheet, sheets, chapter }: Place, type: Type): readonly Mark[] => {
  const right = paper.width - border;
  const y = border + strip;
  const fields: readonly { readonly name: string; readonly value: string; readonly share: number }[] = [
    { name: 'Legal owner', value: title.owner ?? '', share: 1.8 },
    { name: 'Title', value: title.title, share: 2.4 },
    { name: 'Supplementary title', value: chapter, share: 3 },
    { name: 'Document type', value: title.documentType, share: 1.6 },
    { name: 'Identification number', value: title.identification ?? '', share: 1.9 },
    { name: 'Date of issue', value: title.date, share: 1.4 },
    { name: 'Sheet', value: `${sheet}/${sheets}`, share: 1 },
  ];
  const whole = fields.reduce((sum, { share }) => sum + share, 0);
  const marks: Mark[] = [
    boxMark({ min: { x: filing, y: border }, max: { x: right, y: paper.height - border } }, { width: wide }),
    lineMark({ x: filing, y }, { x: right, y }, { width: wide }),
  ];
  let x = filing;
  for (const [index, field] of fields.entries()) {
    const room = ((right - filing) * field.share) / whole;
    if (index > 0) marks.push(lineMark({ x, y: border }, { x, y }, rule));
    marks.push(
      { kind: 'text', text: field.name, at: { x: x + 1.5, y: y - 3.2 }, size: 2, colour: '#555555' },
      ...fieldText(field.value, x + 1.5, room - 3, type),
    );
    x += room;
  }
  return marks;
};

/** On one line while it goes on one at the size of the others, else smaller on two; shrunk where even that is too long. */
const fieldText = (value: string, x: number, room: number, type: Type): readonly Mark[] => {
  if (value === '') return [];
  const one = Math.min(3.2, (3.2 * room) / Math.max(type.width(value, 3.2, true), 1e-6));
  if (one >= 2.4) return [{ kind: 'text', text: value, at: { x, y: border + 4 }, size: one, bold: true }];
  const [first = '', ...others] = linesOf(type, value, 2.4, room, true);
  const second = others.join(' ');
  const size = Math.min(2.4, (2.4 * room) / Math.max(type.width(second, 2.4, true), 1e-6));
  return [
    { kind: 'text', text: first, at: { x, y: border + 6 }, size: 2.4, bold: true },
    { kind: 'text', text: second, at: { x, y: border + 2.6 }, size, bold: true },
  ];
};
