/** Checks at assembly that follow from the sizes alone: whether a box is square, and how its corners should close. */
import { sayBendSum } from '../../model/display.js';
import type { OutlineEdge, Panel } from '../../model/part.js';
import type { BookletPart, Saying } from './types.js';

/** A bend this near a right angle makes a wall. rad */
const square = (2 * Math.PI) / 180;

/** The outside of the base of a box: rectangular, with walls square to it on two facing edges at least. mm; undefined for anything else. */
const boxOutside = (part: Panel): { readonly width: number; readonly height: number } | undefined => {
  const { outline, sheet } = part;
  if (outline === undefined || !outline.rectangle || sheet === undefined) return undefined;
  const walls = (name: string): boolean =>
    part.edges.some((chain) => {
      const first = chain.steps[0];
      return chain.edge === name && chain.from === undefined && first?.kind === 'flange' && Math.abs(first.turn - Math.PI / 2) < square;
    });
  const [left, right, top, bottom] = ['left', 'right', 'top', 'bottom'].map(walls);
  if (!(left === true && right === true) && !(top === true && bottom === true)) return undefined;
  const xs = [outline.start.x, ...outline.edges.map(({ to }) => to.x)];
  const ys = [outline.start.y, ...outline.edges.map(({ to }) => to.y)];
  const convention = (name: string): OutlineEdge['convention'] =>
    outline.edges.find((edge) => edge.name === name)?.convention ?? outline.convention;
  const more = (name: string, stands: boolean | undefined): number | undefined => {
    if (stands !== true) return 0;
    const own = convention(name);
    return own === 'flat' ? undefined : own === 'inside' ? sheet.value.thickness : 0;
  };
  const [atLeft, atRight, atTop, atBottom] = [more('left', left), more('right', right), more('top', top), more('bottom', bottom)];
  if (atLeft === undefined || atRight === undefined || atTop === undefined || atBottom === undefined) return undefined;
  return { width: Math.max(...xs) - Math.min(...xs) + atLeft + atRight, height: Math.max(...ys) - Math.min(...ys) + atTop + atBottom };
};

export const assemblyItems = ({ part, folded }: BookletPart, saying: Saying): readonly string[] => {
  if (part.kind !== 'panel') return [];
  const box = boxOutside(part);
  const { unit } = saying.display;
  const items: string[] = [];
  if (box !== undefined) {
    const diagonal = Math.hypot(box.width, box.height);
    // A box racked by s along its width has diagonals that differ by 2 s · width / diagonal, near enough for small s.
    const racked = unit?.name === 'inch' || unit?.name === 'foot' ? 25.4 / 16 : 1;
    items.push(
      `Square: over the outside of the base, corner to corner, both diagonals are ${saying.say(diagonal)} (${saying.size(box.width, box.height)}). Racked by ${saying.say(racked)}, they differ by ${sayBendSum((2 * racked * box.width) / diagonal, unit)}.`,
    );
  }
  const gaps = folded?.gaps ?? [];
  if (gaps.length > 0) {
    const values = gaps.map(({ gap }) => gap);
    const [least, most] = [Math.min(...values), Math.max(...values)];
    const said = most - least < 0.01 ? sayBendSum(most, unit) : `${sayBendSum(least, unit)} to ${sayBendSum(most, unit)}`;
    items.push(
      `Corners: ${gaps.length} ${gaps.length === 1 ? 'gap' : 'gaps'} of ${said} once bent as drawn. A corner that closes sooner was bent too far or cut too long.`,
    );
  }
  return items;
};
