/**
 * From a panel's beads to what the bench needs: tracks, the roller's reach, how far the sheet draws in, the order of rolling. Never throws, never prints.
 */
import type { Blank } from '../blank/types.js';
import type { Panel } from '../model/part.js';
import type { Placement } from '../shape/path.js';
import { rimOf } from './boundary.js';
import { drawInOf } from './draw-in.js';
import { crossBreaksOf, dimplesOf, tipsOf } from './other-places.js';
import { scheduleOf } from './schedule.js';
import { type Around, aroundOf, crossingsOf, spacingsOf } from './spacing.js';
import { tightTurns } from './tracks.js';
import type { BeadResult, Unworked, Words, WorkedBead } from './types.js';
import { type AsCut, asCutOf, type Bench, type LaidBead, layBead, reachesOf } from './work.js';

export { type AskedStrips, askedStrips } from './asked.js';
export { type Coupon, type CouponBox, type CouponPiece, couponFor } from './coupon.js';
export { trialTexts } from './coupon-text.js';
export { couponSummary, cutStepOf, expectedOf, pieceGrain, pieceSize, pieceWork } from './coupon-words.js';
export { sayRounded } from './rounded.js';
export { edgeOfSheet, frameOver, type RunEnd, runEnds } from './schedule-words.js';
export { type NotReckoned, panelStiffness } from './stiff-panel.js';
export type { BeadVariant, CaseAnswer, StiffnessAnswer } from './stiffness.js';
export type * from './types.js';

const IN_MILLIMETRES: Words = { say: (mm) => `${Math.round(mm * 100) / 100} mm` };
const STILL: Placement = { cos: 1, sin: 0, tx: 0, ty: 0 };

const NOTHING: BeadResult = {
  beads: [],
  dimples: [],
  crossBreaks: [],
  tips: [],
  drawIn: undefined,
  schedule: [],
  setUps: { dieChanges: 0, turnOvers: 0 },
  unworked: [],
};

/**
 * Everything about the beads of a panel. Reach is reckoned on the net blank; before rolling the sheet is larger by what the beads draw in,
 * and where that matters it is reckoned once more as it is cut.
 *
 * @param blank the panel's net blank
 * @param words how lengths are written in messages; millimetres when left out
 */
export const workBeads = (part: Panel, blank: Blank, words: Words = IN_MILLIMETRES): BeadResult => {
  const sheet = part.sheet?.value;
  const written = part.beads.length + part.tips.length + part.crossBreaks.length + part.dimples.length;
  if (sheet === undefined || written === 0) return NOTHING;
  const base = blank.faces.find((face) => face.id === 'base')?.place ?? STILL;
  const bench: Bench = { panel: part, sheet, blank, rims: rimOf(blank), base, words };
  const unworked: Unworked[] = [];
  const laid = part.beads.flatMap((bead) => layBead(bench, bead, unworked) ?? []);
  const around = aroundOf(blank, laid);
  const dimples = dimplesOf(part, blank, sheet, around);
  const tips = tipsOf(part, blank, sheet, words);
  const drawIn = drawInOf(blank, laid.flatMap(takingTracks), tips, dimples, sheet.material?.density);
  const asCut = asCutOf(drawIn);
  const beads = laid.map((one) => workedBead(bench, around, one, asCut));
  const { rows, order } = scheduleOf(blank.outline, beads);
  return {
    beads,
    dimples,
    crossBreaks: crossBreaksOf(part, blank, words, around),
    tips,
    drawIn,
    schedule: rows,
    setUps: { dieChanges: order.dieChanges, turnOvers: order.turnOvers },
    unworked,
  };
};

const workedBead = (bench: Bench, around: Around, laid: LaidBead, asCut: AsCut | undefined): WorkedBead => {
  const { bead, die, mark, middle, tracks } = laid;
  return {
    id: bead.id,
    kind: bead.kind,
    direction: bead.direction,
    die,
    width: mark.width,
    depth: mark.depth,
    middle,
    length: tracks.reduce((sum, track) => sum + track.length, 0),
    tracks,
    forming: mark.forming,
    takeIn: takeInOf(laid),
    reaches: reachesOf(bench, laid, asCut),
    turns: tightTurns(tracks, mark.width, die.tightestTurn),
    spacings: spacingsOf(around, laid),
    crossings: crossingsOf(around, laid),
    nameSpan: bead.nameSpan,
    pathSpan: bead.pathSpan,
    span: bead.span,
  };
};

const takeInOf = ({ mark }: LaidBead): WorkedBead['takeIn'] => mark.forming?.formed.takenIn ?? { none: 0, used: 0, full: 0 };

const takingTracks = (laid: LaidBead): Parameters<typeof drawInOf>[1] => {
  const { used, full } = takeInOf(laid);
  return laid.tracks.map(({ id, path, start, finish }) => ({ track: id, path, start, finish, used, full }));
};
