import { describe, expect, test } from 'vitest';
import { type BendStrip, type CornerPiece, couponFor } from '../../server/bead/coupon.js';
import { trialTexts } from '../../server/bead/coupon-text.js';
import { drawInShare, formedBead, trialDrawIn } from '../../server/bead/forming.js';
import { beadSection } from '../../server/trade/bead-sections.js';
import { modelOf, panelOf } from '../model/build.js';

const inch = 25.4;
const shop = `units inch
material mild_steel { density 7850 kg/m3  modulus 205 GPa  elongation 0.3 }
sheet crs_18 { material mild_steel  thickness 0.048  bend radius 1/16 k 0.42 }
brake bench_leaf { leaf  length 48  least flange 1/2 }
die half_round { round  width 3/8  depth 1/8  per pass 1/16 }
die step_16 { step  depth 1/16 }
`;
const gate = `${shop}
panel gate {
  sheet crs_18
  grain along x
  outline rectangle 30 by 11
  edge top { flange 3/4 up 60 }
  edge left, right { flange 1 up }
  bead border { die half_round  up  rectangle inset 1 3/4 corner 1 1/2 }
  bead rib { die half_round  up  line from (15, 4) to (15, 7) }
  bead ring { die step_16  up  circle round (8, 5) radius 1 }
}
`;
const coupon = couponFor(panelOf(gate, 'gate'), 6.35);
const piece = (name: string) => {
  const found = coupon?.pieces.find((one) => one.name === name);
  if (found === undefined) throw new Error(`no ${name}`);
  return found;
};

describe('strips for the drop gate', () => {
  test('one for each die, one for the tightest corner, one for a bend', () => {
    expect(coupon?.pieces.map((one) => `${one.kind} ${one.name}`)).toEqual([
      'bead gate_half_round',
      'bead gate_step_16',
      'corner gate_corner',
      'bend gate_bend',
    ]);
  });
  test('sizes are found on a rule and leave room for run-outs', () => {
    for (const one of coupon?.pieces ?? []) {
      expect(one.width / 6.35).toBeCloseTo(Math.round(one.width / 6.35), 9);
      expect(one.height / 6.35).toBeCloseTo(Math.round(one.height / 6.35), 9);
      expect(Math.max(one.width, one.height)).toBeLessThan(8 * inch);
    }
    expect(piece('gate_half_round').width).toBeGreaterThanOrEqual(0.375 * inch + 80);
  });
  test('the strip says between what the width must come out: all drawn in, or nothing', () => {
    const strip = piece('gate_half_round');
    const made = beadSection({ shape: 'round', width: 0.375 * inch, depth: 0.125 * inch }, 0.048 * inch);
    const full = made.ok ? made.section.developed - made.section.width : Number.NaN;
    const after = strip.boxes.find((box) => box.what === 'width');
    expect(after?.expected?.[1]).toBe(strip.width);
    expect(after?.expected?.[0]).toBeCloseTo(strip.width - full, 9);
    expect(strip.kind === 'bead' && strip.passes).toBe(2);
  });
  test('the corner is the tightest, clear of the edges, and there is straight before and after it', () => {
    const corner = piece('gate_corner') as CornerPiece;
    expect(corner.corner).toBeCloseTo(inch, 9);
    expect(corner.die.name).toBe('step_16');
    const [start, turn, end] = corner.points;
    expect(turn.x).toBeGreaterThan(4 * 0.048 * inch);
    expect(start.x - turn.x - corner.corner).toBeGreaterThanOrEqual(30 - 1e-9);
    expect(end.y - turn.y - corner.corner).toBeGreaterThanOrEqual(30 - 1e-9);
  });
  test('the bend is the one turned furthest of the tightest, its legs longer than the brake’s least flange', () => {
    const bend = piece('gate_bend') as BendStrip;
    expect((bend.turn * 180) / Math.PI).toBeCloseTo(90, 9);
    expect(bend.radius).toBeCloseTo(inch / 16, 9);
    expect(bend.tangents[0]).toBeGreaterThan(0.5 * inch);
    expect(bend.tangents[0] + bend.tangents[1]).toBeCloseTo(bend.width, 9);
    // By hand: BD = 2 (R + T) − (π/2)(R + 0.42 T); both legs are half of strip and deduction together.
    const [R, T] = [inch / 16, 0.048 * inch];
    const deduction = 2 * (R + T) - (Math.PI / 2) * (R + 0.42 * T);
    expect(bend.boxes.find((box) => box.what === 'legs')?.expected?.[0]).toBeCloseTo((bend.width + deduction) / 2, 9);
    // The bend of a side edge runs along y, the grain along x: across on the strip, where bends run along y.
    expect(bend.grain).toBe('x');
  });
  test('without beads and bends there is nothing to try', () => {
    expect(couponFor(panelOf(`${shop}\npanel lid { sheet crs_18  outline rectangle 4 by 4 }\n`, 'lid'), 6.35)).toBeUndefined();
  });
});

describe('a strip for a bead that leaves something out', () => {
  const pieces = (bead: string) => {
    const text = `${shop.replace('per pass 1/16', 'per pass 1/16  tightest turn 3/4')}
panel tray { sheet crs_18  grain along x  outline rectangle 30 by 11  ${bead} }`;
    return couponFor(panelOf(text, 'tray'), 6.35)?.pieces ?? [];
  };
  test('of its corner radius: the corner turns as tightly as the die goes', () => {
    for (const path of ['rectangle inset 2', 'along left, bottom inset 2', 'path (2, 2), (8, 2), (8, 8)']) {
      const corner = pieces(`bead border { die half_round  up  ${path} }`).find((one) => one.kind === 'corner');
      expect(corner?.kind === 'corner' && corner.corner / inch).toBeCloseTo(0.75, 9);
    }
    const tighter = pieces(
      'bead border { die half_round  up  rectangle inset 2 } bead ring { die half_round  up  circle round (9, 5) radius 1 }',
    );
    expect(tighter.map((one) => one.kind === 'corner' && one.corner / inch)).toContainEqual(expect.closeTo(0.75, 9));
  });
  test('a straight bead has no corner, and its grain lies as on the panel however the line is written', () => {
    for (const [path, grain] of [
      ['line from (3, 2) to (20, 2)', 'y'],
      ['path (3, 2), (20, 2)', 'y'],
      ['along bottom inset 2', 'y'],
      ['along top inset 2', 'y'],
      ['along left inset 2', 'x'],
      ['along right inset 2 corner 1', 'x'],
    ] as const)
      expect(pieces(`bead rib { die half_round  up  ${path} }`)).toMatchObject([{ kind: 'bead', grain }]);
  });
});

describe('the statements to paste', () => {
  const texts = coupon === undefined ? [] : trialTexts(coupon, { name: 'inch', mm: inch });
  test('one for each piece that tells a number', () => {
    expect(texts.map((one) => one.piece)).toEqual(['gate_half_round', 'gate_step_16', 'gate_bend']);
  });
  test('filled in, they are read without a word', () => {
    const filled = texts
      .map(({ text }) => text)
      .join('\n')
      .replaceAll('// measured width ____', 'measured width 3.65')
      .replaceAll('// measured depth ____', 'measured depth 1/8')
      .replace('// measured legs ____, ____', 'measured legs 2.046, 2.046')
      .replace('// measured angle ____', 'measured angle 88.5')
      .replace('// measured radius ____', 'measured radius 1/16');
    expect(filled).not.toContain('____');
    const model = modelOf(gate + filled);
    expect(model.findings.filter((finding) => finding.rule !== 'language/not-computed-yet')).toEqual([]);
  });
  test('and what they say comes back as the share drawn in', () => {
    const strip = piece('gate_half_round');
    const made = beadSection({ shape: 'round', width: 0.375 * inch, depth: 0.125 * inch }, 0.048 * inch);
    const full = made.ok ? (made.section.developed - made.section.width) / inch : Number.NaN;
    const after = (strip.width / inch - 0.6 * full).toFixed(6);
    const text = (texts[0]?.text ?? '').replace('// measured width ____', `measured width ${after}`);
    const panel = panelOf(gate.replace('panel gate', `${text}\npanel gate`), 'gate');
    const [die, sheet] = [panel.beads[0]?.die?.value, panel.sheet?.value];
    if (die === undefined || sheet === undefined) throw new Error('no die');
    const share = drawInShare(die, sheet, panel.trials);
    expect(share.share).toBeCloseTo(0.6, 4);
    // Both read to 1/64: half of it each.
    expect(share.spread).toBeCloseTo(1 / 64 / full, 6);
    expect(share.trial?.name).toBe('gate_half_round');
    const formed = formedBead(die, sheet, panel.trials);
    expect('takenIn' in formed && formed.takenIn.used).toBeCloseTo(0.6 * full * inch, 3);
  });
});

test('no strip: the usual share, said to be common practice; a strip of another sheet doesn’t count', () => {
  const panel = panelOf(gate, 'gate');
  const [die, sheet] = [panel.beads[0]?.die?.value, panel.sheet?.value];
  if (die === undefined || sheet === undefined) throw new Error('no die');
  expect(drawInShare(die, sheet, [])).toMatchObject({ share: 0.7, trial: undefined });
  expect(drawInShare(die, sheet, []).source).toContain('common practice, no source');
  const trial = {
    name: 'strip_9',
    file: '',
    span: { start: 0, end: 0 },
    sheet: { ...sheet, name: 'other' },
    strip: { length: 100, width: 150, finest: 0 },
    grain: undefined,
    bent: undefined,
    beaded: { die, length: 150, passes: 2 },
    legs: undefined,
    angle: undefined,
    radius: undefined,
    width: { value: 99, finest: 0.1 },
    length: undefined,
    depth: undefined,
  };
  expect(trialDrawIn(trial, die, sheet)).toBeUndefined();
  expect(trialDrawIn({ ...trial, sheet }, die, sheet)).toBeDefined();
  // Came out wider than it went in: nothing drawn in, and a doubt.
  expect(drawInShare(die, sheet, [{ ...trial, sheet, width: { value: 100.5, finest: 0.1 } }])).toMatchObject({
    share: 0,
    doubt: expect.stringContaining('measure the strip again'),
  });
});
