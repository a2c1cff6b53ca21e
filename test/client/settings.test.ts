import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, eventually, openSpec, planish } from './editor.ts';
import { bandedCap, shortRivet } from './specs.ts';

describe('settings', () => {
  before(planish);
  afterEach(closeAll);

  it('lets a shop say how loudly a check speaks', async () => {
    const spec = await openSpec(shortRivet);
    await spec.problem('rivet-too-short');
    const settings = vscode.workspace.getConfiguration('planish');
    const choose = (severity: object | undefined) =>
      settings.update('checks.severity', severity, vscode.ConfigurationTarget.Workspace);
    try {
      await choose({ 'rivet-too-short': 'hint' });
      await eventually(async () =>
        assert.equal((await spec.problem('rivet-too-short')).severity, vscode.DiagnosticSeverity.Hint),
      );
      await choose({ 'rivet-too-short': 'off' });
      await spec.withoutProblem('rivet-too-short');
    } finally {
      await choose(undefined);
    }
    await spec.problem('rivet-too-short');
  });

  it('keeps safety cautions whatever is set', async () => {
    const spec = await openSpec(bandedCap.replace('duty display', 'duty stage'));
    const said = () =>
      eventually(async () => {
        const lenses = await vscode.commands.executeCommand<vscode.CodeLens[]>(
          'vscode.executeCodeLensProvider',
          spec.uri,
          50,
        );
        assert.ok(lenses.some(({ command }) => /^\d+ cautions?: .*not certified/.test(command?.title ?? '')));
      });
    await said();
    const settings = vscode.workspace.getConfiguration('planish');
    try {
      await settings.update(
        'checks.severity',
        { 'duty-not-certified': 'off', 'rivet-too-short': 'off' },
        vscode.ConfigurationTarget.Workspace,
      );
      await spec.replace('5/16 in', '3/16 in');
      await spec.withoutProblem('rivet-too-short');
      await said();
      // A shop that wants it at its line has it there.
      await settings.update(
        'checks.severity',
        { 'duty-not-certified': 'warning' },
        vscode.ConfigurationTarget.Workspace,
      );
      await spec.problem('duty-not-certified');
    } finally {
      await settings.update('checks.severity', undefined, vscode.ConfigurationTarget.Workspace);
    }
  });

  it('shows figures in the units that are chosen, and leaves the text', async () => {
    const spec = await openSpec(bandedCap);
    await spec.hovers('strip 300', /blank, long: 300 mm/);
    try {
      await vscode.commands.executeCommand('planish.chooseUnits', 'in');
      await spec.hovers('strip 300', /blank, long: 11 \d+\/\d+ in/);
      assert.equal(spec.text, bandedCap);
    } finally {
      await vscode.commands.executeCommand('planish.chooseUnits', 'build');
    }
    await spec.hovers('strip 300', /blank, long: 300 mm/);
  });

  it('indents specs by two spaces', async () => {
    const spec = await openSpec(bandedCap);
    assert.deepEqual([spec.editor.options.tabSize, spec.editor.options.insertSpaces], [2, true]);
  });
});
