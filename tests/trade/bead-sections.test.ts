import { describe, expect, test } from 'vitest';
import { beadSection, bendingStrain, type DieSizes, drawInOf, peakStrain, repeatingSection } from '../../server/trade/bead-sections.js';
import { ductility, judgeStrain, measuredDrawIn, passesTo, strainByPass, stretchLimit } from '../../server/trade/forming.js';
import { type Midline, type SectionPoint, type Stroke, sheetSection } from '../../server/trade/midline.js';

const section = (die: DieSizes, thickness: number) => {
  const answer = beadSection(die, thickness);
  if (!answer.ok) throw new Error(JSON.stringify(answer.refusal));
  return answer.section;
};
/** Place and way at both ends of a stroke, worked out here from its own words. */
const endsOf = (stroke: Stroke): readonly [SectionPoint, number, SectionPoint, number] => {
  if (stroke.kind === 'line') {
    const way = Math.atan2(stroke.to.y - stroke.from.y, stroke.to.x - stroke.from.x);
    return [stroke.from, way, stroke.to, way];
  }
  if (stroke.kind === 'curve') throw new Error('no curves here');
  const at = (angle: number): SectionPoint => ({
    x: stroke.centre.x + stroke.radius * Math.cos(angle),
    y: stroke.centre.y + stroke.radius * Math.sin(angle),
  });
  const way = (angle: number): number => angle + (Math.sign(stroke.sweep) * Math.PI) / 2;
  return [at(stroke.start), way(stroke.start), at(stroke.start + stroke.sweep), way(stroke.start + stroke.sweep)];
};
const turnBetween = (a: number, b: number): number => Math.abs(Math.atan2(Math.sin(a - b), Math.cos(a - b)));
const expectSmooth = (midline: Midline): void => {
  const strokes = midline.filter((s) => s.kind !== 'line' || Math.hypot(s.to.x - s.from.x, s.to.y - s.from.y) > 1e-9);
  for (let i = 1; i < strokes.length; i++) {
    const [before, after] = [endsOf(strokes[i - 1] as Stroke), endsOf(strokes[i] as Stroke)];
    expect(Math.hypot(before[2].x - after[0].x, before[2].y - after[0].y)).toBeLessThan(1e-8);
    expect(turnBetween(before[3], after[1])).toBeLessThan(1e-6);
  }
};

const dies: readonly (readonly [string, DieSizes, number])[] = [
  ['half round 10, 1.2 mm', { shape: 'round', width: 10, depth: 3 }, 1.2],
  ['half round 3/8 by 1/8 in, 0.048 in', { shape: 'round', width: 9.525, depth: 3.175 }, 1.2192],
  ['round with both radii', { shape: 'round', width: 12, depth: 3, nose: 3, shoulder: 2 }, 1],
  ['vee 12', { shape: 'vee', width: 12, depth: 3 }, 1],
  ['vee with radii', { shape: 'vee', width: 16, depth: 5, nose: 1, shoulder: 2 }, 0.8],
  ['flat-topped 20', { shape: 'flat', width: 20, depth: 2.5 }, 1],
  ['flat-topped, shallow', { shape: 'flat', width: 20, depth: 0.5 }, 1],
  ['step 1/16 in', { shape: 'step', width: undefined, depth: 1.5875 }, 1.2192],
  ['step with width', { shape: 'step', width: 6, depth: 3, nose: 1, shoulder: 1 }, 1],
];
describe('a die’s section', () => {
  test.each(dies)(
    '%s: runs smoothly from foot to foot, is as wide and deep as the die says, and no tighter than its radii',
    (_, die, thickness) => {
      const of = section(die, thickness);
      expectSmooth(of.midline);
      const first = endsOf(of.midline[0] as Stroke);
      const last = endsOf(of.midline[of.midline.length - 1] as Stroke);
      const high = die.shape === 'step' ? of.depth : 0;
      expect(first[0].y).toBeCloseTo(0, 9);
      expect(last[2].y).toBeCloseTo(high, 9);
      expect(turnBetween(first[1], 0)).toBeLessThan(1e-6);
      expect(turnBetween(last[3], 0)).toBeLessThan(1e-6);
      expect(last[2].x - first[0].x).toBeCloseTo(of.width, 9);
      if (die.width !== undefined) expect(of.width).toBeCloseTo(die.width, 9);
      expect(of.depth).toBe(die.depth);
      expect(of.tightest).toBeCloseTo(Math.min(of.nose, of.shoulder) + thickness / 2, 9);
      if (die.nose !== undefined) expect(of.nose).toBe(die.nose);
      if (die.shoulder !== undefined) expect(of.shoulder).toBe(die.shoulder);
    },
  );
  test('half round, 10 wide, 3 deep, by hand: two arcs that meet at φ = 2 atan(3/5), radii together 34/6', () => {
    const of = section({ shape: 'round', width: 10, depth: 3 }, 1.2);
    const flank = 2 * Math.atan(3 / 5);
    expect(of.flank).toBeCloseTo(flank, 9);
    expect(of.nose + of.shoulder + 1.2).toBeCloseTo(34 / 6, 9);
    expect(of.shoulder).toBeCloseTo(1.8, 9);
    // Both arcs turn through φ, so the whole is 2 φ · 34/6.
    expect(of.developed).toBeCloseTo(2 * flank * (34 / 6), 9);
    expect(of.assumed).toHaveLength(2);
  });
  test('second moment: arcs in closed form agree with straight pieces', () => {
    for (const [, die, thickness] of dies) {
      const of = section(die, thickness);
      const chords: Stroke[] = of.midline.flatMap((stroke): Stroke[] => {
        if (stroke.kind !== 'arc') return [stroke];
        const at = (i: number): SectionPoint => {
          const angle = stroke.start + (stroke.sweep * i) / 2000;
          return { x: stroke.centre.x + stroke.radius * Math.cos(angle), y: stroke.centre.y + stroke.radius * Math.sin(angle) };
        };
        return Array.from({ length: 2000 }, (_, i) => ({ kind: 'line', from: at(i), to: at(i + 1) }));
      });
      const rough = sheetSection(chords, thickness);
      expect(Math.abs(of.properties.secondMoment / rough.secondMoment - 1)).toBeLessThan(1e-6);
      expect(Math.abs(of.properties.centroid.y / rough.centroid.y - 1)).toBeLessThan(1e-6);
      expect(Math.abs(of.properties.developed / rough.developed - 1)).toBeLessThan(1e-6);
    }
  });
  test('random dies give a smooth section or a reason whose limit does', () => {
    let seed = 7;
    const random = (): number => {
      seed = (seed * 16807) % 2147483647;
      return seed / 2147483647;
    };
    let [good, cured] = [0, 0];
    for (let i = 0; i < 3000; i++) {
      const shape = (['round', 'vee', 'flat', 'step'] as const)[Math.floor(random() * 4)] ?? 'round';
      const die = {
        shape,
        width: shape === 'step' && random() < 0.5 ? undefined : 2 + 30 * random(),
        depth: 0.2 + 8 * random(),
        nose: random() < 0.5 ? 5 * random() : undefined,
        shoulder: random() < 0.5 ? 5 * random() : undefined,
      };
      const thickness = 0.5 + 2 * random();
      const answer = beadSection(die, thickness);
      if (answer.ok) {
        good++;
        expectSmooth(answer.section.midline);
        expect(answer.section.developed).toBeGreaterThanOrEqual(answer.section.width - 1e-9);
        continue;
      }
      const { at, why, limit } = answer.refusal;
      if (limit === undefined || limit <= 0 || at === 'shape') continue;
      const again = beadSection({ ...die, [at]: why === 'too great' ? limit * 0.999 : limit * 1.001 }, thickness);
      if (again.ok) cured++;
      // What remains is another size's fault, never the same one's.
      else expect(again.refusal.at === at && again.refusal.why === why && again.refusal.limit === limit).toBe(false);
    }
    expect(good).toBeGreaterThan(800);
    expect(cured).toBeGreaterThan(300);
  });
  test.each([
    ['nose too large for half the width', { shape: 'vee', width: 10, depth: 3, nose: 6 }, 'nose', 'too great'],
    ['no depth', { shape: 'round', width: 10, depth: undefined }, 'depth', 'not said'],
    ['no width', { shape: 'round', width: undefined, depth: 3 }, 'width', 'not said'],
    ['a tipping die leaves no bead', { shape: 'tipping', width: 10, depth: 3 }, 'shape', 'no bead'],
    ['deeper than half round', { shape: 'round', width: 10, depth: 5.5 }, 'depth', 'too great'],
    ['flanks take all of the flat top', { shape: 'flat', width: 6, depth: 4 }, 'width', 'too small'],
  ] as const)('%s', (_, die, at, why) => {
    const answer = beadSection(die, 1);
    expect(answer.ok ? undefined : [answer.refusal.at, answer.refusal.why]).toEqual([at, why]);
  });
});

describe('strain', () => {
  const of = section({ shape: 'round', width: 10, depth: 3 }, 1.2);
  test('the peak is the bend’s T/2ρ and the mean stretch of what is not drawn in', () => {
    const bending = 1.2 / 2 / of.tightest;
    expect(bendingStrain(of)).toBeCloseTo(bending, 12);
    expect(peakStrain(of, 0)).toBeCloseTo(bending + of.meanStrain, 12);
    expect(peakStrain(of, 1)).toBeCloseTo(bending, 12);
    expect(drawInOf(of, 0.5) * 2).toBeCloseTo(of.developed - 10, 12);
  });
  test('a strip that came out narrower by half of what the bead needs drew in half, give or take the reading', () => {
    const needed = of.developed - of.width;
    const share = measuredDrawIn(200, 200 - needed / 2, of, 0.1);
    expect(share?.share).toBeCloseTo(0.5, 9);
    expect(share?.spread).toBeCloseTo(0.1 / needed, 9);
    expect(share?.doubtful).toBe(false);
    expect(measuredDrawIn(200, 200.3, of, 0.1)?.doubtful).toBe(true);
    expect(measuredDrawIn(200, 199.98, of, 0.1)?.doubtful).toBe(false);
  });
  test('half the elongation is the limit; an unknown metal has none', () => {
    const known = ductility({ name: 'crs', elongation: 0.3, hardening: 0.2 });
    expect(stretchLimit(known)?.working).toBeCloseTo(0.15, 12);
    expect(judgeStrain(of, known, 0).verdict).toBe(of.meanStrain > 0.15 ? 'over' : 'near');
    expect(judgeStrain(of, known, 1).verdict).toBe('ok');
    expect(judgeStrain(of, ductility({ name: 'unobtainium', elongation: undefined, hardening: undefined }), 0).verdict).toBe('unknown');
    expect(ductility({ name: 'alu_5052_h32', elongation: undefined, hardening: undefined }).elongation).toBe(0.12);
  });
  test('passes: 3 mm at 1.5 a pass is two, a hair over is three; the last pass of equal steps stretches most', () => {
    expect(passesTo(3, 1.5, 1.2).count).toBe(2);
    expect(passesTo(3.01, 1.5, 1.2).count).toBe(3);
    expect(passesTo(3, undefined, 1).count).toBe(2);
    const strains = strainByPass({ shape: 'round', width: 10, depth: 3 }, 1.2, passesTo(3, 1, 1.2)) ?? [];
    expect(strains).toHaveLength(3);
    expect(strains[2]).toBeCloseTo(of.meanStrain, 9);
    const added = strains.map((strain, i) => strain - (strains[i - 1] ?? 0));
    expect(added[1]).toBeGreaterThan(added[0] ?? 0);
    expect(added[2]).toBeGreaterThan(added[1] ?? 0);
  });
});

test('beads on a pitch: flat between, none when they would overlap', () => {
  const of = section({ shape: 'round', width: 10, depth: 3 }, 1.2);
  expect(repeatingSection(of.midline, of.width, 9.9, 1.2)).toBeUndefined();
  const far = repeatingSection(of.midline, of.width, 1e6, 1.2);
  expect(far?.ratio).toBeGreaterThan(1);
  expect(far?.ratio).toBeLessThan(1.01);
});
