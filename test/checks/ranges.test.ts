import assert from 'node:assert/strict';
import fc from 'fast-check';
import { isOver, isUnder, type Sure } from '../../server/checks/support/sure.ts';
import { problemsIn } from './specs.ts';

/* A figure with a range against a limit: cannot, is likely not to, may not, fits. */

const found = (spec: string, code: string) => {
  const problem = problemsIn(spec).find((each) => each.code === code);
  return problem && `${problem.severity}: ${problem.message}`;
};

describe('how sure a check is', () => {
  it('cannot at the kind ends, likely by the values, may at the unkind ends', () => {
    const has = { value: 5, low: 4, high: 6 };
    const sure = ([3.5, 4.5, 5.5, 6.5] as const).map((limit) => isOver(has, limit));
    assert.deepEqual(sure, ['cannot', 'likely', 'may', undefined]);
    assert.deepEqual(
      [6.5, 5.5, 4.5, 3.5].map((limit) => isUnder(has, limit)),
      ['cannot', 'likely', 'may', undefined],
    );
    assert.equal(isOver(5, { value: 4.5, low: 4, high: 5.5 }), 'likely');
  });

  it('is never less sure of a stricter limit', () => {
    const order: readonly (Sure | undefined)[] = [undefined, 'may', 'likely', 'cannot'];
    const any = fc.double({ min: -1e3, max: 1e3, noNaN: true });
    fc.assert(
      fc.property(any, fc.double({ min: 0, max: 50, noNaN: true }), any, any, (value, spread, one, other) => {
        const has = { value, low: value - spread, high: value + spread };
        const [strict, easy] = [Math.min(one, other), Math.max(one, other)];
        assert.ok(order.indexOf(isOver(has, strict)) >= order.indexOf(isOver(has, easy)));
      }),
    );
  });
});

describe('checks speak of the range', () => {
  it('a plate under the rulebook: ends at, or may end at, by its tolerance', () => {
    const plate = (thickness: string) =>
      found(
        `build "Knee"
  duty contact, rules book
rules book
  finished at least 1.6 mm
material plate
  mild steel ${thickness}
piece cop
  from plate
  plate 120 x 100 mm
`,
        'finished-under-rules',
      );
    assert.match(plate('1.5 mm ± 0.05 mm')!, /^error: “cop” ends at 1.5 mm/);
    assert.match(plate('1.58 mm ± 0.08 mm')!, /^warning: “cop” may end at 1.58 mm/);
    assert.match(plate('1.65 mm ± 0.08 mm')!, /^warning: “cop” may end at 1.57 mm/);
    assert.equal(plate('1.7 mm ± 0.08 mm'), undefined);
  });

  it('a rivet: is, may be, may be where the stack comes out thick', () => {
    const rivet = (length: string) =>
      found(
        `material plate
  mild steel 2 mm ± 0.1 mm
rivet small
  brass 4 x ${length}, domed
piece outer
  from plate
  plate 120 x 40 mm
seam join
  joins outer, outer
  along outer.top
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
        'rivet-too-short',
      )?.replace(/: needs.*/, '');
    assert.deepEqual(['6 mm', '8.3 mm', '8.6 mm', '12 mm'].map(rivet), [
      'warning: “small” is too short',
      'warning: “small” may be too short',
      'information: “small” may be too short',
      undefined,
    ]);
  });

  it('a blank over its sheet: is, or may be if the rim does not draw in', () => {
    const sheet = (size: string) =>
      found(
        `material plate
  mild steel 1.5 mm
  sheet ${size}
piece bowl
  from plate
  dome 200 mm, deep 60 mm
  dish
`,
        'blank-over-sheet',
      )?.slice(0, 40);
    assert.match(sheet('190 x 190 mm')!, /^error: The blank of “bowl” is/);
    assert.match(sheet('215 x 215 mm')!, /^warning: The blank of “bowl” may be/);
    assert.equal(sheet('240 x 240 mm'), undefined);
  });

  it('a punch: of the metal it is stated for it is known, of another the shear strengths are a range', () => {
    const punch = (upTo: string, thickness = '1.5 mm') =>
      found(
        `shop bench
  punch 6 mm, up to ${upTo}
material plate
  mild steel ${thickness}
piece brow
  from plate
  plate 160 x 60 mm
  hole 6 mm, at 20 mm from top
`,
        'punch-cannot',
      );
    assert.match(punch('mild steel 1.4 mm')!, /it cannot make/);
    assert.match(punch('mild steel 1.5 mm', '1.5 mm ± 0.1 mm')!, /it may not make/);
    assert.equal(punch('mild steel 1.5 mm'), undefined);
    assert.match(punch('brass 1.6 mm')!, /it may not make/);
    assert.match(punch('brass 0.8 mm')!, /it cannot make/);
  });

  it('a helm: weighs, or may weigh, more than is usual', () => {
    const helm = (density: string) =>
      found(
        `build "Bowl"
  duty stage
wearer guard
  head round 585 mm
material plate
  mild steel 2.4 mm ± 0.1 mm
  density ${density} g/cm3
piece bowl
  from plate
  fits guard head, liner 10 mm, ease 6 mm
  cylinder round 700 mm, high 230 mm, inside
`,
        'too-heavy',
      );
    assert.match(helm('8.5')!, /weighs/);
    assert.match(helm('7.6')!, /may weigh 3.09 kg/);
    assert.equal(helm('7'), undefined);
  });

  it('a pin: too tight surely, too tight perhaps, only thin', () => {
    const pin = (metal: string, wire: string) =>
      found(
        `material plate
  ${metal}
material pin-wire
  mild steel wire ${wire}
piece arm
  from plate
  plate 60 x 60 mm
hinge gate
  joins arm.right, arm.left
  knuckles 5, wide 60 mm
  over pin-wire
`,
        'pin-does-not-fit',
      )?.slice(0, 50);
    assert.match(pin('spring steel 2 mm, grade "1050"', '2 mm')!, /^error: Round a 2 mm pin/);
    assert.match(pin('mild steel 1.5 mm', '2 mm')!, /^information: A 2 mm pin is thin for 1.5 mm/);
    assert.equal(pin('mild steel 1.5 mm', '3 mm'), undefined);
  });
});

describe('sinks of heads', () => {
  const sunk = (thickness: string, head: string, peened: string) => `material plate
  mild steel ${thickness}
rivet small
  mild steel 4 x 10 mm, ${head}
piece outer
  from plate
  plate 140 x 40 mm
seam join
  joins outer, outer
  along outer.top
  rivets small, every 30 mm, inset 9 mm, ${peened}
`;

  it('go, or may go, through their plate', () => {
    const bought = (thickness: string) => found(sunk(thickness, 'countersunk', 'peened domed'), 'countersink-too-deep');
    assert.match(bought('1.5 mm')!, /^warning: .* goes through/);
    assert.match(bought('2.05 mm ± 0.1 mm')!, /^information: .* may go through “outer” \(1.95 mm\)/);
    assert.equal(bought('2.5 mm'), undefined);
    const made = (thickness: string) => found(sunk(thickness, 'domed', 'peened flush'), 'flush-in-thin-plate');
    assert.match(made('1.5 mm')!, /^warning: .* it goes right through/);
    assert.match(made('2.05 mm ± 0.1 mm')!, /^information: .* may go right through/);
  });
});
