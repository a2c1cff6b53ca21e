// All figures of the thing that the cursor is on, with their formulas and where they come from, beside the spec.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { Position } from 'vscode-languageserver-types';
import { openPage } from '../open-page.ts';
import { ask } from '../protocol.ts';
import type { FromPage, ToPage } from './messages.ts';

/** Long enough for a burst of keys or of cursor moves to settle, ms. */
const SETTLE_MS = 120;

export class FiguresPanel implements vscode.Disposable {
  private panel: vscode.WebviewPanel | undefined;
  private readonly follows: vscode.Disposable;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private at: { uri: string; position: Position } | undefined;
  /** Counts the questions, so that an answer that was overtaken is not shown. */
  private asked = 0;
  private last: ToPage | undefined;

  constructor(
    private readonly client: BaseLanguageClient,
    private readonly programs: vscode.Uri,
  ) {
    const { window, workspace } = vscode;
    this.follows = vscode.Disposable.from(
      window.onDidChangeTextEditorSelection(({ textEditor }) => this.follow(textEditor)),
      window.onDidChangeActiveTextEditor((editor) => editor && this.follow(editor)),
      workspace.onDidChangeTextDocument(({ document }) => {
        if (document.uri.toString() === this.at?.uri) this.refreshSoon();
      }),
    );
  }

  /** Opens beside the spec, or comes to the front; at a place, or where the cursor is. */
  show(uri?: string, position?: Position): void {
    const editor = vscode.window.activeTextEditor;
    if (uri && position) this.at = { uri, position };
    else if (editor && isSpec(editor)) this.at = placeOf(editor);
    if (this.panel) this.panel.reveal(undefined, true);
    else this.open();
    void this.refresh();
  }

  /** What is shown now, for the tests: a page cannot be looked into from outside. */
  shown(): ToPage | undefined {
    return this.last;
  }

  dispose(): void {
    clearTimeout(this.timer);
    this.follows.dispose();
    this.panel?.dispose();
  }

  private open(): void {
    const words = { copy: vscode.l10n.t('Copy as text'), none: vscode.l10n.t('Nothing is worked out here.') };
    const page = {
      type: 'planish.figures',
      title: vscode.l10n.t('Figures'),
      script: 'figures-page.js',
      style: STYLE,
      words,
    };
    const panel = openPage(this.programs, page);
    panel.webview.onDidReceiveMessage((message: FromPage) => this.hear(message));
    panel.onDidDispose(() => {
      this.panel = undefined;
      this.last = undefined;
    });
    this.panel = panel;
  }

  private hear(message: FromPage): void {
    if (message.kind === 'ready') void this.refresh();
    else if (message.kind === 'copy') void vscode.env.clipboard.writeText(message.text);
    else if (this.at) {
      const at = new vscode.Position(message.line - 1, message.column - 1);
      void vscode.window.showTextDocument(vscode.Uri.parse(this.at.uri, true), {
        selection: new vscode.Range(at, at),
        viewColumn: vscode.ViewColumn.One,
      });
    }
  }

  private follow(editor: vscode.TextEditor): void {
    if (!this.panel || !isSpec(editor)) return;
    this.at = placeOf(editor);
    this.refreshSoon();
  }

  private refreshSoon(): void {
    if (!this.panel) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.refresh(), SETTLE_MS);
  }

  private async refresh(): Promise<void> {
    const { at } = this;
    if (!this.panel?.visible || !at || !this.client.isRunning()) return;
    const asked = ++this.asked;
    const explained = await ask(this.client, 'planish/explain', { uri: at.uri, at: at.position }).catch(() => null);
    if (!this.panel || asked !== this.asked || !explained) return;
    this.last = { of: explained.of ?? '', figures: explained.figures, line: at.position.line + 1 };
    await this.panel.webview.postMessage(this.last);
  }
}

const isSpec = ({ document }: vscode.TextEditor): boolean => document.languageId === 'planish';

const placeOf = ({ document, selection }: vscode.TextEditor) => ({
  uri: document.uri.toString(),
  position: { line: selection.active.line, character: selection.active.character },
});

const STYLE = `
body { padding: 0 1.2em 2em; max-width: 52em; }
h1 { font-size: 1.2em; flex: 1; margin: 0.8em 0; }
section { border-top: 1px solid var(--vscode-widget-border, var(--vscode-contrastBorder, #8884)); padding: 0.6em 0; }
section.here { border-left: 3px solid var(--vscode-focusBorder); padding-left: 0.8em; }
h2 { font-size: 1em; font-weight: normal; margin: 0; display: flex; gap: 1em; justify-content: space-between; }
h2 a { color: inherit; text-decoration: none; }
h2 a:hover { text-decoration: underline; }
h2 strong { white-space: nowrap; }
code { font-family: var(--vscode-editor-font-family); font-size: var(--vscode-editor-font-size); overflow-wrap: anywhere; }
p { margin: 0.25em 0; }
.ground, .note, .links { color: var(--vscode-descriptionForeground); }
.doubt { color: var(--vscode-editorWarning-foreground); }
svg { display: block; width: 100%; max-width: 24em; height: 1.4em; overflow: visible; }
svg line { stroke: var(--vscode-descriptionForeground); stroke-width: 2; }
svg circle { fill: var(--vscode-charts-blue, var(--vscode-foreground)); }
`;
