import assert from 'node:assert/strict';
import fs from 'node:fs';
import { typedLines } from '../../../.scripts/typed-lines.ts';
import { sections } from '../../../grammar/vocabulary/index.ts';
import { modelFrom } from '../support.ts';

/* What must not compile: the type checker reads this file, and fails where one of the lines below is no error any more. */

const SPEC = `material sheet
  mild steel 1.2 mm

piece cap
  from sheet
  dome 200 mm, deep 60 mm
  hole 5 mm, at 12 mm from rim
  edge rim hemmed 6 mm, double
`;

describe('a line that is read', () => {
  const model = modelFrom(SPEC);
  const cap = model.pieces()[0]!;

  it('is asked for what its notation has', () => {
    assert.equal(cap.line('hole')?.length('diameter'), 5);
    assert.equal(cap.line('hole')?.length('across', 'at'), 12);
    assert.equal(cap.line('dome')?.length('deep', 'deep'), 60);
    assert.equal(cap.line('edge hemmed')?.has('double'), true);
  });

  it('does not compile with a slot, a qualifier or a word that it has not', () => {
    // @ts-expect-error: a misspelt slot
    assert.equal(cap.line('hole')?.length('diametre'), undefined);
    // @ts-expect-error: the depth of a dome stands behind the comma, not in the line itself
    assert.equal(cap.line('dome')?.length('deep'), undefined);
    // @ts-expect-error: a dome has no wrap
    assert.equal(cap.line('dome')?.has('wrap'), false);
    // @ts-expect-error: no word of a hem
    assert.equal(cap.line('edge hemmed')?.word('trebly'), false);
    // @ts-expect-error: no line of a piece
    assert.equal(cap.line('coil'), undefined);
    // @ts-expect-error: no such line
    assert.equal(model.shopLine('gauge'), undefined);
  });

  it('does not compile with a slot of another type', () => {
    // @ts-expect-error: a length is no angle
    assert.equal(cap.line('hole')?.measure('angle', 'diameter'), undefined);
    // @ts-expect-error: a length is no text
    assert.equal(cap.line('hole')?.text('diameter'), '');
    // @ts-expect-error: a material is no length
    assert.equal(cap.line('from')?.length('material'), undefined);
  });

  it('is narrowed to the line that it is', () => {
    for (const line of cap.lines())
      if (line.is('dome')) {
        assert.equal(line.length('diameter'), 200);
        // @ts-expect-error: the width of a hem is no measure of a dome
        assert.equal(line.length('hem'), undefined);
      }
  });

  it('has its types from the vocabulary (npm run generate)', () => {
    const made = fs.readFileSync(new URL('../../../grammar/generated/lines.ts', import.meta.url), 'utf8');
    assert.equal(made, typedLines());
    for (const { lines } of sections) for (const { id } of lines) assert.ok(made.includes(`readonly id: '${id}';`), id);
  });
});
