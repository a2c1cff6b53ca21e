import assert from 'node:assert/strict';
import type { CodeAction } from 'vscode-languageserver-types';
import { codeActionsIn } from '../../server/editor/features/code-actions.ts';
import { diagnosticsOf } from '../../server/editor/features/diagnostics.ts';
import { type Opened, open, textsAfter } from './view.ts';

/** What is offered at the cursor, or between two cursors. */
function offered(opened: Opened, kind = 'refactor'): CodeAction[] {
  const [from, to] = opened.fixture.file.cursors;
  const start = opened.view.positionAt(from ?? 0);
  const end = to === undefined ? start : opened.view.positionAt(to);
  return codeActionsIn(opened.view, { start, end }, diagnosticsOf(opened.view, { linksToDocs: false }), [kind]);
}

/** Every file as it is after an action, by its name. */
const applied = (opened: Opened, action: CodeAction | undefined): Record<string, string> =>
  Object.fromEntries(
    [...textsAfter(opened.workspace, action)].map(([uri, text]) => [uri.replace('file:///build/', ''), text]),
  );

const titled = (actions: readonly CodeAction[], title: RegExp) => actions.find((action) => title.test(action.title));

describe('refactors', () => {
  describe('a unit', () => {
    const converted = (written: string, title = /^Write it/) => {
      const opened = open(written);
      return applied(opened, titled(offered(opened), title))['spec.planish'];
    };

    it('goes to the other system where that says exactly the same', () => {
      assert.equal(converted('piece a\n  plate 1$01/2 x 3/4 in\n'), 'piece a\n  plate 139.7 x 19.05 mm\n');
      assert.equal(converted('piece a\n  disc 25.$04 mm\n'), 'piece a\n  disc 1 in\n');
      assert.equal(converted('let a = 2 * (3/$08 in + 10 mm)\n'), 'let a = 2 * (9.525 mm + 10 mm)\n');
    });

    it('takes all along that share it: a range, a list, a tolerance', () => {
      assert.equal(
        converted('piece a\n  cone round 10 to 2$00 in, high 82 mm\n'),
        'piece a\n  cone round 254 to 508 mm, high 82 mm\n',
      );
      assert.equal(converted('shop s\n  wire 1/8, 3/$016, 1/4 in\n'), 'shop s\n  wire 3.175, 4.7625, 6.35 mm\n');
    });

    it('is not offered where a value would change', () => {
      const opened = open('piece a\n  disc 90$0 mm\n');
      assert.equal(titled(offered(opened), /^Write it/), undefined);
    });

    it('changes in the whole file, and says how many stay', () => {
      const opened = open('piece a\n  plate 1$0 x 2 in\n\npiece b\n  disc 1/8 in\n\npiece c\n  disc 90 mm\n');
      const all = offered(opened);
      assert.equal(
        applied(opened, titled(all, /in millimetres \(3\)$/))['spec.planish'],
        'piece a\n  plate 25.4 x 50.8 mm\n\npiece b\n  disc 3.175 mm\n\npiece c\n  disc 90 mm\n',
      );
      assert.equal(titled(all, /in inches/), undefined);
    });
  });

  describe('a measure gets a name', () => {
    const extracted = (written: string) => {
      const opened = open(written);
      return applied(opened, titled(offered(opened), /^Name this measure/))['spec.planish'];
    };

    it('a single one', () => {
      assert.equal(extracted('piece cap\n  disc 9$00 mm\n'), 'let cap-disc = 90 mm\n\npiece cap\n  disc cap-disc\n');
    });

    it('one of two that share a unit keeps it, and leaves the other its own', () => {
      assert.equal(
        extracted('piece cap\n  plate 120 x 8$00 mm\n'),
        'let cap-plate = 80 mm\n\npiece cap\n  plate 120 mm x cap-plate\n',
      );
      assert.equal(
        extracted('piece cap\n  plate 1$020 x 80 mm\n'),
        'let cap-plate = 120 mm\n\npiece cap\n  plate cap-plate x 80 mm\n',
      );
      assert.equal(
        extracted('shop s\n  punch 3, $04, 5 mm\n'),
        'let s-punch = 4 mm\n\nshop s\n  punch 3 mm, s-punch, 5 mm\n',
      );
    });

    it('arithmetic with its brackets, whether they are selected or not', () => {
      for (const written of ['2 * $0(3 mm + 4 mm)$0', '2 * ($03 mm + 4 mm$0)'])
        assert.equal(
          extracted(`piece cap\n  disc ${written}\n`),
          'let cap-disc = (3 mm + 4 mm)\n\npiece cap\n  disc 2 * cap-disc\n',
        );
    });

    it('a part of another one, right before it', () => {
      assert.equal(
        extracted('let a-b = 3 mm\n## Twice.\nlet c-d = 2 * $012 mm\n'),
        'let a-b = 3 mm\nlet c-d-measure = 12 mm\n## Twice.\nlet c-d = 2 * c-d-measure\n',
      );
      const whole = open('let a-b = $03 mm\n');
      assert.equal(titled(offered(whole), /^Name/), undefined);
    });

    it('above the note of its section', () => {
      assert.equal(
        extracted('planish 1\n\n## Round.\npiece cap\n  disc 9$00 mm\n'),
        'planish 1\n\nlet cap-disc = 90 mm\n\n## Round.\npiece cap\n  disc cap-disc\n',
      );
    });

    it('not where only a number may stand', () => {
      const opened = open('material plate\n  mild steel 1$06 ga\n');
      assert.equal(titled(offered(opened), /^Name/), undefined);
    });
  });

  describe('a section moves to a file', () => {
    it('stock to the stock file that is used', () => {
      const opened = open(`
        use "shop/stock.planish"

        ## From the mill.
        material pl$0ate
          mild steel 1.5 mm

        piece cap
          from plate
          disc 90 mm
        #- shop/stock.planish
        material brass-sheet
          brass 1 mm
      `);
      const files = applied(opened, titled(offered(opened), /^Move material plate to stock\.planish$/));
      assert.equal(files['spec.planish'], 'use "shop/stock.planish"\n\npiece cap\n  from plate\n  disc 90 mm');
      assert.equal(
        files['shop/stock.planish'],
        'material brass-sheet\n  brass 1 mm\n\n## From the mill.\nmaterial plate\n  mild steel 1.5 mm\n',
      );
    });

    it('to a new one, which is then used', () => {
      const opened = open(
        'planish 1\n\nmaterial pl$0ate\n  mild steel 1.5 mm\n\npiece cap\n  from plate\n  disc 90 mm\n',
      );
      const files = applied(opened, titled(offered(opened), /^Move material plate to a new file stock\.planish$/));
      assert.equal(
        files['spec.planish'],
        'planish 1\n\nuse "stock.planish"\n\npiece cap\n  from plate\n  disc 90 mm\n',
      );
      assert.equal(files['stock.planish'], 'planish 1\n\nmaterial plate\n  mild steel 1.5 mm\n');
    });

    it('the last one of a file leaves no blank lines', () => {
      const opened = open('planish 1\n\npiece cap\n  disc 90 mm\n\nmaterial pl$0ate\n  brass 1 mm\n');
      const files = applied(opened, titled(offered(opened), /new file/));
      assert.equal(files['spec.planish'], 'planish 1\n\nuse "stock.planish"\n\npiece cap\n  disc 90 mm\n');
    });

    it('not when it names what stays behind, or what is not known there', () => {
      const behind = open('let size = 2 mm\n\nmaterial pl$0ate\n  brass size\n');
      assert.equal(titled(offered(behind), /^Move/), undefined);
      const unknown = open(`
        use "stock.planish"
        use "sizes.planish"
        material pl$0ate
          brass size
        #- stock.planish
        #- sizes.planish
        let size = 2 mm
      `);
      assert.equal(titled(offered(unknown), /to stock/), undefined);
    });

    it('not what would then be gone from the build, nor a shop behind another', () => {
      for (const thing of ['piece c$0ap\n  disc 90 mm\n', 'part bu$0ckle\n  mass 20 g\n', 'seam li$0ne\n  weld\n'])
        assert.equal(titled(offered(open(thing)), /^Move/), undefined, thing);
      const shop = open('use "stock.planish"\nshop be$0nch\n  gauges US\n#- stock.planish\nshop other\n  gauges UK\n');
      assert.equal(titled(offered(shop), /^Move/), undefined);
    });

    it('not where a gauge would be read by another shop', () => {
      const opened = open('shop bench\n  gauges UK\nmaterial pl$0ate\n  brass 18 ga\n');
      assert.equal(titled(offered(opened), /^Move/), undefined);
    });
  });

  it('lines of stock come in the order of the reference, not where comments stand between', () => {
    const written = 'material pl$0ate\n  sheet 1000 x 2000 mm\n  mild steel 1.5 mm\n';
    const opened = open(written);
    assert.equal(
      applied(opened, titled(offered(opened), /^Put the lines/))['spec.planish'],
      'material plate\n  mild steel 1.5 mm\n  sheet 1000 x 2000 mm\n',
    );
    const noted = open(written.replace('  mild', '  # cheap\n  mild'));
    assert.equal(titled(offered(noted), /^Put/), undefined);
  });

  it('a line that is missing is added with its usual words, and with names that are there', () => {
    const opened = open('material plate\n  mild steel 1.5 mm\n\npiece c$0ap\n  disc 90 mm\n');
    const actions = offered(opened, 'quickfix');
    assert.deepEqual(
      actions.map(({ title }) => title),
      ['Add: from plate'],
    );
    assert.match(applied(opened, actions[0])['spec.planish']!, /piece cap\n {2}disc 90 mm\n {2}from plate\n$/);
    assert.equal(actions[0]!.diagnostics?.[0]?.code, 'line-missing');
  });

  it('what a line still wants is added, in each way in which it can be said, and the mark goes with it', () => {
    const stock =
      'material plate\n  mild steel 1.5 mm\nmaterial thin-wire\n  mild steel wire 3 mm\npiece cap\n  from plate\n';
    const titlesFor = (line: string) => {
      const opened = open(`${stock}  ${line.replace(' ', '$0 ')}\n`);
      const actions = offered(opened, 'quickfix');
      for (const action of actions) {
        const then = open(applied(opened, action)['spec.planish']!);
        assert.deepEqual(
          then.view.problems().filter(({ code }) => code === 'line-unfinished'),
          [],
          action.title,
        );
      }
      return actions.map(({ title }) => title);
    };
    assert.deepEqual(titlesFor('dome 210 mm'), ['Add: deep 60 mm']);
    assert.deepEqual(titlesFor('gore dome 210 mm'), ['Add: deep 105 mm, gores 6']);
    assert.deepEqual(titlesFor('edge rim rolled'), ['Add: over thin-wire', 'Add: hollow 20 mm']);
    assert.deepEqual(titlesFor('form wrap 190 deg'), ['Add: at 0 mm, round 690 mm, long 235 mm']);
    assert.deepEqual(titlesFor('lies under other'), [
      'Add: high 45 mm',
      'Add: from top to 20 mm',
      'Add: long 240 mm, wide 25 mm',
    ]);
  });

  it('a name that nothing bears is found in another file, or made', () => {
    const opened = open(
      'planish 1\n\npiece cap\n  from pl$0ate\n  disc 90 mm\n' +
        '#- shop/stock.planish\nmaterial plate\n  mild steel 16 ga\n' +
        '#- other.planish\nbuild "Other"\nmaterial plate\n  mild steel 16 ga\n',
    );
    const actions = offered(opened, 'quickfix');
    assert.deepEqual(
      actions.map(({ title }) => title),
      ['Use "shop/stock.planish", which has plate', 'Make a material plate'],
    );
    for (const action of actions) {
      const then = applied(opened, action)['spec.planish']!;
      const after = open(`${then}\n#- shop/stock.planish\nmaterial plate\n  mild steel 16 ga\n`);
      assert.deepEqual(
        after.view.problems().filter(({ severity }) => severity === 'error'),
        [],
        then,
      );
    }
  });

  it('a piece is not made like one that is made from it', () => {
    const opened = open(
      'piece b$0ase\n\npiece lame\n  lies under base, gap 1 mm, high 9 mm\n\npiece cap\n  disc 9 mm\n',
    );
    const titles = offered(opened, 'quickfix').map(({ title }) => title);
    assert.deepEqual(
      titles.filter((title) => title.startsWith('Add: like')),
      ['Add: like cap'],
    );
  });

  it('and every edit has the line ends of the text that it goes into', () => {
    const opened = open('material plate\r\n  brass 1 mm\r\npiece c$0ap\r\n  disc 90 mm\r\n');
    for (const action of [...offered(opened, 'quickfix'), ...offered(opened)])
      for (const text of Object.values(applied(opened, action))) assert.doesNotMatch(text, /(?<!\r)\n/, action.title);
  });
});
