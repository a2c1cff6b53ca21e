import { strict as assert } from 'node:assert';
import { figuresOf, modelFrom } from '../support.ts';

const spec = (form: string, more = '') => `material plate
  mild steel 1.5 mm
piece part
  from plate
${form
  .split('\n')
  .map((line) => `  ${line}`)
  .join('\n')}
${more}`;

const SKULL = 'half dome 240 x 180 mm, deep 150 mm';
const shown = (text: string, names: string[]) => {
  const figures = figuresOf(text);
  return Object.fromEntries(
    names.map((name) => {
      const { value, low, high } = figures.get(`part.${name}`)!;
      const round = (each: number) => Math.round(each * 1000) / 1000;
      return [name, low === undefined ? [round(value)] : [round(value), round(low), round(high!)]];
    }),
  );
};

describe('blanks that are laid flat by numbers', () => {
  it('a rolled plate with a corner cut away lies as straight as the whole one', () => {
    const whole = 'cylinder round 600 mm, high 150 mm, wrap 180 deg';
    const cut = `${whole}\ncut elbow from 40 mm on top to 60 mm on left, deep 20 mm`;
    const [long, wide, area] = Object.values(shown(spec(cut), ['blank.long', 'blank.wide', 'blank.area']));
    assert.deepEqual([long, wide], [[300], [150]]);
    // The corner's triangle, and beyond its chord the segment of a circle 20 mm deep.
    const half = Math.hypot(40, 60) / 2;
    const radius = (half * half + 20 * 20) / (2 * 20);
    const segment = radius * radius * Math.acos((radius - 20) / radius) - (radius - 20) * half;
    assert.ok(Math.abs(area![0]! - (300 * 150 - (40 * 60) / 2 - segment)) < 1, `${area}`);
  });

  it('an edge that is held keeps its finished length at every point, and what that costs is told', () => {
    const model = modelFrom(spec(`${SKULL}\ndish then raise\nhold middle`));
    const [part] = model.pieces();
    const { flat } = part!.laidFlat()!;
    const { formed, flat: laid } = flat.lengths.get('middle')!;
    assert.ok(Math.abs(laid / formed - 1) < 0.002, `${laid} of ${formed}`);
    const free = figuresOf(spec(`${SKULL}\ndish then raise`)).get('part.strain.most')!.value;
    const held = part!.figure('strain.most')!.value;
    // From another solver on another mesh: 344.4 × 186.8, and the strain half as much again and more.
    assert.ok(Math.abs(part!.figure('blank.long')!.value - 344.4) < 1.5);
    assert.ok(Math.abs(part!.figure('blank.wide')!.value - 186.8) < 1.5);
    assert.ok(held > 1.3 * free, `${held} beside ${free}`);
    // What it would strain with every edge free is told beside it: from a coarser mesh, to a twentieth.
    assert.ok(Math.abs(part!.figure('strain.free')!.value / free - 1) < 0.05);
  });

  it('what has a formula is laid flat by numbers when an edge is held, and bays in all their parts', () => {
    const held = figuresOf(spec('dome 200 mm, deep 60 mm\ndish\nhold rim'));
    // The whole rim kept to its finished length: a disc of its diameter.
    assert.ok(Math.abs(held.get('part.blank.long')!.value - 200) < 0.5, `${held.get('part.blank.long')!.value}`);
    const breast = `form wrap 190 deg
at 0 mm, round 973 mm, long 340 mm
at 260 mm, round 1123 mm, long 390 mm, deep 160 mm
at 360 mm, round 900 mm, long 330 mm
dish
cut neck from 95 mm on top to 95 mm on top, deep 40 mm
cut armhole from 60 mm on top to 210 mm on left, deep 55 mm, mirrored
hold top
hold armhole`;
    const { flat } = modelFrom(spec(breast)).pieces()[0]!.laidFlat()!;
    for (const edge of ['top', 'top 2', 'armhole', 'armhole mirrored']) {
      const { formed, flat: laid } = flat.lengths.get(edge)!;
      assert.ok(Math.abs(laid / formed - 1) < 0.003, `${edge}: ${laid} of ${formed}`);
    }
  });

  it('half of a half ellipsoid: dished and raised, and the ends of its range', () => {
    const made = shown(spec(`${SKULL}\ndish then raise`), [
      'blank.long',
      'blank.wide',
      'blank.area',
      'thickness.least',
    ]);
    // From another solver on another mesh: 340.8 × 188.1, 44 885 mm², 2.5 % below 0.963 of 1.5 mm.
    const near = (name: string, value: number, within: number) =>
      assert.ok(Math.abs(made[name]![0]! - value) < within, `${name}: ${made[name]}`);
    near('blank.long', 340.8, 0.4);
    near('blank.wide', 188.1, 0.3);
    near('blank.area', 44_885, 100);
    near('thickness.least', 0.963 * 1.5, 0.01);
    for (const [value, low, high] of Object.values(made)) assert.ok(low! <= value! && value! <= high!);
    // Raised from the start it takes a larger blank, which is the far end of this range.
    const raised = figuresOf(spec(`${SKULL}\nraise`)).get('part.blank.needed-long')!.value;
    assert.ok(Math.abs(made['blank.long']![2]! - raised) < 0.5, `${made['blank.long']} beside ${raised}`);
    assert.ok(raised > 342);
  });

  it('what rolls out flat has no range, and the thickness of its sheet', () => {
    const figures = figuresOf(spec('form wrap 180 deg\nat 0 mm, round 700 mm\nat 75 mm, round 560 mm'));
    const cone = figuresOf(spec('cone round 560 to 700 mm, high 75 mm, wrap 180 deg'));
    for (const name of ['blank.long', 'blank.wide', 'blank.area']) {
      const [ours, exact] = [figures.get(`part.${name}`)!, cone.get(`part.${name}`)!];
      assert.equal(ours.low, undefined);
      assert.equal(ours.basis, 'geometry');
      assert.ok(Math.abs(ours.value / exact.value - 1) < 0.001, `${name}: ${ours.value} and ${exact.value}`);
    }
    assert.equal(figures.get('part.thickness.least')!.value, 1.5);
  });

  it('edges that need more are cut further out', () => {
    const bare = figuresOf(spec(SKULL));
    const more = figuresOf(spec(`${SKULL}\nedge rim long 6 mm`));
    const grown = more.get('part.blank.wide')!.value - bare.get('part.blank.wide')!.value;
    assert.ok(Math.abs(grown - 6) < 0.01, `${grown}`);
    assert.match(more.get('part.blank.wide')!.formula, /a\(rim\) further out/);
  });

  it('names the model and its parameters', () => {
    const figures = figuresOf(spec(`${SKULL}\nraise`));
    const needed = figures.get('part.blank.needed-long')!;
    assert.match(needed.worked, /^flat plate of least E\(3, 0\.0\d*\), \d+ triangles$/);
    assert.match(needed.source, /Least E = .*raised.*not tested on metal/);
    assert.equal(needed.basis, 'common practice');
    const cut = figures.get('part.blank.long')!;
    assert.match(cut.source, /A\. F\. Rose/);
    assert.equal(cut.basis, 'published');
  });

  it('an edit of another line lays nothing flat again', () => {
    const laid = (text: string) => {
      const model = modelFrom(text);
      return model.pieces()[0]!.laidFlat();
    };
    const first = laid(spec(SKULL));
    assert.ok(first);
    assert.equal(laid(spec(SKULL, '  planish\n')), first);
    assert.equal(laid(spec(SKULL, '  edge rim long 6 mm\n')), first);
    assert.notEqual(laid(spec(SKULL, '  raise\n')), first);
    assert.notEqual(laid(spec('half dome 241 x 180 mm, deep 150 mm')), first);
  });

  it('the outline of a bay is in the blank', () => {
    const whole = figuresOf(spec('form wrap 190 deg\nat 0 mm, round 973 mm\nat 260 mm, round 1123 mm'));
    const cut = figuresOf(
      spec(
        'form wrap 190 deg\nat 0 mm, round 973 mm\nat 260 mm, round 1123 mm\ncut neck from 95 mm on top to 95 mm on top, deep 40 mm',
      ),
    );
    assert.ok(cut.get('part.blank.area')!.value < whole.get('part.blank.area')!.value - 1000);
    assert.ok(Math.abs(cut.get('part.blank.area')!.value / cut.get('part.area')!.value - 1) < 0.001);
  });
});

describe('strips of trim', () => {
  const strip = (form: string, more = '') =>
    figuresOf(`material plate
  mild steel 1.5 mm
piece bowl
  from plate
  ${form}
piece part
  from plate
  trim along bowl.rim, wide 18 mm, inset 0 mm
${more}`);

  it('lie flat as curved as their line is in its surface', () => {
    // The rim of a cap turns by a full turn less the curvature above it: 2π cos θ, θ from the crown to the rim.
    const figures = strip('dome 200 mm, deep 60 mm');
    const θ = 2 * Math.atan(0.6);
    const long = figures.get('part.blank.long')!;
    const sphere = (100 ** 2 + 60 ** 2) / 120;
    // Its middle lies one thickness outside the middle of the bowl's plate.
    const radius = (sphere + 1.5) * Math.tan(θ);
    const half = Math.PI * Math.cos(θ);
    assert.ok(Math.abs(long.value - 2 * (radius + 9) * Math.sin(half)) < 0.5, `${long.value}`);
    assert.match(long.note!, /bowl.rim turns by 169\.4\d* deg in its surface.*stretch and shrink by up to 4\.\d+ %/);
    const area = figures.get('part.blank.area')!.value;
    assert.ok(Math.abs(area - 18 * 2 * half * radius) < 15, `${area}`);
    const longer = strip('dome 200 mm, deep 60 mm', '  edge left long 5 mm\n').get('part.blank.area')!.value;
    assert.ok(Math.abs(longer - area - 5 * 18) < 1e-6);
  });

  it('are straight where the line does not turn', () => {
    const figures = strip('dome 200 mm, deep 100 mm');
    assert.equal(figures.get('part.blank.wide')!.value, 18);
    assert.match(figures.get('part.blank.long')!.note!, /does not turn in its surface: the strip is straight/);
  });

  it('are as long as where they lie: half of both thicknesses outside, straight or curved, and as far in as they say', () => {
    const long = (form: string, edge: string, more = '', plate = '3 mm') =>
      figuresOf(`material plate
  mild steel ${plate}
material bronze
  bronze 1 mm
piece bowl
  from plate
  ${form}
piece part
  from bronze
  trim along bowl.${edge}, wide 18 mm${more}
`).get('part.top.length')!.value;
    const near = (found: number, wanted: number) =>
      assert.ok(Math.abs(found - wanted) < 0.01, `${found}, not ${wanted}`);
    near(long('cylinder round 400 mm, high 80 mm', 'top'), 400 + 4 * Math.PI);
    near(long('cylinder round 400 mm, high 80 mm, wrap 90 deg', 'bottom'), 100 + Math.PI);
    near(
      long('oval dome 240 x 180 mm, deep 90 mm', 'rim', ', inset 0 mm'),
      long('half dome 240 x 180 mm, deep 90 mm', 'rim', ', inset 0 mm') * 2,
    );
    // On a half sphere 9 mm in the circle is R cos(9/R), and both edges of the strip lie half its width to either side.
    const radius = 102;
    const at = (in_: number) => 2 * Math.PI * (radius * Math.cos(9 / 100) - in_ * Math.sin(9 / 100));
    near(long('dome 200 mm, deep 100 mm', 'rim'), at(9));
    near(long('cylinder round 400 mm, high 80 mm', 'left'), 80);
  });

  it('end with the edge that they follow, lie on the middle of a seam, and are drawn and drilled so', () => {
    const spec = (form: string, edge: string, inset = '') => `material plate
  mild steel 1.5 mm
rivet small
  mild steel 3 x 6 mm, domed
piece bowl
  from plate
  ${form}
piece part
  from plate
  trim along bowl.${edge}, wide 18 mm${inset}
seam row
  joins part, bowl
  along bowl.${edge}
  rivets small, every 30 mm, inset 9 mm, peened domed
`;
    const insetOf = (text: string) => modelFrom(text).pieces()[1]!.baseLine()!.points[0]![2];
    assert.ok(Math.abs(insetOf(spec('cylinder round 400 mm, high 80 mm', 'top')) - 71) < 0.01);
    assert.ok(Math.abs(insetOf(spec('cylinder round 400 mm, high 80 mm', 'bottom')) - 9) < 0.01);
    assert.ok(Math.abs(insetOf(spec('cylinder round 400 mm, high 80 mm', 'top', ', inset 4 mm')) - 76) < 0.01);
    const ring = modelFrom(spec('cylinder round 400 mm, high 80 mm', 'left')).pieces()[1]!.form()!;
    assert.ok(ring.kind === 'trim' && ring.inset === 0);
    const open = modelFrom(spec('cylinder round 400 mm, high 80 mm, wrap 180 deg', 'left')).pieces()[1]!.form()!;
    assert.ok(open.kind === 'trim' && open.inset === 9);
  });
});
