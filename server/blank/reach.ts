/**
 * How far the ends of a chain may run at a corner, worked out from the folded shape: every point of flange and bend must keep to its own side of a plane.
 * Section coordinates, for the chain folded off its tangent line: w outward from it, z to the side that the first bend turns to; u runs along the edge, past the
 * crossing of the two tangent lines where positive.
 */
import type { BentFlange, EndLimit } from './tree.js';

/** u · nu + w · nw + z · nz ≤ limit, with nu > 0. */
export interface Plane {
  readonly nu: number;
  readonly nw: number;
  readonly nz: number;
  readonly limit: number;
}

/** One bend of a folded chain with its flat, in section. */
export interface SectionStep {
  readonly flange: BentFlange;
  /** Direction of the sheet before and after the bend, rad from flat. */
  readonly from: number;
  readonly to: number;
  /** +1 turns the way the chain began, −1 back. */
  readonly sign: 1 | -1;
  readonly centre: { readonly w: number; readonly z: number };
  /** Middle of the sheet where the flat begins. */
  readonly start: { readonly w: number; readonly z: number };
  readonly thickness: number;
}

export const sectionOf = (first: BentFlange, thickness: number): readonly SectionStep[] => {
  const steps: SectionStep[] = [];
  let at = { w: 0, z: 0 };
  let angle = 0;
  for (let flange: BentFlange | undefined = first; flange !== undefined; flange = flange.next) {
    const sign = flange.direction === first.direction ? 1 : -1;
    const middle = flange.radius + thickness / 2;
    const to = angle + sign * flange.turn;
    const centre = { w: at.w - sign * middle * Math.sin(angle), z: at.z + sign * middle * Math.cos(angle) };
    const start = { w: centre.w + sign * middle * Math.sin(to), z: centre.z - sign * middle * Math.cos(to) };
    steps.push({ flange, from: angle, to, sign, centre, start, thickness });
    const flat = Math.max(flange.flat, flange.flatFar);
    at = { w: start.w + flat * Math.cos(to), z: start.z + flat * Math.sin(to) };
    angle = to;
  }
  return steps;
};

const reachAt = (plane: Plane, w: number, z: number): number => (plane.limit - plane.nw * w - plane.nz * z) / plane.nu;

/** Which faces of the sheet a plane has to be clear of: the one inside the chain's first bend, or both. */
export type Faces = 'both' | 'inner';

/** How far the flat may run where it begins and where it ends. */
export const flatReach = (step: SectionStep, plane: Plane, faces: Faces = 'both'): readonly [number, number] => {
  const { to, start, flange, thickness } = step;
  const flat = Math.max(flange.flat, flange.flatFar);
  const [cos, sin] = [Math.cos(to), Math.sin(to)];
  const half = thickness / 2;
  const side = (by: number): readonly [number, number] => {
    const [w, z] = [start.w - by * sin, start.z + by * cos];
    return [reachAt(plane, w, z), reachAt(plane, w + flat * cos, z + flat * sin)];
  };
  const inner = side(half);
  if (faces === 'inner') return inner;
  const outer = side(-half);
  return [Math.min(inner[0], outer[0]), Math.min(inner[1], outer[1])];
};

/** How far the bend may run at a share of its turn. */
const bendReach = (step: SectionStep, plane: Plane, share: number): number => {
  const { from, to, sign, centre, flange, thickness } = step;
  const angle = from + (to - from) * share;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const side = (radius: number): number => reachAt(plane, centre.w + sign * radius * sin, centre.z - sign * radius * cos);
  return Math.min(side(flange.radius), side(flange.radius + thickness));
};

const SAMPLES = 24;
const SLACK = 1e-9;

/**
 * A broken line across the bend zone that never runs past what the folded bend allows, nor past `cap`: straight where that is safe, else along the
 * tangents at both ends, else level with the least.
 *
 * @param start how far it may run at the parent's tangent line besides
 */
export const zoneReach = (
  step: SectionStep,
  plane: Plane,
  cap = Number.POSITIVE_INFINITY,
  start = Number.POSITIVE_INFINITY,
): EndLimit['zone'] => {
  const across = step.flange.sums.allowance;
  const allowed = (share: number): number => Math.min(cap, bendReach(step, plane, share));
  const first = Math.min(start, allowed(0));
  const last = allowed(1);
  const samples = Array.from({ length: SAMPLES + 1 }, (_, i) => allowed(i / SAMPLES));
  const under = (line: (share: number) => number): boolean => samples.every((most, i) => line(i / SAMPLES) <= most + SLACK);
  if (under((share) => first + (last - first) * share)) {
    return [
      [0, first],
      [across, last],
    ];
  }
  const tiny = 1e-6;
  const leaving = (allowed(tiny) - allowed(0)) / tiny;
  const arriving = (last - allowed(1 - tiny)) / tiny;
  const knee = (last - first - arriving) / (leaving - arriving);
  const height = first + leaving * knee;
  const broken = (share: number): number => (share <= knee ? first + leaving * share : last - arriving * (1 - share));
  if (knee > 0 && knee < 1 && under((share) => broken(share) - 1e-6)) {
    return [
      [0, first],
      [across * knee, height],
      [across, last],
    ];
  }
  const least = Math.min(start, ...samples);
  return [
    [0, least],
    [across, least],
  ];
};
