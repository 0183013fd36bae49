import fc from 'fast-check';
import { expect, it } from 'vitest';
import { runs } from '../runs.js';
import { build, measuredLengths } from './build.js';

const words = [
  'panel', 'section', 'let', 'units', 'inch', 'millimetre', 'with', '"a.planish"', '"b.planish"', 'as', 'gate', 'w', 'h', 'p', 'sheet', 'crs', 'material', 'steel', 'thickness',
  'outline', 'rectangle', 'by', 'edge', 'top', 'left', 'free', 'flange', 'up', 'down', 'hem', 'hole', 'slot', 'cut', 'drawn', 'at', 'on', 'repeat', 'every', 'evenly', 'from', 'to',
  'along', 'x', 'y', 'corner', 'all', 'radius', 'relief', 'round', 'leg', 'turn', 'check', 'note', 'close', 'arc', 'out', 'through', 'line', 'grid', 'count', 'piece', 'brake', 'die',
  '{', '}', '(', ')', ',', '=', '+', '-', '*', '/', '^', '<', '<=', 'and', 'not', '.', ';', '\n', '\n', '1', '0', '3/8', '1 3/8', '18 ga', '90 deg', '2 kg', '1e308', '50 %', '25 mm',
  'sin', 'sqrt', 'max', 'diagonal', 'w.x', 'gate.blank.width', 'gate.bends.all.allowance', 'b.w', 'top.2', '__proto__', 'constructor', 'toString', '"text"', 'yes', '🙂', '#',
]; // biome-ignore format: a list reads best on a few lines

const whole = `with "b.planish" as b
units inch
let w = 30 1/4
let p = (w, 2)
material steel { gauge table steel density 7850 kg/m3 }
sheet crs { material steel thickness 18 ga bend radius 1/16 k 0.42 }
panel gate {
  sheet crs
  outline { from (0, 0) right w as bottom; up 5; arc out to (0, 5) radius 20; close as side }
  edge bottom { flange 1 down as lip { edge start { flange 1/4 up } } hole 1/8 at (1, 1/2) }
  repeat 3 every 2 along x as i from 0 { let y = i / 2 + 1  slot 1/4 by 1 at (2, y) as vent }
  hole clearance M6 on lip at p / 4
  check gate.blank.width < w
}
section rail { sheet crs length w leg 1 turn up 45 leg 2 }
`;

/** Asks for all a model can give; returns what it says. */
const askAll = (text: string): readonly string[] => {
  const built = build(
    { 'a.planish': text, 'b.planish': 'with "a.planish"\nunits millimetre\nlet w = 12\nlet q = p' },
    { measured: () => measuredLengths({ blank: { width: 800 }, bends: { top: { 1: { allowance: 1 } } } }) },
  );
  const rules: string[] = [];
  for (const name of ['a.planish', 'b.planish']) {
    const model = built.model(name);
    for (const part of model.parts) {
      rules.push(...part.findings.map((finding) => finding.rule));
      rules.push(...model.decide(part.name, measuredLengths({ blank: { width: 1 } })).map((finding) => finding.rule));
      const length = (part.kind === 'panel' ? part.span.end - part.span.start : 0) + part.span.start;
      expect(length).toBeGreaterThanOrEqual(0);
    }
    rules.push(...model.findings.map((finding) => finding.rule));
    expect(model.keys.length).toBe(model.parts.length);
    void model.symbols;
    for (const offset of [0, Math.floor(text.length / 2), text.length]) {
      model.candidatesAt(offset, ['value', 'sheet', 'edge', 'flange', 'part', 'leg', 'file', 'index', 'material']);
      model.membersAt(offset, ['gate', 'blank']);
      model.membersAt(offset, ['p']);
      model.membersAt(offset, ['b']);
    }
  }
  expect(built.env.trail.steps).toEqual([]);
  return rules;
};

it('never throws on words thrown together', () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...words), { maxLength: 60 }), (pieces) => {
      askAll(pieces.join(' '));
    }),
    { numRuns: runs(400) },
  );
});

it('never throws on a good file with pieces cut out, doubled or replaced', () => {
  const cut = fc.record({ from: fc.nat(whole.length), long: fc.nat(30), put: fc.array(fc.constantFrom(...words), { maxLength: 3 }) });
  fc.assert(
    fc.property(fc.array(cut, { minLength: 1, maxLength: 4 }), (cuts) => {
      let text = whole;
      for (const { from, long, put } of cuts) text = text.slice(0, from) + put.join(' ') + text.slice(from + long);
      askAll(text);
    }),
    { numRuns: runs(400) },
  );
});

it('finds nothing wrong with the whole file', () => {
  expect(askAll(whole).filter((rule) => rule !== 'check/failed')).toEqual([]);
});
