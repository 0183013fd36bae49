import { spoken } from './form.js';

export const unitRules = [
  spoken('unit/wrong-kind', 'error', {
    what: 'Two values of different kinds are added, compared or joined, or a place wants another kind than the one given.',
    why: 'A length and an angle have no sum. The message names both kinds and says what would fit.',
    example: 'units inch\nlet wrong = 3 in + 40 deg // error: unit/wrong-kind\n',
    cure: 'units inch\nlet right = 3 in + 4 in\n',
  }),
  spoken('unit/bare-number', 'error', {
    what: 'A number without a unit stands where only a written unit can tell what is meant.',
    why: 'Lengths and angles take the file’s own unit. A density, a force or a stress has none to take.',
    example: 'units inch\nmaterial mild_steel { density 7850 } // error: unit/bare-number\n',
    cure: 'units inch\nmaterial mild_steel { density 7850 kg/m3 }\n',
  }),
  spoken('unit/bare-without-units', 'error', {
    what: 'A length has no unit, and the file does not say what its lengths are in.',
    why: '12 may be inches or millimetres. One `units` line settles it for the whole file; the fix offers both.',
    example: 'sheet crs_12 { thickness 1.2 } // error: unit/bare-without-units\n',
    cure: 'units millimetre\nsheet crs_12 { thickness 1.2 }\n',
  }),
  spoken('unit/bare-across-files', 'error', {
    what: 'Two numbers without a unit meet that come from files with different `units`.',
    why: 'A bare number keeps the unit of the file it was written in while it stands alone. In a sum the reader could not tell which unit is meant, so it has to be written where the number is given.',
    example:
      'with "inches.planish"\nunits millimetre\nlet gap = lap + 2 // error: unit/bare-across-files\n\n// file: inches.planish\nunits inch\nlet lap = 3/4\n',
    cure: 'with "inches.planish"\nunits millimetre\nlet gap = lap + 2\n\n// file: inches.planish\nunits inch\nlet lap = 3/4 in\n',
  }),
  spoken('unit/unknown', 'error', {
    what: 'A number has a unit that is not known.',
    why: 'Lengths are written `12 mm`, `3/4 in`, `4 ft`.',
    example: '',
    cure: '',
  }),
  spoken('unit/gauge-without-material', 'error', {
    what: 'A gauge number stands where nothing says of which metal.',
    why: '18 ga is 0.0478 in of plain steel, 0.0516 in of galvanised and 0.0403 in of aluminium.',
    example: 'units inch\nmaterial mild_steel { gauge table steel }\nlet skin = 18 ga // error: unit/gauge-without-material\n',
    cure: 'units inch\nmaterial mild_steel { gauge table steel }\nlet skin = 18 ga of mild_steel\n',
    source: 'Manufacturers’ Standard Gauge for steel; the galvanised table; Brown and Sharpe for aluminium.',
  }),
];
