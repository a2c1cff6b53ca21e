import assert from 'node:assert/strict';
import { shapeOf } from '../../../server/model/assembly/shape.ts';
import { builds, sample } from '../../samples/support.ts';

describe('the mesh of a piece', () => {
  for (const file of builds)
    it(`is the same one whoever asks again, so that what was begun with it goes on: ${file}`, () => {
      for (const piece of sample(file).pieces())
        assert.equal(shapeOf(piece)?.positions, shapeOf(piece)?.positions, piece.name);
    });
});
