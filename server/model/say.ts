/** Values in words, in the unit of a file. */
import { angle, area, isPlain, length, mass, money, sameDimension, stress, time } from './dimension.js';
import { decimal, figures, sayAngle, sayArea, sayLength, sayMass, writeLength } from './display.js';
import { unitOfFile } from './home.js';
import type { Reading } from './reading.js';
import type { Value } from './values.js';

/** `30 1/4 in`, `90°`, `(3 in, 4 in)`, `yes`. A bare number stays one: `30 1/4` in an inch file, else decimals as needed. */
export const sayValue = (value: Value, reading: Reading): string => {
  const unit = reading.names.units;
  switch (value.kind) {
    case 'unknown':
      return 'not known';
    case 'text':
      return `"${value.text}"`;
    case 'yesno':
      return value.yes ? 'yes' : 'no';
    case 'point': {
      const mm = value.bare ? unitOfFile(value.home ?? reading.names.path, reading)?.mm : 1;
      if (mm === undefined) return `(${decimal(value.x, 4)}, ${decimal(value.y, 4)})`;
      return `(${sayLength(value.x * mm, unit)}, ${sayLength(value.y * mm, unit)})`;
    }
    case 'number':
      break;
  }
  const { dim } = value;
  if (value.bare) return unit?.name === 'inch' && onRule(value.value) ? writeLength(value.value * unit.mm, unit) : decimal(value.value, 4);
  if (isPlain(dim)) return decimal(value.value, 4);
  if (sameDimension(dim, length)) return sayLength(value.value, unit);
  if (sameDimension(dim, angle)) return sayAngle(value.value);
  if (sameDimension(dim, area)) return sayArea(value.value, unit);
  if (sameDimension(dim, mass)) return sayMass(value.value, unit);
  if (sameDimension(dim, stress)) return `${figures(value.value, 4)} MPa`;
  if (sameDimension(dim, time)) return `${figures(value.value, 4)} s`;
  if (sameDimension(dim, money)) return decimal(value.value, 2);
  return figures(value.value, 4);
};

/** A whole number of 64ths, as a rule in inches shows it. */
const onRule = (amount: number): boolean => Math.abs(amount) < 1e9 && Math.abs(amount * 64 - Math.round(amount * 64)) < 1e-6;
