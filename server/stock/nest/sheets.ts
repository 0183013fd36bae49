/** Filling sheets: offcuts first, then as few and as cheap whole sheets as can be, and what is left over in one piece. */
import { type Laid, lay } from './greedy.js';
import { type Item, newLayout, type Room } from './layout.js';
import type { Shape } from './nofit.js';
import { type Random, shuffled } from './random.js';
import { separate } from './separate.js';
import { laidFrom, placesFrom, reachOf, shortenStrip } from './strip.js';
import type { Field, Instance, Task } from './task.js';

/** One sheet with the instances on it and where each lies. */
export interface Loaded {
  readonly field: number;
  readonly members: readonly number[];
  readonly laid: readonly Laid[];
}
export interface Loading {
  readonly sheets: readonly Loaded[];
  /** Instances for which no sheet was left. */
  readonly left: readonly number[];
}

const roomOf = (task: Task, members: readonly number[]): number =>
  members.reduce((sum, i) => sum + (task.instances[i] as Instance).body, 0);
const fieldOf = (task: Task, sheet: Loaded): Field => task.fields[sheet.field] as Field;
const areaOf = (field: Field): number => field.width * field.height;

/** Share of a sheet left free in one rectangle beyond everything on it. */
const freeShare = (task: Task, sheet: Loaded): number => {
  const field = fieldOf(task, sheet);
  const places = placesFrom(sheet.laid);
  const reach = (axis: 'x' | 'y'): number => reachOf(task.bank.noFits, places, axis);
  return Math.max(1 - reach('x') / field.width, 1 - reach('y') / field.height);
};

/** Less is better, the first that differs decides: pieces left over, cost of whole sheets, how unevenly full, how scattered the emptiest is. */
const worth = (task: Task, loading: Loading): readonly number[] => {
  const cost = loading.sheets.reduce((sum, sheet) => sum + fieldOf(task, sheet).cost, 0);
  const evenness = loading.sheets.reduce((sum, sheet) => {
    const field = fieldOf(task, sheet);
    const share = roomOf(task, sheet.members) / areaOf(field);
    return sum - (field.cost > 0 ? 1 : 1.5) * share * share;
  }, 0);
  const free = loading.sheets.reduce((sum, sheet) => sum + freeShare(task, sheet) * areaOf(fieldOf(task, sheet)), 0);
  return [roomOf(task, loading.left), cost, evenness, -free];
};

export const isBetter = (task: Task, a: Loading, b: Loading): boolean => {
  const [left, right] = [worth(task, a), worth(task, b)];
  for (let i = 0; i < left.length; i++) {
    const [x, y] = [left[i] as number, right[i] as number];
    if (Math.abs(x - y) > 1e-9 * Math.max(1, Math.abs(x), Math.abs(y))) return x < y;
  }
  return false;
};

/** Lays what fits of `order` on a fresh sheet; yields after each piece. */
const fill = function* (task: Task, index: number, order: readonly number[]): Generator<undefined, { loaded: Loaded; rest: number[] }> {
  const field = task.fields[index] as Field;
  const toward = field.width >= field.height ? 'x' : 'y';
  const [members, laid, rest]: [number[], Laid[], number[]] = [[], [], []];
  const full = new Set<number>();
  const begun = new Map<number, number>();
  for (const i of order) {
    const { piece } = task.instances[i] as Instance;
    const { shapes } = field.items[i] as Item;
    const found = full.has(piece) ? undefined : lay(task.bank.noFits, laid, shapes, field.width, field.height, toward, begun);
    if (found === undefined) {
      // What did not fit once does not fit later on a fuller sheet.
      full.add(piece);
      rest.push(i);
    } else {
      members.push(i);
      laid.push(found);
      yield undefined;
    }
  }
  return { loaded: { field: index, members, laid }, rest };
};

/** All instances laid in order: into every offcut, smallest first, then sheet after sheet of the kind that carries most for its cost. */
export const loadInOrder = function* (task: Task, order: readonly number[]): Generator<undefined, Loading> {
  const sheets: Loaded[] = [];
  const counts = task.fields.map((field) => field.count);
  let rest = [...order];
  const offcuts = task.fields.flatMap((field, i) => (field.sheet.offcut === true ? [i] : []));
  offcuts.sort((a, b) => areaOf(task.fields[a] as Field) - areaOf(task.fields[b] as Field));
  for (const index of offcuts) {
    for (let k = 0; k < (counts[index] as number) && rest.length > 0; k++) {
      const filled = yield* fill(task, index, rest);
      if (filled.loaded.members.length === 0) break;
      sheets.push(filled.loaded);
      rest = filled.rest;
    }
  }
  while (rest.length > 0) {
    let best: { loaded: Loaded; rest: number[] } | undefined;
    let bestRate = Number.POSITIVE_INFINITY;
    for (const [index, field] of task.fields.entries()) {
      if (field.sheet.offcut === true || (counts[index] as number) <= 0) continue;
      const filled = yield* fill(task, index, rest);
      if (filled.loaded.members.length === 0) continue;
      // A sheet that takes all that is left is weighed whole: nothing more will come onto it.
      const rate = field.cost / roomOf(task, filled.loaded.members);
      if (rate < bestRate) {
        bestRate = rate;
        best = filled;
      }
    }
    if (best === undefined) break;
    counts[best.loaded.field] = (counts[best.loaded.field] as number) - 1;
    sheets.push(best.loaded);
    rest = best.rest;
  }
  return { sheets, left: rest };
};

const effort = { tries: 8, patience: 40 };

/** Finds room for one more instance on a sheet by parting what overlaps; undefined when it does not succeed. */
const squeezeIn = function* (task: Task, sheet: Loaded, extra: number, random: Random): Generator<undefined, Loaded | undefined> {
  const field = fieldOf(task, sheet);
  const { noFits } = task.bank;
  const members = [...sheet.members, extra];
  const shapes = (field.items[extra] as Item).shapes;
  if (shapes.length === 0 || roomOf(task, members) > areaOf(field)) return undefined;
  const easy = lay(noFits, sheet.laid, shapes, field.width, field.height, field.width >= field.height ? 'x' : 'y');
  if (easy !== undefined) return { field: sheet.field, members, laid: [...sheet.laid, easy] };
  const [found] = (yield* spread(task, [sheet], [extra], random)) ?? [];
  return found;
};

/** Finds room for more instances on sheets by parting what overlaps, pieces going from sheet to sheet; undefined when it does not succeed. */
const spread = function* (
  task: Task,
  sheets: readonly Loaded[],
  extra: readonly number[],
  random: Random,
): Generator<undefined, readonly Loaded[] | undefined> {
  const { noFits } = task.bank;
  const members = [...sheets.flatMap((sheet) => sheet.members), ...extra];
  const apart = 3 * Math.max(...noFits.shapes.map((shape) => shape.width));
  const rooms: Room[] = [];
  let left = 0;
  for (const sheet of sheets) {
    const { width, height, items } = fieldOf(task, sheet);
    rooms.push({ left, width, height, items: members.map((i) => items[i] as Item) });
    left += width + apart;
  }
  const lying = sheets.flatMap((sheet, r) =>
    sheet.laid.map((at) => ({ room: r, shape: at.shape, x: at.x + (rooms[r] as Room).left, y: at.y })),
  );
  const anywhere = extra.map((_, k) => {
    const choices = rooms.flatMap((room, r) => ((room.items[lying.length + k] as Item).shapes.length > 0 ? [r] : []));
    const r = choices[random.below(choices.length)] ?? 0;
    const room = rooms[r] as Room;
    const { shapes } = room.items[lying.length + k] as Item;
    const shape = shapes[random.below(shapes.length)] ?? 0;
    const { width, height } = noFits.shapes[shape] as Shape;
    return {
      room: r,
      shape,
      x: room.left + random.next() * (room.width - width),
      y: random.next() * (room.height - height),
      homeless: choices.length === 0,
    };
  });
  if (anywhere.some(({ homeless }) => homeless)) return undefined;
  const all = [...lying, ...anywhere];
  const layout = newLayout(
    noFits,
    rooms,
    placesFrom(all),
    all.map(({ room }) => room),
    random,
  );
  const done = yield* separate(layout, effort);
  if (!done) return undefined;
  return sheets.map((sheet, r): Loaded => {
    const here = members.flatMap((_, i) => (layout.room[i] === r ? [i] : []));
    const laid = here.map(
      (i): Laid => ({
        shape: layout.shape[i] as number,
        x: (layout.x[i] as number) - (rooms[r] as Room).left,
        y: layout.y[i] as number,
      }),
    );
    return { field: sheet.field, members: here.map((i) => members[i] as number), laid };
  });
};

const without = (sheet: Loaded, instance: number): Loaded => {
  const at = sheet.members.indexOf(instance);
  return { field: sheet.field, members: sheet.members.filter((_, i) => i !== at), laid: sheet.laid.filter((_, i) => i !== at) };
};

/** Moves pieces from the emptiest whole sheet, and pieces left over, onto the others, as far as they can be squeezed in. */
export const clearEmptiest = function* (task: Task, loading: Loading, random: Random): Generator<undefined, Loading> {
  const whole = loading.sheets.filter((sheet) => fieldOf(task, sheet).cost > 0);
  const share = (sheet: Loaded): number => roomOf(task, sheet.members) / areaOf(fieldOf(task, sheet));
  let victim = [...whole].sort((a, b) => share(a) - share(b))[0];
  let others = loading.sheets.filter((sheet) => sheet !== victim);
  let left = [...loading.left];
  for (const instance of shuffled([...left, ...(victim?.members ?? [])], random)) {
    const homes = left.includes(instance) && victim !== undefined ? [victim, ...others] : others;
    for (const home of shuffled(homes, random)) {
      const fuller = yield* squeezeIn(task, home, instance, random);
      if (fuller === undefined) continue;
      if (home === victim) victim = fuller;
      else others = others.map((sheet) => (sheet === home ? fuller : sheet));
      if (left.includes(instance)) left = left.filter((i) => i !== instance);
      else if (victim !== undefined) victim = without(victim, instance);
      break;
    }
  }
  if (victim === undefined || victim.members.length === 0) return { sheets: others, left };
  // One by one they found no room: the others make some, all together.
  const area = others.reduce((sum, sheet) => sum + areaOf(fieldOf(task, sheet)), 0);
  const needed = roomOf(task, [...victim.members, ...others.flatMap((sheet) => sheet.members)]);
  const all = needed < area ? yield* spread(task, others, victim.members, random) : undefined;
  return { sheets: all === undefined ? [...others, victim] : all.filter((sheet) => sheet.members.length > 0), left };
};

/** Tries a cheaper kind of sheet for what lies on one. */
export const tradeDown = function* (task: Task, loading: Loading, random: Random): Generator<undefined, Loading> {
  const used = task.fields.map((_, index) => loading.sheets.filter((sheet) => sheet.field === index).length);
  for (const sheet of shuffled(loading.sheets, random)) {
    const field = fieldOf(task, sheet);
    for (const [index, other] of task.fields.entries()) {
      if (other.cost >= field.cost || (used[index] as number) >= other.count) continue;
      if (roomOf(task, sheet.members) > areaOf(other) || sheet.members.some((i) => (other.items[i] as Item).shapes.length === 0)) continue;
      const order = [...sheet.members].sort((a, b) => (task.instances[b] as Instance).room - (task.instances[a] as Instance).room);
      const filled = yield* fill(task, index, order);
      let moved: Loaded | undefined = filled.loaded;
      for (const instance of filled.rest) moved = moved === undefined ? undefined : yield* squeezeIn(task, moved, instance, random);
      if (moved !== undefined) {
        const kept = moved;
        return { sheets: loading.sheets.map((old) => (old === sheet ? kept : old)), left: loading.left };
      }
    }
  }
  return loading;
};

/** Pushes the pieces of the emptiest sheet together along one axis, so that what is free is free in one piece. */
export const compactEmptiest = function* (task: Task, loading: Loading, axis: 'x' | 'y', random: Random): Generator<undefined, Loading> {
  const share = (sheet: Loaded): number => roomOf(task, sheet.members) / areaOf(fieldOf(task, sheet));
  const sheet = [...loading.sheets].sort((a, b) => share(a) - share(b))[0];
  if (sheet === undefined) return loading;
  const field = fieldOf(task, sheet);
  const items = sheet.members.map((i) => field.items[i] as Item);
  const across = axis === 'x' ? field.height : field.width;
  const places = placesFrom(sheet.laid);
  const start = { places, length: reachOf(task.bank.noFits, places, axis) };
  const least = roomOf(task, sheet.members) / across;
  const shortening = shortenStrip(task.bank.noFits, items, start, { across, least, axis, failures: 4 }, effort, random);
  let step = shortening.next();
  while (step.done !== true) {
    yield undefined;
    step = shortening.next();
  }
  const best = step.value;
  if (best === start) return loading;
  const laid = laidFrom(best.places);
  return { sheets: loading.sheets.map((old) => (old === sheet ? { ...sheet, laid } : old)), left: loading.left };
};
