import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { languageConfiguration } from '../../grammar/editor/configuration.js';
import { snippets } from '../../grammar/editor/snippets.js';
import { textMateGrammar } from '../../grammar/editor/textmate.js';
import { parse } from '../../grammar/parser.js';

let folder = '';
beforeAll(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'planish-colours-'));
  fs.writeFileSync(path.join(folder, 'planish.tmLanguage.json'), JSON.stringify(textMateGrammar()));
});
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

/** Runs the text with its `// ^^^ scope` lines through the same machinery that colours text in the editor. */
const coloursOf = (marked: string): { readonly fits: boolean; readonly report: string } => {
  const file = path.join(folder, 'sample.planish');
  fs.writeFileSync(file, `// SYNTAX TEST "source.planish" "colours"\n${marked}`);
  const done = spawnSync(
    process.execPath,
    ['node_modules/vscode-tmgrammar-test/dist/unit.js', '-g', path.join(folder, 'planish.tmLanguage.json'), file],
    { encoding: 'utf8' },
  );
  return { fits: done.status === 0, report: `${done.stdout}${done.stderr}` };
};
const expectColours = (marked: string): void => {
  const { fits, report } = coloursOf(marked);
  expect(fits, report).toBe(true);
};

describe('colours of a text', () => {
  it('are really checked: a wrong expectation fails', () => {
    expect(coloursOf('units inch\n//    ^^^^ comment\n').fits).toBe(false);
  });

  it('tell statements, the names they bring, and numbers with units apart', () =>
    expectColours(`
units inch
// <----- keyword.control.planish
//    ^^^^ support.constant.planish
let gate_width = 30 1/4
// <--- keyword.control.planish
//  ^^^^^^^^^^ variable.other.definition.planish
//             ^ keyword.operator.planish
//               ^^^^^^ constant.numeric.planish
panel gate {
// <----- storage.type.planish
//    ^^^^ entity.name.type.planish
//         ^ punctuation.section.block.begin.planish
  sheet crs_18
//^^^^^ keyword.control.planish
//      ^^^^^^ variable.other.planish
  outline rectangle gate_width by 4' 2-1/2" outside
//^^^^^^^ keyword.control.planish
//        ^^^^^^^^^ support.constant.planish
//                  ^^^^^^^^^^ variable.other.planish
//                             ^^ keyword.other.planish
//                                ^ constant.numeric.planish
//                                 ^ keyword.other.unit.planish
//                                   ^^^^^ constant.numeric.planish
//                                        ^ keyword.other.unit.planish
//                                          ^^^^^^^ support.constant.planish
}
`));

  it('know a word by its place: top is a name, corner a statement or a word of a path', () =>
    expectColours(`
die half { round width 3/8 }
//         ^^^^^ keyword.control.planish
//               ^^^^^ keyword.control.planish
panel gate {
  edge top { flange 3/4 down radius 3/32  hem 3/8 open 1/16 }
//^^^^ keyword.control.planish
//     ^^^ variable.other.planish
//           ^^^^^^ keyword.control.planish
//                      ^^^^ support.constant.planish
//                           ^^^^^^ keyword.other.planish
//                                        ^^^ keyword.control.planish
//                                                ^^^^ support.constant.planish
  corner all relief round 1/8
//^^^^^^ keyword.control.planish
//       ^^^ support.constant.planish
//           ^^^^^^ support.constant.planish
  bead border { die half up rectangle inset 1 3/4 corner 1 }
//     ^^^^^^ entity.name.label.planish
//              ^^^ keyword.control.planish
//                  ^^^^ variable.other.planish
//                       ^^ keyword.control.planish
//                          ^^^^^^^^^ keyword.control.planish
//                                                ^^^^^^ keyword.other.planish
  let width = 3
//    ^^^^^ variable.other.definition.planish
  hole 1/4 at (width / 2, 3)
//^^^^ keyword.control.planish
//             ^^^^^ variable.other.planish
}
let after = 1
// <--- keyword.control.planish
`));

  it('know notes, comments, texts, sizes, functions and properties', () =>
    expectColours(`
/// Rear gate, one off.
// <~~- comment.line.documentation.planish
panel gate // seen from the road
//         ^^^^^^^^^^^^^^^^^^^^^ comment.line.double-slash.planish
{
  hole clearance 1/4-20 at (max(1, 2), 3)
//     ^^^^^^^^^ support.constant.planish
//               ^^^^^^ constant.other.planish
//                          ^^^ support.function.planish
  check gate.blank.height <= 24 "out of a half-width offcut"
//           ^^^^^ variable.other.property.planish
//                        ^^ keyword.operator.planish
//                           ^^ constant.numeric.planish
//                              ^^^^^^^^^^^^^^^^^^^^^^^^^^^^ string.quoted.double.planish
  note "unfinished
//     ^^^^^^^^^^^ string.quoted.double.planish
  face outside
//^^^^ keyword.control.planish
}
material mild_steel { gage table steel density 7850 kg/m3 elongation 34 % }
//                    ^^^^ keyword.control.planish
//                               ^^^^^ support.constant.planish
//                                     ^^^^^^^ keyword.control.planish
//                                             ^^^^ constant.numeric.planish
//                                                  ^^^^^ keyword.other.unit.planish
`));

  it('find their way back after braces that were never opened or closed', () =>
    expectColours(`
panel gate
let a = 1
// <--- keyword.control.planish
panel lid {
  outline rectangle 3 by 4
  edge top { flange 1 down }
//^^^^ keyword.control.planish
}
let b = 2
// <--- keyword.control.planish
`));
});

describe('snippets', () => {
  const filled = (body: readonly string[]): string =>
    body
      .join('\n')
      .replace(/\$\{\d+\|([^,|]*)[^}]*\|\}/g, '$1')
      .replace(/\$\{\d+:([^}]*)\}/g, '$1')
      .replace(/\$0/g, '');

  it.each(Object.entries(snippets()))('%s reads without a fault as it is suggested', (_, { prefix, body }) => {
    const text = filled(body);
    expect(text).not.toContain('$');
    const inPanel = /^(edge|hole|check)/.test(prefix);
    const whole = inPanel ? `units inch\npanel gate {\n  sheet crs_18\n  outline rectangle 30 by 11\n${text}\n}\n` : `${text}\n`;
    expect(parse(whole).problems.map((problem) => problem.message)).toEqual([]);
  });

  it('each have a prefix of their own', () => {
    const prefixes = Object.values(snippets()).map((each) => each.prefix);
    expect(new Set(prefixes).size).toBe(prefixes.length);
  });
});

describe('typing', () => {
  const configuration = languageConfiguration();

  it('takes a whole name as one word, and a number as one', () => {
    // The editor adds a flag for all matches and takes the others as they are written.
    const { pattern, flags } = configuration.wordPattern;
    const words = 'sheet crs_18 größe 1.25'.match(new RegExp(pattern, `g${flags}`));
    expect(words).toEqual(['sheet', 'crs_18', 'größe', '1.25']);
  });

  it('goes one step in after an open brace and out at a closing one, whatever a comment says', () => {
    const inward = new RegExp(configuration.indentationRules.increaseIndentPattern);
    const outward = new RegExp(configuration.indentationRules.decreaseIndentPattern);
    expect(['panel gate {', '  edge top {', 'let a = max(1,'].map((line) => inward.test(line))).toEqual([true, true, true]);
    expect(['  edge top { flange 1 down }', '// panel gate {', 'units inch'].map((line) => inward.test(line))).toEqual([
      false,
      false,
      false,
    ]);
    expect(['}', '  }', 'sheet crs_18'].map((line) => outward.test(line))).toEqual([true, true, false]);
  });

  it('does not close a quote by itself, since after a digit it is the inch mark', () => {
    expect(configuration.autoClosingPairs.map((pair) => pair.open)).toEqual(['{', '(', '“']);
  });

  it('carries a note on to the next line', () => {
    const [rule] = configuration.onEnterRules;
    expect(new RegExp(rule?.beforeText ?? '').test('/// Rear gate, one off.')).toBe(true);
    expect(new RegExp(rule?.beforeText ?? '').test('// only a comment')).toBe(false);
  });
});
