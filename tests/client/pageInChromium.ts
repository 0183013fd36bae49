/** The picture page as the editor shows it: its real bundle and its real policy, in headless Chromium, with a stand-in for the editor. */

import { build } from 'esbuild';
import { type Browser, chromium, type Page } from 'playwright-core';
import type { FromPage, ToPage } from '../../client/messages.js';
import { picturePage } from '../../client/page.js';

export const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';
/** No sandbox inside a container; no look outside the machine. */
const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  // Space is drawn by the processor, slowly but the same everywhere.
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--no-first-run',
  '--disable-background-networking',
  '--host-resolver-rules=MAP * ~NOTFOUND',
];
const SITE = 'http://preview.test';

export type Theme = 'light' | 'dark' | 'high contrast' | 'high contrast light';

/** Colours of a plain theme of each kind, under the names by which the editor hands them to a page. Made up for the tests. */
const COLOURS: Readonly<Record<Theme, Readonly<Record<string, string>>>> = {
  light: {
    'editor-background': '#ffffff',
    'editor-foreground': '#2b2b2b',
    descriptionForeground: '#6a6a6a',
    focusBorder: '#0067c0',
    'charts-blue': '#1a64b7',
    'charts-orange': '#c25a00',
    'panel-border': '#cfcfcf',
    'button-secondaryBackground': '#e6e6e6',
    'button-secondaryForeground': '#2b2b2b',
    'button-background': '#0067c0',
    'dropdown-background': '#ffffff',
    'dropdown-border': '#c8c8c8',
    'editorError-foreground': '#d0202a',
    'editorWarning-foreground': '#a06a00',
    'inputValidation-warningBackground': '#fbf3d6',
    'inputValidation-warningBorder': '#b58900',
  },
  dark: {
    'editor-background': '#1f1f1f',
    'editor-foreground': '#d0d0d0',
    descriptionForeground: '#9a9a9a',
    focusBorder: '#2f8fe0',
    'charts-blue': '#5aaaf5',
    'charts-orange': '#e0904a',
    'panel-border': '#3a3a3a',
    'button-secondaryBackground': '#363636',
    'button-secondaryForeground': '#d0d0d0',
    'button-background': '#0e70c0',
    'dropdown-background': '#303030',
    'dropdown-border': '#404040',
    'editorError-foreground': '#f26d6d',
    'editorWarning-foreground': '#cca700',
    'inputValidation-warningBackground': '#352a05',
    'inputValidation-warningBorder': '#b89500',
  },
  'high contrast': {
    'editor-background': '#000000',
    'editor-foreground': '#ffffff',
    descriptionForeground: '#ffffff',
    focusBorder: '#f38518',
    contrastBorder: '#6fc3df',
    'charts-blue': '#59a4f9',
    'charts-orange': '#ffb570',
    'button-secondaryForeground': '#ffffff',
    'button-border': '#6fc3df',
    'dropdown-background': '#000000',
    'dropdown-border': '#6fc3df',
    'editorError-foreground': '#f48771',
    'editorWarning-foreground': '#ffd370',
    'inputValidation-warningBorder': '#6fc3df',
  },
  'high contrast light': {
    'editor-background': '#ffffff',
    'editor-foreground': '#292929',
    descriptionForeground: '#292929',
    focusBorder: '#006bbd',
    contrastBorder: '#0f4a85',
    'charts-blue': '#0b4f9e',
    'charts-orange': '#8a3f00',
    'button-secondaryForeground': '#292929',
    'button-border': '#0f4a85',
    'dropdown-background': '#ffffff',
    'dropdown-border': '#0f4a85',
    'editorError-foreground': '#b5200d',
    'editorWarning-foreground': '#895503',
    'inputValidation-warningBorder': '#0f4a85',
  },
};
const BODY_CLASS: Readonly<Record<Theme, string>> = {
  light: 'vscode-light',
  dark: 'vscode-dark',
  'high contrast': 'vscode-high-contrast',
  'high contrast light': 'vscode-high-contrast vscode-high-contrast-light',
};

export interface ShownPage {
  readonly page: Page;
  send(message: ToPage): Promise<void>;
  said(): Promise<readonly FromPage[]>;
  kept(): Promise<unknown>;
  /** Changes the editor's theme under the page. */
  wear(theme: Theme): Promise<void>;
  /** What the page's policy stopped, as the browser words it. */
  readonly stopped: readonly string[];
  /** Scripts and styles of its own that it asked for, in order. */
  readonly asked: readonly string[];
  /** Addresses outside the page's own that it asked for. */
  readonly foreign: readonly string[];
}

/** One page at a time: opening it again ends what was open before. */
export interface PageHouse {
  open(options?: {
    readonly theme?: Theme;
    readonly kept?: unknown;
    readonly width?: number;
    readonly height?: number;
    readonly forced?: boolean;
    /** A window without WebGL. */
    readonly flatOnly?: boolean;
  }): Promise<ShownPage>;
  close(): Promise<void>;
}

const bundle = async (): Promise<Readonly<Record<string, string>>> => {
  const made = await build({
    entryPoints: ['client/preview/preview.ts', 'client/preview/preview.css'],
    bundle: true,
    write: false,
    outdir: 'out',
    format: 'iife',
    target: 'chrome122',
    tsconfig: 'client/preview/tsconfig.json',
  });
  const folded = await build({
    entryPoints: ['client/preview/folded/index.ts'],
    bundle: true,
    write: false,
    format: 'iife',
    globalName: 'planishFolded',
    target: 'chrome122',
    tsconfig: 'client/preview/tsconfig.json',
  });
  return {
    ...Object.fromEntries(made.outputFiles.map((file) => [file.path.endsWith('.css') ? '/preview.css' : '/preview.js', file.text])),
    '/folded.js': folded.outputFiles[0]?.text ?? '',
  };
};

export const openHouse = async (): Promise<PageHouse> => {
  const files = await bundle();
  const browser: Browser = await chromium.launch({ executablePath: CHROMIUM, headless: true, args: FLAGS });
  const html = picturePage({
    nonce: 'dGVzdA==',
    source: SITE,
    script: `${SITE}/preview.js`,
    foldedScript: `${SITE}/folded.js`,
    style: `${SITE}/preview.css`,
  });
  // One page is loaded anew for each test: a page of its own is a process of its own, and costs ten times as much.
  const context = await browser.newContext({ viewport: { width: 900, height: 640 } });
  const page = await context.newPage();
  let [stopped, foreign, asked]: string[][] = [[], [], []];
  page.on('console', (line) => {
    if (/Content Security Policy|Refused/.test(line.text())) stopped?.push(line.text());
  });
  page.on('pageerror', (error) => stopped?.push(String(error)));
  page.on('request', (request) => {
    if (!request.url().startsWith(SITE)) foreign?.push(request.url());
    else asked?.push(new URL(request.url()).pathname);
  });
  await page.route(`${SITE}/**`, (route) => {
    const at = new URL(route.request().url()).pathname;
    const type = at.endsWith('.css') ? 'text/css' : at.endsWith('.js') ? 'text/javascript' : 'text/html';
    return route.fulfill({ contentType: `${type}; charset=utf-8`, body: files[at] ?? html });
  });
  await page.addInitScript(STAND_IN);
  let opened = 0;
  return {
    close: () => browser.close(),
    open: async ({ theme = 'light', kept, width = 900, height = 640, forced = false, flatOnly = false } = {}) => {
      [stopped, foreign, asked] = [[], [], []];
      const own = { stopped, foreign, asked };
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ forcedColors: forced ? 'active' : 'none', colorScheme: theme.includes('light') ? 'light' : 'dark' });
      const wish = { kept: kept ?? null, colours: COLOURS[theme], bodyClass: BODY_CLASS[theme], flatOnly };
      await page.goto(`${SITE}/?${++opened}#${encodeURIComponent(JSON.stringify(wish))}`);
      return {
        page,
        ...own,
        wear: (other) => page.evaluate<undefined>(`window.wear(${JSON.stringify(COLOURS[other])}, ${JSON.stringify(BODY_CLASS[other])})`),
        send: async (message) => {
          await page.evaluate(`window.postMessage(${JSON.stringify(message)}, '*')`);
          // Two frames and the coalescer's pause: whatever was to be drawn is drawn.
          await page.waitForTimeout(60);
        },
        said: () => page.evaluate<FromPage[]>('window.said'),
        kept: () => page.evaluate<unknown>('window.keptState'),
      };
    },
  };
};

/** Runs in the page before anything else, in the editor's place; handed over as text so that the tests need no browser types. What it is to be is in the address. */
const STAND_IN = `(() => {
  const { kept, colours, bodyClass, flatOnly } = JSON.parse(decodeURIComponent(location.hash.slice(1)) || '{}');
  if (flatOnly) HTMLCanvasElement.prototype.getContext = () => null;
  window.said = []; window.keptState = kept;
  window.acquireVsCodeApi = () => ({ postMessage: (m) => window.said.push(m), getState: () => window.keptState, setState: (s) => { window.keptState = s; } });
  let worn = '';
  // The editor changes its theme in this manner: custom properties of the root, and classes of the body.
  window.wear = (next, classes) => {
    for (const name of [...document.documentElement.style]) if (name.startsWith('--vscode-')) document.documentElement.style.removeProperty(name);
    for (const [name, value] of Object.entries(next)) document.documentElement.style.setProperty('--vscode-' + name, value);
    document.documentElement.style.setProperty('--vscode-font-family', 'Liberation Sans, sans-serif');
    if (document.body === null) return;
    for (const each of worn.split(' ').filter(Boolean)) document.body.classList.remove(each);
    for (const each of classes.split(' ')) document.body.classList.add(each);
    worn = classes;
  };
  document.addEventListener('readystatechange', () => window.wear(colours ?? {}, bodyClass ?? 'vscode-light'), { once: true });
})()`;
