import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { eventually, openSpec, planish } from './editor.ts';

describe('the extension', () => {
  it('starts when a spec is opened, and not before', async () => {
    const extension = vscode.extensions.getExtension('planish.planish');
    assert.ok(extension, 'the extension is not installed');
    assert.equal(extension.isActive, false);
    const { document } = await openSpec('build "Watch helm"\n  duty display\n');
    assert.equal(document.languageId, 'planish');
    await eventually(() => assert.equal(extension.isActive, true));
    assert.equal((await planish()).client.isRunning(), true);
  });

  it('offers its commands', async () => {
    const commands = await vscode.commands.getCommands(true);
    for (const name of ['exportCutList', 'exportPatterns', 'newBuild', 'restartServer'])
      assert.ok(commands.includes(`planish.${name}`));
  });
});
