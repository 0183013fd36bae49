import { spoken } from './form.js';

const plate = (...lines: readonly string[]): string =>
  `units inch\nsheet crs_18 { thickness 1.2 mm  bend radius 1/16 k 0.42 }\n\npanel plate {\n  sheet crs_18\n  outline rectangle 6 by 4\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;

const beaded = (line: string): string =>
  `die round_6 { round  width 1/4  depth 1/16 }\n${plate('bead rib {', '  die round_6', '  up', line, '}')}`;

/** What is wrong with the words themselves, before anything is worked out. */
export const textRules = [
  spoken('text/missing-value', 'error', {
    what: 'A value is wanted and none stands there.',
    why: 'Half-typed lines look like this. Everything else in the file is still read.',
    example: 'units inch\nlet reach = // error: text/missing-value\n',
    cure: 'units inch\nlet reach = 3/4\n',
  }),
  spoken('text/missing-word', 'error', {
    what: 'A statement wants a certain word next, and another word or the end of the line stands there.',
    why: 'Words part the values of a statement, so that each is known for what it is.',
    example: plate('slot 1/4 by 1 at (3, 2)', 'edge top { flange 3/4 } // error: text/missing-word'),
    cure: plate('slot 1/4 by 1 at (3, 2)', 'edge top { flange 3/4 up }'),
  }),
  spoken('text/missing-sign', 'error', {
    what: 'A sign such as `=` is wanted and is not there.',
    why: '`let` gives a name to what stands on the right of the sign.',
    example: 'units inch\nlet reach 3/4 // error: text/missing-sign\n',
    cure: 'units inch\nlet reach = 3/4\n',
  }),
  spoken('text/missing-name', 'error', {
    what: 'A name is wanted and is not there.',
    why: 'Parts, sheets and values are spoken of by their names.',
    example: 'units inch\nlet = 3/4 // error: text/missing-name\n',
    cure: 'units inch\nlet reach = 3/4\n',
  }),
  spoken('text/missing-text', 'error', {
    what: 'A text in quotes is wanted and is not there.',
    why: 'Free words stand in quotes, so that they are never taken for the language’s own.',
    example: plate('finish // error: text/missing-text'),
    cure: plate('finish "red primer"'),
  }),
  spoken('text/missing-size', 'error', {
    what: 'A thread or drill size is wanted and is not there.',
    why: 'After `tapped`, `clearance` or `drill` one size is read whole: `M6`, `1/4-20`, `#30`.',
    example: plate('hole tapped // error: text/missing-size'),
    cure: plate('hole tapped M6 at (3, 2)'),
  }),
  spoken('text/missing-braces', 'error', {
    what: 'A statement wants its braces and what stands in them.',
    why: 'A part or a thing of the shop is described in the braces after its name.',
    example: 'units inch\npanel lid // error: text/missing-braces\n',
    cure: 'units inch\nsheet crs_18 { thickness 1.2 mm }\npanel lid { sheet crs_18  outline rectangle 6 by 4 }\n',
  }),
  spoken('text/missing-brace', 'error', {
    what: 'A `{` is never closed, or a `}` has no `{`.',
    why: 'Where the missing brace belongs is taken from how the lines are set in; the fix writes it there.',
    example: 'units inch\nsheet crs_18 { // error: text/missing-brace\n  thickness 1.2 mm\n',
    cure: 'units inch\nsheet crs_18 {\n  thickness 1.2 mm\n}\n',
  }),
  spoken('text/stray-brace', 'error', {
    what: 'A `}` closes nothing.',
    why: 'One brace too many, often left behind by a deletion.',
    example: 'units inch\nsheet crs_18 { thickness 1.2 mm }\n} // error: text/stray-brace\n',
    cure: 'units inch\nsheet crs_18 { thickness 1.2 mm }\n',
  }),
  spoken('text/missing-bracket', 'error', {
    what: 'A `(` is never closed.',
    why: 'Points and grouped sums need both brackets. It is taken as closed at the end of its line.',
    example: 'units inch\nlet reach = 2 * (3 + 4 // error: text/missing-bracket\n',
    cure: 'units inch\nlet reach = 2 * (3 + 4)\n',
  }),
  spoken('text/extra-coordinate', 'error', {
    what: 'A point has more than two numbers.',
    why: 'A sheet is drawn flat: a point is (x, y).',
    example: plate('hole 1/4 at (3, 2, 1) // error: text/extra-coordinate'),
    cure: plate('hole 1/4 at (3, 2)'),
  }),
  spoken('text/extra-words', 'error', {
    what: 'A statement is complete and more words follow that it cannot take.',
    why: 'A comma or a line break is often missing, or a word stands before the one it belongs behind. The message shows how the statement is written.',
    example: plate('hole 1/4 at (3, 2) up // error: text/extra-words'),
    cure: plate('hole 1/4 at (3, 2)'),
  }),
  spoken('text/extra-braces', 'error', {
    what: 'Braces stand after a statement that takes none.',
    why: 'Only statements that describe something have braces.',
    example: 'units inch { } // error: text/extra-braces\n',
    cure: 'units inch\n',
  }),
  spoken('text/missing-comma', 'error', {
    what: 'Two items of a list stand side by side without a comma.',
    why: 'Commas part the items of a list.',
    example: plate('hole 1/4 at (1, 1) (3, 2) // error: text/missing-comma'),
    cure: plate('hole 1/4 at (1, 1), (3, 2)'),
  }),
  spoken('text/unopened-text', 'error', {
    what: 'The opening quote of a text is missing.',
    why: 'Free words stand in quotes, so that they are never taken for the language’s own.',
    example: 'units inch\n// error below: text/unopened-text\ncheck 3 < 4 too wide"\n',
    cure: 'units inch\ncheck 3 < 4 "too wide"\n',
  }),
  spoken('text/given-twice', 'error', {
    what: 'One statement gives the same thing twice.',
    why: 'The first one counts; take out the one that is not meant.',
    example: plate('edge top { flange 3/4 up radius 1/16 radius 1/8 } // error: text/given-twice'),
    cure: plate('edge top { flange 3/4 up radius 1/8 }'),
  }),
  spoken('text/two-values', 'error', {
    what: 'Two values stand side by side.',
    why: 'Two values never do: a word or a comma parts them. That is what lets `1 1/2` be one number.',
    example: 'units inch\nlet reach = 5 1 // error: text/two-values\n',
    cure: 'units inch\nlet reach = 5 1/2\n',
  }),
  spoken('text/too-few', 'error', {
    what: 'A list has fewer items than it needs.',
    why: 'A line needs two points, for example.',
    example: beaded('  path (1, 2) // error: text/too-few'),
    cure: beaded('  path (1, 2), (5, 1)'),
  }),
  spoken('text/misspelt-word', 'error', {
    what: 'A word is not one of its statement’s, but is close to one that is.',
    why: 'The fix writes the word that was meant.',
    example: plate('edge top { flange 3/4 dwon } // error: text/misspelt-word'),
    cure: plate('edge top { flange 3/4 down }'),
  }),
  spoken('text/unknown-word', 'error', {
    what: 'No statement that may stand here begins with this word.',
    why: 'The rest of the file is read as if the statement were not there.',
    example: plate('rivet 1/8 // error: text/unknown-word'),
    cure: plate('hole 1/8 at (1, 1)'),
  }),
  spoken('text/misplaced-word', 'error', {
    what: 'A statement stands where its kind cannot.',
    why: 'A flange belongs in the braces of an edge, a hole in those of a panel. The message says where it may stand.',
    example: plate('flange 3/4 up // error: text/misplaced-word'),
    cure: plate('edge top { flange 3/4 up }'),
  }),
  spoken('text/no-statement', 'error', {
    what: 'Something stands where a statement should begin, and it is not a word.',
    why: 'Every statement begins with a word. Often the line above was ended too soon.',
    example: 'units inch\n3/4 // error: text/no-statement\n',
    cure: 'units inch\nlet reach = 3/4\n',
  }),
  spoken('text/stray-character', 'error', {
    what: 'A character stands in the text that is no part of the language.',
    why: 'A slip of the hand, or a sign copied from elsewhere.',
    example: 'units inch\nlet reach = 3/4 ? // error: text/stray-character\n',
    cure: 'units inch\nlet reach = 3/4\n',
  }),
  spoken('text/unclosed-text', 'error', {
    what: 'The closing quote of a text is missing.',
    why: 'A text ends in its own line, so the rest of the file is read all the same.',
    example: plate('finish "red primer', '// error: text/unclosed-text').replace('primer\n  //', 'primer //'),
    cure: plate('finish "red primer"'),
  }),
  spoken('text/not-computed-yet', 'information', {
    what: 'A statement is understood, and nothing is worked out from it yet.',
    why: 'The picture, the blank and the patterns leave it out, and it is better said than found out at the bench.',
    example: `welder small_welder { process wire } // information: text/not-computed-yet\n${plate()}`,
    cure: plate(),
  }),
];
