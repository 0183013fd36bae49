/** Lengths that are limits, as they are read off a rule: never past the size the wrong way. */
import type { Words } from './types.js';

/** `18.5 mm` of 18.57 when rounded down; to the nearest where the words can't tell. */
export const sayRounded = ({ say, write }: Words, mm: number, towards: 'up' | 'down'): string => {
  if (write === undefined) return say(mm);
  const [text, unit] = [write(mm, towards), say(0).replace(/^0/, '')];
  return text.endsWith(unit) ? text : `${text}${unit}`;
};
