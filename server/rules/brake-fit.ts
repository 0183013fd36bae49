/**
 * Which brake of the shop could make a bend, and what stops the others. A bend passes when one brake can make it; when none can, every rule about
 * brakes speaks of the same machine: the one with the least against it.
 */

import type { Span } from '../../grammar/syntax.js';
import type { BendLine } from '../blank/types.js';
import type { Finding, Severity } from '../model/finding.js';
import type { Brake, Material, Sheet } from '../model/shop.js';
import { thickestOnBrake } from '../trade/brake-capacity.js';
import type { Subject } from './rule.js';
import { bendFeature, bendLength, flangesById, type LaidOut, laidOut, lengthTolerance, nothingSaid, speak } from './subject.js';

export type BrakeFault =
  | {
      readonly kind: 'flange';
      readonly least: number;
      readonly reach: number;
      readonly reachSpan: Span;
      readonly lengthSpan: Span | undefined;
    }
  | { readonly kind: 'length'; readonly has: number; readonly wants: number }
  | { readonly kind: 'thickness'; readonly takes: number; readonly has: number; readonly asRated: boolean }
  | { readonly kind: 'turn'; readonly greatest: number; readonly turn: number };

export interface BlockedBend {
  readonly bend: BendLine;
  readonly brake: Brake;
  readonly faults: readonly BrakeFault[];
}

const angleTolerance = (0.001 * Math.PI) / 180;

/** The strength by which two metals can be compared: tensile where both have it, else yield. */
const strengthRatio = (rated: Material, sheet: Material): number | undefined => {
  if (rated.name === sheet.name && rated.file === sheet.file) return 1;
  if (rated.tensile !== undefined && sheet.tensile !== undefined) return rated.tensile / sheet.tensile;
  if (rated.yield !== undefined && sheet.yield !== undefined) return rated.yield / sheet.yield;
  return undefined;
};

/**
 * Thickest sheet of this metal that a machine rated in another takes, mm; undefined when nothing compares them.
 * A leaf brake's moment goes with strength and the square of thickness, so thickness goes with the square root of strength.
 * Source: plastic bending moment of a rectangular section, S·T²/4 per unit of length.
 */
export const thickestTaken = (rated: Brake['capacity'], sheet: Sheet): number | undefined => {
  if (rated === undefined) return undefined;
  const { thickness, material } = rated;
  if (material === undefined || sheet.material === undefined) return thickness;
  const ratio = strengthRatio(material, sheet.material);
  return ratio === undefined ? undefined : thickness * Math.sqrt(ratio);
};

interface Reach {
  readonly length: number;
  readonly span: Span;
  readonly lengthSpan: Span | undefined;
}

/** What there is for the brake to take hold of beside a bend: the flange itself, or the shorter of the two legs. */
const reachOf = (ready: LaidOut): ((bend: BendLine) => Reach | undefined) => {
  const { part } = ready;
  if (part.kind === 'panel') {
    const flanges = flangesById(part);
    return (bend) => {
      const flange = flanges.get(bend.child) ?? flanges.get(bend.id);
      return flange === undefined ? undefined : { length: flange.length, span: flange.lengthSpan, lengthSpan: flange.lengthSpan };
    };
  }
  const legs = part.steps.flatMap((step) => (step.kind === 'leg' ? [step] : []));
  const byFace = new Map(legs.map((leg, index) => [`leg.${index + 1}`, leg]));
  for (const leg of legs) if (leg.name !== undefined) byFace.set(leg.name, leg);
  return (bend) => {
    if (bend.make !== 'turn') return undefined;
    const both = [bend.parent, bend.child].flatMap((face) => byFace.get(face) ?? []);
    const shorter = both.sort((a, b) => a.length - b.length)[0];
    return shorter === undefined ? undefined : { length: shorter.length, span: shorter.span, lengthSpan: undefined };
  };
};

const faultsOf = (
  brake: Brake,
  bend: BendLine,
  ready: LaidOut,
  reachBeside: (bend: BendLine) => Reach | undefined,
): readonly BrakeFault[] => {
  const faults: BrakeFault[] = [];
  const reach = brake.leastFlange === undefined ? undefined : reachBeside(bend);
  if (brake.leastFlange !== undefined && reach !== undefined && reach.length < brake.leastFlange - lengthTolerance) {
    faults.push({ kind: 'flange', least: brake.leastFlange, reach: reach.length, reachSpan: reach.span, lengthSpan: reach.lengthSpan });
  }
  const wants = bendLength(bend);
  if (brake.length !== undefined && wants > brake.length + lengthTolerance) faults.push({ kind: 'length', has: brake.length, wants });
  const full = thickestTaken(brake.capacity, ready.sheet);
  const takes = full === undefined || brake.length === undefined ? full : thickestOnBrake(full, 1, { brake: brake.length, bend: wants });
  if (takes !== undefined && brake.capacity !== undefined && ready.blank.thickness > takes + lengthTolerance) {
    faults.push({ kind: 'thickness', takes, has: ready.blank.thickness, asRated: takes === brake.capacity.thickness });
  }
  // A hem is begun on the brake and then closed flat in it or with the mallet, so it may turn further than the leaf does.
  if (bend.make !== 'hem' && brake.greatestTurn !== undefined && bend.turn > brake.greatestTurn + angleTolerance) {
    faults.push({ kind: 'turn', greatest: brake.greatestTurn, turn: bend.turn });
  }
  return faults;
};

/** Bends that no brake of the shop can make. Empty when the shop has no brake: then nothing is known. */
export const blockedBends = (ready: LaidOut): readonly BlockedBend[] => {
  const { brakes } = ready.part;
  if (brakes.length === 0) return [];
  const reachBeside = reachOf(ready);
  const blocked: BlockedBend[] = [];
  for (const bend of ready.blank.bends) {
    // Curls and large rolls are made over a wire, a pipe or in the slip rolls.
    if (bend.make === 'curl' || bend.make === 'roll') continue;
    let best: BlockedBend | undefined;
    for (const brake of brakes) {
      const faults = faultsOf(brake, bend, ready, reachBeside);
      if (best === undefined || faults.length < best.faults.length) best = { bend, brake, faults };
      if (faults.length === 0) break;
    }
    if (best !== undefined && best.faults.length > 0) blocked.push(best);
  }
  return blocked;
};

/** `this brake` when there is one only, else the best of them by name. */
const called = (ready: LaidOut, brake: Brake): string =>
  ready.part.brakes.length === 1 ? 'this brake' : `no brake here can: even ${brake.name}`;

type FaultOf<K extends BrakeFault['kind']> = Extract<BrakeFault, { kind: K }>;
const isKind = <K extends BrakeFault['kind']>(fault: BrakeFault, kind: K): fault is FaultOf<K> => fault.kind === kind;

export interface BrakeWords<K extends BrakeFault['kind']> {
  readonly span: (fault: FaultOf<K>, blocked: BlockedBend, ready: LaidOut) => Span;
  readonly message: (fault: FaultOf<K>, brake: string, blocked: BlockedBend) => string;
  readonly fixes?: (fault: FaultOf<K>) => Finding['fixes'];
}

/** The findings of one of the rules about brakes: one for each place in the text, however many bends were written there at once. */
export const brakeFindings = <K extends BrakeFault['kind']>(
  subject: Subject,
  rule: { readonly name: string; readonly severity: Severity },
  kind: K,
  words: BrakeWords<K>,
): readonly Finding[] => {
  const ready = laidOut(subject);
  if (ready === undefined || subject.blocked.length === 0) return nothingSaid;
  const byPlace = new Map<string, Finding>();
  for (const blocked of subject.blocked) {
    for (const fault of blocked.faults) {
      if (!isKind(fault, kind)) continue;
      const span = words.span(fault, blocked, ready);
      const message = words.message(fault, called(ready, blocked.brake), blocked);
      const place = `${span.start}:${span.end}:${message}`;
      const before = byPlace.get(place);
      const features = [...(before?.features ?? []), bendFeature(blocked.bend)];
      byPlace.set(place, speak(subject, rule, span, message, { features, fixes: words.fixes?.(fault) ?? [] }));
    }
  }
  return [...byPlace.values()];
};
