import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { builtServer } from './built.js';
import { shop } from './support.js';

const absent = spawnSync('nvim', ['--version']).error !== undefined;
const skipped = absent && process.env.CI === undefined;
if (skipped) console.warn('Neovim is not installed here, so the test that attaches it to the server is left out.');

it.skipIf(skipped)(
  'Neovim attaches to the built server, sees a finding, takes its cure, hovers, completes, jumps and formats',
  async () => {
    const server = await builtServer();
    const folder = mkdtempSync(join(tmpdir(), 'planish-neovim-'));
    const file = join(folder, 'gate.planish');
    writeFileSync(join(folder, 'shop.planish'), shop);
    writeFileSync(file, 'with "shop.planish"\nunits inch\npanel gate {\n  sheet crs_81\n    outline rectangle 12 by 8\n}\n');
    const run = spawnSync('nvim', ['--headless', '-u', 'NONE', '-i', 'NONE', '-n', '-S', 'tests/lsp/neovim.lua'], {
      encoding: 'utf8',
      timeout: 60000,
      env: {
        ...process.env,
        PLANISH_SERVER: server,
        PLANISH_FILE: file,
        XDG_STATE_HOME: folder,
        XDG_CACHE_HOME: folder,
        XDG_DATA_HOME: folder,
      },
    });
    rmSync(folder, { recursive: true, force: true });
    rmSync(dirname(server), { recursive: true, force: true });
    expect(run.stdout.trim().split('\n'), run.stderr).toEqual([
      'encoding utf-16',
      'error line 3 words 8-14 planish',
      'cured sheet crs_18',
      'hover blank 12 × 8 in (304.8 × 203.2 mm)',
      'completion crs_18',
      'definition shop.planish',
      'formatted   outline rectangle 12 by 8',
      'PASS',
    ]);
    expect(run.status).toBe(0);
  },
  90000,
);
