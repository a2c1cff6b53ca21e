// "Convert the lengths of this file": the server's own refactoring, found by name in the palette.
import * as vscode from 'vscode';

/** `to` is how the refactoring ends: `mm`, `in` for what comes out exactly, `in.16`, `in.32`, `mm.half` for what is rounded. */
export async function convertFile(to?: string): Promise<boolean> {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== 'planish') return false;
  const all = await vscode.commands.executeCommand<vscode.CodeAction[]>(
    'vscode.executeCodeActionProvider',
    editor.document.uri,
    editor.selection,
    vscode.CodeActionKind.RefactorRewrite.value,
  );
  // The kind tells them from the conversion of one measure, whatever the title says.
  const whole = all.filter(({ kind }) => /^refactor\.rewrite\.(?:units|rounded)\./.test(kind?.value ?? ''));
  const wanted = to ? whole.find(({ kind }) => kind?.value.endsWith(`.${to}`)) : undefined;
  const choice =
    wanted ??
    (to
      ? undefined
      : (
          await vscode.window.showQuickPick(
            whole.map((action) => ({ label: action.title, action })),
            {
              title: vscode.l10n.t('Convert lengths'),
              placeHolder: vscode.l10n.t('Exactly, or rounded: a rounding is shown before it is made'),
            },
          )
        )?.action);
  if (!choice?.edit) {
    if (!whole.length)
      void vscode.window.showInformationMessage(
        vscode.l10n.t('No length of this file can be written in the other unit.'),
      );
    return false;
  }
  return vscode.workspace.applyEdit(choice.edit);
}
