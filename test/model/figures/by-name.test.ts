import assert from 'node:assert/strict';
import { FORMS, type Form } from '../../../server/model/forms/index.ts';
import type { Model } from '../../../server/model/spec.ts';
import { modelFrom, PLATE } from '../support.ts';

const PLATE_SVG =
  '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="60mm" viewBox="0 0 90 60"><path d="M0 0H90V60H0Z"/></svg>';
/** A line of nearly every kind that adds figures to a piece. */
const MORE = `  make 2
  edge bottom hemmed 6 mm
  edge top rolled over wire-3
  hole 5 mm, named sight
  hole 4 mm, named blank
material wire-3
  mild steel wire 3 mm
`;
const all = (model: Model) =>
  model.pieces().flatMap((piece) =>
    piece
      .figures()
      .all()
      .map((figure) => ({ piece, figure })),
  );

describe('figures of a piece by name', () => {
  for (const kind of Object.keys(FORMS) as Form['kind'][])
    it(`are those that all of them hold: ${kind}`, () => {
      const read = (): Model =>
        modelFrom({ 'helm.planish': `${PLATE}${FORMS[kind].example}${MORE}`, 'plate.svg': PLATE_SVG });
      const found = all(read());
      assert.ok(found.length > 5);
      const names = found.map(({ figure }) => figure.name.toLowerCase());
      assert.deepEqual([...new Set(names)], names, 'each once');
      // Each asked of a piece of which nothing was asked before.
      for (const { piece, figure } of found) {
        const fresh = read()
          .pieces()
          .find(({ name }) => name === piece.name)!;
        const { place: _, ...rest } = figure;
        const { place: __, ...asked } = fresh.figure(figure.name.slice(piece.name.length + 1))!;
        assert.deepEqual(asked, rest, figure.name);
      }
    });
});
