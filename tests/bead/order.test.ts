/** Set-ups in order: the fewest changes of rolls, then the fewest turn-overs. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestOrder, changeBetween, type OrderJob, type SetUp } from '../../server/bead/order.js';
import { byK, rectangle, sheet } from '../blank/build.js';
import { runs } from '../runs.js';
import { bead, beaded, border, halfRound, line, roller, sourced, stepDie, work } from './build.js';

const tray = rectangle(600, 400, { sheet: sheet(1, 1, byK(0.42)) });
const schedule = (...args: Parameters<typeof beaded>) => work(beaded(...args)).result;

/** Every order that respects what waits for what, and every way of each job. */
const byTrying = (jobs: readonly OrderJob[]): number => {
  let best = Number.POSITIVE_INFINITY;
  const go = (done: readonly number[], at: SetUp | undefined, cost: number): void => {
    if (cost >= best) return;
    if (done.length === jobs.length) {
      best = cost;
      return;
    }
    jobs.forEach((job, i) => {
      if (done.includes(i) || job.after.some((before) => !done.includes(before))) return;
      for (const way of job.ways) {
        const { dieChanges, turnOvers } = changeBetween(at, way);
        go([...done, i], way, cost + 1000 * dieChanges + turnOvers);
      }
    });
  };
  go([], undefined, 0);
  return best;
};

const setUps = fc.record({
  die: fc.constantFrom('round', 'step'),
  turned: fc.boolean(),
  faceUp: fc.boolean(),
  roller: fc.constant('hand_roller'),
});
const someJobs = fc.array(
  fc.record({ ways: fc.array(setUps, { minLength: 1, maxLength: 2 }), waits: fc.array(fc.nat(4), { maxLength: 2 }) }),
  {
    minLength: 1,
    maxLength: 5,
  },
);

describe('the order', () => {
  it('costs no more than the best of all orders tried one by one', () => {
    fc.assert(
      fc.property(someJobs, (sketch) => {
        const jobs = sketch.map(({ ways, waits }, i): OrderJob => ({ ways, after: [...new Set(waits.filter((before) => before < i))] }));
        const found = bestOrder(jobs);
        expect(found.dieChanges * 1000 + found.turnOvers).toBe(byTrying(jobs));
        const place = (job: number): number => found.jobs.findIndex((ordered) => ordered.job === job);
        jobs.forEach((job, i) => {
          for (const before of job.after) expect(place(before)).toBeLessThan(place(i));
        });
        expect(found.jobs.map((ordered) => ordered.job).sort()).toEqual(jobs.map((_, i) => i));
      }),
      { numRuns: runs(300) },
    );
  });
});

describe('the schedule', () => {
  const down = { direction: 'down' as const };
  it('rolls what lies inside a border before the border, and all of one side before turning the sheet', () => {
    const { schedule: rows, setUps: counted } = schedule(
      tray,
      [
        bead('border', border(40, 25)),
        bead('rib.1', line(200, 100, 200, 300)),
        bead('rib.2', line(400, 100, 400, 300), down),
        bead('rib.3', line(300, 100, 300, 300)),
      ],
      [roller(320, 60)],
    );
    expect(rows.map((row) => row.bead)).toEqual(['rib.2', 'rib.3', 'rib.1', 'border']);
    expect(rows.map((row) => row.lies)).toEqual(['face down', 'face up', 'face up', 'face up']);
    expect(rows.map((row) => row.turnsOver)).toEqual([false, true, false, false]);
    expect(counted).toEqual({ dieChanges: 0, turnOvers: 1 });
  });

  it('says the depths of the passes and the end that goes in first', () => {
    const { schedule: rows } = schedule(tray, [bead('rib', line(100, 100, 500, 100))], [roller(150, 60)]);
    // The frame stands over the lower edge, on the right of the bead as drawn: seen from above with the sheet running away it is on the right hand when the dies
    // come back along the bead from its finish.
    expect(rows[0]).toMatchObject({
      step: 1,
      frame: 'right',
      from: 'finish',
      fromPoint: { x: 500, y: 100 },
      passes: [1.5, 3],
      lies: 'face up',
      roller: 'hand_roller',
    });
  });

  it('turns the rolls over once for a band both of whose steps are rolled from one side', () => {
    const band = bead('raised', line(100, 60, 500, 60), { kind: 'band', width: 60, die: sourced(stepDie()) });
    const { schedule: rows, setUps: counted } = schedule(tray, [band], [roller(150, 60)]);
    // Only the lower edge is within 150: the upper step has the land between itself and the frame.
    expect(rows.map((row) => [row.track, row.dies]).sort()).toEqual([
      ['raised.1', 'turned over'],
      ['raised.2', 'as fitted'],
    ]);
    expect(counted.dieChanges).toBe(1);
  });

  it('spares turning the rolls over where the other step can be rolled from the far side', () => {
    const band = bead('raised', line(100, 200, 500, 200), { kind: 'band', width: 60, die: sourced(stepDie()) });
    const { schedule: rows, setUps: counted } = schedule(tray, [band], [roller(300, 60)]);
    expect(counted.dieChanges).toBe(0);
    expect(new Set(rows.map((row) => row.dies)).size).toBe(1);
  });

  it('keeps beads of one die together', () => {
    const vee = sourced(halfRound({ name: 'vee_8', shape: 'vee', width: 8 }));
    const { setUps: counted } = schedule(
      tray,
      [1, 2, 3, 4].map((i) => bead(`rib.${i}`, line(100 * i, 100, 100 * i, 300), i % 2 === 0 ? { die: vee } : {})),
      [roller(400, 60)],
    );
    expect(counted.dieChanges).toBe(1);
  });
});
