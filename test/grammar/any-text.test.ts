import assert from 'node:assert/strict';
import fc from 'fast-check';
import { type Kept, Reading, readSpec } from '../../grammar/reader.ts';
import type { Spec } from '../../grammar/tree.ts';
import {
  anyText,
  applyEdit,
  edit,
  editedSpec,
  meaningOf,
  problemsOf,
  randomSpec,
  runs,
  soup,
  specs,
  startText,
} from './support.ts';

/**
 * A text far larger than these is a few milliseconds; this is to find what grows with the square of a length. Of our own time on
 * the processor: how busy the machine is otherwise is no fault of the reader.
 */
const TOO_LONG_MS = 3000;

function readSafely(text: string): Spec {
  const start = process.cpuUsage();
  const spec = readSpec(text);
  const { user, system } = process.cpuUsage(start);
  const took = (user + system) / 1000;
  assert.ok(took < TOO_LONG_MS, `reading ${text.length} characters took ${took.toFixed(0)} ms`);
  assert.equal(spec.sections.map((section) => section.text).join(''), text, 'the sections are the text');
  let at = 0;
  for (const section of spec.sections) {
    assert.equal(section.start, at);
    at += section.text.length;
    for (const line of section.lines)
      assert.ok(0 <= line.from && line.from <= line.to && line.to <= section.text.length, 'a line is in its section');
  }
  for (const { from, to, message, fixes } of problemsOf(spec)) {
    assert.ok(0 <= from && from <= to && to <= text.length, `${from}–${to} of ${text.length}: ${message}`);
    for (const fix of fixes)
      for (const each of fix.edits) assert.ok(0 <= each.from && each.from <= each.to && each.to <= text.length);
  }
  return spec;
}

describe('Reading never fails', () => {
  for (const [what, texts, count] of [
    ['any UTF-16, lone surrogates too', anyText, 1000],
    ['near-specs', soup, 1000],
    ['random specs', randomSpec, 200],
    ['specs with random edits', editedSpec, 200],
  ] as const)
    it(`${runs(count)} texts: ${what}`, () => {
      fc.assert(
        fc.property(texts, (text) => void readSafely(text)),
        { numRuns: runs(count) },
      );
    });

  it('of long runs of one mark', () => {
    for (const mark of [
      '(',
      ')',
      '"',
      '“',
      '\\',
      '#',
      '##',
      ',',
      '-',
      '+',
      '1',
      '1 ',
      '1/2 ',
      'x',
      'x ',
      'a.',
      'a-',
      '@',
      '\n',
      '\r',
      ' ',
      '½',
      '½ ',
      '= ',
      '😀',
      'sqrt(',
      'of ',
      'a ',
      'a, ',
      '1,1',
      '"" ',
      '\u0301',
    ])
      readSafely(`piece a\n  hole ${mark.repeat(4000)}`);
  });
});

/** What two texts begin and end with alike. */
function keptOf(was: string, is: string): Kept {
  const most = Math.min(was.length, is.length);
  let before = 0;
  while (before < most && was[before] === is[before]) before++;
  let after = 0;
  while (after < most - before && was[was.length - 1 - after] === is[is.length - 1 - after]) after++;
  return { before, after };
}

function* take<T>(all: Generator<T>, count: number): Generator<T> {
  for (let i = 0; i < count; i++) {
    const next = all.next();
    if (next.done) return;
    yield next.value;
  }
}
const ascending = (a: number, b: number) => a - b;

describe('Reading again after an edit', () => {
  let edits = 0;
  // So many only where the minutes of random edits are asked for, as in CI.
  const scripts = runs(process.env['EDIT_MINUTES'] ? 250 : 60);

  it(`gives what reading afresh gives, and takes over what did not change: ${scripts} scripts of up to 60 edits`, () => {
    fc.assert(
      fc.property(startText, fc.array(edit, { minLength: 40, maxLength: 60 }), (start, script) => {
        let text = start;
        let spec = readSafely(text);
        script.forEach((each, i) => {
          const before = spec.sections.map((section) => section.text);
          const objects = new Set(spec.sections);
          const was = text;
          text = applyEdit(text, each);
          // By turns as one who is told where the change lies, and as one who has to find out.
          spec = readSpec(text, spec, i % 2 ? keptOf(was, text) : undefined);
          edits++;
          const fresh = readSpec(text);
          assert.deepEqual(
            spec.sections.map(({ start: at, text: stretch }) => [at, stretch]),
            fresh.sections.map(({ start: at, text: stretch }) => [at, stretch]),
          );
          if (i % 10 === 0) {
            assert.deepEqual(meaningOf(spec), meaningOf(fresh));
            assert.deepEqual(problemsOf(spec), problemsOf(fresh));
          }
          // What stands unchanged, as often as it stood before, is the same object.
          const left = new Map<string, number>();
          for (const stretch of before) left.set(stretch, (left.get(stretch) ?? 0) + 1);
          for (const section of spec.sections) {
            const count = left.get(section.text) ?? 0;
            if (count) assert.ok(objects.has(section), `taken over: ${section.text.slice(0, 40)}`);
            left.set(section.text, count - 1);
          }
          assert.equal(new Set(spec.sections).size, spec.sections.length, 'no section stands twice');
        });
      }),
      { numRuns: scripts },
    );
  }).timeout(600_000);

  it('takes over from an older tree too, whose sections a later one has moved', () => {
    const { text } = specs[0]!;
    const first = readSpec(text);
    readSpec(`# above\n\n${text}`, first);
    const again = readSpec(`${text}\npiece more\n`, first);
    assert.deepEqual(meaningOf(again), meaningOf(readSpec(again.text)));
    assert.deepEqual(problemsOf(again), problemsOf(readSpec(again.text)));
  });

  it('one typed character re-reads one section', () => {
    const { text } = specs[0]!;
    const before = readSpec(text);
    const at = text.indexOf('150 mm, inside') + 2;
    const known = new Set(before.sections);
    const after = readSpec(`${text.slice(0, at)}5${text.slice(at)}`, before);
    assert.equal(after.sections.filter((section) => !known.has(section)).length, 1);
  });

  it(`in steps, and changed meanwhile, gives what reading at once gives: ${runs(200)} scripts`, () => {
    const steps = fc.nat(12);
    fc.assert(
      fc.property(startText, fc.array(fc.tuple(steps, edit), { maxLength: 8 }), steps, (start, script, last) => {
        let text = start;
        const reading = new Reading();
        const go = (count: number) => {
          const shares = [...take(reading.through(text), count)];
          assert.deepEqual(shares, shares.toSorted(ascending));
        };
        for (const [count, each] of script) {
          go(count);
          text = applyEdit(text, each);
        }
        go(last);
        const spec = reading.end(text);
        const fresh = readSpec(text);
        assert.deepEqual(
          spec.sections.map(({ start: at, text: stretch }) => [at, stretch]),
          fresh.sections.map(({ start: at, text: stretch }) => [at, stretch]),
        );
        assert.deepEqual(meaningOf(spec), meaningOf(fresh));
        assert.deepEqual(problemsOf(spec), problemsOf(fresh));
      }),
      { numRuns: runs(200) },
    );
  }).timeout(600_000);

  it('in steps reads nothing twice', () => {
    const { text } = specs[0]!;
    const reading = new Reading();
    const first = [...take(reading.through(text), 5)].length;
    const rest = [...reading.through(`# above\n${text}`)].length;
    // The first section has another text now; all others are taken as they were read.
    assert.equal(first + rest, readSpec(text).sections.length + 1);
    assert.deepEqual([...reading.through(`# above\n${text}`)], []);
  });

  after(() => console.log(`    ${edits.toLocaleString('en')} edits read again`));
});
