import { onTheBench } from './bench.js';
import type { Rule } from './rule.js';
import { laidOut, lengthTolerance, speak } from './subject.js';

export const sheetBlankTooLarge: Rule = {
  name: 'sheet/blank-too-large',
  severity: 'error',
  what: 'The blank does not come out of the stock sheet either way round. Where the part states its grain, the grain is kept along the second size of the stock sheet.',
  why: 'The part has to be made in two pieces with a seam, or from a larger sheet, and it is better to know before cutting.',
  example: onTheBench(`panel lid {
  sheet crs_18 // error: sheet/blank-too-large
  outline rectangle 60 by 50
}`),
  cure: onTheBench(`panel lid {
  sheet crs_18
  outline rectangle 60 by 47 1/2
}`),
  source: 'Plane geometry.',
  check: (subject) => {
    const ready = laidOut(subject);
    if (ready?.sheet.size === undefined) return [];
    const { sheet, part } = ready;
    // Where beads draw the sheet in, it has to be cut larger than it ends up.
    const blank = subject.beads?.drawIn?.asCut ?? ready.blank;
    const { width: across, height: along } = ready.sheet.size;
    // With the grain along x, the blank's width lies along the sheet's grain.
    const fits = (long: number, wide: number): boolean => long <= along + lengthTolerance && wide <= across + lengthTolerance;
    const wideWay = fits(blank.width, blank.height);
    const highWay = fits(blank.height, blank.width);
    const grain = part.grain?.value;
    const good = grain === 'x' ? wideWay : grain === 'y' ? highWay : wideWay || highWay;
    if (good) return [];
    // The longer size stands against the longer one, whichever way the part lies.
    const lengthwise = blank.width >= blank.height === along >= across;
    const [width, besideWidth] = subject.sayBoth(blank.width, lengthwise ? along : across);
    const [height, besideHeight] = subject.sayBoth(blank.height, lengthwise ? across : along);
    const comes = lengthwise ? `${besideHeight} by ${besideWidth}` : `${besideWidth} by ${besideHeight}`;
    const sizes = `the blank is ${width} by ${height}; ${sheet.name} comes ${comes}`;
    const message =
      wideWay || highWay
        ? `${sizes}, and it fits only with the grain the other way: turn the part, or write \`grain along any\` if that does not matter here`
        : `${sizes}: take a larger sheet, or make the part in two with a seam`;
    const span = (wideWay || highWay) && part.grain !== undefined ? part.grain.span : ready.sheetSpan;
    return [speak(subject, sheetBlankTooLarge, span, message)];
  },
};
