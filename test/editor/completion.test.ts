import assert from 'node:assert/strict';
import { type CompletionItem, InsertTextMode, type TextEdit } from 'vscode-languageserver-types';
import { readSpec } from '../../grammar/reader.ts';
import { lineSnippet, withDefaults } from '../../grammar/snippets.ts';
import { sections } from '../../grammar/vocabulary/index.ts';
import { completionsAt } from '../../server/editor/features/completion.ts';
import { exampleIn } from '../../server/editor/text/example-units.ts';
import { open } from './view.ts';

const SHOP = `
material plate
  mild steel 16 ga
material edge-wire
  mild steel wire 1/8 in
rivet small
  brass 1/8 x 3/8 in, domed
wearer guard
  head round 585 mm
let gap = 3 mm
piece skull
  from plate
  make 2, mirrored
  dome 210 mm, deep 60 mm
  slot eye 110 x 12 mm, at 62 mm from rim
`;

function itemsAt(text: string, trigger?: string): CompletionItem[] {
  const { view, position } = open(SHOP.trimStart() + text);
  return likeliestFirst(completionsAt(view, position, { snippets: true, trigger }));
}

/** As an editor shows them. */
const likeliestFirst = (items: CompletionItem[]): CompletionItem[] =>
  items.sort((a, b) => ((a.sortText ?? '') < (b.sortText ?? '') ? -1 : 1));

const labelsAt = (text: string, trigger?: string) => itemsAt(text, trigger).map(({ label }) => label);

/** At a half-typed place exactly this is offered, in this order. */
function offers(text: string, labels: string): void {
  it(`offers at ${JSON.stringify(text)}: ${labels || 'nothing'}`, () => {
    assert.equal(labelsAt(text).join(' | '), labels);
  });
}

/** At a half-typed place these are among what is offered, the first ones first, and those are not. */
function includes(text: string, wanted: string[], unwanted: string[] = []): void {
  it(`offers at ${JSON.stringify(text)}: ${wanted.join(', ')} …`, () => {
    const labels = labelsAt(text);
    for (const label of wanted) assert.ok(labels.includes(label), `${label} is not among ${labels.join(' | ')}`);
    for (const label of unwanted) assert.ok(!labels.includes(label), `${label} is among ${labels.join(' | ')}`);
  });
}

describe('completion', () => {
  describe('starts of lines', () => {
    includes('\n$0', ['build', 'piece', 'seam', 'use', 'let'], ['planish 1']);
    includes('\npie$0', ['piece']);
    includes('piece a\n  $0', ['from', 'dome', 'half dome', 'edge', 'holes', 'planish', 'piece'], ['joins', 'rate']);
    includes('piece a\n  from plate\n  dome 90 mm\n  $0', ['make', 'edge'], ['from', 'dome', 'disc']);
    includes('piece a\n  hole 3 mm\n  $0', ['hole']);
    includes('material m\n  $0', ['mild steel', 'veg-tan leather', 'sheet', 'kerf'], ['from']);
    includes('material m\n  brass 1 mm\n  $0', ['sheet'], ['mild steel']);
    includes('wearer w\n  $0', ['head round', 'wrist round', 'body']);
    includes('shop s\n  $0', ['currency', 'gauges', 'blade'], ['from']);

    it('puts what a section still needs before the rest', () => {
      const labels = labelsAt('piece a\n  $0');
      assert.equal(labels[0], 'from');
      assert.ok(labels.indexOf('dome') < labels.indexOf('make'));
      assert.ok(labels.indexOf('make') < labels.indexOf('seam'));
    });

    it('puts sections first where nothing is indented', () => {
      const labels = labelsAt('\n$0');
      assert.equal(labels[0], 'build');
    });

    it('offers the version only where nothing stands yet', () => {
      const { view, position } = open('$0');
      const labels = completionsAt(view, position, { snippets: true }).map(({ label }) => label);
      assert.ok(labels.includes('planish 1'));
    });

    it('brings a section with the lines it needs', () => {
      const item = itemsAt('\n$0').find(({ label }) => label === 'piece');
      const text = item?.textEdit?.newText ?? '';
      assert.match(text, /^piece \$\{1:\w+\}\n {2}from /);
      assert.match(text, /\$0$/);
    });

    it('says what each word is for', () => {
      const items = itemsAt('piece a\n  $0');
      for (const { label, documentation, detail } of items) assert.ok(documentation || detail, label);
    });
  });

  describe('names', () => {
    offers('piece a\n  from $0', 'plate | edge-wire');
    offers('piece a\n  from pl$0', 'plate | edge-wire');
    offers('seam s\n  joins $0', 'skull | left skull | right skull');
    offers('seam s\n  joins left $0', 'skull');
    offers('seam s\n  rivets $0', 'small');
    offers('piece a\n  edge rim rolled over $0', 'edge-wire | plate');
    offers('piece a\n  lies under $0', 'skull');
    offers('piece a\n  fits $0', 'guard');
    offers('finish f\n  on skull $0', 'outside | inside');
    includes('order o\n  first skull $0', ['raise', 'dish then raise', 'planish']);

    it('puts a piece that is said already behind the others', () => {
      const labels = labelsAt('piece other\n  from plate\nseam s\n  joins skull, $0');
      assert.equal(labels[0], 'other');
    });

    it('never offers a thing to itself', () => {
      assert.ok(!labelsAt('piece a\n  like $0').includes('a'));
    });

    it('offers the names of used files', () => {
      const { view, position } = open(`
        use "stock.planish"
        piece a
          from $0
        #- stock.planish
        material bronze-sheet
          bronze 1 mm
      `);
      const [item] = completionsAt(view, position, { snippets: true });
      assert.equal(item?.label, 'bronze-sheet');
      assert.match(item?.detail ?? '', /bronze 1 mm.*stock\.planish/);
    });
  });

  describe('behind a dot', () => {
    includes('seam s\n  along skull.$0', ['rim', 'eye', 'middle'], ['top']);
    offers(
      'piece a\n  cylinder round guard.$0',
      'head-round | head-round.percentile | head-length.estimate | head-breadth.estimate | crown-height.estimate | face-length.estimate | face-breadth.estimate | eye-distance.estimate | neck-round.estimate',
    );
    includes('let b = skull.$0', ['area', 'mass', 'blank.diameter', 'rim.length']);
    includes('let b = skull.blank.$0', ['diameter', 'area'], ['blank.area']);
    offers('let b = nothing.$0', '');

    it('replaces only what stands behind the dot', () => {
      const [item] = itemsAt('let b = guard.head-r$0');
      assert.equal(item?.textEdit?.newText, 'head-round');
      const range = item?.textEdit && 'range' in item.textEdit ? item.textEdit.range : undefined;
      assert.equal((range?.end.character ?? 0) - (range?.start.character ?? 0), 'head-r'.length);
    });
  });

  describe('behind a comma', () => {
    offers('piece a\n  dome 210 mm, $0', 'deep | inside | outside');
    offers('piece a\n  dome 210 mm, deep 30 mm, $0', 'inside | outside');
    offers('piece a\n  dome 210 mm,\n    $0', 'deep | inside | outside');
    offers('piece a\n  dome 210 mm, # of the rim\n    $0', 'deep | inside | outside');
    includes('seam s\n  rivets small, every 20 mm, $0', ['count', 'inset', 'peened'], ['every']);
    offers('seam s\n  rivets small, peened $0', 'domed | flat | flush');
    includes('material m\n  mild steel 16 ga, $0', ['grade', 'half hard', 'zinc plated']);
    offers('material m\n  mild steel 16 ga, half $0', 'hard');
  });

  describe('closed lists', () => {
    offers('material m\n  mild $0', 'steel');
    offers('material m\n  mild st$0', 'steel');
    offers('wearer w\n  head $0', 'round | length | breadth');
    offers('build "t"\n  duty $0', 'display | stage | contact');
    includes('shop s\n  currency $0', ['GBP', 'EUR']);
    offers('piece a\n  edge rim $0', 'rolled | hemmed | rounded | long | soft');
    const fan =
      'piece a\n  from plate\n  outline\n  to 90 mm right and 0 mm up\n  to 0 mm right and 60 mm up\n  to 0 mm right and 0 mm up\n';
    includes(`${fan}  hole 6 mm, at 20 mm from $0`, ['rim', 'left', 'bottom']);
    includes(`${fan}  edge $0`, ['rim'], ['left', 'bottom']);
    includes('material m\n  mild steel $0', ['wire']);
  });

  describe('units', () => {
    offers('piece a\n  plate 120 x 80 $0', 'mm | cm | m | in | ft');
    offers('piece a\n  dome 20 m$0', 'mm | cm | m | in | ft');
    offers('piece a\n  dome 20$0', 'mm | cm | m | in | ft');
    offers('piece a\n  dome 20 mm, deep 2 1/2 $0', 'mm | cm | m | in | ft');
    includes('material m\n  mild steel 16 $0', ['ga', 'mm'], ['oz']);
    includes('material m\n  veg-tan leather 7 $0', ['oz', 'mm'], ['ga']);
    offers('piece a\n  flare bottom, 25 $0', 'deg');
    offers('shop s\n  blade 56 $0', 'tpi');
    offers('piece a\n  holes 4 $0', 'of');
    offers('piece a\n  make 2 $0', '');

    it('puts a space between a number and its unit', () => {
      assert.equal(itemsAt('piece a\n  dome 20$0')[0]?.textEdit?.newText, ' mm');
    });
  });

  describe('arithmetic', () => {
    includes('let b = $0', ['gap', 'guard.head-round', 'skull', 'sqrt'], ['b']);
    includes('let b = 2 * $0', ['gap', 'pi']);
    includes('piece a\n  cylinder round guard.head-round + $0', ['gap', 'guard.head-round']);
    includes('piece a\n  dome $0', ['gap']);
    includes('let b = 2 $0', ['mm', 'deg']);
  });

  describe('where nothing is wanted', () => {
    offers('piece $0', '');
    offers('build "x$0', '');
    offers('piece a\n  disc 3 mm # he$0', '');
    offers('## note $0', '');
    offers('nonsense a\n  foo $0', '');
    it('is silent after a space at the start of a line', () => {
      assert.deepEqual(labelsAt('piece a\n  $0', ' '), []);
    });
  });

  describe('paths', () => {
    const pathsAt = (line: string): string[] => {
      const { view, position } = open(`
        ${line}
        #- stock.planish
        material a
        #- crest.svg
        <svg/>
        #- shop/steel.planish
        material b
        #- shop/vine.DXF
        0
        #- notes.txt
        wax
      `);
      return likeliestFirst(completionsAt(view, position, { snippets: true })).map(({ label }) => label);
    };

    it('offers the specs and folders beside the spec after use, and the stock that comes with Planish', () => {
      const labels = pathsAt('use "$0"');
      assert.deepEqual(
        labels.filter((label) => !label.startsWith('planish:')),
        ['stock.planish', 'shop/', '../'],
      );
      assert.ok(labels.includes('planish:metals'));
      assert.deepEqual(pathsAt('use "./$0"'), ['stock.planish', 'shop/'], 'not the spec itself');
    });

    it('offers drawings and folders where a drawing is named', () => {
      for (const line of ['outline "$0"', 'hide "$0', 'pierce "$0"', 'pierce vine “$0'])
        assert.deepEqual(pathsAt(line), ['crest.svg', 'shop/', '../'], line);
      assert.deepEqual(pathsAt('outline "shop/$0"'), ['vine.DXF']);
    });

    it('offers no path in other texts', () => {
      for (const line of ['outline "crest.svg", named "$0"', 'build "$0"', 'lace "$0"'])
        assert.deepEqual(pathsAt(line), [], line);
    });

    it('goes on in a folder', () => {
      const { view, position } = open(`
        use "shop/st$0"
        #- shop/steel.planish
        material b
      `);
      const items = completionsAt(view, position, { snippets: true });
      assert.deepEqual(
        items.map(({ label, textEdit }) => [label, textEdit?.newText]),
        [['steel.planish', 'steel.planish']],
      );
    });
  });

  it('offers after “# allow” first the checks that speak on this line', () => {
    const { view, position } = open(`
      material plate
        mild steel 2 mm
      rivet small
        brass 4 x 6 mm, domed
      piece outer
        from plate
        plate 120 x 40 mm
      piece inner
        from plate
        plate 120 x 40 mm
      seam join
        joins outer, inner
        along outer.top
        rivets small, every 28 mm, inset 9 mm, peened domed # allow $0
    `);
    const items = completionsAt(view, position, { snippets: false }).sort((a, b) =>
      a.sortText! < b.sortText! ? -1 : 1,
    );
    const item = items.find(({ label }) => label === 'rivet-too-short');
    assert.equal(item?.textEdit?.newText, 'rivet-too-short: ');
    const speaking = new Set(view.problems().map(({ code }) => code));
    for (const { label } of items.slice(0, items.indexOf(item!))) assert.ok(speaking.has(label), label);
    assert.ok(!items.some(({ label }) => label === 'duty-not-certified'), 'no excuse takes a safety caution away');
  });

  it('offers in a comment that begins the excuses of what is marked on its line', () => {
    const line = (comment: string) =>
      `seam line\n  rivets small, every 300 mm ${comment}\n  joins skull, skull\n  along skull.rim\n`;
    const found = itemsAt(line('# $0'));
    assert.ok(found.length && found.every(({ label }) => label.startsWith('allow ')));
    assert.equal(
      found.find(({ label }) => label === 'allow pitch-too-wide')?.textEdit?.newText,
      `allow pitch-too-wide: \${1:why}`,
    );
    assert.deepEqual(labelsAt('# $0\n'), []);
  });

  it('puts the likeliest unit first', () => {
    const first = (text: string) => labelsAt(text)[0];
    assert.equal(first('material m\n  mild steel 16 $0'), 'ga');
    assert.equal(first('material m\n  mild steel 1.5 $0'), 'mm');
    assert.equal(first('material m\n  leather 7 $0'), 'oz');
    assert.equal(first('piece a\n  disc 7 $0'), 'mm');
    assert.equal(first('build "b"\n  units in\npiece a\n  disc 7 $0'), 'in');
  });

  it('offers only what can stand there', () => {
    const turn = 'let turn = 20 deg\n';
    assert.deepEqual(labelsAt('finish f-1\n  sand 120, $0'), []);
    assert.ok(!labelsAt(`${turn}piece a\n  disc $0`).includes('turn'));
    assert.ok(labelsAt(`${turn}piece a\n  plate 90 x 9 mm\n  bend 30 mm from left, $0`).includes('turn'));
    assert.ok(!labelsAt('piece a\n  disc $0').includes('a'), 'its own figures turn in a circle');
    assert.deepEqual(labelsAt('piece a\n  plate 90 x 9 mm\n  edge $0'), ['top', 'bottom', 'left', 'right']);
    assert.ok(!labelsAt('seam s-1\n  joins skull, skull\n  along skull.$0').includes('crown'));
    assert.deepEqual(labelsAt('piece a\n  disc 1 1/$0').slice(0, 2), ['1/2 in', '1/4 in']);
    assert.ok(labelsAt('piece a\n  disc 1 1/$0').every((label) => label.endsWith(' in')));
  });

  it('puts sections first where a line was left empty, and takes the indent away from their header', () => {
    const [first, ...rest] = itemsAt('piece a\n  from plate\n  disc 90 mm\n\n  $0');
    assert.equal(first?.label, 'build');
    assert.ok(rest.findIndex(({ label }) => label === 'seam') < rest.findIndex(({ label }) => label === 'edge'));
    const line = SHOP.split('\n').length + 2;
    assert.deepEqual(first?.additionalTextEdits, [
      { range: { start: { line, character: 0 }, end: { line, character: 2 } }, newText: '' },
    ]);
    assert.equal(first?.insertTextMode, InsertTextMode.asIs);
    assert.equal(itemsAt('\n$0').find(({ label }) => label === 'piece')?.additionalTextEdits, undefined);
    // Right behind a header a line is what is wanted.
    assert.equal(labelsAt('piece a\n\n  $0')[0], 'from');
  });

  it('fills in the one piece that there is, and asks for the other', () => {
    const joins = itemsAt('seam s\n  $0').find(({ label }) => label === 'joins')!;
    assert.equal((joins.textEdit as TextEdit).newText, `joins skull, \${1:ridge}`);
  });

  it('asks at once which file is used', () => {
    const use = itemsAt('\n$0').find(({ label }) => label === 'use')!;
    assert.equal(use.command?.command, 'editor.action.triggerSuggest');
  });

  for (const units of ['mm', 'in'] as const)
    it(`fills measures in ${units} in a build in ${units}, and every line so filled is read`, () => {
      const inUnits = (example: string) => exampleIn(units, example);
      const other = units === 'mm' ? /\d (?:in|ga|oz)\b/ : /\d mm\b/;
      for (const section of sections)
        for (const line of section.lines) {
          const text = withDefaults(lineSnippet(line, undefined, inUnits));
          const spec = readSpec(`${section.kind} ${section.kind === 'build' ? '"A job"' : 'one'}\n  ${text}\n`);
          const wrong = spec.sections.flatMap(({ problems }) => problems).filter(({ code }) => code !== 'line-missing');
          assert.deepEqual(wrong, [], text);
          assert.doesNotMatch(text, other);
        }
      const spec = `build "A job"\n  units ${units}\n${SHOP}piece a\n  $0`;
      const { view, position } = open(spec);
      const hole = completionsAt(view, position, { snippets: true }).find(({ label }) => label === 'hole')!;
      assert.match(
        (hole.textEdit as TextEdit).newText,
        units === 'mm' ? /hole \$\{1:6\.5 mm\}/ : /hole \$\{1:1\/4 in\}/,
      );
    });

  it('fills snippets with the names that are there', () => {
    const text = (written: string, label: string) =>
      itemsAt(written).find((item) => item.label === label)?.textEdit?.newText;
    assert.equal(text('piece a\n  $0', 'from'), `from \${1:plate}`);
    assert.equal(text('seam line\n  joins skull, skull\n  $0', 'along'), `along \${1:skull.rim}`);
    assert.equal(
      text('seam line\n  $0', 'rivets'),
      `rivets \${1:small}, every \${2:28 mm}, inset \${3:8 mm}, peened \${4|domed,flat,flush|}`,
    );
    assert.match(text('\n$0', 'piece')!, /^piece \$\{1:skull\}\n {2}from \$\{2:plate\}\n/);
  });

  it('offers drawings where one is named', () => {
    const { view, position } = open(`
      piece crest
        outline "art/$0"
      #- art/crest.svg
      #- art/notes.txt
      #- art/old/crest.DXF
    `);
    assert.deepEqual(
      completionsAt(view, position, { snippets: true }).map(({ label }) => label),
      ['crest.svg', 'old/'],
    );
  });

  it('says what of a word to replace where the editor asks for it', () => {
    const { view, position } = open('material plate\n  brass 1 mm\npiece a\n  from pl$0xx\n');
    const [item] = completionsAt(view, position, { snippets: true, replaces: true });
    assert.deepEqual(item?.textEdit, {
      newText: 'plate',
      insert: { start: { line: 3, character: 7 }, end: { line: 3, character: 9 } },
      replace: { start: { line: 3, character: 7 }, end: { line: 3, character: 11 } },
    });
  });

  it('never fails, wherever the cursor stands in whatever text', () => {
    const text = `${SHOP}piece a\n  dome 20 mm, deep ((3 x " # allow\n  half dome round guard. + , , 1/0 ga\nuse "\nlet = 3 *\npeice\n  × ½" ,`;
    const { view } = open(text);
    for (let at = 0; at <= text.length; at++) completionsAt(view, view.positionAt(at), { snippets: true });
  });
});
