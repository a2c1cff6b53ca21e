// The command line as tasks: every spec of a folder checked at once, its findings in Problems.
import * as vscode from 'vscode';

interface Definition extends vscode.TaskDefinition {
  type: 'planish';
  task: 'check';
  path?: string;
}

/** Only where programs run: `program` is the packed command line. */
export class Tasks implements vscode.TaskProvider {
  private readonly program: string;

  constructor(program: string) {
    this.program = program;
  }

  provideTasks(): vscode.Task[] {
    return (vscode.workspace.workspaceFolders ?? [])
      .filter(({ uri }) => uri.scheme === 'file')
      .map((folder) => this.taskFor(folder, { type: 'planish', task: 'check' }));
  }

  resolveTask(task: vscode.Task): vscode.Task | undefined {
    const { scope } = task;
    const folder = typeof scope === 'object' ? scope : vscode.workspace.workspaceFolders?.[0];
    return folder && task.definition['task'] === 'check'
      ? this.taskFor(folder, task.definition as Definition)
      : undefined;
  }

  private taskFor(folder: vscode.WorkspaceFolder, definition: Definition): vscode.Task {
    // The editor's own Node, so that nothing else needs to be installed.
    const run = new vscode.ProcessExecution(process.execPath, [this.program, 'check', definition.path ?? '.'], {
      cwd: folder.uri.fsPath,
      // Neither colours nor a line of progress: the problem matcher reads every line as it comes.
      env: { ELECTRON_RUN_AS_NODE: '1', NO_COLOR: '1', TERM: 'dumb' },
    });
    const name = definition.path ? vscode.l10n.t('check {0}', definition.path) : vscode.l10n.t('check every spec');
    const task = new vscode.Task(definition, folder, name, 'planish', run, '$planish');
    task.group = vscode.TaskGroup.Test;
    return task;
  }
}

export async function checkFolder(tasks: Tasks): Promise<vscode.TaskExecution | undefined> {
  const [task] = tasks.provideTasks();
  if (task) return vscode.tasks.executeTask(task);
  void vscode.window.showInformationMessage(vscode.l10n.t('Open a folder on this machine first.'));
  return undefined;
}
