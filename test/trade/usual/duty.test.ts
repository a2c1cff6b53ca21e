import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { burrDiameter, drillFor, holeFor, softEdgeDistance } from '../../../server/trade/rivet/rivet.ts';
import { dutyLimit, dutyTable } from '../../../server/trade/usual/duty.ts';
import { anyNumber, resultsIn, soundResult } from '../numbers.ts';

describe('duty', () => {
  it('asks no less of contact than of a stage, nor of a stage than of a shelf, but for what is seen and worn', () => {
    for (const { id, sense, display, stage, contact } of dutyTable) {
      if (id === 'view-high' || id === 'helm-mass') continue;
      const order = sense === 'least' ? [display, stage, contact] : [contact, stage, display];
      assert.deepEqual(
        order,
        [...order].sort((a, b) => a - b),
        id,
      );
    }
  });

  it('marks every number as what it is', () => {
    for (const { id, source } of dutyTable) {
      assert.match(source, /common practice \(no source\)/);
      for (const duty of ['display', 'stage', 'contact'] as const) {
        const limit = dutyLimit(duty, id)!;
        assert.equal(limit.basis, 'common practice');
        soundResult(limit);
      }
    }
    assert.equal(dutyLimit('stage', 'nothing'), undefined);
    assert.equal(new Set(dutyTable.map(({ id }) => id)).size, dutyTable.length);
  });
});

describe('drills and burrs', () => {
  it('go over the hole by less than a tenth', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 10, noNaN: true }), (shank) => {
        const hole = holeFor(shank);
        const drill = drillFor(hole).value;
        assert.ok(drill >= hole.value - 1e-6 && drill < hole.value + 0.1);
      }),
    );
  });

  it('stand any number', () => {
    fc.assert(
      fc.property(anyNumber, (a) => {
        for (const figure of resultsIn([burrDiameter(a), softEdgeDistance(a), drillFor(holeFor(a))]))
          soundResult(figure);
      }),
    );
  });
});
