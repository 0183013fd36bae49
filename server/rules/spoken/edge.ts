import { spoken } from './form.js';

const metal = 'units millimetre\nsheet crs_12 { thickness 1.2  bend radius 1.2 k 0.42 }\n';
const plate = (...lines: readonly string[]): string =>
  `${metal}\npanel plate {\n  sheet crs_12\n  outline rectangle 100 by 60\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;

/** Hems, curls, joggles and tabs; which edge lies over which; holes through a second face; mirrors. */
export const edgeRules = [
  spoken('shape/no-direction', 'error', {
    what: 'A hem, a curl or a joggle does not say which way it goes.',
    why: 'After a flange a hem or a curl goes on turning that flange’s way. Straight on the panel there is nothing to go on from, and a joggle can always go either way.',
    example: plate('edge top { hem 8 open 2 } // error: shape/no-direction'),
    cure: plate('edge top { hem 8 open 2 down }'),
  }),
  spoken('shape/nothing-can-follow', 'error', {
    what: 'A step stands after a hem, a curl or tabs; or, in a section, one of these stands between two legs.',
    why: 'The cut edge is folded in, rolled in, or cut to tabs: nothing is left to turn. A section has its edges before the first leg and after the last.',
    example: plate('edge top { hem 8 closed down  flange 20 down } // error: shape/nothing-can-follow'),
    cure: plate('edge top { flange 20 down  hem 8 closed }'),
  }),
  spoken('shape/no-flat-there', 'error', {
    what: 'A cut is placed on a curl, a rolled edge, a double hem or a tab.',
    why: 'The first two are round all over; the layers of a double hem cover one another. A tab is one flat with what it stands on, and its holes are placed there.',
    example: plate('edge top { flange 20 down  curl round 3  hole 4 at (50, 8) } // error: shape/no-flat-there'),
    cure: plate('edge top { flange 20 down  hole 4 at (50, 10)  curl round 3 }'),
  }),
  spoken('shape/tabs-overlap', 'error', {
    what: 'Two tabs of one edge run into each other.',
    why: 'They would be one wide tab.',
    example: plate('edge top { tab 20 by 8 at 30, 40 } // error: shape/tabs-overlap'),
    cure: plate('edge top { tab 20 by 8 at 30, 60 }'),
  }),
  spoken('shape/no-flange-opposite', 'error', {
    what: 'Something on a flange is to be seen in a mirror where no flange faces it.',
    why: 'What lies on the left flange comes to lie on the right one, when the mirror line stands in the middle of a rectangular panel and both edges have that flange.',
    example: plate(
      'edge left { flange 20 up }',
      'opposite across x = 50 {',
      '  hole 5 on left at (30, 12) // error: shape/no-flange-opposite',
      '}',
    ),
    cure: plate('edge left, right { flange 20 up }', 'opposite across x = 50 {', '  hole 5 on left at (30, 12)', '}'),
  }),
  spoken('shape/on-the-mirror-line', 'warning', {
    what: 'A cut within `opposite` lies on the mirror line.',
    why: 'Its copy would be the same cut once more. It is made once; outside the braces that is plain to read.',
    example: plate('opposite across x = 50 {', '  hole 5 at (30, 40)', '  hole 8 at (50, 20) // warning: shape/on-the-mirror-line', '}'),
    cure: plate('opposite across x = 50 {', '  hole 5 at (30, 40)', '}', 'hole 8 at (50, 20)'),
  }),
  spoken('corner/all-has-no-order', 'error', {
    what: '`corner all` is to lap or butt.',
    why: 'Which of two edges goes over the other has to be told corner by corner.',
    example: plate('edge top, left { flange 20 up }', 'corner all butt top over left // error: corner/all-has-no-order'),
    cure: plate('edge top, left { flange 20 up }', 'corner top left butt top over left'),
  }),
  spoken('corner/not-its-edge', 'error', {
    what: 'A corner laps or butts an edge that is not one of its own two, or an edge over itself.',
    why: 'The two edges of the corner are the two that meet there. The fix names the other one.',
    example: plate('edge top, left { flange 20 up }', 'corner top left butt top over right // error: corner/not-its-edge'),
    cure: plate('edge top, left { flange 20 up }', 'corner top left butt top over left'),
  }),
  spoken('hole/through-to-what', 'error', {
    what: 'A hole in a panel or a section is to go through, and it is not told through what.',
    why: 'In the flat it is one hole in one thickness. A second one is cut where its axis meets another face of the folded part, and that face is named.',
    example: plate('edge top { flange 20 up }', 'hole 5 on top through at (50, 12) // error: hole/through-to-what'),
    cure: plate('edge top { flange 20 up }', 'hole 5 on top at (50, 12)'),
  }),
  spoken('hole/through-its-own-face', 'error', {
    what: 'A hole is to go on through the face it lies on.',
    why: 'It goes through that one already.',
    example: plate('hole 5 through to base at (50, 30) // error: hole/through-its-own-face'),
    cure: plate('hole 5 at (50, 30)'),
  }),
];
