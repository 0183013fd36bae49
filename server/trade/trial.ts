/** What a strip that was really bent says of its sheet: allowance, K, springback, and how far each can be trusted. Lengths mm, angles rad. */
import { apexOrTangent } from './setback.js';

/**
 * Readings of one strip. `finest` is the least step that could be told apart in a reading: the true size then lies within half a step either way
 * (0: taken as exact).
 */
export interface StripReadings {
  /** Flat length before bending, across the bends. */
  readonly length: number;
  readonly lengthFinest: number;
  /** Every leg from outside to outside; between n legs lie n − 1 equal bends, all the same way. */
  readonly legs: readonly number[];
  readonly legsFinest: number;
  /** Turned from flat as it was left, 0 < turn < π. */
  readonly turn: number;
  readonly turnFinest: number;
  /** Inside. */
  readonly radius: number;
  readonly radiusFinest: number;
  readonly thickness: number;
}

/** How much K moves for one mm (one rad) of a reading. */
export interface Sensitivities {
  readonly length: number;
  readonly leg: number;
  readonly turn: number;
  readonly radius: number;
}
export interface StripResult {
  readonly allowance: number;
  readonly deduction: number;
  readonly setback: number;
  /** Neutral axis from the inside face, as a share of the thickness. */
  readonly k: number;
  /** Half the spread either way that the readings leave: the parts of each reading combined as the root of the sum of their squares. */
  readonly kSpread: number;
  readonly allowanceSpread: number;
  readonly sensitivities: Sensitivities;
}

/**
 * Allowance and K of a strip, worked back from what was measured.
 *
 *     deduction = (sum of outside legs − flat length) / bends
 *     allowance = 2 setbacks − deduction,  K = (allowance / turn − radius) / thickness
 *
 * The spread takes half the finest step of every reading through the partial derivatives, root-sum-square.
 *
 * @returns undefined with fewer than two legs or a size that is not positive
 * Source: definition of K and of the bend deduction; M. P. Groover, Fundamentals of Modern Manufacturing, sheet bending (from memory). Combination of
 * independent errors: JCGM 100:2008 (GUM), 5.1.
 */
export const workBack = (strip: StripReadings): StripResult | undefined => {
  const { length, legs, turn, radius, thickness } = strip;
  const bends = legs.length - 1;
  if (bends < 1 || !(length > 0) || !(turn > 0) || !(thickness > 0) || radius < 0) return undefined;
  const { setback, perRadius, perTurn } = apexOrTangent(turn, radius, thickness);
  const deduction = (legs.reduce((sum, leg) => sum + leg, 0) - length) / bends;
  const allowance = 2 * setback - deduction;
  const k = (allowance / turn - radius) / thickness;
  const sensitivities: Sensitivities = {
    length: 1 / (bends * turn * thickness),
    leg: -1 / (bends * turn * thickness),
    turn: (2 * perTurn * turn - allowance) / (turn * turn * thickness),
    radius: ((2 * perRadius) / turn - 1) / thickness,
  };
  const half = { length: strip.lengthFinest / 2, leg: strip.legsFinest / 2, turn: strip.turnFinest / 2, radius: strip.radiusFinest / 2 };
  const kSpread = Math.hypot(
    sensitivities.length * half.length,
    Math.sqrt(legs.length) * sensitivities.leg * half.leg,
    sensitivities.turn * half.turn,
    sensitivities.radius * half.radius,
  );
  const allowanceSpread = Math.hypot(
    half.length / bends,
    (Math.sqrt(legs.length) * half.leg) / bends,
    2 * perTurn * half.turn,
    2 * perRadius * half.radius,
  );
  return { allowance, deduction, setback, k, kSpread, allowanceSpread, sensitivities };
};

/** K that a bend of sheet can have: at 0 the inside face keeps its length, at 0.5 the middle does; a little above is left for readings. */
export const greatestK = 0.55;

/** Sum of outside legs that a strip must show for K from 0 to the greatest: what a strip that is off is told. */
export const legsThatMakeSense = (strip: StripReadings): { readonly least: number; readonly most: number } => {
  const { length, legs, turn, radius, thickness } = strip;
  const { setback } = apexOrTangent(turn, radius, thickness);
  const sum = (k: number): number => length + (legs.length - 1) * (2 * setback - turn * (radius + k * thickness));
  return { least: sum(greatestK), most: sum(0) };
};

/** A strip as it bears on other bends of its sheet. */
export interface BentStrip {
  readonly name: string;
  /** Turned from flat as it was left. */
  readonly turn: number;
  /** What the brake was set to; undefined where the angle left was not measured. */
  readonly turnSet: number | undefined;
  readonly radius: number;
  readonly thickness: number;
  readonly k: number;
  readonly kSpread: number;
}

/** A bend within this of a strip counts as that strip's own: nobody sets a brake nearer, or grinds a nose. Common practice, no source. */
const sameBend = { turn: (3 * Math.PI) / 180, ratio: 0.1 } as const;

export interface TrialAnswer {
  readonly k: number;
  readonly kSpread: number;
  /** How far the brake is turned for a turn left, as a ratio of the two (1 or more); undefined where no strip tells. */
  readonly setOverLeft: number | undefined;
  /** Names of the strips it was taken from, in the order they were given. */
  readonly from: readonly string[];
  /** Outside what was tried: the nearest that was tried is taken over. */
  readonly outside: Outside | undefined;
}
export interface Outside {
  readonly what: 'turn' | 'radius' | 'pair';
  readonly turns: readonly [number, number];
  /** Inside radius over thickness. */
  readonly ratios: readonly [number, number];
}

interface Node {
  readonly x: number;
  readonly y: number;
  readonly k: number;
  readonly spread: number;
  readonly set: number | undefined;
  readonly names: readonly string[];
  /** Settles ties between four strips on one circle, always the same way. */
  readonly lift: number;
}
interface Share {
  readonly node: Node;
  readonly share: number;
}

/**
 * K and springback for any bend of the sheet from all its strips.
 *
 * Every strip is a point (turn, radius / thickness). Strips of the same bend are averaged. Between the others K goes in straight lines: along the line
 * between two, over the triangle of three (Delaunay's triangles, shares by area), so that a strip's own bend gets that strip's own K. Outside all of them
 * the nearest point of what was tried is taken over, and the answer says so. The spread combines the strips' own, weighted by their shares, root-sum-square.
 *
 * @returns undefined without any strip
 */
export const fromStrips = (strips: readonly BentStrip[], turn: number, radius: number, thickness: number): TrialAnswer | undefined => {
  if (strips.length === 0) return undefined;
  const nodes = merged(strips);
  const at = place(turn, radius / thickness);
  const { shares, away } = sharesAt(nodes, at);
  const used = shares.filter(({ share }) => share > 1e-9);
  const sum = (of: (node: Node) => number): number => used.reduce((total, { node, share }) => total + share * of(node), 0);
  const set = used.every(({ node }) => node.set !== undefined) ? sum((node) => node.set ?? 1) : undefined;
  const names = new Set(used.flatMap(({ node }) => node.names));
  return {
    k: sum((node) => node.k),
    kSpread: Math.hypot(...used.map(({ node, share }) => share * node.spread)),
    setOverLeft: set,
    from: strips.map(({ name }) => name).filter((name) => names.has(name)),
    outside: away ? outsideOf(strips, turn, radius / thickness) : undefined,
  };
};

/** How far to turn the brake so that `turn` is left. @returns undefined where no strip's angle left was measured */
export const turnToSet = (strips: readonly BentStrip[], turn: number, radius: number, thickness: number): number | undefined => {
  const ratio = fromStrips(
    strips.filter((strip) => strip.turnSet !== undefined),
    turn,
    radius,
    thickness,
  )?.setOverLeft;
  return ratio === undefined ? undefined : turn * ratio;
};

/** In steps of what counts as the same bend. */
const place = (turn: number, ratio: number): { readonly x: number; readonly y: number } => ({
  x: turn / sameBend.turn,
  y: ratio / sameBend.ratio,
});

const merged = (strips: readonly BentStrip[]): readonly Node[] => {
  const groups: BentStrip[][] = [];
  for (const strip of strips) {
    const at = place(strip.turn, strip.radius / strip.thickness);
    const same = groups.find(([first]) => {
      if (first === undefined) return false;
      const there = place(first.turn, first.radius / first.thickness);
      return Math.abs(there.x - at.x) <= 1 && Math.abs(there.y - at.y) <= 1;
    });
    if (same === undefined) groups.push([strip]);
    else same.push(strip);
  }
  return groups.map((group, i) => {
    const mean = (of: (strip: BentStrip) => number): number => group.reduce((sum, strip) => sum + of(strip), 0) / group.length;
    const sprung = group.flatMap((strip) => (strip.turnSet === undefined ? [] : [strip.turnSet / strip.turn]));
    return {
      ...place(
        mean((strip) => strip.turn),
        mean((strip) => strip.radius / strip.thickness),
      ),
      k: mean((strip) => strip.k),
      spread: Math.hypot(...group.map((strip) => strip.kSpread)) / group.length,
      set: sprung.length === 0 ? undefined : sprung.reduce((sum, ratio) => sum + ratio, 0) / sprung.length,
      names: group.map((strip) => strip.name),
      // No four of these lie in one plane over a parallelogram, so four strips always fall into two triangles.
      lift: 1e-3 * Math.sin(1 + 12.9898 * i * i),
    };
  });
};

interface Spot {
  readonly x: number;
  readonly y: number;
}
/** Off the middle of a line or an edge by less than this, in steps, is on it. */
const onIt = 1;

const sharesAt = (nodes: readonly Node[], at: Spot): { readonly shares: readonly Share[]; readonly away: boolean } => {
  const inside = triangles(nodes).find((corners) => byArea(corners, at).every(({ share }) => share >= -1e-9));
  if (inside !== undefined) return { shares: byArea(inside, at), away: false };
  // On the rim, or outside: the nearest point of any line between two (of the strip itself, where there is one alone).
  let best: { readonly shares: readonly Share[]; readonly off: number } | undefined;
  for (const [a, b] of rim(nodes)) {
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const long = dx * dx + dy * dy;
    const share = long === 0 ? 0 : Math.min(1, Math.max(0, ((at.x - a.x) * dx + (at.y - a.y) * dy) / long));
    const off = Math.max(Math.abs(a.x + share * dx - at.x), Math.abs(a.y + share * dy - at.y));
    if (best === undefined || off < best.off - 1e-9) {
      best = {
        off,
        shares: [
          { node: a, share: 1 - share },
          { node: b, share },
        ],
      };
    }
  }
  return { shares: best?.shares ?? [], away: (best?.off ?? 0) > onIt + 1e-9 };
};

/** Lines along which the nearest tried bend is sought: between neighbours where all lie in one line, else the sides of the triangles. */
const rim = (nodes: readonly Node[]): readonly (readonly [Node, Node])[] => {
  const [first] = nodes;
  if (first === undefined) return [];
  if (nodes.length === 1) return [[first, first]];
  const corners = triangles(nodes);
  if (corners.length > 0)
    return corners.flatMap(([a, b, c]) => [
      [a, b],
      [b, c],
      [c, a],
    ]);
  const wide = Math.max(...nodes.map((n) => n.x)) - Math.min(...nodes.map((n) => n.x));
  const high = Math.max(...nodes.map((n) => n.y)) - Math.min(...nodes.map((n) => n.y));
  const order = [...nodes].sort((a, b) => (wide >= high ? a.x - b.x : a.y - b.y));
  return order.slice(1).map((node, i) => [order[i] ?? node, node]);
};

type Corners = readonly [Node, Node, Node];
const twiceArea = (a: Spot, b: Spot, c: Spot): number => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
/** A triangle flatter than this, in steps, is a line. */
const flat = (a: Spot, b: Spot, c: Spot): boolean => {
  const long = Math.max(Math.hypot(b.x - a.x, b.y - a.y), Math.hypot(c.x - b.x, c.y - b.y), Math.hypot(a.x - c.x, a.y - c.y));
  return Math.abs(twiceArea(a, b, c)) < 0.5 * long;
};

const byArea = ([a, b, c]: Corners, at: Spot): readonly Share[] => {
  const whole = twiceArea(a, b, c);
  return [
    { node: a, share: twiceArea(at, b, c) / whole },
    { node: b, share: twiceArea(a, at, c) / whole },
    { node: c, share: twiceArea(a, b, at) / whole },
  ];
};

/** Delaunay's triangles: those whose circle through the corners holds no other strip. A shop has a handful of strips, so all are tried. */
const triangles = (nodes: readonly Node[]): readonly Corners[] => {
  const found: Corners[] = [];
  for (const [i, a] of nodes.entries()) {
    for (const [j, b] of nodes.slice(i + 1).entries()) {
      for (const c of nodes.slice(i + 1 + j + 1)) {
        if (flat(a, b, c)) continue;
        const corners: Corners = twiceArea(a, b, c) > 0 ? [a, b, c] : [a, c, b];
        if (nodes.every((node) => corners.includes(node) || !inCircle(corners, node))) found.push(corners);
      }
    }
  }
  return found;
};
const inCircle = ([a, b, c]: Corners, d: Node): boolean => {
  const row = (p: Node): readonly [number, number, number] => [p.x - d.x, p.y - d.y, (p.x - d.x) ** 2 + (p.y - d.y) ** 2 + p.lift - d.lift];
  const [ax, ay, aq] = row(a);
  const [bx, by, bq] = row(b);
  const [cx, cy, cq] = row(c);
  return ax * (by * cq - bq * cy) - ay * (bx * cq - bq * cx) + aq * (bx * cy - by * cx) > 0;
};

const outsideOf = (strips: readonly BentStrip[], turn: number, ratio: number): Outside => {
  const turns = strips.map((strip) => strip.turn);
  const ratios = strips.map((strip) => strip.radius / strip.thickness);
  const [t0, t1, r0, r1] = [Math.min(...turns), Math.max(...turns), Math.min(...ratios), Math.max(...ratios)];
  const turnOff = turn < t0 - sameBend.turn || turn > t1 + sameBend.turn;
  const ratioOff = ratio < r0 - sameBend.ratio || ratio > r1 + sameBend.ratio;
  return { what: turnOff === ratioOff ? 'pair' : turnOff ? 'turn' : 'radius', turns: [t0, t1], ratios: [r0, r1] };
};

const degrees = (turn: number): string => `${Number(((turn * 180) / Math.PI).toFixed(1))}°`;
const times = (ratio: number): string => `${Number(ratio.toFixed(2))}`;
const range = ([a, b]: readonly [number, number], say: (value: number) => string): string =>
  say(a) === say(b) ? say(a) : `${say(a)} to ${say(b)}`;

/** "trial strip_1, K 0.318 ± 0.022; outside the strips tried, 30° to 95°: extrapolated". */
export const sayTrial = (answer: TrialAnswer, count: number): string => {
  const { from, k, kSpread, outside } = answer;
  const names = from.length < 2 ? from.join('') : `${from.slice(0, -1).join(', ')} and ${from[from.length - 1]}`;
  const give = kSpread > 0 ? ` ± ${kSpread < 0.0005 ? '0.0005' : kSpread.toFixed(3)}` : '';
  const said = `trial${from.length > 1 ? 's' : ''} ${names}, K ${k.toFixed(3)}${give}`;
  if (outside === undefined) return said;
  const turns = range(outside.turns, degrees);
  const radii = `a radius of ${range(outside.ratios, times)} T`;
  const tried = outside.what === 'turn' ? turns : outside.what === 'radius' ? radii : `${turns} at ${radii}`;
  return `${said}; outside the strip${count > 1 ? 's' : ''} tried, ${tried}: extrapolated`;
};
