import assert from 'node:assert/strict';
import { MOST_ROWS } from '../../../grammar/limits.ts';
import { problemsOf } from '../../../server/checks/run.ts';
import { contains, crossingOf, distanceTo, signedArea } from '../../../server/geometry/outline/measure.ts';
import type { Path } from '../../../server/geometry/outline/path.ts';
import type { Model } from '../../../server/model/spec.ts';
import { homeOf } from '../../../server/model/spec.ts';
import { boxOf } from '../../../server/output/documents/patterns/paths.ts';
import type { Pattern } from '../../../server/output/documents/patterns/pattern.ts';
import { patternsInSteps, patternsOf } from '../../../server/output/documents/patterns/patterns-of.ts';
import { sample, specOf } from '../../samples/support.ts';

const patternIn = (model: Model, piece: string): Pattern =>
  patternsOf(model, { date: '2027-03-01', problems: problemsOf(model) }).patterns.find((each) => each.piece === piece)!;

const middles = ({ lines }: Pattern, ...kinds: string[]) =>
  lines
    .filter(({ kind }) => kinds.includes(kind))
    .map(({ path }) => {
      const { left, right, bottom, top } = boxOf([path]);
      return { x: (left + right) / 2, y: (bottom + top) / 2 };
    });

const outlineOf = ({ lines }: Pattern) => lines.find(({ kind }) => kind === 'outline')!.path;

describe('places on a pattern', () => {
  it('of a strip cut curved: its row runs down its middle, along the curve', () => {
    const binding = patternIn(sample('breastplate/breastplate.planish'), 'binding');
    const rivets = middles(binding, 'rivet', 'hole');
    assert.ok(rivets.length > 15);
    const outline = outlineOf(binding);
    // 16 mm wide, the row 8 mm in from the edge that the strip follows.
    for (const at of rivets) assert.ok(Math.abs(distanceTo(outline, at) - 8) < 0.06, `${distanceTo(outline, at)}`);
    const { top, bottom } = boxOf([outline]);
    assert.ok(top - bottom > 25, 'and is drawn as curved as it is cut');
    assert.ok(signedArea(outline) > 0);
  });

  it('of two thousand bends: as many as are read of a section are drawn, each where it is said, and others may go first between them', () => {
    // The header, its stock and its plate are three of the rows.
    const count = MOST_ROWS - 3;
    const bends = Array.from({ length: 2000 }, (_, i) => `  bend ${i + 1} mm from left, 1 deg, radius 2 mm\n`).join('');
    const model = specOf({
      'bent.planish': `material plate\n  mild steel 1.2 mm\npiece bent\n  from plate\n  plate 5000 x 100 mm\n${bends}`,
    });
    const drawing = patternsInSteps(model, { date: '2027-03-01', problems: [] });
    let stops = 0;
    let step = drawing.next();
    for (; !step.done; step = drawing.next()) stops++;
    const bent = step.value.patterns[0]!;
    const { left } = boxOf([outlineOf(bent)]);
    const drawn = middles(bent, 'bend').map(({ x }) => x - left);
    assert.equal(drawn.length, count);
    for (const [i, at] of drawn.entries()) assert.ok(Math.abs(at - (i + 1)) < 1e-6, `bend ${i + 1} at ${at}`);
    assert.ok(stops > count, `${stops} stops`);
  });

  it('a comb shows where it is folded: feet, both ends of the turn, the crest', () => {
    const comb = patternIn(
      specOf({
        'comb.planish': `material plate
  mild steel 1.2 mm
piece skull
  from plate
  half dome 300 x 240 mm, deep 120 mm
  dish
piece ridge
  from plate
  comb along skull.middle, high 25 mm, foot 16 mm, radius 3 mm
`,
      }),
      'ridge',
    );
    const low = boxOf([outlineOf(comb)]).bottom;
    const wide = 2 * 16 + 2 * 22 + Math.PI * 3;
    const folds = middles(comb, 'bend').map(({ y }) => y - low);
    const wanted = [16, 38, wide / 2, wide - 38, wide - 16];
    assert.equal(folds.length, wanted.length);
    for (const [i, at] of wanted.entries()) assert.ok(Math.abs(folds[i]! - at) < 1e-6, `${folds}`);
  });

  it('of a row round a rim with corners keep their distance from every side', () => {
    const badge = patternIn(sample('collar/collar.planish'), 'badge');
    const rivets = middles(badge, 'rivet', 'hole');
    assert.ok(rivets.length > 8);
    for (const at of rivets) assert.ok(distanceTo(outlineOf(badge), at) > 6.98, JSON.stringify(at));
  });

  it('of a cone laid flat by numbers lie as on the cone laid flat by its formula', () => {
    const lines = `  holes row 6 of 4 mm, along top, inset 12 mm
  holes side 3 of 4 mm, along left, inset 9 mm
  hole eye 5 mm, at 40 mm from bottom and 30 mm left of middle, before forming
  hole tab 5 mm, at 25 mm from top and 18 mm from right
`;
    const model = specOf({
      'a.planish': `planish 1
material plate
  mild steel 1.5 mm
piece formula
  from plate
  cone round 560 to 700 mm, high 120 mm, wrap 180 deg
${lines}piece numbers
  from plate
  form wrap 180 deg
  at 0 mm, round 700 mm
  at 120 mm, round 560 mm
${lines}`,
    });
    const [formula, numbers] = ['formula', 'numbers'].map((name) => patternIn(model, name));
    for (const kind of ['hole', 'later', 'opening']) {
      const [one, other] = [formula!, numbers!].map((pattern) => middles(pattern, kind));
      assert.equal(one!.length, other!.length, kind);
      for (let i = 0; i < one!.length; i++)
        for (let j = 0; j < i; j++) {
          const [a, b] = [one!, other!].map((all) => Math.hypot(all[i]!.x - all[j]!.x, all[i]!.y - all[j]!.y));
          assert.ok(Math.abs(a! - b!) < 0.15, `${kind} ${i} to ${j}: ${a} and ${b}`);
        }
    }
    assert.deepEqual([middles(formula!, 'hole').length, middles(formula!, 'later').length], [1, 10]);
  });

  it('of an opening in a dished form: its rim is carried through, as large as the metal there is drawn', () => {
    const model = specOf({
      'a.planish': `planish 1
material plate
  mild steel 1.5 mm
piece half
  from plate
  half dome 240 x 180 mm, deep 150 mm
  raise
  slot sight 58 x 11 mm, at 62 mm from rim and 45 mm from middle, before forming
  hole vent 30 mm, at 25 mm from rim and 60 mm from middle
  hole pin 3 mm, at 90 mm from rim and 60 mm from middle, before forming
`,
    });
    const half = patternIn(model, 'half');
    const rims = half.lines.filter(({ kind }) => kind === 'opening' || kind === 'later').map(({ path }) => path);
    assert.equal(rims.length, 2);
    for (const [i, plain] of [47 * 11 + (Math.PI / 4) * 121, (Math.PI / 4) * 900].entries()) {
      const path = rims[i]!;
      // Raised metal is gathered: the blank is larger there than the piece, the more so toward the rim.
      const share = Math.abs(signedArea(path)) / plain;
      assert.ok(share > 1.005 && share < 1.6, `${share}`);
      assert.ok(path.vertices.every((at) => contains(outlineOf(half), at)));
      assert.ok(path.vertices.length > 12);
    }
    // A drill hole stays a circle.
    const pin = half.lines.find(({ kind }) => kind === 'hole')!.path;
    assert.deepEqual(
      pin.vertices.map(({ bulge }) => bulge),
      [1, 1],
    );
    assert.ok(half.notes.some((note) => /guide/.test(note)));
  });

  it('that the form has not are told, and half a place is no place', () => {
    const model = specOf({
      'a.planish': `planish 1
material plate
  mild steel 1.5 mm
piece half
  from plate
  half dome 240 x 180 mm, deep 150 mm
  raise
  hole far 5 mm, at 900 mm from rim
  hole none 5 mm, at
  hole odd 5 mm, at 20 mm from rim and
`,
    });
    const { notes } = patternIn(model, 'half');
    assert.ok(notes.includes('Not drawn: far Ø 5 mm, after forming.'), notes.join('\n'));
  });

  it('of a roll on a mirrored bay: both bays are cut with what it needs', () => {
    const breast = sample('breastplate/breastplate.planish').pieces()[0]!;
    assert.deepEqual(
      breast.blank()!.allowances.map(({ edge }) => edge),
      ['neck', 'armhole', 'armhole mirrored'],
    );
    const { left, right } = boxOf([outlineOf(patternIn(homeOf(breast), 'breast'))]);
    const { vertices } = outlineOf(patternIn(homeOf(breast), 'breast'));
    const middle = (left + right) / 2;
    const high = Math.max(...vertices.map(({ y }) => y));
    const [l, r] = [-1, 1].map((side) =>
      Math.max(...vertices.filter(({ y }) => y > high - 120).map(({ x }) => side * (x - middle))),
    );
    assert.ok(Math.abs(l! - r!) < 0.2, `${l} to the left, ${r} to the right`);
  });

  it('of breaths: every hole, in its row, at its pitch, also where the form is laid flat by numbers', () => {
    const spec = (form: string, at: string) =>
      specOf({
        'a.planish': `planish 1
material plate
  mild steel 1.5 mm
piece cheek
  from plate
  ${form}
  breaths cheek 11 of 4 mm, rows 3, pitch 12 mm, at ${at}
  breaths other 6 of 4 mm, rows 2, at ${at}
`,
      });
    const flat = patternIn(spec('plate 120 x 80 mm', '40 mm from bottom and 50 mm from left'), 'cheek');
    // Eleven in three rows: four, four and three, the three in the middle.
    assert.deepEqual(
      middles(flat, 'hole')
        .slice(0, 11)
        .map(({ x, y }) => [Math.round(x), Math.round(y)]),
      [
        [32, 52],
        [44, 52],
        [56, 52],
        [68, 52],
        [32, 40],
        [44, 40],
        [56, 40],
        [68, 40],
        [38, 28],
        [50, 28],
        [62, 28],
      ],
    );
    assert.ok(
      flat.notes.some((note) =>
        /other 6 × Ø 4 mm: only their middle is marked, since the spec gives no pitch/.test(note),
      ),
    );
    const half = patternIn(
      spec('half dome 240 x 180 mm, deep 150 mm', '60 mm from rim and 70 mm from middle'),
      'cheek',
    );
    const holes = middles(half, 'later');
    assert.equal(holes.length, 12);
    for (let i = 1; i < 4; i++) {
      const apart = Math.hypot(holes[i]!.x - holes[i - 1]!.x, holes[i]!.y - holes[i - 1]!.y);
      assert.ok(apart > 9 && apart < 16, `${apart}`);
    }
  });

  it('of straps: a pattern each, the slot in the fold, the holes clear of it', () => {
    const model = sample('greave/greave.planish');
    const strap = patternIn(model, 'calf, strap');
    assert.deepEqual([strap.count, strap.turned, strap.size], [4, 0, '240 × 20 mm']);
    const { left, right, bottom, top } = boxOf([outlineOf(strap)]);
    assert.deepEqual([right - left, top - bottom], [240, 20]);
    // Turned by two widths; five holes a width apart, the first two widths from the tip.
    assert.deepEqual(
      middles(strap, 'hole').map(({ x }) => Math.round(x * 1e6) / 1e6),
      [200, 180, 160, 140, 120],
    );
    assert.deepEqual(middles(strap, 'opening'), [{ x: 40, y: 10 }]);
    assert.ok(strap.notes.some((note) => note.includes('no source')));
    assert.equal(patternIn(model, 'greave').lines.filter(({ kind }) => kind === 'fold').length, 1);
    const short = specOf({
      'a.planish': `planish 1
material strap-leather
  veg-tan leather 8 oz
part buckle-25
  wide 25 mm
piece p
  from strap-leather
  plate 90 x 90 mm
seam s
  joins p
  strap strap-leather, wide 25 mm, long 100 mm, buckle buckle-25
  strap strap-leather, wide 25 mm
  strap nothing, wide 25 mm, long 90 mm
`,
    });
    const { patterns, missing } = patternsOf(short, { date: '2027-03-01', problems: [] });
    assert.match(patterns.find(({ piece }) => piece === 's, strap 1')!.notes[0]!, /Too short/);
    assert.deepEqual(
      missing.map(({ piece }) => piece),
      ['s, strap 2', 's, strap 3'],
    );
  });

  it('of a hinge: the same letter at both edges, after those of the seams', () => {
    const model = specOf({
      'a.planish': `planish 1
material plate
  mild steel 1.5 mm
material pin
  mild steel wire 3 mm
piece door
  from plate
  plate 120 x 80 mm
piece frame
  from plate
  plate 120 x 60 mm
seam edge
  joins door
  weld
hinge swing
  joins door.top, frame.bottom
  knuckles 5, wide 40 mm
  over pin
`,
    });
    for (const [name, note] of [
      ['door', 'Hinge B, swing: top to frame.bottom.'],
      ['frame', 'Hinge B, swing: bottom to door.top.'],
    ] as const) {
      const { labels, notes } = patternIn(model, name);
      assert.ok(labels.some(({ what, text }) => what === 'seam' && text === 'B'));
      assert.ok(notes.includes(note), notes.join('\n'));
    }
  });

  it('on an outline, measured from the sides of the box round it and from its middle', () => {
    const fan = (hole: string) =>
      specOf({
        'a.planish': `planish 1
material plate
  mild steel 1.5 mm
piece fan
  from plate
  outline
  to 100 mm right and 0 mm up
  to 100 mm right and 40 mm up
  to 60 mm right and 80 mm up
  to 0 mm right and 80 mm up
  to 0 mm right and 0 mm up
  hole a 6 mm, at ${hole}
`,
      });
    for (const [said, x, y] of [
      ['20 mm from left and 30 mm from bottom', 20, 30],
      ['20 mm from right and 60 mm from top', 80, 20],
      ['15 mm left of middle and 30 mm from top', 35, 50],
      ['25 mm from bottom', 50, 25],
    ] as const) {
      const [at] = middles(patternIn(fan(said), 'fan'), 'hole');
      assert.ok(at && Math.hypot(at.x - x, at.y - y) < 1e-6, `${said}: ${JSON.stringify(at)}`);
    }
    const codes = (said: string) =>
      problemsOf(fan(said))
        .filter(({ severity }) => severity === 'error' || severity === 'warning')
        .map(({ code, message }) => `${code}: ${message}`);
    assert.deepEqual(codes('20 mm from left and 30 mm from bottom'), []);
    // In the corner that is cut off, and half a millimetre of metal beside its slope.
    assert.deepEqual(codes('8 mm from right and 8 mm from top'), [
      'place-off-piece: Not on “fan”: it lies outside the outline.',
    ]);
    assert.match(
      codes('22.5 mm from right and 22.5 mm from top')[0]!,
      /^hole-near-edge: Only .* between the hole and the rim/,
    );
  });

  it('of knuckles: they stand out of the edge, those of one leaf in the gaps of the other, and the rest is cut away', () => {
    const model = specOf({
      'a.planish': `planish 1
material plate
  mild steel 1.5 mm
material pin
  mild steel wire 3 mm
piece door
  from plate
  plate 120 x 80 mm
  edge left rolled, hollow 3 mm
piece frame
  from plate
  plate 120 x 60 mm
hinge swing
  joins door.top, frame.top
  knuckles 5, wide 40 mm
  over pin
`,
    });
    const [door, frame] = ['door', 'frame'].map((name) => patternIn(model, name).lines[0]!.path);
    const piece = model.pieces().find(({ name }) => name === 'door')!;
    const [metal, rolled] = ['top', 'left'].map(
      (edge) => piece.blank()!.allowances.find((each) => each.edge === edge)!.figure.value,
    ) as [number, number];
    const one = (40 - 4 * 0.15) / 5;
    // What the roll at the side needs ends with the edge.
    // Notches for the barrel of 1.5 mm round a pin of 3 mm with its 0.1 mm, half a chord at the face and 0.5 mm of play deep.
    const deep = Math.sqrt(3.05 ** 2 - 1.55 ** 2) + 0.5;
    const notch = (one + 2 * 0.15) * deep;
    assert.ok(Math.abs(signedArea(door!) - (120 + rolled) * 80 - 3 * one * metal + 2 * notch) < 0.01);
    assert.ok(Math.abs(signedArea(frame!) - 120 * 60 - 2 * one * metal + 3 * notch) < 0.01);
    /** Where knuckles stand along the edge: the highest line of the outline. */
    const stands = ({ vertices }: Path) => {
      const top = Math.max(...vertices.map(({ y }) => y));
      return vertices
        .filter(({ y }) => y > top - 1e-6)
        .map(({ x }) => x)
        .sort((a, b) => a - b);
    };
    const all = [...stands(door!), ...stands(frame!)].sort((a, b) => a - b);
    assert.deepEqual([stands(door!).length, stands(frame!).length], [6, 4]);
    all.forEach((x, i) => {
      const expected = 40 + Math.floor(i / 2) * (one + 0.15) + (i % 2) * one;
      assert.ok(Math.abs(x - expected) < 0.001, `${x}, not ${expected}`);
    });
  });

  it('of a row over the crown of a half dome keep their distance from its seam', () => {
    const model = specOf({
      'a.planish': `planish 1
material plate
  mild steel 1.5 mm
piece half
  from plate
  half dome 240 x 180 mm, deep 150 mm
  holes ridge 5 of 4 mm, along middle, inset 12 mm
`,
    });
    const half = patternIn(model, 'half');
    const holes = middles(half, 'later');
    assert.equal(holes.length, 5);
    for (const at of holes) {
      const off = distanceTo(outlineOf(half), at);
      assert.ok(off > 10.5 && off < 15, `${off}`);
    }
  });

  it('of edges with much to roll that meet at blunt corners: the blank does not cross itself, and the finished edge lies in it', () => {
    const model = specOf({
      'a.planish': `planish 1
material plate
  mild steel 1.5 mm
piece breast
  from plate
  form wrap 190 deg
  at 0 mm, round 973 mm, long 340 mm
  at 260 mm, round 1123 mm, long 390 mm, deep 160 mm
  at 360 mm, round 900 mm, long 330 mm
  dish
  cut neck from 95 mm on top to 95 mm on top, deep 40 mm
  cut armhole from 60 mm on top to 210 mm on left, deep 55 mm, mirrored
  edge neck rolled, hollow 8 mm
  edge armhole rolled, hollow 8 mm
`,
    });
    const breast = patternIn(model, 'breast');
    const cut = outlineOf(breast);
    assert.equal(crossingOf(cut), undefined);
    const finished = breast.lines.find(({ kind }) => kind === 'finished')!.path;
    // Where an edge goes on past its end it goes on straight, and is smoothed into what it was.
    for (const at of finished.vertices) assert.ok(contains(cut, at) || distanceTo(cut, at) < 0.3, JSON.stringify(at));
    const area = model.pieces()[0]!.blank()!.area;
    assert.ok(Math.abs(signedArea(cut) / area - 1) < 2e-4);
  });

  it('of the fold round a dome: once round, inside the finished edge', () => {
    const model = specOf({
      'a.planish': `planish 1
material plate
  mild steel 1.5 mm
piece cop
  from plate
  oval dome 150 x 125 mm, deep 62 mm
  dish then raise
  edge rim rolled, hollow 5 mm
`,
    });
    const { lines } = patternIn(model, 'cop');
    const path = (kind: string) => lines.find((each) => each.kind === kind)!.path;
    const [fold, finished] = [path('fold'), path('finished')];
    assert.ok(fold.closed && crossingOf(fold) === undefined);
    for (const at of fold.vertices) assert.ok(contains(finished, at));
    const share = signedArea(fold) / signedArea(finished);
    assert.ok(share > 0.8 && share < 1, `${share}`);
  });

  it('of the lines of even thickness: each with its figure, alike on both halves of a form that is, none on what rolls out flat', () => {
    const model = specOf({
      'a.planish': `planish 1
material plate
  mild steel 1.5 mm
piece half
  from plate
  half dome 240 x 180 mm, deep 150 mm
  raise
piece rolled
  from plate
  form wrap 180 deg
  at 0 mm, round 700 mm
  at 120 mm, round 560 mm
`,
    });
    const half = patternIn(model, 'half');
    const guides = half.lines.filter(({ kind }) => kind === 'guide');
    const figures = half.labels.flatMap((label) => (label.what === 'guide' ? [label] : []));
    assert.ok(guides.length > 1 && guides.length === figures.length);
    for (const { path } of guides)
      for (const at of path.vertices)
        assert.ok(contains(outlineOf(half), at) || distanceTo(outlineOf(half), at) < 0.1, JSON.stringify(at));
    // The form is the same to the front and to the back, and so must its lines be.
    const seen = figures.map(({ text, along }) => {
      const { left, right, bottom, top } = boxOf([along]);
      return { text, left, right, bottom, top };
    });
    for (const { text, left, right, bottom, top } of seen)
      assert.ok(
        seen.some(
          (other) =>
            other.text === text &&
            [other.left + right, other.right + left, other.bottom - bottom, other.top - top].every(
              (off) => Math.abs(off) < 0.5,
            ),
        ),
        `${text} at ${left}`,
      );
    const least = model.pieces()[0]!.figure('thickness.least')!.value;
    assert.ok(figures.every(({ text }) => Number.parseFloat(text) >= least - 0.01));
    assert.ok(!patternIn(model, 'rolled').lines.some(({ kind }) => kind === 'guide'));
  });
});
