/**
 * The job booklet: everything the bench needs of a job in one document, as blocks that PDF and web page share. It draws and words what other rooms worked
 * out, and computes nothing of its own but what follows from sizes on the page.
 */
import { cuttingBlocks } from '../cutting/blocks.js';
import type { Block, TitleBlock } from '../documents/blocks.js';
import type { Paper } from '../pages/paper.js';
import type { Type } from '../pages/type.js';
import { cautionBlocks } from './cautions.js';
import { coverBlocks, shopBlocks } from './cover.js';
import { partBlocks } from './part.js';
import { trialBlocks } from './trials.js';
import type { BookletInput, BookletOptions } from './types.js';
import { uncheckedBlocks } from './unchecked.js';

export type { BookletFields, BookletFinding, BookletInput, BookletOptions, BookletPart } from './types.js';

/** Share of the width that a laid out sheet is drawn over: large enough to find a piece, whose place is written beside it. */
const layoutShare = 0.75;

/** What the frame, its margins and the title strip leave of a page, mm. */
export const bookletRoom = (paper: Paper): { readonly room: number; readonly tallest: number } => ({
  room: paper.width - 40,
  tallest: paper.height - 52,
});

export const bookletTitle = ({ title, fields }: BookletInput): TitleBlock => ({
  title,
  documentType: 'job booklet',
  date: fields.date,
  ...(fields.owner === undefined ? {} : { owner: fields.owner }),
  ...(fields.number === undefined ? {} : { identification: fields.number }),
  ...(fields.creator === undefined ? {} : { creator: fields.creator }),
  ...(fields.approver === undefined ? {} : { approver: fields.approver }),
  ...(fields.revision === undefined ? {} : { revision: fields.revision }),
});

/** Told before each chapter how far it is; answers whether to go on. */
export type GoOn = (share: number, words: string) => Promise<boolean>;

/** @returns undefined when it was stopped */
export const bookletBlocks = async (
  input: BookletInput,
  options: BookletOptions,
  type: Type,
  goOn: GoOn = () => Promise.resolve(true),
): Promise<readonly Block[] | undefined> => {
  if (!(await goOn(0, 'cover'))) return undefined;
  const trials = trialBlocks(input, options);
  const front: readonly Block[] = [
    ...coverBlocks(input, options, type),
    { kind: 'new page' },
    ...shopBlocks(input, options),
    ...cautionBlocks(input),
    ...cutBlocks(input, options, type),
    ...(trials.length === 0 ? [] : [{ kind: 'new page', unless: 140 } as const, ...trials]),
  ];
  const chapters: (readonly Block[])[] = [];
  for (const [index, one] of input.parts.entries()) {
    if (!(await goOn(index / input.parts.length, one.part.name))) return undefined;
    chapters.push(partBlocks(one, input.parts[index - 1], options, type));
  }
  return [...front, ...chapters.flat(), { kind: 'new page', unless: 80 }, ...uncheckedBlocks(input)];
};

const cutBlocks = ({ cutting }: BookletInput, options: BookletOptions, type: Type): readonly Block[] => {
  if (cutting === undefined) return [];
  const display = { unit: options.unit, ...(options.denominator === undefined ? {} : { denominator: options.denominator }) };
  return [
    { kind: 'new page', unless: 120 },
    { kind: 'heading', level: 1, text: 'What to buy and cut' },
    ...cuttingBlocks(cutting, options.room * layoutShare, display, type).map(
      // What is left is a long list of short lines.
      (block): Block => (block.kind === 'typed' ? { kind: 'columns', count: 3, blocks: [block] } : block),
    ),
  ];
};
