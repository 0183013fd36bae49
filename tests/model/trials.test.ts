import { describe, expect, it } from 'vitest';
import { build, modelOf, panelOf } from './build.js';
import { checkFiles, checkFindings } from './check.js';

const head = 'units millimetre\nsheet crs_15 { thickness 1.5  bend radius 2 k 0.42 }\n';
/** Deduction 3.11, allowance 3.89, K (3.89 / (π/2) − 2) / 1.5 = 0.3176, by hand. */
const strip = (name: string, ...more: readonly string[]): string =>
  `trial ${name} {\n  sheet crs_15\n  strip 100 by 40\n  bent 92 radius 2\n  measured legs 51.63, 51.48\n${more.map((line) => `  ${line}\n`).join('')}}\n`;
const gate = 'panel gate {\n  sheet crs_15\n  outline rectangle 300 by 110\n}\n';
const methodOf = (text: string) => panelOf(text, 'gate').sheet?.value.method;

describe('trials', () => {
  it('keep what was done and read, as it was measured', () => {
    const [trial] = panelOf(
      `${head}brake bench { leaf }\n${strip('strip_1', 'grain across', 'measured angle 90 to 0.5', 'measured radius 2 to 0.1').replace('radius 2\n', 'radius 2 on bench\n')}${gate}`,
      'gate',
    ).trials;
    expect(trial).toMatchObject({
      name: 'strip_1',
      strip: { length: 100, width: 40, finest: 0 },
      grain: 'across',
      bent: { radius: 2, brake: 'bench' },
      legs: { lengths: [51.63, 51.48], finest: 0 },
      radius: { value: 2, finest: 0.1 },
      result: { name: 'strip_1', thickness: 1.5 },
    });
    expect(((trial?.bent?.turnSet ?? 0) * 180) / Math.PI).toBeCloseTo(92, 9);
    expect(((trial?.angle?.finest ?? 0) * 180) / Math.PI).toBeCloseTo(0.5, 9);
    expect(trial?.result?.k).toBeCloseTo(0.3176, 4);
  });
  it('of a beaded strip keep what the bead came to', () => {
    const [trial] = panelOf(
      `${head}die round_10 { round  width 10  depth 3 }\ntrial strip_2 {\n  sheet crs_15\n  strip 200 by 150 to 0.1\n  beaded round_10 length 150 passes 2\n  measured width 198.1 to 0.1\n  measured depth 2.8\n}\n${gate}`,
      'gate',
    ).trials;
    expect(trial).toMatchObject({
      strip: { length: 200, width: 150, finest: 0.1 },
      beaded: { length: 150, passes: 2, die: { name: 'round_10' } },
      width: { value: 198.1, finest: 0.1 },
      depth: { value: 2.8, finest: 0 },
    });
    expect(trial?.result).toBeUndefined();
  });
  it('reckon with the angle left where it was measured, else with what the brake was set to', () => {
    const result = (text: string) => panelOf(text, 'gate').trials[0]?.result;
    expect(((result(`${head}${strip('a')}${gate}`)?.turn ?? 0) * 180) / Math.PI).toBeCloseTo(92, 9);
    expect(result(`${head}${strip('a')}${gate}`)?.turnSet).toBeUndefined();
    const measured = result(`${head}${strip('a', 'measured angle 90')}${gate}`);
    expect(((measured?.turn ?? 0) * 180) / Math.PI).toBeCloseTo(90, 9);
    expect(((measured?.turnSet ?? 0) * 180) / Math.PI).toBeCloseTo(92, 9);
  });
  it('beat the book for their own sheet, and for no other', () => {
    expect(methodOf(`${head}${gate}`)).toEqual({ kind: 'k', k: 0.42 });
    expect(methodOf(`${head}${strip('strip_1', 'measured angle 90')}${gate}`)).toMatchObject({
      kind: 'trial',
      trial: 'strip_1',
      strips: [{ name: 'strip_1' }],
    });
    const other = `${head}sheet crs_12 { thickness 1.2  bend radius 1.2 din }\n${strip('strip_1')}${gate.replace('crs_15', 'crs_12')}`;
    expect(methodOf(other)).toEqual({ kind: 'din' });
  });
  it('named by the sheet, they and no others count; its bend radius stays', () => {
    const named = head.replace('k 0.42', 'trial b, c');
    const text = `${named}${strip('a')}${strip('b')}${strip('c')}${gate}`;
    expect(methodOf(text)).toMatchObject({ kind: 'trial', trial: 'b, c', strips: [{ name: 'b' }, { name: 'c' }] });
    expect(panelOf(text, 'gate').sheet?.value.bendRadius).toBe(2);
    expect(modelOf(text).findings).toEqual([]);
  });
  it('in another file are in sight where that file is brought, and count through the sheet that names them', () => {
    const files = {
      'shop.planish': `${head}${strip('strip_1', 'measured angle 90')}`,
      'sheets.planish': `units millimetre\nwith "strips.planish" as tried\nsheet crs_15 { thickness 1.5  bend radius 2 trial tried.strip_1 }\n`,
      'strips.planish': `units millimetre\nwith "sheets.planish"\n${strip('strip_1')}`,
      'a.planish': `units millimetre\nwith "shop.planish"\n${gate}`,
      'b.planish': `units millimetre\nwith "sheets.planish" as bench\n${gate.replace('crs_15', 'bench.crs_15')}`,
    };
    const { model } = build(files);
    for (const file of ['a.planish', 'b.planish']) {
      const part = model(file).part('gate');
      expect(part?.kind === 'panel' && part.sheet?.value.method).toMatchObject({ kind: 'trial', strips: [{ name: 'strip_1' }] });
      expect(model(file).findings).toEqual([]);
    }
    expect(model('sheets.planish').findings).toEqual([]);
  });
  it('changed, change the parts that stand on them, and only those', () => {
    const files = {
      'shop.planish': `${head}${strip('strip_1')}`,
      'part.planish': `units millimetre\nwith "shop.planish"\n${gate}`,
      'other.planish': `${head}${gate}`,
    };
    const before = build(files);
    const key = (built: typeof before, name: string) => built.model(name).keys[0];
    const [part, other] = [key(before, 'part.planish'), key(before, 'other.planish')];
    const after = before.edit('shop.planish', `${head}${strip('strip_1').replace('51.63', '51.70')}`);
    expect(key(after, 'part.planish')).not.toBe(part);
    expect(key(after, 'other.planish')).toBe(other);
    const k = after.model('part.planish').part('gate');
    expect(k?.kind === 'panel' && k.sheet?.value.method?.kind === 'trial' && k.sheet.value.method.strips?.[0]?.k).toBeLessThan(0.3);
    expect(key(after.edit('shop.planish', `// moved\n${files['shop.planish']}`), 'part.planish')).toBe(part);
  });
  it('of which too little is told say what is missing', () => {
    checkFindings(
      `${head}trial a {
//    ^ shop/trial-incomplete: Trial a doesn’t say which sheet it was cut from (sheet crs_12), how long it was before bending (strip 100 by 40) and its legs after bending (measured legs 51.2, 51.1 to 0.1).
  bent 90
}
trial b { sheet crs_15 }
//    ^ shop/trial-incomplete: Trial b doesn’t say what was done to it (bent 93 radius 1.2, or beaded half_round_10).
trial c { sheet crs_15  strip 100  bent 90  measured legs 103.1 }
//                                                        ^^^^^ shop/trial-incomplete: A bend has two legs, and one is measured here. Write both: measured legs 51.2, 51.1 to 0.1.
sheet bare { thickness 1.5 }
trial d { sheet bare  strip 100  bent 90  measured legs 51.63, 51.48 }
//    ^ shop/trial-incomplete: Trial d doesn’t say to what inside radius it was bent, and sheet bare has no bend radius. Write bent 93 radius 1.2, or measured radius 1.2.
trial e { sheet crs_51  strip 100  bent 90  measured legs 51.63, 51.48 }
//              ^^^^^^ name/unknown: There is no sheet crs_51 in sight. Did you mean crs_15?
`.replace('sheet crs_15 {', 'sheet crs_15 {'),
    );
  });
  it('that make no sense say so with the numbers', () => {
    checkFindings(`${head}trial inner { sheet crs_15  strip 100  bent 92 radius 2  measured angle 90  measured legs 50.1, 50.0 }
//                                                                                        ^^^^^^^^^^ shop/trial-makes-no-sense: The legs add up to 100.1 mm from a strip of 100 mm: that puts K at 1.60, and it lies between 0 and 0.55. With one bend of 90° and an inside radius of 2 mm in 1.5 mm sheet they should add up to 102.56 mm to 103.86 mm. Look at the radius and the legs; legs are measured from the outside.
trial sprung { sheet crs_15  strip 100  bent 90 radius 2  measured legs 51.63, 51.48  measured angle 92 }
//                                                                                                   ^^ shop/trial-makes-no-sense: It was bent to 90° and can’t have been left at 92°: sheet springs back, it doesn’t go on bending. Both count from flat.
trial twice { sheet crs_15  strip 100  bent 90 radius 2  measured legs 51.63, 51.48  measured legs 51.6, 51.5 }
//                                                                                            ^^^^ name/repeated: measured legs is already given above, in the same braces. Keep one of the two, or make the other strip a trial of its own.
trial none { sheet crs_15  strip 100  bent 90 radius 2  measured legs 0, 51.48 }
//                                                                    ^ number/out-of-range: A leg must be more than 0, not 0 mm.
trial over { sheet crs_15  strip 100  bent 190 radius 2  measured legs 51.63, 51.48 }
//                                         ^^^ number/out-of-range: The angle it was bent to is how far the sheet turns from flat: more than 0° and less than 180°, not 190°.
`);
  });
  it('which a sheet names must be there, bent, and of that sheet', () => {
    checkFiles({
      'part.planish': `units millimetre
die round_10 { round  width 10  depth 3 }
sheet crs_15 { thickness 1.5  bend radius 2 trial strip_1 }
sheet crs_12 { thickness 1.2  bend radius 1.2 trial strip_1, strip_2, strip_9 }
//                                                  ^^^^^^^ shop/trial-of-another-sheet (warning): Trial strip_1 was bent from sheet crs_15. What it tells is taken over to crs_12; bend a strip of this one to be sure.
//                                                           ^^^^^^^ shop/trial-not-bent: Trial strip_2 is a beaded strip and tells nothing of bends. Name one that was bent.
//                                                                    ^^^^^^^ name/unknown: There is no trial strip_9 in sight. Did you mean strip_1, strip_2 or strip_3?
trial strip_1 { sheet crs_15  strip 100  bent 90 radius 2  measured legs 51.63, 51.48 }
trial strip_2 { sheet crs_12  strip 200 by 150  beaded round_10 length 150  measured width 198.1 }
trial strip_3 { sheet crs_12  strip 200 by 150  bent 90  beaded round_10 length 150  measured width 198.1 }
//                                                       ^^^^^^ shop/trial-two-in-one: This strip is bent above, and one strip tells of one thing. Make the beaded one a trial of its own.
`,
    });
  });
});
