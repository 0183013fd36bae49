import { describe, expect, test } from 'vitest';
import { format, parse } from '../../grammar/index.js';

const check = (written: string, formatted: string): void => {
  expect(format(written)).toBe(formatted);
  expect(format(formatted)).toBe(formatted);
};

describe('the formatter', () => {
  test('two blanks for each brace, one between words, operators spaced', () => {
    check(
      `panel   gate{
sheet    crs_18
      outline rectangle door_w -80 by  (h+2)*3   // h is the rail
 edge top{flange 3/4 down}
hole 9/32 at(1 ,1 1/2),( door_w-1,-2 )
  check gate.blank.height<=24and not(a=b)   "must fit"
}`,
      `panel gate {
  sheet crs_18
  outline rectangle door_w - 80 by (h + 2) * 3  // h is the rail
  edge top { flange 3/4 down }
  hole 9/32 at (1, 1 1/2), (door_w - 1, -2)
  check gate.blank.height <= 24 and not (a = b) "must fit"
}
`,
    );
  });
  test('numbers stay as they are written', () => {
    const numbers = [
      '1-3/8',
      '1 3/8',
      '.75',
      '3"',
      '3 in',
      '3in',
      '4\'-2 1/2"',
      '4 ft 2 1/2 in',
      '18 ga of mild_steel',
      '7850 kg/m3',
      '34 %',
      '34%',
      '90°',
      '½',
      '1½',
      '⌀ 3/8',
      '1e-3',
      'top.1.allowance',
      'round(x, to 1/16)',
    ];
    for (const n of numbers) check(`let a=${n}\n`, n === '⌀ 3/8' ? 'let a = ⌀3/8\n' : `let a = ${n}\n`);
    check('let a = 1   3/8\n', 'let a = 1 3/8\n');
    check('panel lid {\n  hole tapped  1/4-20  at (1, 2)\n}\n', 'panel lid {\n  hole tapped 1/4-20 at (1, 2)\n}\n');
  });
  test('comments and notes stay in their lines', () => {
    check(
      `//first
///  a note   with  blanks
panel lid { // why
      // alone
  sheet crs_18//at the end
      /// of the edge
  edge top { flange 1 up }   //   "quoted" { brace
  // last
}
// after`,
      `//first
///  a note   with  blanks
panel lid {  // why
  // alone
  sheet crs_18  //at the end
  /// of the edge
  edge top { flange 1 up }  //   "quoted" { brace
  // last
}
// after
`,
    );
  });
  test('blank lines: one at most, none at either end', () => {
    check('\n\nlet a = 1\n\n\n\nlet b = 2\n  \n\n', 'let a = 1\n\nlet b = 2\n');
  });
  test('lines go on one step deeper', () => {
    check(
      'panel lid {\nhole 1/4 at (1, 2),\n(3, 4),\n(\n5,\n6\n)\nedge top\n{\nflange 1 up\n}\n}\n',
      'panel lid {\n  hole 1/4 at (1, 2),\n    (3, 4),\n    (\n    5,\n    6\n  )\n  edge top\n  {\n    flange 1 up\n  }\n}\n',
    );
  });
  test('a broken line stays as it is, and those around it are put right', () => {
    check(
      'panel lid {\nsheet  crs_18\n      flange   3/4 down\nhole  1/4  at (1,2)\nlet a =   10-1/2-1/4\n}\n',
      'panel lid {\n  sheet crs_18\n      flange   3/4 down\n  hole 1/4 at (1, 2)\nlet a =   10-1/2-1/4\n}\n',
    );
  });
  test('braces that do not come out even leave the file alone', () => {
    const text = 'panel lid {\n   edge top {\n flange 1 up\n';
    expect(format(text)).toBe(text);
  });
  test('line ends and byte order mark stay', () => {
    check('\ufefflet a=1\r\nlet b=2\r\n', '\ufefflet a = 1\r\nlet b = 2\r\n');
  });
  test('nothing to format', () => {
    expect(format('')).toBe('');
    expect(format('// only\n')).toBe('// only\n');
  });
  test('minus after a value is spaced, before one it touches', () => {
    check('let a = door_w -80\nlet b = -  80\nlet c = 3 * - 2\n', 'let a = door_w - 80\nlet b = -80\nlet c = 3 * -2\n');
    expect(parse('let a = door_w - 80').problems).toEqual([]);
  });
});
