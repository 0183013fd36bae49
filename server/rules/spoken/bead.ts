import { spoken } from './form.js';

const floor = (...lines: readonly string[]): string =>
  `units inch
material mild_steel { gauge table steel  density 7850 kg/m3 }
sheet crs_18 { material mild_steel  thickness 18 ga  bend radius 1/16 k 0.42 }
die half_round_3_8 { round  width 3/8  depth 1/16 }
die step_16 { step  width 1/4  depth 1/16 }
die tip_4 { tipping  width 1/4 }

panel floor {
  sheet crs_18
  outline rectangle 36 by 24
${lines.map((line) => `  ${line}\n`).join('')}}
`;
const rib = floor('bead rib { die half_round_3_8  up  line from (8, 12) to (28, 12) }');
const band = floor('band raised { die step_16  up  width 3  line from (8, 12) to (28, 12) }');
const bow = floor('bead bow { die half_round_3_8  up  arc from (6, 8) through (18, 12) to (30, 8) }');
const border = floor('bead border { die half_round_3_8  up  rectangle inset 4 corner 2 }');
const rim = floor('bead rim { die half_round_3_8  up  along left, bottom inset 4 corner 2 }');
const tipped = floor('tip top width 1/4 up die tip_4');
const crown = (...steps: readonly string[]): string =>
  floor(...steps).replace('outline rectangle 36 by 24', 'outline { from (0, 0)  right 36 as bottom  up 24  left 36 as top  close }');

export const beadRules = [
  spoken('bead/incomplete', 'error', {
    what: 'A bead or band leaves out its die, its side, its path or, for a band, its width.',
    why: 'What it takes in, where the roller has to reach and how the sheet strains all come from these.',
    example: floor('bead rib { // error: bead/incomplete', '  up', '  line from (8, 12) to (28, 12)', '}'),
    cure: floor('bead rib {', '  die half_round_3_8', '  up', '  line from (8, 12) to (28, 12)', '}'),
  }),
  spoken('bead/said-twice', 'error', {
    what: 'A bead says two things that cannot both hold: up and down, or two paths.',
    why: 'A crown stands one way and a bead runs one way. Several beads are several statements.',
    example: floor('bead rib { die half_round_3_8  up  down  line from (8, 12) to (28, 12) } // error: bead/said-twice'),
    cure: rib,
  }),
  spoken('bead/wrong-die', 'error', {
    what: 'The die named cannot leave what is asked of it.',
    why: 'A band is two steps side by side, so it wants a step die; a tipping die turns up an edge and leaves no bead.',
    example: floor('band raised { die half_round_3_8  up  width 3  line from (8, 12) to (28, 12) } // error: bead/wrong-die'),
    cure: band,
  }),
  spoken('bead/die-without-size', 'error', {
    what: 'A bead names a die that does not say how deep, or how wide, it rolls.',
    why: 'Draw-in, strain and passes come from the section it leaves. Measure one it has rolled.',
    example: `die bare_round { round }\n${floor('bead rib { die bare_round  up  line from (8, 12) to (28, 12) } // error: bead/die-without-size')}`,
    cure: `die bare_round { round  width 3/8  depth 1/16 }\n${floor('bead rib { die bare_round  up  line from (8, 12) to (28, 12) }')}`,
  }),
  spoken('bead/band-too-narrow', 'error', {
    what: 'A band is narrower than its two shoulders.',
    why: 'Its width runs from the outer foot of one shoulder to the outer foot of the other, and each takes the width of the die.',
    example: floor('band raised { die step_16  up  width 3/8  line from (8, 12) to (28, 12) } // error: bead/band-too-narrow'),
    cure: band,
  }),
  spoken('bead/ring-with-ends', 'warning', {
    what: 'A bead that goes all round is given ends.',
    why: 'It has neither start nor finish. The fix takes the line out.',
    example: floor('bead border { die half_round_3_8  up  rectangle inset 4 corner 2  ends closed } // warning: bead/ring-with-ends'),
    cure: border,
  }),
  spoken('bead/no-length', 'error', {
    what: 'Two points of a bead, one after the other, are the same.',
    why: 'There is nothing to roll between them; a number has been left as it was, or written twice.',
    example: floor('bead rib { die half_round_3_8  up  line from (8, 12) to (8, 12) } // error: bead/no-length'),
    cure: rib,
  }),
  spoken('bead/no-arc', 'error', {
    what: 'The three points of an arc lie on one straight line.',
    why: 'Only a line goes through them.',
    example: floor('bead bow { die half_round_3_8  up  arc from (6, 8) through (18, 8) to (30, 8) } // error: bead/no-arc'),
    cure: bow,
  }),
  spoken('bead/inset-too-great', 'error', {
    what: 'A bead all round is set in by half the outline or more.',
    why: 'The two sides would meet or cross.',
    example: floor('bead border { die half_round_3_8  up  rectangle inset 12 corner 2 } // error: bead/inset-too-great'),
    cure: border,
  }),
  spoken('bead/not-a-rectangle', 'error', {
    what: 'A bead follows the rectangle of an outline that is drawn.',
    why: 'A drawn outline has edges by name, and `along` follows those.',
    example: crown('bead border { die half_round_3_8  up  rectangle inset 4 corner 2 } // error: bead/not-a-rectangle'),
    cure: crown('bead border { die half_round_3_8  up  along top inset 4 }'),
  }),
  spoken('bead/edges-apart', 'error', {
    what: 'Two edges follow one another along a bead and do not meet in the outline.',
    why: 'A bead is rolled in one go, so it can only turn from an edge into its neighbour.',
    example: floor('bead rim { die half_round_3_8  up  along left, right inset 4 corner 2 } // error: bead/edges-apart'),
    cure: rim,
  }),
  spoken('tip/wrong-die', 'error', {
    what: 'An edge is tipped with a die that is no tipping die.',
    why: 'The others form a bead within the sheet; they cannot turn up an edge.',
    example: floor('tip top width 1/4 up die half_round_3_8 // error: tip/wrong-die'),
    cure: tipped,
  }),
  spoken('tip/edge-is-bent', 'error', {
    what: 'An edge is tipped on the roller and turned on the brake.',
    why: 'There is only one cut edge, and the flange has it. The flange’s own free edge is turned by another flange or a hem, in the braces of the edge.',
    example: floor('edge top { flange 3/4 up }', 'tip top width 1/4 up // error: tip/edge-is-bent'),
    cure: floor('edge left { flange 3/4 up }', 'tip top width 1/4 up'),
  }),
  spoken('shape/profile-too-few', 'error', {
    what: 'The section of a brake’s nose, bed or apron has fewer than three corners that differ.',
    why: 'It is the outline of metal, and that encloses something.',
    example: 'units millimetre\nbrake bench_leaf { leaf  nose (0, 0), (-30, 40), (-30, 40) } // error: shape/profile-too-few\n',
    cure: 'units millimetre\nbrake bench_leaf { leaf  nose (0, 0), (-30, 40), (-60, 0) }\n',
  }),
  spoken('shape/profile-crosses-itself', 'error', {
    what: 'The section of a brake’s nose, bed or apron crosses itself.',
    why: 'Corners are written in order, going round the metal one way; two of them have changed places.',
    example:
      'units millimetre\nbrake bench_leaf { leaf  nose (0, 0), (-30, 40), (-30, 0), (0, 40) } // error: shape/profile-crosses-itself\n',
    cure: 'units millimetre\nbrake bench_leaf { leaf  nose (0, 0), (0, 40), (-30, 40), (-30, 0) }\n',
  }),
];
