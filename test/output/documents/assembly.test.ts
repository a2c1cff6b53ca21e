import assert from 'node:assert/strict';
import { atOnce } from '../../../server/incremental/steps.ts';
import { show } from '../../../server/model/values/show.ts';
import { assemblyInSteps } from '../../../server/output/documents/assembly.ts';
import { assemblySvgInSteps } from '../../../server/output/documents/assembly-view.ts';
import { figureValue } from '../../model/support.ts';
import { builds, sample } from '../../samples/support.ts';

describe('the assembly as data', () => {
  for (const file of builds)
    it(`${file} has every piece once, placed by a rotation or with a reason`, () => {
      const model = sample(file);
      const data = atOnce(assemblyInSteps(model, file));
      const placed = data.groups.flatMap(({ pieces }) => pieces);
      const names = new Set([...placed, ...data.unplaced].map(({ piece }) => piece));
      assert.deepEqual(
        [...names].sort(),
        model
          .pieces()
          .map(({ name }) => name)
          .sort(),
      );
      for (const { turn, shift, by } of placed) {
        for (const [i, row] of turn.entries())
          for (const [j, other] of turn.entries())
            assert.ok(Math.abs(row.reduce((sum, x, k) => sum + x * other[k]!, 0) - (i === j ? 1 : 0)) < 1e-9);
        assert.ok(shift.every(Number.isFinite) && by);
      }
      for (const { why } of data.unplaced) assert.ok(why);
      assert.deepEqual(JSON.parse(JSON.stringify(data)), data);
    });

  it('says of the sallet how its tail meets the skull, station by station', () => {
    const model = sample('sallet/sallet.planish');
    const { seams } = atOnce(assemblyInSteps(model, 'sallet.planish'));
    assert.deepEqual(
      seams.map(({ name, edges }) => [name, edges.map(({ one, other }) => [one, other])]),
      [['tail-line', [['skull.rim', 'tail.top']]]],
    );
    const { stations } = seams[0]!.edges[0]!;
    assert.equal(stations.length, figureValue(model, 'tail-line.rivets'));
    assert.ok(
      Math.abs(Math.max(...stations.map(({ apart }) => apart)) - figureValue(model, 'tail-line.misfit')) < 1e-6,
    );
    // A circle under an oval: it stands out at the ends, and in at the middle.
    assert.ok(stations[0]!.outside < 0 && stations[5]!.outside > 0);
  });
});

describe('the drawing of the whole', () => {
  const drawn = (file: string, exploded = false): string => {
    const model = sample(file);
    return atOnce(assemblySvgInSteps(model, { title: 'Whole', system: model.units(), exploded }))!;
  };

  it('shows three sides with the measures over all, and names every piece once', () => {
    const svg = drawn('sallet/sallet.planish');
    for (const view of ['front', 'left side', 'top, front down']) assert.ok(svg.includes(`>${view}</text>`), view);
    for (const name of ['skull', 'tail', 'binding']) assert.equal(svg.split(`>${name}</text>`).length, 2, name);
    const model = sample('sallet/sallet.planish');
    for (const figure of ['wide', 'deep', 'high'])
      assert.ok(svg.includes(`>${show(figureValue(model, `build.${figure}`), 'mm', 'mm')}</text>`), figure);
    assert.ok(svg.includes('Not drawn: ear-flap'));
    assert.ok(svg.includes('class="hidden"'));
    assert.ok(!/NaN|undefined|Infinity/.test(svg));
  });

  it('stays small, and says what was taken where nobody said it', () => {
    const svg = drawn('gauntlet/cuff.planish');
    assert.ok(svg.length < 200_000, `${svg.length}`);
    assert.match(svg, /wrist-lame: its overlap is not said/);
    assert.match(svg, /4 23\/32 in/);
  });

  it('drawn apart is larger, and gives no measures of the whole', () => {
    const [whole, apart] = [drawn('sallet/sallet.planish'), drawn('sallet/sallet.planish', true)];
    const high = (svg: string) => Number(/height="([\d.]+)mm"/.exec(svg)![1]);
    assert.ok(high(apart) > high(whole) + 20);
    assert.match(whole, /class="dimension"/);
    assert.doesNotMatch(apart, /class="dimension"/);
  });
});
