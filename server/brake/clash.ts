/** Whether sections of the part meet the machine while the leaf swings: of the clamped side, which lies still, and of the leaf's side, which goes with it. */
import { type Convex, firstMeeting, overlapDepth, slid, turned } from '../shape/convex.js';
import type { Hold } from './hold.js';
import { TOUCH_TOLERANCE, type Tools } from './tools.js';
import type { Tool } from './types.js';

export interface Meeting {
  readonly tool: Tool;
  /** Turn of the leaf at which they first meet. */
  readonly from: number;
  readonly piece: Convex;
}
export type Which = 'long' | 'fingers';

const NO_TOOLS: readonly Convex[] = [];
/** Parts of the brake that go on along its whole length, and those that are only as long as the fingers chosen. */
const fixedTools = (tools: Tools, fingered: boolean, which: Which): readonly (readonly [Tool, readonly Convex[]])[] => {
  if (which === 'fingers') return [['nose', tools.nose]];
  return [
    ['nose', fingered ? NO_TOOLS : tools.nose],
    ['beam', tools.beam],
    ['bed', tools.bed],
  ];
};

export interface Clasher {
  /** First meeting of a section of the clamped side. */
  readonly clamped: (section: Convex, which: Which) => Meeting | undefined;
  /** Of a section of the leaf's side, given flat, before the leaf swings. */
  readonly leaf: (section: Convex, which: Which) => Meeting | undefined;
  /** Deepest overlap of that pair from the first meeting on: by how much, and at which turn. */
  readonly deepest: (half: 'clamped' | 'leaf', section: Convex, meeting: Meeting) => { readonly depth: number; readonly at: number };
}

/**
 * The leaf's side as it is at a turn of the leaf, from its place before the bend. What has bent lies wrapped round the nose's edge; what has still to bend is
 * straight, so the side creeps toward the clamp as it turns.
 */
export const swung = (hold: Hold, section: Convex, turn: number): Convex =>
  turned(section, hold.about, turn, creepAt(hold, turn) - hold.allowance, 0);
const creepAt = (hold: Hold, turn: number): number => hold.allowance * Math.max(0, 1 - turn / hold.setTurn);

export const clasher = (hold: Hold, tools: Tools, fingered: boolean): Clasher => {
  const { about, fromTurn, setTurn } = hold;
  const sets = { long: fixedTools(tools, fingered, 'long'), fingers: fixedTools(tools, fingered, 'fingers') };

  const clamped: Clasher['clamped'] = (section, which) => {
    for (const [tool, pieces] of sets[which]) {
      for (const piece of pieces) if (overlapDepth(section, piece) > 0) return { tool, from: 0, piece };
    }
    if (which === 'fingers') return undefined;
    for (const piece of tools.apron) {
      const from = firstMeeting(piece, section, about, 0, setTurn);
      if (from !== undefined) return { tool: 'apron', from, piece };
    }
    return undefined;
  };

  /**
   * All places passed between two turns lie in what the side sweeps when it first creeps and then turns. Clear of that is clear; else the stretch is halved
   * until the creep in it is less than the touch tolerance.
   */
  const sweep = (start: Convex, piece: Convex, from: number, to: number): number | undefined => {
    const [most, least] = [creepAt(hold, from), creepAt(hold, to)];
    const reached = firstMeeting(moved(slid(start, most - least), least), piece, about, from, to);
    if (reached === undefined) return undefined;
    if (most - least <= TOUCH_TOLERANCE) return reached;
    const middle = (from + to) / 2;
    return sweep(start, piece, from, middle) ?? sweep(start, piece, middle, to);
  };

  const leaf: Clasher['leaf'] = (section, which) => {
    const start = moved(section, -hold.allowance);
    for (const [tool, pieces] of sets[which]) {
      for (const piece of pieces) {
        const from = sweep(start, piece, fromTurn, setTurn);
        if (from !== undefined) return { tool, from, piece };
      }
    }
    if (which === 'fingers') return undefined;
    // The apron goes with the leaf: against it the side only creeps.
    const [most, least] = [creepAt(hold, fromTurn), creepAt(hold, setTurn)];
    const passed = moved(slid(start, most - least), least);
    for (const piece of tools.apron) if (overlapDepth(passed, piece) > 0) return { tool: 'apron', from: fromTurn, piece };
    return undefined;
  };

  const overlapAt = (half: 'clamped' | 'leaf', section: Convex, { tool, piece }: Meeting, turn: number): number => {
    const part = half === 'leaf' ? swung(hold, section, turn) : section;
    return overlapDepth(part, tool === 'apron' ? turned(piece, about, turn) : piece);
  };
  const deepest: Clasher['deepest'] = (half, section, meeting) => {
    let best = { depth: 0, at: meeting.from };
    const steps = 48;
    for (let i = 0; i <= steps; i++) {
      const at = meeting.from + ((setTurn - meeting.from) * i) / steps;
      const depth = overlapAt(half, section, meeting, at);
      if (depth > best.depth + 1e-9) best = { depth, at };
    }
    // What it is drawn in by counts as well.
    return { depth: best.depth + TOUCH_TOLERANCE, at: best.at };
  };
  return { clamped, leaf, deepest };
};

const moved = (section: Convex, dx: number): Convex => (dx === 0 ? section : section.map((p) => ({ x: p.x + dx, y: p.y })));
