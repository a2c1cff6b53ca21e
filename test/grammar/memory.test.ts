import assert from 'node:assert/strict';
import v8 from 'node:v8';
import vm from 'node:vm';
import { readSpec } from '../../grammar/reader.ts';

v8.setFlagsFromString('--expose-gc');
const collectGarbage = vm.runInNewContext('gc') as () => void;

function heldBy<T>(make: () => T): { readonly made: T; readonly bytes: number } {
  collectGarbage();
  const before = process.memoryUsage().heapUsed;
  const made = make();
  collectGarbage();
  return { made, bytes: process.memoryUsage().heapUsed - before };
}

describe('The memory of a tree', () => {
  it('holds no text that it was read from earlier', () => {
    const padding = `# ${'x'.repeat(5000)}\n`;
    const sections = Array.from({ length: 100 }, (_, i) => `piece p${i}\n${padding}  make 1\n\n`);
    const { made, bytes } = heldBy(() => {
      let spec = readSpec(sections.join(''));
      for (let i = 0; i < sections.length; i++) {
        sections[i] = sections[i]!.replace('make 1', 'make 2');
        spec = readSpec(sections.join(''), spec);
      }
      return spec;
    });
    // A hundred texts of half a megabyte, one for each section, would be fifty.
    assert.ok(bytes < 5 * made.text.length, `${(bytes / 1e6).toFixed(1)} MB for ${made.text.length / 1e6} MB of text`);
  });
});
