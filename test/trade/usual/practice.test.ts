import assert from 'node:assert/strict';
import { dutyTable } from '../../../server/trade/usual/duty.ts';
import {
  PRACTICE,
  type PracticeId,
  practiceLimit,
  practiceTable,
  usual,
} from '../../../server/trade/usual/practice.ts';
import { soundResult } from '../numbers.ts';

describe('rules of thumb', () => {
  it('are marked as what they are, and none has the name of a row of the duties', () => {
    for (const id of Object.keys(practiceTable) as PracticeId[]) {
      const limit = practiceLimit(id);
      soundResult(limit);
      assert.equal(limit.value, usual(id));
      assert.equal(limit.basis, 'common practice');
      assert.equal(limit.source, PRACTICE);
      assert.ok(!dutyTable.some((row) => row.id === id), id);
    }
  });
});
