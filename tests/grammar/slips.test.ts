/** One slip, one message, and everything else of the file still stands. */
import { describe, expect, test } from 'vitest';
import { parse } from '../../grammar/index.js';
import { checkProblems, outlineOf, problemsOf } from './marked.js';

const gate = `units inch
let gate_width = 30 1/4

panel gate {
  sheet crs_18
  outline rectangle gate_width by 11 outside
  edge top {
    flange 3/4 down
    hem 3/8 open 1/16
  }
  edge left, right { flange 5/8 down }
  hole 9/32 at (1, 1 1/2), (gate_width - 1, 1 1/2)
  slot 1/4 by 1 at (gate_width / 2, 10 1/4) turned 0
  check gate.blank.height <= 24 "must fit"
}

panel lid {
  sheet crs_18
  outline rectangle 12 by 8
}
`;
const heads = outlineOf(parse(gate)).map((row) =>
  row
    .split(' > ')
    .map((part) => part.split(' ')[0])
    .join(' > '),
);

describe('the message stands at the slip', () => {
  test('a value left out', () => {
    checkProblems(`
panel lid {
  edge top {
    flange down
    //     ^^^^ text/missing-value: Before \`down\`, a length is wanted.
    hem 3/8 closed
  }
}`);
  });
  test('a direction left out', () => {
    checkProblems(`
panel lid {
  edge top { flange 3/4 }
  //                ^^^ text/missing-word: After \`3/4\`, \`up\` or \`down\` is wanted.
}`);
  });
  test('a word of a choice misspelt', () => {
    checkProblems(`
panel lid {
  edge top { flange 3/4 dwon }
  //                    ^^^^ text/misspelt-word: \`dwon\` is no word of \`flange\`. Did you mean \`down\`?
}`);
  });
  test('an option misspelt, and the next statement in the same braces', () => {
    checkProblems(`
panel lid {
  edge top { flange 3/4 down radus 1/8 hem 3/8 closed }
  //                         ^^^^^ text/misspelt-word: \`radus\` is no word of \`flange\`. Did you mean \`radius\`?
}`);
  });
  test('an option without its value', () => {
    checkProblems(`
panel lid {
  edge top { flange 3/4 down radius }
  //                         ^^^^^^ text/missing-value: After \`radius\`, a length is wanted.
}`);
  });
  test('a statement nobody knows', () => {
    checkProblems(`
panel lid {
  edge top { flnge 3/4 down }
  //         ^^^^^ text/unknown-word: No statement in the braces of \`edge\` begins with \`flnge\`. Did you mean \`flange\`?
}`);
  });
  test('a statement in the wrong place', () => {
    checkProblems(`
panel lid {
  flange 3/4 down
//^^^^^^ text/misplaced-word: \`flange\` stands in the braces of \`edge\`, not in the braces of \`panel\`.
}`);
  });
  test('a statement in the wrong place, with a name that begins a statement there', () => {
    checkProblems(`
section rail {
  leg 2
  edge finish { hem 3/8 closed }
//^^^^ text/misplaced-word: \`edge\` stands in the braces of \`panel\` or in the braces of \`flange\`, not in the braces of \`section\`.
}`);
  });
  test('two values side by side', () => {
    checkProblems(`
panel lid {
  edge top { flange 3/4 down 90 2 }
  //                            ^ text/two-values: Two values never stand side by side
}`);
  });
  test('an option given twice', () => {
    checkProblems(`
panel lid {
  edge top { flange 3/4 down radius 1/8 radius 1/4 }
  //                                    ^^^^^^ text/given-twice: \`radius\` is given twice
}`);
  });
  test('words that the statement knows, in another order', () => {
    checkProblems(`
panel lid {
  hole 1/4 at (1, 2) on top through to base
  //                 ^^ text/extra-words: \`on\` comes before \`at\` in \`hole\`.
  hole 1/4 on top at (1, 2) through to base
  //                        ^^^^^^^ text/extra-words: \`through\` comes before \`at\` in \`hole\`.
}`);
  });
  test('a choice written before the length it goes with', () => {
    checkProblems(`
panel lid {
  edge top { hem closed 3/8 }
  //             ^^^^^^ text/missing-value: Before \`closed\`, a length is wanted. It is written \`hem DEPTH
}`);
  });
  test('a comma between two statements', () => {
    checkProblems(`
panel lid {
  edge top { flange 3/4 down, hem 3/8 closed }
  //                        ^ text/extra-words: No comma parts two statements: begin the next on a new line, or after \`;\`.
}`);
  });
  test('a comma left out', () => {
    checkProblems(`
panel lid {
  edge left right { flange 3/4 down }
  //        ^^^^^ text/missing-comma: Before \`right\`, a comma is wanted
  hole 1/4 at (1, 2) (3, 4)
  //                 ^ text/missing-comma: Before \`(\`, a comma is wanted
}`);
  });
  test('brackets never closed', () => {
    checkProblems(`
panel lid {
  hole 1/4 at (1, 1 1/2
  //          ^ text/missing-bracket: This ( is never closed
  slot 1/4 by 1 at (width / 2, 10
  //               ^ text/missing-bracket: This ( is never closed
}`);
  });
  test('quotes never closed, never opened', () => {
    checkProblems(`
panel lid {
  note "scribe on the primed side
  //   ^^^^^^^^^^^^^^^^^^^^^^^^^^ text/unclosed-text: The closing quote
  check lid.mass < 4 kg too heavy"
  //                    ^^^^^^^^^^ text/unopened-text: The opening quote
}`);
  });
  test('stray characters: a run is one', () => {
    checkProblems(`
panel lid {
  hole @@@ 1/4 at (1, 2)
  //   ^^^ text/stray-character: \`@@@\` is no part of the language here.
}`);
  });
  test('letters that were lost in reading: one message, with what to do about it', () => {
    checkProblems(`
let gr\ufffd\ufffde = 3
//    ^^ text/stray-character: A letter here can't be read. Save the file as UTF-8`);
  });
  test('a name that is a word of the language', () => {
    checkProblems(`
let panel = 3
//  ^^^^^ name/reserved: \`panel\` is a word of the language
let = 3
//  ^ text/missing-name: Before \`=\`, a new name is wanted.
let a 3
//    ^ text/missing-sign: Before \`3\`, \`=\` is wanted.
let b =
//    ^ text/missing-value: After \`=\`, a value is wanted.
let c = 3`);
  });
  test('a unit misspelt', () => {
    checkProblems(`
let a = 30 1/4 inchs
//             ^^^^^ text/misspelt-word: \`inchs\` is no unit. Did you mean \`inch\` or \`inches\`?`);
  });
  test('a sum broken before its operator', () => {
    checkProblems(`
let a = 3
  + 4
//^ text/no-statement: A statement begins with a word; here stands \`+\`. To go on with the line above, put the + at its end.`);
  });
});

describe('after one slip all other statements stand', () => {
  const slips: readonly (readonly [string, string, string])[] = [
    ['flange 3/4 down', 'flange down', 'flange'],
    ['flange 3/4 down', 'flange 3/4', 'flange'],
    ['flange 3/4 down', 'flnge 3/4 down', 'flnge'],
    ['flange 3/4 down', 'flange 3/4 up down', 'flange'],
    ['panel gate {', 'pannel gate {', 'pannel'],
    ['panel gate {', 'panel gate', 'panel'],
    ['panel gate {', 'panel {', 'panel'],
    ['edge top {', 'edge top', 'edge'],
    ['edge top {', 'edge {', 'edge'],
    ['1/16\n  }', '1/16', 'edge'],
    ['5/8 down }', '5/8 down', 'edge'],
    ['5/8 down }', '5/8 down } }', ''],
    ['fit"\n}', 'fit"\n', 'panel'],
    ['fit"\n}', 'fit"\n}\n}', ''],
    ['"must fit"', '"must fit', 'check'],
    ['"must fit"', 'must fit"', 'check'],
    ['(1, 1 1/2)', '(1, 1 1/2', 'hole'],
    ['1 1/2)\n  slot', '1 1/2\n  slot', 'hole'],
    ['gate_width / 2', 'gate_width /', 'slot'],
    ['= 30 1/4', '= 30 1/4 +', 'let'],
    ['= 30 1/4', '=', 'let'],
    ['by 11', 'x 11', 'outline'],
    ['by 11', '11', 'outline'],
    ['at (1', '(1', 'hole'],
    ['turned 0', 'truned 0', 'slot'],
    ['edge left, right', 'edge left,', 'edge'],
    ['rectangle gate', 'rectangel gate', 'outline'],
    ['units inch', 'unit inch', 'unit'],
    ['gate.blank', 'gate..blank', 'check'],
  ];
  test.each(slips)('%j written %j', (right, wrong, brokenWord) => {
    const text = gate.replace(right, wrong);
    expect(text).not.toBe(gate);
    const tree = parse(text);
    expect(problemsOf(tree)).toHaveLength(1);
    const broken = outlineOf(tree).length;
    expect(broken).toBe(heads.length);
    const misread: string[] = [];
    const collect = (statements: typeof tree.statements): void => {
      for (const s of statements) {
        if (s.broken || s.entry === undefined) misread.push(s.word.name);
        collect(s.block?.statements ?? []);
      }
    };
    collect(tree.statements);
    expect(misread).toEqual(brokenWord === '' ? [] : [brokenWord]);
  });
});

describe('what ends a statement', () => {
  const outline = (text: string): string[] => {
    const tree = parse(text);
    expect(problemsOf(tree)).toEqual([]);
    return outlineOf(tree);
  };
  test('a line break is blank inside brackets, after a comma and after an operator', () => {
    expect(outline('panel lid {\n  hole 1/4 at (1,\n    2),\n    (3, 4)\n  hole 3/8 at (a +\n b, 2)\n}')).toHaveLength(3);
    expect(outline('let a = 3 +\n  4\nlet b = a')).toEqual(['let a = 3 + 4', 'let b = a']);
  });
  test('`;` parts statements', () => {
    expect(outline('let a = 3; let b = 4')).toHaveLength(2);
  });
  test('`{` may stand on the next line', () => {
    expect(outline('panel lid\n{\n  edge top\n  {\n    flange 1 up\n  }\n}')).toEqual([
      'panel lid',
      'panel > edge top',
      'panel > edge > flange 1 up',
    ]);
  });
  test('in one line the first word a statement cannot take begins the next', () => {
    expect(outline('die bead_10 { round width 10 depth 3 tightest turn 20 per pass 1.5 }')).toEqual([
      'die bead_10',
      'die > round',
      'die > width 10',
      'die > depth 3',
      'die > tightest turn 20',
      'die > per pass 1.5',
    ]);
  });
  test('words are names where a name is wanted', () => {
    expect(
      outline(
        'let width = 3\nlet up = 4\npanel hole {\n  edge top { flange width up }\n  edge left { flange up up }\n  outline rectangle width by up\n}',
      ),
    ).toHaveLength(8);
  });
  test('a note belongs to the statement under it', () => {
    const tree = parse(
      '/// Two off.\n/// Prime first.\npanel lid {\n  // no note\n  /// Face side.\n  hole 1/4 at (1, 2) /// none\n  /// dangling\n}\nlet a = 3',
    );
    const [lid, a] = tree.statements;
    expect(lid?.note).toBe('Two off.\nPrime first.');
    expect(lid?.block?.statements[0]?.note).toBe('Face side.');
    expect(a?.note).toBeUndefined();
  });
  test('words of the statement are told apart from names', () => {
    const text = 'panel lid {\n  edge top { flange up down radius up }\n}';
    const flange = parse(text).statements[0]?.block?.statements[0]?.block?.statements[0];
    expect(flange?.words.map((s) => `${text.slice(s.start, s.end)}@${s.start}`)).toEqual(['flange@25', 'down@35', 'radius@40']);
  });
});
