/** Whether sections of the part meet the machine while the leaf swings: of the clamped side, which lies still, and of the leaf's side, which goes with it. */
import { type Around, anglesMeet, around, type Convex, firstMeeting, overlapDepth, slid, turned } from '../shape/convex.js';
import type { Point } from '../shape/path.js';
import type { Hold } from './hold.js';
import type { Circle } from './section.js';
import { TOUCH_TOLERANCE, type Tools } from './tools.js';
import type { Tool } from './types.js';

export interface Meeting {
  readonly tool: Tool;
  /** Turn of the leaf at which they first meet. */
  readonly from: number;
  readonly piece: Convex;
  /** The apron strikes the bent side on its way to it, or on its way back: the turn at which that side stands. */
  readonly standing: number | undefined;
}
/** Parts of the brake that go on along its whole length, and those that are only as long as the fingers chosen. */
export type Which = 'long' | 'fingers';
export type HalfName = 'clamped' | 'leaf';

export interface Clasher {
  /** False only where nothing within the circle can ever meet. */
  readonly mayMeet: (half: HalfName, circle: Circle, which: Which) => boolean;
  /** First meeting of a section of either side; one of the leaf's side is given flat, before the leaf swings. */
  readonly first: (half: HalfName, section: Convex, which: Which) => Meeting | undefined;
  /** Deepest overlap of that pair from the first meeting on: by how much, and at which turn. */
  readonly deepest: (half: HalfName, section: Convex, meeting: Meeting) => { readonly depth: number; readonly at: number };
}

/**
 * The leaf's side as it is at a turn of the leaf, from its place before the bend. What has bent lies wrapped round the nose's edge; what has still to bend is
 * straight, so the side creeps toward the clamp as it turns.
 */
export const swung = (hold: Hold, section: Convex, turn: number): Convex =>
  turned(section, hold.about, turn, creepAt(hold, turn) - hold.allowance, 0);
const creepAt = (hold: Hold, turn: number): number => hold.allowance * Math.max(0, 1 - turn / hold.setTurn);

interface Placed {
  readonly tool: Tool;
  readonly piece: Around;
  readonly box: Box;
}

export const clasher = (hold: Hold, tools: Tools, fingered: boolean): Clasher => {
  const { about, fromTurn, setTurn } = hold;
  const placed = (tool: Tool, pieces: readonly Convex[]): readonly Placed[] =>
    pieces.map((piece) => ({ tool, piece: around(piece, about), box: boxOf(piece) }));
  const nose = placed('nose', tools.nose);
  const rest = [...placed('beam', tools.beam), ...placed('bed', tools.bed)];
  const fixed = { long: fingered ? rest : [...nose, ...rest], fingers: nose };
  const swings = { long: placed('apron', tools.apron), fingers: [] };

  const mayMeet: Clasher['mayMeet'] = (half, circle, which) => {
    if (half === 'clamped') {
      const { x, y, radius } = circle;
      for (const { box } of fixed[which])
        if (x + radius > box.left && x - radius < box.right && y + radius > box.low && y - radius < box.high) return true;
      if (swings[which].length === 0) return false;
      const ring = ringOf(circle, about, 0, 0);
      return swings[which].some(({ piece }) => ringsMeet(piece, ring, 0, setTurn));
    }
    // With all that it creeps by.
    const ring = ringOf(circle, about, -hold.allowance / 2, hold.allowance / 2);
    return (
      fixed[which].some(({ piece }) => ringsMeet(ring, piece, fromTurn, setTurn)) ||
      swings[which].some(({ piece }) => ringsMeet(ring, piece, 0, setTurn))
    );
  };

  const clamped = (section: Convex, which: Which): Meeting | undefined => {
    for (const { tool, piece } of fixed[which])
      if (overlapDepth(section, piece.polygon) > 0) return { tool, from: 0, piece: piece.polygon, standing: undefined };
    if (swings[which].length === 0) return undefined;
    const still = around(section, about);
    for (const { tool, piece } of swings[which]) {
      const from = firstMeeting(piece, still, about, 0, setTurn);
      if (from !== undefined) return { tool, from, piece: piece.polygon, standing: undefined };
    }
    return undefined;
  };

  const [most, least] = [creepAt(hold, fromTurn), creepAt(hold, setTurn)];
  const leaf = (section: Convex, which: Which): Meeting | undefined => {
    const start = moved(section, -hold.allowance);
    const passed = moved(slid(start, most - least), least);
    const whole = around(passed, about);
    for (const { tool, piece } of fixed[which]) {
      const from = sweepFrom(hold, start, piece, fromTurn, setTurn, whole);
      if (from !== undefined) return { tool, from, piece: piece.polygon, standing: undefined };
    }
    for (const { tool, piece } of swings[which]) {
      // The apron goes with the leaf: against it the side only creeps.
      if (overlapDepth(passed, piece.polygon) > 0) return { tool, from: fromTurn, piece: piece.polygon, standing: undefined };
      // Before, it comes to a side that was bent part-way; after, it goes back and the side stays. Seen from the apron, the side turns.
      const comes = fromTurn === 0 ? undefined : firstMeeting(around(moved(start, most), about), piece, about, 0, fromTurn);
      if (comes !== undefined) return { tool, from: fromTurn - comes, piece: piece.polygon, standing: fromTurn };
      const goes = firstMeeting(around(moved(start, least), about), piece, about, 0, setTurn);
      if (goes !== undefined) return { tool, from: setTurn - goes, piece: piece.polygon, standing: setTurn };
    }
    return undefined;
  };

  const overlapAt = (half: HalfName, section: Convex, { tool, piece }: Meeting, turn: number): number => {
    const part = half === 'leaf' ? swung(hold, section, turn) : section;
    return overlapDepth(part, tool === 'apron' ? turned(piece, about, turn) : piece);
  };
  const deepest: Clasher['deepest'] = (half, section, meeting) => {
    const { from, standing } = meeting;
    let best = { depth: 0, at: from };
    const steps = 48;
    const end = standing === undefined ? setTurn : 0;
    const there = standing === undefined ? section : swung(hold, section, standing);
    for (let i = 0; i <= steps; i++) {
      const at = from + ((end - from) * i) / steps;
      const depth = standing === undefined ? overlapAt(half, there, meeting, at) : overlapDepth(there, turned(meeting.piece, about, at));
      if (depth > best.depth + 1e-9) best = { depth, at };
    }
    // What it is drawn in by counts as well.
    return { depth: best.depth + TOUCH_TOLERANCE, at: best.at };
  };
  return { mayMeet, first: (half, section, which) => (half === 'clamped' ? clamped(section, which) : leaf(section, which)), deepest };
};

type Ring = Pick<Around, 'near' | 'far' | 'start' | 'width'>;
/** Distances and angles about a point that a circle takes up, moved by dx and made larger. */
export const ringOf = (circle: Circle, about: Point, dx: number, more: number): Ring => {
  const [x, y] = [circle.x + dx - about.x, circle.y - about.y];
  const [away, radius] = [Math.sqrt(x * x + y * y), circle.radius + more];
  if (away <= radius) return { near: 0, far: away + radius, start: 0, width: 2 * Math.PI };
  const half = Math.asin(radius / away);
  return { near: away - radius, far: away + radius, start: Math.atan2(y, x) - half, width: 2 * half };
};
/** Whether what turns between two angles can come to what stands. */
const ringsMeet = (turning: Ring, standing: Ring, from: number, to: number): boolean =>
  turning.far >= standing.near &&
  standing.far >= turning.near &&
  anglesMeet(turning.start + from, turning.width + to - from, standing.start, standing.width);

interface Box {
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
}
const boxOf = (piece: Convex): Box => ({
  left: Math.min(...piece.map((p) => p.x)),
  right: Math.max(...piece.map((p) => p.x)),
  low: Math.min(...piece.map((p) => p.y)),
  high: Math.max(...piece.map((p) => p.y)),
});

const moved = (section: Convex, dx: number): Convex => (dx === 0 ? section : section.map((p) => ({ x: p.x + dx, y: p.y })));

/** First meeting of a section that goes with the leaf, given flat, with one that stands still, between two turns. */
export const sweepOnto = (hold: Hold, section: Convex, piece: Around, from: number, to: number): number | undefined =>
  sweepFrom(hold, moved(section, -hold.allowance), piece, from, to, undefined);

/**
 * All places passed between two turns lie in what the side sweeps when it first creeps and then turns. Clear of that is clear; else the stretch is halved
 * until the creep in it is less than the touch tolerance.
 */
const sweepFrom = (hold: Hold, start: Convex, piece: Around, from: number, to: number, whole: Around | undefined): number | undefined => {
  const [most, least] = [creepAt(hold, from), creepAt(hold, to)];
  const passed = whole ?? around(moved(slid(start, most - least), least), hold.about);
  const reached = firstMeeting(passed, piece, hold.about, from, to);
  if (reached === undefined) return undefined;
  if (most - least <= TOUCH_TOLERANCE) return reached;
  const middle = (from + to) / 2;
  return sweepFrom(hold, start, piece, from, middle, undefined) ?? sweepFrom(hold, start, piece, middle, to, undefined);
};
