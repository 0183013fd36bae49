import { spoken } from './form.js';

export const numberRules = [
  spoken('number/hyphen', 'error', {
    what: 'A hyphen without spaces stands between two written numbers and could be a joint or a minus.',
    why: '`1-3/8` is one and three eighths, as the trade writes it. `10-1/2-1/4` could be three different sizes, and a guess would cost sheet.',
    example: 'units inch\nlet reach = 10-1/2-1/4 // error: number/hyphen\n',
    cure: 'units inch\nlet reach = 10 1/2 - 1/4\n',
  }),
  spoken('number/zero-denominator', 'error', {
    what: 'A fraction has nothing under its stroke.',
    why: 'There are no noughths of an inch; a digit has been lost.',
    example: 'units inch\nlet gap = 3/0 // error: number/zero-denominator\n',
    cure: 'units inch\nlet gap = 3/8\n',
  }),
  spoken('number/thousands-comma', 'error', {
    what: 'A comma stands inside a number to part its thousands.',
    why: 'A comma parts two values, so `1,220` would be read as 1 and 220.',
    example: 'units millimetre\nlet span = 1,220 // error: number/thousands-comma\n',
    cure: 'units millimetre\nlet span = 1220\n',
  }),
  spoken('number/decimal-comma', 'error', {
    what: 'A comma stands where a decimal point belongs.',
    why: 'A comma parts two values, so `1,5` would be read as 1 and 5.',
    example: 'units millimetre\nlet gap = 1,5 // error: number/decimal-comma\n',
    cure: 'units millimetre\nlet gap = 1.5\n',
  }),
  spoken('number/divided-by-nought', 'error', {
    what: 'Something is divided by a value that comes to 0.',
    why: 'It has no answer. Often a count or a size that is given elsewhere was left at 0.',
    example: 'units inch\nlet holes = 0\nlet pitch = 12 / holes // error: number/divided-by-nought\n',
    cure: 'units inch\nlet holes = 4\nlet pitch = 12 / holes\n',
  }),
  spoken('number/out-of-range', 'error', {
    what: 'A number lies outside what its place can take: a gauge that the table does not have, the square root of less than nothing, a size of nought or less.',
    why: 'The message says which numbers the place takes.',
    example: 'units inch\nlet slope = sqrt(0 - 4) // error: number/out-of-range\n',
    cure: 'units inch\nlet slope = sqrt(4)\n',
  }),
];
