import { describe, expect, test } from 'vitest';
import { stiffPanelOf } from '../../server/bead/stiff-panel.js';
import { type StiffPanel, type StraightBead, stiffnessOf } from '../../server/bead/stiffness.js';
import { beadSection, repeatingSection } from '../../server/trade/bead-sections.js';
import { beadedStiffness, evenStiffness, type PlateEdges, solvePlate } from '../../server/trade/plates.js';
import { panelOf } from '../model/build.js';

const inch = 25.4;
const words = { say: (mm: number): string => `${mm.toFixed(2)} mm` };
const simply: PlateEdges = { left: 'simply', right: 'simply', bottom: 'simply', top: 'simply' };
const half = beadSection({ shape: 'round', width: 10, depth: 3 }, 1);
if (!half.ok) throw new Error('no section');
const { section } = half;
const bead = (at: number, from: number, to: number, more: Partial<StraightBead> = {}): StraightBead => ({
  id: `rib.${at}`,
  along: 'x',
  at,
  from,
  to,
  direction: 'up',
  midline: section.midline,
  width: 10,
  depth: 3,
  ...more,
});
const panel = (beads: readonly StraightBead[], more: Partial<StiffPanel> = {}): StiffPanel => ({
  width: 600,
  height: 400,
  thickness: 1,
  modulus: 205000,
  poisson: 0.3,
  density: 7850,
  beads,
  uncounted: [],
  cases: [{ load: { kind: 'spread', pressure: 2e-5 }, edges: simply }],
  ...more,
});
const five = [40, 120, 200, 280, 360].map((at) => bead(at, 0, 600));
const only = (given: StiffPanel) => {
  const answer = stiffnessOf(given, words);
  const first = answer?.cases[0];
  if (answer === undefined || first === undefined) throw new Error('no answer');
  return { answer, first };
};

describe('five ribs from edge to edge', () => {
  const { answer, first } = only(panel(five));
  test('are smeared over the whole panel at a pitch of 80, with the second moment of the true section', () => {
    const repeated = repeatingSection(section.midline, 10, 80, 1);
    expect(answer.fields).toMatchObject([{ along: 'x', count: 5, pitch: 80, x: [0, 600], y: [0, 400] }]);
    expect(answer.fields[0]?.secondMoment).toBeCloseTo(repeated?.secondMomentPerWidth ?? 0, 12);
  });
  test('deflect as that orthotropic plate does, by the series summed here', () => {
    const repeated = repeatingSection(section.midline, 10, 80, 1);
    const d = beadedStiffness(205000, 0.3, 1, repeated?.secondMomentPerWidth ?? 0, repeated?.stretch ?? 1, 'x');
    let w = 0;
    for (let m = 1; m < 50; m += 2)
      for (let n = 1; n < 50; n += 2) {
        const stiff = d.x * (m / 600) ** 4 + 2 * (d.cross + 2 * d.twist) * ((m * n) / 240000) ** 2 + d.y * (n / 400) ** 4;
        w += (16 * 2e-5 * Math.sin((m * Math.PI) / 2) * Math.sin((n * Math.PI) / 2)) / (Math.PI ** 6 * m * n * stiff);
      }
    expect(Math.abs((first.beaded?.deflection ?? 0) / w - 1)).toBeLessThan(1e-4);
    const flat = solvePlate({ width: 600, height: 400, stiffness: evenStiffness(205000, 1, 0.3), edges: simply });
    expect(first.flat.deflection).toBeCloseTo(flat?.under({ kind: 'spread', pressure: 2e-5 }).deflection(300, 200) ?? 0, 6);
    expect(first.gain).toBeCloseTo(first.flat.deflection / (first.beaded?.deflection ?? 1), 12);
  });
  test('four deflect more and six less; the frequencies go the other way', () => {
    expect(first.fewer?.count).toBe(4);
    expect(first.fewer?.pitch).toBeCloseTo(100, 9);
    expect(first.more?.count).toBe(6);
    const [four, now, six] = [first.fewer, first.beaded, first.more];
    expect(four?.deflection).toBeGreaterThan(now?.deflection ?? Number.NaN);
    expect(six?.deflection).toBeLessThan(now?.deflection ?? Number.NaN);
    expect(four?.frequency).toBeLessThan(now?.frequency ?? Number.NaN);
    expect(first.flat.frequency).toBeLessThan(four?.frequency ?? Number.NaN);
  });
  test('say how the plate is reckoned, and no more', () => {
    expect(answer.limits).toHaveLength(1);
    expect(answer.limits[0]).toContain('twists');
    expect(first.limits).toEqual([]);
  });
});

describe('where it stops holding is said', () => {
  const said = (given: StiffPanel): string => {
    const { answer, first } = only(given);
    return [...answer.limits, ...first.limits].join('\n');
  };
  test('deflection over half the thickness', () => {
    expect(said(panel(five, { cases: [{ load: { kind: 'spread', pressure: 5e-4 }, edges: simply }] }))).toContain('0.50 mm');
  });
  test('few beads, beads short of the edges, both ways, up and down, uneven, a border', () => {
    expect(said(panel([bead(130, 0, 600), bead(260, 0, 600)]))).toContain('2 beads: ');
    expect(said(panel([200, 300, 100].map((at) => bead(at, 60, 540))))).toContain('stop 60.00 mm short');
    expect(said(panel([...five, bead(300, 0, 400, { along: 'y' })]))).toContain('both ways');
    expect(said(panel(five.map((one, i) => ({ ...one, direction: i % 2 === 0 ? 'up' : 'down' }))))).toContain('up and down');
    expect(said(panel([40, 120, 200, 340].map((at) => bead(at, 0, 600))))).toContain('80.00 mm to 140.00 mm apart');
    expect(said(panel(five, { uncounted: ['border'] }))).toContain('border not counted');
  });
  test('no room for one more', () => {
    const { first } = only(panel([100, 111, 122, 133].map((at) => bead(at, 0, 600))));
    expect(first.more).toBeUndefined();
    expect(first.fewer?.count).toBe(3);
  });
});

describe('what any panel must obey', () => {
  test('flat, it gains nothing', () => {
    const { first } = only(panel([]));
    expect(first).toMatchObject({ gain: 1, beaded: undefined, fewer: undefined, more: undefined });
  });
  test('one bead: one fewer is the flat panel', () => {
    const { first } = only(panel([bead(200, 0, 600)]));
    expect(first.fewer).toMatchObject({ count: 0, deflection: first.flat.deflection });
  });
  test('beads that stop short gain less, and lie between flat and full length', () => {
    const full = only(panel(five)).first.beaded?.deflection ?? 0;
    const short = only(panel(five.map((one) => ({ ...one, from: 60, to: 540 })))).first;
    expect(short.beaded?.deflection).toBeGreaterThan(full);
    expect(short.beaded?.deflection).toBeLessThan(short.flat.deflection);
  });
  test('turned by a quarter it is the same panel', () => {
    const turned = panel(
      five.map((one) => ({ ...one, along: 'y' })),
      { width: 400, height: 600 },
    );
    const [a, b] = [only(panel(five)).first, only(turned).first];
    expect(b.beaded?.deflection).toBeCloseTo(a.beaded?.deflection ?? 0, 9);
    expect(b.beaded?.frequency).toBeCloseTo(a.beaded?.frequency ?? 0, 6);
  });
  test('held clamped it deflects less; held on two edges only, more', () => {
    const held = (edges: PlateEdges): number =>
      only(panel(five, { cases: [{ load: { kind: 'spread', pressure: 2e-5 }, edges }] })).first.beaded?.deflection ?? Number.NaN;
    const clamped = held({ left: 'clamped', right: 'clamped', bottom: 'clamped', top: 'clamped' });
    const two = held({ left: 'simply', right: 'simply', bottom: 'free', top: 'free' });
    expect(clamped).toBeLessThan(held(simply));
    expect(two).toBeGreaterThan(held(simply));
  });
  test('no density, no frequency', () => {
    expect(only(panel(five, { density: undefined })).first.beaded?.frequency).toBeUndefined();
  });
});

describe('from the file', () => {
  const floor = (...lines: readonly string[]): string => `units inch
material mild_steel { density 7850 kg/m3  modulus 205 GPa }
sheet crs_18 { material mild_steel  thickness 0.048  bend radius 1/16 k 0.42 }
die half_round { round  width 3/8  depth 1/8 }
panel floor {
  sheet crs_18
  outline rectangle 36 by 24
  bead border { die half_round  up  rectangle inset 1 corner 1 }
  repeat 5 every 4 along y { bead rib { die half_round  up  line from (3, 4) to (33, 4) } }
${lines.map((line) => `  ${line}`).join('\n')}
}
`;
  test('a ribbed floor under a crate', () => {
    const given = stiffPanelOf(panelOf(floor('load patch 40 lbf at (18, 12) over 12 by 8 held all simply'), 'floor'));
    if (given === undefined || 'message' in given) throw new Error(JSON.stringify(given));
    expect(given.beads.map((one) => one.at / inch)).toEqual([4, 8, 12, 16, 20].map((at) => expect.closeTo(at, 9)));
    expect(
      given.beads.every((one) => one.along === 'x' && Math.abs(one.from - 3 * inch) < 1e-9 && Math.abs(one.to - 33 * inch) < 1e-9),
    ).toBe(true);
    expect(given.uncounted).toEqual(['border']);
    const { answer, first } = only(given);
    expect(answer.fields[0]?.pitch).toBeCloseTo(4 * inch, 6);
    expect(answer.fields[0]?.x.map((x) => x / inch)).toEqual([expect.closeTo(3, 9), expect.closeTo(33, 9)]);
    expect(first.gain).toBeGreaterThan(1);
  });
  test('a rib counts alike however its line is written, and to the edge where it runs off', () => {
    const counted = (bead: string) => {
      const text = floor('load spread 0.01 psi held all simply').replace(/ {2}(bead border|repeat).*\n/g, '');
      const given = stiffPanelOf(panelOf(text.replace('  load', `  ${bead}\n  load`), 'floor'));
      if (given === undefined || 'message' in given) throw new Error(JSON.stringify(given));
      expect(given.uncounted).toEqual([]);
      return given.beads.map(({ along, at, from, to }) => [along, ...[at, from, to].map((v) => Math.round((v / inch) * 1e6) / 1e6)]);
    };
    const rib = (path: string): string => `bead rib { die half_round  up  ${path} }`;
    const line = counted(rib('line from (3, 3) to (33, 3)'));
    expect(line).toEqual([['x', 3, 3, 33]]);
    expect(counted(rib('path (3, 3), (33, 3)'))).toEqual(line);
    expect(counted(rib('along bottom inset 3'))).toEqual(line);
    expect(counted(rib('along left inset 3'))).toEqual([['y', 3, 3, 21]]);
    expect(counted(rib('line from (33, 3) to (3, 3)  ends open run off'))).toEqual([['x', 3, 0, 33]]);
    expect(counted(rib('line from (3, 20) to (3, 4)  ends run off'))).toEqual([['y', 3, 0, 24]]);
    expect(counted(rib('line from (-1, 4) to (37, 4)  ends run off'))).toEqual([['x', 4, 0, 36]]);
    const mirrored = `opposite across x = 18 { ${rib('line from (3, 4) to (3, 10)  ends open run off')} }`;
    expect(counted(mirrored)).toEqual([
      ['y', 3, 4, 24],
      ['y', 33, 4, 24],
    ]);
  });
  test('what can’t be reckoned is told at its words', () => {
    const told = (text: string): string => {
      const given = stiffPanelOf(panelOf(text, 'floor'));
      return given === undefined || !('message' in given) ? 'reckoned' : given.message;
    };
    expect(told(floor())).toBe('reckoned');
    expect(told(floor('load patch 40 lbf at (18, 12) over 12 by 8 held left simply'))).toContain('swings free');
    expect(told(floor('load patch 40 lbf at (18, 12) over 12 by 8 held all simply').replace('  modulus 205 GPa', ''))).toContain('modulus');
  });
});
