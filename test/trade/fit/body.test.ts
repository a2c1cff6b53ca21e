import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { wordLists } from '../../../grammar/vocabulary/lists.ts';
import { knownMeasures, measureAt, percentileOf } from '../../../server/trade/fit/body.ts';
import { bodyRows, RANKS } from '../../../server/trade/fit/body-data.ts';
import {
  clearanceAcross,
  clearanceBetween,
  clearanceRound,
  enlargedGirth,
  insideRound,
  passRoom,
} from '../../../server/trade/fit/clearance.ts';
import { estimated } from '../../../server/trade/fit/estimate.ts';
import { anyNumber, near, resultsIn, soundResult } from '../numbers.ts';

const measure = fc.constantFrom(...knownMeasures);
const body = fc.constantFrom('man' as const, 'woman' as const);

describe('how large people are', () => {
  it('is told by the words of the language', () => {
    const words = new Set(wordLists['body measure'].map(({ word }) => word));
    for (const known of knownMeasures) assert.ok(words.has(known), known);
  });

  it('rises from rank to rank, in millimetres', () => {
    for (const [name, row] of Object.entries(bodyRows)) {
      for (const sizes of [row.man, row.woman]) {
        assert.equal(sizes.length, RANKS.length, name);
        assert.ok(
          sizes.every((size, i) => i === 0 || size > sizes[i - 1]!),
          name,
        );
        assert.ok(sizes[0]! > 50 && sizes[0]! < 2000, `${name}: ${sizes[0]} mm`);
      }
    }
  });

  it('comes back to where it started', () => {
    fc.assert(
      fc.property(measure, body, fc.double({ min: 1, max: 99, noNaN: true }), (name, who, percent) => {
        near(percentileOf(name, measureAt(name, percent, who)!.value, who)!.value, percent, 1e-9);
      }),
    );
  });

  it('is never smaller for a larger body', () => {
    fc.assert(
      fc.property(
        measure,
        fc.constantFrom('man' as const, 'woman' as const, undefined),
        fc.double({ min: 10, max: 2000, noNaN: true }),
        fc.double({ min: 0, max: 500, noNaN: true }),
        (name, who, size, more) => {
          const one = percentileOf(name, size, who)!;
          const other = percentileOf(name, size + more, who)!;
          assert.ok(one.value <= other.value + 1e-9);
          assert.ok(one.value >= 0 && other.value <= 100);
        },
      ),
    );
  });

  it('is a range beyond the table, and where nobody said who', () => {
    const giant = percentileOf('head round', 700, 'man')!;
    assert.deepEqual([giant.low, giant.high], [99, 100]);
    const small = percentileOf('head round', 400, 'woman')!;
    assert.deepEqual([small.low, small.high], [0, 1]);
    const either = percentileOf('head round', 585)!;
    assert.equal(either.low, percentileOf('head round', 585, 'man')!.value);
    assert.equal(either.high, percentileOf('head round', 585, 'woman')!.value);
    assert.match(either.note ?? '', /body man/);
  });

  it('is not known of every measure', () => {
    for (const name of ['knee round', 'constructor', '']) {
      assert.equal(percentileOf(name, 300), undefined);
      assert.equal(measureAt(name, 50, 'man'), undefined);
    }
    assert.equal(measureAt('head round', 0.5, 'man'), undefined);
    assert.equal(measureAt('head round', 99.5, 'man'), undefined);
    assert.equal(measureAt('head round', Number.NaN, 'man'), undefined);
  });
});

describe('clearance', () => {
  const size = fc.double({ min: 100, max: 1500, noNaN: true });
  const gap = fc.double({ min: 0, max: 40, noNaN: true });

  it('is the ease that a girth was enlarged by', () => {
    fc.assert(
      fc.property(size, gap, gap, (round, liner, ease) => {
        const inside = enlargedGirth({ girth: round, gap: liner + ease }).value;
        assert.ok(Math.abs(clearanceRound({ inside, body: round, liner }).value - ease) < 1e-9);
        const across = clearanceAcross({ inside: round + 2 * (liner + ease), body: round, liner });
        assert.ok(Math.abs(across.value - ease) < 1e-9);
      }),
    );
  });

  it('is below nothing where it does not go on', () => {
    assert.ok(clearanceRound({ inside: 600, body: 601, liner: 0 }).value < 0);
    assert.equal(passRoom({ opening: 560, part: 585, what: 'head' }).value, -25);
  });
});

describe('room between two heights', () => {
  it('is that of the tightest, with the body straight between', () => {
    // A form with a waist: 300 at both ends, 240 in the middle; the body runs from 200 to 260.
    const at = (height: number) => 240 + 60 * Math.abs(height / 50 - 1);
    const found = clearanceBetween({ height: 0, body: 200, liner: 2 }, { height: 100, body: 260, liner: 4 }, at)!;
    near(found.height, 50, 1e-9);
    near(found.room.value, (240 - 230) / (2 * Math.PI) - 3, 1e-9);
  });
});

describe('a measure that is missing', () => {
  const nothing = () => undefined;
  it('is the middle of what people have, with nine in ten of them between its ends', () => {
    for (const words of knownMeasures) {
      const found = estimated(words, 'man', nothing)!;
      near(found.value, measureAt(words, 50, 'man')!.value, 1e-9);
      assert.ok(found.low! < found.value && found.value < found.high!, words);
      assert.match(found.note!, /Estimated, not measured/);
    }
    assert.equal(estimated('knee round', 'man', nothing), undefined);
  });

  it('goes with what is known of the same head', () => {
    const head = (round: number) => (words: string) => (words === 'head round' ? round : undefined);
    const [small, large] = [540, 610].map((round) => estimated('head length', 'man', head(round))!);
    near(large!.value - small!.value, 0.36 * 70, 1e-9);
    // What is left is less than what people differ by anyway.
    assert.ok(
      large!.high! - large!.low! <
        measureAt('head length', 95, 'man')!.value - measureAt('head length', 5, 'man')!.value,
    );
  });

  it('stands between men and women where nobody says which, and covers both', () => {
    fc.assert(
      fc.property(measure, (words) => {
        const [man, woman, either] = ([`man`, 'woman', undefined] as const).map(
          (who) => estimated(words, who, nothing)!,
        );
        near(either!.value, (man!.value + woman!.value) / 2, 1e-9);
        near(either!.low!, Math.min(man!.low!, woman!.low!), 1e-9);
        near(either!.high!, Math.max(man!.high!, woman!.high!), 1e-9);
      }),
    );
  });
});

describe('any number at all', () => {
  it('leaves no exception and no number without its reason', () => {
    fc.assert(
      fc.property(anyNumber, anyNumber, anyNumber, measure, (a, b, c, name) => {
        const made = [
          percentileOf(name, a),
          percentileOf(name, a, 'man'),
          measureAt(name, a, 'woman'),
          clearanceRound({ inside: a, body: b, liner: c }),
          clearanceAcross({ inside: a, body: b, liner: c }),
          passRoom({ opening: a, part: b, what: 'hand' }),
          insideRound({ middle: a, thickness: b, roll: c }),
          estimated('head length', 'man', () => a),
          estimated('head round', undefined, () => b),
          ...['crown height', 'head round', 'knee round'].map((words) => estimated(words, 'woman', () => undefined)),
        ];
        for (const figure of resultsIn(made)) soundResult(figure);
      }),
    );
  });
});

describe('the ends of what is known of a measure', () => {
  const sizes = (name: string) => [1, 5, 25, 50, 75, 95, 99].map((rank) => measureAt(name, rank, 'man')!.value);

  it('are part of it: the first and the last rank have their size', () => {
    const all = sizes('head round');
    assert.equal(percentileOf('head round', all[0]!, 'man')!.value, 1);
    assert.equal(percentileOf('head round', all[6]!, 'man')!.value, 99);
    assert.equal(measureAt('head round', 99, 'man')!.value, all[6]);
    assert.equal(measureAt('head round', 99.5, 'man'), undefined);
  });

  it('a size of a rank has that rank, with no range', () => {
    const found = percentileOf('head round', sizes('head round')[3]!, 'man')!;
    assert.deepEqual([found.value, found.low, found.high], [50, 50, 50]);
  });

  it('a size that is no number has no rank', () => {
    const found = percentileOf('head round', Number.NaN, 'man')!;
    assert.ok(Number.isNaN(found.value) && found.low === undefined);
  });

  it('of nobody in particular, men and women are both named', () => {
    assert.match(percentileOf('head round', 585)!.note!, /^Of men [\d.]+ %, of women [\d.]+ %: write “body man”/);
  });
});
