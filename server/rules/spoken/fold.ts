import { spoken } from './form.js';

const channel = (returns: string): string => `units millimetre
sheet crs_15 { thickness 1.5  bend radius 1.5 k 0.42 }

panel channel {
  sheet crs_15
  outline rectangle 200 by 40
  edge top {
    flange 30 up
    flange 15 up
    ${returns}
  }
}
`;

export const foldRules = [
  spoken('fold/collides-with-itself', 'error', {
    what: 'Two pieces of the part want the same place when it is folded up.',
    why: 'The sheet cannot go through itself: the last of the two bends stops short, or marks what it runs into. The depth is how far one of the two would have to be moved to be clear of the other. Touching is allowed: a closed hem lies on its sheet.',
    example: channel('flange 35 up // error: fold/collides-with-itself'),
    cure: channel('flange 20 up'),
    source: 'Geometry of the folded part.',
  }),
];
