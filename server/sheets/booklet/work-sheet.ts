/** One kind of work on one part as a sheet of its own: its drawing, and what the booklet's chapter says of that work. */
import type { Block } from '../documents/blocks.js';
import { beadBlocks } from './beads.js';
import { bendBlocks, linedFor } from './bends.js';
import { blankFigure } from './blank-figure.js';
import { type BookletOptions, type BookletPart, cutBlank, howMany, sayingIn } from './types.js';

export type BenchWork = 'bends' | 'beads';

/** How much of the page the drawing of the sheet takes. */
const drawingShare = 0.4;

/** @returns undefined where the part has no such work, or no blank could be laid out */
export const workSheetBlocks = (one: BookletPart, work: BenchWork, options: BookletOptions): readonly Block[] | undefined => {
  const { part, beads } = one;
  const blank = cutBlank(one);
  if (blank === undefined || (part.kind !== 'panel' && part.kind !== 'section')) return undefined;
  const saying = sayingIn(one.unit, options);
  const blocks = work === 'bends' ? bendBlocks(one, part, blank, saying, options) : beadBlocks(beads, saying);
  if (blocks.length === 0) return undefined;
  const drawn = work === 'bends' ? linedFor(blank, one.planned) : blank;
  const figure = blankFigure(part, drawn, {
    ...saying.display,
    beads,
    beadsLie: 'as cut',
    room: options.room,
    tallest: options.tallest * drawingShare,
  });
  return [
    { kind: 'heading', level: 1, text: `${part.name}: ${howMany(part)}` },
    {
      kind: 'figures',
      figures: [
        {
          ...figure,
          caption: `The ${beads?.drawIn === undefined ? 'blank' : 'sheet before rolling'}, face toward you. Solid: bend up, dashed: bend down. Not to scale.`,
        },
      ],
    },
    ...blocks,
  ];
};
