/** Starting text of a new file, for the command line and the editor alike. Pure: who asks decides where the file goes. */
import { parse } from '../grammar/index.js';

export const newKinds = ['panel', 'section', 'shop'] as const;
export type NewKind = (typeof newKinds)[number];
export type NewUnits = 'inch' | 'millimetre';

export interface NewFile {
  readonly kind: NewKind;
  /** Name of the part; a shop file needs none. */
  readonly name: string;
  /** The shop's own when left out, else millimetres. */
  readonly units?: NewUnits | undefined;
  /** Text of the `shop.planish` that stands beside the new file, if there is one. */
  readonly shop?: string | undefined;
}

/** The whole file, or in words why there is none. */
export type NewFileAnswer = { readonly text: string } | { readonly fault: string };

interface Bench {
  readonly sheet: string | undefined;
  readonly units: NewUnits | undefined;
}

/** The first sheet that a shop file describes, and its units. */
const benchOf = (shop: string): Bench => {
  const { statements, text } = parse(shop);
  const named = statements.find((statement) => statement.word.name === 'sheet' && statement.block !== undefined);
  const name = Object.values(named?.fields ?? {}).find((each) => each.kind === 'newName');
  const units = statements.find((statement) => statement.word.name === 'units');
  return {
    sheet: name?.kind === 'newName' ? name.name.name : undefined,
    units: units === undefined ? undefined : /\bin/.test(text.slice(units.span.start, units.span.end)) ? 'inch' : 'millimetre',
  };
};

const sizes = {
  inch: {
    sheet: 'crs_18',
    thickness: '0.048',
    stock: '48 by 96',
    radius: '3/32',
    outline: ['12', '8'],
    flange: '3/4',
    hole: '1/4',
    inset: '1',
    length: '24',
    side: '1',
    floor: '2',
    brake: '48',
    capacity: '0.06',
    least: '3/8',
  },
  millimetre: {
    sheet: 'crs_12',
    thickness: '1.2',
    stock: '1250 by 2500',
    radius: '2',
    outline: ['300', '200'],
    flange: '20',
    hole: '6.5',
    inset: '25',
    length: '600',
    side: '25',
    floor: '50',
    brake: '1220',
    capacity: '1.5',
    least: '10',
  },
} as const;

// Values of common cold-rolled mild steel, from memory: the file tells its owner to put the supplier's own in.
const stock = (units: NewUnits): string => `// Cold-rolled mild steel. Put in your supplier's own numbers.
material mild_steel {
  gauge table steel
  density 7850 kg/m3
  yield 210 MPa
  tensile 330 MPa
}

/// Measure the sheet with a micrometer; the gauge is only its name.
sheet ${sizes[units].sheet} {
  material mild_steel
  thickness ${sizes[units].thickness}
  size ${sizes[units].stock}
  bend radius ${sizes[units].radius} k 0.42
}
`;

const shopText = (units: NewUnits): string => `// What this bench owns. Part files bring it in by: with "shop.planish"
units ${units}

${stock(units)}
brake bench_brake {
  leaf
  length ${sizes[units].brake}
  capacity ${sizes[units].capacity} of mild_steel
  least flange ${sizes[units].least}
}
`;

const panelText = (name: string, sheet: string, units: NewUnits): string => {
  const { outline, flange, hole, inset } = sizes[units];
  return `let width = ${outline[0]}
let height = ${outline[1]}

/// Deburr every edge before bending.
panel ${name} {
  sheet ${sheet}
  outline rectangle width by height outside

  edge top, bottom { flange ${flange} up }
  edge left, right { flange ${flange} up }

  hole ${hole} at (${inset}, height / 2), (width - ${inset}, height / 2)
}
`;
};

const sectionText = (name: string, sheet: string, units: NewUnits): string => {
  const { length, side, floor } = sizes[units];
  return `/// A channel. The first leg lies flat, face up.
section ${name} {
  sheet ${sheet}
  length ${length}
  leg ${side}
  turn up 90
  leg ${floor}
  turn up 90
  leg ${side}
}
`;
};

/** Text of a new file that checks clean as it stands, or why the name will not do. */
export const newFile = ({ kind, name, units: asked, shop }: NewFile): NewFileAnswer => {
  const bench = shop === undefined || kind === 'shop' ? undefined : benchOf(shop);
  const units = asked ?? bench?.units ?? 'millimetre';
  if (kind === 'shop') return { text: shopText(units) };
  if (name === '') return { fault: 'A part needs a name, for example: drop_gate.' };
  if (!/^[\p{L}_][\p{L}\p{N}_]*$/u.test(name))
    return { fault: `${name} is not a name: a letter or _ first, then letters, digits and _, for example: drop_gate.` };
  const brought = bench?.sheet;
  const head = brought === undefined ? `units ${units}\n\n${stock(units)}` : `with "shop.planish"\n\nunits ${units}\n`;
  const body = (kind === 'panel' ? panelText : sectionText)(name, brought ?? sizes[units].sheet, units);
  const text = `${head}\n${body}`;
  if (parse(text).problems.length > 0) return { fault: `${name} is a word of the language, so it can’t name a part. Try ${name}_1.` };
  return { text };
};
