import { say } from '../../../../l10n/say.ts';
import { kindOf } from '../../../model/forms/index.ts';
import type { Model } from '../../../model/spec.ts';
import type { PieceModel } from '../../../model/things/piece.ts';

import type { Check } from '../../check.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'blank-not-known',
  title: 'A piece of which no blank can be worked out',
  family: 'Blanks',
  severity: 'warning',
  what: 'The line of the form is whole, and still there is no blank: the piece that it lies on or follows has no such section, edge or line.',
  why: 'The piece is missing from the cut list, the patterns, the mass and the price, and a sum that leaves it out looks like any other.',
  todo: 'Say the form in another way, or give the blank yourself: `blank 120 x 80 mm`.',
  source: 'Planish',
  example: `material plate
  mild steel 1.5 mm
piece flap
  from plate
  plate 90 x 60 mm
piece cover
  from plate
  lies over flap, gap 1 mm, high 40 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece flap
  from plate
  plate 90 x 60 mm
piece cover
  from plate
  lies over flap, gap 1 mm, from bottom to 40 mm up
`,
  piece(piece, report, model) {
    const line = piece.formLine();
    if (!line || piece.blank() || piece.line('blank') || isSaidElsewhere(piece, line, model)) return;
    const neighbour = neighbourOf(piece, line);
    const why =
      line.id === 'lies' && neighbour
        ? say`“${neighbour.name}” has no section that could be taken over: say which part of it is covered, with “from … to …” or with “long …” and “wide …”`
        : neighbour
          ? say`the line on “${neighbour.name}” that it follows is not known`
          : piece.form()
            ? 'nothing works out such a form yet'
            : 'these measures make no such form';
    report(placeIn(piece, line), {
      message: say`No blank of “${piece.name}” can be worked out, and it is left out of every list: ${why}.`,
    });
  },
};

type FormLine = NonNullable<ReturnType<PieceModel['formLine']>>;

/** Whether something else is wrong with it or with what it hangs on, and says so there. */
function isSaidElsewhere(piece: PieceModel, line: FormLine, model: Model): boolean {
  if (piece.thickness() === undefined || piece.material()?.kind() === 'wire') return true;
  const sections = new Set([piece.named.section, line.line.section]);
  for (const section of sections) if (section.problems.length || model.file.findingsIn(section).length) return true;
  // A drawing that gives nothing has checks of its own.
  if (line.filled('file')) return true;
  const [laid, form] = [piece.flattening(), piece.form()];
  if (piece.formRefusals().length || (laid && 'refused' in laid)) return true;
  if (form && kindOf(form).refusal(form, piece)) return true;
  const neighbour = neighbourOf(piece, line);
  return neighbour !== undefined && (neighbour === piece || !neighbour.blank());
}

/** The piece that its form lies on or follows. */
function neighbourOf(piece: PieceModel, line: FormLine): PieceModel | undefined {
  const key = line.text('neighbour') ?? line.text('edge')?.split('.')[0];
  const named = key === undefined ? undefined : line.file.find(key);
  return named?.kind === 'piece' ? piece.pieceNamed(named) : undefined;
}
