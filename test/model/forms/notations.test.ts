import assert from 'node:assert/strict';
import { problemsOf } from '../../../server/checks/run.ts';
import { cutListOf } from '../../../server/output/documents/cut-list-of.ts';
import { patternsOf } from '../../../server/output/documents/patterns/patterns-of.ts';
import { modelFrom } from '../support.ts';

/* One shape is one shape, however it is written: figures, checks, blanks and patterns. */

const MATERIALS = `material plate
  mild steel 1.2 mm
  sheet 1000 x 2000 mm
material wire-3
  mild steel wire 3 mm
material wire-4
  mild steel wire 4 mm
rivet small
  steel 4 x 10 mm, domed
wearer dame
  head round 560 mm
  head length 196 mm
  head breadth 152 mm
  neck round 380 mm
  knee round 385 mm
`;

type Model = ReturnType<typeof modelFrom>;
const modelWith = (form: string, more: string, files: Record<string, string> = {}): Model =>
  modelFrom({ 'helm.planish': `${MATERIALS}piece ring\n  from plate\n${indented(form)}${indented(more)}`, ...files });

/** Lines of the piece; a section begins with a bar. */
const indented = (lines: string) =>
  lines
    .split('\n')
    .filter(Boolean)
    .map((line) => (line.startsWith('|') ? `${line.slice(1)}\n` : `  ${line}\n`))
    .join('');

/** All that is said of a shape. Numbers are compared as numbers, places in the text not at all. */
function saidOf(form: string, more: string, files?: Record<string, string>) {
  const model = modelWith(form, more, files);
  const problems = problemsOf(model);
  const options = { date: '2027-03-01', problems };
  const { patterns, missing } = patternsOf(model, options);
  return {
    figures: model
      .figures()
      .flatMap((set) => set.all())
      .map(({ name, value, low, high, unit, outside }) => ({ name, value, low, high, unit, outside })),
    problems: problems.map(({ code, severity, message }) => ({ code, severity, message })),
    blanks: cutListOf(model, options).materials,
    patterns,
    missing,
  };
}

const WITHIN = 1e-9;

/** The same but for the last digits, and for the words of a formula in texts. */
function assertSame(found: unknown, wanted: unknown, where: string): void {
  if (typeof found === 'number' && typeof wanted === 'number') {
    const within = WITHIN * Math.max(1, Math.abs(wanted));
    assert.ok(Math.abs(found - wanted) <= within, `${where}: ${found} is not ${wanted}`);
    return;
  }
  if (typeof found === 'object' && typeof wanted === 'object' && found !== null && wanted !== null) {
    assert.deepEqual(Object.keys(found), Object.keys(wanted), where);
    for (const key of Object.keys(wanted))
      assertSame((found as Record<string, unknown>)[key], (wanted as Record<string, unknown>)[key], `${where}.${key}`);
    return;
  }
  assert.equal(found, wanted, where);
}

function assertOneShape(forms: readonly string[], more: string): void {
  const [first, ...others] = forms.map((form) => saidOf(form, more));
  assert.ok(first!.figures.length > 5);
  assert.ok(
    first!.problems.every(({ code }) => !['unknown-word', 'line-unfinished', 'unknown-name'].includes(code)),
    JSON.stringify(first!.problems),
  );
  for (const [i, other] of others.entries()) assertSame(other, first, forms[i + 1]!);
}

const figure = (model: Model, name: string) => model.pieces()[0]!.figure(name)!;
const near = (found: number, wanted: number, within: number) =>
  assert.ok(Math.abs(found - wanted) <= within, `${found} is not ${wanted}`);

/** The same but for the last digits. */
const nearly = (found: number, wanted: number) => near(found, wanted, WITHIN * Math.max(1, Math.abs(wanted)));

const ROUND = (600 / Math.PI).toString();

const WORKED = {
  nothing: '',
  'a rolled edge': 'edge top rolled over wire-3\nedge bottom rolled over wire-4, inward',
  'a part of an edge rolled': 'edge top rolled over wire-3, from 40 mm to 150 mm',
  'a hem and an edge left long': 'edge top hemmed 8 mm\nedge bottom long 5 mm',
  'hollow rolls': 'edge top rolled, hollow 5 mm\nedge left rolled, hollow 5 mm',
  openings:
    'hole peep 6 mm, at 20 mm from left and 12 mm from top\nslot sight 60 x 9 mm, at 10 mm from middle and 14 mm from bottom\nholes liner 9 of 4 mm, along top, inset 10 mm',
  'a fit': 'fits dame head, liner 8 mm, ease 4 mm',
  'a fit of the neck': 'fits dame neck, liner 8 mm, ease 4 mm',
  'a flare': 'flare top, 20 deg, wide 8 mm',
  flutes: 'flute 3, deep 2 mm, wide 12 mm',
  'a bay': 'cut neck from 90 mm on top to 90 mm on top, deep 9 mm\nedge neck rolled over wire-3',
  'a template': 'template at 10 mm',
  'a crease': 'crease along middle, deep 3 mm',
  'an edge rounded': 'edge top rounded 0.4 mm\nedge bottom long 4 mm',
  'a trim along it':
    'edge left rolled, hollow 4 mm\n|piece band\nfrom plate\ntrim along ring.top, wide 12 mm, inset 3 mm',
  'a lame on it': '|piece lame\nfrom plate\nlies under ring, gap 1 mm, high 40 mm, wrap 180 deg',
  'a seam along it':
    '|piece band\nfrom plate\nstrip 500 x 30 mm\n|seam join\njoins ring, band\nalong ring.top\nrivets small, every 30 mm, inset 8 mm, peened domed',
  'a hinge on it':
    '|piece flap\nfrom plate\nplate 80 x 60 mm\n|hinge gate\njoins ring.left, flap.right\nknuckles 3, wide 24 mm\nover wire-3',
  'a hinge on its curve':
    '|piece flap\nfrom plate\nplate 80 x 60 mm\n|hinge gate\njoins ring.bottom, flap.top\nknuckles 5, wide 60 mm\nover wire-3',
};

/** What has no edge but its rim. */
const ON_A_RIM = {
  nothing: '',
  'a rolled rim': 'edge rim rolled over wire-3',
  'a part of its rim rolled': 'edge rim rolled over wire-3, inward, from 100 mm to 300 mm',
  'a hem': 'edge rim hemmed 8 mm',
  'a hollow roll': 'edge rim rolled, hollow 5 mm, inward',
  'a rim left long': 'edge rim long 5 mm',
  'a slot': 'slot sight 40 x 6 mm, at 30 mm from rim',
  'a trim along it': '|piece band\nfrom plate\ntrim along ring.rim, wide 12 mm, inset 3 mm',
  'a seam along it':
    '|piece band\nfrom plate\nstrip 500 x 30 mm\n|seam join\njoins ring, band\nalong ring.rim\nrivets small, every 30 mm, inset 8 mm, peened domed',
  openings: 'hole peep 6 mm, at 20 mm from rim\nholes liner 9 of 4 mm, along rim, inset 10 mm',
  'a template': 'template at 10 mm',
  'a lame on it': '|piece lame\nfrom plate\nlies under ring, gap 1 mm, high 40 mm, wrap 180 deg',
  'a bay': 'cut neck from 90 mm on rim to 190 mm on rim, deep 20 mm',
  'an edge rounded': 'edge rim rounded 0.4 mm',
};

const DOMED = {
  ...ON_A_RIM,
  'a way of working': 'raise',
  'a fit of a joint': 'fits dame knee, liner 8 mm, ease 4 mm',
  'a fit': 'fits dame head, liner 8 mm, ease 4 mm',
  'its own blank': 'blank 240 mm',
};

describe('one shape in several notations', function () {
  this.timeout(120_000);

  for (const wrap of [360, 200]) {
    const rings = [
      `cylinder round 600 mm, high 30 mm, wrap ${wrap} deg`,
      `cylinder round 600 mm, high 30 mm, wrap ${wrap} deg, long ${ROUND} mm`,
      `cone round 600 to 600 mm, high 30 mm, wrap ${wrap} deg`,
      `form wrap ${wrap} deg\nat 0 mm, round 600 mm\nat 30 mm, round 600 mm`,
      `form wrap ${wrap} deg\nat 30 mm, round 600 mm\nat 0 mm, round 600 mm, long ${ROUND} mm`,
      `form wrap ${wrap} deg\nat 0 mm, round 600 mm\nat 12 mm, round 600 mm\nat 30 mm, round 600 mm`,
    ];
    for (const [what, more] of Object.entries(WORKED))
      it(`a ring of ${wrap}°, with ${what}`, () => assertOneShape(rings, more));

    const cones = [
      `cone round 540 to 600 mm, high 60 mm, wrap ${wrap} deg`,
      `form wrap ${wrap} deg\nat 0 mm, round 600 mm\nat 60 mm, round 540 mm`,
      `form wrap ${wrap} deg\nat 0 mm, round 600 mm\nat 20 mm, round 580 mm\nat 60 mm, round 540 mm`,
    ];
    for (const [what, more] of Object.entries(WORKED))
      it(`a cone of ${wrap}°, with ${what}`, () => assertOneShape(cones, more));
  }

  for (const [what, more] of Object.entries(DOMED))
    for (const deep of [40, 130])
      it(`a dome ${deep} mm deep, with ${what}`, () =>
        assertOneShape([`dome 200 mm, deep ${deep} mm`, `oval dome 200 x 200 mm, deep ${deep} mm`], more));

  for (const [what, more] of Object.entries(ON_A_RIM))
    it(`a disc and an oval of equal axes, with ${what}`, () =>
      assertOneShape(['disc 220 mm', 'oval 220 x 220 mm'], more));

  const FLAT = {
    ...WORKED,
    'a bend': 'bend 20 mm from top, 90 deg, radius 3 mm',
    'its own blank': 'blank 700 x 90 mm',
  };
  for (const [what, more] of Object.entries(FLAT))
    it(`a plate and a strip, with ${what}`, () => assertOneShape(['plate 620 x 80 mm', 'strip 620 x 80 mm'], more));

  it('measures of the inside are brought to the middle in each', () => {
    assertOneShape(
      [
        'cylinder round 600 mm, high 30 mm, inside',
        'cone round 600 to 600 mm, high 30 mm, inside',
        'form wrap 360 deg, inside\nat 0 mm, round 600 mm\nat 30 mm, round 600 mm',
      ],
      'edge top rolled over wire-3',
    );
    assertOneShape(['dome 200 mm, deep 40 mm, outside', 'oval dome 200 x 200 mm, deep 40 mm, outside'], '');
  });
});

describe('the wire of an edge', function () {
  this.timeout(60_000);
  const ROLLED = 'edge EDGE rolled over wire-3';
  const wireOf = (form: string, edge: string, more = '') =>
    figure(modelWith(form, `${ROLLED.replace('EDGE', edge)}${more}`), `${edge}.wire`).value;

  it('of a ring of 600 mm is 613.2 mm in all of its notations', () => {
    for (const form of [
      'cylinder round 600 mm, high 30 mm',
      'cylinder round 600 mm, high 30 mm, long 190.986 mm',
      'cone round 600 to 600 mm, high 30 mm',
      'form wrap 360 deg\nat 0 mm, round 600 mm\nat 30 mm, round 600 mm',
      'form wrap 360 deg\nat 0 mm, round 600 mm, long 190.986 mm\nat 30 mm, round 600 mm',
    ])
      for (const edge of ['top', 'bottom']) near(wireOf(form, edge), 600 + 4.2 * Math.PI, 1e-3);
  });

  it('of an oval ring is as much longer as of a round one, whatever the oval', () => {
    for (const long of [195, 220, 280]) {
      const ring = `cylinder round 600 mm, high 30 mm, long ${long} mm`;
      const { value: length } = figure(modelWith(ring, ''), 'top.length');
      near(wireOf(ring, 'top') - length, 4.2 * Math.PI, 1e-3);
    }
    near(
      wireOf('form wrap 360 deg\nat 0 mm, round 600 mm, long 230 mm, deep 130 mm\nat 30 mm, round 580 mm', 'bottom'),
      600 + 4.2 * Math.PI,
      1e-3,
    );
  });

  it('of a half and of the gores is their share of the whole', () => {
    const whole = wireOf('dome 200 mm, deep 100 mm', 'rim');
    near(whole, 200 * Math.PI + 4.2 * Math.PI, 1e-9);
    near(wireOf('half dome 200 x 200 mm, deep 100 mm', 'rim'), 320.8, 0.05);
    near(2 * wireOf('half dome 200 x 200 mm, deep 100 mm', 'rim'), whole, 1e-9);
    near(wireOf('gore dome 200 mm, deep 100 mm, gores 4', 'rim'), 160.4, 0.05);
    for (const gores of [3, 4, 6])
      near(gores * wireOf(`gore dome 200 mm, deep 100 mm, gores ${gores}`, 'rim'), whole, 1e-9);
    const oval = wireOf('oval dome 240 x 180 mm, deep 60 mm', 'rim');
    near(2 * wireOf('half dome 240 x 180 mm, deep 60 mm', 'rim'), oval, 1e-9);
  });

  it('of a part of an edge turns by that part', () => {
    const part = (form: string, edge: string) => wireOf(form, edge, ', from 60 mm to 160 mm');
    near(part('cylinder round 600 mm, high 30 mm', 'top'), 100 + (4.2 * Math.PI) / 6, 1e-9);
    near(part('cylinder round 600 mm, high 30 mm, long 190.986 mm', 'top'), 100 + (4.2 * Math.PI) / 6, 1e-3);
    near(part('disc 200 mm', 'rim'), 100 + (4.2 * 100) / 200, 1e-9);
    // From the end of the long axis a quarter of the way round is a quarter turn.
    const rim = figure(modelWith('oval dome 240 x 180 mm, deep 60 mm', ''), 'rim.length').value;
    const quarter = `, from 0 mm to ${rim / 4} mm`;
    near(wireOf('oval dome 240 x 180 mm, deep 60 mm', 'rim', quarter), rim / 4 + (4.2 * Math.PI) / 4, 1e-6);
  });

  it('of a straight edge is as long as the edge, and over a crown it is longer', () => {
    near(wireOf('plate 120 x 80 mm', 'top'), 120, 1e-9);
    near(
      wireOf('form wrap 200 deg\nat 0 mm, round 600 mm, long 240 mm\nat 90 mm, round 500 mm, long 200 mm', 'left'),
      figure(
        modelWith('form wrap 200 deg\nat 0 mm, round 600 mm, long 240 mm\nat 90 mm, round 500 mm, long 200 mm', ''),
        'left.length',
      ).value,
      1e-6,
    );
    near(wireOf('half dome 200 x 200 mm, deep 100 mm', 'middle'), 100 * Math.PI + (4.2 * Math.PI) / 2, 1e-5);
  });

  it('of a strip that follows a line turns as that line does', () => {
    const wire = (form: string) => {
      const band = modelWith(
        form,
        '|piece band\nfrom plate\ntrim along ring.top, wide 12 mm\nedge top rolled over wire-3',
      ).pieces()[1]!;
      return [band.figure('top.wire')!.value, band.figure('top.length')!.value] as const;
    };
    const [curved, length] = wire('cylinder round 600 mm, high 30 mm, wrap 180 deg');
    near(curved, length + (4.2 * Math.PI) / 2, 1e-3);
    const [straight, flat] = wire('plate 300 x 80 mm');
    near(straight, flat, 1e-9);
  });
});

describe('the parts of a dome beside the whole', function () {
  this.timeout(60_000);
  const FITTED = 'edge rim rolled over wire-3\nfits dame head, liner 8 mm, ease 4 mm';
  const [whole, half, gore] = [
    'dome 200 mm, deep 60 mm',
    'half dome 200 x 200 mm, deep 60 mm',
    'gore dome 200 mm, deep 60 mm, gores 5',
  ].map((form) => modelWith(form, FITTED)) as [Model, Model, Model];

  it('add up to its area, its rim and its wire', () => {
    for (const name of ['area', 'rim.length', 'rim.wire']) {
      nearly(2 * figure(half, name).value, figure(whole, name).value);
      nearly(5 * figure(gore, name).value, figure(whole, name).value);
    }
  });

  it('add up to what its rim needs and is given, however it is worked', () => {
    const RIMS = {
      'rolled over a wire, inward': ['edge rim rolled over wire-3, inward', ['rim.wire']],
      'rolled over a wire, outward': ['edge rim rolled over wire-4, outward', ['rim.wire']],
      'hemmed with holes': ['edge rim hemmed 8 mm\nholes liner 6 of 4 mm, along rim, inset 12 mm', []],
      'left long': ['edge rim long 5 mm', []],
    } as const;
    const ALIKE = [
      'rim.allowance',
      'rim.stiffness',
      'rim.roll-strain',
      'rim.gathering',
      'liner.area',
      'liner.edge-distance',
    ];
    for (const [what, [more, shared]] of Object.entries(RIMS))
      for (const [deep, gores] of [
        [40, 3],
        [60, 4],
        [100, 6],
      ]) {
        const of = (form: string) => modelWith(form, more);
        const [all, twice, many] = [
          of(`dome 200 mm, deep ${deep} mm`),
          of(`half dome 200 x 200 mm, deep ${deep} mm`),
          of(`gore dome 200 mm, deep ${deep} mm, gores ${gores}`),
        ] as const;
        for (const name of ['area', 'rim.length', ...shared]) {
          nearly(2 * figure(twice, name).value, figure(all, name).value);
          nearly(gores! * figure(many, name).value, figure(all, name).value);
        }
        for (const name of ALIKE)
          for (const part of [twice, many])
            assert.equal(
              part.pieces()[0]!.figure(name)?.value.toPrecision(10),
              all.pieces()[0]!.figure(name)?.value.toPrecision(10),
              `${name} of a dome ${deep} mm deep, ${what}`,
            );
      }
  });

  it('leave the same room, are rolled with the same strain and as tight', () => {
    for (const name of [
      'inside-round',
      'clearance',
      'clearance.side',
      'head-passes',
      'rim.roll-strain',
      'tightest-radius',
    ])
      for (const part of [half, gore]) near(figure(part, name).value, figure(whole, name).value, 1e-9);
  });

  it('have ends to their rim, and no raw edge where they meet', () => {
    const [ring, open, other] = [whole, half, gore].map((model) => model.pieces()[0]!);
    assert.equal(ring!.isClosedEdge('rim'), true);
    assert.equal(open!.isClosedEdge('rim'), false);
    assert.equal(other!.isClosedEdge('rim'), false);
    const raw = (form: string) =>
      problemsOf(modelWith(form, ''))
        .filter(({ code }) => code === 'sharp-edge')
        .map(({ message }) => message);
    assert.deepEqual(raw('half dome 200 x 200 mm, deep 60 mm'), raw('dome 200 mm, deep 60 mm'));
    assert.deepEqual(raw('gore dome 200 mm, deep 60 mm, gores 5'), raw('dome 200 mm, deep 60 mm'));
  });
});

describe('a flat shape by its corners, by its arcs and out of a drawing', function () {
  this.timeout(60_000);
  const svg = (shape: string) => ({
    'shape.svg': `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="0 0 200 200">${shape}</svg>`,
  });
  const CORNERS =
    'outline\nto 120 mm right and 0 mm up\nto 120 mm right and 80 mm up\nto 0 mm right and 80 mm up\nto 0 mm right and 0 mm up';
  const RECTANGLE = svg('<rect width="120" height="80"/>');
  // Begun at the same corner and drawn the same way round: a rim is measured from where it begins.
  const BEGUN_ALIKE = svg('<path d="M0 80H120V0H0Z"/>');
  const ARCS = 'outline\narc to 120 mm right and 0 mm up, radius 60 mm\narc to 0 mm right and 0 mm up, radius 60 mm';
  const CIRCLE = svg('<circle cx="60" cy="60" r="60"/>');

  it('a rectangle has the area, the mass, the edges and the blank of the plate', () => {
    const plate = modelWith('plate 120 x 80 mm', 'hole 6 mm, at 20 mm from left and 12 mm from top');
    const [corners, drawn] = [
      modelWith(CORNERS, 'hole 6 mm, at 20 mm from left and 12 mm from top'),
      modelWith('outline "shape.svg"', 'hole 6 mm, at 20 mm from left and 12 mm from top', RECTANGLE),
    ];
    const around = ['top', 'bottom', 'left', 'right'].reduce(
      (sum, edge) => sum + figure(plate, `${edge}.length`).value,
      0,
    );
    const opening = (model: Model) =>
      model
        .pieces()[0]!
        .figures()
        .all()
        .find(({ name }) => name.endsWith('.edge-distance'))!.value;
    for (const other of [corners, drawn]) {
      for (const name of ['area', 'mass', 'blank.long', 'blank.wide', 'blank.area'])
        near(figure(other, name).value, figure(plate, name).value, 1e-9);
      near(figure(other, 'rim.length').value, around, 1e-9);
      near(opening(other), opening(plate), 1e-9);
    }
  });

  const CORNERED = {
    ...ON_A_RIM,
    'a part of its rim rolled': 'edge rim rolled over wire-3, from 20 mm to 90 mm',
    'a hole by its sides': 'hole peep 6 mm, at 20 mm from left and 12 mm from top',
    'a slot': 'slot sight 40 x 6 mm, at 60 mm from left and 40 mm from bottom',
  };
  for (const [what, more] of Object.entries(CORNERED))
    it(`says the same by its corners as out of a drawing, with ${what}`, () => {
      const [corners, drawn] = [saidOf(CORNERS, more), saidOf('outline "shape.svg"', more, BEGUN_ALIKE)];
      assert.ok(corners.figures.length > 5);
      assertSame(drawn, corners, more);
    });

  /** What is cut and drilled: each line as far right and up from the blank's lowest left as it lies, begun at its lowest left. */
  const cutOf = (model: Model) => {
    const { lines } = patternsOf(model, { date: '2027-03-01', problems: [] }).patterns[0]!;
    const all = lines.filter(({ kind }) => ['outline', 'opening', 'hole', 'bend', 'finished', 'fold'].includes(kind));
    const { vertices } = all[0]!.path;
    const [left, low] = [Math.min(...vertices.map(({ x }) => x)), Math.min(...vertices.map(({ y }) => y))];
    return all.map(({ kind, path }) => {
      const moved = path.vertices.map(({ x, y, bulge = 0 }) => ({ x: x - left, y: y - low, bulge }));
      const first = moved.reduce(
        (best, { x, y }, i) => (x + y < moved[best]!.x + moved[best]!.y - WITHIN ? i : best),
        0,
      );
      return { kind, vertices: path.closed ? [...moved.slice(first), ...moved.slice(0, first)] : moved };
    });
  };

  it('a rectangle is cut and drilled as the plate is', () => {
    for (const more of [
      '',
      'hole peep 6 mm, at 20 mm from left and 12 mm from top',
      'slot sight 40 x 6 mm, at 60 mm from left and 40 mm from bottom',
    ]) {
      const wanted = cutOf(modelWith('plate 120 x 80 mm', more));
      assertSame(cutOf(modelWith(CORNERS, more)), wanted, more);
      for (const drawing of [RECTANGLE, BEGUN_ALIKE])
        assertSame(cutOf(modelWith('outline "shape.svg"', more, drawing)), wanted, more);
    }
  });

  it('a rim left long or hemmed takes as much all round as four edges of the plate', () => {
    for (const how of ['long 5 mm', 'hemmed 8 mm', 'rolled over wire-3']) {
      const plate = modelWith(
        'plate 120 x 80 mm',
        ['top', 'bottom', 'left', 'right'].map((edge) => `edge ${edge} ${how}`).join('\n'),
      );
      const rim = `edge rim ${how}`;
      for (const other of [modelWith(CORNERS, rim), modelWith('outline "shape.svg"', rim, RECTANGLE)])
        for (const name of ['blank.long', 'blank.wide']) nearly(figure(other, name).value, figure(plate, name).value);
    }
  });

  it('a circle has the rim, the wire and the strain of the disc, and is sawn by the same blade as another outline', () => {
    const more = 'edge rim rolled over wire-3';
    const disc = modelWith('disc 120 mm', more);
    for (const other of [modelWith(ARCS, more), modelWith('outline "shape.svg"', more, CIRCLE)])
      for (const name of [
        'area',
        'rim.length',
        'rim.wire',
        'rim.roll-strain',
        'rim.stiffness',
        'blank.long',
        'blank.wide',
        'blank.area',
        'mass',
      ])
        nearly(figure(other, name).value, figure(disc, name).value);
    assert.equal(
      figure(modelWith('outline "shape.svg"', '', CIRCLE), 'blade-teeth').value,
      figure(modelWith(ARCS, ''), 'blade-teeth').value,
    );
  });

  it('a hollow in a rim is rolled the other way: what is turned outward there shrinks', () => {
    const hollow =
      'outline\nto 120 mm right and 0 mm up\nto 120 mm right and 80 mm up\narc to 0 mm right and 80 mm up, radius 70 mm, hollow\nto 0 mm right and 0 mm up';
    assert.ok(figure(modelWith(hollow, 'edge rim rolled over wire-3'), 'rim.roll-strain').value < 0);
    assert.ok(figure(modelWith(ARCS, 'edge rim rolled over wire-3'), 'rim.roll-strain').value > 0);
    assert.equal(modelWith(CORNERS, 'edge rim rolled over wire-3').pieces()[0]!.figure('rim.roll-strain'), undefined);
  });
});
