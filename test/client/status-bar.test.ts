import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, eventually, openSpec, planish, writeFile } from './editor.ts';
import { bandedCap } from './specs.ts';

describe('the status bar', () => {
  before(planish);
  afterEach(closeAll);

  it('shows the total mass, and a tick while nothing is wrong', async () => {
    await openSpec(bandedCap);
    const { status } = await planish();
    await eventually(() => assert.match(status().text, /^\$\(law\) [\d.,]+ (g|kg) \$\(check\)$/));
    assert.equal(status().visible, true);
  });

  it('follows an edit: mass and problems', async () => {
    const spec = await openSpec(bandedCap);
    const { status } = await planish();
    await eventually(() => assert.match(status().text, /\$\(check\)$/));
    const before = status().text;
    await spec.replace('strip 300', 'strip 600');
    await eventually(() => assert.notEqual(status().text, before));
    await spec.replace('strip 600', 'stripp 600');
    await eventually(() => assert.match(status().text, /\$\(error\) \d/));
  });

  it('is there for specs only', async () => {
    await openSpec(bandedCap);
    const { status } = await planish();
    await eventually(() => assert.equal(status().visible, true));
    await vscode.window.showTextDocument(await writeFile('note.txt', 'remember the wax'));
    await eventually(() => assert.equal(status().visible, false));
  });
});
