import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import type { NewBuildRequest } from '../../client/new-build.ts';
import type { ExportRequest } from '../../client/offer.ts';
import { ask } from '../../client/protocol.ts';
import { told } from '../../client/save-paper.ts';
import type { PaperFile } from '../../server/requests.ts';
import { closeAll, eventually, openSpec, planish, readFile, workspaceFile, writeFile } from './editor.ts';
import { bandedCap } from './specs.ts';

const exportCutList = (request: ExportRequest) =>
  vscode.commands.executeCommand<vscode.Uri | undefined>('planish.exportCutList', request);
const newBuild = (request: NewBuildRequest) =>
  vscode.commands.executeCommand<vscode.Uri | undefined>('planish.newBuild', request);

describe('export cut list', () => {
  before(planish);
  afterEach(closeAll);

  const signs: Record<'html' | 'pdf' | 'csv' | 'md' | 'json', RegExp> = {
    html: /<svg/,
    pdf: /^%PDF-/,
    csv: /band/,
    md: /\|/,
    json: /^\s*\{/,
  };
  for (const to of ['html', 'pdf', 'csv', 'md', 'json'] as const)
    it(`writes ${to.toUpperCase()}`, async () => {
      await openSpec(bandedCap);
      const target = workspaceFile(`cut-list.${to}`);
      const written = await exportCutList({ to, target: target.toString() });
      assert.equal(written?.toString(), target.toString());
      const text = await readFile(target);
      assert.match(text, signs[to]);
      if (to !== 'pdf') assert.match(text, /tab/);
    });

  it('exports what is in the editor, saved or not', async () => {
    const spec = await openSpec(bandedCap);
    await spec.replace('piece tab', 'piece late-tab');
    await spec.replace('joins band, tab', 'joins band, late-tab');
    const target = workspaceFile('unsaved.csv');
    await exportCutList({ to: 'csv', target: target.toString() });
    assert.match(await readFile(target), /late-tab/);
  });

  it('exports a spec that is not open', async () => {
    const uri = await writeFile('closed.planish', bandedCap);
    const target = workspaceFile('closed.csv');
    await exportCutList({ uri: uri.toString(), to: 'csv', target: target.toString() });
    assert.match(await readFile(target), /band/);
  });

  it('never writes over a file by itself', async () => {
    await openSpec(bandedCap);
    const target = await writeFile('kept.csv', 'mine');
    assert.equal(await exportCutList({ to: 'csv', target: target.toString() }), undefined);
    assert.equal(await readFile(target), 'mine');
    assert.ok(await exportCutList({ to: 'csv', target: target.toString(), overwrite: true }));
    assert.match(await readFile(target), /band/);
  });

  it('writes nothing for a spec that is not there', async () => {
    const target = workspaceFile('nothing.csv');
    const uri = workspaceFile('no-such.planish').toString();
    assert.equal(await exportCutList({ uri, to: 'csv', target: target.toString() }), undefined);
    await assert.rejects(async () => await vscode.workspace.fs.stat(target));
  });
});

describe('export order list', () => {
  for (const to of ['html', 'pdf', 'md', 'json'] as const)
    it(`writes ${to.toUpperCase()}`, async () => {
      await openSpec(bandedCap);
      const target = workspaceFile(`order-list.${to}`);
      const request: ExportRequest = { to, target: target.toString() };
      const written = await vscode.commands.executeCommand<vscode.Uri | undefined>('planish.exportOrderList', request);
      assert.equal(written?.toString(), target.toString());
      assert.match(await readFile(target), to === 'pdf' ? /^%PDF-/ : /order list/i);
    });
});

/** Four teeth of nine metres: no sheet of paper lies inside of it and can be spared. */
const comb = `
piece comb
  from plate
  outline
    to 8000 mm right and 0 mm up
${[7000, 5000, 3000, 1000]
  .map(
    (left) => `    to ${left + 1000} mm right and 500 mm up
    to ${left + 1000} mm right and 9000 mm up
    to ${left} mm right and 9000 mm up
    to ${left} mm right and 500 mm up
`,
  )
  .join('')}    to 0 mm right and 500 mm up
`;

describe('export patterns', () => {
  before(planish);
  afterEach(closeAll);

  const exportPatterns = (request: ExportRequest) =>
    vscode.commands.executeCommand<vscode.Uri | undefined>('planish.exportPatterns', request);
  const signs = { pdf: /^%PDF-/, svg: /<g id="cut">/, dxf: /AC1009/ };
  for (const to of ['pdf', 'svg', 'dxf'] as const)
    it(`writes ${to.toUpperCase()}`, async () => {
      await openSpec(bandedCap);
      const target = workspaceFile(`patterns.${to}`);
      const written = await exportPatterns({ to, target: target.toString() });
      assert.equal(written?.toString(), target.toString());
      assert.match(await readFile(target), signs[to]);
    });

  it('says which piece would take too many sheets, and writes the others', async () => {
    const { client } = await planish();
    const spec = await openSpec(`${bandedCap}${comb}`);
    const target = workspaceFile('without-comb.pdf');
    const written = await exportPatterns({ to: 'pdf', paper: 'a4', target: target.toString() });
    assert.match(await readFile(written!), signs.pdf);
    const asked = { uri: spec.uri.toString(), to: 'pdf' };
    const { text, isWarning } = told(
      'Written.',
      await client.sendRequest<PaperFile>('planish/patterns', { ...asked, paper: 'a4' }),
    );
    assert.match(text, /^Written\. Not drawn: comb \(it would take \d+ sheets, .*ask for full pages.*\)\.$/);
    assert.equal(isWarning, true);
    const full = told('Written.', await client.sendRequest<PaperFile>('planish/patterns', { ...asked, paper: 'full' }));
    assert.deepEqual(full, { text: 'Written.', isWarning: false });
  });

  it('never writes over a file by itself', async () => {
    await openSpec(bandedCap);
    const target = await writeFile('kept.dxf', 'mine');
    assert.equal(await exportPatterns({ to: 'dxf', target: target.toString() }), undefined);
    assert.equal(await readFile(target), 'mine');
  });
});

describe('new build', () => {
  before(planish);
  afterEach(closeAll);

  it('writes a starter, opens its spec, and finds nothing wrong with it', async () => {
    const { client } = await planish();
    const starters = await ask(client, 'planish/starters');
    assert.ok(starters.length >= 2, 'fewer than two starters');
    for (const { id, title, description } of starters) {
      assert.ok(title && description, `${id} says nothing about itself`);
      const folder = workspaceFile(`new-${id}`);
      const spec = await newBuild({ from: id, folder: folder.toString() });
      assert.ok(spec, `${id} wrote nothing`);
      assert.ok(spec.path.startsWith(folder.path));
      assert.equal(vscode.window.activeTextEditor?.document.uri.toString(), spec.toString());
      assert.match(await readFile(spec), /^build /m);
      // The server has read it once it says what it weighs.
      await eventually(async () => assert.match((await planish()).status().text, /\d (g|kg)/));
      await eventually(() => {
        const wrong = vscode.languages
          .getDiagnostics(spec)
          .filter(({ severity }) => severity <= vscode.DiagnosticSeverity.Warning);
        assert.deepEqual(
          wrong.map(({ message }) => message),
          [],
        );
      });
    }
  });

  it('writes nothing where one of its files is there already', async () => {
    const { client } = await planish();
    const [starter] = await ask(client, 'planish/starters');
    assert.ok(starter);
    const first = await newBuild({ from: starter.id, folder: workspaceFile('twice').toString() });
    assert.ok(first);
    await vscode.workspace.fs.writeFile(first, new TextEncoder().encode('# mine\n'));
    assert.equal(await newBuild({ from: starter.id, folder: workspaceFile('twice').toString() }), undefined);
    assert.equal(await readFile(first), '# mine\n');
  });
});
