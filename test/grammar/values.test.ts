import assert from 'node:assert/strict';
import fc from 'fast-check';
import { readPhrase, readPhraseByGrammar } from '../../grammar/parser.ts';
import { readSpec } from '../../grammar/reader.ts';
import { Comma, Comment, Newline, Note, OddComment, OpenText, tokensOf, Unknown } from '../../grammar/tokens.ts';
import type { Expression, Item, Measure } from '../../grammar/tree.ts';
import { units } from '../../grammar/units.ts';
import { check, problemsOf, randomSpec, runs, soup } from './support.ts';

function number(expression: Expression): string {
  switch (expression.kind) {
    case 'number':
      return `${expression.written}${expression.unit ? ` ${expression.unit.id}` : ''}`;
    case 'negate':
      return `-(${number(expression.of)})`;
    case 'name':
      return expression.name.text;
    case 'binary':
      return `(${number(expression.left)} ${expression.operator} ${number(expression.right)})`;
    case 'call':
      return `${expression.name.text}(${expression.arguments.map(number).join(', ')})`;
  }
}

function measure(of: Measure): string {
  const count = of.count ? `${number(of.count)} of ` : '';
  const tolerance = of.tolerance ? ` ± ${number(of.tolerance)}` : '';
  return count + of.parts.map(number).join(' x ') + tolerance;
}

const item = (of: Item): string => (of.kind === 'measure' ? measure(of) : of.kind === 'word' ? of.text : of.value);

/** What the value of a let is read as. */
function read(written: string): string {
  const spec = readSpec(`let v = ${written}`);
  assert.deepEqual(problemsOf(spec), [], written);
  const single = spec.sections[0]!.singles[0]!;
  return single.kind === 'let' && single.value ? measure(single.value) : '';
}

/** The items of the phrases of the first line. */
const phrasesOf = (text: string): string[] =>
  readSpec(text).sections[0]!.lines[0]!.phrases.map((phrase) => phrase.items.map(item).join(' '));

describe('Numbers and units', () => {
  it('are read in every form', () => {
    const forms: Record<string, string> = {
      '12 mm': '12 mm',
      '0.032 in': '0.032 in',
      '1/8 in': '1/8 in',
      '2 1/2 in': '2 1/2 in',
      '2½"': '2 1/2 in',
      '2 ½ in': '2 1/2 in',
      '½ in': '1/2 in',
      '5"': '5 in',
      '5″': '5 in',
      '5 inches': '5 in',
      '5 INCH': '5 in',
      '18ga': '18 ga',
      '25°': '25 deg',
      '830°C': '830 C',
      '25%': '25 %',
      '2.2 m²': '2.2 m2',
      '7.85 g/cm³': '7.85 g/cm3',
      '250 N/mm²': '250 MPa',
      '120x80 mm': '120 mm x 80 mm',
      '120 × 80 mm': '120 mm x 80 mm',
      '1/8 x 3/8 in': '1/8 in x 3/8 in',
      '2" x 3"': '2 in x 3 in',
      '3 in x 40 mm': '3 in x 40 mm',
      '4 of 1/8 in': '4 of 1/8 in',
      '585 mm ± 0.5 mm': '585 mm ± 0.5 mm',
      '585 +/- 0.5 mm': '585 mm ± 0.5 mm',
      '120 x 80 ± 0.5 mm': '120 mm x 80 mm ± 0.5 mm',
      '120 x 80 mm ± 1/2 mm': '120 mm x 80 mm ± 1/2 mm',
    };
    for (const [written, as] of Object.entries(forms)) assert.equal(read(written), as, written);
  });

  it('know every unit by every spelling', () => {
    for (const unit of units)
      for (const spelling of unit.spellings)
        for (const gap of spelling === '"' ? [''] : [' ', ''])
          assert.equal(read(`12${gap}${spelling}`), `12 ${unit.id}`, spelling);
  });

  it('are marked where they could mean two things', () =>
    void check(`
      let a = 2-1/2 in
      #       ^^^^^ number-form
      let b = 120,5 mm
      #       ^^^^^ number-form
      let k = 1,220 mm
      #       ^^^^^ number-form
      let d = .5 in
      #       ^^ number-form
      let e = 5. in
      #       ^^ number-form
      let o = 1.2.3 mm
      #       ^^^^^ number-form
      let p = 5 mmm
      #         ^^^ unknown-word
      let q = mm
    `));

  it('a unit reaches back over a size, a range and a list, and no further', () => {
    assert.deepEqual(phrasesOf('finish a\n  sand 80, 120, 180 grit'), ['sand 80 grit', '120 grit', '180 grit']);
    assert.deepEqual(phrasesOf('piece a\n  cone round 260 to 200 mm, high 2'), [
      'cone round 260 mm to 200 mm',
      'high 2',
    ]);
    assert.deepEqual(phrasesOf('joint a\n  bends -60 to 60 deg'), ['bends -(60 deg) to 60 deg']);
    assert.deepEqual(phrasesOf('seam a\n  rivets r, count 9, inset 8 mm'), ['rivets r', 'count 9', 'inset 8 mm']);
    assert.equal(read('2 * 3 mm'), '(2 * 3 mm)');
    assert.equal(read('(120 + 2) x 80 mm'), '(120 + 2) x 80 mm');
  });

  it('stand in arithmetic', () => {
    assert.equal(read('a + 2 * (b - 3 mm)'), '(a + (2 * (b - 3 mm)))');
    assert.equal(read('guard.head-round / pi - 1 mm'), '((guard.head-round / pi) - 1 mm)');
    assert.equal(read('round-up(max(3 mm, a), 5 mm)'), 'round-up(max(3 mm, a), 5 mm)');
    assert.equal(read('2 * -3 mm'), '(2 * -(3 mm))');
    assert.equal(read('a − 1 mm'), '(a - 1 mm)');
  });

  it('arithmetic that is too deep or too long is marked, not read', () => {
    for (const text of [`let a = ${'('.repeat(5000)}1${')'.repeat(5000)}`, `let a = 1${' + 1'.repeat(10_000)}`])
      assert.deepEqual(
        problemsOf(readSpec(text)).map((problem) => problem.code),
        ['nested-too-deep'],
      );
  });
});

describe('Names', () => {
  it('are of any script, in one normal form, whatever their case', () => {
    for (const name of ['skull', 'Ärmel-2', 'κράνος', '鎧', 'x2', 'xylem', 'of-iron', 'مغفر', '𐌰𐌱']) {
      const [section] = readSpec(`part ${name}\n  mass 2 g`).sections;
      assert.equal(section!.name?.text, name.normalize('NFC'), name);
      assert.deepEqual(section!.problems, [], name);
    }
    const composed = readSpec('part \u00C4rmel').sections[0]!.name!;
    const apart = readSpec('part A\u0308rmel').sections[0]!.name!;
    assert.equal(apart.key, composed.key);
    assert.equal(readSpec('part SKULL').sections[0]!.name!.key, 'skull');
  });

  it('may be dotted where a figure is meant', () => {
    const [phrase] = readSpec('piece a\n  trim along skull.rim').sections[0]!.lines[0]!.phrases;
    assert.equal(item(phrase!.items[2]!), 'skull.rim');
    assert.deepEqual(
      problemsOf(readSpec('part a.b')).map((problem) => problem.code),
      ['name-reserved'],
    );
  });

  it('cannot be words that hold a sentence together, section kinds or units', () =>
    void check(`
      part left
      #    ^^^^ name-reserved
      part mm
      #    ^^ name-reserved
      part seam
      #    ^^^^ name-reserved
      part pi
      #    ^^ name-reserved
    `));
});

describe('Notes and comments', () => {
  it('a note belongs to the header or line right below it', () => {
    const [first, second] = readSpec(
      '## one\n## two\npiece a\n  ## three\n  raise\n  ## lost\n\n  dish\n## four\npiece b\n',
    ).sections;
    assert.deepEqual(
      first!.notes.map((note) => note.text),
      ['one', 'two'],
    );
    assert.deepEqual(
      first!.lines.map((line) => line.notes.map((note) => note.text)),
      [['three'], []],
    );
    assert.deepEqual(
      second!.notes.map((note) => note.text),
      ['four'],
    );
  });

  it('single lines stand anywhere and end no section', () => {
    const spec = readSpec('piece a\n  from p\nlet r = 3 mm\nuse "s.planish"\n  disc 90 mm\n');
    assert.deepEqual(problemsOf(spec), []);
    assert.equal(spec.sections[0]!.lines.length, 2);
    assert.equal(spec.sections[0]!.singles.length, 2);
  });
});

describe('The quick way of reading a phrase', () => {
  for (const [what, texts] of [
    ['random specs', randomSpec],
    ['near-specs', soup],
  ] as const)
    it(`gives what the grammar gives: ${runs(300)} ${what}`, () => {
      const cuts = new Set([Comma, Newline, Comment, Note, OddComment, OpenText, Unknown]);
      fc.assert(
        fc.property(texts, (text) => {
          let run: ReturnType<typeof tokensOf> = [];
          for (const token of [...tokensOf(text), undefined]) {
            if (token && !cuts.has(token.tokenType)) run.push(token);
            else if (run.length) {
              if (run.length < 200) assert.deepEqual(readPhrase(run), readPhraseByGrammar(run));
              run = [];
            }
          }
        }),
        { numRuns: runs(300) },
      );
    });
});
