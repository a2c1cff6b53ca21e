import assert from 'node:assert/strict';
import fc from 'fast-check';
import { boxOfPath, distanceTo, signedArea } from '../../../server/geometry/outline/measure.ts';
import { figureValue, modelFrom, PLATE } from '../support.ts';

const close = (a: number, b: number, within = 1e-9) =>
  assert.ok(Math.abs(a - b) <= within * Math.max(1, Math.abs(b)), `${a} is not ${b}`);

const piece = (lines: string, more = '') => modelFrom(`${PLATE}${more}piece cop\n  from plate\n  ${lines}\n`);

describe('pieces', () => {
  it('bracket a dome by its three blanks', () => {
    const model = piece('dome 200 mm, deep 60 mm');
    close(figureValue(model, 'cop.blank.held'), 200);
    close(figureValue(model, 'cop.blank.equal-area'), Math.sqrt(200 ** 2 + 4 * 60 ** 2));
    close(figureValue(model, 'cop.blank.arc'), 244.99, 1e-4);
    // Dished, a thousandth more than the disc of its area; raised, cut to the length of its profile.
    close(figureValue(model, 'cop.blank.diameter'), figureValue(model, 'cop.blank.equal-area'), 1e-3);
    const raised = piece('dome 200 mm, deep 60 mm\n  raise');
    close(figureValue(raised, 'cop.blank.diameter'), figureValue(model, 'cop.blank.arc'));
    const needed = figureValue(raised, 'cop.blank.needed-long');
    assert.ok(needed > figureValue(model, 'cop.blank.equal-area') && needed < figureValue(model, 'cop.blank.arc'));
  });

  it('weigh the blank, not the surface', () => {
    const model = piece('dome 200 mm, deep 60 mm');
    close(figureValue(model, 'cop.mass'), (figureValue(model, 'cop.blank.area') * 1.5 * 7.85) / 1000);
    const raised = piece('dome 200 mm, deep 60 mm\n  raise');
    // What is trimmed off at the end is told beside it.
    close(figureValue(raised, 'cop.mass'), (figureValue(raised, 'cop.blank.needed-area') * 1.5 * 7.85) / 1000);
    close(
      figureValue(raised, 'cop.mass') + figureValue(raised, 'cop.trimmings'),
      (figureValue(raised, 'cop.blank.area') * 1.5 * 7.85) / 1000,
    );
    assert.ok(figureValue(raised, 'cop.mass') > figureValue(model, 'cop.mass') * 1.02, 'raising gathers metal');
    close(figureValue(raised, 'cop.area'), figureValue(model, 'cop.area'));
  });

  it('take out what is cut out', () => {
    const whole = figureValue(piece('plate 100 x 80 mm'), 'cop.mass');
    const holed = figureValue(piece('plate 100 x 80 mm\n  holes lace 4 of 10 mm, along top, inset 8 mm'), 'cop.mass');
    close(whole - holed, (Math.PI * 100 * 1.5 * 7.85) / 1000);
  });

  it('bring inside and outside measures to the middle of the thickness', () => {
    const middle = figureValue(piece('cylinder round 300 mm, high 100 mm'), 'cop.blank.long');
    close(figureValue(piece('cylinder round 300 mm, high 100 mm, inside'), 'cop.blank.long'), middle + Math.PI * 1.5);
    close(figureValue(piece('cylinder round 300 mm, high 100 mm, outside'), 'cop.blank.long'), middle - Math.PI * 1.5);
    close(figureValue(piece('dome 200 mm, deep 60 mm, inside'), 'cop.blank.held'), 201.5);
  });

  it('unroll a cone, and a cone of equal ends as a cylinder', () => {
    const cone = piece('cone round 597 to 377 mm, high 110 mm');
    close(figureValue(cone, 'cop.slant'), Math.hypot(220 / (2 * Math.PI), 110));
    const equal = piece('cone round 300 to 300 mm, high 100 mm, wrap 200 deg');
    const cylinder = piece('cylinder round 300 mm, high 100 mm, wrap 200 deg');
    for (const name of ['cop.blank.long', 'cop.blank.wide', 'cop.blank.area', 'cop.mass'])
      close(figureValue(equal, name), figureValue(cylinder, name));
  });

  it('leave what the sides of a cone need square to its slanting sides', () => {
    const form = 'cone round 700 to 420 mm, high 120 mm, wrap 180 deg';
    const [bare, model] = [piece(form), piece(`${form}\n  edge left long 20 mm\n  edge right long 8 mm`)];
    const slant = figureValue(model, 'cop.slant');
    const half = (figureValue(model, 'cop.sector') * Math.PI) / 360;
    const [outer, inner] = ['outer', 'inner'].map((each) => figureValue(model, `cop.${each}-radius`)) as [
      number,
      number,
    ];
    const area = figureValue(model, 'cop.blank.area');
    close(area, figureValue(bare, 'cop.blank.area') + 28 * slant);
    // Each side keeps its slope, so that along the chord the strip is a cosine narrower.
    const long = figureValue(model, 'cop.blank.long');
    close(long, 2 * outer * Math.sin(half) + 28 * Math.cos(half));
    // The wider strip's lower corner lies below that of the other side, and below the inner arc's ends.
    const wide = figureValue(model, 'cop.blank.wide');
    close(wide, outer - Math.min(inner * Math.cos(half) - 20 * Math.sin(half), inner * Math.cos(half)));
    const { shape } = [...model.pieces()][0]!.blank()!;
    assert.ok(shape.kind === 'outline' && shape.path);
    close(signedArea(shape.path), area);
    close(boxOfPath(shape.path).right - boxOfPath(shape.path).left, long);
  });

  it('leave as much all round a flat oval, a little more than an oval of its size', () => {
    const model = piece('oval 300 x 180 mm\n  edge rim long 12 mm');
    const { shape, area } = [...model.pieces()][0]!.blank()!;
    assert.ok(shape.kind === 'outline' && shape.path);
    close(signedArea(shape.path), area, 1e-5);
    assert.ok(area > (Math.PI / 4) * 324 * 204);
    // Square to the rim where it leans: the point at 45° of the eccentric angle, 12 mm out.
    const [x, y] = [150 * Math.SQRT1_2, 90 * Math.SQRT1_2];
    const size = Math.hypot(x / 150 ** 2, y / 90 ** 2);
    const out = { x: x + (12 * x) / 150 ** 2 / size, y: y + (12 * y) / 90 ** 2 / size };
    assert.ok(distanceTo(shape.path, out) < 0.01);
  });

  it('leave as much all round the blank of an oval dome', () => {
    const dome = 'oval dome 240 x 180 mm, deep 60 mm\n  dish';
    const [bare, rolled] = [piece(dome), piece(`${dome}\n  edge rim long 12 mm`)];
    const [long, wide] = ['long', 'wide'].map((name) => figureValue(bare, `cop.blank.${name}`)) as [number, number];
    close(figureValue(rolled, 'cop.blank.long'), long + 24, 1e-4);
    close(figureValue(rolled, 'cop.blank.wide'), wide + 24, 1e-4);
    const { shape, area } = [...rolled.pieces()][0]!.blank()!;
    assert.ok(shape.kind === 'outline' && shape.path);
    close(signedArea(shape.path), area, 1e-4);
    // What lies even everywhere is a little fuller than the same shape made larger.
    assert.ok(area > (figureValue(bare, 'cop.blank.area') * (long + 24) * (wide + 24)) / (long * wide));
  });

  it('add square to itself what the rim of an outline with a hollow needs', () => {
    const corners = [
      [100, 0],
      [100, 60],
      [50, 20],
      [0, 60],
      [0, 0],
    ];
    const lines = corners.map(([x, y]) => `  to ${x} mm right and ${y} mm up\n`);
    const form = `outline\n${lines.join('')}  edge rim long 10 mm`;
    const model = piece(form);
    const { shape, area } = [...model.pieces()][0]!.blank()!;
    assert.ok(shape.kind === 'outline' && shape.path);
    close(signedArea(shape.path), area);
    close(figureValue(model, 'cop.blank.long'), 120);
    // At the hollow the strips of two sides lie over each other: twice the triangle of tan(turn/2).
    const turn = Math.PI - 2 * Math.atan(50 / 40);
    const [sides, round] = [100 + 2 * 60 + 2 * Math.hypot(50, 40), (2 * Math.PI + turn) / 2];
    close(area, 4000 + 10 * sides + 100 * round - 100 * Math.tan(turn / 2));
  });

  it('add what wired, rolled and hemmed edges need, each named in the formula', () => {
    const wire = 'material edge-wire\n  mild steel wire 3 mm\n';
    const model = piece(
      'cylinder round 300 mm, high 100 mm\n  edge top rolled over edge-wire\n  edge bottom hemmed 6 mm',
      wire,
    );
    const rolled = 0.75 * Math.PI * (3 + 1.5) - (1.5 + 1.5);
    close(figureValue(model, 'cop.top.allowance'), rolled);
    close(figureValue(model, 'cop.blank.wide'), 100 + rolled + 6);
    close(figureValue(model, 'cop.top.wire'), 300 + Math.PI * 4.5);
    const wide = model.pieces()[0]?.figure('blank.wide');
    assert.equal(wide?.formula, 'wide = h + top + bottom');
    assert.equal(wide?.worked, `100 + ${rolled.toFixed(3)} + 6`);
  });

  it('give a lame the girth that its neighbour leaves it', () => {
    const model = modelFrom(
      `${PLATE}piece cop\n  from plate\n  cylinder round 330 mm, high 60 mm\npiece lame\n  from plate\n  lies under cop, gap 1 mm, high 45 mm, wrap 200 deg\npiece next\n  from plate\n  lies under lame, gap 1 mm, high 45 mm, wrap 200 deg\n`,
    );
    close(figureValue(model, 'lame.girth'), 330 - 2 * Math.PI * 2.5);
    close(figureValue(model, 'next.girth'), 330 - 4 * Math.PI * 2.5);
    close(figureValue(model, 'next.blank.long'), ((330 - 4 * Math.PI * 2.5) * 200) / 360);
  });

  it('stand lames and pieces that lean on each other in a circle', () => {
    const model = modelFrom(
      `${PLATE}piece a\n  from plate\n  lies under b, high 45 mm\npiece b\n  from plate\n  lies under a, high 45 mm\npiece c\n  like d\npiece d\n  like c\n`,
    );
    assert.ok(model.figures().length > 0);
    assert.equal(model.pieces()[2]?.likeTarget(), undefined);
  });

  it('are like another, scaled, with later lines in place of the other’s', () => {
    const model = modelFrom(
      `${PLATE}piece scale-1\n  from plate\n  make 8\n  cylinder round 3 in, high 1 in, wrap 150 deg\n  edge top rolled, hollow 4 mm\npiece scale-2\n  like scale-1, scaled 0.9\n  make 4\n`,
    );
    close(figureValue(model, 'scale-2.area'), 0.81 * figureValue(model, 'scale-1.area'));
    assert.equal(figureValue(model, 'scale-2.make'), 4);
    assert.ok(figureValue(model, 'scale-2.top.allowance') < figureValue(model, 'scale-1.top.allowance'));
  });

  it('measure an outline with its arcs', () => {
    const round = piece(
      'outline\n  to 0 mm right and 0 mm up\n  arc to 100 mm right and 0 mm up, radius 50 mm\n  arc to 0 mm right and 0 mm up, radius 50 mm',
    );
    close(figureValue(round, 'cop.area'), Math.PI * 2500, 1e-6);
    const plate = piece(
      'outline\n  to 0 mm right and 0 mm up\n  to 100 mm right and 0 mm up\n  to 100 mm right and 80 mm up\n  to 0 mm right and 80 mm up',
    );
    close(figureValue(plate, 'cop.area'), 8000);
    close(figureValue(plate, 'cop.rim.length'), 360);
  });

  it('read a gauge by the table of its metal and of the shop', () => {
    const thick = (shop: string, metal: string) =>
      figureValue(modelFrom(`shop bench\n  ${shop}\nmaterial it\n  ${metal}\n`), 'it.thickness');
    close(thick('gauges US', 'mild steel 16 ga'), 1.519, 1e-3);
    close(thick('gauges US', 'stainless steel 16 ga'), 1.588, 1e-3);
    close(thick('gauges US', 'galvanised steel 16 ga'), 1.613, 1e-3);
    close(thick('gauges US', 'brass 16 ga'), 1.29, 2e-3);
    close(thick('gauges UK', 'brass 16 ga'), 1.626, 1e-3);
    close(thick('gauges US', 'mild steel 1/16 in'), 1.5875, 1e-9);
  });

  it('let the smith’s own blank govern what is weighed', () => {
    const model = piece('dome 200 mm, deep 60 mm\n  blank disc 260 mm');
    close(figureValue(model, 'cop.blank.diameter'), 260);
    // The form takes what it needs of it, and the rest is trimmed off.
    const needed = model.pieces()[0]!.workedBlank()!.blank;
    close(needed.long, 233.238, 1e-3);
    close(figureValue(model, 'cop.mass'), (needed.area * 1.5 * 7.85) / 1000);
    close(
      figureValue(model, 'cop.mass') + figureValue(model, 'cop.trimmings'),
      (Math.PI * 130 ** 2 * 1.5 * 7.85) / 1000,
    );
    // Of one that is too small all of it is in the piece.
    const small = piece('dome 200 mm, deep 60 mm\n  blank disc 210 mm');
    close(figureValue(small, 'cop.mass'), (Math.PI * 105 ** 2 * 1.5 * 7.85) / 1000);
    assert.equal(small.pieces()[0]!.figure('trimmings'), undefined);
  });

  it('scale: twice every length is four times the area, and eight times the mass with the thickness', () => {
    const build = (k: number) =>
      modelFrom(
        `material plate\n  mild steel ${1.5 * k} mm\npiece cop\n  from plate\n  dome ${200 * k} mm, deep ${55 * k} mm\npiece cuff\n  from plate\n  cone round ${300 * k} to ${240 * k} mm, high ${100 * k} mm, wrap 300 deg\n  edge top rolled, hollow ${5 * k} mm\n`,
      );
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 10, noNaN: true }), (k) => {
        const [one, two] = [build(1), build(k)];
        for (const name of ['cop', 'cuff']) {
          close(figureValue(two, `${name}.area`), k ** 2 * figureValue(one, `${name}.area`));
          close(figureValue(two, `${name}.blank.long`), k * figureValue(one, `${name}.blank.long`));
          close(figureValue(two, `${name}.mass`), k ** 3 * figureValue(one, `${name}.mass`));
        }
      }),
      { numRuns: 50 },
    );
  });

  it('agree in inch and in metric to the ninth digit', () => {
    const metric = modelFrom(
      `material plate\n  mild steel 1.5875 mm\npiece cop\n  from plate\n  oval dome 241.3 x 203.2 mm, deep 127 mm\n  edge rim rolled, hollow 4.7625 mm\n`,
    );
    const inch = modelFrom(
      `material plate\n  mild steel 1/16 in\npiece cop\n  from plate\n  oval dome 9 1/2 x 8 in, deep 5 in\n  edge rim rolled, hollow 3/16 in\n`,
    );
    for (const set of metric.figures())
      for (const figure of set.all()) close(figureValue(inch, figure.name), figure.value, 1e-9);
  });

  it('never leave a brace or an unknown input in a figure', () => {
    const model = modelFrom(
      `${PLATE}wearer guard\n  head round 585 mm\nlet rim-round = guard.head-round + 2 * pi * 12 mm\nmaterial edge-wire\n  mild steel wire 3 mm\nrivet small\n  brass 4 x 10 mm, domed\npiece skull\n  from plate\n  oval dome 235 x 195 mm, deep 120 mm, inside\n  edge rim rolled over edge-wire\npiece tail\n  from plate\n  cone round rim-round to 700 mm, high 75 mm, wrap 150 deg\nseam join\n  joins skull, tail\n  along tail.top\n  rivets small, every 30 mm, inset 8 mm\n`,
    );
    const figures = model.figures().flatMap((set) => set.all());
    const names = new Set(figures.map((figure) => figure.name));
    assert.ok(figures.length > 40);
    for (const figure of figures) {
      assert.doesNotMatch(figure.formula + figure.worked, /[{}]|undefined|NaN/, figure.name);
      assert.ok(figure.source && figure.basis && figure.title, figure.name);
      for (const input of figure.inputs)
        assert.ok(names.has(input), `${figure.name} is made from ${input}, which is no figure`);
    }
  });
});
