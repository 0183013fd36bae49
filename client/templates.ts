/** Starting text of a new file. Pure: what is asked of the reader and where the file goes is the command's business. */

export type NewKind = 'panel' | 'section' | 'shop';
export type NewUnits = 'inch' | 'millimetre';

export interface NewFile {
  readonly kind: NewKind;
  /** Name of the part, and of the file; for a shop file only the file's. */
  readonly name: string;
  readonly units: NewUnits;
  /** The shop file beside it, and a sheet that it describes. */
  readonly shop: { readonly file: string; readonly sheet: string } | undefined;
}

/** What a name may be: a letter or `_`, then letters, digits, `_`. */
const isPartName = (name: string): boolean => /^[\p{L}_][\p{L}\p{N}_]*$/u.test(name);

const RESERVED: ReadonlySet<string> = new Set(
  'let with units check note panel section piece strap survey assembly repeat opposite and or not yes no'.split(' '),
);

/** Why a name will not do, in words, or undefined when it will. */
export const faultOfName = (name: string): string | undefined => {
  if (name === '') return 'A part needs a name, for example: drop_gate';
  if (RESERVED.has(name)) return `"${name}" is a word of the language; choose another name, for example: my_${name}`;
  return isPartName(name) ? undefined : 'A name is letters, digits and _, and does not start with a digit, for example: drop_gate';
};

/** The first sheet that a shop file describes, and its units, found without understanding the rest. */
export const readShopOutline = (text: string): { readonly sheet: string | undefined; readonly units: NewUnits } => {
  const bare = text.replace(/\/\/.*$/gm, '');
  const units = /^\s*units\s+(\p{L}+)/mu.exec(bare)?.[1] ?? '';
  return {
    sheet: /^\s*sheet\s+([\p{L}_][\p{L}\p{N}_]*)\s*\{/mu.exec(bare)?.[1],
    units: /^in/.test(units) ? 'inch' : 'millimetre',
  };
};

// Values of common cold-rolled mild steel, from memory: the file tells its owner to put the maker's own in.
const stock = (units: NewUnits): string => `// Cold-rolled mild steel. Put in your supplier's own numbers.
material mild_steel {
  density 7850 kg/m3
  yield 210 MPa
  tensile 330 MPa
  modulus 205 GPa
}
sheet ${sheetName(units)} {
  material mild_steel
  thickness ${units === 'inch' ? '0.048 in' : '1.2 mm'}
  size ${units === 'inch' ? '48 in by 96 in' : '1250 mm by 2500 mm'}
  bend radius ${units === 'inch' ? '3/32 in' : '2 mm'} k 0.42
}
`;

const sheetName = (units: NewUnits): string => (units === 'inch' ? 'crs_18' : 'crs_12');

const panel = (name: string, sheet: string, inch: boolean): string => `/// What ${name} is for: this line shows wherever its name stands.
panel ${name} {
  sheet   ${sheet}
  outline rectangle ${inch ? '12 by 8' : '300 by 200'} outside

  edge top, bottom { flange ${inch ? '3/4' : '20'} up }
  hole ${inch ? '1/4' : '6'} at ${inch ? '(1, 4), (11, 4)' : '(25, 100), (275, 100)'}
}
`;

const section = (name: string, sheet: string, inch: boolean): string => `/// What ${name} is for: this line shows wherever its name stands.
section ${name} {
  sheet  ${sheet}
  length ${inch ? '24' : '600'}
  leg ${inch ? '1' : '25'}
  turn up 90
  leg ${inch ? '2' : '50'}
  turn up 90
  leg ${inch ? '1' : '25'}
}
`;

const shop = (units: NewUnits): string => `// What this bench owns. Part files bring it with: with "shop.planish"
units ${units}

${stock(units)}
brake bench_brake {
  leaf
  length ${units === 'inch' ? '48' : '1220'}
  capacity ${units === 'inch' ? '0.06' : '1.5'} of mild_steel
  least flange ${units === 'inch' ? '3/8' : '10'}
}
`;

/** The whole text of the new file. */
export const newFileText = (file: NewFile): string => {
  if (file.kind === 'shop') return shop(file.units);
  const inch = file.units === 'inch';
  const sheet = file.shop?.sheet ?? sheetName(file.units);
  const head =
    file.shop === undefined ? `units ${file.units}\n\n${stock(file.units)}` : `with "${file.shop.file}"\n\nunits ${file.units}\n`;
  const body = file.kind === 'panel' ? panel(file.name, sheet, inch) : section(file.name, sheet, inch);
  return `${head}\n${body}`;
};
