/** A page to read beside the text: what the server wrote, shown without scripts, in the colours of the editor. */
import { randomBytes } from 'node:crypto';
import * as vscode from 'vscode';

/** Something to do with the page, offered above it. */
export interface PageAction {
  readonly label: string;
  readonly command: string;
  /** The command's one argument. */
  readonly argument: unknown;
}
export interface DocumentPanel extends vscode.Disposable {
  /** Shows a page made by `write` for the nonce it is given; the panel of the same kind is used again. */
  show(
    kind: string,
    title: string,
    write: (nonce: string) => Promise<string | undefined>,
    actions?: () => readonly PageAction[],
  ): Promise<boolean>;
}

/** Beside a text there is little room, and the title block says what the tab says already. Drawings stay on white paper; all that is read around them takes the editor's colours, where those are dark or of high contrast. */
const screenStyle = `
nav.actions { position: sticky; top: 0; z-index: 1; display: flex; flex-wrap: wrap; gap: 6px 16px; margin: -10mm -10mm 6mm; padding: 8px 10mm; background: var(--vscode-editorWidget-background, #f3f3f3); border-bottom: 1px solid var(--vscode-editorWidget-border, #cccccc); font: var(--vscode-font-size, 13px) var(--vscode-font-family, sans-serif); }
nav.actions a { color: var(--vscode-textLink-foreground, #0066bf); text-decoration: none; }
nav.actions a:hover, nav.actions a:focus { text-decoration: underline; }
html:has(> body.vscode-dark), html:has(> body.vscode-high-contrast) { color-scheme: dark; }
body.vscode-dark, body.vscode-high-contrast { background: transparent; color: var(--vscode-editor-foreground); }
body.vscode-dark :is(th, pre), body.vscode-high-contrast :is(th, pre) { background: var(--vscode-editorWidget-background); }
body.vscode-dark :is(small, dt, figcaption), body.vscode-high-contrast :is(small, dt, figcaption) { color: var(--vscode-descriptionForeground); }
body.vscode-dark :is(header.block, header.block div, h1, .caution, .card, .blank, table.form td), body.vscode-high-contrast :is(header.block, header.block div, h1, .caution, .card, .blank, table.form td) { border-color: var(--vscode-contrastBorder, var(--vscode-editorWidget-border, #777777)); }
body.vscode-dark :is(th, td), body.vscode-high-contrast :is(th, td) { border-color: var(--vscode-editorWidget-border, #777777); }
body.vscode-dark figure svg, body.vscode-high-contrast figure svg { background: #ffffff; box-shadow: 0 0 0 2mm #ffffff; margin: 2mm; max-width: calc(100% - 4mm); }
td.right { white-space: nowrap; }
@media screen and (max-width: 900px) {
  body { padding: 16px; font-size: 13px; }
  nav.actions { margin: -16px -16px 16px; padding: 8px 16px; }
  header.block { display: none; }
  h1 { margin-top: 0; }
  table { font-size: 12px; }
  td, th { padding: 3px 4px; }
  td.tick { width: 18px; }
}
@media print { nav.actions { display: none; } }
`;

const escaped = (words: string): string => words.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);

/** The actions as links to the editor's own commands. */
const bar = (actions: readonly PageAction[]): string => {
  if (actions.length === 0) return '';
  const links = actions.map(({ label, command, argument }) => {
    const query = encodeURIComponent(JSON.stringify([argument]));
    return `<a href="command:${command}?${escaped(query)}">${escaped(label)}</a>`;
  });
  return `<nav class="actions" aria-label="What to do with this page">${links.join('')}</nav>`;
};

/** Commands that a page may ask for. */
const offered = ['planish.cutStock', 'planish.saveCutting'];

export const createDocumentPanel = (): DocumentPanel => {
  const panels = new Map<string, vscode.WebviewPanel>();
  return {
    show: async (kind, title, write, actions = () => []) => {
      const nonce = randomBytes(18).toString('base64');
      const html = await write(nonce);
      if (html === undefined) return false;
      const policy = `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'nonce-${nonce}'; base-uri 'none'; form-action 'none'">`;
      let panel = panels.get(kind);
      if (panel === undefined) {
        const fresh = vscode.window.createWebviewPanel(
          kind,
          title,
          { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
          { enableCommandUris: offered },
        );
        fresh.onDidDispose(() => panels.delete(kind));
        panels.set(kind, fresh);
        panel = fresh;
      }
      panel.title = title;
      panel.webview.html = html
        .replace('<head>', () => `<head>\n${policy}`)
        .replace('</head>', () => `<style nonce="${nonce}">${screenStyle}</style>\n</head>`)
        .replace('<body>', () => `<body>\n${bar(actions())}`);
      panel.reveal(undefined, true);
      return true;
    },
    dispose: () => {
      for (const panel of panels.values()) panel.dispose();
    },
  };
};
