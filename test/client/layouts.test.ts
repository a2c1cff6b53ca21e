import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import type { ExportRequest } from '../../client/offer.ts';
import { closeAll, eventually, openSpec, planish, readFile, workspaceFile, writeFile } from './editor.ts';
import { bandedCap } from './specs.ts';

const exportLayouts = (request: ExportRequest) =>
  vscode.commands.executeCommand<vscode.Uri[]>('planish.exportLayouts', request);
const namesIn = async (folder: vscode.Uri) =>
  (await vscode.workspace.fs.readDirectory(folder)).map(([name]) => name).sort();

describe('export sheet layouts', () => {
  before(planish);
  afterEach(closeAll);

  for (const [to, sign] of [
    ['svg', /<g id="cut">/],
    ['dxf', /AC1009/],
  ] as const)
    it(`writes ${to.toUpperCase()}, a file for each sheet`, async () => {
      await openSpec(bandedCap, `laid-${to}.planish`);
      const folder = workspaceFile(`layouts-${to}`);
      const written = await exportLayouts({ to, folder: folder.toString() });
      assert.deepEqual(await namesIn(folder), [`laid-${to}.plate-1.${to}`]);
      assert.deepEqual(
        written.map((uri) => uri.path.slice(folder.path.length + 1)),
        [`laid-${to}.plate-1.${to}`],
      );
      const text = await readFile(written[0]!);
      assert.match(text, sign);
      // Two builds of a band and three tabs each.
      for (const name of ['band 1', 'band 2', 'tab 6']) assert.ok(text.includes(name), name);
    });

  it('asks for the format where none is told', async () => {
    await openSpec(bandedCap, 'asked.planish');
    const folder = workspaceFile('asked-layouts');
    let written: vscode.Uri[] | undefined;
    const done = exportLayouts({ folder: folder.toString() }).then((uris) => {
      written = uris;
    });
    // Taken as it stands, the first: until the question is there, nothing is.
    await eventually(async () => {
      await vscode.commands.executeCommand('workbench.action.acceptSelectedQuickOpenItem');
      assert.ok(written);
    });
    await done;
    assert.deepEqual(await namesIn(folder), ['asked.plate-1.dxf']);
  });

  it('moves what is cut aside of the kerf, where the shop has set it', async () => {
    await openSpec(bandedCap.replace('  sheet', '  kerf 0.4 mm\n  sheet'), 'kerf.planish');
    const settings = vscode.workspace.getConfiguration('planish');
    let count = 0;
    const sheet = async (request: ExportRequest = {}) => {
      const folder = workspaceFile(`kerf-layouts-${++count}`).toString();
      const [uri] = await exportLayouts({ to: 'dxf', folder, ...request });
      return readFile(uri!);
    };
    const patterns = async (to: 'dxf' | 'pdf') => {
      const target = workspaceFile(`kerf-patterns-${++count}.${to}`).toString();
      const uri = await vscode.commands.executeCommand<vscode.Uri | undefined>('planish.exportPatterns', {
        to,
        target,
      });
      return uri && readFile(uri);
    };
    const [plain, plainPatterns] = [await sheet(), await patterns('dxf')];
    await settings.update('export.kerf', true, vscode.ConfigurationTarget.Workspace);
    try {
      const aside = await sheet();
      assert.notEqual(aside, plain);
      assert.equal(await sheet({ kerf: false }), plain, 'a caller says it for this once');
      assert.doesNotMatch(plainPatterns!, /half the kerf/);
      assert.match((await patterns('dxf'))!, /half the kerf of 0\.4 mm/);
      assert.match((await patterns('pdf'))!, /^%PDF-/, 'cut by hand, whatever is set');
    } finally {
      await settings.update('export.kerf', undefined, vscode.ConfigurationTarget.Workspace);
    }
    assert.notEqual(await sheet({ kerf: true }), plain);
  });

  it('never writes over a sheet that is there unless it is told to', async () => {
    await openSpec(bandedCap, 'kept.planish');
    const folder = workspaceFile('kept-layouts');
    const kept = await writeFile('kept-layouts/kept.plate-1.dxf', 'mine');
    assert.deepEqual(await exportLayouts({ to: 'dxf', folder: folder.toString(), overwrite: false }), []);
    assert.equal(await readFile(kept), 'mine');
    assert.equal((await exportLayouts({ to: 'dxf', folder: folder.toString(), overwrite: true })).length, 1);
    assert.match(await readFile(kept), /AC1009/);
  });

  it('writes nothing where there is nothing to lay', async () => {
    await openSpec('planish 1\n\nbuild "Nothing"\n');
    const folder = workspaceFile('no-layouts');
    assert.deepEqual(await exportLayouts({ to: 'svg', folder: folder.toString() }), []);
    await assert.rejects(async () => await vscode.workspace.fs.stat(folder));
  });
});
