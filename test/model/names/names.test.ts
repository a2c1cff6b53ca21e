import assert from 'node:assert/strict';
import { problemsOf } from '../../../server/checks/run.ts';
import { figureValue, marked, modelFrom, PLATE } from '../support.ts';

describe('names', () => {
  it('ignore case and keep the first spelling', () => {
    const model = modelFrom('let Gap = 3 mm\nlet it = gap * 2\n');
    assert.equal(figureValue(model, 'it'), 6);
    assert.deepEqual(model.file.examine(), []);
  });

  it('come from the files that are used, and from those these use', () => {
    const model = modelFrom({
      'helm/helm.planish': 'use "../shop/stock.planish"\npiece cop\n  from plate\n  disc 90 mm\n',
      'shop/stock.planish': 'use "steel.planish"\n',
      'shop/steel.planish': PLATE,
    });
    assert.deepEqual(model.file.examine(), []);
    assert.equal(figureValue(model, 'cop.thickness.least'), 1.5);
  });

  it('are marked where nothing has them, with the nearest right one', () => {
    const [finding] = modelFrom(`${PLATE}piece cop\n  from plte\n  disc 90 mm\n`).file.examine();
    assert.equal(finding?.message, 'There is no material “plte”: did you mean “plate”?');
    assert.equal(finding?.fixes[0]?.edits[0]?.text, 'plate');
  });

  it('are marked where they name another kind of thing', () => {
    const found = modelFrom(`${PLATE}piece cop\n  from cop\n  disc 90 mm\n`).file.examine();
    assert.equal(found[0]?.message, '“cop” is a piece; a material is wanted here.');
  });

  it('cannot be given twice, here or through a used file', () => {
    const model = modelFrom({
      'helm.planish': `use "stock.planish"\n${PLATE}let gap = 1 mm\nlet gap = 2 mm\n`,
      'stock.planish': PLATE,
    });
    assert.deepEqual(marked(model.file.examine()), ['name-twice “plate”', 'name-twice “gap”']);
  });

  it('say the circle they are made in', () => {
    const found = modelFrom('let a = b + 1 mm\nlet b = c\nlet c = a\n').file.examine();
    assert.ok(
      found.every((each) => each.code === 'definition-circle'),
      JSON.stringify(marked(found)),
    );
    assert.match(found[0]!.message, /a → b → c → a/);
  });

  it('reach body measures and figures with a dot', () => {
    const model = modelFrom(
      `${PLATE}wearer guard\n  head round 585 mm\npiece cop\n  from plate\n  disc 100 mm\nlet a = guard.head-round + 15 mm\nlet b = cop.rim.length\nlet c = cop.blank.area\n`,
    );
    assert.equal(figureValue(model, 'a'), 600);
    assert.ok(Math.abs(figureValue(model, 'b') - 100 * Math.PI) < 1e-9);
    assert.ok(Math.abs(figureValue(model, 'c') - 2500 * Math.PI) < 1e-9);
    assert.deepEqual(model.file.examine(), []);
  });

  it('say which measure a wearer lacks', () => {
    const found = modelFrom(
      'wearer guard\n  head round 585 mm\nlet a = guard.head-length\nlet b = guard.head-rond\n',
    ).file.examine();
    assert.equal(found[0]?.message, '“guard” does not give its head length.');
    assert.equal(found[1]?.message, '“guard” has no measure “head-rond”: did you mean “head-round”?');
  });

  it('take a piece that is made from its own figure as a circle, not as a crash', () => {
    const found = modelFrom(`${PLATE}piece cop\n  from plate\n  disc cop.rim.length\n`).file.examine();
    assert.deepEqual(marked(found), ['definition-circle “cop.rim.length”']);
  });
});

describe('use', () => {
  it('marks a file that is missing, outside the folder, or no relative path', () => {
    const model = modelFrom({
      'helm.planish': 'use "gone.planish"\nuse "../../elsewhere.planish"\nuse "/stock.planish"\n',
    });
    assert.deepEqual(marked(model.file.examine()), [
      'use-missing “"gone.planish"”',
      'use-missing “"../../elsewhere.planish"”',
      'use-missing “"/stock.planish"”',
    ]);
  });

  it('takes a name that nothing bears to be in the file that is not read, and its excuse as well', () => {
    const spec = (use: string) =>
      `${use}piece tab\n  from plate # allow thickness-not-stocked: from the rack\n  disc 2 * gap\npiece cap\n  from plate\n  lies under cop, high 3 mm\n`;
    const read = (use: string) => problemsOf(modelFrom(spec(use))).map(({ code }) => code);
    assert.deepEqual(read('use "gone.planish"\n'), ['use-missing']);
    assert.ok(read('').filter((code) => code === 'unknown-name').length >= 3);
    assert.ok(read('').includes('excuse-unused'));
  });

  it('says the circle in which files use each other', () => {
    const model = modelFrom({
      'a.planish': 'use "b.planish"\nlet x1 = y1\n',
      'b.planish': 'use "c.planish"\nlet y1 = 2 mm\n',
      'c.planish': 'use "a.planish"\n',
    });
    const found = model.file.examine();
    assert.deepEqual(marked(found), ['use-circle “"b.planish"”']);
    assert.match(found[0]!.message, /a\.planish → b\.planish → c\.planish → a\.planish/);
    assert.equal(figureValue(model, 'x1'), 2);
  });

  it('stands a circle over a thousand files', () => {
    const files: Record<string, string> = {};
    for (let i = 0; i < 1000; i++)
      files[`f${i}.planish`] = `use "f${(i + 1) % 1000}.planish"\nlet v${i} = ${i + 1} mm\n`;
    const model = modelFrom(files);
    assert.deepEqual(marked(model.file.examine()), ['use-circle “"f1.planish"”']);
    assert.equal(model.file.find('v999')?.kind, 'let');
  });
});
