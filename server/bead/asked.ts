/** `trial NAME { for PANEL }`: the strips it asks for, and what is said at it. */
import type { Finding } from '../model/finding.js';
import type { AskedTrial, HomeUnit } from '../model/model.js';
import type { Part } from '../model/part.js';
import { type Coupon, couponFor } from './coupon.js';
import { trialTexts, type WrittenName } from './coupon-text.js';
import { cutStepOf, whatToCut } from './coupon-words.js';

export interface AskedStrips {
  readonly trial: AskedTrial;
  /** Undefined when there is no such panel, or nothing of it is worth a strip. */
  readonly coupon: Coupon | undefined;
  /** The `trial` statements to put in its place; empty without a coupon. */
  readonly text: string;
  readonly finding: Finding | undefined;
}
export interface AskedAround {
  /** The file the trial stands in. */
  readonly file: string;
  readonly unit: HomeUnit | undefined;
  readonly denominator: number;
  /** Names of trials already in sight: no strip gets one of them. */
  readonly taken: ReadonlySet<string>;
  readonly written?: WrittenName;
}

/**
 * @param part what the trial asks for; undefined when there is none, which is said elsewhere
 */
export const askedStrips = (trial: AskedTrial, part: Part | undefined, around: AskedAround): AskedStrips => {
  const { file, unit, denominator } = around;
  const nothing = (message: string): AskedStrips => ({
    trial,
    coupon: undefined,
    text: '',
    finding: { file, span: trial.asks.span, rule: 'shop/trial-nothing-to-try', severity: 'warning', message, fixes: [] },
  });
  if (part === undefined) return { trial, coupon: undefined, text: '', finding: undefined };
  if (part.kind !== 'panel')
    return nothing(
      `${part.name} is a ${part.kind}: strips are designed for a panel. Name a panel of the same sheet, or write the trial yourself.`,
    );
  const found = couponFor(part, cutStepOf(unit));
  if (found === undefined) {
    return part.sheet === undefined
      ? { trial, coupon: undefined, text: '', finding: undefined }
      : nothing(`${part.name} has neither a bead with a die that says its sizes nor a bend with a radius, so there is nothing to try.`);
  }
  const coupon: Coupon = { ...found, pieces: freshNames(found.pieces, around.taken) };
  const text = trialTexts(coupon, unit, around.written)
    .map((one) => one.text)
    .join('\n')
    .trimEnd();
  return {
    trial,
    coupon,
    text,
    finding: {
      file,
      span: trial.nameSpan,
      rule: 'shop/trial-strips',
      severity: 'information',
      message: `${whatToCut(coupon, { unit, denominator })} Export the pattern of ${trial.name} for a drawing with boxes to write the measures in.`,
      fixes: text === '' ? [] : [{ title: 'Write the trial strips to fill in', edits: [{ span: trial.span, text }] }],
    },
  };
};

/** Pieces under names that no trial has: `gate_bend`, else `gate_bend_2`. */
const freshNames = (pieces: Coupon['pieces'], taken: ReadonlySet<string>): Coupon['pieces'] => {
  const used = new Set(taken);
  return pieces.map((piece) => {
    let name = piece.name;
    for (let n = 2; used.has(name); n++) name = `${piece.name}_${n}`;
    used.add(name);
    return { ...piece, name };
  });
};
