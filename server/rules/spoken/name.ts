import { spoken } from './form.js';

const metal = 'units inch\nsheet crs_18 { thickness 1.2 mm  bend radius 1/16 k 0.42 }\n';

export const nameRules = [
  spoken('name/unknown', 'error', {
    what: 'A name is used that nothing in sight has.',
    why: 'It is misspelt, or the file that gives it is not brought with `with`. Near names are offered.',
    example: 'units inch\nlet gate_width = 30\nlet half = gate_widht / 2 // error: name/unknown\n',
    cure: 'units inch\nlet gate_width = 30\nlet half = gate_width / 2\n',
  }),
  spoken('name/unknown-property', 'error', {
    what: 'Something is asked of a part, a file or a point that it does not have.',
    why: 'Sizes of a part have the same names here as in `planish measure`. Near names are offered.',
    example: `${metal}panel lid { sheet crs_18  outline rectangle 6 by 4 }\nlet wide = lid.blank.witdh // error: name/unknown-property\n`,
    cure: `${metal}panel lid { sheet crs_18  outline rectangle 6 by 4 }\nlet wide = lid.blank.width\n`,
  }),
  spoken('name/clash', 'error', {
    what: 'A name that is used here is given by more than one of the files brought, or by one of them and this one.',
    why: 'Nobody could tell which was meant. Bring one of the files with `as` and dot its names.',
    example:
      'with "front.planish"\nwith "rear.planish"\nunits inch\nlet twice = 2 * lap // error: name/clash\n\n// file: front.planish\nunits inch\nlet lap = 3/4 in\n\n// file: rear.planish\nunits inch\nlet lap = 1 in\n',
    cure: 'with "front.planish"\nwith "rear.planish" as rear\nunits inch\nlet twice = 2 * rear.lap\n\n// file: front.planish\nunits inch\nlet lap = 3/4 in\n\n// file: rear.planish\nunits inch\nlet lap = 1 in\n',
  }),
  spoken('name/repeated', 'error', {
    what: 'A name is given twice in one place, or again within braces where it already means something outside.',
    why: 'A name means one thing wherever it is seen.',
    example: 'units inch\nlet lap = 3/4\nlet lap = 1 // error: name/repeated\n',
    cure: 'units inch\nlet lap = 3/4\nlet long_lap = 1\n',
  }),
  spoken('name/reserved', 'error', {
    what: 'A name is one of the few words that the language keeps for itself.',
    why: 'A line that begins with such a word must be read as that statement. All other words are free.',
    example: 'units inch\nlet note = 3/4 // error: name/reserved\n',
    cure: 'units inch\nlet margin = 3/4\n',
  }),
  spoken('name/dotted', 'error', {
    what: 'A new name has a dot in it.',
    why: 'The dot leads from a part to its sizes, or from a file to its names.',
    example: 'units inch\nlet gate.width = 30 // error: name/dotted\n',
    cure: 'units inch\nlet gate_width = 30\n',
  }),
  spoken('name/ring', 'error', {
    what: 'Values, or sizes of parts, are worked out from one another in a ring.',
    why: 'None of them can be worked out first. The message lists the members; one needs a value of its own.',
    example: 'units inch\nlet a = b + 1 // error: name/ring\nlet b = a - 1\n',
    cure: 'units inch\nlet a = 4\nlet b = a - 1\n',
  }),
  spoken('name/file-missing', 'error', {
    what: 'A file to be brought is not there.',
    why: 'The path counts from the folder of the file that names it, with `/` between folders.',
    example: 'with "shop.planish" // error: name/file-missing\nunits inch\n',
    cure: 'with "bench/shop.planish"\nunits inch\n\n// file: bench/shop.planish\nunits inch\n',
  }),
  spoken('name/file-outside', 'error', {
    what: 'A file to be brought lies outside the project’s folder.',
    why: 'A project can be handed on whole only if all it needs lies in it. Put a copy beside this file.',
    example: 'with "../shop.planish" // error: name/file-outside\nunits inch\n',
    cure: 'with "shop.planish"\nunits inch\n\n// file: shop.planish\nunits inch\n',
  }),
  spoken('name/file-itself', 'error', {
    what: 'A file brings itself.',
    why: 'Its own names are in sight already.',
    example: 'with "example.planish" // error: name/file-itself\nunits inch\n',
    cure: 'units inch\n',
  }),
  spoken('name/brought-twice', 'warning', {
    what: 'A file is brought twice.',
    why: 'Once is enough; the second line says nothing new.',
    example: 'with "shop.planish"\nwith "shop.planish" // warning: name/brought-twice\nunits inch\n\n// file: shop.planish\nunits inch\n',
    cure: 'with "shop.planish"\nunits inch\n\n// file: shop.planish\nunits inch\n',
  }),
  spoken('name/long-chain', 'error', {
    what: 'A value hangs on a very long chain of others, one through the other.',
    why: 'No shop has such a chain; it comes from text made by a machine, and working it out could take down the program.',
    example: '',
    cure: '',
  }),
  spoken('name/own-measure', 'error', {
    what: 'A part’s shape is made from its own finished sizes.',
    why: 'They are not known before it is made. They can be read in its own `check`, and by other parts.',
    example: `${metal}panel lid {\n  sheet crs_18\n  outline rectangle 6 by lid.blank.width // error: name/own-measure\n}\n`,
    cure: `${metal}panel lid {\n  sheet crs_18\n  outline rectangle 6 by 6\n}\n`,
  }),
  spoken('name/several-values', 'error', {
    what: 'A name stands for several values where one is wanted.',
    why: '`rib.all` is all of a repeated feature. Take `min`, `max` or `sum` of it.',
    example: `${metal}panel lid {\n  sheet crs_18\n  outline rectangle 6 by 4\n  edge top { flange 1 up  flange 1 up }\n}\nlet taken = lid.bends.top.all.allowance // error: name/several-values\n`,
    cure: `${metal}panel lid {\n  sheet crs_18\n  outline rectangle 6 by 4\n  edge top { flange 1 up  flange 1 up }\n}\nlet taken = sum(lid.bends.top.all.allowance)\n`,
  }),
];
