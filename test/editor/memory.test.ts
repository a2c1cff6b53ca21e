// A spec of very many sections, edited often: what is held stays bounded, and is given back. In a process of its own, whose
// memory nothing else uses.
import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';

const program = fileURLToPath(new URL('held-by-edits.ts', import.meta.url));
const asked = async (sections: number, edits: number): Promise<Record<'opened' | 'edited' | 'closed', number>> => {
  const { stdout } = await promisify(execFile)(process.execPath, [
    '--expose-gc',
    '--import=tsx',
    program,
    String(sections),
    String(edits),
  ]);
  return JSON.parse(stdout) as Record<'opened' | 'edited' | 'closed', number>;
};

describe('Memory', function () {
  this.timeout(300_000);

  it('of 100,000 sections that are edited 1,000 times is bounded, and given back when they are closed', async () => {
    const { opened, edited, closed } = await asked(100_000, 1_000);
    // Each edit leaves nothing behind that counts: a tenth of the first opening is for all of them together.
    assert.ok(edited < opened * 1.1 + 5, `${edited} MB after the edits, ${opened} MB after the first opening`);
    assert.ok(closed < opened * 0.1 + 5, `${closed} MB once it is closed, ${opened} MB while it is open`);
  });
});
