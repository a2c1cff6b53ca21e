// In which units figures are shown, whatever a build says: a setting, and behind the braces of the status bar the way to it.
import * as vscode from 'vscode';

type Units = 'build' | 'mm' | 'in';

const names = (): Record<Units, string> => ({
  build: vscode.l10n.t('As the build says'),
  mm: vscode.l10n.t('Millimetres'),
  in: vscode.l10n.t('Inches'),
});

export async function chooseUnits(given?: Units): Promise<void> {
  const choices = Object.entries(names()).map(([units, label]) => ({ label, units: units as Units }));
  const title = vscode.l10n.t('Figures are shown in');
  const units = given ?? (await vscode.window.showQuickPick(choices, { title }))?.units;
  if (!units) return;
  // Where the folder has its own, that is the one that counts.
  const settings = vscode.workspace.getConfiguration('planish');
  const { Global, Workspace } = vscode.ConfigurationTarget;
  const isOfFolder = settings.inspect('units')?.workspaceValue !== undefined;
  await settings.update('units', units, isOfFolder ? Workspace : Global);
}

export function unitsStatus(): vscode.Disposable {
  const item = vscode.languages.createLanguageStatusItem('planish.units', { language: 'planish' });
  item.name = vscode.l10n.t('Figures are shown in');
  item.command = { command: 'planish.chooseUnits', title: vscode.l10n.t('Change') };
  const show = () => {
    const units = vscode.workspace.getConfiguration('planish').get<Units>('units', 'build');
    item.text = vscode.l10n.t('Shown: {0}', names()[units] ?? names().build);
  };
  show();
  const follows = vscode.workspace.onDidChangeConfiguration((event) => {
    if (event.affectsConfiguration('planish.units')) show();
  });
  return vscode.Disposable.from(item, follows);
}
