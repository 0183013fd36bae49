import { describe, expect, test } from 'vitest';
import { ritzPlate } from '../../server/trade/plate-ritz.js';
import { type EdgeHold, evenStiffness, type Plate, type PlateEdges, type PlateLoad, solvePlate } from '../../server/trade/plates.js';

const all = (hold: EdgeHold): PlateEdges => ({ left: hold, right: hold, bottom: hold, top: hold });
const even = evenStiffness(205000, 1, 0.3);
const share = (a: number, b: number): number => Math.abs(a / b - 1);
const spread: PlateLoad = { kind: 'spread', pressure: 0.0005 };
const patch: PlateLoad = { kind: 'patch', force: 80, x: 210, y: 140, width: 80, height: 60 };
const at = (plate: Plate, load: PlateLoad, x: number, y: number, terms?: number): number =>
  solvePlate(plate, terms)?.under(load).deflection(x, y) ?? Number.NaN;

describe('two methods agree: the sine series and the polynomials', () => {
  const plate: Plate = { width: 600, height: 400, stiffness: even, edges: all('simply'), massPerArea: 7.85e-9 };
  test('spread load, patch off the middle, moments, frequency', () => {
    const [series, ritz] = [solvePlate(plate), ritzPlate(plate)];
    const [a, b] = [series?.under(spread), ritz?.under(spread)];
    expect(share(a?.deflection(170, 90) ?? 0, b?.deflection(170, 90) ?? 1)).toBeLessThan(1e-3);
    expect(share(a?.moments(300, 200).x ?? 0, b?.moments(300, 200).x ?? 1)).toBeLessThan(2e-3);
    const [c, d] = [series?.under(patch), ritz?.under(patch)];
    expect(share(c?.deflection(210, 140) ?? 0, d?.deflection(210, 140) ?? 1)).toBeLessThan(5e-3);
    expect(share(series?.firstFrequency() ?? 0, ritz?.firstFrequency() ?? 1)).toBeLessThan(1e-6);
  });
  test('a patch over the whole plate is a spread load', () => {
    const whole: PlateLoad = { kind: 'patch', force: 0.0005 * 600 * 400, x: 300, y: 200, width: 600, height: 400 };
    expect(share(at(plate, whole, 200, 150), at(plate, spread, 200, 150))).toBeLessThan(1e-9);
  });
  test('what hangs over the edge does not count', () => {
    const over: PlateLoad = { kind: 'patch', force: 100, x: 0, y: 200, width: 200, height: 100 };
    const inside: PlateLoad = { kind: 'patch', force: 50, x: 50, y: 200, width: 100, height: 100 };
    expect(share(at(plate, over, 150, 200), at(plate, inside, 150, 200))).toBeLessThan(1e-9);
  });
});

describe('0.1 % with the usual number of terms', () => {
  test.each([
    ['clamped', all('clamped')],
    ['two opposite clamped, two free', { left: 'clamped', right: 'clamped', bottom: 'free', top: 'free' }],
    ['three simply, one free', { left: 'simply', right: 'simply', bottom: 'simply', top: 'free' }],
    ['two neighbours clamped, two free', { left: 'clamped', right: 'free', bottom: 'clamped', top: 'free' }],
    ['all different', { left: 'clamped', right: 'simply', bottom: 'free', top: 'clamped' }],
  ] as const)('%s', (_, edges) => {
    const plate: Plate = { width: 500, height: 400, stiffness: even, edges, massPerArea: 1e-8 };
    const [usual, fine] = [solvePlate(plate), solvePlate(plate, 22)];
    const place = [edges.right === 'free' ? 500 : 230, edges.top === 'free' ? 400 : 190] as const;
    expect(share(usual?.under(spread).deflection(...place) ?? 0, fine?.under(spread).deflection(...place) ?? 1)).toBeLessThan(1e-3);
    expect(share(usual?.firstFrequency() ?? 0, fine?.firstFrequency() ?? 1)).toBeLessThan(1e-3);
    expect(share(usual?.under(patch).deflection(210, 140) ?? 0, fine?.under(patch).deflection(210, 140) ?? 1)).toBeLessThan(6e-3);
  });
  test('a stiff rectangle short of the edges: half a per cent, the frequency a quarter', () => {
    const stiffened = {
      x: [60, 440],
      y: [40, 360],
      stiffness: { x: 50 * even.x, y: 0.9 * even.y, cross: 0.27 * even.y, twist: 0.4 * even.y },
    } as const;
    const plate: Plate = { width: 500, height: 400, stiffness: even, stiffened, edges: all('simply'), massPerArea: 1e-8 };
    const [usual, fine] = [solvePlate(plate), solvePlate(plate, 30)];
    expect(share(usual?.under(spread).greatest.deflection ?? 0, fine?.under(spread).greatest.deflection ?? 1)).toBeLessThan(5e-3);
    expect(share(usual?.firstFrequency() ?? 0, fine?.firstFrequency() ?? 1)).toBeLessThan(2.5e-3);
  });
});

describe('what must hold of any plate', () => {
  const plate: Plate = {
    width: 500,
    height: 400,
    stiffness: { x: 8 * even.x, y: even.y, cross: even.cross, twist: even.twist },
    edges: { left: 'clamped', right: 'simply', bottom: 'simply', top: 'free' },
  };
  test('turned by a quarter it is the same plate', () => {
    const { x, y, ...rest } = plate.stiffness;
    // (x, y) → (400 − y, x)
    const turned: Plate = {
      width: 400,
      height: 500,
      stiffness: { x: y, y: x, ...rest },
      edges: { bottom: 'clamped', top: 'simply', right: 'simply', left: 'free' },
    };
    expect(share(at(plate, spread, 200, 300, 14), at(turned, spread, 100, 200, 14))).toBeLessThan(1e-6);
  });
  test('twice the load, twice the deflection; deflection at one place from a force at another is the same either way round', () => {
    expect(at(plate, { ...spread, pressure: 0.001 }, 200, 200)).toBeCloseTo(2 * at(plate, spread, 200, 200), 9);
    const force = (x: number, y: number): PlateLoad => ({ kind: 'patch', force: 10, x, y, width: 0, height: 0 });
    expect(share(at(plate, force(150, 120), 300, 250), at(plate, force(300, 250), 150, 120))).toBeLessThan(1e-6);
  });
  test('a rectangle stiffened as the rest changes nothing', () => {
    const same: Plate = { ...plate, stiffened: { x: [100, 350], y: [80, 300], stiffness: plate.stiffness } };
    expect(share(at(same, spread, 200, 200), at(plate, spread, 200, 200))).toBeLessThan(2e-3);
  });
  test('a strip stiffened right across between free edges is a stepped beam: by hand, E I of the ends 1 and of the middle 8', () => {
    const beam = (d: number) => ({ x: d, y: d * 1e-6, cross: 0, twist: d * 1e-7 });
    const edges: PlateEdges = { left: 'simply', right: 'simply', bottom: 'free', top: 'free' };
    const stepped: Plate = {
      width: 1,
      height: 0.5,
      stiffness: beam(1),
      stiffened: { x: [0.2, 0.8], y: [0, 0.5], stiffness: beam(8) },
      edges,
    };
    // Unit load: w = 2 ∫ M m / EI over half, M = x(1 − x)/2 and m = x/2 for the middle: ∫ x²(1 − x)/2 = x³/6 − x⁴/8.
    const part = (x: number): number => x ** 3 / 6 - x ** 4 / 8;
    const w = part(0.2) + (part(0.5) - part(0.2)) / 8;
    expect(share(at(stepped, { kind: 'spread', pressure: 1 }, 0.5, 0.25), w)).toBeLessThan(1e-3);
  });
  test('not held enough: no answer', () => {
    const held = (edges: PlateEdges) => solvePlate({ width: 1, height: 1, stiffness: even, edges });
    expect(held(all('free'))).toBeUndefined();
    expect(held({ ...all('free'), left: 'simply' })).toBeUndefined();
    expect(held({ ...all('free'), left: 'clamped' })).toBeDefined();
    expect(held({ ...all('free'), left: 'simply', bottom: 'simply' })).toBeDefined();
  });
});
