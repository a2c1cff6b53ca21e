import assert from 'node:assert/strict';
import { boxOfPath, signedArea } from '../../../server/geometry/outline/measure.ts';
import { patternsOf } from '../../../server/output/documents/patterns/patterns-of.ts';
import { modelIn, problemsIn } from '../../checks/specs.ts';

const DRAWING = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40">
  <rect id="bar" x="10" y="10" width="30" height="6"/><circle id="eye" cx="25" cy="28" r="5"/>
</svg>`;
const spec = (pierce: string, form = 'plate 200 x 120 mm') => ({
  'main.planish': `planish 1
material plate
  mild steel 2 mm
piece front
  from plate
  ${form}
  ${pierce}
`,
  'work.svg': DRAWING,
  'open.svg':
    '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9"><path d="M 0 0 H 8 V 8"/></svg>',
  'unsized.svg': DRAWING.replace('width="60mm" height="40mm" ', ''),
});
const figureOf = (files: ReturnType<typeof spec>, suffix: string) => modelIn(files).pieces()[0]!.figure(suffix)?.value;
const close = (a: number | undefined, b: number, within = 1e-6) =>
  assert.ok(a !== undefined && Math.abs(a - b) <= within, `${a} is not ${b}`);

describe('pierced work', () => {
  const files = spec('pierce sun "work.svg", at 40 mm from top and 30 mm from left');

  it('is taken off the mass, and has its area, the way of the saw and the metal left beside it', () => {
    const area = 30 * 6 + 25 * Math.PI;
    close(figureOf(files, 'sun.area'), area);
    close(figureOf(files, 'sun.sawn'), 72 + 10 * Math.PI);
    close(figureOf(files, 'mass'), ((200 * 120 - area) * 2 * 7.85) / 1000);
    // The box is 30 × 23 mm: 15 to the left of its middle, 11.5 above.
    close(figureOf(files, 'sun.edge-distance'), 30 - 15);
    close(figureOf(spec('pierce "work.svg", named "eye", at 40 mm from top'), 'pierce-3.area'), 25 * Math.PI);
  });

  it('over a form laid flat by numbers the metal left is measured over its surface', () => {
    const half = spec(
      'pierce sun "work.svg", at 60 mm from rim and 70 mm from middle',
      'half dome 240 x 180 mm, deep 150 mm',
    );
    close(figureOf(half, 'sun.edge-distance'), 60 - 11.5, 3);
  });

  it('is drawn where it stands, as it is drawn', () => {
    const [front] = patternsOf(modelIn(files), { date: '2027-03-01', problems: [] }).patterns;
    const drawn = front!.lines.filter(({ kind }) => kind === 'opening').map(({ path }) => path);
    assert.equal(drawn.length, 2);
    const boxes = drawn.map(boxOfPath);
    close(Math.min(...boxes.map(({ left }) => left)), 30 - 15);
    close(Math.max(...boxes.map(({ top }) => top)), 120 - 40 + 11.5);
    close(
      drawn.reduce((sum, path) => sum + signedArea(path), 0),
      180 + 25 * Math.PI,
    );
  });

  it('says at its place what is wrong with its drawing', () => {
    const codes = (pierce: string) => problemsIn(spec(pierce)).map(({ code }) => code);
    assert.ok(codes('pierce sun "none.svg", at 40 mm from top').includes('drawing-missing'));
    assert.ok(codes('pierce sun "open.svg", at 40 mm from top').includes('drawing-unusable'));
    assert.ok(codes('pierce sun "work.svg", named "eya", at 40 mm from top').includes('drawing-unusable'));
    assert.ok(codes('pierce sun "unsized.svg", at 40 mm from top').includes('drawing-unit-unsaid'));
    assert.ok(!codes('pierce sun "work.svg", at 40 mm from top').some((code) => code.startsWith('drawing')));
  });

  it('half typed never throws', () => {
    const whole = 'pierce sun "work.svg", named "eye", at 40 mm from top and 30 mm from left, before forming';
    for (let end = 0; end <= whole.length; end++) {
      const model = modelIn(spec(whole.slice(0, end)));
      problemsIn(spec(whole.slice(0, end)));
      patternsOf(model, { date: '2027-03-01', problems: [] });
    }
  });
});
