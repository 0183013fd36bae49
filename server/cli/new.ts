/** `planish new KIND NAME`: a starting file that checks clean. */
import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { newFile, newKinds } from '../templates.js';
import { writeInPlace } from './files.js';
import { callError, exit, type Io } from './io.js';

export const help = `planish new KIND NAME

Writes NAME.planish with a part to start from. KIND is panel, section, or shop (the sheets and
the brake you have; call it shop). Where a shop.planish stands in this folder, the new part uses
its first sheet and its units.

  --units inch|millimetre   (the shop's own, else millimetre)
`;

const shopFile = 'shop.planish';

export const run = async (argv: readonly string[], io: Io): Promise<number> => {
  const { values, positionals } = parseArgs({ args: [...argv], allowPositionals: true, options: { units: { type: 'string' } } });
  const [asked, name, ...rest] = positionals;
  const kinds = newKinds.join(', ');
  if (asked === undefined || name === undefined || rest.length > 0)
    throw callError(`new wants a kind (${kinds}) and a name: planish new panel lid`);
  const kind = newKinds.find((each) => each === asked);
  if (kind === undefined) throw callError(`There is no template for ${asked}. There is one for: ${kinds}.`);
  if (/[\\/]/.test(name)) throw callError(`${name} is not a name: it goes into this folder, as NAME.planish.`);
  if (values.units !== undefined && values.units !== 'inch' && values.units !== 'millimetre')
    throw callError(`--units takes inch or millimetre, not ${values.units}.`);
  const path = resolve(io.cwd, `${name}.planish`);
  if (existsSync(path)) throw callError(`${name}.planish is there already; it is left as it is.`);
  const bench = resolve(io.cwd, shopFile);
  const shop = existsSync(bench) ? readFileSync(bench, 'utf8') : undefined;
  const made = newFile({ kind, name, units: values.units, shop });
  if ('fault' in made) throw callError(made.fault);
  writeInPlace(path, made.text);
  io.write(`${name}.planish\n`);
  return exit.fine;
};
