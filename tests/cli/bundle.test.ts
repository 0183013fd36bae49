/** A few calls through the bundled program, as a person makes them. */
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { build } from 'esbuild';
import { beforeAll, describe, expect, it } from 'vitest';
import { folder, gate, read, shop } from './bench.js';

const program = join(mkdtempSync(join(tmpdir(), 'planish-bundle-')), 'planish.cjs');
const here = folder({ 'shop.planish': shop, 'gate.planish': gate, 'short.planish': gate.replace('3/4 down', '1/8 down') });
const run = (args: readonly string[], env: NodeJS.ProcessEnv = {}) =>
  spawnSync(process.execPath, [program, ...args], {
    cwd: here,
    encoding: 'utf8',
    env: { ...process.env, FORCE_COLOR: undefined, NO_COLOR: undefined, ...env },
  });

beforeAll(async () => {
  // The same form as `npm run build` makes, in a place of its own so that tests don't disturb one another.
  await build({
    entryPoints: ['server/cli/main.ts'],
    outfile: program,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'cjs',
    mainFields: ['module', 'main'],
    define: { 'import.meta.url': '__bundle_url' },
    banner: { js: "const __bundle_url=require('url').pathToFileURL(__filename).href;" },
    logLevel: 'error',
  });
  // The type lies beside the program, as the build puts it.
  cpSync('server/sheets/fonts', join(dirname(program), 'sheets/fonts'), { recursive: true });
});

describe('the bundled program', () => {
  it('answers with the exit codes it promises', () => {
    expect(run(['check', 'gate.planish'])).toMatchObject({ status: 0, stdout: '1 file checked, nothing wrong.\n', stderr: '' });
    expect(run(['check', 'short.planish']).status).toBe(1);
    expect(run(['check', 'gone.planish']).status).toBe(2);
    expect(run(['--version']).stdout).toMatch(/^planish \d/);
  });

  it('colours nothing in a pipe, and obeys FORCE_COLOR and NO_COLOR', () => {
    const colourCode = String.fromCharCode(27);
    expect(run(['check', 'short.planish']).stdout).not.toContain(colourCode);
    expect(run(['check', 'short.planish'], { FORCE_COLOR: '1' }).stdout).toContain(colourCode);
    expect(run(['check', 'short.planish'], { FORCE_COLOR: '1', NO_COLOR: '1' }).stdout).not.toContain(colourCode);
  });

  it('writes a pattern', () => {
    expect(run(['pattern', 'gate.planish', '-o', 'gate.svg'])).toMatchObject({ status: 0, stdout: 'gate.svg\n' });
    expect(read(here, 'gate.svg')).toContain('mm"');
  });

  it('bears with a reader that goes away early', () => {
    const piped = spawnSync('sh', ['-c', `"${process.execPath}" "${program}" explain | head -n 1`], { encoding: 'utf8' });
    expect(piped.stdout).toBe('Words of the language\n');
    expect(piped.stderr).toBe('');
  });

  it('serves the language server on standard input and output', async () => {
    const server = spawn(process.execPath, [program, 'serve'], { cwd: here });
    const body = JSON.stringify({
      jsonrpc: '2.0',
      id: 1,
      method: 'initialize',
      params: { processId: null, rootUri: null, capabilities: {} },
    });
    let answer = '';
    const answered = new Promise<void>((done) => {
      server.stdout.on('data', (chunk: Buffer) => {
        answer += chunk.toString();
        if (answer.includes('"capabilities"')) done();
      });
    });
    server.stdin.write(`Content-Length: ${body.length}\r\n\r\n${body}`);
    await answered;
    server.kill();
    expect(answer).toContain('"id":1');
  });
});
