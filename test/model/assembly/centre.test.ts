import assert from 'node:assert/strict';
import { figuresOf, figureValue, modelFrom } from '../support.ts';

const PLATE = 'build "Bell"\nmaterial plate\n  mild steel 1.5 mm\n';
const near = (is: number, should: number, within: number, what = '') =>
  assert.ok(Math.abs(is - should) < within, `${what} ${is} for ${should}`);

describe('the centre of mass of what is put together', () => {
  it('of a half sphere on a tube of its girth, 50 mm high, lies 75 mm above the foot', () => {
    // Each by its own metal: even plates by their areas, 2πR² at R/2 above the tube and 2πRh at h/2.
    const figures = figuresOf(`${PLATE}piece bowl
  from plate
  dome 200 mm, deep 100 mm
piece wall
  from plate
  cylinder round ${200 * Math.PI} mm, high 50 mm
seam foot
  joins bowl, wall
  along bowl.rim
  along wall.top
  weld
`);
    const [bowl, wall] = ['bowl.mass', 'wall.mass'].map((name) => figures.get(name)!.value);
    near(figures.get('build.centre.up')!.value, (bowl! * 100 + wall! * 25) / (bowl! + wall!), 0.05, 'by mass');
    near(figures.get('build.centre.up')!.value, 75, 0.1);
    near(figures.get('build.centre.front')!.value, 0, 1e-6);
    near(figures.get('build.centre.right')!.value, 0, 1e-6);
  });

  it('of two halves is that of the whole; of one side it is off to that side', () => {
    const halves = (more: string) => `${PLATE}piece half
  from plate
  make 2, mirrored
  half dome 200 x 200 mm, deep 100 mm
seam ridge
  joins left half, right half
  along half.middle
  weld
${more}`;
    const model = modelFrom(halves(''));
    near(figureValue(model, 'build.centre.up'), 50, 0.05);
    near(figureValue(model, 'build.centre.right'), 0, 1e-9);
    // A plate on the left rim alone pulls it there: left is less than nothing.
    const band = figuresOf(
      halves(`piece flap
  from plate
  cylinder round ${200 * Math.PI} mm, high 60 mm, wrap 90 deg
seam cheek
  joins left half, flap
  along half.rim, from ${50 * Math.PI * 0.5} mm to ${50 * Math.PI * 1.5} mm
  along flap.top
  weld
`),
    );
    const [half, flap] = ['half.mass', 'flap.mass'].map((name) => band.get(name)!.value);
    const out = (100 * Math.sin(Math.PI / 4)) / (Math.PI / 4);
    near(band.get('build.centre.right')!.value, (-flap! * out) / (2 * half! + flap!), 0.05);
    near(band.get('build.centre.up')!.value, (2 * half! * 50 - flap! * 30) / (2 * half! + flap!) + 60, 0.05);
  });

  it('of flat plates is exact, where they stand', () => {
    const found = figuresOf(`${PLATE}piece one
  from plate
  plate 80 x 60 mm
piece two
  from plate
  plate 40 x 60 mm
seam join
  joins one, two
  along one.right
  along two.left
  weld
`);
    near(Math.abs(found.get('build.centre.right')!.value), (40 * 60) / 120, 1e-6);
    near(found.get('build.centre.up')!.value, 30, 1e-6);
  });

  it('tells the balance of a helm by where its plates stand, turned or tipped', () => {
    const helm = figuresOf(`build "Helm"
  duty stage
wearer guard
  head round 585 mm
material plate
  mild steel 1.5 mm
piece skull
  from plate
  fits guard head, liner 10 mm, ease 6 mm
  cylinder round 700 mm, high 100 mm, inside
piece face
  from plate
  cylinder round 700 mm, high 100 mm, wrap 90 deg, inside
seam brow
  joins skull, face
  along skull.bottom, from 262.5 mm to 437.5 mm
  along face.top
  weld
`);
    const [skull, face] = ['skull.mass', 'face.mass'].map((name) => helm.get(name)!.value);
    const radius = 700 / (2 * Math.PI) + 0.75;
    const before = (radius * Math.sin(Math.PI / 4)) / (Math.PI / 4);
    const should = (face! * before) / (skull! + face!);
    near(Math.abs(helm.get('build.helm-front')!.value), should, 0.3);
    near(helm.get('build.helm-front')!.value, helm.get('build.centre.front')!.value, 1e-6);
  });
});
