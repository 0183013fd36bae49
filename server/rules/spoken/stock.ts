import { spoken } from './form.js';

const shop = `units millimetre
tube square_25 { square 25  wall 1.5  length 6 m }
tube round_20  { round 20  wall 1.5  length 6 m }
tube round_30  { round 30  wall 2  length 6 m }
bar flat_25    { flat 25 by 5  length 6 m }
`;
const piece = (...lines: readonly string[]): string => `${shop}\npiece rail {\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;

/** Tube, bar, rod and angle, and what is cut from them. */
export const stockRules = [
  spoken('stock/no-shape', 'error', {
    what: 'A tube, bar, rod or angle does not say its size, or a tube its wall.',
    why: 'Mass, mitres and copes are worked out from them.',
    example: 'units millimetre\ntube rail_25 { square 25 } // error: stock/no-shape\n',
    cure: 'units millimetre\ntube rail_25 { square 25  wall 1.5 }\n',
  }),
  spoken('stock/missing', 'error', {
    what: 'A piece or a strap does not say what it is cut from.',
    why: 'Without its stock it can be neither weighed nor put on the cutting list.',
    example: piece('length 600').replace('piece rail {', 'piece rail { // error: stock/missing'),
    cure: piece('tube square_25', 'length 600'),
  }),
  spoken('stock/no-length', 'error', {
    what: 'How long a piece is cannot be had: no length is written, or a strap lacks its pin, its wrap or a flat bar.',
    why: 'It cannot be cut.',
    example: piece('tube square_25').replace('piece rail {', 'piece rail { // error: stock/no-length'),
    cure: piece('tube square_25', 'length 600'),
  }),
  spoken('stock/longer-than-sold', 'warning', {
    what: 'A piece is longer than its stock is sold.',
    why: 'It has to be joined of two, or a longer length found. A joint wants a sleeve or a full weld, away from where it is bent most.',
    example: piece('tube square_25', 'length 7 m // warning: stock/longer-than-sold'),
    cure: piece('tube square_25', 'length 5800'),
  }),
  spoken('stock/cope-of-what', 'warning', {
    what: 'A cope is asked for where not both are round.',
    why: 'The saddle of one round tube on another is worked out; square tube meets square with a mitre or a square end.',
    example: piece('tube square_25', 'length 600', 'end finish cope onto round_30 at 90 // warning: stock/cope-of-what'),
    cure: piece('tube round_20', 'length 600', 'end finish cope onto round_30 at 90'),
  }),
  spoken('stock/cope-too-big', 'error', {
    what: 'A tube is to sit on one that is thinner than itself.',
    why: 'It would hang over at both sides: there is nothing for the edge of the cope to meet.',
    example: piece('tube round_30', 'length 600', 'end finish cope onto round_20 at 90 // error: stock/cope-too-big'),
    cure: piece('tube round_20', 'length 600', 'end finish cope onto round_30 at 90'),
  }),
  spoken('stock/bends-overlap', 'error', {
    what: 'A bend of a piece starts before the one before it has ended.',
    why: 'Each takes up its radius times its angle along the piece.',
    example: piece(
      'tube round_20',
      'length 900',
      'bend at 200 by 90 radius 60',
      'bend at 250 by 90 radius 60 // error: stock/bends-overlap',
    ),
    cure: piece('tube round_20', 'length 900', 'bend at 200 by 90 radius 60', 'bend at 400 by 90 radius 60'),
  }),
  spoken('stock/bend-off-the-end', 'error', {
    what: 'A bend runs past the end of its piece.',
    why: 'The former needs straight tube to take hold of beyond it.',
    example: piece('tube round_20', 'length 260', 'bend at 200 by 90 radius 60 // error: stock/bend-off-the-end'),
    cure: piece('tube round_20', 'length 460', 'bend at 200 by 90 radius 60'),
  }),
  spoken('name/other-kind', 'error', {
    what: 'The word and the stock it names do not go together.',
    why: 'A reader of the file would look for it in the wrong rack. The fix writes the right word.',
    example: piece('bar square_25 // error: name/other-kind', 'length 600'),
    cure: piece('tube square_25', 'length 600'),
  }),
];
