/** The reference of the language as one page of markdown, printed from the tables. Every `planish` fence in it is a whole file. */
import { statementPage, unitLine } from './explain.js';
import { functions } from './functions.js';
import { entries, places } from './index.js';
import type { Place, StatementEntry } from './pattern.js';
import { placeTitle } from './place-titles.js';
import { reservedWords, unitOf, units, wordSpellings } from './units.js';

const wholeFile = `// drop-gate.planish: rear gate of a market gardener's cargo trike

units inch

material mild_steel {
  gauge table steel
  density 7850 kg/m3   yield 210 MPa   tensile 330 MPa
}
sheet crs_18 { material mild_steel  thickness 18 ga  size 48 by 96  bend radius 1/8 k 0.42 }

let gate_width  = 30 1/4
let gate_height = 11

/// Drop gate, one off. The face looks toward the road.
panel gate {
  sheet   crs_18
  outline rectangle gate_width by gate_height outside
  grain   along x

  edge top {
    flange 3/4 down              // turned 90 unless another angle is given
    flange 3/8 down              // the return goes on turning down
  }
  edge left, right { flange 5/8 down }
  edge bottom      { flange 1 down 90 radius 5/32 }
  corner all relief round 5/16

  hole 9/32 at (1, 1 1/2), (gate_width - 1, 1 1/2)
  slot 1/4 by 1 at (gate_width / 2, 10 1/4) turned 0

  check gate.blank.height <= 24 "must come out of a half-width offcut"
}
`;
const metric = `units millimetre

material mild_steel { gauge table steel  density 7850 kg/m3 }
sheet crs_12 { material mild_steel  thickness 1.2  bend radius 1.2 k 0.42 }

let depth = 150
let width = 2 * depth + 80       // 380, still a plain number

/// Shelf of a joiner's wall cabinet.
panel shelf {
  sheet crs_12
  outline rectangle width by depth
  edge top, bottom { flange 20 down }
  hole 6 along line from (30, depth / 2) to (width - 30, depth / 2) count 5
}
`;

const tables = [...new Set(Object.values(wordSpellings))];
const spelled = tables
  .map((table) => [
    table,
    ...Object.keys(wordSpellings).filter((written) => wordSpellings[written] === table && unitOf(written)?.name !== written),
  ])
  .map((group) => group.map((written) => `\`${written}\``).join(' '))
  .join(', ');

const opening = `# The language of part files

<!-- Printed from the tables in grammar/vocabulary; run \`npm run generate\` after a change there. -->

A part file is plain text that ends in \`.planish\`. It says what is on the bench and what the finished parts are; the flat blank, the bends and everything
else is worked out from it. This page is the whole language: how a file is read, what a value is, and every statement by the place where it may stand.

## What a file looks like

\`\`\`planish
${wholeFile}\`\`\`

The same in millimetres, with sizes worked out from one another:

\`\`\`planish
${metric}\`\`\`

## How the text is read

- **Comments.** \`//\` starts a comment that runs to the end of the line. \`///\` at the start of a line is a note for the statement under it: it shows on
  hover and on the mark-out sheet.
- **Statements.** A statement ends with its line. A line break counts as a blank inside \`( )\`, and after a comma or an operator at the end of a line.
  \`;\` may part two statements. \`{\` may stand on the next line. Within braces on one line, the statement in progress takes every word it accepts; the
  first word it cannot take begins the next.
- **Two values never stand side by side**: a word or a comma parts them. So \`1 1/2\` is one number, and \`-\` after a value takes away.
- **Names.** A letter or \`_\`, then letters, digits and \`_\`, in any alphabet. Words of the language are words only where they stand for something;
  anywhere else they are free as names, so a part may have a value called \`width\` or an edge called \`top\`. Only these are never names:
  ${reservedWords.map((w) => `\`${w}\``).join(' ')}.
- **Where a name is seen.** In the braces it stands in and in all braces within, in any order of lines. It may not repeat a name further out. Values, parts,
  sheets, dies and so on each have names of their own. \`with\` brings another file's own names.
- **Texts** stand between \`"\` and \`"\` on one line, with a blank before them: a \`"\` right after a digit is the inch mark.
- **Signs.** \`″ ′\` stand for inch and foot, \`“ ”\` for quotes, \`½ ¼ ¾\` for those fractions, \`× −\` for \`* -\`, \`°\` for degrees; a \`⌀\` before a
  number says only that it is a diameter.
- **Spellings.** These are one word each, and stay as you wrote them: ${spelled}.

## Numbers and units

\`12\`, \`0.75\`, \`.75\`, \`3/8\`, \`1 3/8\`, \`1-3/8\` and \`1e-3\` are numbers. A hyphen without blanks joins a whole and a fraction, or feet and inches
(\`4'-2 1/2"\`); between other numbers it is not guessed at but reported, with each way it might be meant. \`3/8\` closed up is a fraction, \`3 / 8\` a
division. \`4 ft 2 1/2 in\` is one length.

A unit stands after a written number only. The base is what the number is turned into for reckoning.

| written | measures | one of it is |
| --- | --- | --- |
${units.map(unitLine).join('\n')}

A bare number takes the file's \`units\` where a length is wanted, and degrees where an angle is wanted. Multiplied or divided it is a plain number. It
never becomes an area, a mass or a force by itself. \`18 ga\` is read by the metal's own gauge table on a \`sheet\`; elsewhere write \`18 ga of mild_steel\`.

After \`tapped\`, \`clearance\` or \`drill\` a size is read whole: \`M6\`, \`M8x1\`, \`1/4-20\`, \`#8-32\`, \`#30\`, \`F\`.

## Values

- \`+ - * / ^\` reckon; \`= < <= != >= >\` compare (lengths are equal within 0.001 mm, angles within 0.001°); \`and or not\` join conditions.
- A length and an angle do not add up: what does not go together is reported at the sign between them.
- Points are values: \`let p = (3, 4)\`, then \`p.x\`, \`p + (1, 0)\`.
- What a part measures is read with dots: \`gate.blank.width\`, \`gate.mass\`, \`gate.bends.top.1.allowance\`. A part's own figures may be read in its own
  \`check\`, and anywhere in other parts.
- Values may stand in any order. When they run in a ring, one message names all of them.

| function | gives |
| --- | --- |
${functions.map((each) => `| \`${each.usage}\` | ${each.summary} |`).join('\n')}

## Where things lie

- x runs to the right and y up as you look at the part's face; z comes toward the eye. A rectangle's (0, 0) is its lower left corner.
- Everything is placed on the *finished* part. The program carries it to the flat blank.
- \`up\` and \`down\` are the two faces of the sheet, not directions in the shop: every turn marked \`up\` folds toward the face side, however the piece
  already stands. \`down\` then \`down\` is a return, \`down\` then \`up\` a Z.
- An angle is how far the metal turns from flat: 90 is a square bend, 135 is most of the way to a hem.
- \`outside\` sizes run over everything, to the sharp corner where the outside faces would meet (past 90° to the outermost of the bend, after
  DIN 6935:2011-10), \`inside\` sizes between the inside faces, \`flat\` sizes between the bend tangents.
- On a flange, x is the panel's own coordinate along that edge (y for left and right edges) and y the distance from the outside of what the flange stands
  on toward its free edge.
- Holes, wire, rod and tube are given by diameter; rounded corners and bends by radius.
`;

const errors = `## When something cannot be read

A file is never turned away whole. Each statement that can be understood is used. Each that cannot gives one message at the words at fault, with the numbers,
what was expected, and a cure where there is one. What depends on a broken value is left out rather than guessed, and a \`check\` on it counts as not decided.
The last good picture of the part stays, marked as stale.

- A missing \`"\` is reported, and its text ends with the line.
- An open \`(\` ends at its line when the next line starts a statement or closes a block.
- An open \`{\` ends before a line whose first column holds a word that only stands at the top of a file.
- A statement that is read but not reckoned with yet says so once, and the rest of the part is worked out without it.
`;

/** The first statement that shows each example, in the order of the chapters. */
const inOrder = places.flatMap((place) => entries.filter((entry) => entry.places[0] === place));
const shownBy = (entry: StatementEntry): StatementEntry | undefined => {
  const first = inOrder.find((other) => other.example === entry.example);
  return first === entry ? undefined : first;
};

const chapter = (place: Place): string => {
  const here = entries.filter((entry) => entry.places[0] === place);
  const elsewhere = entries.filter((entry) => entry.places[0] !== place && entry.places.includes(place));
  const title = placeTitle(place);
  const also =
    elsewhere.length === 0
      ? ''
      : `\nAlso here: ${[...new Set(elsewhere.map((entry: StatementEntry) => `\`${entry.word}\``))].join(' ')} (described above).\n`;
  return `## ${title[0]?.toUpperCase() ?? ''}${title.slice(1)}\n${also}\n${here.map((entry) => statementPage(entry, 3, shownBy(entry))).join('\n')}`;
};

const glance = (): string =>
  places
    .map((place) => {
      const title = placeTitle(place);
      const words = entries.filter((entry) => entry.places.includes(place)).map((entry) => `\`${entry.word}\``);
      return `| [${title}](#${title
        .toLowerCase()
        .replaceAll(/[^a-z_ -]/g, '')
        .replaceAll(' ', '-')}) | ${words.join(' ')} |`;
    })
    .join('\n');

/** The whole reference as markdown. */
export const reference = (): string =>
  `${opening}
# Statements by place

Words stand as they are; arguments stand in capitals; what may be left out is in square brackets; \`|\` parts choices; \`…\` means more of the same.
A word that describes something at the top of a file (\`sheet\`, \`die\`, \`material\`) refers to it within a part.

| where | what may stand there |
| --- | --- |
${glance()}

${places.map(chapter).join('\n')}
${errors}`;
