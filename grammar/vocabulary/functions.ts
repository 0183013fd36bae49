/** The functions a value may be worked out with. Angles in and out carry their unit; a bare number as an angle is degrees. */

interface FunctionEntry {
  readonly name: string;
  /** As shown while typing: `diagonal(a, b)`. */
  readonly usage: string;
  readonly summary: string;
  /** Names of its arguments, in order; the last may repeat when `many`. */
  readonly arguments: readonly string[];
  readonly many: boolean;
}

const of = (usage: string, summary: string, args: readonly string[], many = false): FunctionEntry => ({
  name: usage.slice(0, usage.indexOf('(')),
  usage,
  summary,
  arguments: args,
  many,
});

export const functions: readonly FunctionEntry[] = [
  of('min(a, b, …)', 'The least of them.', ['a'], true),
  of('max(a, b, …)', 'The greatest of them.', ['a'], true),
  of('sum(a, b, …)', 'All of them added up.', ['a'], true),
  of('abs(a)', 'The size of it, without its sign.', ['a']),
  of('sqrt(a)', 'Square root; of an area, a length.', ['a']),
  of('sin(angle)', 'Sine.', ['angle']),
  of('cos(angle)', 'Cosine.', ['angle']),
  of('tan(angle)', 'Tangent: rise over run.', ['angle']),
  of('asin(ratio)', 'The angle that has this sine.', ['ratio']),
  of('acos(ratio)', 'The angle that has this cosine.', ['ratio']),
  of('atan(ratio)', 'The angle that has this tangent.', ['ratio']),
  of('diagonal(a, b)', 'Corner to corner of a rectangle a by b.', ['a', 'b']),
  of('round(x, to step)', 'To the nearest step: `round(x, to 1/16)`.', ['x', 'to']),
  of('floor(x)', 'Down to a whole number.', ['x']),
  of('ceil(x)', 'Up to a whole number.', ['x']),
];
