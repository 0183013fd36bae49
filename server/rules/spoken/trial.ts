import { spoken } from './form.js';

const metal = 'units millimetre\nsheet crs_12 { thickness 1.2  bend radius 1.2 k 0.42 }\n';
const trial = (...lines: readonly string[]): string => `${metal}\ntrial strip_1 {\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;
const sheet = 'sheet crs_12';
const cut = 'strip 100 by 40';
const bent = 'bent 93 radius 1.2';
const legs = 'measured legs 51.2, 51.1 to 0.1';
const angle = 'measured angle 90.5 to 0.5';
const good = trial(sheet, cut, bent, legs, angle);
const beadedTray = (rest: string): string =>
  `${metal}die round_10 { round  width 10  depth 3 }\n\npanel tray {\n  sheet crs_12\n  outline rectangle 300 by 200\n  edge top, bottom { flange 20 up }\n  bead rib { die round_10  up  line from (60, 100) to (240, 100) }\n}\n\n${rest}`;
const asking = (words: string, finding: string): string => beadedTray(`trial ${words} // ${finding}\n`);
const definition = 'Definition of the bend deduction and of K.';

/** Test strips, and metals no table knows. */
export const trialRules = [
  spoken('shop/alloy-not-in-the-table', 'information', {
    what: 'A material names an alloy and temper that the table of bend radii does not have.',
    why: 'Nothing is then known of how tight it bends, so nothing is said of tight bends and hems. What held when you tried a strip is worth more than any table.',
    example: 'units inch\nmaterial plate { density 2800 kg/m3  alloy "7075-T6" } // information: shop/alloy-not-in-the-table\n',
    cure: 'units inch\nmaterial plate { density 2800 kg/m3  tightest radius 3/8 to thickness 1/16 }\n',
    source: 'Aluminum Association, Aluminum Design Manual, January 2005, part VII, table 3-1.',
  }),
  spoken('shop/trial-incomplete', 'error', {
    what: 'A trial lacks something that is needed to work back from it.',
    why: 'A bent strip needs its sheet, its length before bending, the bend and every leg; a beaded one what the bead came to.',
    example: `${metal}\ntrial strip_1 { // error: shop/trial-incomplete\n  sheet crs_12\n  bent 93 radius 1.2\n  measured legs 51.2, 51.1 to 0.1\n}\n`,
    cure: good,
    source: definition,
  }),
  spoken('shop/trial-to-measure', 'information', {
    what: 'A trial says what was done to its strip and nothing of what came of it.',
    why: 'It waits for its measures; until they are typed in, bends and beads are reckoned as before.',
    example: trial(sheet, cut, bent).replace('trial strip_1 {', 'trial strip_1 { // information: shop/trial-to-measure'),
    cure: good,
    source: definition,
  }),
  spoken('shop/trial-strips', 'information', {
    what: 'A trial asks for strips to try before a panel is cut: what to cut, roll and bend.',
    why: 'What a sheet draws in under a bead and takes up in a bend differs from roller to roller, brake to brake and delivery to delivery. A strip costs a few minutes, a panel an afternoon.',
    example: asking('tray_strips { for tray }', 'information: shop/trial-strips'),
    cure: beadedTray(
      'trial tray_round_10 {\n  sheet crs_12\n  strip 95 by 150 to 0.1\n  beaded round_10 length 150 passes 1\n  measured width 94.2 to 0.1\n}\n',
    ),
  }),
  spoken('shop/trial-nothing-to-try', 'warning', {
    what: 'A trial asks for strips for a part that has neither a bead nor a bend, or is no panel.',
    why: 'A strip tries what a bead draws in, how tight a corner can be steered and what a bend takes up.',
    example: `${metal}\npanel lid {\n  sheet crs_12\n  outline rectangle 300 by 200\n}\ntrial lid_strips { for lid } // warning: shop/trial-nothing-to-try\n`,
    cure: `${metal}\npanel lid {\n  sheet crs_12\n  outline rectangle 300 by 200\n}\n`,
  }),
  spoken('shop/trial-asks-and-tells', 'error', {
    what: 'One trial asks for strips and tells of one as well.',
    why: 'What it asks for is not cut yet.',
    example: beadedTray('trial tray_strips {\n  for tray\n  strip 100 by 40 // error: shop/trial-asks-and-tells\n}\n'),
    cure: beadedTray(`${good.slice(good.indexOf('trial'))}`),
  }),
  spoken('shop/trial-two-in-one', 'error', {
    what: 'One trial is both bent and beaded.',
    why: 'A bead draws sheet in and a bend takes some up: from one strip the two can’t be told apart.',
    example: `${metal}die round_10 { round  width 10  depth 3 }\n\ntrial strip_1 {\n  sheet crs_12\n  strip 100 by 40\n  bent 93 radius 1.2\n  beaded round_10 length 40 // error: shop/trial-two-in-one\n  measured legs 51.2, 51.1 to 0.1\n}\n`,
    cure: good,
  }),
  spoken('shop/trial-makes-no-sense', 'error', {
    what: 'What was measured on a strip can’t be: K comes out below 0 or above 0.55, or it was left at more than it was bent to.',
    why: 'The neutral line lies within the sheet, between its inside face and about the middle. A leg measured from the inside, or a nose of another radius, is the usual slip.',
    example: trial(sheet, cut, bent, 'measured legs 50.0, 50.1 to 0.1 // error: shop/trial-makes-no-sense', angle),
    cure: good,
    source: definition,
  }),
  spoken('shop/trial-of-another-sheet', 'warning', {
    what: 'A sheet takes its bends from a trial of another sheet.',
    why: 'K is taken over, but thickness and temper differ from sheet to sheet.',
    example: `${good}sheet crs_15 {\n  thickness 1.5\n  bend radius 1.5 trial strip_1 // warning: shop/trial-of-another-sheet\n}\n`,
    cure: `${good}sheet crs_15 {\n  thickness 1.5\n  bend radius 1.5 k 0.42\n}\n`,
  }),
  spoken('shop/trial-not-bent', 'error', {
    what: 'A sheet takes its bends from a trial that was beaded.',
    why: 'A beaded strip tells how much a bead draws in, nothing of bends.',
    example: `units millimetre\ndie round_10 { round  width 10  depth 3 }\nsheet crs_12 {\n  thickness 1.2\n  bend radius 1.2 trial strip_2 // error: shop/trial-not-bent\n}\n\ntrial strip_2 {\n  sheet crs_12\n  strip 200 by 150\n  beaded round_10 length 150\n  measured width 198.1 to 0.1\n}\n`,
    cure: `units millimetre\nsheet crs_12 {\n  thickness 1.2\n  bend radius 1.2 trial strip_1\n}\n\ntrial strip_1 {\n  sheet crs_12\n  strip 100 by 40\n  bent 93 radius 1.2\n  measured legs 51.2, 51.1 to 0.1\n}\n`,
  }),
];
