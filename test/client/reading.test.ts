import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, eventually, openSpec, planish, type Spec } from './editor.ts';
import { bandedCap } from './specs.ts';

const places = (spec: Spec, found: vscode.Location[]): string[] =>
  found
    .filter(({ uri }) => uri.toString() === spec.uri.toString())
    .map(({ range }) => `${range.start.line + 1}:${range.start.character + 1}`)
    .sort();

const place = (spec: Spec, text: string, nth = 1): string => {
  const { start } = spec.find(text, nth);
  return `${start.line + 1}:${start.character + 1}`;
};

describe('reading a spec', () => {
  let spec: Spec;
  before(planish);
  beforeEach(async () => {
    spec = await openSpec(bandedCap);
  });
  afterEach(closeAll);

  it('shows on hover how many rivets there are, and how that comes about', async () => {
    await eventually(async () => {
      const text = await spec.hover('rivets small');
      assert.match(text, /rivets in one row: \d+\*\* *\n`.*\(300 − 2 × 10\) ÷ 25/);
      assert.match(text, /basis|geometry|published|common practice/i);
    });
  });

  it('says on hover what a gauge is, and by which table', async () => {
    await spec.hovers('16 ga', /1\.5\d* mm/);
  });

  it('shows a note where its piece is named', async () => {
    await spec.hovers('band-line', /The band lies outside\./);
  });

  it('shows figures beside the lines', async () => {
    await eventually(async () => {
      const hints = await spec.hints();
      assert.ok(
        hints.some((hint) => /1\.5\d* mm/.test(hint)),
        `no real thickness among: ${hints.join(' | ')}`,
      );
      assert.ok(
        hints.some((hint) => /\d+ (x|×) \d+/.test(hint)),
        `no blank size among: ${hints.join(' | ')}`,
      );
      assert.ok(hints.length >= 4, hints.join(' | '));
    });
  });

  it('shows no figures where they are switched off', async () => {
    const settings = vscode.workspace.getConfiguration('planish');
    await eventually(async () => assert.ok((await spec.hints()).length > 0));
    try {
      await settings.update('hints.enabled', false, vscode.ConfigurationTarget.Workspace);
      await eventually(async () => assert.deepEqual(await spec.hints(), []));
    } finally {
      await settings.update('hints.enabled', undefined, vscode.ConfigurationTarget.Workspace);
    }
    await eventually(async () => assert.ok((await spec.hints()).length > 0));
  });

  it('leaves out a kind of figure that is switched off', async () => {
    const settings = vscode.workspace.getConfiguration('planish');
    const thickness = (hints: string[]) => hints.filter((hint) => /1\.5\d* mm/.test(hint) && !/x|×/.test(hint));
    await eventually(async () => assert.ok((await spec.hints()).length > 0));
    const all = await spec.hints();
    try {
      await settings.update('hints.blankSize', false, vscode.ConfigurationTarget.Workspace);
      await eventually(async () => {
        const left = await spec.hints();
        assert.ok(left.length > 0 && left.length < all.length, left.join(' | '));
        assert.deepEqual(thickness(left), thickness(all));
      });
    } finally {
      await settings.update('hints.blankSize', undefined, vscode.ConfigurationTarget.Workspace);
    }
  });

  it('gives every section to the outline', async () => {
    await eventually(async () => {
      const symbols = await vscode.commands.executeCommand<vscode.DocumentSymbol[]>(
        'vscode.executeDocumentSymbolProvider',
        spec.uri,
      );
      assert.deepEqual(
        symbols.map(({ name }) => name.replace(/^(build|material|rivet|piece|seam) /, '').replaceAll('"', '')),
        ['Banded cap', 'plate', 'small', 'band', 'tab', 'band-line'],
      );
    });
  });

  it('goes from a name to where it is made', async () => {
    await eventually(async () => {
      const found = await vscode.commands.executeCommand<(vscode.Location | vscode.LocationLink)[]>(
        'vscode.executeDefinitionProvider',
        spec.uri,
        spec.find('joins band, tab').end,
      );
      const [target] = found.map((one) =>
        'targetUri' in one ? (one.targetSelectionRange ?? one.targetRange) : one.range,
      );
      assert.equal(target?.start.line, spec.find('piece tab').start.line);
    });
  });

  it('finds every use of a name', async () => {
    await eventually(async () => {
      const found = await vscode.commands.executeCommand<vscode.Location[]>(
        'vscode.executeReferenceProvider',
        spec.uri,
        spec.find('material plate').end,
      );
      const uses = places(spec, found);
      for (const nth of [1, 2]) assert.ok(uses.includes(place(spec, 'plate\n  ', nth + 1)), uses.join(' '));
      // `plate 120 x 40 mm` is the form of that word and no use of the material.
      assert.ok(!uses.includes(place(spec, 'plate 120')), uses.join(' '));
    });
  });

  it('colours by meaning', async () => {
    await eventually(async () => {
      const tokens = await vscode.commands.executeCommand<vscode.SemanticTokens | undefined>(
        'vscode.provideDocumentSemanticTokens',
        spec.uri,
      );
      assert.ok((tokens?.data.length ?? 0) >= 5 * 20, 'fewer than 20 tokens');
    });
  });

  it('folds its sections', async () => {
    await eventually(async () => {
      const ranges = await vscode.commands.executeCommand<vscode.FoldingRange[]>(
        'vscode.executeFoldingRangeProvider',
        spec.uri,
      );
      assert.ok(ranges.some(({ start }) => start === spec.find('piece tab').start.line));
    });
  });
});
