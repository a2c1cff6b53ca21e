import assert from 'node:assert/strict';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { modelFrom } from '../support.ts';

/*
 * Every figure of small specs that go through each form and each way of working it, as it was looked at: its value and range, its
 * formula with the numbers put in, what is said beside it, and the blank as it is cut. What is right about them is held by other tests; this
 * one holds that nothing of it moves unseen.
 */

/** From the root, since these tests also run as one file of plain JavaScript. */
const FOLDER = 'test/model/figures/looked-at';

const shortly = (value: number | undefined) => (value === undefined ? '' : String(Number(value.toPrecision(9))));

function told(spec: string): string {
  const model = modelFrom(spec);
  const figures = model.figures().flatMap((set) => set.all());
  const blanks = model.pieces().flatMap((piece) => {
    const worked = piece.workedBlank();
    if (!worked) return [`${piece.name}: no blank`];
    const { blank, needed, least, most } = worked;
    const { shape } = blank;
    const sizes = [blank, needed, least, most].map((size) => size && `${shortly(size.long)} x ${shortly(size.wide)}`);
    const outline = shape.kind === 'outline' ? ` of ${shape.points.length} points` : '';
    return [
      `${piece.name}: ${shape.kind}${outline}, ${sizes.join(', ')}; ${blank.allowances.map(({ edge, what }) => `${edge} ${what}`).join(', ')}`,
    ];
  });
  return [
    ...figures.map(({ name, value, low, high, unit, worked, basis, inputs, outside, note }) =>
      [
        `${name} = ${shortly(value)} ${unit}`,
        low === undefined ? '' : `(${shortly(low)} to ${shortly(high)})`,
        `[${worked}; ${basis}; from ${inputs.join(', ') || 'nothing'}]`,
        [outside, note].filter(Boolean).join(' '),
      ]
        .filter(Boolean)
        .join(' '),
    ),
    ...blanks,
  ].join('\n');
}

describe('figures that were looked at', function () {
  this.timeout(60_000);

  for (const file of readdirSync(FOLDER)
    .filter((name) => name.endsWith('.planish'))
    .sort())
    it(file.replace('.planish', ''), () => {
      const expected = `${FOLDER}/${file.replace('.planish', '.txt')}`;
      const found = `${told(readFileSync(`${FOLDER}/${file}`, 'utf8'))}\n`;
      if (process.env['UPDATE'] === '1') writeFileSync(expected, found);
      assert.equal(found, readFileSync(expected, 'utf8'), 'look at what changed, and run with UPDATE=1 if it is right');
    });
});
