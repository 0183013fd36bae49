/** Parts on a brake: what can be bent, in which order, and what stops the others. 1 mm sheet over 1 mm inside radius; machines invented. */
import { describe, expect, test } from 'vitest';
import { bendingReport, blockedPicture, sectionPicture, withSuggestions } from '../../server/brake/index.js';
import { boxBrake, leafBrake, made, metal, planned, planOf, rated, section, ways } from './build.js';

const on = (brake: string, part: string): string => `${metal}${brake}${part}`;
const obstacleKinds = (text: string): readonly string[] =>
  planOf(text).blocked.flatMap(({ tried }) => tried.flatMap(({ obstacles }) => obstacles.map(({ kind }) => kind)));

describe('one bend', () => {
  test('an angle: the long leg is held, the short one swings; the line lies one inside radius from the tangent', () => {
    const plan = planOf(on(leafBrake, section('leg 40 / up 90 / leg 30')));
    expect(ways(plan)).toEqual(['turn.1 up leg.1']);
    const [step] = plan.steps;
    expect(step?.markOffset).toBe(1);
    // 30 − (1 + 1) flat beyond the bend, and what the bend uses up, π/2 · 1.42, less the millimetre from tangent to line.
    expect(step?.swings).toBeCloseTo(28 + (Math.PI / 2) * 1.42 - 1, 2);
    expect(plan.notChecked).toEqual([]);
  });
  test('a bend longer than the brake says which length could take it', () => {
    const { part } = made(on(leafBrake, section('leg 40 / up 90 / leg 30', 1200)));
    const plan = withSuggestions(part, planned(on(leafBrake, section('leg 40 / up 90 / leg 30', 1200)))).plan;
    expect(plan.possible).toBe(false);
    expect(plan.blocked[0]?.main).toEqual({ kind: 'length', has: 1000, wants: 1200 });
    expect(plan.suggestions).toEqual([{ kind: 'brake', property: 'length', from: 1000, to: 1200 }]);
  });
  test('thickness by the moment rule: 1.5 mm at 1000 long is 1.5 · √(1000/500) at 500', () => {
    const thick = (t: number, length: number): string =>
      on(leafBrake, section('leg 40 / up 90 / leg 30', length))
        .replace('thickness 1 ', `thickness ${t} `)
        .replace('bend radius 1 ', 'bend radius 3 ');
    expect(planOf(thick(2.1, 500)).blocked).toEqual([]);
    expect(planOf(thick(2.2, 500)).blocked[0]?.main).toMatchObject({
      kind: 'thickness',
      takes: expect.closeTo(1.5 * Math.SQRT2, 6) as number,
      has: 2.2,
    });
  });
  test('too little for the leaf is too little on either side when the other is as short', () => {
    expect(obstacleKinds(on(leafBrake, section('leg 40 / up 90 / leg 7')))).toEqual(['grip', 'grip']);
    expect(planOf(on(leafBrake, section('leg 40 / up 90 / leg 8'))).possible).toBe(true);
  });
  test('the set angle counts against the leaf’s stop, and the trial’s own ratio beats the formula', () => {
    const text = on(leafBrake.replace('greatest turn 140', 'greatest turn 90'), section('leg 40 / up 90 / leg 30'));
    expect(obstacleKinds(text)).toContain('turn');
    const tried = on(
      `trial strip { sheet s  strip 100 by 50  bent 93 radius 1  measured angle 90.5 }\n${leafBrake}`,
      section('leg 40 / up 90 / leg 30'),
    );
    const [step] = planOf(tried).steps;
    expect(step?.setBy).toBe('trial');
    expect(((step?.setAngle ?? 0) * 180) / Math.PI).toBeCloseTo((90 * 93) / 90.5, 6);
  });
  test('what is not described is said', () => {
    const plan = planOf(on(`brake bench { leaf  ${rated} }\n`, section('leg 40 / up 90 / leg 30')));
    expect(plan.possible).toBe(true);
    expect(plan.notChecked).toEqual(['what strikes the machine: bench has no nose, bed or apron described']);
  });
});

describe('orders', () => {
  test('a Z is turned over between its bends; its web must be wider than the apron is thick', () => {
    expect(planOf(on(leafBrake, section('leg 40 / up 90 / leg 30 / down 90 / leg 40'))).cost).toMatchObject({ turnOvers: 1 });
    const narrow = planOf(on(leafBrake, section('leg 40 / up 90 / leg 11 / down 90 / leg 40')));
    expect(narrow.possible).toBe(false);
    expect(narrow.blocked.flatMap(({ tried }) => tried.flatMap(({ obstacles }) => obstacles))).toContainEqual(
      expect.objectContaining({ kind: 'touch', tool: 'apron' }),
    );
  });
  test('a deep channel with lips turned out, too narrow for a thick apron, goes with a thin one', () => {
    const thick = leafBrake.replace('apron (0, 0), (12, 0), (12, -60)', 'apron (0, 0), (45, 0), (45, -60)');
    const deep = section('leg 12 / down 90 / leg 40 / up 90 / leg 45 / up 90 / leg 40 / down 90 / leg 12');
    expect(planOf(on(leafBrake, deep)).possible).toBe(true);
    const plan = planOf(on(thick, deep));
    expect(plan.possible).toBe(false);
    expect(
      plan.blocked.some(({ tried }) =>
        tried.some(({ obstacles }) => obstacles.some((one) => one.kind === 'touch' && one.tool === 'apron')),
      ),
    ).toBe(true);
  });
  test('a hat that can be bent in one order only', () => {
    // The apron has a foot 40 below its edge: only a short flange may hang in front of it, so the near brim comes before its wall. The nose is as wide as the hat's
    // crown, so the near wall comes before the far one, and the far brim, which would lie over the nose, last.
    const machine = leafBrake
      .replace(/nose .*\n/, 'nose (0, 0), (-60, 60), (-120, 60), (-120, 30), (-30, 0)\n')
      .replace(/apron .*\n/, 'apron (0, 0), (12, 0), (12, -40), (40, -40), (40, -60), (0, -60)\n');
    const { job, plan } = planned(on(machine, section('leg 29 / down 90 / leg 21 / up 90 / leg 32 / up 90 / leg 71 / down 90 / leg 33')));
    const orders: string[] = [];
    const go = (done: number, order: readonly string[]): void => {
      if (order.length === 4) orders.push(order.join(' '));
      for (const [i, { step }] of job.operations.entries())
        if ((done & (1 << i)) === 0 && (job.ways[i] ?? []).some((way) => job.tryStep(way, done) !== undefined))
          go(done | (1 << i), [...order, step]);
    };
    go(0, []);
    expect(orders).toEqual([plan.order.join(' ')]);
  });
  test('a return flange that strikes the nose in every order, and the length that frees it', () => {
    // A closed C: the last bend would have to swing 90 of web over a nose that stands 75 high inside it.
    const text = on(leafBrake, section('leg 60 / up 90 / leg 22 / up 90 / leg 60'));
    const { part } = made(text);
    const plan = withSuggestions(part, planned(text)).plan;
    expect(plan.possible).toBe(false);
    expect(plan.blocked[0]?.main).toMatchObject({ kind: 'touch', tool: 'nose' });
    expect(plan.suggestions.length).toBeGreaterThan(0);
    for (const change of plan.suggestions) {
      if (change.kind !== 'leg') throw new Error(change.kind);
      const legs = [60, 22, 60].map((length, i) => (change.id.split(', ').includes(`leg.${i + 1}`) ? change.to : length));
      expect(planOf(on(leafBrake, section(`leg ${legs[0]} / up 90 / leg ${legs[1]} / up 90 / leg ${legs[2]}`))).possible).toBe(true);
    }
  });
  test('a hem too shallow to hold, on a panel and at the end of a strip: the least depth that does', () => {
    const panel = (depth: number): string =>
      on(
        leafBrake,
        `panel a { sheet s  outline rectangle 200 by 120
  edge top { flange 25 up; hem ${depth} teardrop 2 }
}`,
      );
    const strip = (depth: number): string => on(leafBrake, section('leg 60 / up 90 / leg 40').replace(/}$/, `  hem ${depth} open 2\n}`));
    for (const [text, id] of [
      [panel, 'top.2'],
      [strip, 'last.1'],
    ] as const) {
      const { part } = made(text(7));
      const { possible, suggestions } = withSuggestions(part, planned(text(7))).plan;
      expect(possible).toBe(false);
      const deeper = suggestions.find((change) => change.kind === 'hem');
      if (deeper?.kind !== 'hem') throw new Error(JSON.stringify(suggestions));
      expect(deeper).toMatchObject({ id, from: 7 });
      expect(planOf(text(deeper.to)).possible).toBe(true);
      expect(planOf(text(deeper.to - 0.5)).possible).toBe(false);
    }
  });
  test('the last wall of a box wants the fingers', () => {
    const tray = `panel a { sheet s  outline rectangle 200 by 150
  edge top, bottom, left, right { flange 25 up }
}`;
    const onLeaf = planOf(on(leafBrake, tray));
    expect(onLeaf.possible).toBe(false);
    expect(onLeaf.reached).toBe(3);
    expect(onLeaf.blocked[0]?.main).toMatchObject({ kind: 'beside', needs: 1000 });
    const boxed = planOf(on(boxBrake, tray));
    expect(boxed.possible).toBe(true);
    // Between the standing walls: 146 between tangents, and no finger may reach past them.
    for (const step of boxed.steps.slice(2)) {
      const { fingers } = step;
      const sum = fingers?.widths.reduce((a, b) => a + b, 0) ?? 0;
      expect(sum).toBeLessThan(fingers?.room ?? 0);
    }
    const { part } = made(on(leafBrake, tray));
    expect(withSuggestions(part, planned(on(leafBrake, tray))).plan.suggestions).toEqual([{ kind: 'fingers' }]);
  });
  test('a box deeper than its fingers reach', () => {
    const deep = `panel a { sheet s  outline rectangle 200 by 150
  edge top, bottom, left, right { flange 95 up }
}`;
    expect(planOf(on(boxBrake, deep)).possible).toBe(false);
    const bare = planOf(on(`brake bench { fingers 25, 50, 75, 100, 150, 200, 300  ${rated}  depth 90 }\n`, deep));
    expect(bare.possible).toBe(false);
    expect(bare.blocked.flatMap(({ tried }) => tried.flatMap(({ obstacles }) => obstacles.map(({ kind }) => kind)))).toContain('depth');
  });
  test('a part that hangs off the end of the brake needs no fingers', () => {
    const plan = planOf(
      on(
        leafBrake,
        `panel a { sheet s  outline rectangle 200 by 150
  edge left { flange 25 up }
  edge top { flange 25 up }
}`,
      ),
    );
    expect(plan.possible).toBe(true);
    expect(plan.steps.some(({ hangsOff }) => hangsOff === 'left' || hangsOff === 'right')).toBe(true);
  });
  test('a hem is turned well past square, then pressed', () => {
    const plan = planOf(
      on(
        leafBrake,
        `panel a { sheet s  outline rectangle 200 by 150
  edge top { hem 10 closed up }
}`,
      ),
    );
    expect(plan.steps[0]).toMatchObject({ make: 'hem', flatten: true });
    expect(((plan.steps[0]?.setAngle ?? 0) * 180) / Math.PI).toBeCloseTo(130, 6);
  });
});

describe('pictures', () => {
  test('a step: nothing strikes at the set angle; the leaf’s slab stands square to the clamped one at 90°', () => {
    const picture = sectionPicture(planned(on(leafBrake, section('leg 40 / up 90 / leg 30'))), 0, Math.PI / 2);
    expect(picture?.machine.map(({ tool }) => tool)).toEqual(['nose', 'bed', 'apron']);
    expect(picture?.part.every(({ strikes }) => strikes === undefined)).toBe(true);
    const leaf = picture?.part.find(({ half }) => half === 'leaf');
    // Inside face one radius in front of the tangent, outside face a thickness further.
    expect(Math.min(...(leaf?.outline.map(({ x }) => x) ?? []))).toBeCloseTo(0, 1);
    expect(Math.max(...(leaf?.outline.map(({ x }) => x) ?? []))).toBeCloseTo(1, 1);
  });
  test('a blocked bend: what strikes is marked', () => {
    const stuck = planned(on(leafBrake, section('leg 60 / up 90 / leg 22 / up 90 / leg 60')));
    const clamped = stuck.plan.blocked[0]?.tried[0]?.clamped ?? 'parent';
    expect(blockedPicture(stuck, 0, clamped)?.part.some(({ strikes }) => strikes === 'nose')).toBe(true);
  });
});

describe('hems', () => {
  test('of a section are folded before the legs they stand on are turned up', () => {
    const plan = planOf(
      `${metal}${boxBrake}section a { sheet s  length 200\n hem 8 open 2\n leg 20\n turn up 90\n leg 40\n turn up 90\n leg 20\n hem 8 open 2\n}`,
    );
    const order = plan.steps.map(({ bends }) => bends.join());
    expect(plan.possible).toBe(true);
    expect(order.indexOf('first.1')).toBeLessThan(order.indexOf('turn.1'));
    expect(order.indexOf('last.1')).toBeLessThan(order.indexOf('turn.2'));
  });
  test('folded twice: the inner fold on the brake, then the outer one by hand', () => {
    const plan = planOf(`${metal}${boxBrake}panel a { sheet s  outline rectangle 200 by 100\n edge top { flange 20 up  hem 10 double }\n}`);
    expect(plan.steps.map(({ make, bends }) => `${make} ${bends.join()}`)).toEqual(['hem top.2.inner', 'hand top.2', 'brake top.1']);
  });
});

describe('as data for programs', () => {
  test('turns are in degrees, lengths in mm; how it gets in and out is told', () => {
    const report = bendingReport(planOf(on(leafBrake, section('leg 40 / up 90 / leg 30 / down 90 / leg 40'))));
    expect(report.cost).toMatchObject({ turn_overs: 1, rotations: 0, handling_mm: expect.any(Number) });
    expect(report.steps.map(({ turn_deg, into, out }) => ({ turn_deg, into, out }))).toEqual([
      { turn_deg: 90, into: 'straight', out: 'straight' },
      { turn_deg: 90, into: 'straight', out: 'straight' },
    ]);
    const sharp = bendingReport(planOf(on(leafBrake, section('leg 40 / up 150 / leg 30'))));
    expect(sharp.blocked[0]?.tried[0]?.obstacles).toContainEqual({ kind: 'turn', greatest: 140, wants: expect.closeTo(150, 0) });
    const closed = bendingReport(planOf(on(leafBrake, section('leg 60 / up 90 / leg 22 / up 90 / leg 60'))));
    const touches = closed.blocked.flatMap(({ tried }) =>
      tried.flatMap(({ obstacles }) => obstacles.filter(({ kind }) => kind === 'touch')),
    );
    expect(touches.length).toBeGreaterThan(0);
    // A turn of the leaf in radians would stay below two.
    expect(Math.max(...touches.map(({ at }) => Number(at)))).toBeGreaterThan(10);
  });
});
