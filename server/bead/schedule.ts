/** Who rolls what when: runs of tracks as jobs, put in order, each with how the sheet and the rolls lie. */
import { pointInLoop } from '../shape/inside.js';
import { boundingBox, signedArea } from '../shape/loops.js';
import type { Loop, Point } from '../shape/path.js';
import { bestOrder, type Order, type OrderJob, type SetUp } from './order.js';
import { endOf, pathLength } from './path.js';
import type { FrameSide } from './reach-asked.js';
import type { Reach, Run, ScheduleRow, Track, WorkedBead } from './types.js';

interface RunJob {
  readonly bead: WorkedBead;
  readonly track: Track;
  readonly run: Run | undefined;
  readonly sides: readonly FrameSide[];
  readonly roller: string | undefined;
}

/** Rows in working order. Inside before outside: what a closed track goes round is rolled before that track; within a set-up the nearest to the middle first. */
export const scheduleOf = (
  outline: Loop,
  beads: readonly WorkedBead[],
): { readonly rows: readonly ScheduleRow[]; readonly order: Order } => {
  const { min, max } = boundingBox(outline);
  const middle = { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2 };
  const away = (job: RunJob): number => {
    const box = boxOf(job.track);
    return Math.hypot((box.min.x + box.max.x) / 2 - middle.x, (box.min.y + box.max.y) / 2 - middle.y);
  };
  // What goes round the middle has its own middle there, yet is not inside: enclosing tracks wait for what they enclose anyway.
  const runs = beads
    .flatMap(runsOf)
    .map((job) => ({ job, away: away(job) }))
    .sort((a, b) => a.away - b.away || (a.job.track.id < b.job.track.id ? -1 : 1))
    .map(({ job }) => job);
  const jobs = runs.map((job): OrderJob => ({ ways: job.sides.map((side) => setUpOf(job, side)), after: enclosedBy(runs, job) }));
  const order = bestOrder(jobs);
  let before: SetUp | undefined;
  const rows = order.jobs.map(({ job, way }, i): ScheduleRow => {
    const run = runs[job] as RunJob;
    const setUp = jobs[job]?.ways[way] as SetUp;
    const row = rowOf(run, run.sides[way] as FrameSide, setUp, before, i + 1);
    before = setUp;
    return row;
  });
  return { rows, order };
};

const boxOf = ({ path }: Track): { min: Point; max: Point } =>
  boundingBox(path.closed ? path.moves : [{ kind: 'line', to: path.start }, ...path.moves]);

const runsOf = (bead: WorkedBead): readonly RunJob[] => {
  const reach = bead.reaches[0];
  return bead.tracks.flatMap((track): readonly RunJob[] => {
    const runs = reach?.runs.filter((run) => run.track === track.id) ?? [];
    if (runs.length === 0) return [{ bead, track, run: undefined, sides: ['right', 'left'], roller: undefined }];
    return runs.map((run) => ({ bead, track, run, sides: sidesOf(reach, runs, run), roller: reach?.roller.name }));
  });
};

/** A whole track that both sides reach may be rolled from either, which can spare turning the rolls over. */
const sidesOf = (reach: Reach | undefined, runs: readonly Run[], run: Run): readonly FrameSide[] => {
  const other: FrameSide = run.side === 'left' ? 'right' : 'left';
  const both = reach !== undefined && runs.length === 1 && run.otherNeeded !== undefined && run.otherNeeded <= reach.throat + 1e-6;
  return both ? [run.side, other] : [run.side];
};

const setUpOf = ({ bead, track, roller }: RunJob, side: FrameSide): SetUp => ({
  die: bead.die.name,
  roller: roller ?? '',
  turned: track.land === side,
  faceUp: bead.direction === 'up',
});

/** Tracks that lie within a closed one. Of two rings the smaller only, so that no two wait for each other. */
const enclosedBy = (runs: readonly RunJob[], outer: RunJob): readonly number[] => {
  const { path } = outer.track;
  if (!path.closed) return [];
  const room = Math.abs(signedArea(path.moves));
  return runs.flatMap(({ track }, i) => {
    const smaller = !track.path.closed || Math.abs(signedArea(track.path.moves)) < room - 1e-6;
    const within = smaller && pointInLoop(track.path.start, path.moves) && pointInLoop(endOf(track.path), path.moves);
    return within && track.id !== outer.track.id ? [i] : [];
  });
};

/**
 * The frame stands on the worker's right as the sheet runs away: the dies then move along the track toward the worker with the frame on their left, seen on
 * the side that lies up. Common practice, no source; a roller cranked the other way starts at the other end.
 */
const rowOf = (
  { bead, track, run, roller }: RunJob,
  side: FrameSide,
  setUp: SetUp,
  before: SetUp | undefined,
  step: number,
): ScheduleRow => {
  const from = (side === 'left') === setUp.faceUp ? 'start' : 'finish';
  const start = run?.fromPoint ?? track.path.start;
  const finish = run?.toPoint ?? endOf(track.path);
  const sameDie = before === undefined || (before.die === setUp.die && before.turned === setUp.turned && before.roller === setUp.roller);
  return {
    step,
    bead: bead.id,
    track: track.id,
    roller,
    die: setUp.die,
    dies: setUp.turned ? 'turned over' : 'as fitted',
    lies: setUp.faceUp ? 'face up' : 'face down',
    frame: side,
    from,
    fromPoint: from === 'start' ? start : finish,
    toPoint: from === 'start' ? finish : start,
    along: run === undefined ? [0, pathLength(track.path)] : [run.from, run.to],
    passes: bead.forming?.passes ?? [],
    changesDie: !sameDie,
    turnsOver: before !== undefined && before.faceUp !== setUp.faceUp,
  };
};
