import assert from 'node:assert/strict';
import type { Range } from 'vscode-languageserver-types';
import { definitionAt, highlightsAt, referencesAt } from '../../server/editor/features/definition.ts';
import { documentLinksOf } from '../../server/editor/features/document-links.ts';
import { foldingRangesOf } from '../../server/editor/features/folding.ts';
import { editsForMoves } from '../../server/editor/features/move-files.ts';
import { prepareRenameAt, renameAt } from '../../server/editor/features/rename.ts';
import { selectionRangesAt } from '../../server/editor/features/selection-range.ts';
import { documentSymbolsOf, workspaceSymbolsOf } from '../../server/editor/features/symbols.ts';
import { Workspace } from '../../server/editor/workspace/workspace.ts';
import { atOnce } from '../../server/incremental/steps.ts';
import { type Opened, open, shownRange } from './view.ts';

const TWO = `
use "stock.planish"

let gap = 3 mm
let wide = gap * 2
let big = 300 mm

piece skull
  from $M plate
  dome 210 mm, deep 60 mm
  slot eye 110 x 12 mm, at 62 mm from rim
  edge eye rolled

piece band
  from Plate
  trim along skull.rim, wide wide
  make skull.make
  blank big

seam joint-line
  joins band, skull
  along skull.rim
  rivets small, every 25 mm

order bench
  first skull raise, then skull eye
#- stock.planish
material plate
  mild steel 16 ga

rivet small
  brass 1/8 x 3/8 in
#- other.planish
use "stock.planish"
piece tab
  from plate
  disc 3 mm
`.replace('$M ', '');

/** Opens the two files with the cursor in the first such text. */
function at(text: string, offset = 1): Opened {
  const found = TWO.indexOf(text);
  assert.ok(found >= 0, text);
  return open(`${TWO.slice(0, found + offset)}$0${TWO.slice(found + offset)}`);
}

const shown = (opened: Opened, places: readonly { uri: string; range: Range }[]): string[] =>
  places.map(({ uri, range }) => shownRange(opened.workspace, uri, range));

describe('go to definition', () => {
  const goes = (text: string, offset: number, to: string) =>
    it(`from ${JSON.stringify(text)} to ${to || 'nowhere'}`, () => {
      const opened = at(text, offset);
      const links = definitionAt(opened.view, opened.position);
      assert.equal(
        shown(
          opened,
          links.map((link) => ({ uri: link.targetUri, range: link.targetSelectionRange })),
        ).join(),
        to,
      );
    });
  goes('from plate', 7, 'stock.planish 1:10 plate');
  goes('from Plate', 7, 'stock.planish 1:10 plate');
  goes('joins band', 7, 'spec.planish 13:7 band');
  goes('along skull.rim, wide', 7, 'spec.planish 7:7 skull');
  goes('gap * 2', 1, 'spec.planish 3:5 gap');
  goes('edge eye', 6, 'spec.planish 10:8 eye');
  // A figure is made where its line stands.
  goes('make skull.make', 12, 'spec.planish 7:7 skull');
  goes('along skull.rim, wide', 13, 'spec.planish 9:3 dome 210 mm, deep 60 mm');
  goes('skull eye', 7, 'spec.planish 10:8 eye');
  goes('"stock.planish"', 3, 'stock.planish 1:1 ');
  goes('piece skull', 7, 'spec.planish 7:7 skull');
  goes('dome 210', 1, '');
  goes('210 mm', 1, '');
});

describe('references', () => {
  it('finds every use in every file', () => {
    const opened = at('from plate', 7);
    assert.deepEqual(shown(opened, atOnce(referencesAt(opened.view, opened.position, true))), [
      'spec.planish 8:8 plate',
      'spec.planish 14:8 Plate',
      'stock.planish 1:10 plate',
      'other.planish 3:8 plate',
    ]);
    assert.equal(atOnce(referencesAt(opened.view, opened.position, false)).length, 3);
  });

  it('finds a name in arithmetic, before a dot and in an order of work', () => {
    const opened = at('piece skull', 7);
    assert.deepEqual(shown(opened, atOnce(referencesAt(opened.view, opened.position, false))), [
      'spec.planish 15:14 skull',
      'spec.planish 16:8 skull',
      'spec.planish 20:15 skull',
      'spec.planish 21:9 skull',
      'spec.planish 25:9 skull',
      'spec.planish 25:27 skull',
    ]);
  });

  it('marks the same name in the file, where it is made and where it is used', () => {
    const opened = at('let gap', 5);
    assert.deepEqual(
      atOnce(highlightsAt(opened.view, opened.position)).map(({ kind, range }) => [kind, range.start.line]),
      [
        [3, 2],
        [2, 3],
      ],
    );
  });
});

describe('rename', () => {
  function renamed(text: string, offset: number, name: string): Record<string, string> {
    const opened = at(text, offset);
    const { changes = {} } = atOnce(renameAt(opened.view, opened.position, name));
    const texts: Record<string, string> = {};
    for (const [uri, edits] of Object.entries(changes)) {
      const view = opened.workspace.view(uri)!;
      let out = view.text;
      for (const { range, newText } of [...edits].reverse())
        out = out.slice(0, view.offsetAt(range.start)) + newText + out.slice(view.offsetAt(range.end));
      texts[uri.slice('file:///build/'.length)] = out;
    }
    return texts;
  }
  const refuses = (text: string, offset: number, name: string, why: RegExp) =>
    it(`refuses ${JSON.stringify(name)} for ${JSON.stringify(text)}`, () => {
      assert.throws(() => renamed(text, offset, name), why);
    });

  it('renames in every file that uses the name', () => {
    const texts = renamed('from plate', 7, 'sheet-16');
    assert.deepEqual(Object.keys(texts).sort(), ['other.planish', 'spec.planish', 'stock.planish']);
    assert.match(texts['spec.planish']!, /from sheet-16\n {2}dome/);
    assert.match(texts['spec.planish']!, /from sheet-16\n {2}trim/);
    assert.match(texts['stock.planish']!, /^material sheet-16$/m);
    assert.match(texts['other.planish']!, /from sheet-16/);
  });

  it('leaves what follows a dot', () => {
    const texts = renamed('piece skull', 7, 'half');
    assert.match(texts['spec.planish']!, /trim along half\.rim, wide wide/);
    assert.match(texts['spec.planish']!, /make half\.make/);
    assert.match(texts['spec.planish']!, /first half raise, then half eye/);
  });

  it('renames a place on a piece', () => {
    const text = renamed('slot eye', 6, 'sight')['spec.planish']!;
    assert.match(text, /slot sight 110/);
    assert.match(text, /edge sight rolled/);
    assert.match(text, /then skull sight/);
  });

  it('may change the case of a name', () => {
    assert.match(renamed('piece skull', 7, 'Skull')['spec.planish']!, /piece Skull/);
  });

  refuses('piece skull', 7, 'band', /“band” is the name of a piece already/);
  refuses('piece skull', 7, 'plate', /“plate” is the name of a material already/);
  refuses('from plate', 7, 'skull', /already/);
  refuses('piece skull', 7, 'piece', /word of the language/);
  refuses('piece skull', 7, 'mm', /word of the language/);
  refuses('piece skull', 7, '2nd', /letters, digits and hyphens/);
  refuses('piece skull', 7, 'a.b', /letters, digits and hyphens/);
  refuses('piece skull', 7, '', /letters, digits and hyphens/);
  refuses('dome 210', 1, 'bowl', /Only names/);

  refuses('slot eye', 6, 'rim', /“rim” is an edge or a line of a form already/);
  refuses('slot eye', 6, 'crown', /an edge or a line of a form/);

  it('refuses a name that another place on the piece has', () => {
    const { view, position } = open('piece a\n  disc 90 mm\n  hole o$0ne 3 mm\n  hole two 3 mm\n');
    assert.throws(() => atOnce(renameAt(view, position, 'two')), /“two” is the name of another place on a already/);
  });

  it('refuses a name that a spec has which uses the file and never said the old one', () => {
    const { view, position } = open(`
      material pl$0ate
        brass 1 mm
      #- other.planish
      use "spec.planish"
      piece tab
        disc 9 mm
    `);
    assert.throws(() => atOnce(renameAt(view, position, 'tab')), /“tab” is the name of a piece already/);
  });

  it('refuses a name that would cut a line in two', () => {
    const { view, position } = open('piece a\npiece b$0\nseam s\n  joins a,\n    b\n');
    assert.throws(() => atOnce(renameAt(view, position, 'along')), /something else/);
    atOnce(renameAt(view, position, 'aloft'));
  });

  it('says before what would be renamed', () => {
    const opened = at('along skull.rim, wide', 7);
    const { range, placeholder } = prepareRenameAt(opened.view, opened.position);
    assert.equal(shownRange(opened.workspace, opened.view.uri, range), 'spec.planish 15:14 skull');
    assert.equal(placeholder, 'skull');
    const word = at('dome 210', 1);
    assert.throws(() => prepareRenameAt(word.view, word.position), /Only names/);
  });
});

describe('outline', () => {
  it('lists sections with what is on them, and named measures', () => {
    const { view } = at('piece skull');
    const lines = documentSymbolsOf(view).flatMap(({ name, detail, children = [] }) => [
      `${name}: ${detail}`,
      ...children.map((child) => `  ${child.name}`),
    ]);
    assert.deepEqual(lines, [
      'gap: 3 mm',
      'wide: 6 mm',
      'big: 300 mm',
      'skull: piece',
      '  slot eye',
      '  edge eye',
      'band: piece',
      'joint-line: seam',
      'bench: order',
    ]);
  });

  it('keeps every name inside its range', () => {
    const { view } = open('## note\npiece a # last\n  slot eye 3 x 3 mm\n\npeice b\n  x\nbuild\nlet q = 1 mm\n');
    for (const { range, selectionRange } of documentSymbolsOf(view)) {
      assert.ok(view.offsetAt(range.start) <= view.offsetAt(selectionRange.start));
      assert.ok(view.offsetAt(selectionRange.end) <= view.offsetAt(range.end));
    }
  });

  it('says a measure whole, brackets too, and ends a section before the measures behind it', () => {
    const opened = open('piece a\n  disc 3 mm\n\n## Half.\nlet b = (3 mm + 4 mm) / (1 + 1)\n\npiece c\n');
    assert.deepEqual(
      documentSymbolsOf(opened.view).map(({ name, detail, range }) => `${name} ${detail} ${range.end.line}`),
      ['a piece 1', 'b 3.5 mm 4', 'c piece 6'],
    );
    const unknown = open('let b = none.wide / 2\n');
    assert.equal(documentSymbolsOf(unknown.view)[0]?.detail, 'none.wide / 2');
  });

  it('finds names of the workspace by their letters, in specs that are not open too', async () => {
    const { workspace } = at('piece skull');
    const specs = await workspace.specs();
    const found = (query: string) =>
      atOnce(workspaceSymbolsOf(workspace, specs, query)).map(({ name, containerName }) => `${containerName} ${name}`);
    assert.deepEqual(found('skl'), ['piece skull']);
    assert.deepEqual(found('plat'), ['material plate']);
    assert.deepEqual(found('tab'), ['piece tab']);
  });
});

describe('folding, selection and links', () => {
  it('folds sections and runs of comment', () => {
    const { view } = open('# one\n# two\n\n## note\npiece a\n  dish\n\n  raise\n\npiece b\n');
    assert.deepEqual(
      foldingRangesOf(view).map(({ startLine, endLine, kind }) => `${startLine}-${endLine} ${kind}`),
      ['0-1 comment', '4-7 region'],
    );
  });

  it('folds uses that follow each other', () => {
    const { view } = open('planish 1\nuse "a.planish"\nuse "b.planish"\n\nuse "c.planish"\n');
    assert.deepEqual(foldingRangesOf(view), [{ startLine: 1, endLine: 2, kind: 'imports' }]);
  });

  it('widens a selection through arithmetic and out of a text, and never to what does not hold the cursor', () => {
    const widths = (written: string) => {
      const opened = open(written);
      const found: string[] = [];
      for (let range = selectionRangesAt(opened.view, [opened.position])[0]; range; range = range.parent)
        found.push(
          opened.view.text.slice(...[range.range.start, range.range.end].map((at) => opened.view.offsetAt(at))),
        );
      return found;
    };
    assert.deepEqual(widths('let a = 2 * (3 mm + b$0ee)'), [
      'bee',
      '(3 mm + bee)',
      '2 * (3 mm + bee)',
      'let a = 2 * (3 mm + bee)',
    ]);
    assert.deepEqual(widths('finish f1\n  paint "gr$0ey"').slice(0, 3), ['grey', '"grey"', 'paint "grey"']);
    assert.deepEqual(widths('piece a\n\n$0\npiece b'), ['piece a\n\n\n', 'piece a\n\n\npiece b']);
  });

  it('widens a selection from the number to the file', () => {
    const opened = open('piece a\n  dome 210 mm, deep 6$00 mm\n');
    const widths: string[] = [];
    for (let range = selectionRangesAt(opened.view, [opened.position])[0]; range; range = range.parent)
      widths.push(shownRange(opened.workspace, opened.view.uri, range.range).replace(/^\S+ \S+ /, ''));
    assert.deepEqual(widths, ['60 mm', 'deep 60 mm', 'dome 210 mm, deep 60 mm', 'piece a', 'piece a']);
  });

  it('keeps the paths of drawings when specs or drawings move', () => {
    const { workspace, uri } = open(`
      piece crest
        outline "art/crest.svg"
      #- art/crest.svg
      <svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9"/>
    `);
    const written = (oldUri: string, newUri: string) =>
      atOnce(editsForMoves(workspace, [uri('spec.planish')], [{ oldUri: uri(oldUri), newUri: uri(newUri) }])).changes?.[
        uri('spec.planish')
      ]?.map(({ newText }) => newText);
    assert.deepEqual(written('art/crest.svg', 'art/old/crest.svg'), ['"art/old/crest.svg"']);
    assert.deepEqual(written('spec.planish', 'helm/spec.planish'), ['"../art/crest.svg"']);
    assert.deepEqual(written('art', 'drawings'), ['"drawings/crest.svg"']);
    assert.equal(written('other.svg', 'art/other.svg'), undefined);
  });

  it('links the drawings that are there', () => {
    const opened = open(`
      piece crest
        outline "art/crest.svg"
        pierce "none.svg", at 3 mm from left
      #- art/crest.svg
      <svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9"/>
    `);
    assert.deepEqual(
      documentLinksOf(opened.view).map(({ range, target }) => [
        shownRange(opened.workspace, opened.view.uri, range),
        target,
      ]),
      [['spec.planish 2:12 art/crest.svg', 'file:///build/art/crest.svg']],
    );
  });

  it('links the files that are used and are there', () => {
    const opened = open('use "stock.planish"\nuse "none.planish"\n#- stock.planish\nmaterial a\n');
    assert.deepEqual(
      documentLinksOf(opened.view).map(({ target }) => target),
      ['file:///build/stock.planish'],
    );
  });
});

describe('rename in folders with more specs than are looked through', () => {
  it('is refused, since one that was missed would be broken', () => {
    const { view, position, workspace } = open('piece $0skull\n');
    const specs = Array.from({ length: 2_000 }, (_, i) => `file:///build/other-${i}.planish`);
    const crowded = new Workspace({ mayRead: () => true, read: () => '', specs: () => specs });
    crowded.open(view.uri, 1, view.text);
    assert.throws(
      () => atOnce(renameAt(crowded.view(view.uri)!, position, 'half')),
      /more than 2000 specs in the open folders, and not all are looked through: one that names “skull” could be missed/,
    );
    assert.equal(workspace.hasTooManySpecs(), false);
  });
});
