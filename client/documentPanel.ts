/** A page to read beside the text: what the server wrote, shown without scripts. */
import { randomBytes } from 'node:crypto';
import * as vscode from 'vscode';

export interface DocumentPanel extends vscode.Disposable {
  /** Shows a page made by `write` for the nonce it is given; the panel of the same kind is used again. */
  show(kind: string, title: string, write: (nonce: string) => Promise<string | undefined>): Promise<boolean>;
}

export const createDocumentPanel = (): DocumentPanel => {
  const panels = new Map<string, vscode.WebviewPanel>();
  return {
    show: async (kind, title, write) => {
      const nonce = randomBytes(18).toString('base64');
      const html = await write(nonce);
      if (html === undefined) return false;
      const policy = `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'nonce-${nonce}'; base-uri 'none'; form-action 'none'">`;
      let panel = panels.get(kind);
      if (panel === undefined) {
        const fresh = vscode.window.createWebviewPanel(kind, title, { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true }, {});
        fresh.onDidDispose(() => panels.delete(kind));
        panels.set(kind, fresh);
        panel = fresh;
      }
      panel.title = title;
      panel.webview.html = html.replace('<head>', `<head>\n${policy}`);
      panel.reveal(undefined, true);
      return true;
    },
    dispose: () => {
      for (const panel of panels.values()) panel.dispose();
    },
  };
};
