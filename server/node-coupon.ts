/** The strips to try before a panel is cut, as a file: true size, with boxes to write the measures in. */
import type { Coupon } from './bead/index.js';
import { pagePng, readFonts } from './node-sheets.js';
import { couponPage, type DisplayOptions, pageSvg, readType, writePdf } from './sheets/index.js';

export const couponFormats = ['pdf', 'svg', 'png'] as const;
export type CouponFormat = (typeof couponFormats)[number];

/**
 * @param dotsPerInch of a PNG
 * @returns text for SVG, bytes for the others
 */
export const writeCoupon = async (
  format: CouponFormat,
  coupon: Coupon,
  options: DisplayOptions,
  dotsPerInch: number,
): Promise<string | Uint8Array> => {
  const page = couponPage(coupon, options);
  switch (format) {
    case 'svg':
      return pageSvg(page);
    case 'pdf': {
      const { fonts } = await readType(readFonts());
      return writePdf([page], { title: page.title, date: new Date() }, fonts);
    }
    case 'png':
      return pagePng(page, readFonts(), dotsPerInch);
  }
};
