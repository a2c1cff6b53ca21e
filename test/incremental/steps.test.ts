import assert from 'node:assert/strict';
import { kept } from '../../server/incremental/memo.ts';
import {
  atOnce,
  Dear,
  mapped,
  oneByOne,
  patiently,
  patientlyThrough,
  type Steps,
  Unfinished,
} from '../../server/incremental/steps.ts';

/** Work of so many stops, and how often it was begun and gone on with. */
function works<T>(stops: number, gives: () => T) {
  const count = { begun: 0, steps: 0 };
  const begin = function* (): Steps<T> {
    count.begun++;
    for (let i = 0; i < stops; i++) {
      count.steps++;
      yield undefined;
    }
    return gives();
  };
  return { count, begin };
}

function countStops<T>(steps: Steps<T>): { stops: number; value: T } {
  for (let stops = 0; ; stops++) {
    const step = steps.next();
    if (step.done) return { stops, value: step.value };
  }
}

describe('dear work', () => {
  it('is done at once for who has no patience, and once only', () => {
    const dear = new Dear<number>(4);
    const { count, begin } = works(5, () => 7);
    assert.equal(dear.get('a', begin), 7);
    assert.equal(dear.get('a', begin), 7);
    assert.deepEqual(count, { begun: 1, steps: 5 });
  });

  it('is done with its stops for who has patience, who then asks again', () => {
    const dear = new Dear<number>(4);
    const { begin } = works(5, () => 7);
    let asked = 0;
    const found = countStops(
      patiently(() => {
        asked++;
        return dear.get('a', begin) + 1;
      }),
    );
    assert.deepEqual([found, asked], [{ stops: 5, value: 8 }, 2]);
  });

  it('goes on where it was left, whoever goes on with it', () => {
    const dear = new Dear<number>(4);
    const { count, begin } = works(6, () => 7);
    const one = patiently(() => dear.get('a', begin));
    for (let i = 0; i < 4; i++) one.next();
    // Given up there; another asks, and two go on by turns.
    const other = patiently(() => dear.get('a', begin));
    other.next();
    one.next();
    assert.equal(countStops(other).value, 7);
    assert.equal(countStops(one).value, 7);
    assert.deepEqual(count, { begun: 1, steps: 6 });
  });

  it('leads out through memos, which are asked again and keep what they had', () => {
    const dear = new Dear<number>(4);
    const { begin } = works(3, () => 7);
    let other = 0;
    const beside = kept(() => ++other);
    const inner = kept(() => beside() + dear.get('a', begin));
    const outer = kept(() => inner() * 10);
    assert.deepEqual(countStops(patiently(() => outer())), { stops: 3, value: 80 });
    assert.equal(other, 1);
  });

  it('lets steps begin again, and is not waited for within other long work', () => {
    const [inner, outer] = [new Dear<number>(4), new Dear<number>(4)];
    const within = works(3, () => 1);
    const steps = () =>
      mapped(
        oneByOne([1, 2, 3], (each) =>
          outer.get(`${each}`, function* () {
            yield undefined;
            return each + inner.get('x', within.begin);
          }),
        ),
        (all) => all.join(),
      );
    assert.equal(countStops(patientlyThrough(steps)).value, '2,3,4');
    assert.equal(within.count.begun, 1);
  });

  it('that fails fails for who asked, and is begun anew by the next', () => {
    const dear = new Dear<number>(4);
    let fails = true;
    const { count, begin } = works(2, () => {
      if (fails) throw new Error('no shape');
      return 7;
    });
    assert.throws(() => atOnce(patiently(() => dear.get('a', begin))), /no shape/);
    assert.throws(() => dear.get('a', begin), /no shape/);
    fails = false;
    assert.equal(dear.get('a', begin), 7);
    assert.equal(count.begun, 3);
  });

  it('is not asked for for ever by who asks for more at once than is kept', () => {
    const dear = new Dear<string>(2);
    const all = ['a', 'b', 'c', 'd'];
    const ask = () => all.map((key) => dear.get(key, works(1, () => key).begin)).join('');
    assert.equal(atOnce(patiently(ask)), 'abcd');
    assert.equal(atOnce(patientlyThrough(() => mapped(oneByOne([1], ask), ([found]) => found))), 'abcd');
  });

  it('is told as no error of its own', () => {
    const dear = new Dear<number>(2);
    const steps = patientlyThrough(function* (): Steps<number> {
      yield undefined;
      try {
        return dear.get('a', works(2, () => 1).begin);
      } catch (error) {
        assert.ok(error instanceof Unfinished);
        throw error;
      }
    });
    assert.deepEqual(countStops(steps), { stops: 4, value: 1 });
  });
});
