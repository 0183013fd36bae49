import { spoken } from './form.js';

const part = (...lines: readonly string[]): string =>
  `units millimetre\nsheet crs_12 { thickness 1.2  bend radius 1.2 k 0.42 }\n\npanel plate {\n  sheet crs_12\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;
const drawn = (...steps: readonly string[]): string => part('outline {', ...steps.map((step) => `  ${step}`), '}');
const plate = (...lines: readonly string[]): string => part('outline rectangle 100 by 60', ...lines);
/** A rounded corner beside an edge that is bent to this inside radius. */
const rounded = (radius: number, mark: string): string =>
  part(
    'outline {',
    '  from (0, 0)',
    '  right 100',
    `  up 50 as side${mark}`,
    '  arc out to (90, 60) radius 10',
    '  left 90',
    '  close',
    '}',
    `edge side { flange 40 up radius ${radius} }`,
  );
const square = drawn('from (0, 0)', 'right 100', 'up 60', 'left 100', 'close');
const section = (...lines: readonly string[]): string =>
  `units millimetre\nsheet crs_12 { thickness 1.2  bend radius 1.2 k 0.42 }\n\nsection rail {\n  sheet crs_12\n  length 200\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;
const rail = section('leg 20', 'turn up 90', 'leg 30');

export const shapeRules = [
  spoken('shape/open-outline', 'error', {
    what: 'A drawn outline does not end where it began.',
    why: 'Only a closed line can be cut out. `close` draws the last straight step.',
    example: drawn('from (0, 0)', 'right 100', 'up 60', 'left 100 // error: shape/open-outline'),
    cure: square,
  }),
  spoken('shape/no-start', 'error', {
    what: 'A drawn outline has steps before its starting point, or no steps at all.',
    why: 'Every step goes on from the one before, and the first from the point that `from` names.',
    example: drawn('right 100 // error: shape/no-start', 'up 60', 'left 100', 'close'),
    cure: square,
  }),
  spoken('shape/second-start', 'error', {
    what: 'An outline has a second `from`.',
    why: 'An outline is one line. An opening within it is a `cut`.',
    example: drawn('from (0, 0)', 'right 100', 'from (100, 0) // error: shape/second-start', 'up 60', 'left 100', 'close'),
    cure: square,
  }),
  spoken('shape/after-close', 'error', {
    what: 'Steps follow after the outline was closed.',
    why: 'A closed line has no end to go on from.',
    example: drawn('from (0, 0)', 'right 100', 'up 60', 'left 100', 'close', 'up 10 // error: shape/after-close'),
    cure: square,
  }),
  spoken('shape/no-length', 'error', {
    what: 'A step of an outline ends where it begins.',
    why: 'It draws nothing; a size has been left at nought, or the same point was written twice.',
    example: drawn('from (0, 0)', 'right 100', 'line to (100, 0) // error: shape/no-length', 'up 60', 'left 100', 'close'),
    cure: square,
  }),
  spoken('shape/arc-too-tight', 'error', {
    what: 'The radius of an arc is less than half the distance between its ends.',
    why: 'A circle that small cannot reach from the one to the other. The fix writes the least radius that can.',
    example: drawn('from (0, 0)', 'right 100', 'up 60', 'arc out to (0, 60) radius 40 // error: shape/arc-too-tight', 'close'),
    cure: drawn('from (0, 0)', 'right 100', 'up 60', 'arc out to (0, 60) radius 60', 'close'),
  }),
  spoken('shape/arc-is-straight', 'error', {
    what: 'The three points of an arc lie on one line.',
    why: 'No circle goes through them.',
    example: drawn('from (0, 0)', 'right 100', 'up 60', 'arc through (50, 60) to (0, 60) // error: shape/arc-is-straight', 'close'),
    cure: drawn('from (0, 0)', 'right 100', 'up 60', 'arc through (50, 70) to (0, 60)', 'close'),
  }),
  spoken('shape/self-crossing', 'error', {
    what: 'An outline crosses or touches itself.',
    why: 'What is inside and what is waste cannot be told apart.',
    example: drawn('from (0, 0)', 'right 100', 'line to (0, 60)', 'right 100', 'close // error: shape/self-crossing'),
    cure: square,
  }),
  spoken('shape/nothing-left', 'error', {
    what: 'Between its bends, or by its own sizes, nothing is left of the part to lay out.',
    why: 'Bends take up sheet on both sides of their corner. Make the part larger or the inside radii smaller.',
    example: part('outline rectangle 4 by 60 // error: shape/nothing-left', 'edge left, right { flange 20 up }'),
    cure: plate('edge left, right { flange 20 up }'),
  }),
  spoken('shape/edges-do-not-meet', 'error', {
    what: 'Two neighbouring edges no longer meet once their bends have taken up their share.',
    why: 'An arc keeps its centre and radius, and may miss a line that has moved in. Put a short straight edge between them.',
    example: rounded(20, ' // error: shape/edges-do-not-meet'),
    cure: rounded(2, ''),
  }),
  spoken('shape/slot-shorter-than-wide', 'error', {
    what: 'A slot’s length is less than its width.',
    why: 'A slot is written width by length, overall. To stand the other way it is turned by 90.',
    example: plate('slot 20 by 5 at (50, 30) // error: shape/slot-shorter-than-wide'),
    cure: plate('slot 5 by 20 at (50, 30) turned 90'),
  }),
  spoken('shape/corner-too-round', 'error', {
    what: 'The rounded corners of a cut-out meet before they are round.',
    why: 'A corner’s radius can be half the shorter side at most.',
    example: plate('cut rectangle 20 by 10 radius 6 at (50, 30) // error: shape/corner-too-round'),
    cure: plate('cut rectangle 20 by 10 radius 4 at (50, 30)'),
  }),
  spoken('shape/no-flange-above', 'error', {
    what: 'A cut in an edge’s braces stands before any flange.',
    why: 'There it lies on the flange just above it. Written in the panel’s own braces it lies on the panel.',
    example: plate('edge top { hole 5 at (50, 10)  flange 20 up } // error: shape/no-flange-above'),
    cure: plate('edge top { flange 20 up  hole 5 at (50, 12) }'),
  }),
  spoken('shape/turn-without-leg', 'error', {
    what: 'A section has a turn without a leg on both its sides, or two legs without a turn between.',
    why: 'Legs and turns follow one another across the strip.',
    example: section('leg 20', 'turn up 90 // error: shape/turn-without-leg'),
    cure: rail,
  }),
  spoken('shape/corner-of-two-edges', 'error', {
    what: 'A corner names one edge, or more than two.',
    why: 'A corner is where two edges meet: `corner top left`. `corner all` means every one.',
    example: plate('corner top radius 5 // error: shape/corner-of-two-edges'),
    cure: plate('corner top left radius 5'),
  }),
  spoken('shape/legs-without-turn', 'error', {
    what: 'Two legs of a section follow one another without a turn.',
    why: 'They would be one longer leg; a turn between them has been forgotten.',
    example: section('leg 20', 'leg 30 // error: shape/legs-without-turn'),
    cure: rail,
  }),
  spoken('shape/mixed-conventions', 'error', {
    what: 'Some legs of a section are measured outside and others inside or flat.',
    why: 'A section is measured one way throughout, so that its legs add up.',
    example: section('leg 20', 'turn up 90 outside', 'leg 30', 'turn up 90 inside // error: shape/mixed-conventions', 'leg 20'),
    cure: section('leg 20', 'turn up 90 outside', 'leg 30', 'turn up 90 outside', 'leg 20'),
  }),
  spoken('shape/no-die-shape', 'error', {
    what: 'A die does not say what it leaves in the sheet.',
    why: 'Round, vee, flat, step or tipping: the length of sheet it takes in comes from that.',
    example: 'units millimetre\ndie rib_10 { width 10  depth 3 } // error: shape/no-die-shape\n',
    cure: 'units millimetre\ndie rib_10 { round  width 10  depth 3 }\n',
  }),
];
