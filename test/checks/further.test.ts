import assert from 'node:assert/strict';
import { checks } from '../../server/checks/all.generated.ts';
import { dutyTable } from '../../server/trade/usual/duty.ts';
import { practiceTable } from '../../server/trade/usual/practice.ts';
import { problemsIn } from './specs.ts';

/* What the checks of fit, seams, hinges and order say beyond their own examples. */

const all = (spec: string, code: string) =>
  problemsIn(spec)
    .filter((each) => each.code === code)
    .map((each) => `${each.severity}: ${each.message}`);
const one = (spec: string, code: string) => all(spec, code)[0];

describe('what is usual', () => {
  it('every row that a check names stands in a table, and every row is read, but for what forms and papers go by', () => {
    const rows = [...dutyTable.map(({ id }) => id), ...Object.keys(practiceTable)];
    const read = new Set(checks.flatMap((check) => check.usual ?? []));
    assert.deepEqual(
      [...read].filter((id) => !rows.includes(id)),
      [],
    );
    assert.deepEqual(
      rows.filter((id) => !read.has(id)),
      ['slide-gap', 'bench-radius'],
    );
  });

  const cop = (duty: string, rules = '') => `build "Cop"
  duty ${duty}
${rules}material plate
  mild steel 1 mm
wearer rider
  head round 585 mm
piece cop
  from plate
  fits rider head
  dome 186 mm, deep 40 mm, inside
  dish
`;

  it('goes by the duty and by what a piece fits', () => {
    assert.match(one(cop('contact'), 'crown-too-thin')!, /^warning.*for contact such steel is usually left at 1.4 mm/);
    assert.match(one(cop('stage').replace('head\n', 'knee\n'), 'crown-too-thin') ?? 'fits', /fits|0.7 mm/);
  });

  it('gives way to the rulebook', () => {
    const rules = 'rules book\n  finished at least 0.6 mm\n  padding at least 9 mm\n';
    assert.equal(one(cop('contact, rules book', rules), 'crown-too-thin'), undefined);
    assert.match(
      one(cop('contact, rules book', rules), 'clearance-small')!,
      /^warning.*“book” asks for 9 mm of padding/,
    );
    assert.match(one(cop('contact'), 'clearance-small')!, /^information.*for contact at least 15 mm is usual/);
  });
});

describe('pieces that are like each other', () => {
  const chain = (count: number, end = '  disc 90 mm\n') =>
    `material plate\n  mild steel 1 mm\npiece p0\n  from plate\n${end}` +
    Array.from({ length: count }, (_, i) => `piece p${i + 1}\n  like p${i}\n`).join('');

  it('are followed over a hundred, and those beyond are told so', () => {
    assert.deepEqual(all(chain(100), 'nested-too-deep'), []);
    assert.deepEqual(all(chain(102), 'nested-too-deep'), [
      'error: More than 100 pieces are made one like another before “p101”.',
      'error: More than 100 pieces are made one like another before “p102”.',
    ]);
  });

  it('in a circle are told so, by a few of their names', () => {
    const circles = (last: number) => all(chain(last, `  like p${last}\n`), 'definition-circle');
    assert.equal(circles(1)[0], 'error: “p0” takes its shape from itself: p0 → p1 → p0.');
    assert.equal(circles(20).length, 21);
    assert.match(circles(20)[0]!, /: p0 → p20 → p19 → p18 → p17 → 12 more → p4 → p3 → p2 → p1 → p0\.$/);
  });
});

describe('wire', () => {
  const wire = (coil: string, make = 1) => `build "Bands"
  make ${make}
material plate
  mild steel 1.2 mm
material edge-wire
  mild steel wire 3 mm
  coil ${coil}
piece brow
  from plate
  strip 420 x 60 mm
  edge bottom rolled over edge-wire
`;

  it('says how many coils to buy, and that one length is longer than a coil', () => {
    assert.match(
      one(wire('1 m, have 1', 6), 'wire-short')!,
      /takes 2520 mm of “edge-wire” and the rack holds 1000 mm: buy 2 coils/,
    );
    assert.match(
      one(wire('300 mm, have 20'), 'wire-short')!,
      /is 420 mm, and a coil holds 300 mm: it has to be joined/,
    );
    assert.equal(one(wire('1 m'), 'wire-short'), undefined);
  });
});

describe('seams', () => {
  const seam = (lines: string, piece = '') => `material plate
  mild steel 1.5 mm
rivet small
  brass 4 x 10 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
${piece}
piece inner
  from plate
  plate 120 x 40 mm
piece third
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  ${lines}
  rivets small, count 4, inset 9 mm, peened domed
`;

  it('do not run along what they do not join', () => {
    assert.match(one(seam('along third.top'), 'seam-pieces-not-touching')!, /^error.*does not join “third”/);
    assert.equal(one(seam('along inner.top'), 'seam-pieces-not-touching'), undefined);
  });

  it('want metal beyond the row: misses, breaks out, is near', () => {
    const overlap = (mm: number) => one(seam(`along outer.top\n  overlap ${mm} mm`), 'seam-pieces-not-touching');
    assert.match(overlap(8)!, /^error.*the rivets miss/);
    assert.match(overlap(10)!, /^error.*break out/);
    assert.match(overlap(14)!, /^warning: Only 5 mm of the other piece/);
    assert.equal(overlap(18), undefined);
  });

  it('take the holes that are there: none goes in, tight, fits, too large; another row is another row', () => {
    const holes = (size: string, inset = '9 mm') =>
      one(
        seam('along outer.top', `  holes row 4 of ${size}, along top, inset ${inset}`),
        'hole-does-not-fit-rivet',
      )?.replace(/ “.*/, '');
    assert.deepEqual(
      ['3.5 mm', '4 mm', '4.2 mm', '5.5 mm'].map((size) => holes(size)),
      [
        'error: 3.5 mm holes do not take',
        'information: 4 mm holes are tight for',
        undefined,
        'warning: 5.5 mm holes are too large for',
      ],
    );
    assert.equal(holes('5.5 mm', '20 mm'), undefined);
  });

  it('bends keep off their heads', () => {
    const bent = (inset: string) =>
      one(
        seam('along outer.left', '  bend 10 mm from left, 90 deg, radius 2 mm').replace('inset 9 mm', `inset ${inset}`),
        'hole-near-bend',
      );
    assert.match(bent('8 mm')!, /heads of “small” stand on the curve/);
    assert.equal(bent('25 mm'), undefined);
  });

  it('a roll that stops short of the lap is no roll across it, and a half dome’s rim meets its middle twice', () => {
    const half = (stretch: string) =>
      one(
        `material plate
  mild steel 1.2 mm
rivet small
  mild steel 3 x 6 mm, domed
piece skull
  from plate
  make 2, mirrored
  half dome 240 x 200 mm, deep 120 mm
  raise
  edge rim rolled, hollow 5 mm${stretch}
piece ridge
  from plate
  trim along skull.middle, wide 30 mm
seam line
  joins ridge, left skull
  along skull.middle
  rivets small, every 30 mm, inset 8 mm, peened domed
`,
        'roll-across-seam',
      );
    assert.match(half('')!, /rim is turned across “line”/);
    assert.match(half(', from 25 mm to 340 mm')!, /rim is turned across/);
    assert.equal(half(', from 25 mm to 310 mm'), undefined);
  });
});

describe('parts of a whole', () => {
  const part = (...forms: string[]) =>
    one(
      `material plate\n  mild steel 1.2 mm\n${forms.map((form, i) => `piece part-${i}\n  from plate\n  ${form}\n`).join('')}`,
      'part-missing',
    );

  it('are all made, or the one that is missing is told', () => {
    assert.match(part('half dome 240 x 200 mm, deep 90 mm')!, /is one half/);
    const form = 'form half\n  at 0 mm, round 600 mm, long 220 mm\n  at 80 mm, round 560 mm, long 200 mm';
    assert.match(part(form)!, /is one half/);
    assert.equal(part(form, form), undefined);
    assert.equal(part('half dome 240 x 200 mm, deep 90 mm\n  make 2, mirrored'), undefined);
    assert.equal(part('gore dome 210 mm, deep 105 mm, gores 12'), undefined);
    assert.match(part('gore dome 210 mm, deep 105 mm, gores 12\n  make 3')!, /gore 1 \(3 of 12\)/);
    const oval = 'gore dome 240 x 200 mm, deep 90 mm, gores 6';
    assert.match(part(oval)!, /gore 2 \(0 of 4\)\. Each shape wants a piece/);
    assert.equal(part(oval, `${oval}, gore 2`), undefined);
    assert.equal(part(oval, `${oval}, gore 6`), undefined);
  });
});

describe('fit', () => {
  it('a measure: a slip, an unusual body, both sexes unless one is said', () => {
    const head = (value: string, body = '') => one(`wearer w\n${body}  head round ${value}\n`, 'measure-unlikely');
    assert.match(head('58.5 mm')!, /^warning.*slip/);
    assert.match(head('630 mm')!, /^information.*ninety-eight in a hundred people have 521 mm to 614.2 mm/);
    assert.equal(head('525 mm'), undefined);
    assert.match(head('525 mm', '  body man\n')!, /^information.*men have 538 mm/);
  });

  it('a slot for each eye is judged as a pair', () => {
    const visor = (slots: string) =>
      all(
        `build "Visor"
  duty contact
wearer fighter
  head round 592 mm
  eye distance 63 mm
material plate
  mild steel 1.5 mm
piece visor
  from plate
  fits fighter face, liner 12 mm, ease 20 mm
  cylinder round 800 mm, high 160 mm, wrap 200 deg, inside
${slots}`,
        'view-too-narrow',
      );
    const eyes = (wide: number, high: number) =>
      `  slot left-eye ${wide} x ${high} mm, at 60 mm from top and 40 mm left of middle\n  slot right-eye ${wide} x ${high} mm, at 60 mm from top and 40 mm right of middle\n`;
    assert.match(visor(eyes(52, 14)).join(), /Through these slots.*seen across/);
    assert.deepEqual(visor(eyes(110, 14)), []);
    // A row of breathing slots below takes nothing from it.
    assert.deepEqual(visor(`${eyes(110, 14)}  slot breath 30 x 3 mm, at 120 mm from top\n`), []);
    assert.match(visor(eyes(110, 6)).join(), /seen up and down/);
  });
});

describe('order and heat', () => {
  it('texture after the fitting adds curve', () => {
    const spec = (chain: string) => `material plate
  mild steel 1.2 mm
piece cop
  from plate
  dome 120 mm, deep 20 mm
  dish
  texture
order bench
  first ${chain}
`;
    assert.match(one(spec('cop fit, then cop texture'), 'texture-will-curve')!, /^warning.*already fitted/);
    assert.equal(one(spec('cop texture, then cop fit'), 'texture-will-curve'), undefined);
  });

  it('leather in a weld, or hung before an anneal', () => {
    const spec = (joining: string, chain: string) => `material plate
  mild steel 1.2 mm
material hide
  veg-tan leather 7 oz
piece brow
  from plate
  strip 300 x 40 mm
piece flap
  from hide
  plate 80 x 90 mm
seam hang
  joins brow, flap
  ${joining}
order bench
  first ${chain}
`;
    assert.match(
      one(spec('weld', 'brow cut, then brow fit'), 'leather-before-heat')!,
      /“flap” lies in this seam, and it is welded/,
    );
    assert.match(
      one(spec('lace', 'hang, then brow anneal'), 'leather-before-heat')!,
      /by then “hang” has hung leather/,
    );
    assert.equal(one(spec('lace', 'brow anneal, then hang'), 'leather-before-heat'), undefined);
  });

  it('a finish wants a seal on bare steel, not on brass or over paint', () => {
    const spec = (metal: string, steps: string) => `material plate
  ${metal} 1.2 mm
piece brow
  from plate
  strip 300 x 40 mm
finish plain
  on brow
  ${steps}
`;
    assert.match(one(spec('mild steel', 'polish'), 'seal-missing')!, /leaves bare steel/);
    assert.equal(one(spec('brass', 'polish'), 'seal-missing'), undefined);
    assert.match(one(spec('brass', 'patina "green"'), 'seal-missing')!, /ends on the patina/);
    assert.equal(one(spec('mild steel', 'prime\n  paint "grey"'), 'seal-missing'), undefined);
  });
});

describe('turned edges and hinges', () => {
  it('a flange round a disc gathers by w ÷ (R + w)', () => {
    const spec = (distance: number) => `material plate
  mild steel 1 mm
piece lid
  from plate
  disc 200 mm
  bend ${distance} mm from rim, 90 deg, radius 1 mm
`;
    assert.match(one(spec(10), 'shrink-will-fold')!, /has to gather by 10 %/);
    assert.equal(one(spec(4), 'shrink-will-fold'), undefined);
  });

  it('a flute: past upright, stretched too far, too tight', () => {
    const spec = (metal: string, deep: number, wide: number) =>
      one(
        `material plate
  ${metal}
piece hand
  from plate
  plate 120 x 90 mm
  flute 3, deep ${deep} mm, wide ${wide} mm
`,
        'flute-too-deep',
      );
    assert.match(spec('mild steel 1.2 mm', 10, 16)!, /stretch the metal/);
    assert.match(spec('spring steel 1.5 mm, grade "1050"', 2, 4)!, /^error.*too tight/);
    assert.equal(spec('mild steel 1.2 mm', 3, 16), undefined);
  });

  it('knuckles: no room, wider than the leaf, even', () => {
    const spec = (knuckles: number, wide: number) =>
      one(
        `material plate
  mild steel 1.2 mm
material pin-wire
  mild steel wire 3 mm
piece arm
  from plate
  plate 60 x 60 mm
hinge gate
  joins arm.right, arm.left
  knuckles ${knuckles}, wide ${wide} mm
  over pin-wire
`,
        'knuckles-uneven',
      )?.slice(0, 30);
    assert.match(spec(90, 5)!, /^error: 90 knuckles/);
    assert.match(spec(5, 80)!, /^warning: The hinge is 80 mm/);
    assert.match(spec(4, 60)!, /^information: With 4/);
    assert.equal(spec(5, 60), undefined);
  });
});

describe('prices', () => {
  it('a coil without one is said where other stock has one', () => {
    const spec = (coil: string) => `build "Bands"
material plate
  mild steel 1.2 mm
  sheet 500 x 1000 mm, price 20.00
material edge-wire
  mild steel wire 3 mm
  coil ${coil}
piece brow
  from plate
  strip 420 x 60 mm
  edge bottom rolled over edge-wire
`;
    assert.match(one(spec('1 m'), 'price-missing')!, /This coil of “edge-wire” has no price/);
    assert.equal(one(spec('1 m, price 2.00'), 'price-missing'), undefined);
  });
});
