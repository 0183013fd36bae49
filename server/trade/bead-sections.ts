/**
 * The true section that a pair of rolls leaves in a sheet: its midline with the radii it really has. Millimetres; the section stands on y = 0 with its
 * middle at x = 0, crown up; a step rises from left to right.
 */
import { developedLength, type Midline, mirrored, type SheetSection, sheetSection, shifted, tightestOf } from './midline.js';

/** A die's sizes, as the shop states them. Radii are on the inside of each bend; undefined where not said. */
export interface DieSizes {
  readonly shape: 'round' | 'vee' | 'flat' | 'step' | 'tipping';
  /** Between the feet, where the sheet is flat again. */
  readonly width: number | undefined;
  /** From the flat of the sheet to the crown, on one side. */
  readonly depth: number | undefined;
  readonly nose?: number;
  readonly shoulder?: number;
}

export interface BeadSection {
  readonly shape: 'round' | 'vee' | 'flat' | 'step';
  readonly thickness: number;
  /** Between the feet; of a step, the run of its slope with both bends. */
  readonly width: number;
  readonly depth: number;
  /** Inside radii as built, given or assumed. */
  readonly nose: number;
  readonly shoulder: number;
  /** How steep the flank gets, rad from flat. */
  readonly flank: number;
  readonly midline: Midline;
  readonly properties: SheetSection;
  /** Length of midline from foot to foot. */
  readonly developed: number;
  /** (developed − width) / width: what the sheet stretches on the average when none of it draws in. */
  readonly meanStrain: number;
  /** Tightest radius of the midline. */
  readonly tightest: number;
  /** Sentences on what was assumed, empty when the die states it all. */
  readonly assumed: readonly string[];
}

/** Why a die makes no section in this sheet. `limit` is the greatest (or with `too small` the least) size that would do, mm. */
export interface NoSection {
  readonly at: 'shape' | 'width' | 'depth' | 'nose' | 'shoulder';
  readonly why: 'not said' | 'too great' | 'too small' | 'no bead';
  readonly limit: number | undefined;
}
export type SectionAnswer = { readonly ok: true; readonly section: BeadSection } | { readonly ok: false; readonly refusal: NoSection };

/** Inside radii where the die does not say. Common practice, no source. */
const SHOULDER_BY_THICKNESS = 1.5;
const NOSE_BY_THICKNESS = 1;
/** Flat-topped beads: flanks 30° from upright. Common practice (15–30°), no source. */
const FLAT_FLANK = Math.PI / 3;
/** Steps: as steep as 45° where the die does not say how wide. Common practice, no source. */
const STEP_FLANK = Math.PI / 4;
/** Steeper than this the sheet can't leave the rolls. */
const STEEPEST = (88 * Math.PI) / 180;

/** A rise by two opposite bends whose midline radii add up to `radii`, with a straight between. */
interface Rise {
  readonly run: number;
  readonly straight: number;
  readonly flank: number;
}
/**
 * How steep and how long the straight is, from run and height.
 *
 * The straight and the line of centres make a right angle: straight² = run² + height² − 2 · height · radii.
 * @returns undefined when the radii leave no straight or the flank would lean past upright
 */
const riseOver = (run: number, height: number, radii: number): Rise | undefined => {
  const square = run * run + height * height - 2 * height * radii;
  if (square < -1e-9) return undefined;
  const straight = Math.sqrt(Math.max(0, square));
  const flank = Math.atan2(height - radii, run) + Math.atan2(radii, straight);
  return flank > STEEPEST ? undefined : { run, straight, flank };
};
/** The rise at a given steepness; arcs alone, less steep, where the height leaves no room for a straight. */
const riseAt = (flank: number, height: number, radii: number): Rise => {
  const straight = (height - radii * (1 - Math.cos(flank))) / Math.sin(flank);
  if (straight >= 0) return { run: radii * Math.sin(flank) + straight * Math.cos(flank), straight, flank };
  const less = Math.acos(1 - height / radii);
  return { run: radii * Math.sin(less), straight: 0, flank: less };
};

/** Foot at (left, 0) up to (left + run, height): shoulder bend, straight, nose bend; radii of the midline. */
const riseLine = (left: number, height: number, rise: Rise, shoulder: number, nose: number): Midline => {
  const { flank, run } = rise;
  const foot = { x: left + shoulder * Math.sin(flank), y: shoulder * (1 - Math.cos(flank)) };
  const top = { x: left + run - nose * Math.sin(flank), y: height - nose * (1 - Math.cos(flank)) };
  return [
    { kind: 'arc', centre: { x: left, y: shoulder }, radius: shoulder, start: -Math.PI / 2, sweep: flank },
    { kind: 'line', from: foot, to: top },
    { kind: 'arc', centre: { x: left + run, y: height - nose }, radius: nose, start: Math.PI / 2 + flank, sweep: -flank },
  ];
};

const refuse = (at: NoSection['at'], why: NoSection['why'], limit?: number): SectionAnswer => ({ ok: false, refusal: { at, why, limit } });

/**
 * The section a die leaves in a sheet.
 *
 * Round: a crown arc that meets the shoulders, with straight flanks only where both radii are given. Vee: straight flanks between nose and shoulders.
 * Flat-topped: the same with a flat between two noses. Step: one rise. Radii not said are taken as common practice has it: shoulder 1.5 T, nose 1 T
 * (round: whatever joins the shoulders), smaller where that does not fit.
 *
 * @param thickness of the sheet, > 0
 * @param depth     rolled so far, when not the die's full depth
 * @returns the section, or where the sizes fail and what would do
 */
export const beadSection = (die: DieSizes, thickness: number, depth = die.depth): SectionAnswer => {
  const { shape } = die;
  if (shape === 'tipping') return refuse('shape', 'no bead');
  if (depth === undefined) return refuse('depth', 'not said');
  if (!(depth > 0)) return refuse('depth', 'too small', 0);
  if (shape === 'step') return stepSection(die, thickness, depth);
  if (die.width === undefined) return refuse('width', 'not said');
  if (!(die.width > 0)) return refuse('width', 'too small', 0);
  return shape === 'flat' ? flatSection(die, die.width, thickness, depth) : crownSection(shape, die, die.width, thickness, depth);
};

const finish = (
  shape: BeadSection['shape'],
  thickness: number,
  sizes: { width: number; depth: number; nose: number; shoulder: number; flank: number },
  midline: Midline,
  assumed: readonly string[],
): SectionAnswer => {
  const properties = sheetSection(midline, thickness);
  const { developed } = properties;
  return {
    ok: true,
    section: {
      shape,
      thickness,
      ...sizes,
      midline,
      properties,
      developed,
      meanStrain: (developed - sizes.width) / sizes.width,
      tightest: tightestOf(midline),
      assumed,
    },
  };
};

const crownSection = (shape: 'round' | 'vee', die: DieSizes, width: number, thickness: number, depth: number): SectionAnswer => {
  const half = width / 2;
  const fits = fitRadii(shape, die, half, thickness, depth);
  if ('refusal' in fits) return { ok: false, refusal: fits.refusal };
  const { nose, shoulder, rise } = fits;
  const left = riseLine(-half, depth, rise, shoulder + thickness / 2, nose + thickness / 2);
  return finish(shape, thickness, { width, depth, nose, shoulder, flank: rise.flank }, [...left, ...mirrored(left)], fits.assumed);
};

interface Fit {
  readonly nose: number;
  readonly shoulder: number;
  readonly rise: Rise;
  readonly assumed: readonly string[];
}
/** Radii for half a bead: run from foot to middle and depth are fixed, what the die leaves open is chosen. */
const fitRadii = (
  shape: 'round' | 'vee' | 'step',
  die: DieSizes,
  run: number,
  thickness: number,
  depth: number,
): Fit | { refusal: NoSection } => {
  // Two arcs that just meet: their midline radii together; anything greater leaves no straight.
  const greatest = (run * run + depth * depth) / (2 * depth);
  const room = greatest - thickness;
  if (room < 0) {
    const least = Math.sqrt(2 * depth * thickness - depth * depth);
    return { refusal: { at: 'width', why: 'too small', limit: shape === 'step' ? least : 2 * least } };
  }
  if (shape === 'round' && die.nose === undefined && 2 * Math.atan2(depth, run) > STEEPEST)
    return { refusal: { at: 'depth', why: 'too great', limit: run * Math.tan(STEEPEST / 2) } };
  const assumed: string[] = [];
  const own = { nose: die.nose, shoulder: die.shoulder };
  if (own.nose !== undefined && own.nose > room + 1e-9) return { refusal: { at: 'nose', why: 'too great', limit: room } };
  if (own.shoulder !== undefined && own.shoulder > room + 1e-9) return { refusal: { at: 'shoulder', why: 'too great', limit: room } };
  if (own.nose !== undefined && own.shoulder !== undefined && own.nose + own.shoulder > room + 1e-9)
    return { refusal: { at: 'nose', why: 'too great', limit: room - own.shoulder } };
  // Where the nose is given, the shoulder may take at most what it leaves; where neither is, at most half.
  const shoulder = own.shoulder ?? Math.min(SHOULDER_BY_THICKNESS * thickness, own.nose === undefined ? room / 2 : room - own.nose);
  const nose = own.nose ?? (shape === 'round' ? room - shoulder : Math.min(NOSE_BY_THICKNESS * thickness, room - shoulder));
  if (own.shoulder === undefined)
    assumed.push('shoulder radius taken as 1.5 times the thickness, less where it has no room; common practice, no source');
  if (own.nose === undefined)
    assumed.push(
      shape === 'round'
        ? 'nose radius worked out so that the crown meets the shoulders'
        : 'nose radius taken as the thickness, less where it has no room; common practice, no source',
    );
  const rise = riseOver(run, depth, nose + shoulder + thickness);
  if (rise === undefined) return { refusal: { at: 'depth', why: 'too great', limit: deepest(run, nose + shoulder + thickness) } };
  return { nose, shoulder, rise, assumed };
};

/** Deepest that a run takes with these radii before the flank stands upright. */
const deepest = (run: number, radii: number): number => {
  const straight = (run - radii * Math.sin(STEEPEST)) / Math.cos(STEEPEST);
  return straight <= 0 ? 0 : radii * (1 - Math.cos(STEEPEST)) + straight * Math.sin(STEEPEST);
};

const flatSection = (die: DieSizes, width: number, thickness: number, depth: number): SectionAnswer => {
  const shoulder = die.shoulder ?? SHOULDER_BY_THICKNESS * thickness;
  const nose = die.nose ?? NOSE_BY_THICKNESS * thickness;
  const rise = riseAt(FLAT_FLANK, depth, nose + shoulder + thickness);
  const flat = width - 2 * rise.run;
  if (flat < -1e-9) return refuse('width', 'too small', 2 * rise.run);
  const left = riseLine(-width / 2, depth, rise, shoulder + thickness / 2, nose + thickness / 2);
  const top: Midline = flat < 1e-9 ? [] : [{ kind: 'line', from: { x: -flat / 2, y: depth }, to: { x: flat / 2, y: depth } }];
  const assumed = ['flanks taken as leaning 30° from upright at most; common practice, no source'];
  if (die.shoulder === undefined) assumed.push('shoulder radius taken as 1.5 times the thickness; common practice, no source');
  if (die.nose === undefined) assumed.push('nose radius taken as the thickness; common practice, no source');
  return finish('flat', thickness, { width, depth, nose, shoulder, flank: rise.flank }, [...left, ...top, ...mirrored(left)], assumed);
};

const stepSection = (die: DieSizes, thickness: number, depth: number): SectionAnswer => {
  if (die.width !== undefined) {
    if (!(die.width > 0)) return refuse('width', 'too small', 0);
    const fits = fitRadii('step', die, die.width, thickness, depth);
    if ('refusal' in fits) return { ok: false, refusal: fits.refusal };
    return stepOf(fits, thickness, depth);
  }
  const nose = die.nose ?? die.shoulder ?? NOSE_BY_THICKNESS * thickness;
  const shoulder = die.shoulder ?? nose;
  const assumed = ['slope of the step taken as 45° at most, since the die gives no width; common practice, no source'];
  if (die.nose === undefined && die.shoulder === undefined)
    assumed.push('both radii of the step taken as the thickness; common practice, no source');
  return stepOf({ nose, shoulder, rise: riseAt(STEP_FLANK, depth, nose + shoulder + thickness), assumed }, thickness, depth);
};
const stepOf = ({ nose, shoulder, rise, assumed }: Fit, thickness: number, depth: number): SectionAnswer => {
  const midline = riseLine(-rise.run / 2, depth, rise, shoulder + thickness / 2, nose + thickness / 2);
  return finish('step', thickness, { width: rise.run, depth, nose, shoulder, flank: rise.flank }, midline, assumed);
};

/**
 * A raised band of two steps with the sheet between them set off.
 *
 * @param width between the outer feet of both shoulders
 * @returns undefined when the two steps have no room
 */
export const bandMidline = (step: BeadSection, width: number): Midline | undefined => {
  const flat = width - 2 * step.width;
  if (flat < 0) return undefined;
  const left = shifted(step.midline, -width / 2 + step.width / 2);
  const top: Midline = flat < 1e-9 ? [] : [{ kind: 'line', from: { x: -flat / 2, y: step.depth }, to: { x: flat / 2, y: step.depth } }];
  return [...left, ...top, ...mirrored(left)];
};

/** Stretch of the sheet's outer skin where it is bent tightest: half the thickness over the midline's radius. Source: plane geometry. */
export const bendingStrain = (section: BeadSection): number => section.thickness / 2 / section.tightest;

/**
 * The most a bead stretches the sheet: the outer skin at the tightest radius, and on top of it the mean stretch of what does not draw in. The mean
 * share is taken as even from foot to foot; a dry die that grips the crown gathers more of it in the flanks.
 *
 * @param drawnIn share of (developed − width) that comes from the sheet beside the bead, 0…1
 */
export const peakStrain = (section: BeadSection, drawnIn: number): number =>
  bendingStrain(section) + Math.max(0, 1 - drawnIn) * section.meanStrain;

/** Sheet that one crossing of a bead takes in when it draws a share of what it needs. */
export const drawInOf = (section: BeadSection, share: number): number => share * (section.developed - section.width);

/** Length of sheet from foot to foot with the neutral line at a share `k` of the thickness from the inside of each bend. */
export const developedWith = (section: BeadSection, k: number): number => developedLength(section.midline, section.thickness, k);

export interface RepeatingSection extends SheetSection {
  readonly pitch: number;
  /** mm⁴ for each mm of width. */
  readonly secondMomentPerWidth: number;
  /** Length of midline over the pitch. */
  readonly stretch: number;
  /** Times stiffer along the beads than flat sheet of the same thickness. */
  readonly ratio: number;
}
/**
 * A midline repeated at a pitch, with flat sheet between its feet on y = 0.
 *
 * @param width foot to foot of the midline
 * @returns undefined when the pitch is less than the width
 */
export const repeatingSection = (midline: Midline, width: number, pitch: number, thickness: number): RepeatingSection | undefined => {
  const gap = pitch - width;
  if (gap < -1e-9) return undefined;
  const flat: Midline =
    gap < 1e-9
      ? []
      : [
          { kind: 'line', from: { x: -pitch / 2, y: 0 }, to: { x: -width / 2, y: 0 } },
          { kind: 'line', from: { x: width / 2, y: 0 }, to: { x: pitch / 2, y: 0 } },
        ];
  const whole = sheetSection([...midline, ...flat], thickness);
  const perWidth = whole.secondMoment / pitch;
  return { ...whole, pitch, secondMomentPerWidth: perWidth, stretch: whole.developed / pitch, ratio: perWidth / (thickness ** 3 / 12) };
};
