// One item for the spec in front: its total mass and how many problems it has. The server computes both.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { Summary } from '../server/requests.ts';
import { specInFront } from './ask-for-paper.ts';
import { ask } from './protocol.ts';

// Long enough to let a burst of diagnostics settle, short enough to seem at once.
const settleTime = 120;
/** So long a word stays, ms: one who looks up from the anvil should still find it. */
const WORD_MS = 60_000;

export class StatusBar implements vscode.Disposable {
  private readonly client: BaseLanguageClient;
  private readonly item: vscode.StatusBarItem;
  private readonly subscriptions: vscode.Disposable[];
  private timer: ReturnType<typeof setTimeout> | undefined;
  private visible = false;
  /** A word is shown in its place. */
  private isSaying = false;
  private wordTimer: ReturnType<typeof setTimeout> | undefined;

  constructor(client: BaseLanguageClient) {
    this.client = client;
    this.item = vscode.window.createStatusBarItem('planish.summary', vscode.StatusBarAlignment.Right, 110);
    this.item.name = vscode.l10n.t('Planish: mass and problems');
    this.item.command = 'workbench.actions.view.problems';
    this.subscriptions = [
      this.item,
      vscode.window.onDidChangeActiveTextEditor(() => this.refreshSoon()),
      vscode.languages.onDidChangeDiagnostics(({ uris }) => {
        const active = specInFront()?.toString();
        if (uris.some((uri) => uri.toString() === active)) this.refreshSoon();
      }),
      client.onDidChangeState(() => this.refreshSoon()),
    ];
  }

  refreshSoon(): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.refresh(), settleTime);
  }

  /** Says something for a while in the place of mass and problems, whatever is in front. */
  say(text: string, why: string): void {
    this.isSaying = true;
    clearTimeout(this.wordTimer);
    this.wordTimer = setTimeout(() => {
      this.isSaying = false;
      this.refreshSoon();
    }, WORD_MS);
    this.put(`$(debug-restart) ${text}`, [text, why]);
  }

  shown(): { text: string; visible: boolean } {
    return { text: this.visible ? this.item.text : '', visible: this.visible };
  }

  dispose(): void {
    clearTimeout(this.timer);
    clearTimeout(this.wordTimer);
    for (const subscription of this.subscriptions) subscription.dispose();
  }

  private async refresh(): Promise<void> {
    if (this.isSaying) return;
    const uri = specInFront();
    if (!uri || !this.client.isRunning()) return this.hide();
    let summary: Summary | null;
    try {
      summary = await ask(this.client, 'planish/summary', { uri: uri.toString() });
    } catch {
      // A server that is just stopping, or a summary overtaken by the next edit: the next refresh will do.
      summary = null;
    }
    if (this.isSaying || specInFront()?.toString() !== uri.toString()) return;
    if (!summary) return this.hide();
    this.show(summary);
  }

  private hide(): void {
    this.visible = false;
    this.item.hide();
  }

  private show({ title, mass, errors, warnings, informations, cautions }: Summary): void {
    const counts = [errors > 0 ? `$(error) ${errors}` : '', warnings > 0 ? `$(warning) ${warnings}` : ''].filter(
      Boolean,
    );
    // Notes and cautions are no reason to withhold the tick: every sheet has sharp edges.
    const state = counts.length > 0 ? counts.join(' ') : '$(check)';
    const lines = [
      title ?? '',
      mass
        ? vscode.l10n.t('Total mass {0}', mass)
        : vscode.l10n.t('No mass yet: a piece with a material and a form gives one'),
      counts.length > 0
        ? vscode.l10n.t('Errors {0}, warnings {1}', errors, warnings)
        : vscode.l10n.t('It can be made as written'),
      informations > 0 ? vscode.l10n.t('Notes {0}', informations) : '',
      cautions > 0 ? vscode.l10n.t('Cautions {0}', cautions) : '',
    ].filter(Boolean);
    this.put(`${mass ? `$(law) ${mass}` : 'Planish'} ${state}`, lines);
  }

  private put(text: string, lines: string[]): void {
    this.item.text = text;
    this.item.tooltip = lines.join('\n');
    this.item.accessibilityInformation = { label: lines.join('. ') };
    this.visible = true;
    this.item.show();
  }
}
