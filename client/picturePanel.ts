/** The picture beside the text: one panel that shows the part file last worked on. */
import { randomBytes } from 'node:crypto';
import * as path from 'node:path';
import * as vscode from 'vscode';
import { type LanguageClient, State } from 'vscode-languageclient/node';
import {
  type BendingResult,
  bendingMethod,
  type FeatureAtParams,
  type FeatureAtResult,
  type FoldedParams,
  type FoldedResult,
  featureAtMethod,
  foldedMethod,
  type PictureChangedParams,
  type PictureFeature,
  type PictureParams,
  type PictureResult,
  pictureChangedMethod,
  pictureMethod,
} from '../server/lsp/protocol.js';
import { type Coalescer, createCoalescer, wallClock } from './coalesce.js';
import { bendingMessageFor, foldedMessageFor, follows, messageFor, type Shown } from './documentPicture.js';
import { LANGUAGE } from './languageServer.js';
import { type FromPage, readFromPage, readKeptState, type ToPage, type ViewName } from './messages.js';
import { picturePage } from './page.js';
import type { Target } from './target.js';

const PICTURE_VIEW = 'planish.picture';

/** The last thing told to the page, for commands that start from the picture and for tests. */
export interface PictureState {
  readonly message: ToPage | undefined;
  readonly target: Target | undefined;
  readonly view: ViewName | undefined;
}

export interface PicturePanel extends vscode.Disposable {
  /** Opens the picture beside the text, or brings it to the front; in this view when one is named, else in the one that was chosen last. */
  show(target: Target, view?: ViewName): void;
  state(): PictureState;
}

/** One open panel and what it shows. */
interface Session {
  readonly panel: vscode.WebviewPanel;
  readonly asks: Coalescer<void>;
  uri: vscode.Uri;
  /** The part wanted; undefined follows the cursor or falls to the first. */
  part: string | undefined;
  /** Chosen on the page or by a command; undefined until the page has said what it showed last. */
  view: ViewName | undefined;
  shown: Shown | undefined;
  features: readonly PictureFeature[];
  lastMessage: ToPage | undefined;
  version: number;
  lit: readonly string[];
}

export const createPicturePanel = (context: vscode.ExtensionContext, client: LanguageClient): PicturePanel => {
  let session: Session | undefined;
  const dist = vscode.Uri.joinPath(context.extensionUri, 'dist');

  const tell = (to: Session, message: ToPage): void => {
    to.lastMessage = message;
    void to.panel.webview.postMessage(message);
  };

  /** One question to the server about what is wanted now, and the message that its answer makes. */
  const answerOf = async (
    of: Session,
  ): Promise<{ readonly answer: PictureResult | FoldedResult | BendingResult; readonly message: ToPage } | undefined> => {
    const { uri, part, view } = of;
    const fileName = path.basename(uri.path);
    const params: PictureParams & FoldedParams = { uri: client.code2ProtocolConverter.asUri(uri), part };
    if (view === 'folded') {
      const answer = await client.sendRequest<FoldedResult | null>(foldedMethod, params);
      return answer === null ? undefined : { answer, message: foldedMessageFor({ ...answer, uri: uri.toString() }, fileName) };
    }
    if (view === 'bending') {
      const answer = await client.sendRequest<BendingResult | null>(bendingMethod, params);
      return answer === null ? undefined : { answer, message: bendingMessageFor({ ...answer, uri: uri.toString() }, fileName) };
    }
    const answer = await client.sendRequest<PictureResult | null>(pictureMethod, params);
    return answer === null ? undefined : { answer, message: messageFor({ ...answer, uri: uri.toString() }, fileName, of.shown) };
  };

  const ask = async (of: Session): Promise<void> => {
    const { uri, part, view } = of;
    // Nothing is asked before the page has said which view it had.
    if (!client.isRunning() || view === undefined) return;
    const answered = await answerOf(of);
    // The reader may have gone on to another file, part or view while this was computed.
    if (answered === undefined || session !== of || of.uri.toString() !== uri.toString() || of.part !== part || of.view !== view) return;
    const { answer, message } = answered;
    of.version = answer.version;
    of.features = answer.features;
    of.part = answer.part;
    of.panel.title = answer.part === undefined ? 'Picture' : `Picture: ${answer.part}`;
    if (message.type === 'picture') of.shown = { uri: message.uri, part: message.part, svg: message.svg };
    else if (message.type === 'nothing') of.shown = undefined;
    tell(of, message);
  };

  const light = (of: Session, ids: readonly string[]): void => {
    of.lit = ids;
    void of.panel.webview.postMessage({ type: 'lit', uri: of.uri.toString(), version: of.version, ids } satisfies ToPage);
  };

  const sayView = (of: Session, view: ViewName): void =>
    void of.panel.webview.postMessage({ type: 'view', uri: of.uri.toString(), version: of.version, view } satisfies ToPage);

  const reveal = async (of: Session, id: string): Promise<void> => {
    const feature = of.features.find((each) => each.id === id);
    if (feature === undefined) return;
    const range = client.protocol2CodeConverter.asRange(feature.range);
    const column = vscode.window.visibleTextEditors.find((each) => each.document.uri.toString() === of.uri.toString())?.viewColumn;
    const editor = await vscode.window.showTextDocument(of.uri, { viewColumn: column ?? vscode.ViewColumn.One, selection: range });
    editor.revealRange(range, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
    light(of, [id]);
  };

  const receive = (of: Session, message: FromPage): void => {
    switch (message.type) {
      case 'ready':
        // A page loads afresh whenever its panel is moved or shown again.
        of.shown = undefined;
        if (of.view === undefined) of.view = message.view;
        else if (of.view !== message.view) sayView(of, of.view);
        of.asks.push();
        if (of.lit.length > 0) light(of, of.lit);
        return;
      case 'chooseView':
        of.view = message.view;
        of.asks.push();
        return;
      case 'choosePart':
        of.part = message.part;
        of.asks.push();
        return;
      case 'reveal':
        void reveal(of, message.id);
        return;
    }
  };

  const adopt = (panel: vscode.WebviewPanel, target: Target, view?: ViewName): void => {
    panel.webview.options = { enableScripts: true, localResourceRoots: [dist] };
    panel.iconPath = vscode.Uri.joinPath(context.extensionUri, 'client', 'icons', 'file.svg');
    const fresh: Session = {
      panel,
      asks: createCoalescer<void>(
        () => ask(fresh),
        wallClock,
        (reason) => client.outputChannel.appendLine(`picture: ${String(reason)}`),
      ),
      uri: target.uri,
      part: target.part,
      view,
      shown: undefined,
      features: [],
      lastMessage: undefined,
      version: 0,
      lit: [],
    };
    session?.panel.dispose();
    session = fresh;
    panel.onDidDispose(() => {
      fresh.asks.dispose();
      if (session === fresh) session = undefined;
    });
    panel.webview.onDidReceiveMessage((raw: unknown) => {
      const message = readFromPage(raw);
      if (message !== undefined) receive(fresh, message);
    });
    const address = (file: string): string => panel.webview.asWebviewUri(vscode.Uri.joinPath(dist, file)).toString();
    panel.webview.html = picturePage({
      nonce: randomBytes(18).toString('base64'),
      source: panel.webview.cspSource,
      script: address('preview.js'),
      foldedScript: address('folded.js'),
      style: address('preview.css'),
    });
  };

  const turnTo = (target: Target): void => {
    if (session === undefined) return;
    const same = session.uri.toString() === target.uri.toString();
    if (same && (target.part === undefined || target.part === session.part)) return;
    session.uri = target.uri;
    session.part = target.part;
    session.lit = [];
    session.asks.push();
  };

  const followCursor = async (event: vscode.TextEditorSelectionChangeEvent): Promise<void> => {
    const of = session;
    const { document } = event.textEditor;
    if (of === undefined || document.languageId !== LANGUAGE || !client.isRunning()) return;
    const setting = vscode.workspace.getConfiguration('planish', document).get<string>('picture.follow', 'on click');
    if (!follows(setting, event.kind === vscode.TextEditorSelectionChangeKind.Mouse)) return;
    const position = event.selections[0]?.active;
    if (position === undefined) return;
    const params: FeatureAtParams = {
      uri: client.code2ProtocolConverter.asUri(document.uri),
      position: client.code2ProtocolConverter.asPosition(position),
    };
    const at = await client.sendRequest<FeatureAtResult>(featureAtMethod, params);
    // Only the latest place of the cursor counts.
    if (session !== of || event.textEditor.selection.active.compareTo(position) !== 0) return;
    if (at.part !== undefined) turnTo({ uri: document.uri, part: at.part });
    light(of, at.ids);
  };

  const subscriptions = [
    vscode.window.registerWebviewPanelSerializer(PICTURE_VIEW, {
      deserializeWebviewPanel: async (panel: vscode.WebviewPanel, state: unknown) => {
        const kept = readKeptState(state);
        const fallback = vscode.window.visibleTextEditors.find((each) => each.document.languageId === LANGUAGE)?.document.uri;
        const uri = kept === undefined || kept.uri === '' ? fallback : vscode.Uri.parse(kept.uri);
        if (uri === undefined) panel.dispose();
        else adopt(panel, { uri, part: kept?.part === '' ? undefined : kept?.part });
      },
    }),
    vscode.workspace.onDidChangeTextDocument(({ document }) => {
      if (session !== undefined && document.uri.toString() === session.uri.toString()) session.asks.push();
    }),
    vscode.window.onDidChangeActiveTextEditor((editor) => {
      if (editor?.document.languageId === LANGUAGE) turnTo({ uri: editor.document.uri, part: undefined });
    }),
    // A new text becomes a part file when its language is chosen: the editor closes it and opens it anew, in the same place.
    vscode.workspace.onDidOpenTextDocument((document) => {
      if (document.languageId === LANGUAGE && document === vscode.window.activeTextEditor?.document)
        turnTo({ uri: document.uri, part: undefined });
    }),
    vscode.window.onDidChangeTextEditorSelection((event) => {
      followCursor(event).catch((reason: unknown) => client.outputChannel.appendLine(`picture: ${String(reason)}`));
    }),
    client.onDidChangeState(({ newState }) => {
      if (newState === State.Running) session?.asks.push();
    }),
    client.onNotification(pictureChangedMethod, ({ uri }: PictureChangedParams) => {
      if (session !== undefined && client.protocol2CodeConverter.asUri(uri).toString() === session.uri.toString()) session.asks.push();
    }),
  ];

  return {
    show: (target, view) => {
      if (session === undefined) {
        const column = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
        adopt(vscode.window.createWebviewPanel(PICTURE_VIEW, 'Picture', column), target, view);
        return;
      }
      turnTo(target);
      if (view !== undefined && session.view !== view) {
        session.view = view;
        sayView(session, view);
        session.asks.push();
      }
      session.panel.reveal(undefined, true);
    },
    state: () => ({
      message: session?.lastMessage,
      target: session === undefined ? undefined : { uri: session.uri, part: session.part },
      view: session?.view,
    }),
    dispose: () => {
      for (const each of subscriptions) each.dispose();
      session?.panel.dispose();
    },
  };
};
