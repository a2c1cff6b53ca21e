import assert from 'node:assert/strict';
import { readSpec } from '../../../grammar/reader.ts';
import { library, libraryText } from '../../../server/model/names/library.ts';
import { figureValue, marked, modelFrom } from '../support.ts';

const uses = (name: string, lines: string) => modelFrom(`use "planish:${name}"\n${lines}`);

describe('the library', () => {
  for (const { name } of library) {
    it(`${name} reads without a mark, and every figure of it is finite`, () => {
      const text = libraryText(`planish:${name}`);
      assert.ok(text);
      assert.deepEqual(
        readSpec(text).sections.flatMap((section) => section.problems),
        [],
      );
      const model = modelFrom(text);
      assert.deepEqual(marked(model.file.examine()), []);
      for (const set of model.figures())
        for (const figure of set.all()) assert.ok(Number.isFinite(figure.value), figure.name);
      for (const material of model.materials()) assert.ok(material.thickness() && material.density(), material.name);
      for (const rivet of model.rivets()) assert.ok(rivet.size() && rivet.figures().get('mass'), rivet.name);
    });
  }

  it('brings stock that a piece can be cut from', () => {
    const model = uses('metals', 'piece cop\n  from mild-steel-16ga\n  disc 90 mm\n');
    assert.deepEqual(model.file.examine(), []);
    assert.ok(Math.abs(figureValue(model, 'cop.thickness.least') - 1.519) < 1e-3);
    const brass = uses('metals', 'piece cop\n  from brass-half-hard-16ga\n  disc 90 mm\n');
    assert.ok(Math.abs(figureValue(brass, 'cop.thickness.least') - 1.29) < 2e-3);
  });

  it('names a gauge by its table, whatever the shop reads gauges by', () => {
    const model = uses(
      'metals',
      'shop bench\n  gauges UK\npiece a\n  from mild-steel-18ga\n  disc 90 mm\npiece b\n  from mild-steel-18swg\n  disc 90 mm\n',
    );
    assert.ok(Math.abs(figureValue(model, 'a.thickness.least') - 1.214) < 1e-3);
    assert.ok(Math.abs(figureValue(model, 'b.thickness.least') - 1.219) < 1e-3);
  });

  it('gives way to a name of the spec itself, without a mark', () => {
    const model = uses(
      'metals',
      'material mild-steel-16ga\n  mild steel 1.6 mm\npiece cop\n  from mild-steel-16ga\n  disc 90 mm\n',
    );
    assert.deepEqual(marked(model.file.examine()), []);
    assert.equal(figureValue(model, 'cop.thickness.least'), 1.6);
  });

  it('says what there is when a name is not', () => {
    const [finding] = uses('metal', '').file.examine();
    assert.equal(finding?.message, 'Planish brings no “planish:metal”: did you mean “planish:metals”?');
  });
});
