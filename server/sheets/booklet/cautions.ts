/**
 * Cautions that this job calls for, chosen by what its parts contain. They remind; they teach no trade and claim no law. Common practice of the trade, no
 * source, except where one is named.
 */
import type { Block } from '../documents/blocks.js';
import { type BookletInput, cutBlank, wordsOfJob } from './types.js';

interface Caution {
  readonly title: string;
  readonly items: readonly string[];
  readonly applies: (facts: Facts) => boolean;
}
interface Facts {
  readonly words: string;
  readonly zinc: boolean;
  readonly bends: boolean;
  readonly roller: boolean;
  /** Pieces whose ends meet others, or words of welding. */
  readonly welding: boolean;
  readonly grinding: boolean;
  readonly soldering: boolean;
  readonly fuel: boolean;
  readonly drilling: boolean;
  /** Longest side of sheet that is handled, mm. */
  readonly largest: number;
}

/** A sheet longer than an arm's spread wants two people. mm. */
const large = 1000;
/** Sheet so thin that a drill grabs it. mm. */
const thin = 3.5;

const cautions: readonly Caution[] = [
  {
    title: 'Edges and slivers',
    items: [
      'Every cut edge is sharp until it has been filed or deburred; thin sheet and fresh corners cut deepest. Break the edges before you bend: afterwards they stand where hands go.',
      'Wear cut-resistant gloves to carry and stack sheet, and take them off at anything that turns. Wear eye protection for cutting, drilling and grinding.',
    ],
    applies: () => true,
  },
  {
    title: 'Carrying large sheets',
    items: [
      'Carry a sheet of this size on edge, with two people or a sheet carrier, and not across a wind. Do not stand under it and do not try to catch one that slips.',
      'Support it on both sides of the shear, the roller and the brake, so that it neither tips off nor pulls a hand in.',
    ],
    applies: ({ largest }) => largest >= large,
  },
  {
    title: 'The brake pinches',
    items: [
      'Keep fingers out from under the nose and away from the gap between leaf and bed; close the clamp with both hands on the lever and nobody else at the sheet.',
      'Stand clear of the leaf and of its counterweights on their way up. Never bend more than the brake is rated for.',
    ],
    applies: ({ bends }) => bends,
  },
  {
    title: 'The roller’s dies draw in whatever touches them',
    items: [
      'No gloves, cuffs, loose sleeves, rings or hanging hair near turning dies. Hold the sheet by its edges, well away from the dies, and turn slowly.',
      'Change dies and screw down only while the roller stands still; cut the power of a driven one first.',
    ],
    applies: ({ roller }) => roller,
  },
  {
    title: 'Drilling thin sheet',
    items: [
      'Clamp the sheet to a board before drilling, never hold it by hand: a drill grabs as it breaks through and spins the part like a blade. No gloves at the drill.',
      'Drill small first, or use a step drill; deburr both faces. Drill before bending wherever the chuck would not get in afterwards.',
    ],
    applies: ({ drilling }) => drilling,
  },
  {
    title: 'Cutting and grinding: sparks, noise, wheels',
    items: [
      'Sparks fly farther than the bench is long: clear away rags, solvents, sawdust and battery chargers, keep water or an extinguisher at hand and look again half an hour later.',
      'Goggles or a face shield, hearing protection, the guard on, and a wheel made for this metal and this speed.',
    ],
    applies: ({ grinding }) => grinding,
  },
  {
    title: 'Zinc-coated metal near heat',
    items: [
      'Welding, brazing, cutting with a torch or grinding through zinc gives off a fume that makes you ill for a day or longer. Bolt or rivet where you can.',
      'Where it must be welded: take the coating off well beyond the joint, on both faces, work in the open or with extraction at the joint, wear a respirator for metal fume, and paint the bare place afterwards.',
    ],
    applies: ({ zinc }) => zinc,
  },
  {
    title: 'Welding: light, fume, heat',
    items: [
      'A helmet of the right shade, closed dark clothing and dry gloves; screen the arc from others. Its light burns eyes and skin within seconds.',
      'Good air at the work. Clean off oil, paint, coatings and above all chlorinated solvent first: heat turns some of them into poison.',
      'Welds that carry people or loads, or hold pressure, belong to somebody qualified for them; have them checked.',
    ],
    applies: ({ welding }) => welding,
  },
  {
    title: 'Soldering: flux, fume, hot metal',
    items: [
      'Flux spits and burns skin and eyes: eye protection, good air at the work, hands washed before you eat. Acid flux goes on eating the metal: rinse it off, and dry the part.',
      'Lead-free solder for anything that touches food or drink. What was soldered stays hot long after it stops looking it: set it down where nobody takes hold of it.',
    ],
    applies: ({ soldering }) => soldering,
  },
  {
    title: 'Fuel near the work',
    items: [
      'No welding, grinding or other hot work on or near a tank, can or line that holds fuel or ever did: the vapour that is left explodes. Take the work away from the fuel, or the fuel far away from the work.',
      'An empty tank is not a safe one. Repairing tanks is work for people equipped and licensed for it.',
    ],
    applies: ({ fuel }) => fuel,
  },
];

const factsOf = (input: BookletInput): Facts => {
  const words = wordsOfJob(input);
  const sheets = input.parts.flatMap(({ part }) => ('sheet' in part && part.sheet !== undefined ? [part.sheet.value] : []));
  const stocks = input.parts.flatMap(({ part }) => ('stock' in part && part.stock !== undefined ? [part.stock.value] : []));
  const metals = [...sheets, ...stocks].flatMap(({ material }) => material ?? []);
  const blanks = input.parts.flatMap((part) => cutBlank(part) ?? []);
  const nested = (input.cutting?.sheets ?? []).flatMap(({ pictures }) => pictures);
  const welding = /\b(?:tack[- ])?(?:welds?|welded|welder|welding|brazed?|brazing)\b/.test(words);
  return {
    words,
    zinc: metals.some(({ name, coating }) => /zinc|galvani/i.test(`${name} ${coating ?? ''}`)),
    bends: blanks.some(({ bends }) => bends.length > 0),
    roller: input.parts.some(({ beads }) => beads !== undefined && (beads.beads.length > 0 || beads.tips.length > 0)),
    welding:
      welding ||
      input.parts.some(({ part }) => part.kind === 'piece' && [part.startEnd, part.finishEnd].some(({ kind }) => kind !== 'square')),
    grinding:
      /\bgrind/.test(words) || stocks.length > 0 || blanks.some(({ cutouts }) => cutouts.some(({ circle }) => circle === undefined)),
    soldering: /\bsolder/.test(words),
    fuel: /\b(?:fuel|petrol|gasoline|diesel|gas tank|fuel tank|tanks?)\b/.test(words),
    drilling: blanks.some(({ cutouts, thickness }) => thickness <= thin && cutouts.some(({ circle }) => circle !== undefined)),
    largest: Math.max(0, ...[...blanks, ...nested].flatMap(({ width, height }) => [width, height])),
  };
};

export const cautionBlocks = (input: BookletInput): readonly Block[] => {
  const facts = factsOf(input);
  return [
    { kind: 'heading', level: 1, text: 'Cautions for this job' },
    {
      kind: 'paragraph',
      text: 'Chosen by what the parts contain. They remind and do not replace the manuals of your machines, the rules of your place of work, or training. Local codes come before anything printed here, and work that they keep for licensed people is theirs to do.',
    },
    ...cautions.filter(({ applies }) => applies(facts)).map(({ title, items }): Block => ({ kind: 'caution', title, items })),
  ];
};
