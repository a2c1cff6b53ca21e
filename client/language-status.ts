// Behind the braces of the status bar: whether the server runs, with its restart.
import * as vscode from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import type { Watch } from './watch.ts';

export interface LanguageStatus extends vscode.Disposable {
  show(): void;
}

export function languageStatus(client: BaseLanguageClient, watch: Watch): LanguageStatus {
  const item = vscode.languages.createLanguageStatusItem('planish.server', { language: 'planish' });
  item.name = 'Planish';
  item.command = { command: 'planish.restartServer', title: vscode.l10n.t('Restart') };
  const show = () => {
    const runs = client.state === State.Running;
    const starts = client.state === State.Starting;
    item.busy = starts || watch.isSlow;
    item.text = runs
      ? watch.isSlow
        ? vscode.l10n.t('Planish does not answer yet')
        : vscode.l10n.t('Planish is running')
      : starts
        ? vscode.l10n.t('Planish is starting')
        : vscode.l10n.t('Planish has stopped');
    item.severity = runs || starts ? vscode.LanguageStatusSeverity.Information : vscode.LanguageStatusSeverity.Error;
  };
  show();
  const both = vscode.Disposable.from(item, client.onDidChangeState(show));
  return { show, dispose: () => both.dispose() };
}
