import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import type { Planish } from '../../client/extension.ts';
import { closeAll, eventually, openSpec, planish, type Spec } from './editor.ts';
import { bandedCap } from './specs.ts';

describe('the panel of figures', () => {
  let extension: Planish;
  let spec: Spec;
  before(async () => {
    extension = await planish();
  });
  beforeEach(async () => {
    spec = await openSpec(bandedCap);
  });
  afterEach(closeAll);

  const goTo = (text: string) => {
    const { start } = spec.find(text);
    spec.editor.selection = new vscode.Selection(start, start);
  };
  const shows = (of: string, title: string, value: RegExp) =>
    eventually(() => {
      const shown = extension.figures.shown();
      assert.equal(shown?.of, of);
      assert.match(shown.figures.find((figure) => figure.title === title)?.shown ?? '', value);
    });

  it('shows all figures of what the cursor is on, and follows it and what is typed', async () => {
    goTo('strip 300');
    await vscode.commands.executeCommand('planish.showFigures');
    await shows('piece band', 'finished area', /^120 cm²/);
    await spec.replace('strip 300 x 40 mm', 'strip 300 x 50 mm');
    await shows('piece band', 'finished area', /^150 cm²/);
    goTo('mild steel 16 ga');
    await shows('material plate', 'thickness', /^1\.5\d* mm/);
    goTo('make 2');
    await shows('build Banded cap', 'mass of one build', / g/);
  });

  it('comes to the front where a hover leads to it', async () => {
    const place = spec.find('plate 120');
    await vscode.commands.executeCommand('planish.showFigures', spec.uri.toString(), place.start);
    await shows('piece tab', 'finished area', /^48 cm²/);
    await eventually(async () => {
      const hover = await spec.hover('plate 120');
      assert.match(hover, /\[All figures[^\]]*\]\(command:planish\.showFigures\?/);
    });
  });
});
