/** A queue that gives the one that comes before all others. */
export interface Queue<T> {
  readonly add: (one: T) => void;
  readonly take: () => T | undefined;
}

/** @param before whether the first comes before the second */
export const queueOf = <T>(before: (a: T, b: T) => boolean): Queue<T> => {
  const heap: T[] = [];
  return {
    add: (one) => {
      let at = heap.push(one) - 1;
      while (at > 0) {
        const above = (at - 1) >> 1;
        const other = heap[above] as T;
        if (!before(one, other)) break;
        heap[at] = other;
        at = above;
      }
      heap[at] = one;
    },
    take: () => {
      const first = heap[0];
      const one = heap.pop();
      if (one === undefined || heap.length === 0) return first;
      let at = 0;
      for (let below = 1; below < heap.length; below = 2 * at + 1) {
        if (below + 1 < heap.length && before(heap[below + 1] as T, heap[below] as T)) below++;
        const other = heap[below] as T;
        if (!before(other, one)) break;
        heap[at] = other;
        at = below;
      }
      heap[at] = one;
      return first;
    },
  };
};
