import assert from 'node:assert/strict';
import { problemsOf } from '../../server/checks/run.ts';
import type { Model } from '../../server/model/model.ts';
import { boxOf } from '../../server/output/patterns/paths.ts';
import type { Pattern } from '../../server/output/patterns/pattern.ts';
import { patternsOf } from '../../server/output/patterns/patterns-of.ts';
import { distanceTo, signedArea } from '../../server/trade/outline/measure.ts';
import { sample } from '../samples/support.ts';

const patternIn = (model: Model, piece: string): Pattern =>
  patternsOf(model, { date: '2027-03-01', problems: problemsOf(model) }).patterns.find((each) => each.piece === piece)!;

const middles = ({ lines }: Pattern, ...kinds: string[]) =>
  lines
    .filter(({ kind }) => kinds.includes(kind))
    .map(({ path }) => {
      const { left, right, bottom, top } = boxOf([path]);
      return { x: (left + right) / 2, y: (bottom + top) / 2 };
    });

const outlineOf = ({ lines }: Pattern) => lines.find(({ kind }) => kind === 'outline')!.path;

describe('places on a pattern', function () {
  this.timeout(120_000);

  it('of a strip cut curved: its row runs down its middle, along the curve', () => {
    const binding = patternIn(sample('breastplate/breastplate.planish'), 'binding');
    const rivets = middles(binding, 'rivet', 'hole');
    assert.ok(rivets.length > 15);
    const outline = outlineOf(binding);
    // 16 mm wide, the row 8 mm in from the edge that the strip follows.
    for (const at of rivets) assert.ok(Math.abs(distanceTo(outline, at) - 8) < 0.06, `${distanceTo(outline, at)}`);
    const { top, bottom } = boxOf([outline]);
    assert.ok(top - bottom > 25, 'and is drawn as curved as it is cut');
    assert.ok(signedArea(outline) > 0);
  });
});
