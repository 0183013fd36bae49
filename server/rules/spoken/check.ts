import { spoken } from './form.js';

const lid = (check: string): string =>
  `units inch\nsheet crs_18 { thickness 1.2 mm  bend radius 1/16 k 0.42 }\n\npanel lid {\n  sheet crs_18\n  outline rectangle 30 by 20\n  ${check}\n}\n`;

/** What the user's own `check` lines come to. */
export const checkRules = [
  spoken('check/failed', 'error', {
    what: 'A condition that you wrote with `check` does not hold.',
    why: 'The message is the one you wrote, with the two sides as they come out.',
    example: lid('check lid.blank.width <= 24 "must come out of an offcut" // error: check/failed'),
    cure: lid('check lid.blank.width <= 36 "must come out of an offcut"'),
    source: 'Your own file.',
  }),
  spoken('check/not-decided', 'information', {
    what: 'A condition could not be decided, since something it reads cannot be worked out.',
    why: 'The fault itself is told where it stands. A check with a broken input is never called failed.',
    example: lid('check lid.mass < 5 kg // information: check/not-decided'),
    cure: lid('check lid.blank.area < 1 m2'),
    source: 'Your own file.',
  }),
];
