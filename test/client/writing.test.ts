import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, eventually, openSpec, planish, workspaceFile, writeFile } from './editor.ts';
import { bandedCap } from './specs.ts';

describe('writing a spec', () => {
  before(planish);
  afterEach(closeAll);

  it('offers in a piece the lines of a piece', async () => {
    const spec = await openSpec(bandedCap.replace('  strip 300 x 40 mm\n', '  strip 300 x 40 mm\n  \n'));
    const names = await eventually(async () => {
      const found = await spec.completionNames(spec.find('strip 300 x 40 mm\n  ').end);
      assert.ok(found.length > 0);
      return found;
    });
    for (const word of ['edge', 'planish', 'hole', 'make'])
      assert.ok(has(names, word), `no ${word}: ${names.join(', ')}`);
    for (const word of ['pivots', 'rate', 'joins']) assert.ok(!has(names, word), `${word} is no line of a piece`);
  });

  it('offers after "from" the materials and nothing else', async () => {
    const spec = await openSpec(bandedCap.replace('from plate', 'from '));
    await eventually(async () => {
      const names = await spec.completionNames(spec.find('from ').end);
      assert.ok(names.includes('plate'), names.join(', '));
      for (const other of ['band', 'tab', 'small', 'edge'])
        assert.ok(!names.includes(other), `${other} is no material`);
    });
  });

  it('offers sections at the start of a line, each with a word of explanation', async () => {
    const spec = await openSpec(`${bandedCap}\n`);
    await eventually(async () => {
      const items = await spec.completions(new vscode.Position(spec.document.lineCount - 1, 0));
      const joint = items.find(({ label }) => (typeof label === 'string' ? label : label.label).startsWith('joint'));
      assert.ok(joint, 'no joint');
      assert.ok(joint.documentation || joint.detail, 'nothing said about it');
    });
  });

  it('offers the files and folders beside it where a path is written, and follows what comes and goes', async () => {
    const folder = `paths-${Date.now()}`;
    await writeFile(`${folder}/shop/stock.planish`, 'material plate\n  mild steel 16 ga\n');
    await writeFile(`${folder}/crest.svg`, '<svg xmlns="http://www.w3.org/2000/svg"/>');
    const spec = await openSpec('use "./"\n\npiece cap\n  outline "./"\n', `${folder}/cap.planish`);
    const offers = (line: string, ...labels: string[]) =>
      eventually(async () => assert.deepEqual(await spec.completionNames(spec.find(line).end), labels));
    await offers('use "./', 'shop/');
    await offers('outline "./', 'crest.svg', 'shop/');
    await writeFile(`${folder}/hinges/pins.planish`, 'rivet pin\n  brass 3 x 20 mm\n');
    await offers('use "./', 'hinges/', 'shop/');
    await vscode.workspace.fs.delete(workspaceFile(`${folder}/shop`), { recursive: true });
    await offers('use "./', 'hinges/');
    await offers('outline "./', 'crest.svg', 'hinges/');
  });

  it('names the file that was likely meant by a use that leads nowhere, and puts it in', async () => {
    const folder = `meant-${Date.now()}`;
    await writeFile(`${folder}/shop/stock.planish`, 'material plate\n  mild steel 16 ga\n');
    const spec = await openSpec('use "shop/stok.planish"\n', `${folder}/cap.planish`);
    const problem = await spec.problem('use-missing');
    const fix = (await spec.quickFixes(problem.range)).find(({ title }) => title.includes('shop/stock.planish'));
    assert.ok(fix, problem.message);
    await spec.apply(fix);
    await spec.withoutProblem('use-missing');
    assert.equal(spec.text, 'use "shop/stock.planish"\n');
  });

  it('renames a piece wherever it is used', async () => {
    const spec = await openSpec(bandedCap);
    const change = await eventually(async () => {
      const made = await vscode.commands.executeCommand<vscode.WorkspaceEdit | undefined>(
        'vscode.executeDocumentRenameProvider',
        spec.uri,
        spec.find('piece band').end,
        'brow-band',
      );
      assert.ok(made && made.size > 0);
      return made;
    });
    assert.ok(await vscode.workspace.applyEdit(change));
    const expected = bandedCap
      .replace('piece band\n', 'piece brow-band\n')
      .replace('joins band,', 'joins brow-band,')
      .replace('along band.bottom', 'along brow-band.bottom');
    assert.equal(spec.text, expected);
  });

  it('renames in the files that use it too', async () => {
    await writeFile('shared/steel.planish', 'planish 1\n\nmaterial plate\n  mild steel 16 ga\n');
    const spec = await openSpec('planish 1\n\nuse "shared/steel.planish"\n\npiece tab\n  from plate\n  disc 90 mm\n');
    await eventually(async () => {
      const change = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
        'vscode.executeDocumentRenameProvider',
        spec.uri,
        spec.find('from plate').end.translate(0, -1),
        'cap-steel',
      );
      assert.equal(change.get(workspaceFile('shared/steel.planish')).length, 1);
      assert.equal(change.get(spec.uri).length, 1);
    });
  });

  it('renames in specs that are not open', async () => {
    const user = await writeFile('shelf/cap.planish', 'use "steel.planish"\n\npiece cap\n  from plate\n  disc 90 mm\n');
    const spec = await openSpec('material plate\n  mild steel 16 ga\n', 'shelf/steel.planish');
    await eventually(async () => {
      const change = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
        'vscode.executeDocumentRenameProvider',
        spec.uri,
        spec.find('material plate').end,
        'cap-steel',
      );
      assert.equal(change.get(user).length, 1);
    });
  });

  it('refuses a new name that cannot be one', async () => {
    const spec = await openSpec(bandedCap);
    await eventually(async () => assert.ok((await spec.hints()).length > 0));
    await assert.rejects(
      async () =>
        await vscode.commands.executeCommand(
          'vscode.executeDocumentRenameProvider',
          spec.uri,
          spec.find('piece band').end,
          'piece',
        ),
    );
  });

  it('sets an untidy spec straight and keeps every comment', async () => {
    const untidy = bandedCap
      .replace('  from plate\n', 'from    plate   # the good sheet\n')
      .replace('120 x 40 mm', '120x40mm')
      .replace('\n\nrivet', '\n\n\n\nrivet')
      .replace('  joins band, tab', '      joins band,tab');
    const spec = await openSpec(untidy);
    await eventually(async () => {
      await spec.format();
      assert.match(spec.text, /^ {2}from plate +# the good sheet$/m);
    });
    assert.equal(spec.text.replace(/ +# the good sheet/, ''), bandedCap);
    await spec.format();
    assert.equal(spec.text.replace(/ +# the good sheet/, ''), bandedCap, 'a tidy spec stays as it is');
  });
});

describe('the editor while typing', () => {
  before(planish);
  afterEach(closeAll);

  it('turns a line into a comment and back', async () => {
    const spec = await openSpec(bandedCap);
    const { start } = spec.find('strip 300');
    spec.editor.selection = new vscode.Selection(start, start);
    await vscode.commands.executeCommand('editor.action.commentLine');
    await eventually(() => assert.match(spec.text, /^ {2}# strip 300 x 40 mm$/m));
    await vscode.commands.executeCommand('editor.action.commentLine');
    await eventually(() => assert.equal(spec.text, bandedCap));
  });

  it('goes on with a note in the next line', async () => {
    const spec = await openSpec(bandedCap);
    await spec.type('\n', spec.find('outside.').end);
    await eventually(() => assert.match(spec.text, /^## The band lies outside\.\n## \nseam band-line$/m));
  });

  it('indents the lines under a header, and not the next header', async () => {
    const spec = await openSpec('');
    for (const text of ['piece tab', '\n', 'from plate', '\n']) await spec.type(text, end(spec.document));
    await eventually(() => assert.equal(spec.text, 'piece tab\n  from plate\n  '));
  });

  it('puts a section in at the start of its line, and its body under it', async () => {
    const spec = await openSpec(`${bandedCap}\n  `);
    const { lineCount } = spec.document;
    const at = new vscode.Position(lineCount - 1, 2);
    await eventually(async () => assert.ok((await spec.completionNames(at)).includes('seam')));
    await spec.type('sea', at);
    await eventually(async () => {
      await vscode.commands.executeCommand('editor.action.triggerSuggest');
      await new Promise((wait) => setTimeout(wait, 500));
      await vscode.commands.executeCommand('acceptSelectedSuggestion');
      assert.match(spec.text, /\nseam ridge-line\n {2}joins (?:tab|band), .*\n {2}rivets /);
    });
  });

  it('closes a quote, but not the inch mark after a number', async () => {
    const spec = await openSpec('');
    await spec.type('build ', end(spec.document));
    await spec.type('"', end(spec.document));
    await eventually(() => assert.equal(spec.text, 'build ""'));
    await spec.editor.edit((edit) => edit.replace(new vscode.Range(0, 0, 0, 8), 'strip 12'));
    await spec.type('"', end(spec.document));
    await eventually(() => assert.equal(spec.text, 'strip 12"'));
  });

  it('takes hyphenated and dotted names of any script as one word', async () => {
    const spec = await openSpec('let a = guard.head-round + über-länge.weite + 2027-03-01\n');
    for (const word of ['guard.head-round', 'über-länge.weite', '2027-03-01']) {
      const found = spec.document.getWordRangeAtPosition(spec.find(word).start.translate(0, 2));
      assert.equal(found && spec.document.getText(found), word);
    }
  });
});

const end = (document: vscode.TextDocument): vscode.Position => document.lineAt(document.lineCount - 1).range.end;

/** A completion may carry its arguments along: `edge …` is the word edge all the same. */
const has = (names: string[], word: string): boolean =>
  names.some((name) => name === word || name.startsWith(`${word} `));
