import { describe, expect, test } from 'vitest';
import { type Clock, createCoalescer } from '../../client/coalesce.js';

/** A clock that only moves when told, so that a test never waits. */
const handClock = () => {
  let time = 0;
  let timers: { at: number; action: () => void }[] = [];
  const clock: Clock = {
    now: () => time,
    later: (ms, action) => {
      const timer = { at: time + ms, action };
      timers = [...timers, timer];
      return () => {
        timers = timers.filter((each) => each !== timer);
      };
    },
  };
  const settle = async (): Promise<void> => {
    for (let turn = 0; turn < 5; turn++) await Promise.resolve();
  };
  const pass = async (ms: number): Promise<void> => {
    await settle();
    time += ms;
    const due = timers.filter((each) => each.at <= time);
    timers = timers.filter((each) => each.at > time);
    for (const { action } of due) action();
    await settle();
  };
  return { clock, pass, settle, work: (ms: number) => (time += ms) };
};

describe('drawing while someone types', () => {
  test('the first change draws at once', () => {
    const { clock } = handClock();
    const drawn: number[] = [];
    createCoalescer<number>((value) => void drawn.push(value), clock).push(1);
    expect(drawn).toEqual([1]);
  });

  test('of a burst only the first and the last are drawn', async () => {
    const { clock, pass } = handClock();
    const drawn: number[] = [];
    const coalescer = createCoalescer<number>((value) => void drawn.push(value), clock);
    for (const value of [1, 2, 3, 4]) coalescer.push(value);
    await pass(15);
    expect(drawn).toEqual([1]);
    await pass(1);
    expect(drawn).toEqual([1, 4]);
    await pass(1000);
    expect(drawn).toEqual([1, 4]);
  });

  test('a slow drawing is followed by a pause as long as itself', async () => {
    const { clock, pass, work } = handClock();
    const drawn: number[] = [];
    const coalescer = createCoalescer<number>((value) => {
      work(80);
      drawn.push(value);
    }, clock);
    coalescer.push(1);
    coalescer.push(2);
    await pass(79);
    expect(drawn).toEqual([1]);
    await pass(1);
    expect(drawn).toEqual([1, 2]);
  });

  test('a drawing that fails is reported and the next one is still drawn', async () => {
    const { clock, pass } = handClock();
    const drawn: number[] = [];
    const failures: unknown[] = [];
    const coalescer = createCoalescer<number>(
      async (value) => {
        if (value === 1) throw new Error('no answer');
        drawn.push(value);
      },
      clock,
      (reason) => failures.push(reason),
    );
    coalescer.push(1);
    coalescer.push(2);
    await pass(16);
    expect(failures).toEqual([new Error('no answer')]);
    expect(drawn).toEqual([2]);
  });

  test('nothing waits while an answer is under way, and nothing comes after the end', async () => {
    const { clock, pass, settle } = handClock();
    const asked: number[] = [];
    let answer: () => void = () => {};
    const coalescer = createCoalescer<number>((value) => {
      asked.push(value);
      return new Promise<void>((resolve) => {
        answer = resolve;
      });
    }, clock);
    coalescer.push(1);
    coalescer.push(2);
    await pass(5000);
    expect(asked).toEqual([1]);
    coalescer.dispose();
    answer();
    await settle();
    await pass(5000);
    expect(asked).toEqual([1]);
  });
});
