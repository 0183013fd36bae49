/** Work that is done a little at a time: it pauses now and then, so that something more urgent can come in between, and ends with its answer. */
export type InSteps<T> = Generator<undefined, T>;

export const toTheEnd = <T>(steps: InSteps<T>): T => {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
};
