import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import type { Planish } from '../../client/extension.ts';
import { closeAll, eventually, openSpec, planish, type Spec, workspaceFile } from './editor.ts';
import { bandedCap } from './specs.ts';

describe('papers in a panel', () => {
  let extension: Planish;
  let spec: Spec;
  before(async () => {
    extension = await planish();
  });
  beforeEach(async () => {
    spec = await openSpec(bandedCap);
  });
  afterEach(closeAll);

  const show = (command: string) => vscode.commands.executeCommand(command);
  const shown = (command: string) => extension.papers.shown(command, spec.uri);
  /** The page has come up under its policy, and is told a paper that says so. */
  const shows = (command: string, text: RegExp) =>
    eventually(() => {
      const now = shown(command);
      assert.ok(now?.isUp, 'the page has not come up');
      assert.equal(now.state, '');
      assert.match(JSON.stringify(now.paper ?? null), text);
    });

  for (const [command, text] of [
    ['planish.showCutList', /"kind":"page".*Cut list.*band/],
    ['planish.showOrderList', /"kind":"page".*Order list/],
    ['planish.showPatterns', /"kind":"pictures".*"title":"band".*"title":"tab"/],
    ['planish.showLayouts', /"kind":"pictures".*"title":"plate, sheet 1 of 1/],
  ] as const)
    it(`${command} shows it, and it follows what is typed`, async () => {
      await show(command);
      await shows(command, text);
      assert.ok(spec.document === vscode.window.activeTextEditor?.document, 'the spec has lost the keyboard');
      const before = JSON.stringify(shown(command)?.paper);
      await spec.replace('mild steel 16 ga', 'mild steel 18 ga');
      await spec.replace('strip 300 x 40 mm', 'strip 320 x 44 mm');
      await eventually(() => assert.notEqual(JSON.stringify(shown(command)?.paper), before));
      await shows(command, text);
    });

  it('makes nothing while nobody looks, and what is true now when somebody does', async () => {
    await show('planish.showCutList');
    await shows('planish.showCutList', /band/);
    await vscode.window.showTextDocument(await vscode.workspace.openTextDocument({ content: 'in front' }), {
      viewColumn: vscode.ViewColumn.Two,
    });
    await eventually(() => assert.equal(shown('planish.showCutList')?.isUp, false));
    await vscode.window.showTextDocument(spec.document, vscode.ViewColumn.One);
    await spec.replace('piece tab', 'piece late-tab');
    await spec.replace('joins band, tab', 'joins band, late-tab');
    await spec.hovers('late-tab', /./);
    assert.doesNotMatch(JSON.stringify(shown('planish.showCutList')), /late-tab/);
    await show('planish.showCutList');
    await shows('planish.showCutList', /late-tab/);
  });

  it('says what has no drawing', async () => {
    await spec.replace('  strip 300 x 40 mm\n', '');
    await show('planish.showPatterns');
    await shows('planish.showPatterns', /"missing":"Not drawn: band \(.+\)/);
  });

  it('shows the spec that a menu was opened on, until it is closed', async () => {
    const place = workspaceFile('from-a-menu.planish');
    const bytes = new TextEncoder().encode(bandedCap);
    await vscode.workspace.fs.writeFile(place, bytes);
    await vscode.commands.executeCommand('planish.showCutList', place);
    const now = () => extension.papers.shown('planish.showCutList', place);
    await eventually(() => assert.match(JSON.stringify(now()?.paper ?? null), /band/));
    await closeAll();
    assert.equal(now(), undefined);
  });
});
