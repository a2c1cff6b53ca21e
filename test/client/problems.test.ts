import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, eventually, openSpec, planish, writeFile } from './editor.ts';
import { bandedCap, shortRivet } from './specs.ts';

describe('problems', () => {
  before(planish);
  afterEach(closeAll);

  it('has nothing against a spec that can be made', async () => {
    const spec = await openSpec(bandedCap);
    // Something wrong first, so that silence afterwards is an answer and not a server that has not spoken yet.
    await spec.replace('strip 300', 'stripp 300');
    await spec.problem('unknown-word');
    await spec.replace('stripp 300', 'strip 300');
    await spec.withoutProblem('unknown-word');
    await spec.clean();
  });

  it('marks a rivet that is too short while it is typed, and says by how much', async () => {
    const spec = await openSpec(bandedCap);
    await spec.replace('5/16 in', '3/16 in');
    const problem = await spec.problem('rivet-too-short');
    assert.equal(problem.source, 'planish');
    assert.match(problem.message, /\d mm/);
    assert.ok(problem.severity <= vscode.DiagnosticSeverity.Warning, 'at least a warning');
    assert.equal(typeof problem.code, 'object', 'the code links to what it means');
    await spec.replace('3/16 in', '5/16 in');
    await spec.withoutProblem('rivet-too-short');
  });

  it('mends a rivet that is too short', async () => {
    const spec = await openSpec(shortRivet);
    const problem = await spec.problem('rivet-too-short');
    const fixes = await spec.quickFixes(problem.range);
    const fix = fixes.find(({ title }) => title.includes('5/16 in'));
    assert.ok(fix, `no fix among: ${fixes.map(({ title }) => title).join(', ')}`);
    await spec.apply(fix);
    await spec.withoutProblem('rivet-too-short');
    await spec.clean();
  });

  it('marks a word it does not know with the nearest one it does, and puts that in', async () => {
    const spec = await openSpec(bandedCap.replace('strip 300', 'stirp 300'));
    const problem = await spec.problem('unknown-word');
    assert.deepEqual(problem.range, spec.find('stirp'));
    assert.match(problem.message, /strip/);
    const fix = (await spec.quickFixes(problem.range)).find(({ title }) => title.includes('strip'));
    assert.ok(fix, 'no fix that says strip');
    await spec.apply(fix);
    assert.equal(spec.text, bandedCap);
  });

  it('explains a code behind its link', async () => {
    const spec = await openSpec(shortRivet);
    const { code } = await spec.problem('rivet-too-short');
    assert.ok(typeof code === 'object');
    const page = await vscode.workspace.openTextDocument(code.target);
    assert.match(page.getText(), /rivet-too-short/);
    assert.match(page.getText(), /## /);
  });

  it('marks a name that nothing has', async () => {
    const spec = await openSpec(bandedCap.replace('joins band, tab', 'joins band, tap'));
    const problem = await spec.problem('unknown-name');
    assert.deepEqual(problem.range, spec.find('tap'));
  });

  it('reads a stock file that the spec uses, and again when that is changed', async () => {
    const stock = (text: string) => writeFile('shop/stock.planish', text);
    const plate = 'planish 1\n\nmaterial plate\n  mild steel 16 ga\n  sheet 1220 x 2440 mm\n';
    await stock(plate);
    const spec = await openSpec(
      'planish 1\n\nuse "shop/stock.planish"\n\npiece tab\n  from plate\n  plate 120 x 40 mm\n',
    );
    await spec.hovers('plate\n  plate', /steel/);
    await spec.withoutProblem('unknown-name');
    await stock(plate.replace('material plate', 'material sheet-steel'));
    await spec.problem('unknown-name');
    await stock(plate);
    await spec.withoutProblem('unknown-name');
  });

  it('reads a spec that is not saved yet', async () => {
    const document = await vscode.workspace.openTextDocument({ language: 'planish', content: 'peice tab\n' });
    await vscode.window.showTextDocument(document);
    await eventually(() => assert.ok(vscode.languages.getDiagnostics(document.uri).length > 0));
  });

  it('takes what is in the rack, and shows what it changes there', async () => {
    const rack = await writeFile(
      'rack.planish',
      'rivet short\n  brass 4 x 6 mm, domed\nrivet long\n  brass 4 x 8 mm, domed\n',
    );
    const spec = await openSpec(
      bandedCap
        .replace('planish 1\n', 'planish 1\nuse "rack.planish"\n')
        .replace(/rivet small\n.*\n\n/, '')
        .replace('rivets small', 'rivets short'),
    );
    await spec.problem('rivet-too-short');
    const fixes = await spec.quickFixes(spec.find('short,'));
    const [taken, changed] = fixes.filter(({ title }) => /^(?:With|Make) /.test(title));
    assert.equal(taken?.title, 'With long, 8 mm long');
    assert.match(changed?.title ?? '', /^Make short 8 mm long in rack\.planish: one seam uses it$/);
    await spec.apply(changed!);
    const { command, arguments: given = [] } = changed!.command!;
    await vscode.commands.executeCommand(command, ...given);
    const shown = vscode.window.visibleTextEditors.find(({ document }) => document.uri.path === rack.path);
    assert.equal(shown?.document.lineAt(shown.selection.active.line).text, '  brass 4 x 8 mm, domed');
    const tabs = vscode.window.tabGroups.all.flatMap((group) => group.tabs.map(({ label }) => label));
    assert.equal(tabs.filter((label) => label === 'rack.planish').length, 1, tabs.join(', '));
    await spec.withoutProblem('rivet-too-short');
    await vscode.workspace.saveAll();
  });

  it('forgets the problems of a file that is deleted', async () => {
    const spec = await openSpec(shortRivet);
    await spec.problem('rivet-too-short');
    const { uri } = spec;
    await closeAll();
    // As the explorer deletes: the editor lets go of the document at once.
    const change = new vscode.WorkspaceEdit();
    change.deleteFile(uri);
    assert.ok(await vscode.workspace.applyEdit(change));
    await eventually(() => assert.equal(vscode.languages.getDiagnostics(uri).length, 0));
  });

  it('goes on answering whatever is typed', async () => {
    const spec = await openSpec(bandedCap);
    for (const text of ['"', '((', ' x x ,', '\u0000', '½"×', 'piece piece', '# allow', '1/0 in', '\ud83d'])
      await spec.editor.edit((edit) => edit.insert(spec.find('strip').start, text));
    await eventually(() => assert.ok(spec.problems().length > 0));
    await spec.hovers('16 ga', /mm/);
    assert.equal((await planish()).client.isRunning(), true);
  });

  it('comes back after the server is restarted', async () => {
    const spec = await openSpec(shortRivet);
    await spec.problem('rivet-too-short');
    await vscode.commands.executeCommand('planish.restartServer');
    await spec.problem('rivet-too-short');
    await spec.hovers('16 ga', /mm/);
  });
});
