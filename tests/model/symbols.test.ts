import { expect, it } from 'vitest';
import { build, measuredLengths } from './build.js';

const text = `with "bench.planish" as bench
with "more.planish"
units inch
/// How wide the gate is.
let wide = 30
let p = (wide, 2)
panel gate {
  sheet bench.crs
  outline rectangle wide by far
  edge top { flange 1 down as lip }
  repeat 2 every step along x as i { hole 1/4 on lip at (i, bench.gap) as rib }
  let step = 3
  check gate.blank.width < p.x and 18 ga of bench.steel < wide
}
section rail { sheet near length nowhere leg 1 as web turn up leg 1 hole 1/8 on web at (1, 1/2) hole 1/8 on leg.2 at (1, 1/2) }
`;
const built = build(
  {
    'a.planish': text,
    'bench.planish': 'units millimetre\nmaterial steel { gauge table steel }\nsheet crs { material steel thickness 1 }\nlet gap = 4',
    'more.planish': 'units inch\nlet far = 3\nsheet near { thickness 1/16 }',
  },
  { measured: () => measuredLengths({ blank: { width: 10, height: 20 }, bends: { top: { 1: { allowance: 2 } } } }) },
);
const model = built.model('a.planish');
const say = (span: { start: number; end: number }) => text.slice(span.start, span.end);

it('lists what a file brings into being, at its own name', () => {
  expect(model.symbols.definitions.map((at) => `${at.kind} ${at.name}${at.part === undefined ? '' : ` in ${at.part}`}`)).toEqual([
    'file bench',
    'value wide',
    'value p',
    'part gate',
    'flange lip in gate',
    'index i in gate',
    'feature rib in gate',
    'value step in gate',
    'part rail',
    'leg web in rail',
  ]);
  for (const at of model.symbols.definitions) expect(say(at.span)).toBe(at.name);
  expect(model.symbols.definitions[1]?.note).toBe('How wide the gate is.');
});

it('leads every reference to where its name is given, across files', () => {
  const references = model.symbols.references.map(({ name, kind, span, target }) => {
    expect(say(span)).toBe(name);
    const there = target === undefined ? '?' : built.model(target.file).tree.text.slice(target.span.start, target.span.end);
    return `${kind} ${name} → ${target?.file.slice(5) ?? ''}:${there}`;
  });
  expect(references).toEqual([
    'value wide → a.planish:wide',
    'file bench → a.planish:bench',
    'sheet crs → bench.planish:crs',
    'value wide → a.planish:wide',
    'value far → more.planish:far',
    'edge top → :?',
    'value step → a.planish:step',
    'flange lip → a.planish:lip',
    'index i → a.planish:i',
    'file bench → a.planish:bench',
    'value gap → bench.planish:gap',
    'part gate → a.planish:gate',
    'value p → a.planish:p',
    'file bench → a.planish:bench',
    'material steel → bench.planish:steel',
    'value wide → a.planish:wide',
    'sheet near → more.planish:near',
    'value nowhere → :?',
    'leg web → a.planish:web',
    'leg leg → :?',
  ]);
});

it('offers the names that fit a place', () => {
  const inGate = text.indexOf('(i, bench');
  const written = (offset: number, ...kinds: Parameters<typeof model.candidatesAt>[1]) =>
    model.candidatesAt(offset, kinds).map((at) => at.written);
  expect(written(inGate, 'value')).toEqual(['i', 'step', 'wide', 'p', 'bench.gap', 'far']);
  expect(written(inGate, 'flange')).toEqual(['lip', 'bottom', 'right', 'top', 'left']);
  expect(written(inGate, 'sheet')).toEqual(['bench.crs', 'near']);
  expect(written(text.indexOf('length nowhere'), 'value')).toEqual(['wide', 'p', 'bench.gap', 'far']);
  expect(written(text.indexOf('length nowhere'), 'flange')).toEqual(['web', 'leg.1', 'leg.2']);
  expect(model.candidatesAt(inGate, ['value'])[2]).toMatchObject({ detail: '30' });
});

it('offers what may follow a dot', () => {
  const names = (...path: string[]) => model.membersAt(text.length, path).map((at) => at.name);
  expect(names('bench')).toEqual(['steel', 'crs', 'gap']);
  expect(names('p')).toEqual(['x', 'y']);
  expect(names('gate')).toEqual(['blank', 'bends']);
  expect(names('gate', 'blank')).toEqual(['width', 'height']);
  expect(names('gate', 'bends', 'top')).toEqual(['1', 'all']);
  expect(model.membersAt(text.length, ['p'])).toEqual([
    { name: 'x', detail: '30 in' },
    { name: 'y', detail: '2 in' },
  ]);
});

it('knows what an expression under the cursor comes to', () => {
  const repeat = model.tree.statements.find((at) => at.word.name === 'panel')?.block?.statements.find((at) => at.word.name === 'repeat');
  const hole = repeat?.block?.statements[0]?.fields.at;
  const point = hole?.kind === 'list' ? hole.items[0] : undefined;
  if (point?.kind !== 'value') throw new Error('no point');
  // i is bare and 1 in the first turn; bench.gap is 4 of a millimetre file. Beside one another they can't be told.
  expect(model.valueOf(point.value)).toBeUndefined();
  const wide = model.tree.statements.find((at) => at.word.name === 'let')?.fields.value;
  if (wide?.kind !== 'value') throw new Error('no value');
  expect(model.valueOf(wide.value)).toMatchObject({ kind: 'number', value: 30, bare: true });
  expect(model.say({ kind: 'number', value: 30.25, dim: { length: 0, angle: 0, mass: 0, force: 0, time: 0, money: 0 }, bare: true })).toBe(
    '30 1/4',
  );
});

it('links each with to its file', () => {
  expect(model.links.map(({ span, target }) => [say(span), target])).toEqual([
    ['"bench.planish"', '/job/bench.planish'],
    ['"more.planish"', '/job/more.planish'],
  ]);
  expect(model.brings).toEqual(['/job/bench.planish', '/job/more.planish']);
});
