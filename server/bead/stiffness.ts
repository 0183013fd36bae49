/**
 * What beads do for a panel: deflection under its loads and first natural frequency, against the same panel flat and against one bead more and one
 * fewer. Parallel beads are spread out into a plate that is stiffer one way, over the rectangle they cover; the sheet beyond their ends stays flat.
 * Small deflections. Every answer comes with where it stops holding. mm, N, MPa, Hz.
 */
import { repeatingSection } from '../trade/bead-sections.js';
import type { Midline } from '../trade/midline.js';
import {
  beadedStiffness,
  evenStiffness,
  type Plate,
  type PlateEdges,
  type PlateLoad,
  type PlateStiffness,
  type SolvedPlate,
  solvePlate,
} from '../trade/plates.js';
import type { Words } from './types.js';

/** A straight bead or band along x or y. */
export interface StraightBead {
  readonly id: string;
  readonly along: 'x' | 'y';
  /** Place of its middle across it, and of both its ends along it. */
  readonly at: number;
  readonly from: number;
  readonly to: number;
  readonly direction: 'up' | 'down';
  readonly midline: Midline;
  /** Foot to foot. */
  readonly width: number;
  readonly depth: number;
}
export interface StiffnessCase {
  readonly load: PlateLoad;
  readonly edges: PlateEdges;
}
export interface StiffPanel {
  /** Between the held edges; lower left corner at (0, 0). */
  readonly width: number;
  readonly height: number;
  readonly thickness: number;
  readonly modulus: number; // MPa
  readonly poisson: number;
  readonly density: number | undefined; // kg/m³
  readonly beads: readonly StraightBead[];
  /** Beads that are not straight along x or y, a border for one, and single steps: they stiffen what lies round them and are left out of the sums. */
  readonly uncounted: readonly string[];
  readonly cases: readonly StiffnessCase[];
}

export interface PanelState {
  /** Greatest deflection, positive the way the load pushes, and where. */
  readonly deflection: number;
  readonly at: { readonly x: number; readonly y: number };
  /** First natural frequency; undefined without a density. */
  readonly frequency: number | undefined;
}
export interface BeadVariant extends PanelState {
  readonly count: number;
  readonly pitch: number;
}
export interface CaseAnswer {
  readonly load: PlateLoad;
  readonly flat: PanelState;
  readonly beaded: BeadVariant | undefined; // undefined without beads that count
  /** How many times less the beaded panel deflects; 1 without beads. */
  readonly gain: number;
  readonly fewer: BeadVariant | undefined;
  readonly more: BeadVariant | undefined;
  /** Where this case's answer stops holding, sentences. */
  readonly limits: readonly string[];
}
export interface BeadField {
  readonly along: 'x' | 'y';
  readonly count: number;
  readonly pitch: number;
  /** The rectangle they cover, half a pitch beyond the outer ones. */
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  /** mm⁴ for each mm across the beads, and how many times that of flat sheet. */
  readonly secondMoment: number;
  readonly ratio: number;
  /** Length of midline over pitch. */
  readonly stretch: number;
}
export interface StiffnessAnswer {
  readonly fields: readonly BeadField[];
  readonly cases: readonly CaseAnswer[];
  /** What holds for every case: what was left out, how it was reckoned. Sentences. */
  readonly limits: readonly string[];
}

/** Ends nearer to the support than this share of the span count as reaching it. Common practice, no source. */
const REACHES = 0.02;
/** Beads this much out of even spacing are still spread evenly without remark. */
const UNEVEN = 0.2;
const FEW = 3;

/**
 * @param words how lengths are said in the sentences
 * @returns undefined when the panel has no size, no case, or a modulus that is none
 */
export const stiffnessOf = (panel: StiffPanel, words: Words): StiffnessAnswer | undefined => {
  if (!(panel.width > 0 && panel.height > 0 && panel.thickness > 0 && panel.modulus > 0)) return undefined;
  const groups = (['x', 'y'] as const)
    .map((along) => panel.beads.filter((bead) => bead.along === along))
    .filter((group) => group.length > 0);
  const fields = groups.flatMap((group) => fieldOf(panel, group, group.length) ?? []);
  const single = groups.length === 1 ? groups[0] : undefined;
  const variant = (count: number): readonly BeadField[] | undefined => {
    if (single === undefined || count < 1) return undefined;
    const field = fieldOf(panel, single, count);
    return field === undefined ? undefined : [field];
  };
  const number = single?.length ?? 0;
  const states = statesOf(panel);
  const cases = panel.cases.flatMap((one): CaseAnswer[] => {
    const flat = states([], one);
    if (flat === undefined) return [];
    const at = (of: readonly BeadField[] | undefined): BeadVariant | undefined => {
      const state = of === undefined || of.length === 0 ? undefined : states(of, one);
      const first = of?.[0];
      return state === undefined || first === undefined
        ? undefined
        : { ...state, count: (of ?? []).reduce((sum, field) => sum + field.count, 0), pitch: first.pitch };
    };
    const beaded = at(fields.length === groups.length ? fields : undefined);
    const gain = beaded === undefined || beaded.deflection === 0 ? 1 : flat.deflection / beaded.deflection;
    const fewer = number === 1 ? { ...flat, count: 0, pitch: 0 } : at(variant(number - 1));
    return [
      {
        load: one.load,
        flat,
        beaded,
        gain,
        fewer: number === 0 ? undefined : fewer,
        more: number === 0 ? undefined : at(variant(number + 1)),
        limits: caseLimits(panel, flat, beaded, words),
      },
    ];
  });
  return { fields, cases, limits: panelLimits(panel, groups, fields, words) };
};

/** A group of parallel beads as `count` evenly spaced ones over the breadth that they take now; undefined when so many have no room. */
const fieldOf = (panel: StiffPanel, group: readonly StraightBead[], count: number): BeadField | undefined => {
  const first = group[0];
  if (first === undefined) return undefined;
  const { along } = first;
  const [length, breadth] = along === 'x' ? [panel.width, panel.height] : [panel.height, panel.width];
  const places = group.map((bead) => bead.at).sort((a, b) => a - b);
  const [low, high] = [places[0] ?? 0, places[places.length - 1] ?? 0];
  const half = places.length > 1 ? (high - low) / (places.length - 1) / 2 : breadth;
  const across = clip([low - half, high + half], breadth);
  const mean = (of: (bead: StraightBead) => number): number => group.reduce((sum, bead) => sum + of(bead), 0) / group.length;
  const run = clip([mean((bead) => Math.min(bead.from, bead.to)), mean((bead) => Math.max(bead.from, bead.to))], length);
  if (!(run[1] > run[0] && across[1] > across[0])) return undefined;
  const pitch = (across[1] - across[0]) / count;
  const sections = group.map((bead) => repeatingSection(bead.midline, bead.width, pitch, panel.thickness));
  let [secondMoment, stretch] = [0, 0];
  for (const section of sections) {
    if (section === undefined) return undefined;
    secondMoment += section.secondMomentPerWidth / group.length;
    stretch += section.stretch / group.length;
  }
  const [x, y] = along === 'x' ? [run, across] : [across, run];
  return { along, count, pitch, x, y, secondMoment, ratio: secondMoment / (panel.thickness ** 3 / 12), stretch };
};
/** Cut to the panel; what nearly reaches an edge reaches it. */
const clip = ([from, to]: readonly [number, number], whole: number): readonly [number, number] => [
  from < REACHES * whole ? 0 : from,
  to > (1 - REACHES) * whole ? whole : to,
];

/** Deflection and frequency by beads and case; one plate is solved once for all cases held alike. */
const statesOf = (panel: StiffPanel): ((fields: readonly BeadField[], one: StiffnessCase) => PanelState | undefined) => {
  const solved = new Map<string, { readonly under: (load: PlateLoad) => PanelState } | undefined>();
  const like = new Map<string, SolvedPlate>();
  return (fields, { load, edges }) => {
    const key = JSON.stringify([edges, fields.map((field) => [field.along, field.count])]);
    if (!solved.has(key)) {
      const held = JSON.stringify([edges, fields.length > 0]);
      const plate = solvePlate(plateOf(panel, fields, edges), undefined, like.get(held));
      if (plate !== undefined) like.set(held, plate);
      const frequency = plate?.firstFrequency();
      solved.set(
        key,
        plate === undefined
          ? undefined
          : {
              under: (weight) => {
                const { deflection, x, y } = plate.under(weight).greatest;
                return { deflection: Math.abs(deflection), at: { x, y }, frequency };
              },
            },
      );
    }
    return solved.get(key)?.under(load);
  };
};

const plateOf = (panel: StiffPanel, fields: readonly BeadField[], edges: PlateEdges): Plate => {
  const { width, height, thickness, modulus, poisson, density } = panel;
  const bare = evenStiffness(modulus, thickness, poisson);
  const sheet = density === undefined ? undefined : density * 1e-12 * thickness;
  const base = { width, height, edges, stiffness: bare };
  if (fields.length === 0) return { ...base, massPerArea: sheet };
  const stiff = fields
    .map((field) => beadedStiffness(modulus, poisson, thickness, field.secondMoment, field.stretch, field.along))
    .reduce(crossed);
  const x = hull(fields.map((field) => field.x));
  const y = hull(fields.map((field) => field.y));
  // The beads' sheet is taken as drawn in from beyond them, so it weighs in full.
  const covered = ((x[1] - x[0]) * (y[1] - y[0])) / (width * height);
  const stretch = fields.reduce((sum, field) => sum + field.stretch - 1, 0);
  const massPerArea = sheet === undefined ? undefined : sheet * (1 + covered * stretch);
  const whole = x[0] === 0 && y[0] === 0 && x[1] === width && y[1] === height;
  return whole ? { ...base, stiffness: stiff, massPerArea } : { ...base, massPerArea, stiffened: { x, y, stiffness: stiff } };
};
/** Beads both ways: each stiffens its own, the weaker coupling and twist hold. */
const crossed = (a: PlateStiffness, b: PlateStiffness): PlateStiffness => ({
  x: Math.max(a.x, b.x),
  y: Math.max(a.y, b.y),
  cross: Math.min(a.cross, b.cross),
  twist: Math.min(a.twist, b.twist),
});
const hull = (extents: readonly (readonly [number, number])[]): readonly [number, number] => [
  Math.min(...extents.map((e) => e[0])),
  Math.max(...extents.map((e) => e[1])),
];

const caseLimits = (panel: StiffPanel, flat: PanelState, beaded: PanelState | undefined, words: Words): readonly string[] => {
  const limits: string[] = [];
  const half = panel.thickness / 2;
  const held = `half the sheet’s thickness, ${words.say(half)}`;
  if (flat.deflection > half)
    limits.push(
      `flat, it would deflect ${words.say(flat.deflection)}, more than ${held}: sheet that sags so far carries partly as a skin, so it deflects less than this and the beads gain less than the numbers say`,
    );
  if (beaded !== undefined && beaded.deflection > half)
    limits.push(
      `beaded, it deflects ${words.say(beaded.deflection)}, more than ${held}: take the number as the most it can be, not as the likely one`,
    );
  return limits;
};

const panelLimits = (
  panel: StiffPanel,
  groups: readonly (readonly StraightBead[])[],
  fields: readonly BeadField[],
  words: Words,
): readonly string[] => {
  const limits: string[] = [];
  if (panel.uncounted.length > 0)
    limits.push(
      `${panel.uncounted.join(', ')} not counted: only beads straight along the panel or across it are; a border, a curve or a single step stiffens its surroundings only`,
    );
  if (fields.length < groups.length) limits.push('the beads lie closer than they are wide, so their gain is not computed');
  if (fields.length === 0) return limits;
  if (groups.length > 1)
    limits.push(
      'beads run both ways: where they cross each interrupts the other, so the panel deflects more than this says; try it before relying on it',
    );
  for (const group of groups) limits.push(...groupLimits(panel, group, words));
  for (const field of fields) limits.push(...fieldLimits(panel, field, words));
  limits.push(
    'the beads are spread out into an even plate; how such a plate twists is known roughly only (Wennberg, Wennhage and Stichel 2011), so panels held at a corner or along two neighbouring edges are the least certain',
  );
  return limits;
};

const groupLimits = (panel: StiffPanel, group: readonly StraightBead[], words: Words): readonly string[] => {
  const limits: string[] = [];
  const places = group.map((bead) => bead.at).sort((a, b) => a - b);
  const gaps = places.slice(1).map((at, i) => at - (places[i] ?? at));
  const [least, most] = [Math.min(...gaps), Math.max(...gaps)];
  if (gaps.length > 0 && most > (1 + UNEVEN) * least)
    limits.push(`the beads stand ${words.say(least)} to ${words.say(most)} apart and are reckoned as evenly spaced`);
  if (new Set(group.map((bead) => bead.direction)).size > 1)
    limits.push('beads stand up and down: they are reckoned as all to one side, which is the less stiff');
  const span = Math.min(panel.width, panel.height);
  const deep = Math.max(...group.map((bead) => bead.depth));
  if (deep > span / 20)
    limits.push(
      `beads ${words.say(deep)} deep are more than a twentieth of the ${words.say(span)} span: shear and the flanks' own bending count, and are left out`,
    );
  return limits;
};
const fieldLimits = (panel: StiffPanel, field: BeadField, words: Words): readonly string[] => {
  const limits: string[] = [];
  const [length, run] = field.along === 'x' ? [panel.width, field.x] : [panel.height, field.y];
  if (field.count < FEW)
    limits.push(
      `${field.count === 1 ? 'one bead' : `${field.count} beads`}: spreading them out asks for ${FEW} or more over the span; between the beads the sheet deflects more`,
    );
  const [near, far] = [run[0], length - run[1]];
  if (near > 0 || far > 0)
    limits.push(
      `the beads stop ${words.say(Math.max(near, far))} short of the panel’s edge; the flat sheet there bends most, and is reckoned as flat right up to the beads' ends`,
    );
  return limits;
};
