import assert from 'node:assert/strict';
import { problemsOf } from '../../../server/checks/run.ts';
import { inUnits } from '../../../server/model/values/prose.ts';
import { explain } from '../../../server/output/documents/explain.ts';
import { modelIn } from '../../checks/specs.ts';

describe('words with lengths in them', () => {
  it('are in the units of the build', () => {
    for (const [metric, inches] of [
      ['round it to 1 mm or more', 'round it to 0.039 in or more'],
      ['Add 3 to 6 mm all round', 'Add 0.118 to 0.236 in all round'],
      ['± 0.08 mm for 1.519 mm sheet', '± 0.003 in for 0.06 in sheet'],
      ['at least 28 % over 80 mm', 'at least 28 % over 3 5/32 in'],
      ['210 MPa, 5 mm² and 10 N/mm²', '210 MPa, 5 mm² and 10 N/mm²'],
      ['write “plate 120 x 80 mm” or `5 mm`', 'write “plate 120 x 80 mm” or `5 mm`'],
    ]) {
      assert.equal(inUnits(metric!, 'in 1/32'), inches);
      assert.equal(inUnits(metric!, 'mm'), metric);
    }
  });

  it('so that nothing that is said of an inch build is in millimetres, but for the working of its formulas', () => {
    const model = modelIn(`build "Cap"
  units in
  duty stage
material plate
  mild steel 16 ga
material edge-wire
  mild steel wire 1/8 in
material hide
  veg-tan leather 8 oz
rivet small
  brass 1/8 x 3/8 in, domed
piece skull
  from plate
  dome 8 1/4 in, deep 2 3/8 in
  dish
  edge rim rolled over edge-wire, outward
piece cuff
  from plate
  cylinder round 10 in, high 5 in, wrap 300 deg
piece loft
  from plate
  form wrap 190 deg
  at 0 in, round 38 in, long 13 in
  at 10 in, round 44 in, long 15 in, deep 6 in
  dish then raise
seam s
  joins cuff, skull
  along cuff.top
  rivets small, every 1 in, inset 5/16 in
finish f1
  on skull outside
  sand 120, 240 grit
  oil
`);
    const problems = problemsOf(model);
    const metric = /\d\s?(?:mm|cm)\b/;
    for (const { message } of problems) assert.doesNotMatch(message, metric);
    const { figures } = explain(model, { file: 'cap.planish', problems });
    assert.ok(figures.length > 50);
    for (const { name, shown, note = '', source, outside = '' } of figures)
      for (const text of [shown, note, source, outside]) assert.doesNotMatch(text, metric, name);
  });
});
