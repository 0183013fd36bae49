/** What stops a bend in one state, told in full: the slow road, taken only for bends that can't be made. */
import type { HalfName, Meeting } from './clash.js';
import { CLOSENESS, halfOf } from './clear.js';
import { reachIn } from './hold.js';
import { alongOf, type Job, type Way } from './job.js';
import { seenAlong } from './section.js';
import { LENGTH_TOLERANCE } from './tools.js';
import type { Obstacle } from './types.js';

const HALVES: readonly HalfName[] = ['clamped', 'leaf'];

export const obstaclesOf = (job: Job, way: Way, done: number): readonly Obstacle[] => {
  const { brake } = job;
  const { hold } = way;
  const all: Obstacle[] = [...way.always];
  const least = brake.leastFlange;
  if (least !== undefined) {
    for (const name of HALVES) {
      const reach = reachIn(halfOf(hold, name), done);
      if (reach < least - LENGTH_TOLERANCE) all.push({ kind: 'grip', where: name === 'leaf' ? 'leaf' : 'clamp', least, reach });
    }
  }
  all.push(...HALVES.flatMap((name) => touchesOf(way, name, done)));
  const [clamped, leaf] = [way.clearance.side('clamped', done), way.clearance.side('leaf', done)];
  if (!clamped.struck && !leaf.struck) {
    const room = job.room(way, clamped, leaf);
    const bend = hold.ends[1] - hold.ends[0];
    if (!room.fits) all.push({ kind: 'beside', ...besideOf(way, done), clear: room.free.to - room.free.from, needs: brake.length ?? bend });
    else if (!room.fingersFit) {
      const best = room.fingers?.widths.reduce((sum, width) => sum + width, 0) ?? 0;
      all.push({ kind: 'fingers', room: room.fingerRoom, bend, best, gap: room.fingers?.gap ?? bend });
    }
  }
  const own = way.itself(done);
  if (own !== undefined) all.push({ kind: 'itself', a: own.leaf, b: own.clamped, from: own.from });
  const deep = job.tooDeep(way, done);
  if (deep !== undefined) all.push(deep);
  if (brake.jaw === undefined || clamped.struck || leaf.struck) return all;
  const jaw = way.jaw.passing(done, alongOf(job.room(way, clamped, leaf)));
  return jaw.passes ? all : [...all, { kind: 'jaw', opening: brake.jaw, height: jaw.height }];
};

type Touch = Extract<Obstacle, { kind: 'touch' }>;

/** Every piece of a side that strikes the machine between the bend's ends: each pair of a feature and a tool once, the first to be struck first. */
const touchesOf = (way: Way, name: HalfName, done: number): readonly Touch[] => {
  const found = new Map<string, Touch>();
  const [left, right] = [way.hold.ends[0] + CLOSENESS, way.hold.ends[1] - CLOSENESS];
  for (const member of halfOf(way.hold, name).members) {
    const { long, fingers } = way.clearance.clearOf(name, member, done);
    for (const [which, clear] of [
      ['long', long],
      ['fingers', fingers],
    ] as const) {
      if (clear.struck === undefined) continue;
      for (const slab of way.clearance.placed(member, done).slabs()) {
        const section = seenAlong(slab, left, right);
        const meeting = section === undefined ? undefined : way.clasher.first(name, section, which);
        if (section === undefined || meeting === undefined) continue;
        const { depth, at } = way.clasher.deepest(name, section, meeting);
        const { feature } = member.piece;
        const before = found.get(`${feature}:${meeting.tool}`);
        const from = Math.min(before?.from ?? Number.POSITIVE_INFINITY, meeting.from);
        const deeper = before !== undefined && before.depth > depth ? before : { depth, at };
        const alone = meeting.standing === undefined ? {} : { leafAlone: true };
        found.set(`${feature}:${meeting.tool}`, {
          kind: 'touch',
          feature,
          tool: meeting.tool,
          from,
          at: deeper.at,
          depth: deeper.depth,
          ...alone,
        });
      }
    }
  }
  return [...found.values()].sort((a, b) => a.from - b.from || b.depth - a.depth);
};

/** Which piece ends the room beside the bend: the nearest. */
const besideOf = (way: Way, done: number): { readonly feature: string; readonly tool: Meeting['tool'] } => {
  let nearest = { feature: '', tool: 'nose' as Meeting['tool'], away: Number.POSITIVE_INFINITY };
  const [left, right] = way.hold.ends;
  for (const name of HALVES) {
    for (const member of halfOf(way.hold, name).members) {
      const { long } = way.clearance.clearOf(name, member, done);
      const away = Math.min(left - long.from, long.to - right);
      if (away >= nearest.away) continue;
      const meeting = way.clearance
        .placed(member, done)
        .sections()
        .map((section) => way.clasher.first(name, section, 'long'))
        .find((one) => one !== undefined);
      nearest = { feature: member.piece.feature, tool: meeting?.tool ?? 'nose', away };
    }
  }
  return { feature: nearest.feature, tool: nearest.tool };
};
