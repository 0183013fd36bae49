import { onTheBench } from './bench.js';
import type { Rule } from './rule.js';
import { laidOut, lengthTolerance, speak } from './subject.js';

export const sheetBlankTooLarge: Rule = {
  name: 'sheet/blank-too-large',
  severity: 'error',
  what: 'The blank does not come out of the stock sheet either way round. Where the part states its grain, the grain is kept along the longer side of the stock sheet, the way it is rolled.',
  why: 'The part has to be made in two pieces with a seam, or from a larger sheet, and it is better to know before cutting.',
  example: onTheBench(`panel lid {
  sheet crs_18 // error: sheet/blank-too-large
  outline rectangle 60 by 50
}`),
  cure: onTheBench(`panel lid {
  sheet crs_18
  outline rectangle 60 by 47 1/2
}`),
  source: 'Plane geometry; that sheet is rolled along its longer side is common practice, no source.',
  check: (subject) => {
    const ready = laidOut(subject);
    if (ready?.sheet.size === undefined) return [];
    const { blank, sheet, part } = ready;
    const short = Math.min(sheet.size?.width ?? 0, sheet.size?.height ?? 0);
    const long = Math.max(sheet.size?.width ?? 0, sheet.size?.height ?? 0);
    const fits = (along: number, across: number): boolean => along <= long + lengthTolerance && across <= short + lengthTolerance;
    const wideWay = fits(blank.width, blank.height);
    const highWay = fits(blank.height, blank.width);
    const grain = part.grain?.value;
    const good = grain === 'x' ? wideWay : grain === 'y' ? highWay : wideWay || highWay;
    if (good) return [];
    const sizes = `the blank is ${subject.say(blank.width)} by ${subject.say(blank.height)}; ${sheet.name} comes ${subject.say(short)} by ${subject.say(long)}`;
    const message =
      wideWay || highWay
        ? `${sizes}, and it fits only with the grain the other way: turn the part, or write \`grain along any\` if that does not matter here`
        : `${sizes}: take a larger sheet, or make the part in two with a seam`;
    const span = (wideWay || highWay) && part.grain !== undefined ? part.grain.span : ready.sheetSpan;
    return [speak(subject, sheetBlankTooLarge, span, message)];
  },
};
