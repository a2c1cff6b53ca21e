import assert from 'node:assert/strict';
import { offset } from '../../../server/geometry/outline/allowance.ts';
import { boxOfPath, signedArea } from '../../../server/geometry/outline/measure.ts';
import { layoutsOf } from '../../../server/output/documents/patterns/layouts.ts';
import { patternsOf } from '../../../server/output/documents/patterns/patterns-of.ts';
import { modelFrom } from '../../model/support.ts';

const model = (kerf: string) =>
  modelFrom(`planish 1
build "Brackets"
  make 1
material plate
  mild steel 1.5 mm
  sheet 1000 x 2000 mm
${kerf}piece bracket
  from plate
  make 2
  plate 100 x 60 mm
  hole 10 mm, at 30 mm from left and 30 mm from bottom
  hole 0.3 mm, at 60 mm from left and 30 mm from bottom
`);
const today = { date: '2027-03-01', problems: [] };
const patternIn = (kerf: string, aside: boolean) =>
  patternsOf(model(kerf), { ...today, kerf: aside }).patterns.find(({ piece }) => piece === 'bracket')!;
const area = ({ path }: { path: Parameters<typeof signedArea>[0] }) => Math.abs(signedArea(path));
const close = (a: number, b: number, within = 1e-6) => assert.ok(Math.abs(a - b) <= within, `${a} is not ${b}`);

describe('the kerf', () => {
  const moved = patternIn('  kerf 0.4 mm\n', true);
  const [outline, ...others] = moved.lines;

  it('lies in the waste: outside the outline, inside the holes', () => {
    close(area(outline!), 100 * 60 + 320 * 0.2 + Math.PI * 0.2 ** 2);
    const holes = others.filter(({ kind }) => kind === 'hole');
    assert.equal(holes.length, 1, 'a hole narrower than the kerf is left out, and said');
    close(area(holes[0]!), Math.PI * 4.8 ** 2);
    assert.ok(moved.notes.some((note) => note.includes('Narrower than the kerf and left out: 1.')));
  });

  it('followed by a cutter of its width, leaves the part as it is drawn', () => {
    const [left] = offset(outline!.path, -0.2);
    close(signedArea(left!), 100 * 60);
    const box = boxOfPath(left!);
    close(box.right - box.left, 100);
    close(box.top - box.bottom, 60);
  });

  it('is left alone unless it is asked for, and said where it is not known', () => {
    for (const plain of [patternIn('  kerf 0.4 mm\n', false), patternIn('', true)]) close(area(plain.lines[0]!), 6000);
    assert.ok(patternIn('', true).notes.some((note) => note.includes('says no kerf')));
  });

  it('is said above the sheet too, with what it leaves out', () => {
    const above = (kerf: string, aside: boolean) => {
      const { laid, high } = layoutsOf(model(kerf), { ...today, kerf: aside }).sheets[0]!;
      const [, ...notes] = laid[0]!.plan.texts;
      assert.ok(laid[0]!.plan.texts.every(({ y, size }) => y > laid[0]!.plan.high && y + size < high));
      return notes.map(({ text }) => text);
    };
    assert.deepEqual(above('  kerf 0.4 mm\n', true), [
      'Cut lines lie half the kerf of 0.4 mm in the waste: the cutter must not allow for it again.',
      'bracket: Narrower than the kerf and left out: 1.',
    ]);
    assert.deepEqual(above('', true), ['Its material says no kerf: cut lines lie where the part ends.']);
    assert.deepEqual(above('  kerf 0.4 mm\n', false), []);
  });

  it('keeps every blank in its place on the sheet', () => {
    const [plain, aside] = [false, true].map(
      (kerf) => layoutsOf(model('  kerf 0.4 mm\n'), { ...today, kerf }).sheets[0]!,
    );
    const middles = (sheet: typeof plain) =>
      sheet!.laid.slice(1).map(({ plan, x, y }) => {
        const { left, right, bottom, top } = boxOfPath(plan.outline);
        return [x + (left + right) / 2, y + (bottom + top) / 2];
      });
    assert.equal(middles(aside).length, 2);
    for (const [i, [x, y]] of middles(aside).entries()) {
      close(x!, middles(plain)[i]![0]!);
      close(y!, middles(plain)[i]![1]!);
    }
  });
});
