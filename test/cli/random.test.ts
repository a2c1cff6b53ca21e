import assert from 'node:assert/strict';
import { fuzzCommandLine } from '../fuzz/command-line.ts';
import { runs } from '../grammar/support.ts';
import { sweep } from './support.ts';

describe('whatever is typed', () => {
  after(sweep);

  it(`ends in words, keeps what was read and writes where it was asked to: ${runs(150)} random trees and lines`, async () => {
    const ended = await fuzzCommandLine({ runs: runs(150) });
    for (const code of [0, 1, 2]) assert.ok(ended.get(code), `none ended with ${code}`);
  }).timeout(200_000 * runs(1));
});
