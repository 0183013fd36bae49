/** The functions a value may call: how each is written and what it gives. Names and meaning are the language's own. */
export interface FunctionHelp {
  readonly name: string;
  readonly parameters: readonly string[];
  readonly summary: string;
}
const help = (name: string, parameters: readonly string[], summary: string): FunctionHelp => ({ name, parameters, summary });

export const functionHelp: readonly FunctionHelp[] = [
  help('min', ['a', 'b', '…'], 'The least of its values, all of one kind.'),
  help('max', ['a', 'b', '…'], 'The greatest of its values, all of one kind.'),
  help('sum', ['a', 'b', '…'], 'Its values added up, all of one kind.'),
  help('abs', ['a'], 'The value without its minus sign.'),
  help('sqrt', ['a'], 'The square root: of an area, a length.'),
  help('sin', ['angle'], 'Sine of an angle; a bare number counts as degrees.'),
  help('cos', ['angle'], 'Cosine of an angle; a bare number counts as degrees.'),
  help('tan', ['angle'], 'Tangent of an angle: rise over run.'),
  help('asin', ['ratio'], 'The angle whose sine is this.'),
  help('acos', ['ratio'], 'The angle whose cosine is this.'),
  help('atan', ['ratio'], 'The angle whose tangent is this: rise over run.'),
  help('diagonal', ['a', 'b'], 'Corner to corner of a rectangle with these sides.'),
  help('round', ['a', 'to step'], 'The nearest whole number of steps: round(a, to 1/16).'),
  help('floor', ['a'], 'The next whole number down.'),
  help('ceil', ['a'], 'The next whole number up.'),
];
