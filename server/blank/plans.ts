/** How the ends of neighbouring chains run where both are bent, or where one of them meets a cut edge at a slant. */
import type { CornerRule } from '../model/part.js';
import { type Faces, flatReach, type Plane, type SectionStep, sectionOf, zoneReach } from './reach.js';
import { type BentFlange, cross, dot, type EndLimit, type EndPlan, type Job, remark, type Side } from './tree.js';

export interface Plans {
  readonly previous: EndPlan | undefined;
  readonly next: EndPlan | undefined;
}
const NO_PLANS: Plans = { previous: undefined, next: undefined };

/** Returns, hems and steep flanges keep this far from their neighbour's: one thickness. Common practice, no source. */
const clearance = (job: Job): number => job.thickness;

const sameWay = (a: BentFlange, b: BentFlange): boolean => a.direction === b.direction;

/**
 * Ends of two bent edges at a corner that turns by `turn` (rad, positive outward).
 *
 * @param rule how the corner is to be made; undefined is open
 */
export const plansBetween = (job: Job, rule: CornerRule | undefined, before: Side, after: Side): Plans => {
  const [a, b] = [before.flange, after.flange];
  if (a === undefined || b === undefined) return NO_PLANS;
  const turn = Math.atan2(cross(before.along, after.along), dot(before.along, after.along));
  const treatment = rule?.treatment;
  if (rule !== undefined && treatment?.kind === 'mitred') return mitred(job, rule, treatment.gap, turn, before, after, a, b);
  if (rule !== undefined && (treatment?.kind === 'lap' || treatment?.kind === 'butt')) {
    const by = treatment.kind === 'lap' ? treatment.by : 0;
    return overAndUnder(job, rule, treatment.over === before.name, by, turn, before, after, a, b);
  }
  return turn > 1e-9 && sameWay(a, b) ? opened(job, turn, a, b) : NO_PLANS;
};

/** The plane that halves a corner, upright on the base, each side keeping this far from it. */
const halving = (turn: number, away: number): Plane => ({ nu: Math.cos(turn / 2), nw: -Math.sin(turn / 2), nz: 0, limit: -away });

/** Both stop at the crossing, and whatever would reach past the middle of the corner further out is cut back to it. */
const opened = (job: Job, turn: number, a: BentFlange, b: BentFlange): Plans => {
  // The plain corner of two walls: nothing leans in over it.
  if (a.next === undefined && b.next === undefined && a.turn <= Math.PI / 2 + 1e-9 && b.turn <= Math.PI / 2 + 1e-9) return NO_PLANS;
  const [one, other] = [sectionOf(a, job.thickness), sectionOf(b, job.thickness)];
  // Where one of the two is a single wall, what goes on behind the other's runs up to it. Else both are cut back all the way.
  const depth = Math.min(one.length, other.length) > 1 ? Math.max(one.length, other.length) : 1;
  const plane = halving(turn, 0);
  const away = clearance(job) / (2 * Math.cos(turn / 2));
  const limits = (steps: readonly SectionStep[]): EndPlan | undefined => {
    const made = steps.slice(0, depth).map((step): EndLimit => {
      const [near, far] = flatReach(step, plane);
      const begin = Math.min(0, near);
      return { zone: zoneReach(step, plane, 0), flat: [begin, far - away < 0 ? Math.min(begin, far - away) : begin] };
    });
    return made.every(isSquare) ? undefined : { limits: made, at: 0 };
  };
  return { previous: limits(one), next: limits(other) };
};

const isSquare = ({ zone, flat }: EndLimit): boolean => flat[0] === 0 && flat[1] === 0 && zone.every(([, reach]) => reach === 0);

const nameOf = (side: Side): string => side.name ?? 'an unnamed edge';

const impossible = (job: Job, rule: CornerRule, before: Side, after: Side, reason: string, cure: string): Plans => {
  remark(job, 'corner/mitre-impossible', rule.span, `${nameOf(before)} and ${nameOf(after)} can’t be mitred: ${reason}; ${cure}`, {
    features: [before, after].flatMap(({ flange }) => (flange === undefined ? [] : [`face:${flange.faceId}`])),
  });
  return NO_PLANS;
};

const mitred = (job: Job, rule: CornerRule, gap: number, turn: number, before: Side, after: Side, a: BentFlange, b: BentFlange): Plans => {
  // `corner all` means the corners it can be made at; only a named one is refused.
  const refuse = (reason: string, cure: string): Plans =>
    rule.edges === undefined
      ? turn > 1e-9 && sameWay(a, b)
        ? opened(job, turn, a, b)
        : NO_PLANS
      : impossible(job, rule, before, after, reason, cure);
  const { say } = job.words;
  if (!sameWay(a, b))
    return refuse(
      `one turns ${a.direction} and the other ${b.direction}, so they never meet`,
      'turn both the same way, or leave the corner open',
    );
  const unlike = !alike(a, b);
  if (unlike && turn > 1e-9 && !(upright(a) && upright(b)))
    return refuse(
      Math.abs(a.turn - b.turn) > 1e-9
        ? `they turn by ${degrees(a.turn)} and ${degrees(b.turn)}, and one of them is folded flat, rolled or joggled, so it stands in no plane that the other could be cut to`
        : `their inside radii are ${say(a.radius)} and ${say(b.radius)}, so their folds don’t come together`,
      'make both alike, or write `butt`',
    );
  if (a.flat !== a.flatFar || b.flat !== b.flatFar) {
    if (a.next !== undefined || b.next !== undefined)
      return refuse('a flange that tapers carries another, which leaves the corner at a slant', 'make the lengths the same at both ends');
  }
  const [one, other] = [sectionOf(a, job.thickness), sectionOf(b, job.thickness)];
  const depth = Math.min(one.length, other.length);
  if (turn < -1e-9) return inward(job, turn, gap, one.slice(0, depth), other.slice(0, depth));
  // Less than a millionth of a millimetre is no gap.
  const away = gap < 1e-6 ? 0 : gap / 2;
  const [first, second] = [one[0] as SectionStep, other[0] as SectionStep];
  const planes = unlike ? [seam(turn, first, second, away), seam(turn, second, first, away)] : [halving(turn, away), halving(turn, away)];
  const together = one.slice(0, depth).findIndex((step, i) => !alike(step.flange, (other[i] as SectionStep).flange));
  const limits = (steps: readonly SectionStep[], plane: Plane): EndPlan => {
    // What turns differently on the two has nothing to meet: it keeps to its side of the plane, and runs no further than what it hangs on.
    let cap = Number.POSITIVE_INFINITY;
    const made = steps.slice(0, depth).map((step, i): EndLimit => {
      const own = together < 0 || i < together ? Number.POSITIVE_INFINITY : cap;
      // Where the two bend differently the plane passes beside the crossing, and the base ends at the crossing.
      const zone = zoneReach(step, plane, own, unlike && i === 0 ? 0 : Number.POSITIVE_INFINITY);
      const [near, far] = flatReach(step, plane);
      const flat = [Math.min(own, near), Math.min(own, far)] as const;
      cap = step.flange.bare ? (zone.at(-1)?.[1] ?? flat[1]) : flat[1];
      return { zone, flat };
    });
    return { limits: made, at: 0 };
  };
  return { previous: limits(one, planes[0] as Plane), next: limits(other, planes[1] as Plane) };
};

/** Turned on the brake and not folded flat: its flat stands in a plane that another's can meet. */
const upright = ({ make, turn }: BentFlange): boolean => make === 'turn' && turn > 1e-3 && turn < Math.PI - 1e-3;

/**
 * The plane that halves the angle between the flats of two neighbouring first flanges, in the coordinates of the one that keeps to its inner side: all points
 * as far outside the one's middle plane as outside the other's. Two flanges that turn alike to one radius have the upright plane of `halving`.
 * Source: plane geometry.
 */
const seam = (turn: number, own: SectionStep, neighbour: SectionStep, away: number): Plane => {
  const offset = ({ to, start }: SectionStep): number => Math.sin(to) * start.w - Math.cos(to) * start.z;
  // The neighbour's outward direction is w cos(turn) + u sin(turn).
  const nu = Math.sin(neighbour.to) * Math.sin(turn);
  const nw = Math.sin(neighbour.to) * Math.cos(turn) - Math.sin(own.to);
  const nz = Math.cos(own.to) - Math.cos(neighbour.to);
  return { nu, nw, nz, limit: offset(neighbour) - offset(own) - away * Math.hypot(nu, nw, nz) };
};

const alike = (a: BentFlange, b: BentFlange): boolean =>
  a.direction === b.direction && Math.abs(a.turn - b.turn) < 1e-9 && Math.abs(a.radius - b.radius) < 1e-9;

const degrees = (turn: number): string => `${Math.round((turn * 18000) / Math.PI) / 100}°`;

/**
 * In an inward corner both flanges want the same sheet: they are parted along the line that halves it in the flat, and stand open as far as they are folded.
 * Outside the bend the sheet is longer than its neutral line, so near the tangent line they keep that much further apart.
 */
const inward = (job: Job, turn: number, gap: number, one: readonly SectionStep[], other: readonly SectionStep[]): Plans => {
  const slope = Math.tan(-turn / 2);
  const limits = (steps: readonly SectionStep[]): EndPlan => {
    const first = (steps[0] as SectionStep).flange;
    const outer = first.radius + job.thickness;
    const neutral = first.sums.allowance / first.turn;
    const angle = Math.min(first.turn, Math.acos(Math.min(1, neutral / outer)));
    const swell = Math.max(0, outer * Math.sin(angle) - neutral * angle);
    const back = gap / (2 * Math.cos(turn / 2)) + slope * swell;
    let at = 0;
    const made = steps.map(({ flange }): EndLimit => {
      const reach = (across: number): number => -back - slope * (at + across);
      const { allowance } = flange.sums;
      const flat = Math.max(flange.flat, flange.flatFar);
      const limit: EndLimit = {
        zone: [
          [0, reach(0)],
          [allowance, reach(allowance)],
        ],
        flat: [reach(allowance), reach(allowance + flat)],
      };
      at += allowance + flat;
      return limit;
    });
    return { limits: made, at: 0 };
  };
  return { previous: limits(one), next: limits(other) };
};

/** A face of the neighbour's first flange as a plane in this chain's coordinates; points on its inner side satisfy it. */
const facePlane = (turn: number, neighbour: SectionStep, side: 'inner' | 'outer', beyond: number): Plane => {
  const { to, start, thickness } = neighbour;
  const [sin, cos] = [Math.sin(to), Math.cos(to)];
  const by = side === 'inner' ? thickness / 2 : -thickness / 2;
  const limit = sin * (start.w - by * sin) - cos * (start.z + by * cos) + beyond;
  // The neighbour's outward direction is w cos(turn) + u sin(turn).
  return { nu: sin * Math.sin(turn), nw: sin * Math.cos(turn), nz: -cos, limit };
};

/** One flange runs on over the other's end, flush with its outside or past it; the other stops at the first one's inside. What follows on both is mitred. */
const overAndUnder = (
  job: Job,
  rule: CornerRule,
  beforeIsOver: boolean,
  by: number,
  turn: number,
  before: Side,
  after: Side,
  a: BentFlange,
  b: BentFlange,
): Plans => {
  const steep = Math.min(a.turn, b.turn) > 1e-3 && Math.max(a.turn, b.turn) < Math.PI - 1e-3;
  const open = (): Plans => (turn > 1e-9 && sameWay(a, b) ? opened(job, turn, a, b) : NO_PLANS);
  const kind = rule.treatment.kind;
  const refuse = (reason: string, cure: string): Plans => {
    remark(job, 'corner/lap-impossible', rule.span, `${nameOf(before)} and ${nameOf(after)} can’t ${kind}: ${reason}; ${cure}`, {
      features: [`face:${a.faceId}`, `face:${b.faceId}`],
    });
    return open();
  };
  if (!sameWay(a, b))
    return refuse(
      `one turns ${a.direction} and the other ${b.direction}, so they never meet`,
      'turn both the same way, or leave the corner open',
    );
  if (turn < 1e-6)
    return refuse(
      'in an inward corner there is no sheet to run on over the other',
      'write `mitred`, or make one of the two a piece of its own',
    );
  if (!steep || a.make !== 'turn' || b.make !== 'turn')
    return refuse('one of them is folded flat, rolled or joggled, and stands in no plane of its own', 'leave the corner open, or mitre it');
  const [one, other] = [sectionOf(a, job.thickness), sectionOf(b, job.thickness)];
  const depth = Math.min(one.length, other.length);
  const halves = halving(turn, 0);
  const limits = (steps: readonly SectionStep[], neighbour: SectionStep, over: boolean): EndPlan => {
    const plane = facePlane(turn, neighbour, over ? 'outer' : 'inner', over ? by : 0);
    const faces: Faces = over ? 'inner' : 'both';
    return {
      limits: steps.slice(0, depth).map((step, i): EndLimit => {
        const zone = zoneReach(step, halves);
        return { zone, flat: flatReach(step, i === 0 ? plane : halves, i === 0 ? faces : 'both') };
      }),
      at: 0,
    };
  };
  return {
    previous: limits(one, other[0] as SectionStep, beforeIsOver),
    next: limits(other, one[0] as SectionStep, !beforeIsOver),
  };
};

/**
 * The end of a bent edge beside a cut edge that meets it at a slant. Folded up, the flange may not stand past the cut edge carried on through the bend: it ends
 * square where the drawn edge ends when the corner is obtuse, and at the carried-on line when it is acute.
 *
 * @param past how far the drawn corner lies past the crossing of cut edge and tangent line, along the bent edge
 * @param turn how far the outline turns there, rad, positive outward; undefined beside an arc
 */
export const planBesideCut = (
  job: Job,
  flange: BentFlange,
  past: number,
  setback: number,
  turn: number | undefined,
): EndPlan | undefined => {
  if (Math.abs(past) < 1e-9) return undefined;
  const { allowance } = flange.sums;
  if (past < 0 && flange.make === 'joggle' && turn !== undefined) {
    // The land lies level with the base and goes on where the base's own cut edge points.
    const plane: Plane = { nu: Math.sin(turn), nw: Math.cos(turn), nz: 0, limit: 0 };
    const limits = sectionOf(flange, job.thickness)
      .slice(0, 2)
      .map((step): EndLimit => ({ zone: zoneReach(step, plane), flat: flatReach(step, plane) }));
    return { limits, at: 0 };
  }
  if (past < 0) {
    // The outside of the bend swings out by (R + T) for each radian, the neutral line by less.
    const knee = turn === undefined ? 0 : Math.min(allowance, (setback / (flange.radius + job.thickness)) * (allowance / flange.turn));
    const zone: EndLimit['zone'] =
      knee < 1e-9
        ? [
            [0, past],
            [allowance, past],
          ]
        : [[0, 0], ...(knee < allowance ? ([[knee, past]] as const) : []), [allowance, past]];
    return { limits: [{ zone, flat: [past, past] }], at: 0 };
  }
  if (turn === undefined || turn <= Math.PI / 2) return undefined;
  const plane: Plane = { nu: Math.sin(turn), nw: Math.cos(turn), nz: 0, limit: 0 };
  let cap = Number.POSITIVE_INFINITY;
  const limits = sectionOf(flange, job.thickness).map((step): EndLimit => {
    const zone = zoneReach(step, plane, cap);
    const [near, far] = flatReach(step, plane);
    // Square as long as the flange leans out; cut to the line where it leans in.
    cap = Math.min(cap, near);
    const begin = cap;
    cap = Math.min(cap, far);
    return { zone, flat: [begin, cap] };
  });
  return { limits, at: 0 };
};
