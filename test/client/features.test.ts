import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import {
  closeAll,
  eventually,
  itOutsideBrowser,
  openSpec,
  planish,
  type Spec,
  serverOf,
  workspaceFile,
  writeFile,
} from './editor.ts';
import { bandedCap, shortRivet } from './specs.ts';

describe('features of a spec in the editor', () => {
  let spec: Spec;
  before(planish);
  beforeEach(async () => {
    spec = await openSpec(bandedCap);
  });
  afterEach(closeAll);

  const lenses = () =>
    vscode.commands.executeCommand<vscode.CodeLens[]>('vscode.executeCodeLensProvider', spec.uri, 50);

  it('lenses stand above builds, pieces and stock, and the uses open', async () => {
    const found = await eventually(async () => {
      const all = await lenses();
      assert.ok(all.some(({ command }) => command?.title === 'used twice'));
      return all;
    });
    assert.ok(found.some(({ command }) => command?.title === 'Cut list'));
    const uses = found.find(({ command }) => command?.title === 'used twice')!.command!;
    assert.deepEqual(uses.arguments ?? [], [], 'the editor forgets arguments before it takes the lens away');
    await spec.replace('joins band, tab', 'joins band,  tab');
    await lenses();
    await vscode.commands.executeCommand(uses.command);
  });

  it('a hover draws the section of a rivet', async () => {
    await eventually(async () =>
      assert.match(
        await spec.hover('rivets small'),
        /!\[Section through a rivet[^\]]*\]\(data:image\/svg\+xml;base64,/,
      ),
    );
  });

  it('the whole file changes to millimetres, and no figure with it', async () => {
    await spec.clean();
    const mass = await eventually(async () => {
      const { text } = (await planish()).status();
      assert.match(text, /\d g/);
      return text;
    });
    assert.equal(await vscode.commands.executeCommand('planish.convertFile', 'mm'), true);
    assert.match(spec.text, /mild steel 3\.175 x 7\.9375 mm, domed/);
    await eventually(async () => assert.equal((await planish()).status().text, mass));
  });

  it('a measure is taken out into a let of its own', async () => {
    const range = spec.find('300');
    const actions = await eventually(async () => {
      const all = await vscode.commands.executeCommand<vscode.CodeAction[]>(
        'vscode.executeCodeActionProvider',
        spec.uri,
        new vscode.Range(range.start, range.start),
        vscode.CodeActionKind.RefactorExtract.value,
      );
      assert.ok(all.length);
      return all;
    });
    await spec.apply(actions[0]!);
    assert.match(spec.text, /let band-strip = 300 mm/);
    await spec.clean();
  });

  it('a line is excused, and the reason stands selected to be typed over', async () => {
    const short = await openSpec(shortRivet);
    const range = short.find('small, every');
    const action = await eventually(async () => {
      const all = await vscode.commands.executeCommand<vscode.CodeAction[]>(
        'vscode.executeCodeActionProvider',
        short.uri,
        range,
        vscode.CodeActionKind.QuickFix.value,
      );
      const found = all.find(({ title }) => title === 'Allow rivet-too-short on this line');
      assert.ok(found, all.map(({ title }) => title).join());
      return found;
    });
    assert.ok(await vscode.workspace.applyEdit(action.edit!));
    assert.match(short.text, /peened domed # allow rivet-too-short: why$/m);
    await eventually(() => assert.equal(short.document.getText(short.editor.selection), 'why'));
  });

  it('a material goes to a stock file of its own, which is then used', async () => {
    const folder = `moved-${Date.now()}`;
    const uri = await writeFile(`${folder}/cap.planish`, bandedCap);
    const editor = await vscode.window.showTextDocument(uri);
    const at = editor.document.positionAt(bandedCap.indexOf('material plate'));
    const action = await eventually(async () => {
      const all = await vscode.commands.executeCommand<vscode.CodeAction[]>(
        'vscode.executeCodeActionProvider',
        uri,
        new vscode.Range(at, at),
        vscode.CodeActionKind.RefactorExtract.value,
      );
      const found = all.find(({ title }) => /new file stock\.planish/.test(title));
      assert.ok(found, all.map(({ title }) => title).join());
      return found;
    });
    assert.ok(await vscode.workspace.applyEdit(action.edit!));
    const stock = await vscode.workspace.openTextDocument(workspaceFile(`${folder}/stock.planish`));
    assert.match(stock.getText(), /^planish 1\n\nmaterial plate\n/);
    assert.match(editor.document.getText(), /use "stock\.planish"/);
    assert.doesNotMatch(editor.document.getText(), /material plate/);
    await eventually(() =>
      assert.ok(
        !vscode.languages.getDiagnostics(uri).some(({ severity }) => severity === vscode.DiagnosticSeverity.Error),
      ),
    );
  });

  it('shows what uses a piece as its callers', async () => {
    const at = spec.find('piece band').end;
    const [item] = await eventually(async () => {
      const items = await vscode.commands.executeCommand<vscode.CallHierarchyItem[]>(
        'vscode.prepareCallHierarchy',
        spec.uri,
        at,
      );
      assert.equal(items?.[0]?.name, 'band');
      return items;
    });
    const users = await vscode.commands.executeCommand<vscode.CallHierarchyIncomingCall[]>(
      'vscode.provideIncomingCalls',
      item,
    );
    assert.deepEqual(
      users.map(({ from }) => from.name),
      ['band-line'],
    );
  });

  it('a stock file that is renamed takes the lines that use it along', async () => {
    const folder = `renamed-${Date.now()}`;
    const stock = await writeFile(`${folder}/stock.planish`, 'material plate\n  mild steel 16 ga\n');
    const cap = await writeFile(
      `${folder}/cap.planish`,
      'use "stock.planish"\n\npiece cap\n  from plate\n  disc 90 mm\n',
    );
    const { document } = await vscode.window.showTextDocument(cap);
    const edit = new vscode.WorkspaceEdit();
    edit.renameFile(stock, workspaceFile(`${folder}/sheet.planish`));
    assert.ok(await vscode.workspace.applyEdit(edit));
    await eventually(() => assert.match(document.getText(), /^use "sheet\.planish"$/m));
  });

  it('and those of specs that are not open', async () => {
    const folder = `renamed-${Date.now()}`;
    const stock = await writeFile(`${folder}/stock.planish`, 'material plate\n  mild steel 16 ga\n');
    const cap = await writeFile(`${folder}/cap.planish`, 'use "stock.planish"\n');
    const edit = new vscode.WorkspaceEdit();
    edit.renameFile(stock, workspaceFile(`${folder}/sheet.planish`));
    assert.ok(await vscode.workspace.applyEdit(edit));
    await eventually(async () =>
      assert.match((await vscode.workspace.openTextDocument(cap)).getText(), /^use "sheet\.planish"$/m),
    );
  });

  it('lays a line out when Enter ends it', async () => {
    const line = spec.find('  strip 300 x 40 mm');
    await spec.replace('  strip 300 x 40 mm', '  strip   300x40mm');
    await spec.type('\n', spec.document.lineAt(line.start.line).range.end);
    await eventually(() => assert.equal(spec.document.lineAt(line.start.line).text, '  strip 300 x 40 mm'));
  });

  const folderTask = 'checks every spec of the folder as a task, and its findings reach Problems';
  itOutsideBrowser(folderTask, 'a browser starts no program', async () => {
    // First of all files: of many lines the editor may have read only the first ones when it looks.
    const name = `0-checked-${Date.now()}.planish`;
    await writeFile(name, 'piece cap\n  frm nothing\n  disc 90 mm\n');
    const clean = `0-clean-${Date.now()}.planish`;
    await writeFile(clean, bandedCap.slice(0, bandedCap.indexOf('## The band')));
    // A row that names an edge of one piece alone: worth knowing, and no error.
    const noted = `0-noted-${Date.now()}.planish`;
    await writeFile(noted, bandedCap);
    const severitiesIn = (file: string) =>
      vscode.languages.getDiagnostics(workspaceFile(file)).map(({ severity }) => severity);
    // The editor goes on without the tasks that it is not told of within 5 s: a slow one is asked again.
    const task = await eventually(async () => {
      const [first] = await vscode.tasks.fetchTasks({ type: 'planish' });
      assert.equal(first?.name, 'check every spec');
      return first;
    });
    // It looks for problems in the lines that it has read 100 ms after the end: where a slow one lost some, the task runs again.
    await eventually(async () => {
      assert.equal(await exitCodeOf(task), 1);
      await eventually(() => {
        const found = vscode.languages.getDiagnostics(workspaceFile(name)).map(({ message }) => message);
        assert.ok(
          found.some((message) => message.includes('frm')),
          `in Problems: ${found.join(' | ')}`,
        );
        assert.deepEqual(severitiesIn(clean), []);
        assert.deepEqual(severitiesIn(noted), [vscode.DiagnosticSeverity.Information]);
      }, 5_000);
    });
  });

  it('a server that is killed comes back, and what was typed meanwhile is not lost', async () => {
    await spec.clean();
    const { client } = await planish();
    const { runsIn, kill } = serverOf(client);
    kill();
    await spec.replace('1/8 x 5/16 in', '1/8 x 3/16 in');
    await spec.problem('rivet-too-short');
    assert.notEqual(serverOf(client).runsIn, runsIn);
  });
});

/** Runs a task to its end. */
async function exitCodeOf(task: vscode.Task): Promise<number | undefined> {
  const ended = new Promise<number | undefined>((resolve) => {
    const listening = vscode.tasks.onDidEndTaskProcess(({ execution, exitCode }) => {
      if (execution.task.name !== task.name) return;
      listening.dispose();
      resolve(exitCode);
    });
  });
  await vscode.tasks.executeTask(task);
  return ended;
}
