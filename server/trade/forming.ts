/** What a sheet bears when it is stretched into a bead: limits, passes, and how the strain comes on. Strains are ratios (0.15 is 15 %). */
import { type BeadSection, beadSection, bendingStrain, type DieSizes } from './bead-sections.js';

/** What is asked of a metal about stretching. */
export interface StretchedMetal {
  readonly name: string;
  readonly elongation: number | undefined; // over 50 mm, ratio
  readonly hardening: number | undefined; // n
}
export interface Ductility {
  readonly family: string | undefined;
  readonly elongation: number | undefined;
  readonly hardening: number | undefined;
  readonly carbonSteel: boolean;
  readonly source: string;
}

interface Family {
  readonly family: string;
  readonly named: RegExp;
  readonly elongation: number;
  readonly hardening: number;
  readonly carbonSteel?: true;
}
/**
 * Elongation over 50 mm and hardening exponent, the low end of what is usual. Tried in order, so tempers stand before the plain alloy.
 * Source: handbook tables of typical values, from memory; check them against the mill's sheet.
 */
const FAMILIES: readonly Family[] = [
  { family: 'deep-drawing steel', named: /dc0?4|akdq|deep_?draw|ddq/, elongation: 0.38, hardening: 0.22, carbonSteel: true },
  { family: 'galvanised steel', named: /galv|dx51|zinc/, elongation: 0.22, hardening: 0.15, carbonSteel: true },
  { family: 'stainless steel, annealed', named: /stainless|(^|_)(aisi_?)?304|inox/, elongation: 0.4, hardening: 0.45 },
  { family: 'hot-rolled mild steel', named: /s235|hot_?roll|(^|_)hr(s|_|$)|a36/, elongation: 0.24, hardening: 0.16, carbonSteel: true },
  { family: 'cold-rolled mild steel', named: /dc0?1|crs|cold_?roll|mild/, elongation: 0.28, hardening: 0.18, carbonSteel: true },
  { family: 'aluminium 3003 half hard', named: /3003_?h/, elongation: 0.08, hardening: 0.08 },
  { family: 'aluminium 3003 soft', named: /3003_?o(_|$)/, elongation: 0.3, hardening: 0.24 },
  { family: 'aluminium 5052 quarter hard', named: /5052_?h/, elongation: 0.12, hardening: 0.12 },
  { family: 'aluminium 5052 soft', named: /5052_?o(_|$)/, elongation: 0.25, hardening: 0.23 },
  { family: 'aluminium 6061 hard', named: /6061_?t/, elongation: 0.12, hardening: 0.05 },
  { family: 'aluminium 6061 soft', named: /6061_?o(_|$)/, elongation: 0.25, hardening: 0.2 },
  { family: 'copper, annealed', named: /copper.*(soft|anneal)|(soft|anneal).*copper/, elongation: 0.45, hardening: 0.44 },
  { family: 'brass 70/30, annealed', named: /brass.*(soft|anneal)|(soft|anneal).*brass/, elongation: 0.6, hardening: 0.49 },
];

/** Elongation and n: the material's own, and what is missing from the family its name tells of; undefined where neither knows. */
export const ductility = (metal: StretchedMetal): Ductility => {
  const name = metal.name.toLowerCase().replace(/[^a-z0-9]+/g, '_');
  const family = FAMILIES.find((candidate) => candidate.named.test(name));
  const own = metal.elongation !== undefined || family === undefined;
  return {
    family: family?.family,
    elongation: metal.elongation ?? family?.elongation,
    hardening: metal.hardening ?? family?.hardening,
    carbonSteel: family?.carbonSteel === true,
    source: own ? `material ${metal.name}` : `${family.family}, low end of typical values from memory`,
  };
};

/** Share of the elongation over 50 mm that a bead may use on the average. Common practice, no source. */
const WORKING_SHARE = 0.5;

export interface StretchLimit {
  /** Mean strain a bead should stay within. */
  readonly working: number;
  /** Where the sheet begins to neck: about n, in plane strain. */
  readonly necking: number | undefined;
  readonly source: string;
}
/** How far a bead may stretch the sheet on the average; undefined when the metal's elongation isn't known. */
export const stretchLimit = (metal: Ductility): StretchLimit | undefined =>
  metal.elongation === undefined
    ? undefined
    : {
        working: WORKING_SHARE * metal.elongation,
        necking: metal.hardening,
        source: `half the elongation over 50 mm (${metal.source}); common practice, no source`,
      };

/** Greatest thickness, mm, and exponent up to which the forming-limit form below was fitted. */
const FORMING_LIMIT_THICKEST = 3.2;
const FORMING_LIMIT_HARDENING = 0.21;

/**
 * Least point of the forming limit curve of low-carbon steel, as an engineering strain: (23.3 + 14.13 T) n / 0.21 in per cent.
 *
 * @param thickness mm
 * Source: Keeler and Brazier, constants from memory. Fitted on low-carbon steel up to about 3.2 mm and n 0.21; it says nothing of aluminium or
 * stainless.
 */
export const formingLimit = (thickness: number, hardening: number): number =>
  ((23.3 + 14.13 * thickness) * (hardening / FORMING_LIMIT_HARDENING)) / 100;

/** The forming limit where its form holds, else undefined. */
export const formingLimitOf = (metal: Ductility, thickness: number): number | undefined => {
  if (!metal.carbonSteel || metal.hardening === undefined) return undefined;
  if (thickness > FORMING_LIMIT_THICKEST + 1e-9 || metal.hardening > FORMING_LIMIT_HARDENING + 1e-9) return undefined;
  return formingLimit(thickness, metal.hardening);
};
/** Usual margin below a forming limit, as a strain. Common practice, no source. */
export const FORMING_MARGIN = 0.1;

/** Stretch of the outer skin of a bend, neutral line in the middle: 1 / (2 R/T + 1). Source: plane geometry. */
export const outerFibreStrain = (inside: number, thickness: number): number => 1 / ((2 * inside) / thickness + 1);

/**
 * Least inside radius over thickness by what the metal necks down in a tensile test: 50/r − 1, r the reduction of area in per cent; none from 50 % on.
 * Source: Kalpakjian and Schmid, Manufacturing Engineering and Technology, from memory.
 */
export const ductilityRadius = (reductionOfArea: number): number => Math.max(0, 0.5 / reductionOfArea - 1);

/** Depth that one pass takes well, in thicknesses, where the die does not say. Common practice (2–3 T in soft metal), no source. */
const PASS_BY_THICKNESS = 2;

export interface Passes {
  readonly count: number;
  /** How much deeper each goes, mm. */
  readonly each: number;
  readonly source: string;
}
/**
 * Passes to a depth, all alike.
 *
 * @param perPass what the die says one pass may add, mm
 */
export const passesTo = (depth: number, perPass: number | undefined, thickness: number): Passes => {
  const most = perPass !== undefined && perPass > 0 ? perPass : PASS_BY_THICKNESS * thickness;
  const count = Math.max(1, Math.ceil(depth / most - 1e-9));
  return {
    count,
    each: depth / count,
    source: perPass !== undefined && perPass > 0 ? 'per pass of the die' : 'twice the thickness a pass; common practice, no source',
  };
};

/** Mean strain after each pass of a die, none drawn in; the difference of two is what that pass asks. Undefined where the die makes no section. */
export const strainByPass = (die: DieSizes, thickness: number, passes: Passes): readonly number[] | undefined => {
  const strains: number[] = [];
  for (let pass = 1; pass <= passes.count; pass++) {
    // On the way down the radii are looser than the die's, so the shallow section takes what joins its feet.
    const depth = passes.each * pass;
    const own = beadSection(die, thickness, depth);
    const answer = own.ok ? own : beadSection({ ...die, nose: undefined, shoulder: undefined }, thickness, depth);
    if (!answer.ok) return undefined;
    strains.push(answer.section.meanStrain);
  }
  return strains;
};

export interface StrainJudgement {
  /** Mean strain with none and with the stated share drawn in. */
  readonly greatest: number;
  readonly expected: number;
  /** Of the outer skin at the tightest radius. */
  readonly peak: number;
  readonly limit: StretchLimit | undefined;
  readonly formingLimit: number | undefined;
  /** How the expected strain stands to the working limit: `ok`, `near` (above four fifths), `over`; `unknown` without a limit. */
  readonly verdict: 'ok' | 'near' | 'over' | 'unknown';
}
/** Strain of a bead against its metal. @param share of what the bead needs that draws in, 0…1 */
export const judgeStrain = (section: BeadSection, metal: Ductility, share: number): StrainJudgement => {
  const limit = stretchLimit(metal);
  const expected = Math.max(0, 1 - share) * section.meanStrain;
  const bending = bendingStrain(section);
  const verdict = limit === undefined ? 'unknown' : expected > limit.working ? 'over' : expected > 0.8 * limit.working ? 'near' : 'ok';
  return {
    greatest: section.meanStrain,
    expected,
    peak: bending + expected,
    limit,
    formingLimit: formingLimitOf(metal, section.thickness),
    verdict,
  };
};

/** Share of what a bead needs that comes from the sheet beside it, where no strip was tried. Common practice, no source; anything from none to all occurs. */
export const USUAL_DRAW_IN_SHARE = 0.7;

export interface DrawInShare {
  readonly share: number;
  /** Either way, from how finely it was read; 0 when not said. */
  readonly spread: number;
  /** Outside 0…1 by more than the spread: something was misread, or the section is not the die's. */
  readonly doubtful: boolean;
}
/**
 * Share drawn in by a bead right across a strip, from its size across the bead before and after.
 *
 * @param finest       least step that could be told apart after, mm: the reading is off by half of it at most
 * @param finestBefore the same before; as after when not said
 * @returns undefined when the bead needs no sheet
 */
export const measuredDrawIn = (
  before: number,
  after: number,
  section: BeadSection,
  finest: number,
  finestBefore = finest,
): DrawInShare | undefined => {
  const needed = section.developed - section.width;
  if (!(needed > 1e-9)) return undefined;
  const share = (before - after) / needed;
  const spread = (Math.abs(finest) + Math.abs(finestBefore)) / 2 / needed;
  return { share, spread, doubtful: share < -spread - 1e-9 || share > 1 + spread + 1e-9 };
};
