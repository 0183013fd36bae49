/** The steps of a drawn outline, and of a drawn cut-out. */

import { conventionWords, inBarePanel } from './parts-of-patterns.js';
import type { ArgumentHelp, Pattern, StatementEntry } from './pattern.js';
import { angle, anyOrder, choice, length, name, newName, oneOf, option, optional, point, sequence, word } from './pattern.js';

const places = ['outline', 'cut outline'];
const asEdge: Pattern = option('as', newName('as', 'edge'));
const ending: Pattern = anyOrder(asEdge, conventionWords);
const endingHelp: Readonly<Record<string, ArgumentHelp>> = {
  as: { summary: 'A name for this edge. Only a named straight edge can be bent.', default: 'no name' },
  convention: { summary: 'Where this edge is measured: `outside`, `inside` or `flat`.', default: 'as the outline says' },
};

const bracket = (...steps: readonly string[]): string => inBarePanel('hose_bracket', 'outline {', ...steps.map((step) => `  ${step}`), '}');

const straight = (direction: 'right' | 'left' | 'up' | 'down', way: string, example: string): StatementEntry => ({
  word: direction,
  id: `${direction}@outline`,
  family: 'shape',
  places,
  pattern: sequence(length('length'), ending),
  summary: `Draws a straight edge ${way}.`,
  note: 'Run the outline anticlockwise, metal on the left hand, so that “in” and “out” on arcs mean what they say; the other way round is turned for you.',
  example,
  arguments: { length: { summary: 'How far.' }, ...endingHelp },
  computed: true,
});

const plain = bracket('from (0, 0)', 'right 5 as bottom', 'up 3', 'left 2', 'down 1', 'left 3', 'close');

export const outlineStatements: readonly StatementEntry[] = [
  {
    word: 'from',
    id: 'from@outline',
    family: 'shape',
    places,
    pattern: point('point'),
    summary: 'Where the drawing starts.',
    note: 'The first step. Choose a corner that is easy to measure from, since its coordinates are the ones you read on the mark-out sheet.',
    example: plain,
    arguments: { point: { summary: 'The first corner.' } },
    computed: true,
  },
  {
    word: 'line',
    id: 'line@outline',
    family: 'shape',
    places,
    pattern: sequence(oneOf(option('to', point('to')), sequence(length('length'), word('at'), angle('angle'))), ending),
    summary: 'Draws a straight edge to a point, or of a length at an angle.',
    note: 'The angle is measured anticlockwise from x: 90 goes straight up, 180 to the left.',
    example: bracket('from (0, 0)', 'right 5 as bottom', 'up 2', 'line to (3, 4) as slope', 'line 3 at 180', 'close'),
    arguments: {
      to: { summary: 'The corner it ends at.' },
      length: { summary: 'Its length.' },
      angle: { summary: 'Its direction, anticlockwise from x.' },
      ...endingHelp,
    },
    computed: true,
  },
  straight('right', 'to the right', plain),
  straight('left', 'to the left', plain),
  straight('up', 'upward', plain),
  straight('down', 'downward', plain),
  {
    word: 'arc',
    id: 'arc@outline',
    family: 'shape',
    places,
    pattern: sequence(
      oneOf(
        sequence(
          choice('bulge', 'in', 'out'),
          option('to', point('to')),
          option('radius', length('radius')),
          optional(word('large', 'large')),
        ),
        sequence(option('through', point('through')), option('to', point('to'))),
      ),
      ending,
    ),
    summary: 'Draws an arc of a circle, by its radius or through a point.',
    note: '`out` swells away from the metal, `in` bites into it. The radius must be at least half the straight distance. An arc cannot be bent on the brake; its edge may be tipped.',
    example: bracket('from (0, 0)', 'right 5 as bottom', 'up 2', 'arc out to (0, 2) radius 3', 'close'),
    arguments: {
      bulge: { summary: '`out` away from the metal, `in` into it.' },
      through: { summary: 'A point the arc passes through.' },
      to: { summary: 'Where the arc ends.' },
      radius: { summary: 'Its radius.' },
      large: { summary: 'Takes the long way round (more than half a circle).', default: 'the short way' },
      ...endingHelp,
    },
    computed: true,
  },
  {
    word: 'follow',
    id: 'follow',
    family: 'shape',
    places: ['outline'],
    pattern: sequence(
      name('curve', 'curve'),
      option('from', point('from')),
      option('to', point('to')),
      option('gap', length('gap')),
      choice('side', 'inside', 'outside'),
      optional(asEdge),
    ),
    summary: 'Runs along a surveyed curve, keeping a gap.',
    note: 'For a guard that has to clear a tyre, or a plate let into a pressed wing: survey the curve, then follow it. The gap is kept square to the curve, so a tight hollow can close up; that is reported.',
    example: `units inch
survey tyre {
  curve tread through (0, 0), (4, 2.6), (9, 3.9), (14, 2.5), (18, 0)
}
sheet crs_18 { thickness 0.048  bend radius 1/16 k 0.42 }
panel tyre_guard {
  sheet crs_18
  outline {
    from (18, 6)
    left 18 as top
    line to (0, 1/2)
    follow tyre.tread from (0, 1/2) to (18, 1/2) gap 1/2 outside as lip
    close
  }
}
`,
    arguments: {
      curve: { summary: 'A curve of a survey: `tyre.tread`.' },
      from: { summary: 'Where it starts, near the curve.' },
      to: { summary: 'Where it ends, near the curve.' },
      gap: { summary: 'Distance kept from the curve.' },
      side: { summary: 'On the `inside` or the `outside` of the curve.' },
      as: endingHelp.as as ArgumentHelp,
    },
    computed: false,
  },
  {
    word: 'close',
    id: 'close',
    family: 'shape',
    places,
    pattern: ending,
    summary: 'Draws the last straight edge, back to where the drawing started.',
    note: 'Always the last step. If the last corner already is the first, it adds nothing.',
    example: bracket('from (0, 0)', 'right 5', 'up 3', 'left 5', 'close as hinge_side'),
    arguments: endingHelp,
    computed: true,
  },
];
