// What the reporters of all suites have written down (tally.cjs), added up.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

const SLOWEST = 20;

export class Tallies {
  #folder = mkdtempSync(path.join(tmpdir(), 'planish-tests-'));
  #count = 0;
  #files = [];

  constructor() {
    process.on('exit', () => rmSync(this.#folder, { recursive: true, force: true }));
  }

  /** A file for one suite more, as the environment of its process. */
  next() {
    const file = path.join(this.#folder, `${++this.#count}.jsonl`);
    writeFileSync(file, '');
    this.#files.push(file);
    return { TALLY: file };
  }

  /** Of all suites, or of the one that was given this environment. */
  counted({ TALLY } = {}) {
    const sum = { passed: 0, failed: 0, skipped: 0 };
    for (const entry of this.#entries(TALLY ? [TALLY] : this.#files))
      if (entry.counts) for (const what of Object.keys(sum)) sum[what] += entry.counts[what];
    return sum;
  }

  /** `3,597 passed, 1 failed`, with what failed besides tests. */
  closingLine(failedSteps = 0) {
    const { passed, failed, skipped } = this.counted();
    return `${passed} passed, ${failed + failedSteps} failed${skipped ? `, ${skipped} skipped` : ''}`;
  }

  /** What failed, a line each, so that the end of a long output says what to look for further up. */
  broken() {
    return this.#entries(this.#files).flatMap(({ broken }) => (broken ? [`FAILED: ${broken}`] : []));
  }

  /** The tests and hooks that took longest, as a table. */
  slowest() {
    const rows = this.#entries(this.#files)
      .filter(({ ms }) => ms !== undefined)
      .sort((one, other) => other.ms - one.ms)
      .slice(0, SLOWEST)
      .map(({ ms, file, title }) => `${(ms / 1000).toFixed(1).padStart(7)} s  ${file}  ${title}`);
    return ['The slowest tests:', ...rows].join('\n');
  }

  #entries(files) {
    return files.flatMap((file) =>
      readFileSync(file, 'utf8')
        .split('\n')
        .filter(Boolean)
        .map((line) => JSON.parse(line)),
    );
  }
}
