/** `planish new KIND NAME`: a starting file that checks clean. */
import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { parse } from '../../grammar/index.js';
import { writeInPlace } from './files.js';
import { callError, exit, type Io } from './io.js';

export const help = `planish new KIND NAME

Writes NAME.planish with a part to start from. KIND is panel, section, or shop (the sheets and
the brake you have; call it shop). Where a shop.planish stands in this folder, the new part uses
its first sheet and its units.

  --units inch|millimetre   (the shop's own, else millimetre)
`;

type Units = 'inch' | 'millimetre';

interface Bench {
  readonly sheet: string;
  readonly units: Units;
}

const sizes: Readonly<Record<Units, Readonly<Record<string, string>>>> = {
  inch: {
    width: '12',
    height: '8',
    flange: '3/4',
    hole: '1/4',
    inset: '1',
    length: '10',
    side: '3/4',
    floor: '2',
    thickness: '18 ga',
    radius: '1/16',
    tightest: '1/32',
    brake: '24',
    least: '3/8',
    long: '96',
    wide: '48',
  },
  millimetre: {
    width: '300',
    height: '200',
    flange: '20',
    hole: '6.5',
    inset: '25',
    length: '250',
    side: '20',
    floor: '50',
    thickness: '1.2',
    radius: '1.2',
    tightest: '1',
    brake: '1000',
    least: '10',
    long: '2500',
    wide: '1250',
  },
};

/** The first sheet that `shop.planish` describes, and its units, when there is one here. */
const benchHere = (io: Io): Bench | undefined => {
  const path = resolve(io.cwd, 'shop.planish');
  if (!existsSync(path)) return undefined;
  const tree = parse(readFileSync(path, 'utf8'));
  const named = tree.statements.find((statement) => statement.word.name === 'sheet' && statement.block !== undefined);
  const field = Object.values(named?.fields ?? {}).find((each) => each.kind === 'newName');
  const inches = tree.statements.some(
    (statement) => statement.word.name === 'units' && /inch|in\b/.test(tree.text.slice(statement.span.start, statement.span.end)),
  );
  return field?.kind === 'newName' ? { sheet: field.name.name, units: inches ? 'inch' : 'millimetre' } : undefined;
};

const shopLines = (units: Units): string => {
  const size = sizes[units];
  return `material mild_steel {
  gauge table steel
  density 7850 kg/m3
  yield 210 MPa
  tensile 330 MPa
  // From a strip of your own, bent with the grain and looked at under a glass.
  tightest radius ${size.tightest}
}

/// Measure the sheet with a micrometer; the gauge is only its name.
sheet mild_steel_sheet {
  material mild_steel
  thickness ${size.thickness}
  size ${size.wide} by ${size.long}
  bend radius ${size.radius} k 0.42
}
`;
};

const templates: Readonly<Record<string, (name: string, units: Units, bench: Bench | undefined) => string>> = {
  shop: (_, units) => `// What this bench owns. Part files bring it in by: with "shop.planish"
units ${units}

${shopLines(units)}
brake bench_brake {
  leaf
  length ${sizes[units].brake}
  capacity ${sizes[units].thickness} of mild_steel
  least flange ${sizes[units].least}
}
`,
  panel: (name, units, bench) => {
    const size = sizes[units];
    return `${bench === undefined ? '' : 'with "shop.planish"\n\n'}units ${units}

${bench === undefined ? `${shopLines(units)}\n` : ''}let width = ${size.width}
let height = ${size.height}

/// Deburr every edge before bending.
panel ${name} {
  sheet ${bench?.sheet ?? 'mild_steel_sheet'}
  outline rectangle width by height outside

  edge top, bottom { flange ${size.flange} up }
  edge left, right { flange ${size.flange} up }

  hole ${size.hole} at (${size.inset}, height / 2), (width - ${size.inset}, height / 2)
}
`;
  },
  section: (name, units, bench) => {
    const size = sizes[units];
    return `${bench === undefined ? '' : 'with "shop.planish"\n\n'}units ${units}

${bench === undefined ? `${shopLines(units)}\n` : ''}/// A channel. The first leg lies flat, face up.
section ${name} {
  sheet ${bench?.sheet ?? 'mild_steel_sheet'}
  length ${size.length}
  leg ${size.side}
  turn up 90
  leg ${size.floor}
  turn up 90
  leg ${size.side}
}
`;
  },
};

export const run = async (argv: readonly string[], io: Io): Promise<number> => {
  const { values, positionals } = parseArgs({ args: [...argv], allowPositionals: true, options: { units: { type: 'string' } } });
  const [kind, name, ...rest] = positionals;
  const kinds = Object.keys(templates).sort().join(', ');
  if (kind === undefined || name === undefined || rest.length > 0)
    throw callError(`new wants a kind (${kinds}) and a name: planish new panel lid`);
  const template = templates[kind];
  if (template === undefined) throw callError(`There is no template for ${kind}. There is one for: ${kinds}.`);
  if (!/^[\p{L}_][\p{L}\p{N}_]*$/u.test(name)) throw callError(`${name} is not a name: a letter first, then letters, digits and _.`);
  if (values.units !== undefined && values.units !== 'inch' && values.units !== 'millimetre')
    throw callError(`--units takes inch or millimetre, not ${values.units}.`);
  const path = resolve(io.cwd, `${name}.planish`);
  if (existsSync(path)) throw callError(`${name}.planish is there already; it is left as it is.`);
  const bench = kind === 'shop' ? undefined : benchHere(io);
  const text = template(name, values.units ?? bench?.units ?? 'millimetre', bench);
  if (parse(text).problems.length > 0) throw callError(`${name} is a word of the language, so it can't name a part. Try ${name}_1.`);
  writeInPlace(path, text);
  io.write(`${name}.planish\n`);
  return exit.fine;
};
