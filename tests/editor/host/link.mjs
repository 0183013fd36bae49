// code-server looks for VS Code's run-time packages in its own lib/vscode/node_modules, which its install script would fill.
// Here they are ordinary locked packages one level up, so two links do.
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const packages = path.join(path.dirname(fileURLToPath(import.meta.url)), 'node_modules');
const workbench = path.join(packages, 'code-server/lib/vscode');
const link = (target, name) => {
  const place = path.join(workbench, name);
  fs.rmSync(place, { force: true });
  fs.symlinkSync(target, place, 'dir');
};
link(path.relative(workbench, packages), 'node_modules');
link('node_modules', 'node_modules.asar');
