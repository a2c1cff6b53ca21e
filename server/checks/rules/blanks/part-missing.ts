import { say } from '../../../../l10n/say.ts';
import type { LineReading } from '../../../model/names/line-reading.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import { type Alike, differentGores } from '../../../trade/dome/gores.ts';
import { addingLine, type Check } from '../../check.ts';
import { pieces } from '../../support/things.ts';
import { isOwn, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'part-missing',
  title: 'A half without its other half, or gores that are not all there',
  family: 'Blanks',
  severity: 'warning',
  what: 'A piece is a half or a gore of a form, and all pieces of that form together do not make up the whole: one half, fewer gores than the dome has, or an oval dome of which a shape of gore has no piece. Those of an oval dome differ, but for front and back, left and right.',
  why: 'Cut list, mass and price count what is written: the other half, or five gores of six, would be missing at the bench.',
  todo: 'Say how many: make 2, mirrored; or give each different gore a piece: gore 2.',
  source: 'Geometry: the two planes in which an oval is like itself',
  example: `material plate
  mild steel 1.2 mm
piece skull
  from plate
  half dome 248 x 204 mm, deep 90 mm
  dish
`,
  better: `material plate
  mild steel 1.2 mm
piece skull
  from plate
  make 2, mirrored
  half dome 248 x 204 mm, deep 90 mm
  dish
`,
  run(model, report) {
    const wholes = new Map<string, Part[]>();
    for (const part of parts(model)) wholes.set(part.of, [...(wholes.get(part.of) ?? []), part]);
    for (const all of wholes.values()) {
      const [first] = all as [Part, ...Part[]];
      const { piece, line } = first;
      if (!first.gores) {
        if (all.reduce((sum, each) => sum + each.piece.make(), 0) >= 2) continue;
        report(placeIn(piece, line), {
          message: say`“${piece.name}” is one half, and nothing makes the other.`,
          fixes:
            isOwn(piece, line) && !piece.line('make')
              ? [addingLine(line.file.uri, 'Make both halves', line.place, 'make 2, mirrored')]
              : [],
        });
        continue;
      }
      const made = (alike: Alike) =>
        all.filter((each) => alike.gores.includes(each.which!)).reduce((sum, each) => sum + each.piece.make(), 0);
      const missing = first.gores.filter((alike) => made(alike) < alike.gores.length);
      const [one] = missing;
      if (!one) continue;
      const words = missing.map((alike) => say`gore ${alike.gores[0]} (${made(alike)} of ${alike.gores.length})`);
      report(placeIn(piece, line), {
        message: say`Not all gores of this dome are made: ${words.join(', ')}.${first.gores.length > 1 ? say` Each shape wants a piece of its own.` : ''}`,
        fixes: [],
      });
    }
  },
};

interface Part {
  readonly piece: PieceModel;
  readonly line: LineReading;
  /** The whole that it is a part of. */
  readonly of: string;
  /** The different gores of that, and which this is. */
  readonly gores?: readonly Alike[];
  readonly which?: number;
}

const parts = pieces.list((piece): Part[] => {
  const form = piece.form();
  const line = piece.formLine();
  if (!form || !line) return [];
  if (form.kind === 'half dome') return [{ piece, line, of: `half ${form.long} ${form.wide} ${form.deep}` }];
  // One level is a line that is not finished, and has its own mark.
  if (form.kind === 'loft' && form.shape.wrap === 'half' && form.shape.levels.length > 1)
    return [{ piece, line, of: `half ${JSON.stringify(form.shape)}` }];
  if (form.kind !== 'gore dome') return [];
  const { long, wide, deep, gores, which } = form;
  return [{ piece, line, of: `gores ${gores} ${long} ${wide} ${deep}`, gores: differentGores(form), which }];
});
