import { describe, expect, test } from 'vitest';
import { type Expr, parse } from '../../grammar/index.js';
import { problemsOf } from './marked.js';

const valueWritten = (written: string): Expr => {
  const tree = parse(`let a = ${written}`);
  expect(problemsOf(tree)).toEqual([]);
  const argument = tree.statements[0]?.fields['value'];
  if (argument?.kind !== 'value') throw new Error('no value');
  return argument.value;
};
/** A tree of operations in brackets, numbers by their reading. */
const shape = (expr: Expr): string => {
  switch (expr.kind) {
    case 'number':
      return `${expr.reading}${expr.ofMaterial === undefined ? '' : ` of ${expr.ofMaterial.map((i) => i.name).join('.')}`}`;
    case 'name':
      return expr.path.map((i) => i.name).join('.');
    case 'unary':
      return `(${expr.op} ${shape(expr.operand)})`;
    case 'binary':
      return `(${shape(expr.left)} ${expr.op} ${shape(expr.right)})`;
    case 'call':
      return `${expr.name.name}(${expr.args.map((a) => (a.label === undefined ? '' : `${a.label.name}: `) + shape(a.value)).join(', ')})`;
    case 'point':
      return `<${shape(expr.x)}, ${shape(expr.y)}>`;
    case 'paren':
      return shape(expr.inner);
    case 'member':
      return `${shape(expr.of)}.${expr.name.name}`;
    case 'text':
      return JSON.stringify(expr.value);
    case 'yesno':
      return expr.value ? 'yes' : 'no';
    case 'missing':
      return '?';
  }
};

describe('written numbers', () => {
  const table: readonly (readonly [string, number, string])[] = [
    ['12', 12, '12'],
    ['0.75', 0.75, '0.75'],
    ['.75', 0.75, '.75'],
    ['1e-3', 0.001, '1e-3'],
    ['3/8', 3 / 8, '3/8'],
    ['1 3/8', 11 / 8, '1 3/8'],
    ['1-3/8', 11 / 8, '1 3/8'],
    ['10-1/2', 10.5, '10 1/2'],
    ['½', 0.5, '1/2'],
    ['1½', 1.5, '1 1/2'],
    ['2 ¾', 2.75, '2 3/4'],
    ['⌀ 9/32', 9 / 32, '9/32'],
    ['0 1/2', 0.5, '0 1/2'],
    ['007', 7, '007'],
  ];
  test.each(table)('%s', (written, value, reading) => {
    const expr = valueWritten(written);
    expect(expr.kind === 'number' && expr.terms.map((t) => t.value)).toEqual([value]);
    expect(expr.kind === 'number' && expr.reading).toBe(reading);
  });

  const united: readonly (readonly [string, readonly (readonly [number, string])[]])[] = [
    ['3 in', [[3, 'in']]],
    ['3in', [[3, 'in']]],
    ['3"', [[3, 'in']]],
    ['3″', [[3, 'in']]],
    ['3 inches', [[3, 'in']]],
    ['2-1/2"', [[2.5, 'in']]],
    ['2½"', [[2.5, 'in']]],
    ['4 ft', [[4, 'ft']]],
    ["4'", [[4, 'ft']]],
    [
      '4 ft 2 1/2 in',
      [
        [4, 'ft'],
        [2.5, 'in'],
      ],
    ],
    [
      '4\' 2-1/2"',
      [
        [4, 'ft'],
        [2.5, 'in'],
      ],
    ],
    [
      '4\'-2 1/2"',
      [
        [4, 'ft'],
        [2.5, 'in'],
      ],
    ],
    [
      '4\'-2"',
      [
        [4, 'ft'],
        [2, 'in'],
      ],
    ],
    [
      '4′ 2½″',
      [
        [4, 'ft'],
        [2.5, 'in'],
      ],
    ],
    ['12 mm', [[12, 'mm']]],
    ['12 millimeters', [[12, 'mm']]],
    ['5 thou', [[5, 'thou']]],
    ['18 ga', [[18, 'ga']]],
    ['90°', [[90, 'deg']]],
    ['90 deg', [[90, 'deg']]],
    ['34 %', [[34, '%']]],
    ['7850 kg/m3', [[7850, 'kg/m3']]],
    ['7.85 g/cm3', [[7.85, 'g/cm3']]],
    ['0.284 lb/in3', [[0.284, 'lb/in3']]],
    ['205 GPa', [[205, 'GPa']]],
    ['0.6 kJ/mm', [[0.6, 'kJ/mm']]],
    ['100 mm2', [[100, 'mm2']]],
    ['3 in4', [[3, 'in4']]],
    ['2 h', [[2, 'h']]],
  ];
  test.each(united)('%s', (written, terms) => {
    const expr = valueWritten(written);
    expect(expr.kind === 'number' && expr.terms.map((t) => [t.value, t.unit?.name])).toEqual(terms);
  });

  const shapes: readonly (readonly [string, string])[] = [
    ['18 ga of mild_steel', '18 ga of mild_steel'],
    ['18 ga of bench.mild_steel', '18 ga of bench.mild_steel'],
    ['door_w -80', '(door_w - 80)'],
    ['door_w-1/2', '(door_w - 1/2)'],
    ['10 - 1/2', '(10 - 1/2)'],
    ['10 -1/2', '(10 - 1/2)'],
    ['10 − 1/2', '(10 - 1/2)'],
    ['4 ft - 2 in', '(4 ft - 2 in)'],
    ['10-1/2 - 1/4', '(10 1/2 - 1/4)'],
    ['3 / 8', '(3 / 8)'],
    ['1/2/3', '((1 / 2) / 3)'],
    ['1/2.5', '(1 / 2.5)'],
    ['1.5/2', '(1.5 / 2)'],
    ['width/2', '(width / 2)'],
    ['24 in/pitch', '(24 in / pitch)'],
    ['7850 kg / m3', '(7850 kg / m3)'],
    ['3 × 4', '(3 * 4)'],
    ['2 ^ 3 ^ 2', '(2 ^ (3 ^ 2))'],
    ['-2 ^ 2', '(- (2 ^ 2))'],
    ['2 ^ -1', '(2 ^ (- 1))'],
    ['-a * b', '((- a) * b)'],
    ['a - b - c', '((a - b) - c)'],
    ['a + b * c', '(a + (b * c))'],
    ['(a + b) * c', '((a + b) * c)'],
    ['not a = b and c', '((not (a = b)) and c)'],
    ['a or b and c < d + 1', '(a or (b and (c < (d + 1))))'],
    ['gate.bends.top.1.allowance', 'gate.bends.top.1.allowance'],
    ['rib.1.5', 'rib.1.5'],
    ['top.1/2', '(top.1 / 2)'],
    ['gate.section', 'gate.section'],
    ['p.x', 'p.x'],
    ['(3, 4)', '<3, 4>'],
    ['(3, 4).x', '<3, 4>.x'],
    ['(3)', '3'],
    ['p + (1, 0)', '(p + <1, 0>)'],
    ['round(x, to 1/16)', 'round(x, to: 1/16)'],
    ['min(rib.all, 3)', 'min(rib.all, 3)'],
    ['diagonal(3 1/2, 4)', 'diagonal(3 1/2, 4)'],
    ['Türbreite - 2', '(Türbreite - 2)'],
    ['ширина/2', '(ширина / 2)'],
    ['門.幅', '門.幅'],
    ['“a text”', '"a text"'],
    ['yes', 'yes'],
    ['a = no', '(a = no)'],
    ['width + height', '(width + height)'],
    ['3 // 4', '3'],
    ['1 1/2// then', '1 1/2'],
  ];
  test.each(shapes)('%s reads %s', (written, read) => {
    expect(shape(valueWritten(written))).toBe(read);
  });
});

describe('numbers that read two ways, or none', () => {
  const faults: readonly (readonly [string, string, string, readonly string[]])[] = [
    ['10-1/2-1/4', '10-1/2-1/4', 'number/hyphen', ['10 1/2 - 1/4', '10 - 1/2 - 1/4']],
    ['10-3', '10-3', 'number/hyphen', ['10 - 3']],
    ['1/2-1/4', '1/2-1/4', 'number/hyphen', ['1/2 - 1/4']],
    ['1.5-1/4', '1.5-1/4', 'number/hyphen', ['1.5 - 1/4']],
    ["4'-2", "4'-2", 'number/hyphen', ["4' - 2", '4\' 2"']],
    ['30 1/0', '1/0', 'number/zero-denominator', ['30']],
    ['3/0', '3/0', 'number/zero-denominator', ['3']],
    ['1,250', '1,250', 'number/thousands-comma', ['1250']],
    ['1,250,000', '1,250,000', 'number/thousands-comma', ['1250000']],
    ['1,5', '1,5', 'number/decimal-comma', ['1.5']],
  ];
  test.each(faults)('%s', (written, at, rule, fixes) => {
    const tree = parse(`let a = ${written}\nlet b = 2`);
    expect(tree.problems.map((p) => [tree.text.slice(p.span.start, p.span.end), p.rule, p.fixes.map((f) => f.edits[0]?.text)])).toEqual([
      [at, rule, fixes],
    ]);
    const [a, b] = tree.statements;
    expect(a?.fields['value']).toMatchObject({ value: { kind: 'missing' } });
    expect(a?.broken).toBe(true);
    expect(b?.broken).toBe(false);
    for (const fix of tree.problems[0]?.fixes ?? []) {
      const edit = fix.edits[0];
      if (edit === undefined) throw new Error('a fix without an edit');
      expect(problemsOf(parse(tree.text.slice(0, edit.span.start) + edit.text + tree.text.slice(edit.span.end)))).toEqual([]);
    }
  });
});

describe('sizes are read whole', () => {
  const sizes = ['M6', 'M8x1', 'M8x1.25', '1/4-20', '#8-32', '#30', 'F', '5.1 mm', '1 1/4'];
  test.each(sizes)('tapped %s', (written) => {
    const tree = parse(`panel lid {\n  hole tapped ${written} at (1, 2)\n}`);
    expect(problemsOf(tree)).toEqual([]);
    const found = tree.statements[0]?.block?.statements[0]?.fields ?? {};
    expect(Object.values(found).find((a) => a.kind === 'size')).toMatchObject({ value: written });
    expect(found['at']).toMatchObject({ kind: 'list' });
  });
});
