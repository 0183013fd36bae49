import { spoken } from './form.js';

const metal = 'units millimetre\nsheet crs_12 { thickness 1.2  bend radius 1.2 k 0.42 }\n';
const plate = (...lines: readonly string[]): string =>
  `${metal}\npanel plate {\n  sheet crs_12\n  outline rectangle 100 by 60\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;
const drawn = (...lines: readonly string[]): string =>
  `${metal}\npanel plate {\n  sheet crs_12\n  outline {\n    from (0, 0)\n    right 100 as foot\n    up 60\n    arc out to (0, 60) radius 80 as crown\n    close as back\n  }\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;

/** Two flanges that fold toward each other out of an opening of this width. */
const slotted = (width: number): string =>
  `${metal}\npanel plate {\n  sheet crs_12\n  outline {\n    from (0, 0)\n    right 30\n    up 60 as inner\n    right ${width}\n    down 60 as other\n    right 50\n    up 100\n    left ${80 + width}\n    close\n  }\n  edge inner { flange 20 up }\n  edge other { flange 20 up }\n}\n`;

/** Bends, corners, the flat and the sheet it is cut from. */
export const bendRules = [
  spoken('bend/no-radius', 'error', {
    what: 'Neither the flange nor its sheet says to which inside radius it is bent.',
    why: 'The blank hangs on it. Measure a bend made on your own brake and write it on the sheet.',
    example: plate('edge top { flange 20 up } // error: bend/no-radius').replace('  bend radius 1.2 k 0.42', ''),
    cure: plate('edge top { flange 20 up }'),
  }),
  spoken('bend/no-method', 'error', {
    what: 'The sheet says nothing of how the bend allowance is reckoned, or names a trial that tells nothing.',
    why: 'Allowance is never guessed.',
    example: plate('edge top { flange 20 up }').replace(' k 0.42', '').replace('sheet crs_12\n', 'sheet crs_12 // error: bend/no-method\n'),
    cure: plate('edge top { flange 20 up }'),
  }),
  spoken('bend/flange-inside-its-bend', 'error', {
    what: 'A flange or a leg is shorter than what its bends take up of it.',
    why: 'No flat is left: the piece would be all bend. The fix writes the least length.',
    example: plate('edge top { flange 2 up } // error: bend/flange-inside-its-bend'),
    cure: plate('edge top { flange 12 up }'),
  }),
  spoken('bend/edge-not-straight', 'error', {
    what: 'A bend is wanted on a curved edge.',
    why: 'Sheet folds along straight lines only. A curved edge can be tipped on the roller.',
    example: drawn('edge crown { flange 12 up } // error: bend/edge-not-straight'),
    cure: drawn('edge foot { flange 12 up }'),
  }),
  spoken('bend/stretch-off-the-edge', 'error', {
    what: 'A flange on a stretch of an edge runs past the edge, into another piece, or too near one.',
    why: 'A slit frees the end of each bend, and the slit needs room too.',
    example: plate('edge top from 20 to 120 { flange 20 up } // error: bend/stretch-off-the-edge'),
    cure: plate('edge top from 20 to 80 { flange 20 up }'),
  }),
  spoken('fold/overlap-in-the-flat', 'error', {
    what: 'Two pieces of the part lie on the same sheet when it is flat.',
    why: 'They cannot both be cut. Shorten one, or make it of two parts joined by a seam.',
    example: slotted(20).replace('edge other { flange 20 up }', 'edge other { flange 20 up } // error: fold/overlap-in-the-flat'),
    cure: slotted(60),
  }),
  spoken('corner/edges-not-neighbours', 'error', {
    what: 'A corner names two edges that do not meet.',
    why: 'A corner lies between two edges that follow each other along the outline.',
    example: plate('corner top bottom radius 5 // error: corner/edges-not-neighbours'),
    cure: plate('corner top left radius 5'),
  }),
  spoken('corner/both-bent', 'error', {
    what: 'A rounded, bevelled or notched corner lies between two bent edges.',
    why: 'There is no corner of sheet left between two flanges; a relief can be cut there.',
    example: plate('edge top, left { flange 20 up }', 'corner top left radius 5 // error: corner/both-bent'),
    cure: plate('edge top, left { flange 20 up }', 'corner top left relief round 5'),
  }),
  spoken('corner/not-straight', 'error', {
    what: 'A corner beside an arc is to be rounded, bevelled or notched.',
    why: 'Only a corner between two straight edges can be cut. Let the arc end where you want it.',
    example: drawn('corner crown back radius 5 // error: corner/not-straight'),
    cure: drawn('corner foot back radius 5'),
  }),
  spoken('corner/cut-too-large', 'error', {
    what: 'A rounded, bevelled or notched corner takes more than its edges have.',
    why: 'Some of both edges must be left.',
    example: plate('corner top left radius 70 // error: corner/cut-too-large'),
    cure: plate('corner top left radius 20'),
  }),
  spoken('corner/relief-too-large', 'error', {
    what: 'A relief does not fit in its corner.',
    why: 'It would eat into what lies around. Write a smaller one, or `relief none`.',
    example: plate('edge top, left { flange 20 up }', 'corner top left relief round 80 // error: corner/relief-too-large'),
    cure: plate('edge top, left { flange 20 up }', 'corner top left relief round 5'),
  }),
  spoken('hole/unknown-size', 'error', {
    what: 'A thread or drill size is not in the tables.',
    why: 'Near sizes are offered; a plain hole takes any diameter.',
    example: plate('hole clearance M7x9 at (50, 30) // error: hole/unknown-size'),
    cure: plate('hole clearance M6 at (50, 30)'),
    source: 'ISO 261, ISO 273, ASME B1.1, and the number, letter and fraction drills.',
  }),
  spoken('sheet/no-thickness', 'error', {
    what: 'A sheet does not say how thick it is.',
    why: 'Every bend and every mass hangs on it.',
    example: 'units millimetre\nsheet crs_12 { bend radius 1.2 k 0.42 } // error: sheet/no-thickness\n',
    cure: 'units millimetre\nsheet crs_12 { thickness 1.2  bend radius 1.2 k 0.42 }\n',
  }),
];
