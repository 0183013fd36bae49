/** `planish pattern FILE TRIAL -o OUT` and `--view coupon`: the strips to try before a panel is cut. */
import { basename, extname, join, resolve } from 'node:path';
import { type Coupon, couponFor, cutStepOf } from '../bead/index.js';
import { type CouponFormat, couponFormats, writeCoupon } from '../node-coupon.js';
import type { Project } from '../project.js';
import type { DisplayOptions } from '../sheets/index.js';
import { isFolder, shownPath, writeInPlace } from './files.js';
import { callError, exit, type Io } from './io.js';
import { chosenParts } from './measure.js';

interface Named {
  readonly name: string;
  readonly coupon: Coupon | undefined;
}

/** A trial of the file that asks for strips; undefined when no such name is one. A part of the same name goes before. */
const askedFor = (project: Project, file: string, wanted: string): Named | undefined => {
  if (project.parts(file).some(({ part }) => part.name === wanted)) return undefined;
  const asked = project.askedTrials(file).find(({ trial }) => trial.name === wanted);
  return asked === undefined ? undefined : { name: wanted, coupon: asked.coupon };
};

/**
 * The coupons that a call means.
 *
 * @param view `coupon` for those of panels, whether a trial asks for them or not
 * @returns undefined when the call means something else
 */
export const couponsOf = (
  project: Project,
  file: string,
  wanted: string | undefined,
  view: string,
  shown: string,
): readonly Named[] | undefined => {
  const asked = wanted === undefined ? undefined : askedFor(project, file, wanted);
  if (asked !== undefined) return [asked];
  if (view !== 'coupon') return undefined;
  const step = cutStepOf(project.model(file).units);
  const panels = chosenParts(project.parts(file), wanted, shown).flatMap(({ part }) =>
    part.kind === 'panel' ? [{ name: part.name, coupon: couponFor(part, step) }] : [],
  );
  return wanted === undefined ? panels.filter(({ coupon }) => coupon !== undefined) : panels;
};

const formatOf = (ending: string): CouponFormat | undefined => couponFormats.find((format) => `.${format}` === ending);

export const writeCoupons = async (
  coupons: readonly Named[],
  out: string,
  options: DisplayOptions,
  dotsPerInch: number,
  io: Io,
): Promise<number> => {
  const whole = resolve(io.cwd, out);
  const ending = extname(out).toLowerCase();
  const folder = ending === '' || out.endsWith('/') || out.endsWith('\\') || isFolder(whole);
  const format = folder ? 'pdf' : formatOf(ending);
  if (format === undefined) throw callError(`Strips to try are drawn as .pdf, .svg or .png, not as ${ending}.`);
  let code: number = exit.fine;
  if (coupons.length === 0) io.write('No panel here has a bead or a bend that could be tried on a strip.\n');
  for (const { name, coupon } of coupons) {
    if (coupon === undefined) {
      io.writeError(`${name}: there is nothing to try on a strip; see planish check.\n`);
      code = exit.findings;
      continue;
    }
    const path = folder
      ? join(whole, `${name}.${format}`)
      : coupons.length === 1
        ? whole
        : join(whole, '..', `${basename(whole, extname(whole))}-${name}${ending}`);
    writeInPlace(path, await writeCoupon(format, coupon, options, dotsPerInch));
    io.write(`${shownPath(path, io)}\n`);
  }
  return code;
};
