/**
 * The VS Code side of Planish: starts the language server, opens the picture, and carries out the commands a hand reaches for.
 * It computes nothing about sheet metal; it asks the server and shows the answer.
 */
import * as vscode from 'vscode';
import { compareCommitted } from './commands/compareCommitted.js';
import { cutStock, type ShownJob, saveCutting } from './commands/cutStock.js';
import { explainFinding, manualPages } from './commands/explainFinding.js';
import { exportPattern } from './commands/exportPattern.js';
import { makeBooklet } from './commands/makeBooklet.js';
import { newPart } from './commands/newPart.js';
import { openSample } from './commands/openSample.js';
import { planBending } from './commands/planBending.js';
import { showFolded } from './commands/showFolded.js';
import { showPicture } from './commands/showPicture.js';
import { createDocumentPanel } from './documentPanel.js';
import { createLanguageClient } from './languageServer.js';
import { createPicturePanel, type PictureState } from './picturePanel.js';
import { createStatusBar } from './statusBar.js';

/** What other extensions, and tests, may ask of this one. */
export interface PlanishApi {
  /** Settles when the server answers. */
  readonly ready: Promise<void>;
  picture(): PictureState;
}

export const activate = (context: vscode.ExtensionContext): PlanishApi => {
  const client = createLanguageClient(context);
  const pictures = createPicturePanel(context, client);
  const command = (name: string, action: (argument?: unknown) => unknown): vscode.Disposable =>
    vscode.commands.registerCommand(name, action);
  const documents = createDocumentPanel();
  const shownJob: ShownJob = { id: undefined };
  const explain = explainFinding(client);
  context.subscriptions.push(
    client,
    pictures,
    documents,
    createStatusBar(client),
    manualPages(client),
    command('planish.showPicture', showPicture(client, pictures)),
    command('planish.showFolded', showFolded(client, pictures)),
    command('planish.planBending', planBending(client, pictures)),
    command('planish.exportPattern', exportPattern(client, pictures)),
    command('planish.compareCommitted', compareCommitted(client, documents)),
    command('planish.makeBooklet', makeBooklet(client)),
    command('planish.cutStock', cutStock(client, documents, shownJob)),
    command('planish.saveCutting', saveCutting(client, shownJob)),
    command('planish.newPart', newPart(client)),
    command('planish.openSample', openSample(context)),
    command('planish.explainFinding', explain),
    // The name under which the server's own quick fixes ask for the same page.
    command('planish.explain', explain),
    command('planish.restartServer', () => client.restart()),
  );
  const ready = client.start();
  ready.catch((reason: unknown) => void vscode.window.showErrorMessage(`Planish: the language server did not start. ${String(reason)}`));
  return { ready, picture: () => pictures.state() };
};
