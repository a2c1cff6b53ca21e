// A paper beside its spec, as it is written: it follows what is typed as long as it is in sight.
import * as vscode from 'vscode';
import { type BaseLanguageClient, LSPErrorCodes, State } from 'vscode-languageclient';
import type { LayoutFiles, PaperFile } from '../../server/requests.ts';
import { askForPaper, optionsOf, paperOf } from '../ask-for-paper.ts';
import { messageOf, shortName, withReasons } from '../files.ts';
import type { Offer } from '../offer.ts';
import { openPage } from '../open-page.ts';
import { bytesOf, told } from '../save-paper.ts';
import type { FromPage, Shown, ToPage } from './messages.ts';

/** Long enough for a burst of keys to settle, ms. */
const SETTLE_MS = 200;
/** Before it is said that a paper is behind, ms: what is quicker needs no word. */
const BEHIND_MS = 400;

/** All papers that are shown: one panel for each kind of paper of a spec. */
export class Papers implements vscode.Disposable {
  private readonly panels = new Map<string, PaperPanel>();
  private readonly follows: vscode.Disposable;

  constructor(
    private readonly client: BaseLanguageClient,
    private readonly context: Pick<vscode.ExtensionContext, 'extensionUri' | 'globalStorageUri'>,
    files: vscode.FileSystemWatcher,
  ) {
    // A paper hangs on stock files and drawings too, and only the server knows on which.
    const refresh = () => {
      for (const panel of this.panels.values()) panel.refreshSoon();
    };
    this.follows = vscode.Disposable.from(
      vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
        if (document.languageId === 'planish' && contentChanges.length) refresh();
      }),
      vscode.workspace.onDidChangeConfiguration((event) => {
        if (event.affectsConfiguration('planish')) refresh();
      }),
      client.onDidChangeState(({ newState }) => {
        if (newState === State.Running) refresh();
      }),
      files.onDidChange(refresh),
      files.onDidCreate(refresh),
      files.onDidDelete(refresh),
    );
  }

  /** Opens it beside the spec, or brings it to the front. */
  show(offer: Offer, spec: vscode.Uri): void {
    const key = `${offer.show} ${spec}`;
    const open = this.panels.get(key);
    if (open) open.reveal();
    else this.panels.set(key, new PaperPanel(this.client, offer, spec, this.context, () => this.panels.delete(key)));
  }

  /** What is shown now, for the tests: a page cannot be looked into from outside. */
  shown(command: string, spec: vscode.Uri): Readonly<PaperPanel['shown']> | undefined {
    return this.panels.get(`${command} ${spec}`)?.shown;
  }

  dispose(): void {
    this.follows.dispose();
    for (const panel of this.panels.values()) panel.dispose();
  }
}

class PaperPanel {
  readonly shown: { paper?: Shown; state: string; isUp: boolean } = { state: '', isUp: false };
  private readonly panel: vscode.WebviewPanel;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private slow: ReturnType<typeof setTimeout> | undefined;
  private asking: vscode.CancellationTokenSource | undefined;
  /** Something has changed since what is shown was made. */
  private isBehind = true;

  constructor(
    private readonly client: BaseLanguageClient,
    private readonly offer: Offer,
    private readonly spec: vscode.Uri,
    private readonly context: Pick<vscode.ExtensionContext, 'extensionUri' | 'globalStorageUri'>,
    closed: () => void,
  ) {
    const canPrint = offer.formats.some(({ decides }) => decides.to === 'pdf');
    this.panel = openPage(vscode.Uri.joinPath(context.extensionUri, 'dist'), {
      type: 'planish.paper',
      title: `${offer.name}: ${shortName(spec).replace(/\.planish$/, '')}`,
      script: 'paper-page.js',
      style: STYLE,
      policy: 'img-src blob:',
      words: {
        title: offer.name,
        save: vscode.l10n.t('Save…'),
        ...(offer.shown.to === 'svg' ? { full: vscode.l10n.t('Full size') } : {}),
        ...(canPrint ? { print: vscode.l10n.t('Print') } : {}),
      },
    });
    this.panel.webview.onDidReceiveMessage((message: FromPage) => this.hear(message));
    // A hidden page is gone, and says that it is ready when it is shown again.
    this.panel.onDidChangeViewState(() => {
      if (!this.panel.visible) this.rest();
    });
    this.panel.onDidDispose(() => {
      this.rest();
      closed();
    });
  }

  reveal(): void {
    this.panel.reveal(undefined, true);
  }

  /** Only what is in sight is made again; the rest when somebody looks at it. */
  refreshSoon(wait?: number): void {
    if (wait === undefined) this.isBehind = true;
    if (!this.panel.visible || !this.isBehind) return;
    this.asking?.cancel();
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.refresh(), wait ?? SETTLE_MS);
    // From the first key of a burst on: it may be long until there is rest to make it.
    this.slow ??= setTimeout(
      () => this.say(this.shown.paper ? vscode.l10n.t('Behind the spec') : this.offer.making),
      BEHIND_MS,
    );
  }

  dispose(): void {
    this.panel.dispose();
  }

  private rest(): void {
    this.shown.isUp = false;
    this.asking?.cancel();
    clearTimeout(this.timer);
    this.notSlow();
  }

  private notSlow(): void {
    clearTimeout(this.slow);
    this.slow = undefined;
  }

  private async refresh(): Promise<void> {
    const { client, offer, spec } = this;
    if (!client.isRunning()) return;
    const asking = new vscode.CancellationTokenSource();
    this.asking = asking;
    try {
      const { to, parts } = offer.shown;
      const asked = { ...optionsOf(offer, spec, to), ...(parts ? { parts } : {}) };
      const behind = this.shown.paper ? vscode.l10n.t('Behind the spec') : offer.making;
      const far = (percent: number) => {
        if (this.shown.state) this.say(`${behind} (${percent} %)`);
      };
      const made = await paperOf<PaperFile | LayoutFiles>(client, offer, spec, asked, asking.token, far);
      if (asking.token.isCancellationRequested) return;
      this.isBehind = false;
      this.notSlow();
      this.put(shownOf(made, offer));
    } catch (error) {
      if (asking.token.isCancellationRequested) return;
      // Overtaken by the next edit: that asks again.
      if ((error as { code?: number }).code === LSPErrorCodes.ContentModified) return;
      this.notSlow();
      this.say(messageOf(error));
    } finally {
      asking.dispose();
      if (this.asking === asking) this.asking = undefined;
    }
  }

  private put(paper: Shown): void {
    const isSame = JSON.stringify(paper) === JSON.stringify(this.shown.paper);
    this.shown.paper = paper;
    if (isSame) this.say('');
    else {
      this.shown.state = '';
      this.post(paper);
    }
  }

  private say(text: string): void {
    this.shown.state = text;
    this.post({ kind: 'state', text });
  }

  private post(message: ToPage): void {
    if (this.shown.isUp) void this.panel.webview.postMessage(message);
  }

  private hear({ kind }: FromPage): void {
    if (kind === 'print') void this.print();
    else if (kind === 'save') void vscode.commands.executeCommand(this.offer.command, this.spec);
    else {
      this.shown.isUp = true;
      if (this.shown.paper) this.post(this.shown.paper);
      if (this.shown.state) this.say(this.shown.state);
      this.refreshSoon(0);
    }
  }

  /** A page of an extension may not open the printer: its PDF goes to the program that can. */
  private async print(): Promise<void> {
    const made = await askForPaper<PaperFile>(this.client, this.offer, this.spec, { to: 'pdf' });
    if (!made?.base64) return;
    const { name, base64, leftOut } = made;
    if (leftOut?.length) void vscode.window.showWarningMessage(told('', made).text);
    if (vscode.env.uiKind === vscode.UIKind.Web || vscode.env.remoteName) {
      this.post({ kind: 'file', name, base64 });
      return;
    }
    const place = vscode.Uri.joinPath(this.context.globalStorageUri, name);
    await vscode.workspace.fs.createDirectory(this.context.globalStorageUri);
    await vscode.workspace.fs.writeFile(place, bytesOf(made));
    await vscode.env.openExternal(place);
  }
}

function shownOf(made: PaperFile | LayoutFiles, { parts }: Offer): Shown {
  if (!('sheets' in made)) return { kind: 'page', html: made.text ?? '' };
  const without = parts?.without ?? ((names: string) => vscode.l10n.t('Not drawn: {0}.', names));
  const none = parts?.none ?? vscode.l10n.t('There is nothing that can be drawn yet.');
  const missing = made.missing.length ? without(withReasons(made.missing)) : made.sheets.length ? '' : none;
  return { kind: 'pictures', pictures: made.sheets.map(({ title, text }) => ({ title, svg: text })), missing };
}

const STYLE = `
body { padding: 0; }
header { padding: 0.5em 1.2em; align-items: center; justify-content: flex-end; border-bottom: 1px solid var(--vscode-widget-border, var(--vscode-contrastBorder, #8884)); }
header p { flex: 1; margin: 0; color: var(--vscode-descriptionForeground); }
main { padding: 0.6em; }
main > div { margin: 0 auto; max-width: 62rem; border: 1px solid var(--vscode-contrastBorder, #8884); background: #fff; }
`;
