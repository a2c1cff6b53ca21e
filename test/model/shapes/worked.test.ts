import assert from 'node:assert/strict';
import fc from 'fast-check';
import { fluteSection } from '../../../server/trade/bend/flute.ts';
import { problemsIn } from '../../checks/specs.ts';
import { figureValue, modelFrom, PLATE } from '../support.ts';

/* Flutes, creases and flares, from their lines to the figures of the piece. */

const spec = (lines: string) => `${PLATE}piece cuff\n  from plate\n  ${lines.split('\n').join('\n  ')}\n`;
const cuff = (lines: string) => {
  const model = modelFrom(spec(lines));
  return (name: string) => figureValue(model, `cuff.${name}`);
};
const close = (a: number, b: number, within = 1e-4) =>
  assert.ok(Math.abs(a - b) <= within * Math.max(1, Math.abs(b)), `${a} is not ${b}`);
const noRoom = (lines: string) =>
  problemsIn(spec(lines)).flatMap(({ code, message }) => (code === 'working-has-no-room' ? [message] : []));

const CYLINDER = 'cylinder round 360 mm, high 100 mm, wrap 300 deg';
const BREAST = `form wrap 180 deg
at 0 mm, round 960 mm, long 310 mm
at 220 mm, round 1110 mm, long 360 mm
at 340 mm, round 960 mm, long 320 mm
dish`;

describe('what is worked into a form', () => {
  it('flutes draw the blank in by the way over them, less their width', () => {
    const more = 4 * (fluteSection({ deep: 5, wide: 14 }).way.value - 14);
    const plate = cuff('plate 200 x 120 mm\nflute 4, deep 5 mm, wide 14 mm');
    close(plate('blank.long'), 200 + more);
    close(plate('blank.wide'), 120, 5e-4);
    close(plate('top.length'), 200 + more);
    close(plate('area'), (200 + more) * 120, 1e-3);
    // On a round they open a little wider, and it still rolls out flat.
    const round = cuff(`${CYLINDER}\nflute 4, deep 5 mm, wide 14 mm`);
    close(round('blank.long'), round('top.length'), 1e-3);
    assert.ok(round('blank.long') > 300 + more && round('blank.long') < 300 + 1.25 * more);
  });

  it('flutes that are sunk in take less on a round than those that stand out', () => {
    const [out, within] = ['', ', inward'].map((how) =>
      cuff(`${CYLINDER}\nflute 4, deep 5 mm, wide 14 mm${how}`)('blank.long'),
    );
    assert.ok(within! < out! && within! > 300);
  });

  it('a crease widens the blank, and is left out of it where it is not written to its end', () => {
    const [plain, creased] = [BREAST, `${BREAST}\ncrease along middle, deep 8 mm`].map((lines) => cuff(lines));
    assert.ok(creased!('bottom.length') > plain!('bottom.length') + 0.5);
    assert.ok(creased!('blank.area') > plain!('blank.area'));
    for (const half of ['crease along middle', 'crease along', 'crease along middle, deep 8 mm, wide'])
      close(cuff(`${BREAST}\n${half}`)('area'), plain!('area'), 1e-9);
  });

  it('a crease tells how wide it is and how far its ridge is turned', () => {
    const radius = 360 / (2 * Math.PI);
    const creased = cuff(`${CYLINDER}\ncrease along front, deep 6 mm`);
    const half = Math.acos(radius / (radius + 6));
    close(creased('crease-1.wide'), 2 * radius * half, 1e-5);
    close(creased('crease-1.turn'), (2 * half * 180) / Math.PI, 1e-5);
    const hollow = cuff('plate 90 x 60 mm\ncrease along middle, deep 5 mm, wide 40 mm');
    close(hollow('crease-1.wide'), 40);
    close(hollow('crease-1.turn'), (2 * Math.atan(0.5) * 180) / Math.PI);
    const tight = problemsIn(
      'material spring\n  spring steel 1.5 mm, grade "1050"\npiece clip\n  from spring\n  plate 90 x 60 mm\n  crease along middle, deep 5 mm, wide 40 mm, radius 1 mm\n',
    ).find(({ code }) => code === 'bend-too-tight');
    assert.match(tight?.message ?? '', /radius of 1 mm/);
  });

  it('a flare takes its metal from the wall: the blank stays, the edge grows', () => {
    const [plain, flared] = [CYLINDER, `${CYLINDER}\nflare bottom, 25 deg, wide 20 mm`].map((lines) => cuff(lines));
    const [radius, out] = [360 / (2 * Math.PI), 20 * Math.sin((25 * Math.PI) / 180)];
    close(flared!('bottom.length'), (2 * Math.PI * (radius + out) * 300) / 360, 1e-6);
    close(flared!('top.length'), 300);
    close(flared!('left.length'), 100, 1e-6);
    close(flared!('area'), 300 * 80 + (Math.PI * 20 * (2 * radius + out) * 300) / 360, 2e-4);
    for (const same of ['blank.long', 'blank.wide', 'mass']) assert.equal(flared!(same), plain!(same));
    close(flared!('bottom.strain'), Math.log((radius + out) / radius), 1e-6);
  });

  it('so it does on a form that is laid flat by numbers', () => {
    const [plain, flared] = [BREAST, `${BREAST}\nflare bottom, 30 deg, wide 20 mm`].map((lines) => cuff(lines));
    for (const size of ['blank.long', 'blank.wide', 'blank.area']) close(flared!(size), plain!(size), 1e-3);
    close(flared!('bottom.strain'), Math.log(flared!('bottom.length') / plain!('bottom.length')), 1e-6);
    assert.ok(flared!('bottom.strain') > 0.02);
  });

  it('a steep flare of any form is told to split', () => {
    const message = problemsIn(spec(`${BREAST}\nflare bottom, 80 deg, wide 45 mm`)).find(
      ({ code }) => code === 'flare-will-split',
    )?.message;
    assert.match(message ?? '', /stretches its edge by \d+ %/);
  });

  it('says why a form has no room for it', () => {
    assert.deepEqual(noRoom(`${CYLINDER}\nflute 4, deep 5 mm, wide 14 mm\ncrease along middle, deep 3 mm`), []);
    assert.match(noRoom('plate 60 x 90 mm\nflute 5, deep 3 mm, wide 14 mm')[0]!, /no room side by side/);
    const [crowded] = problemsIn(spec('plate 60 x 90 mm\nflute 5, deep 3 mm, wide 14 mm')).filter(
      ({ code }) => code === 'working-has-no-room',
    );
    assert.deepEqual(
      crowded!.fixes.map(({ title, edits }) => [title, edits[0]!.text]),
      [['Make it 4 flutes', '4']],
    );
    assert.match(noRoom('plate 60 x 90 mm\ncrease along middle, deep 3 mm')[0]!, /say “wide”/);
    assert.deepEqual(noRoom('plate 60 x 90 mm\ncrease along middle, deep 3 mm, wide 30 mm'), []);
    assert.match(noRoom(`${CYLINDER}\ncrease along bottom, deep 3 mm`)[0]!, /runs up the form/);
    assert.match(noRoom(`${CYLINDER}\nflare bottom, 20 deg, wide 130 mm`)[0]!, /does not reach so far/);
    assert.match(
      noRoom('half dome 240 x 180 mm, deep 150 mm\nflare middle, 20 deg, wide 13 mm')[0]!,
      /Only a whole edge/,
    );
  });

  it('says how many flutes it works out, whatever the lines are that they stand in', () => {
    const plate = (...counts: number[]) =>
      ['plate 600 x 90 mm', ...counts.map((count) => `flute ${count}, deep 1 mm, wide 3 mm`)].join('\n');
    for (const { counts, fewer, mended } of [
      { counts: [5000], fewer: '60', mended: [60] },
      { counts: [40, 21], fewer: '20', mended: [40, 20] },
      { counts: [70, 10], fewer: '50', mended: [50, 10] },
    ]) {
      const found = problemsIn(spec(plate(...counts))).filter(({ code }) => code === 'working-has-no-room');
      assert.deepEqual(
        found.map(({ message, fixes }) => [message, fixes[0]!.edits[0]!.text]),
        [['More than 60 flutes on one piece are not worked out: the surface leaves these out.', fewer]],
        `${counts}`,
      );
      assert.deepEqual(noRoom(plate(...mended)), []);
    }
    // What is worked out is all there is: the same as without the line.
    close(cuff(plate(40, 21))('area'), cuff(plate(40))('area'), 1e-12);
  });

  it('takes whatever is written: every figure is finite and every line is laid or marked', () => {
    const forms = [
      CYLINDER,
      BREAST,
      'plate 120 x 90 mm',
      'cone round 300 to 200 mm, high 90 mm',
      'dome 150 mm, deep 60 mm',
      'half dome 240 x 180 mm, deep 150 mm',
      'form half\nat 0 mm, round 690 mm, long 235 mm\nat 150 mm, flat',
    ];
    const mm = fc.integer({ min: 0, max: 120 });
    const inward = fc.constantFrom('', ', inward');
    const line = fc.oneof(
      fc
        .tuple(fc.integer({ min: 0, max: 70 }), mm, mm, inward)
        .map(([n, d, w, how]) => `flute ${n}, deep ${d} mm, wide ${w} mm${how}`),
      fc
        .tuple(fc.constantFrom('middle', 'front', 'side', 'left', 'rim', 'crown'), mm, fc.option(mm), inward)
        .map(([edge, d, w, how]) => `crease along ${edge}, deep ${d} mm${w === null ? '' : `, wide ${w} mm`}${how}`),
      fc
        .tuple(fc.constantFrom('top', 'bottom', 'left', 'right', 'rim', 'middle'), fc.integer({ min: 0, max: 200 }), mm)
        .map(([edge, turn, w]) => `flare ${edge}, ${turn} deg, wide ${w} mm`),
      fc.constantFrom('hold middle', 'hold bottom', 'hold rim'),
    );
    fc.assert(
      fc.property(fc.constantFrom(...forms), fc.array(line, { minLength: 1, maxLength: 4 }), (form, lines) => {
        const text = spec([form, ...lines].join('\n'));
        problemsIn(text);
        for (const figure of modelFrom(text)
          .figures()
          .flatMap((set) => set.all()))
          assert.ok(Number.isFinite(figure.value) || figure.outside !== undefined, `${figure.name} in\n${text}`);
      }),
      { numRuns: 40 },
    );
  });
});
