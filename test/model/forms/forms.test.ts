import assert from 'node:assert/strict';
import { alongEdge } from '../../../server/geometry/surface/place.ts';
import { kindOf } from '../../../server/model/forms/index.ts';
import { placeOfLine } from '../../../server/model/shapes/places.ts';
import { baseLineOf, surfaceOf } from '../../../server/model/shapes/surface.ts';
import { ellipsePerimeter } from '../../../server/trade/blank/plane-shapes.ts';
import { ovalDomeArea } from '../../../server/trade/dome/dome.ts';
import { differentGores } from '../../../server/trade/dome/gores.ts';
import { soundSurface } from '../../geometry/surface/sound.ts';
import { figureValue, modelFrom, PLATE } from '../support.ts';

const close = (a: number, b: number, within = 1e-9) =>
  assert.ok(Math.abs(a - b) <= within * Math.max(1, Math.abs(b)), `${a} is not ${b}`);

/** `piece cop` of these lines, after what stands before it. */
const spec = (lines: string, before = '') =>
  `${PLATE}${before}piece cop\n  from plate\n  ${lines.split('\n').join('\n  ')}\n`;
const cop = (lines: string, before = '') => modelFrom(spec(lines, before));
const pieceOf = (model: ReturnType<typeof modelFrom>, name: string) =>
  model.pieces().find((piece) => piece.name === name)!;

const BREAST = `form wrap 190 deg
at 0 mm, round 973 mm, long 340 mm
at 260 mm, round 1123 mm, long 390 mm, deep 160 mm
at 360 mm, round 900 mm, long 330 mm
dish`;

describe('forms that are measured on their surface', () => {
  it('a form by its levels: area, and edges that are the share of each level’s girth', () => {
    const model = cop(`form wrap 180 deg\nat 0 mm, round 700 mm, long 250 mm\nat 120 mm, round 560 mm, long 200 mm`);
    close(figureValue(model, 'cop.bottom.length'), 350, 1e-7);
    close(figureValue(model, 'cop.top.length'), 280, 1e-7);
    // The same as an oval cone says in one line.
    const cone = cop('cone round 560 to 700 mm, high 120 mm, long 250 mm, wrap 180 deg');
    for (const name of ['cop.area', 'cop.left.length', 'cop.top.length'])
      close(figureValue(cone, name), figureValue(model, name), 1e-9);
  });

  it('measures of the inside gain half a thickness all round on the way to the middle', () => {
    const inside = cop(BREAST.replace('deg\n', 'deg, inside\n'));
    const girth = 973 + Math.PI * 1.5;
    close(figureValue(inside, 'cop.bottom.length'), (girth * 190) / 360, 1e-3);
  });

  it('bays shorten their edges and make new ones', () => {
    const model = cop(
      `${BREAST}\ncut neck from 95 mm on top to 95 mm on top, deep 40 mm\ncut armhole from 60 mm on top to 210 mm on left, deep 55 mm, mirrored`,
    );
    close(figureValue(model, 'cop.top.length'), 2 * 35, 1e-5);
    assert.ok(figureValue(model, 'cop.neck.length') > 285);
    assert.ok(figureValue(model, 'cop.area') < figureValue(cop(BREAST), 'cop.area'));
    assert.deepEqual(pieceOf(model, 'cop').edgeNames(), ['top', 'bottom', 'left', 'right', 'neck', 'armhole']);
    soundSurface(surfaceOf(pieceOf(model, 'cop'), { vertices: 200 })!);
  });

  it('a half dome has its seam, a gore its sides, an oval gore too', () => {
    const half = cop('half dome 240 x 180 mm, deep 150 mm');
    close(figureValue(half, 'cop.middle.length'), ellipsePerimeter(240, 300).value / 2);
    close(figureValue(half, 'cop.area'), ovalDomeArea(240, 180, 150).value / 2);
    const gore = cop('gore dome 210 mm, deep 105 mm, gores 6');
    close(figureValue(gore, 'cop.area'), (2 * Math.PI * 105 ** 2) / 6);
    close(figureValue(gore, 'cop.left.length'), (Math.PI / 2) * 105);
    assert.ok(figureValue(cop('gore dome 248 x 204 mm, deep 160 mm, gores 6'), 'cop.area') > 0);
  });

  it('gores are made as often as the dome has them, and the different ones of an oval make up the whole', () => {
    close(figureValue(cop('gore dome 210 mm, deep 105 mm, gores 12'), 'cop.make'), 12);
    close(figureValue(cop('gore dome 210 mm, deep 105 mm, gores 12\nmake 3'), 'cop.make'), 3);
    for (const [gores, shapes] of [
      [4, 2],
      [5, 3],
      [6, 2],
      [8, 3],
      [12, 4],
    ] as const) {
      const dome = { long: 240, wide: 180, gores };
      const different = differentGores(dome);
      assert.equal(different.length, shapes, `${gores}`);
      let [count, area] = [0, 0];
      for (const alike of different) {
        const models = alike.gores.map((which) =>
          cop(`gore dome 240 x 180 mm, deep 90 mm, gores ${gores}, gore ${which}`),
        );
        const areas = models.map((model) => figureValue(model, 'cop.area'));
        for (const each of areas) close(each, areas[0]!, 1e-5);
        assert.equal(pieceOf(models[0]!, 'cop').make(), alike.gores.length);
        count += alike.gores.length;
        area += alike.gores.length * areas[0]!;
      }
      assert.equal(count, gores);
      close(area, ovalDomeArea(240, 180, 90).value, 1e-4);
    }
  });

  const over = (form: string) => `piece breast\n  from plate\n  ${form.split('\n').join('\n  ')}\n`;

  it('a plate over a part of another has that part’s surface, so far outside', () => {
    const model = cop(
      'lies over breast, gap 1 mm, from bottom to 100 mm up',
      over('cylinder round 600 mm, high 300 mm, wrap 180 deg'),
    );
    // 2.5 mm from middle to middle.
    close(figureValue(model, 'cop.area'), 100 * (300 + Math.PI * 2.5), 1e-6);
    close(figureValue(model, 'cop.bottom.length'), 300 + Math.PI * 2.5, 1e-6);
  });

  it('a lame under a form has the section of its bottom edge, less the gap all round', () => {
    const model = cop('lies under breast, gap 1 mm, high 45 mm, wrap 200 deg', over(BREAST));
    close(figureValue(model, 'cop.girth'), 973 - 2 * Math.PI * 2.5);
    close(figureValue(model, 'cop.bottom.length'), ((973 - 2 * Math.PI * 2.5) * 200) / 360, 1e-6);
  });

  it('goes as far round as its neighbour where it does not say, and a band as far as it says, over a half over both', () => {
    const ring = over('cylinder round 600 mm, high 300 mm, wrap 180 deg');
    const lame = figureValue(cop('lies under breast, gap 1 mm, high 45 mm', ring), 'cop.bottom.length');
    close(lame, (600 - 2 * Math.PI * 2.5) / 2);
    close(
      figureValue(
        cop('lies under breast, gap 1 mm, high 45 mm', over('cylinder round 600 mm, high 300 mm')),
        'cop.bottom.length',
      ),
      2 * lame,
    );
    const band = (form: string, wrap: string, edge = 'bottom') =>
      cop(`lies over breast, gap 1 mm, from ${edge} to 40 mm up${wrap}`, over(form));
    close(
      figureValue(band('cylinder round 600 mm, high 300 mm, wrap 180 deg', ', wrap 90 deg'), 'cop.bottom.length'),
      (600 + 5 * Math.PI) / 4,
      1e-6,
    );
    close(
      figureValue(band('dome 240 mm, deep 120 mm', ', wrap 90 deg', 'rim'), 'cop.bottom.length'),
      (245 * Math.PI) / 4,
      1e-4,
    );
    const [half, whole] = ['half dome 240 x 180 mm, deep 90 mm', 'oval dome 240 x 180 mm, deep 90 mm'];
    for (const wrap of [', wrap 360 deg', ', wrap 120 deg']) {
      const both = band(half, wrap, 'rim');
      for (const name of ['cop.area', 'cop.bottom.length', 'cop.top.length'])
        close(figureValue(both, name), figureValue(band(whole, wrap, 'rim'), name), 1e-4);
      soundSurface(surfaceOf(pieceOf(both, 'cop'), { vertices: 200 })!);
    }
    close(
      2 * figureValue(band(half, '', 'rim'), 'cop.area'),
      figureValue(band(half, ', wrap 360 deg', 'rim'), 'cop.area'),
      1e-4,
    );
    const far = pieceOf(band('cylinder round 600 mm, high 300 mm, wrap 180 deg', ', wrap 200 deg'), 'cop');
    assert.equal(far.chart(), undefined);
    assert.match(kindOf(far.form()!).refusal(far.form()!, far)!, /goes only 180 deg round/);
  });

  it('a lame under a cop has the circle that the cop shows across', () => {
    const model = cop(
      'lies under breast, gap 1 mm, high 45 mm, wrap 200 deg',
      over('oval dome 150 x 120 mm, deep 60 mm'),
    );
    close(figureValue(model, 'cop.girth'), Math.PI * 120 - 2 * Math.PI * 2.5);
  });

  it('a comb is as wide as both feet, both sides and half a turn', () => {
    const model = cop(
      'comb along breast.middle, high 22 mm, foot 16 mm, radius 3 mm',
      over('half dome 240 x 180 mm, deep 150 mm'),
    );
    close(figureValue(model, 'cop.left.length'), 2 * 16 + 2 * 19 + Math.PI * 3);
    close(figureValue(model, 'cop.top.length'), ellipsePerimeter(243, 303).value / 2, 1e-3);
    const line = baseLineOf(pieceOf(model, 'cop'))!;
    close(line.length, ellipsePerimeter(243, 303).value / 2, 1e-3);
  });

  it('the crest of a comb is longer than its foot by its height times the turn of that, and thins as it stretches', () => {
    const ring = cop(
      'comb along breast.middle, high 25 mm, foot 16 mm, radius 3 mm',
      over('half dome 297 x 297 mm, deep 148.5 mm'),
    );
    // Half a circle of 300 mm where the middle of its thickness lies.
    const foot = Math.PI * 150;
    close(figureValue(ring, 'cop.crest.length'), foot + 25 * Math.PI, 1e-3);
    close(figureValue(ring, 'cop.crest.strain'), Math.log(175 / 150), 1e-3);
    close(figureValue(ring, 'cop.thickness.least'), 1.5 * Math.sqrt(150 / 175), 1e-4);
    // Its area piece by piece: feet, sides as half rings, and half a torus over the top (Pappus).
    const half = (r: number) => (Math.PI * r * r) / 2;
    const top = Math.PI * 3 * (foot + Math.PI * (22 + (2 * 3) / Math.PI));
    close(figureValue(ring, 'cop.area'), 2 * 16 * foot + 2 * (half(172) - half(150)) + top, 1);
    // An ellipse is stretched most where it bends most: at its ends, a²/b of them.
    const oval = cop('comb along breast.middle, high 20 mm', over('half dome 240 x 180 mm, deep 150 mm'));
    close(figureValue(oval, 'cop.crest.length'), ellipsePerimeter(243, 303).value / 2 + 20 * Math.PI, 0.05);
    close(figureValue(oval, 'cop.crest.strain'), Math.log(1 + (20 * 151.5) / 121.5 ** 2), 0.01);
  });

  it('what cannot be has no figures of its form, and a reason', () => {
    const model = cop('form half\nat 0 mm, round 500 mm, long 260 mm\nat 80 mm, round 500 mm, long 200 mm');
    const piece = pieceOf(model, 'cop');
    assert.equal(piece.form(), undefined);
    assert.deepEqual(
      piece.formRefusals().map(({ why }) => why),
      ['500 mm does not go round it: there and back alone is 520 mm'],
    );
    assert.equal(piece.figure('area'), undefined);
  });

  it('openings sit where their lines say', () => {
    const model = cop(
      'half dome 240 x 180 mm, deep 150 mm\nslot sight 58 x 11 mm, at 62 mm from rim and 38 mm from middle\nholes liner 6 of 3/16 in, along rim, inset 20 mm, from 60 mm to 300 mm',
    );
    const piece = pieceOf(model, 'cop');
    const [slot, holes] = piece.openings();
    const place = placeOfLine(piece, slot!.line);
    assert.ok(typeof place === 'object' && place.spot[0] > 0 && place.spot[0] < 0.5);
    assert.equal(holes!.count, 6);
    const along = alongEdge(piece.chart()!, 'rim')!;
    const row = [60, 108, 156, 204, 252, 300].map((station) => along(station, 20));
    assert.equal(row.filter((each) => typeof each === 'object').length, 6);
    assert.match(String(along(3000, 20)), /is only .* long/);
    assert.equal(alongEdge(piece.chart()!, 'brim'), undefined);
  });

  it('half a spec never throws', () => {
    const whole =
      spec(`${BREAST}\ncut neck from 95 mm on top to 95 mm on top, deep 40 mm`) +
      'piece plackart\n  from plate\n  lies over cop, gap 1 mm, from bottom to 150 mm up\n';
    for (let end = whole.indexOf('form'); end < whole.length; end += 31)
      for (const piece of modelFrom(whole.slice(0, end)).pieces()) piece.figures().all();
  });
});
