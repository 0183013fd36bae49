/**
 * An order of work with the fewest set-ups. Every job may be done in one or several set-ups; some have to wait for others. In a set-up, whatever can be done is
 * done at once, since doing it there costs nothing; so only the order of set-ups is searched, cheapest first, and the answer is the best there is.
 */

export interface SetUp {
  readonly die: string;
  /** Which way round the pair of rolls is fitted; changing it is as much work as another die. */
  readonly turned: boolean;
  /** Which face lies up. */
  readonly faceUp: boolean;
  readonly roller: string;
}
export interface OrderJob {
  /** Ways to do it, the preferred first. */
  readonly ways: readonly SetUp[];
  /** Indices of jobs that come before. */
  readonly after: readonly number[];
}
export interface Ordered {
  readonly job: number;
  readonly way: number;
}
export interface Order {
  readonly jobs: readonly Ordered[];
  readonly dieChanges: number;
  readonly turnOvers: number;
}

const keyOf = (setUp: SetUp): string => `${setUp.roller}|${setUp.die}|${setUp.turned ? 1 : 0}|${setUp.faceUp ? 1 : 0}`;

export interface Cost {
  readonly dieChanges: number;
  readonly turnOvers: number;
}
/** From one set-up to another. Fitting the first die is no change. */
export const changeBetween = (a: SetUp | undefined, b: SetUp): Cost =>
  a === undefined
    ? { dieChanges: 0, turnOvers: 0 }
    : {
        dieChanges: a.die === b.die && a.turned === b.turned && a.roller === b.roller ? 0 : 1,
        turnOvers: a.faceUp === b.faceUp ? 0 : 1,
      };

interface State {
  readonly done: Uint8Array;
  readonly at: SetUp | undefined;
  readonly sequence: readonly Ordered[];
  readonly dieChanges: number;
  readonly turnOvers: number;
}
/** Die changes weigh before turn-overs: a pair of rolls is bolted on, a sheet only turned. */
const weight = ({ dieChanges, turnOvers }: Cost): number => dieChanges * 1000 + turnOvers;

/** More states than this and the search takes the best set-up at each step instead. */
const MOST_STATES = 4000;

export const bestOrder = (jobs: readonly OrderJob[]): Order => {
  const kinds: SetUp[] = [];
  const numbers = new Map<string, number>();
  // Ways as numbers of set-ups, so that the search compares numbers only.
  const ways = jobs.map((job) =>
    job.ways.map((way) => {
      const key = keyOf(way);
      const known = numbers.get(key) ?? kinds.push(way) - 1;
      numbers.set(key, known);
      return known;
    }),
  );
  const open: State[] = [{ done: new Uint8Array(jobs.length), at: undefined, sequence: [], dieChanges: 0, turnOvers: 0 }];
  const seen = new Map<string, number>();
  let visited = 0;
  while (open.length > 0) {
    let cheapest = 0;
    for (let i = 1; i < open.length; i++) {
      const a = open[i] as State;
      const b = open[cheapest] as State;
      const less = weight(a) - weight(b);
      if (less < 0 || (less === 0 && a.sequence.length > b.sequence.length)) cheapest = i;
    }
    const state = open[cheapest] as State;
    open.splice(visited++ < MOST_STATES ? cheapest : 0, visited <= MOST_STATES ? 1 : open.length);
    if (state.sequence.length === jobs.length) return { jobs: state.sequence, dieChanges: state.dieChanges, turnOvers: state.turnOvers };
    kinds.forEach((kind, number) => {
      const next = workedIn(jobs, ways, state, kind, number);
      if (next === undefined) return;
      const key = kinds.length === 1 ? '' : `${next.done.join('')}${number}`;
      const known = seen.get(key);
      if (known !== undefined && known <= weight(next)) return;
      seen.set(key, weight(next));
      open.push(next);
    });
  }
  return { jobs: [], dieChanges: 0, turnOvers: 0 };
};

/** Everything that can be done in a set-up, done; undefined when that is nothing. */
const workedIn = (
  jobs: readonly OrderJob[],
  ways: readonly (readonly number[])[],
  state: State,
  kind: SetUp,
  number: number,
): State | undefined => {
  const done = Uint8Array.from(state.done);
  const sequence = [...state.sequence];
  for (let more = true; more; ) {
    more = false;
    for (let job = 0; job < jobs.length; job++) {
      if (done[job] === 1) continue;
      const way = (ways[job] as readonly number[]).indexOf(number);
      if (way < 0 || (jobs[job] as OrderJob).after.some((before) => done[before] !== 1)) continue;
      done[job] = 1;
      sequence.push({ job, way });
      more = true;
    }
  }
  if (sequence.length === state.sequence.length) return undefined;
  const change = changeBetween(state.at, kind);
  return {
    done,
    at: kind,
    sequence,
    dieChanges: state.dieChanges + change.dieChanges,
    turnOvers: state.turnOvers + change.turnOvers,
  };
};
