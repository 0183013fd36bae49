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

export type { BookletFields, BookletFile, BookletFinding, BookletInput, BookletOptions, BookletPart } from './types.js';

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

export const bookletBlocks = (input: BookletInput, options: BookletOptions, type: Type): readonly Block[] => {
  const trials = trialBlocks(input, options);
  const cutting = input.cutting;
  return [
    ...coverBlocks(input, options, type),
    { kind: 'new page' },
    ...shopBlocks(input, options),
    ...cautionBlocks(input),
    ...(cutting === undefined
      ? []
      : [
          { kind: 'new page', unless: 120 } as const,
          { kind: 'heading', level: 1, text: 'What to buy and cut' } as const,
          ...cuttingBlocks(
            cutting,
            options.room,
            { unit: options.unit, ...(options.denominator === undefined ? {} : { denominator: options.denominator }) },
            type,
          ).map(
            // What is left is a long list of short lines.
            (block): Block => (block.kind === 'typed' ? { kind: 'columns', count: 3, blocks: [block] } : block),
          ),
        ]),
    ...(trials.length === 0 ? [] : [{ kind: 'new page', unless: 140 } as const, ...trials]),
    ...input.parts.flatMap((part, index) => partBlocks(part, input.parts[index - 1], options, type)),
    { kind: 'new page', unless: 120 },
    ...uncheckedBlocks(input),
  ];
};
