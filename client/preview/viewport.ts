/**
 * Where the reader looks: pan and zoom by the picture's viewBox. Picture coordinates are those of the SVG (mm, y down);
 * window coordinates are CSS pixels from the upper left corner of the drawing area.
 */

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
export interface Size {
  readonly width: number;
  readonly height: number;
}
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** `fit` keeps the whole part in sight as it grows; `held` stays where the reader put it. `unit` is mm to a pixel. */
export type View = { readonly kind: 'fit' } | { readonly kind: 'held'; readonly x: number; readonly y: number; readonly unit: number };

export const FIT: View = { kind: 'fit' };

/** Clear space round a fitted picture, px on each side. */
const MARGIN = 18;
/** How far in and out the reader may go from the fitted size. */
const MOST_IN = 200;
const MOST_OUT = 8;

const usable = (value: number): number => (Number.isFinite(value) && value > 0 ? value : 1);

/** Millimetres to a pixel when the whole of `content` just fits, with a margin. */
export const fittedUnit = (content: Box, size: Size): number =>
  Math.max(
    usable(content.width) / Math.max(1, usable(size.width) - 2 * MARGIN),
    usable(content.height) / Math.max(1, usable(size.height) - 2 * MARGIN),
  );

/** Millimetres to a pixel in this view. */
export const unitOf = (view: View, content: Box, size: Size): number => (view.kind === 'fit' ? fittedUnit(content, size) : view.unit);

/** The centre of what is seen, in picture coordinates. */
const centreOf = (view: View, content: Box): Spot =>
  view.kind === 'fit' ? { x: content.x + content.width / 2, y: content.y + content.height / 2 } : view;

/** The viewBox for a view: it has the shape of the window, so a pixel is the same size both ways. */
export const viewBoxOf = (view: View, content: Box, size: Size): Box => {
  const unit = unitOf(view, content, size);
  const centre = centreOf(view, content);
  const width = usable(size.width) * unit;
  const height = usable(size.height) * unit;
  return { x: centre.x - width / 2, y: centre.y - height / 2, width, height };
};

/** A spot in the window, in picture coordinates. */
export const toPicture = (view: View, content: Box, size: Size, spot: Spot): Spot => {
  const box = viewBoxOf(view, content, size);
  const unit = unitOf(view, content, size);
  return { x: box.x + spot.x * unit, y: box.y + spot.y * unit };
};

/** Zooms by `factor` (above 1: closer) with the picture under `spot` staying under it. */
export const zoomAbout = (view: View, content: Box, size: Size, spot: Spot, factor: number): View => {
  const fitted = fittedUnit(content, size);
  const before = unitOf(view, content, size);
  const unit = Math.min(fitted * MOST_OUT, Math.max(fitted / MOST_IN, before / usable(factor)));
  const fixed = toPicture(view, content, size, spot);
  return {
    kind: 'held',
    unit,
    x: fixed.x + (usable(size.width) / 2 - spot.x) * unit,
    y: fixed.y + (usable(size.height) / 2 - spot.y) * unit,
  };
};

/** Moves the picture by so many pixels right and down, never so far that none of it is left in the window. */
export const panBy = (view: View, content: Box, size: Size, right: number, down: number): View => {
  const unit = unitOf(view, content, size);
  const centre = centreOf(view, content);
  const within = (value: number, from: number, length: number, seen: number): number =>
    Math.min(from + length + seen * 0.45, Math.max(from - seen * 0.45, value));
  return {
    kind: 'held',
    unit,
    x: within(centre.x - right * unit, content.x, content.width, usable(size.width) * unit),
    y: within(centre.y - down * unit, content.y, content.height, usable(size.height) * unit),
  };
};

/** Brings a box into sight, moving only when none of it can be seen. */
export const bringIntoSight = (view: View, content: Box, size: Size, target: Box): View => {
  const seen = viewBoxOf(view, content, size);
  const apart =
    target.x > seen.x + seen.width ||
    target.x + target.width < seen.x ||
    target.y > seen.y + seen.height ||
    target.y + target.height < seen.y;
  if (!apart) return view;
  return { kind: 'held', unit: unitOf(view, content, size), x: target.x + target.width / 2, y: target.y + target.height / 2 };
};

/** How much one turn of the wheel zooms. Wheels report pixels, lines (mode 1) or pages (mode 2); a pinch comes with `pinch`. */
export const wheelFactor = (delta: number, mode: number, pinch: boolean): number => {
  const pixels = delta * (mode === 1 ? 16 : mode === 2 ? 400 : 1);
  const step = Math.max(-120, Math.min(120, pixels));
  return Math.exp(-step * (pinch ? 0.01 : 0.0022));
};

/** Reads an SVG viewBox; undefined when it is not four numbers with a size. */
export const readViewBox = (text: string | null): Box | undefined => {
  const numbers = (text ?? '')
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const [x, y, width, height] = numbers;
  if (numbers.length !== 4 || x === undefined || y === undefined || width === undefined || height === undefined) return undefined;
  return numbers.every(Number.isFinite) && width > 0 && height > 0 ? { x, y, width, height } : undefined;
};

export const writeViewBox = (box: Box): string =>
  [box.x, box.y, box.width, box.height].map((value) => Number(value.toPrecision(9))).join(' ');

/** Reads a view the page kept; anything else is the fitted view. */
export const readView = (value: unknown): View => {
  if (typeof value !== 'object' || value === null) return FIT;
  const { kind, x, y, unit } = value as Record<string, unknown>;
  const good = (number: unknown): number is number => typeof number === 'number' && Number.isFinite(number);
  return kind === 'held' && good(x) && good(y) && good(unit) && unit > 0 ? { kind, x, y, unit } : FIT;
};
