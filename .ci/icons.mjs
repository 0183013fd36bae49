// Draws the extension's icon (PNG, as the editor wants it) from client/icons/planish.svg.
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { Resvg } from '@resvg/resvg-js';

const icons = path.join(path.dirname(fileURLToPath(import.meta.url)), '../client/icons');
const drawing = fs.readFileSync(path.join(icons, 'planish.svg'), 'utf8');
fs.writeFileSync(path.join(icons, 'planish.png'), new Resvg(drawing, { fitTo: { mode: 'width', value: 256 } }).render().asPng());
