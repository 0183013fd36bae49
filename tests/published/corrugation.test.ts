import { describe, expect, test } from 'vitest';
import { repeatingSection } from '../../server/trade/bead-sections.js';
import { type Midline, sheetSection } from '../../server/trade/midline.js';
import { beadedStiffness, corrugatedStiffness, evenStiffness, plateRigidity, twistTerm } from '../../server/trade/plates.js';

const sinusoid = (pitch: number, amplitude: number): Midline => {
  const m = (2 * Math.PI) / pitch;
  return [
    {
      kind: 'curve',
      from: 0,
      to: pitch,
      y: (x) => amplitude * Math.sin(m * x),
      slope: (x) => amplitude * m * Math.cos(m * x),
    },
  ];
};
const points = [
  [0, 0],
  [20, 0],
  [25, 10],
  [45, 10],
  [50, 0],
] as const;
const trapezoid: Midline = points
  .slice(1)
  .map(([x, y], i) => ({ kind: 'line', from: { x: points[i]?.[0] ?? 0, y: points[i]?.[1] ?? 0 }, to: { x, y } }));
const share = (actual: number, wanted: number): number => Math.abs(actual / wanted - 1);

describe('second moment of corrugated sheet, T 1', () => {
  // Source: plane geometry, I = t ∫ (y − ȳ)² ds + (t³/12) ∫ cos² ds, worked independently by fine quadrature.
  test('sinusoid, pitch 40, amplitude 8: L 52.826, I 1500.45, 450.1 times flat', () => {
    const { developed, secondMoment } = sheetSection(sinusoid(40, 8), 1);
    expect(share(developed, 52.826)).toBeLessThan(1e-5);
    expect(share(secondMoment, 1500.45)).toBeLessThan(5e-6);
    expect(share(secondMoment / 40 / (1 / 12), 450.1)).toBeLessThan(2e-4);
  });
  /*
   * By hand: flank √(5² + 10²) = 11.1803; A = 20 + 20 + 2 · 11.1803 = 62.3607; ȳ = 5;
   * I = 2 · 20 · 5² + 2 · 11.1803 · 10²/12 + (40 + 2 · 5²/11.1803)/12 = 1000 + 186.339 + 3.706 = 1190.05.
   */
  test('trapezoid, flats 20, flank run 5, height 10: L 62.3607, I 1190.05, 285.6 times flat', () => {
    const { developed, secondMoment, centroid, area } = sheetSection(trapezoid, 1);
    expect(Math.abs(developed - 62.3607)).toBeLessThan(6e-5);
    expect(Math.abs(area - 62.3607)).toBeLessThan(6e-5);
    expect(Math.abs(centroid.y - 5)).toBeLessThan(1e-9);
    expect(Math.abs(secondMoment - 1190.05)).toBeLessThan(6e-3);
    expect(share(secondMoment / 50 / (1 / 12), 285.6)).toBeLessThan(2e-4);
  });
  test('arc bead, chord 20, rise 5, every 80: L 83.182, ȳ 0.9152, I 239.42, 35.91 times flat', () => {
    const half = Math.asin(10 / 12.5);
    const arc: Midline = [{ kind: 'arc', centre: { x: 0, y: -7.5 }, radius: 12.5, start: Math.PI / 2 + half, sweep: -2 * half }];
    const repeated = repeatingSection(arc, 20, 80, 1);
    if (repeated === undefined) throw new Error('no room');
    expect(share(repeated.developed, 83.182)).toBeLessThan(1e-5);
    expect(share(repeated.centroid.y, 0.9152)).toBeLessThan(6e-5);
    expect(share(repeated.secondMoment, 239.42)).toBeLessThan(3e-5);
    expect(share(repeated.ratio, 35.91)).toBeLessThan(2e-4);
  });
  test('a shallow sinusoid: I/p near (f²t/2)(1 + m²/8) and L/p near 1 + m²/4 − 3m⁴/64', () => {
    const [p, f] = [40, 1.2];
    const m = (2 * Math.PI * f) / p;
    const section = sheetSection(sinusoid(p, f), 0.001);
    expect(share(section.secondMoment / p, ((f * f * 0.001) / 2) * (1 + (m * m) / 8))).toBeLessThan(1e-4);
    expect(share(section.developed / p, 1 + m ** 2 / 4 - (3 * m ** 4) / 64)).toBeLessThan(1e-5);
  });
  // Source: Hicks, Civil Engineering Formulas, p. 18, corrugated sheet iron, parabolically curved.
  test('parabolic corrugation, pitch 40, depth 16, T 1: I 1582.3 by the published formula', () => {
    const [B, H, t] = [40, 16, 1];
    const [h1, h2, b1, b2] = [(H + t) / 2, (H - t) / 2, (B + 2.6 * t) / 4, (B - 2.6 * t) / 4];
    const published = (64 / 105) * (b1 * h1 ** 3 - b2 * h2 ** 3);
    expect(Math.abs(published - 1582.3)).toBeLessThan(0.06);
    const wave = (from: number, sign: number): Midline[number] => ({
      kind: 'curve',
      from,
      to: from + B / 2,
      y: (x) => sign * (H / 2) * (1 - ((x - from - B / 4) / (B / 4)) ** 2),
      slope: (x) => (-sign * H * ((x - from - B / 4) / (B / 4))) / (B / 4),
    });
    const { secondMoment, developed } = sheetSection([wave(0, 1), wave(B / 2, -1)], t);
    expect(share(secondMoment, published)).toBeLessThan(5e-4);
    // The book's area, t (2 B + 5.2 H)/3 = 54.40, is an approximation that lies 2 % high.
    expect(share(developed, (t * (2 * B + 5.2 * H)) / 3)).toBeLessThan(0.02);
  });
  test('curves and chords agree: the sinusoid by 20 000 straight pieces', () => {
    const pieces = 20000;
    const at = (i: number): { x: number; y: number } => ({ x: (40 * i) / pieces, y: 8 * Math.sin((2 * Math.PI * i) / pieces) });
    const chords: Midline = Array.from({ length: pieces }, (_, i) => ({ kind: 'line', from: at(i), to: at(i + 1) }));
    expect(share(sheetSection(sinusoid(40, 8), 1).secondMoment, sheetSection(chords, 1).secondMoment)).toBeLessThan(1e-7);
  });
});

describe('equivalent plate of the trapezoid, E 205 000, ν 0.3, T 1', () => {
  const { secondMoment, developed } = sheetSection(trapezoid, 1);
  const stiff = corrugatedStiffness(205000, 0.3, 1, secondMoment / 50, developed / 50);
  // Source: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. (1959), form from memory, numbers worked by hand.
  test('D 18 772.9, across 15 051.9, along 4.8792e6, twist 16 389.7 (by hand (l/p) E t³/(12 (1 + ν)) = 1.24721 · 13 141.0)', () => {
    expect(share(plateRigidity(205000, 1, 0.3), 18772.9)).toBeLessThan(5e-6);
    expect(share(50 / developed, 0.80179)).toBeLessThan(1e-5);
    expect(share(stiff.across, 15051.9)).toBeLessThan(5e-6);
    expect(share(stiff.along, 4.8792e6)).toBeLessThan(1e-5);
    expect(share(stiff.twist, 16389.7)).toBeLessThan(5e-6);
  });
  test('beads of no depth give the flat plate again', () => {
    const flat = beadedStiffness(205000, 0.3, 1, 1 / 12, 1, 'x');
    const even = evenStiffness(205000, 1, 0.3);
    for (const key of ['x', 'y', 'cross', 'twist'] as const) expect(share(flat[key], even[key])).toBeLessThan(1e-12);
    expect(share(twistTerm(even), 18772.9)).toBeLessThan(5e-6);
  });
});
