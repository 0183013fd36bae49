import { spoken } from './form.js';

const metal = 'units millimetre\nsheet crs_12 { thickness 1.2  bend radius 1.2 k 0.42 }\n';
const trial = (...lines: readonly string[]): string => `${metal}\ntrial strip_1 {\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;
const sheet = 'sheet crs_12';
const cut = 'strip 100 by 40';
const bent = 'bent 93 radius 1.2';
const legs = 'measured legs 51.2, 51.1 to 0.1';
const angle = 'measured angle 90.5 to 0.5';
const good = trial(sheet, cut, bent, legs, angle);
const definition = 'Definition of the bend deduction and of K.';

/** Test strips. */
export const trialRules = [
  spoken('shop/trial-incomplete', 'error', {
    what: 'A trial lacks something that is needed to work back from it.',
    why: 'A bent strip needs its sheet, its length before bending, the bend and every leg; a beaded one what the bead came to.',
    example: `${metal}\ntrial strip_1 { // error: shop/trial-incomplete\n  sheet crs_12\n  bent 93 radius 1.2\n  measured legs 51.2, 51.1 to 0.1\n}\n`,
    cure: good,
    source: definition,
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
