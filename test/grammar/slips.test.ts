import assert from 'node:assert/strict';
import { readSpec } from '../../grammar/reader.ts';
import type { Problem } from '../../grammar/tree.ts';
import { problemsOf } from './support.ts';

/*
 * How smiths write who have not read the reference. Left what is written, right what Planish reads it as: `=` where it is understood
 * as it stands, else the line that the one finding offers, which is then without a mistake but for what is still missing of it.
 */
const SLIPS: Readonly<Record<string, string>> = {
  material: `
    16 ga mild steel                        | mild steel 16 ga
    16ga mild steel                         | mild steel 16ga
    16 gauge mild steel                     | mild steel 16 gauge
    16 gage mild steel                      | mild steel 16 gage
    16 ga. mild steel                       | mild steel 16 ga
    1.5 mm mild steel sheet                 | mild steel 1.5 mm
    1/8" mild steel wire                    | mild steel wire 1/8"
    1/8 in brass wire                       | brass wire 1/8 in
    7 oz veg-tan leather                    | veg-tan leather 7 oz
    7 ounces veg-tan leather                | veg-tan leather 7 ounces
    0.040 in brass, half hard               | brass 0.040 in, half hard
    mild steel 16 gauge                     | =
    mild steel 16 gage                      | =
    mild-steel 16 ga                        | mild steel 16 ga
    Mild Steel 16 GA                        | =
    ms 16 ga                                | =
    MS 1.5 mm                               | =
    cold rolled steel 16 ga                 | =
    cold-rolled steel 16 ga                 | cold rolled steel 16 ga
    crs 16 ga                               | =
    low-carbon steel 16 ga                  | low carbon steel 16 ga
    galv steel 18 ga                        | =
    stainless-steel 16 ga                   | stainless steel 16 ga
    nickel-silver 1 mm                      | nickel silver 1 mm
    german silver 1 mm                      | =
    veg tan leather 7 oz                    | veg-tan leather 7 oz
    vegetable tanned leather 7 oz           | vegetable-tanned leather 7 oz
    brass 1 mm, half-hard                   | brass 1 mm, half hard
    mild steel wire 1/8 in, zinc-plated     | mild steel wire 1/8 in, zinc plated
    mild steel, 16 ga                       | mild steel 16 ga
    mild steel sheet 16 ga                  | mild steel 16 ga
    mild steel plate 1.5 mm                 | mild steel 1.5 mm
    mild steel 1.5 mm thick                 | mild steel 1.5 mm
    mild steel thickness 1.5 mm             | mild steel 1.5 mm
    mild steel: 16 ga                       | mild steel 16 ga
    mild steel 1.5 millimeters              | =
    mild stel 16 ga                         | mild steel 16 ga
    sheet 1220 by 2440 mm                   | sheet 1220 x 2440 mm
    sheet size 1220 x 2440 mm               | sheet 1220 x 2440 mm
    sheet 4 by 8 feet                       | sheet 4 x 8 feet
    sheet 1220 x 2440 mm, price £58         | sheet 1220 x 2440 mm, price 58
    sheet 1220 x 2440 mm, price 58 GBP      | sheet 1220 x 2440 mm, price 58
    sheet 1220 x 2440 mm, price $58.00 each | sheet 1220 x 2440 mm, price 58.00
    coil 10 metres                          | =
  `,
  rivet: `
    brass 1/8 x 3/8 in, round head          | =
    brass 1/8 x 3/8 in, pan head            | =
    brass 1/8 x 3/8 in, flat head           | =
    brass 1/8 x 3/8 in, csk                 | =
    brass 1/8 x 3/8 in, round-head          | brass 1/8 x 3/8 in, round head
    brass 1/8 x 3/8 in, round headed        | brass 1/8 x 3/8 in, round head
    brass 1/8" x 3/8", domed                | =
    brass 1/8 in dia x 3/8 in, domed        | brass 1/8 in x 3/8 in, domed
    brass dia 1/8 x 3/8 in, domed           | brass 1/8 x 3/8 in, domed
    brass 1/8 in by 3/8 in, domed           | brass 1/8 in x 3/8 in, domed
    brass rivet 1/8 x 3/8 in, domed         | brass 1/8 x 3/8 in, domed
    mild-steel 1/8 x 3/8 in, domed          | mild steel 1/8 x 3/8 in, domed
    brass 1/8 x 3/8 in, domd                | brass 1/8 x 3/8 in, domed
    brass 1/8 x 3/8 in, tinners head        | =
    pack 100, price £14.50                  | pack 100, price 14.50
    pack 100, price 14.50 euros             | pack 100, price 14.50
  `,
  part: `
    price £18                               | price 18
    price $18.50                            | price 18.50
    price 18 each                           | price 18
    price: 18                               | price 18
    mass 28 grams                           | =
    width 25 mm                             | wide 25 mm
    1 pair                                  | make 2, mirrored
    qty 4                                   | make 4
  `,
  piece: `
    bottom edge rolled over edge-wire       | edge bottom rolled over edge-wire
    bottom edge rolled                      | edge bottom rolled
    edge bottom wired over edge-wire        | edge bottom rolled over edge-wire
    edge bottom rolled around edge-wire     | edge bottom rolled over edge-wire
    edge bottom rolled with edge-wire       | edge bottom rolled over edge-wire
    edge bottom rolled over edge-wire, outwards | edge bottom rolled over edge-wire, outward
    edge back hem 6 mm                      | edge back hemmed 6 mm
    edge back folded 6 mm                   | edge back hemmed 6 mm
    roll bottom edge over edge-wire         | edge bottom rolled over edge-wire
    hem top edge 6 mm                       | edge top hemmed 6 mm
    cut from skull-plate                    | from skull-plate
    made of skull-plate                     | from skull-plate
    make 1 pair                             | make 2, mirrored
    1 pair                                  | make 2, mirrored
    2 pairs                                 | make 4, mirrored
    a pair                                  | make 2, mirrored
    make 2, left and right                  | make 2, mirrored
    make left and right                     | make 2, mirrored
    qty 2                                   | make 2
    2 off                                   | make 2
    plate 120 by 80 mm                      | plate 120 x 80 mm
    plate 120 x 80 millimeters              | =
    plate 4 3/4 x 3 inches                  | =
    plate 4¾ x 3"                           | =
    rectangle 120 x 80 mm                   | plate 120 x 80 mm
    disk 90 mm                              | disc 90 mm
    disc dia 90 mm                          | disc 90 mm
    disc 90 mm dia                          | disc 90 mm
    disc ø90 mm                             | disc 90 mm
    disc diameter 90 mm                     | disc 90 mm
    circle 90 mm                            | disc 90 mm
    ellipse 120 x 80 mm                     | oval 120 x 80 mm
    bowl 210 mm, deep 60 mm                 | dome 210 mm, deep 60 mm
    dome 210 mm, depth 60 mm                | dome 210 mm, deep 60 mm
    dome 210 mm, 60 mm deep                 | dome 210 mm, deep 60 mm
    dome 210 mm dia, deep 60 mm             | dome 210 mm, deep 60 mm
    dome: 210 mm, deep: 60 mm               | dome 210 mm, deep 60 mm
    dome 210 mm, deep = 60 mm               | dome 210 mm, deep 60 mm
    dome 210 mm deep 60 mm                  | dome 210 mm, deep 60 mm
    oval-dome 235 x 195 mm, deep 150 mm     | oval dome 235 x 195 mm, deep 150 mm
    half-dome 248 x 204 mm, deep 90 mm      | half dome 248 x 204 mm, deep 90 mm
    cylinder 300 mm round, high 120 mm      | cylinder round 300 mm, high 120 mm
    cylinder 300 mm, high 120 mm            | cylinder round 300 mm, high 120 mm
    tube round 300 mm, high 120 mm          | cylinder round 300 mm, high 120 mm
    cylinder round 300 mm, height 120 mm    | cylinder round 300 mm, high 120 mm
    cylinder round 300 mm, 120 mm high      | cylinder round 300 mm, high 120 mm
    cone from 260 to 200 mm, high 220 mm    | cone round 260 to 200 mm, high 220 mm
    cone 260 to 200 mm, high 220 mm         | cone round 260 to 200 mm, high 220 mm
    cylinder round 300 mm, high 120 mm, wrap 180 degrees | =
    bend 30 mm from left, 90 degrees, radius 2 mm | =
    bend 90 deg 30 mm from left, radius 2 mm | bend 30 mm from left, 90 deg, radius 2 mm
    hole 5 mm dia, at 20 mm from left       | hole 5 mm, at 20 mm from left
    hole 5 mm at 20 mm from left            | hole 5 mm, at 20 mm from left
    drill 5 mm, at 20 mm from left          | hole 5 mm, at 20 mm from left
    4 holes 5 mm, at 20 mm from left        | holes 4 of 5 mm, at 20 mm from left
    4 holes of 5 mm, at 20 mm from left     | holes 4 of 5 mm, at 20 mm from left
    dished                                  | dish
    raised                                  | raise
    planished                               | planish
    hardened at 830 C, quenched in oil      | harden 830 C, quench oil
    harden at 830 C, oil quench             | harden 830 C, quench oil
    tempered to 290 C                       | temper 290 C
    trim along skull rim, wide 18 mm        | trim along skull.rim, wide 18 mm
    trim along the rim of skull, wide 18 mm | trim along skull.rim, wide 18 mm
    trim along skull.rim, width 18 mm       | trim along skull.rim, wide 18 mm
  `,
  seam: `
    joins ridge and skull                   | joins ridge, skull
    joins ridge + skull                     | joins ridge, skull
    joins ridge to skull                    | joins ridge, skull
    join ridge, skull                       | joins ridge, skull
    along skull rim                         | along skull.rim
    along the rim of skull                  | along skull.rim
    rivets small, spacing 30 mm, inset 8 mm | rivets small, every 30 mm, inset 8 mm
    rivets small, pitch 30 mm, inset 8 mm   | rivets small, every 30 mm, inset 8 mm
    rivets small, 30 mm apart, inset 8 mm   | rivets small, every 30 mm, inset 8 mm
    rivets small, every 30 mm, 8 mm inset   | rivets small, every 30 mm, inset 8 mm
    riveted small, every 30 mm, inset 8 mm  | rivets small, every 30 mm, inset 8 mm
    rivets small every 30 mm, inset 8 mm    | rivets small, every 30 mm, inset 8 mm
    welded                                  | weld
    sewn "waxed linen"                      | sew "waxed linen"
    soldered                                | solder
  `,
  hinge: `
    pin hinge-wire                          | over hinge-wire
    5 knuckles, wide 60 mm                  | knuckles 5, wide 60 mm
    knuckles 5, width 60 mm                 | knuckles 5, wide 60 mm
  `,
  finish: `
    polished                                | polish
    painted "harbour grey"                  | paint "harbour grey"
    paint harbour grey                      | paint "harbour grey"
    paint "harbour grey", 2 coats           | paint "harbour grey", coats 2
    sand to 240 grit                        | sand 240 grit
    sanded 120, 240 grit                    | sand 120, 240 grit
    oiled                                   | oil
    waxed                                   | wax
    blackened                               | blacken
    patina brown                            | patina "brown"
  `,
  build: `
    units inches                            | units in
    units metric                            | units mm
    due 2027/05/14                          | due 2027-05-14
    due 14.05.2027                          | due 2027-05-14
    due 05/14/2027                          | due 2027-05-14
    client "The Salt Gate"                  | for "The Salt Gate"
    for The Salt Gate                       | for "The Salt Gate"
    qty 6                                   | make 6
  `,
  shop: `
    rate £42                                | rate 42
    rate 42 per hour                        | rate 42
    currency £                              | currency GBP
    currency euros                          | currency EUR
    gauges swg                              | gauges UK
  `,
  wearer: `
    head circumference 585 mm               | =
    head-round 585 mm                       | head round 585 mm
    head width 158 mm                       | =
    waist circumference 900 mm              | =
    head round: 585 mm                      | head round 585 mm
  `,
};

interface Row {
  readonly kind: string;
  readonly written: string;
  readonly wanted: string;
}

const ROWS = Object.entries(SLIPS).flatMap(([kind, table]) =>
  table
    .trim()
    .split('\n')
    .map((row): Row => {
      const [written, wanted] = row.split(' | ').map((part) => part.trim());
      return { kind, written: written!, wanted: wanted! };
    }),
);

const textOf = (kind: string, line: string) => `${kind} ${kind === 'build' ? '"A job"' : 'one'}\n  ${line}\n`;

/** What is said of the one line. */
const said = (text: string): readonly Problem[] =>
  problemsOf(readSpec(text)).filter(({ code }) => code !== 'line-missing') as readonly Problem[];

function mended(text: string, { fixes }: Problem): string {
  assert.equal(fixes.length, 1, 'one fix');
  return [...fixes[0]!.edits]
    .sort((a, b) => b.from - a.from)
    .reduce((now, { from, to, text: put }) => now.slice(0, from) + put + now.slice(to), text);
}

describe("A smith's own ways of writing", () => {
  it('are many', () => assert.ok(ROWS.length >= 150, String(ROWS.length)));

  for (const { kind, written, wanted } of ROWS)
    it(`${kind}: ${written}`, () => {
      const text = textOf(kind, written);
      const found = said(text);
      if (wanted === '=') {
        assert.deepEqual(
          found.map(({ message }) => message),
          [],
        );
        return;
      }
      assert.equal(found.length, 1, found.map(({ message }) => message).join('\n') || 'nothing is said');
      const after = mended(text, found[0]!);
      assert.equal(after, textOf(kind, wanted));
      assert.deepEqual(
        said(after).filter(({ code }) => code !== 'line-unfinished'),
        [],
      );
    });

  it('leave what stands in quotes as it is', () => {
    const text = textOf('finish', 'painted "dia 5 mm, 2 pairs", 2 coats');
    assert.equal(mended(text, said(text)[0]!), textOf('finish', 'paint "dia 5 mm, 2 pairs", coats 2'));
  });

  it('of a line that is nonsense anyway change nothing', () => {
    for (const line of ['dia', 'pair of gloves for him', '£', 'edge wired rolled', 'mild-steel'])
      for (const { message } of said(textOf('piece', line))) assert.doesNotMatch(message, /: write “/, line);
  });
});

describe('Headers as smiths write them', () => {
  const saidOf = (text: string) => problemsOf(readSpec(text)).map(({ code, message }) => `${code}: ${message}`);

  it('of several things: each has a section, and what is said under it is read', () => {
    assert.deepEqual(saidOf('pieces cap\n  from plate\n  disc 90 mm\n'), [
      'unknown-word: “pieces” is no section: did you mean “piece”?',
    ]);
    assert.deepEqual(saidOf('piece cap\n  from plate\n  disc 90 mm\n\nrivets small\n  brass 1/8 x 3/8 in\n'), [
      'unknown-word: “rivets” is no section: did you mean “rivet”?',
    ]);
  });

  it('bare, or with their first line', () => {
    assert.deepEqual(saidOf('piece\n  from plate\n'), ['name-missing: A piece has a name: piece skull']);
    assert.deepEqual(saidOf('material plate mild steel 1.5 mm\n'), [
      'name-missing: A header holds one name and nothing else: this belongs in a line of its own.',
    ]);
  });

  it('with a word for a name that is none, and what that word is', () => {
    for (const [name, what] of [
      ['C', '“C” is a unit (degree Celsius)'],
      ['m', '“m” is a unit (metre)'],
      ['f', '“f” is a unit (degree Fahrenheit)'],
      ['seam', '“seam” begins a section'],
      ['left', '“left” stands between measures and places'],
      ['pi', '“pi” is a number'],
    ])
      assert.deepEqual(saidOf(`piece ${name}\n  from plate\n  disc 90 mm\n`), [
        `name-reserved: ${what}, so it cannot be a name: call it “${name}-piece”.`,
      ]);
  });

  it('closed lists are shown by their whole terms', () => {
    const [first] = saidOf('material plate\n  foo\n');
    assert.match(first!, /Its lines are mild steel, galvanised steel, stainless steel, /);
    assert.match(saidOf('piece cap\n  foo\n')[0]!, /dome, oval dome/);
  });
});
