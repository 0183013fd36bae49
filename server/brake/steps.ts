/** Work that is done a little at a time: it pauses now and then, so that something more urgent can come in between, and ends with its answer. */
export type InSteps<T> = Generator<undefined, T>;

export const toTheEnd = <T>(steps: Generator<unknown, T>): T => {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
};

/** Answers of a function of a thing and a set of operations done, of which only those in `moves` count. */
export const remembered = <K extends { readonly moves: number }, T>(answer: (of: K, done: number) => T): ((of: K, done: number) => T) => {
  const known = new Map<K, Map<number, T>>();
  return (of, done) => {
    let states = known.get(of);
    if (states === undefined) {
      states = new Map();
      known.set(of, states);
    }
    const key = done & of.moves;
    let made = states.get(key);
    if (made === undefined) {
      made = answer(of, done);
      states.set(key, made);
    }
    return made;
  };
};
