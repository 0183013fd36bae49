/** What the clamp and the leaf take hold of, once the whole order is looked at. */
import { onTheBench, onTheLeaf } from './bench.js';
import { stuckFindings } from './brake-planned.js';
import type { Rule } from './rule.js';
import { nothingSaid, speak } from './subject.js';

const hook = (lip: string, mark = ''): string => `panel hook {
  sheet crs_18
  outline rectangle 6 by 2
  edge top, bottom { flange ${lip} up 120 }${mark}
}`;
const strip = (height: string, mark = ''): string => `panel strip {
  sheet crs_18
  outline rectangle 8 by ${height}
  edge top { flange 1 up }${mark}
}`;

export const brakeJawTooNarrow: Rule = {
  name: 'brake/jaw-too-narrow',
  severity: 'error',
  what: 'The part can’t be got past the opened clamp: what is bent already is higher than the jaw opens.',
  why: 'A wall may go in tilted, or the part from the back; neither helps here. Make the wall lower, or open the jaw wider.',
  example: onTheLeaf(hook('3/4', ' // error: brake/jaw-too-narrow')),
  cure: onTheLeaf(hook('7/16')),
  source: 'The brake’s own `jaw`.',
  checkPlan: (question) => stuckFindings(question, brakeJawTooNarrow, ({ kind }) => kind === 'jaw'),
};

export const brakeTooLittleToHold: Rule = {
  name: 'brake/too-little-to-hold',
  severity: 'error',
  what: 'Beside a bend there is too little flat sheet for the leaf to bear on or for the clamp to hold, whichever side is clamped, when its turn comes.',
  why: 'What is left between two bends counts, not the size written: a bend that is made already takes its radius away from both sides. A short web between two bends wants to be longer, or one of the bends to be made by hand.',
  example: onTheBench(strip('1/4', ' // error: brake/too-little-to-hold')),
  cure: onTheBench(strip('1/2')),
  source: 'The brake’s own `least flange`.',
  checkPlan: (question) => stuckFindings(question, brakeTooLittleToHold, ({ kind }) => kind === 'grip'),
};

/** A strip of so many shallow bends to and fro. */
const folded = (bends: number): string => `section screen {
  sheet crs_18
  length 6
  leg 1
${Array.from({ length: bends }, (_, i) => `  turn ${i % 2 === 0 ? 'up' : 'down'} 20\n  leg 1`).join('\n')}
}`;

export const brakeOrderNotFound: Rule = {
  name: 'brake/order-not-found',
  severity: 'information',
  what: 'The part has too many bends to try them in all orders, and none that was tried goes.',
  why: 'It is not known whether it can be bent here. Bend one in card first, or make the part in two with a seam.',
  example: onTheLeaf(folded(31).replace('{', '{ // information: brake/order-not-found')),
  cure: onTheLeaf(folded(4)),
  source: 'A limit of the program, not of the brake.',
  checkPlan: (question) => {
    const { plan, part } = question;
    if (plan.possible || plan.proven || plan.blocked.length > 0) return nothingSaid;
    const bends = plan.blank.bends.length;
    const message = `whether it can be bent on ${plan.brake.name} is not known: it has ${bends} bends, too many to try all orders, and none that was tried goes`;
    return [speak(question, brakeOrderNotFound, part.nameSpan, message)];
  },
};
