/** Which fingers make up a bend, against all sets tried one by one. */
import { describe, expect, test } from 'vitest';
import { chooseFingers, FINGER_CLEARANCE } from '../../server/brake/fingers.js';

const everySet = (widths: readonly number[], bend: number, room: number): { gap: number; overhang: number } | undefined => {
  let best: { gap: number; overhang: number } | undefined;
  for (let set = 1; set < 2 ** widths.length; set++) {
    const sum = widths.reduce((total, width, i) => total + ((set & (1 << i)) === 0 ? 0 : width), 0);
    if (sum > room - 2 * FINGER_CLEARANCE + 1e-9) continue;
    const [gap, overhang] = [Math.max(0, bend - sum), Math.max(0, sum - bend)];
    if (best === undefined || gap < best.gap - 1e-9 || (Math.abs(gap - best.gap) < 1e-9 && overhang < best.overhang - 1e-9))
      best = { gap, overhang };
  }
  return best;
};

describe('fingers', () => {
  test('the least gap, then the least overhang, as all sets tried one by one', () => {
    let state = 12345;
    const random = (low: number, high: number): number => {
      state = (state * 48271) % 2147483647;
      return low + ((high - low) * state) / 2147483647;
    };
    for (let i = 0; i < 300; i++) {
      const widths = Array.from({ length: 1 + (i % 10) }, () => Math.round(random(10, 200)));
      const bend = random(20, 600);
      const room = i % 3 === 0 ? Number.POSITIVE_INFINITY : bend + random(-30, 40);
      const brute = everySet(widths, bend, room);
      const chosen = chooseFingers(widths, bend, room);
      expect(chosen === undefined).toBe(brute === undefined);
      if (chosen === undefined || brute === undefined) continue;
      expect(chosen.gap).toBeCloseTo(brute.gap, 6);
      expect(chosen.overhang).toBeCloseTo(brute.overhang, 6);
      expect(chosen.widths.reduce((a, b) => a + b, 0) + chosen.gap - chosen.overhang).toBeCloseTo(bend, 6);
    }
  });
  test('twenty fingers are no trouble', () => {
    const widths = Array.from({ length: 20 }, (_, i) => 2 ** (i / 3) + 10);
    expect(chooseFingers(widths, 300, Number.POSITIVE_INFINITY)?.gap).toBe(0);
  });
  test('nothing fits where the room is narrower than the narrowest', () => {
    expect(chooseFingers([25, 50], 24, 24)).toBeUndefined();
  });
});
