import assert from 'node:assert/strict';
import { pattern } from '../../../grammar/pattern.ts';
import { sections } from '../../../grammar/vocabulary/index.ts';
import { problemsOf } from '../../../server/checks/run.ts';
import type { Finding } from '../../../server/model/values/figure.ts';
import { figuresOf, marked, modelFrom, PLATE } from '../support.ts';

/** What is wrong with the lines of a piece. */
const inPiece = (...lines: string[]): readonly Finding[] =>
  modelFrom(`${PLATE}piece shin\n  from plate\n  ${lines.join('\n  ')}\n`).file.examine();

const inMaterial = (...lines: string[]): readonly Finding[] =>
  modelFrom(`material stuff\n  ${lines.join('\n  ')}\n`).file.examine();

/** The line of a piece after the first fix of what is wrong with it. */
function mended(line: string): string {
  const finding = inPiece(line)[0]!;
  const [edit] = finding.fixes[0]!.edits;
  const { text } = edit!.place.section;
  const whole = text.slice(0, edit!.place.from) + edit!.text + text.slice(edit!.place.to);
  return whole.split('\n')[2]!.trim();
}

describe('what a number can be', () => {
  describe('is marked where it stands', () => {
    const table: [line: string, found: string[]][] = [
      ['cylinder round 412 m, high 100 mm', ['number-impossible “412 m”']],
      ['half dome 248000 x 204 mm, deep 160 mm', ['number-impossible “248000”']],
      ['cylinder round 300 mm, high 0.0001 mm', ['number-impossible “0.0001 mm”']],
      ['plate 92000 x 26000 mm', ['number-impossible “92000”', 'number-impossible “26000 mm”']],
      ['strip 10 m x 0.01 mm', ['number-impossible “0.01 mm”']],
      ['dome 200 mm, deep -5 mm', ['number-impossible “-5 mm”']],
      ['edge rim hemmed 0 mm', ['number-impossible “0 mm”']],
      ['cylinder round 300 mm, high 100 mm, wrap 361 deg', ['number-impossible “361 deg”']],
      ['make 0', ['number-impossible “0”']],
      ['make 1000000', ['count-too-large “1000000”']],
      ['make -2', ['number-impossible “-2”']],
      ['holes 1.5 of 4 mm, along rim', ['number-impossible “1.5”']],
      ['holes 4 of 40 m, along rim', ['number-impossible “40 m”']],
      ['like other, scaled 101', ['unknown-name “other”', 'number-impossible “101”']],
      ['disc 100 mm ± -1 mm', ['number-impossible “-1 mm”']],
      ['harden -300 C', ['number-impossible “-300 C”']],
      [`disc ${'9'.repeat(400)} mm`, [`number-impossible “${'9'.repeat(400)} mm”`]],
    ];
    for (const [line, found] of table) it(line.slice(0, 60), () => assert.deepEqual(marked(inPiece(line)), found));

    it('in stock too', () => {
      assert.deepEqual(marked(inMaterial('mild steel 1.5 m')), ['number-impossible “1.5 m”']);
      assert.deepEqual(marked(inMaterial('mild steel 1 mm', 'yield 0 MPa', 'coil 0 m')), [
        'number-impossible “0 MPa”',
        'number-impossible “0 m”',
      ]);
      assert.deepEqual(marked(inMaterial('mild steel 1 mm', 'sheet 20001 x 10 mm')), ['number-impossible “20001”']);
    });

    it('through a let, at the name', () => {
      const spec = `let far = 412 m\n${PLATE}piece shin\n  from plate\n  cylinder round far, high far / 4000\n`;
      assert.deepEqual(marked(modelFrom(spec).file.examine()), ['number-impossible “far”']);
    });

    it('and a let that is no measure of anything', () => {
      assert.deepEqual(marked(modelFrom(`let it = ${'9'.repeat(30)} mm\n`).file.examine()), [
        `number-impossible “${'9'.repeat(30)} mm”`,
      ]);
    });
  });

  describe('is wide enough for all that is made', () => {
    const clean = [
      'cylinder round 9.9 m, high 100 mm',
      'crease along middle, deep 0.01 mm',
      'edge rim rolled, hollow 3 mm, from -20 mm to -5 mm',
      'at -40 mm, round 300 mm',
      'lies over lid, gap 0 mm, from top to 20 mm',
      'harden 0 C',
      'hole 0.3 mm, at 0 mm from rim',
      'strip 10 m x 5 mm',
    ];
    for (const line of clean)
      it(line, () =>
        assert.deepEqual(
          marked(inPiece(line)).filter((each) => !each.startsWith('unknown-name')),
          [],
        ),
      );

    it('in stock', () => {
      assert.deepEqual(marked(inMaterial('brass 0.05 mm', 'sheet 20 m x 300 mm, have 0', 'coil 500 m, have 0')), []);
      assert.deepEqual(marked(inMaterial('mild steel 0 ga')), []);
      assert.deepEqual(marked(inMaterial('veg-tan leather 7 oz', 'hide 2.2 m2, price 0, have 40000')), []);
    });
  });

  it('says the bound and what was likely meant', () => {
    const [finding] = inPiece('cylinder round 412 m, high 100 mm');
    assert.equal(finding!.message, '412 m is longer than any piece (10 m): was mm meant?');
    assert.equal(mended('cylinder round 412 m, high 100 mm'), 'cylinder round 412 mm, high 100 mm');
  });

  it('tells a number as it stands, also where all that it shows would be noughts', () => {
    const message = (line: string) => inPiece(line)[0]!.message;
    assert.match(message(`disc 0.${'0'.repeat(30)}1 mm`), /^0\.0000000000…0001 mm is /);
    assert.match(message('disc 0.001 mm'), /^0\.001 mm is /);
  });

  it('mends a unit that reaches back where it stands', () => {
    assert.equal(mended('half dome 248 x 204 m, deep 160 mm'), 'half dome 248 x 204 mm, deep 160 mm');
    assert.equal(mended('cone round 300 to 200 m, high 100 mm'), 'cone round 300 to 200 mm, high 100 mm');
  });

  it('guesses no unit where another would not fit either', () => {
    assert.deepEqual(inPiece('disc 99999999 m')[0]!.fixes, []);
    assert.deepEqual(inPiece('disc 99999999 mm')[0]!.fixes, []);
  });

  it('has no row of more rivets than anybody drives', () => {
    const plate = (name: string) => `piece ${name}\n  from plate\n  strip 9000 x 80 mm\n`;
    const row = (every: string) =>
      `${PLATE}rivet small\n  brass 4 x 10 mm, domed\n${plate('one')}${plate('two')}seam row\n  joins one, two\n  along one.top\n  rivets small, every ${every}, inset 8 mm\n`;
    const found = (every: string) => problemsOf(modelFrom(row(every))).filter(({ code }) => code === 'count-too-large');
    assert.equal(found('1 mm').length, 0);
    assert.deepEqual(marked(found('0.01 mm')), ['count-too-large “0.01 mm”']);
    assert.ok(!figuresOf(row('0.01 mm')).has('row.rivets'));
    assert.ok(figuresOf(row('1 mm')).has('row.rivets'));
  });

  it('marks what is scaled away, step by step', () => {
    const steps = (scale: string) =>
      `${PLATE}piece one\n  from plate\n  disc 90 mm\npiece two\n  like one, scaled ${scale}\npiece three\n  like two, scaled ${scale}\n`;
    const found = (scale: string) => {
      const model = modelFrom(steps(scale));
      return problemsOf(model).flatMap(({ code, place }) =>
        code === 'number-impossible'
          ? [`${place.section.name?.text} ${place.section.text.slice(place.from, place.to)}`]
          : [],
      );
    };
    assert.deepEqual(found('10'), []);
    assert.deepEqual(found('100'), ['three 100']);
    assert.deepEqual(found('0.01'), ['three 0.01']);
    assert.ok(!figuresOf(steps('100')).has('three.area'));
  });

  it('leaves a measure that cannot be unread', () => {
    const names = (line: string) => [...figuresOf(`${PLATE}piece shin\n  from plate\n  ${line}\n`).keys()];
    assert.ok(names('disc 412 mm').includes('shin.area'));
    assert.ok(!names('disc 412 m').includes('shin.area'));
    assert.ok(!names('strip 10 m x 0.01 mm').includes('shin.area'));
  });
});

describe('the notation of ranges', () => {
  const slotOf = (notation: string) => {
    const element = pattern(notation).elements[0]!;
    return element.kind === 'slot' ? element.range : undefined;
  };

  it('is read', () => {
    assert.deepEqual(slotOf('<a:length>'), { sign: '> 0' });
    assert.deepEqual(slotOf('<a:length, ≥ 0>'), { sign: '≥ 0' });
    assert.deepEqual(slotOf('<a:length, ± coil>...'), { sign: '±', of: 'coil' });
    assert.deepEqual(slotOf('<a:number, 0.01 to 100>'), { sign: '> 0', between: [0.01, 100] });
    assert.deepEqual(slotOf('<a:temperature>'), { sign: '±' });
  });

  it('does not pass where it says nothing that is known', () => {
    assert.throws(() => pattern('<a:length, plank>'), /no range of a length/);
    assert.throws(() => pattern('<a:piece, ≥ 0>'), /no range of a piece/);
  });

  it('fits the example of every line', () => {
    for (const section of sections)
      for (const line of section.lines) {
        const header = section.named === 'text' ? `${section.kind} "one"` : `${section.kind} one`;
        const findings = modelFrom(`${header}\n  ${line.example}\n`).file.examine();
        assert.deepEqual(
          marked(findings).filter((each) => /^(number-impossible|count-too-large)/.test(each)),
          [],
          line.example,
        );
      }
  });
});
