// Bundles what ships into dist/: the extension, the language server, the command-line program and the picture page.
// `--production` makes them small; otherwise they come with source maps. `--watch` builds again on every change.
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, context } from 'esbuild';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '..');
const production = process.argv.includes('--production');
const watch = process.argv.includes('--watch');

const common = {
  absWorkingDir: root,
  bundle: true,
  minify: production,
  sourcemap: production ? false : 'linked',
  legalComments: 'none',
  logLevel: 'warning',
};

// CommonJS knows no import.meta.url; the libraries that ask for it get the bundle's own address.
const addressOfBundle = "const __bundle_url=require('url').pathToFileURL(__filename).href;";

// Libraries that only sheets on paper and cutting need: files of their own, so that a check needn't read them.
const apart = ['pdfkit', 'fontkit', 'highs'];
const keepApart = (own) => ({
  name: 'apart',
  setup(plugin) {
    plugin.onResolve({ filter: new RegExp(`^(${apart.join('|')})$`) }, ({ path: name, kind }) =>
      name === own || kind === 'entry-point'
        ? undefined
        : { path: own === undefined ? `./libraries/${name}.mjs` : `./${name}.mjs`, external: true },
    );
    // Only fonts of the web format woff2 need it; ours are TrueType.
    plugin.onLoad({ filter: /node_modules\/brotli\/decompress\.js$/ }, () => ({
      contents: 'module.exports = () => { throw new Error("no woff2"); };',
    }));
  },
});
const library = (name) => ({
  ...common,
  entryPoints: [name],
  outfile: `dist/libraries/${name}.mjs`,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  mainFields: ['module', 'main'],
  banner: {
    js: "import{createRequire as __createRequire}from'node:module';import{fileURLToPath as __fileURLToPath}from'node:url';import{dirname as __dirnameOf}from'node:path';const require=__createRequire(import.meta.url),__filename=__fileURLToPath(import.meta.url),__dirname=__dirnameOf(__filename);",
  },
  plugins: [keepApart(name)],
});

/** A bundle for Node: `target` matters, since esbuild's binary loader otherwise emits a call that Node 20 lacks. */
const forNode = (entry, out, firstLine = '') => ({
  ...common,
  entryPoints: [entry],
  outfile: `dist/${out}`,
  platform: 'node',
  target: 'node20',
  format: 'cjs',
  mainFields: ['module', 'main'],
  // The editor brings its own module; the picture writer for PNG is a native one and stays optional.
  external: ['vscode', '@resvg/resvg-js'],
  loader: { '.ttf': 'binary', '.wasm': 'binary' },
  define: { 'import.meta.url': '__bundle_url' },
  banner: { js: firstLine + addressOfBundle },
  plugins: [keepApart()],
});

const bundles = [
  forNode('client/extension.ts', 'extension.cjs'),
  forNode('server/lsp/main.ts', 'server.cjs'),
  forNode('server/cli/main.ts', 'planish.cjs', '#!/usr/bin/env node\n'),
  ...apart.map(library),
  {
    ...common,
    entryPoints: ['client/preview/preview.ts', 'client/preview/preview.css'],
    outdir: 'dist',
    platform: 'browser',
    // The oldest editor we run in, VS Code 1.91, shows its pages with Chromium 122.
    target: 'chrome122',
    format: 'iife',
    tsconfig: 'client/preview/tsconfig.json',
  },
  // The view in space with the library that draws it: fetched by the page when it is first wanted.
  {
    ...common,
    entryPoints: ['client/preview/folded/index.ts'],
    outfile: 'dist/folded.js',
    platform: 'browser',
    target: 'chrome122',
    format: 'iife',
    globalName: 'planishFolded',
    tsconfig: 'client/preview/tsconfig.json',
  },
];

// What the programs read from beside themselves when a sheet is asked for.
const besides = [
  ['server/sheets/fonts/sheet-regular.ttf', 'dist/sheets/fonts/sheet-regular.ttf'],
  ['server/sheets/fonts/sheet-bold.ttf', 'dist/sheets/fonts/sheet-bold.ttf'],
  ['node_modules/@resvg/resvg-wasm/index_bg.wasm', 'dist/resvg.wasm'],
  ['node_modules/highs/build/highs.wasm', 'dist/highs.wasm'],
];

fs.rmSync(path.join(root, 'dist'), { recursive: true, force: true });
if (watch) {
  for (const bundle of bundles) await (await context(bundle)).watch();
  process.stdout.write('watching; Ctrl+C ends it\n');
} else {
  await Promise.all(bundles.map((bundle) => build(bundle)));
  for (const [from, to] of besides) {
    fs.mkdirSync(path.dirname(path.join(root, to)), { recursive: true });
    fs.copyFileSync(path.join(root, from), path.join(root, to));
  }
  fs.chmodSync(path.join(root, 'dist/planish.cjs'), 0o755);
  for (const file of fs.readdirSync(path.join(root, 'dist')).filter((name) => !name.endsWith('.map') && name !== 'sheets')) {
    const size = fs.statSync(path.join(root, 'dist', file)).size;
    process.stdout.write(`dist/${file.padEnd(16)}${String(Math.ceil(size / 1024)).padStart(6)} KB\n`);
  }
}
