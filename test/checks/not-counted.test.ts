import assert from 'node:assert/strict';
import { cutListInputOf } from '../../server/output/documents/cut-list-of.ts';
import { modelIn, problemsIn } from './specs.ts';

const SPEC = `build "Elbow"
material plate
  mild steel 1.5 mm
material arm-leather
  veg-tan leather 8 oz
part hook
  price 2.00
rivet small
  mild steel 1/8 x 3/8 in, domed
piece upper
  from plate
  plate 100 x 50 mm
  edge top soft arm-leather
piece lower
  from plate
  disc 60 mm
seam hooked
  joins hook, upper
  along upper.bottom
  rivets small, every 30 mm, inset 8 mm
seam sewn
  joins lower, upper
  sew "waxed linen"
joint elbow
  plates upper, lower
  pivots small, inset 10 mm, left
  leathers arm-leather, wide 20 mm
finish parade
  on upper
  paint "harbour grey", coats 2
shop bench
  wire 1/8 in
order bench-order
  together lower, upper
`;

const WANTED = [
  'soft edge upper.top',
  'length of the rivets of hooked',
  'thread of sewn',
  'leathers of elbow',
  'paint of parade',
  'wire 1/8 in',
  'together lower, upper',
];

describe('what is read and not counted', () => {
  it('is said once, by name, at the build, and each at its place', () => {
    const found = problemsIn(SPEC).filter(({ code }) => code === 'not-counted');
    assert.equal(found.length, 1);
    assert.equal(found[0]!.message, `In no list and no sum yet: ${WANTED.join('; ')}.`);
    assert.deepEqual(
      found[0]!.related.map(({ message }) => message.split(': ')[0]),
      WANTED,
    );
    const { text } = found[0]!.related[3]!.place.section;
    assert.ok(text.startsWith('joint elbow'));
  });

  it('heads the paper', () => {
    const { unreckoned } = cutListInputOf(modelIn(SPEC), { date: '2026-12-01', problems: [] });
    assert.deepEqual(
      unreckoned?.map(({ what }) => what),
      WANTED,
    );
  });

  it('is told with the mass that leaves it out', () => {
    const note = modelIn(SPEC).buildFigures().get('mass')?.note ?? '';
    for (const what of ['hook', 'soft edge upper.top', 'thread of sewn', 'leathers of elbow', 'paint of parade'])
      assert.ok(note.includes(what), note);
  });

  it('is nothing where all is counted', () => {
    const plain = SPEC.slice(0, SPEC.indexOf('seam hooked')).replace('  edge top soft arm-leather\n', '');
    assert.deepEqual(
      problemsIn(plain).filter(({ code }) => code === 'not-counted'),
      [],
    );
  });

  it('is told of a long spec by its first dozen, and how many more there are', () => {
    const finishes = Array.from(
      { length: 30 },
      (_, i) => `finish coat-${i}\n  on upper\n  paint "grey", coats 2\n`,
    ).join('');
    const [found] = problemsIn(
      `build "Many"\nmaterial plate\n  mild steel 1.5 mm\npiece upper\n  from plate\n  plate 100 x 50 mm\n${finishes}`,
    ).filter(({ code }) => code === 'not-counted');
    assert.equal(found!.related.length, 12);
    assert.match(found!.message, / and 18 more: the order list has all of them\.$/);
  });
});
