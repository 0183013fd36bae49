/** Where the coalescer gets its time from; a test gives it a clock of its own. */
export interface Clock {
  /** Milliseconds from any fixed moment. */
  now(): number;
  /** Runs `action` after `ms` milliseconds; the result cancels it. */
  later(ms: number, action: () => void): () => void;
}

/** The clock of the editor and of the page. */
export const wallClock: Clock = {
  now: () => performance.now(),
  later: (ms, action) => {
    const timer = setTimeout(action, ms);
    return () => clearTimeout(timer);
  },
};

export interface Coalescer<T> {
  /** Offers a value. It is drawn at once when nothing is under way, otherwise it replaces any value that waits. */
  push(value: T): void;
  /** Drops what waits; nothing is drawn after this. */
  dispose(): void;
}

/** Shortest and longest pause between two drawings, ms. One frame of a 60 Hz screen; a quarter of a second still feels live. */
const SHORTEST_PAUSE = 16;
const LONGEST_PAUSE = 250;

/**
 * Draws the first of a burst at once and of the rest only the latest: the pause grows with the time a drawing takes, so that
 * a big part never keeps the program busier than half the time. The last value offered is always drawn.
 *
 * @param draw     draws one value; what it throws or rejects goes to `failed` and does not stop later drawings
 */
export const createCoalescer = <T>(
  draw: (value: T) => void | Promise<void>,
  clock: Clock,
  failed: (reason: unknown) => void = () => {},
): Coalescer<T> => {
  let waiting: { readonly value: T } | undefined;
  let busy = false;
  let disposed = false;
  let cancelPause: (() => void) | undefined;

  const begin = async (value: T): Promise<void> => {
    busy = true;
    const started = clock.now();
    try {
      await draw(value);
    } catch (reason) {
      failed(reason);
    }
    if (disposed) return;
    const pause = Math.min(LONGEST_PAUSE, Math.max(SHORTEST_PAUSE, clock.now() - started));
    cancelPause = clock.later(pause, () => {
      cancelPause = undefined;
      busy = false;
      const next = waiting;
      waiting = undefined;
      if (next) void begin(next.value);
    });
  };

  return {
    push: (value) => {
      if (disposed) return;
      if (busy) waiting = { value };
      else void begin(value);
    },
    dispose: () => {
      disposed = true;
      waiting = undefined;
      cancelPause?.();
    },
  };
};
