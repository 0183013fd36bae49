// `npm run try [FOLDER] [PORT]`: the editor in a browser with the extension installed, on the samples. Ctrl+C ends it.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { ensureInstalled, installVsix, prepare, start } from '../tests/editor/workbench.mjs';
import { installPackages, root, run, say } from './setup.mjs';

installPackages();
const vsix = path.join(root, 'planish.vsix');
if (!fs.existsSync(vsix) && !run('npm', ['run', 'package', '--silent'])) process.exit(1);
say('Preparing a VS Code workbench (the first time takes about 15 seconds) …');
ensureInstalled();
const folder = path.resolve(process.argv[2] ?? path.join(root, 'samples/cargo-trike'));
const home = path.join(os.tmpdir(), 'planish-try');
prepare(home);
await installVsix(home, vsix);
const server = await start(home, { port: Number(process.argv[3] ?? 8377) });
say(`Open in a browser:  ${server.pageUrl(folder)}\nCtrl+C ends it.`);
process.on('SIGINT', () => void server.stop().then(() => process.exit(0)));
setInterval(() => {}, 1 << 30);
