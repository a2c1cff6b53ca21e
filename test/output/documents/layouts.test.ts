import assert from 'node:assert/strict';
import { problemsOf } from '../../../server/checks/run.ts';
import { lengthOfPath, signedArea } from '../../../server/geometry/outline/measure.ts';
import { atOnce } from '../../../server/incremental/steps.ts';
import { cutListOf } from '../../../server/output/documents/cut-list-of.ts';
import { layoutsOf, writeLayout } from '../../../server/output/documents/patterns/layouts.ts';
import { boxOf } from '../../../server/output/documents/patterns/paths.ts';
import { builds, sample } from '../../samples/support.ts';

describe('sheet layouts', () => {
  for (const file of builds)
    it(`hold every blank of the cut list that is laid, apart, inside the margin: ${file}`, () => {
      const model = sample(file);
      const options = { date: '2027-03-01', problems: problemsOf(model) };
      const made = layoutsOf(model, options);
      const laid = cutListOf(model, options).materials.flatMap(({ layout, stock }) =>
        (layout?.sheets ?? []).map((sheet) => ({ sheet, stock })),
      );
      assert.equal(made.sheets.length, laid.length);
      for (const [i, { sheet, stock }] of laid.entries()) {
        const blanks = made.sheets[i]!.laid.slice(1);
        assert.equal(blanks.length, sheet.placements.length);
        const boxes = blanks.map(({ plan, x, y }) => {
          const { left, right, bottom, top } = boxOf([plan.outline]);
          return { left: left + x, right: right + x, bottom: bottom + y, top: top + y };
        });
        const near = 0.11;
        for (const [j, one] of boxes.entries()) {
          assert.ok(one.left >= stock.margin - near && one.right <= sheet.long - stock.margin + near);
          assert.ok(one.bottom >= stock.margin - near && one.top <= sheet.wide - stock.margin + near);
          for (const other of boxes.slice(0, j)) {
            const gap = Math.max(
              one.left - other.right,
              other.left - one.right,
              one.bottom - other.top,
              other.bottom - one.top,
            );
            assert.ok(gap >= stock.kerf - near, `${gap}`);
          }
        }
        const area = blanks.reduce((sum, { plan }) => {
          const openings = plan.pattern.lines.filter(({ kind }) => kind === 'opening');
          // What a drawing cuts out of its outline is no part of the blank's area; what the spec opens in it is.
          const drawn =
            model
              .pieces()
              .find(({ name }) => name === plan.pattern.piece)
              ?.form()?.kind === 'drawing';
          const out = drawn ? openings.reduce((all, { path }) => all + Math.abs(signedArea(path)), 0) : 0;
          return sum + Math.abs(signedArea(plan.outline)) - out;
        }, 0);
        const round = blanks.reduce((sum, { plan }) => sum + lengthOfPath(plan.outline), 0);
        assert.ok(Math.abs(area - sheet.used) <= 0.05 * round, `${area} and ${sheet.used}`);
      }
    });

  it('turn the other one of a pair over, its words still to be read, and write the sheet beside them', () => {
    const model = sample('knee/knee.planish');
    const made = layoutsOf(model, { date: '2027-03-01', problems: [] });
    const sheet = made.sheets.find(({ name }) => name === 'skull-plate-1')!;
    const fans = sheet.laid.filter(({ plan }) => plan.pattern.piece === 'fan');
    assert.deepEqual(
      fans.map(({ plan }) => Math.sign(signedArea(plan.outline))),
      [1, -1],
    );
    const words = fans.map(({ plan }) => plan.texts.map(({ text }) => text));
    assert.ok(words[0]!.includes('fan 1') && words[1]!.includes('fan 2, face down'));
    for (const to of ['svg', 'dxf'] as const)
      assert.ok([...writeLayout(made, sheet, to)].length >= sheet.laid.length, 'others may go first at every blank');
    const svg = atOnce(writeLayout(made, sheet, 'svg'));
    assert.ok(svg.includes('skull-plate, offcut 1 of 1, 640 × 430 mm') && svg.includes('class="sheet"'));
    assert.match(atOnce(writeLayout(made, sheet, 'dxf')), /AC1009/);
    assert.ok(made.missing.some(({ piece, reason }) => piece === 'side-leather' && reason.includes('hide')));
  });
});
