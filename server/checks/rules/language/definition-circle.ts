import { say } from '../../../../l10n/say.ts';
import { LineReading } from '../../../model/names/line-reading.ts';
import type { Named } from '../../../model/names/spec-file.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import type { Check } from '../../check.ts';
import { pieces } from '../../support/things.ts';

export const check: Check = {
  code: 'definition-circle',
  title: 'A thing is made from itself',
  family: 'Language',
  severity: 'error',
  what: 'A measure, or a piece with like, lies or trim, leads back to itself over one or more others.',
  why: 'Each waits for the other, and neither has a size.',
  todo: 'Give one of the circle a measure or a form of its own.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece upper
  from plate
  lies under lower, gap 1 mm, high 45 mm
piece lower
  from plate
  lies under upper, gap 1 mm, high 45 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece upper
  from plate
  cylinder round 400 mm, high 45 mm
piece lower
  from plate
  lies under upper, gap 1 mm, high 45 mm
`,
  run(model, report) {
    const state = new Map<PieceModel, 'open' | 'done'>();
    const visit = (start: PieceModel) => {
      const way: { piece: PieceModel; needs: { to: PieceModel; line: LineReading }[]; at: number }[] = [];
      const enter = (piece: PieceModel) => {
        state.set(piece, 'open');
        way.push({ piece, needs: needsOf(piece), at: 0 });
      };
      enter(start);
      while (way.length) {
        const top = way[way.length - 1]!;
        const need = top.needs[top.at++];
        if (!need) {
          state.set(top.piece, 'done');
          way.pop();
          continue;
        }
        const seen = state.get(need.to);
        if (!seen) enter(need.to);
        if (seen !== 'open') continue;
        const from = way.findIndex((each) => each.piece === need.to);
        const circle = way.slice(from);
        const names = inShort([...circle.map((each) => each.piece.name), need.to.name]);
        for (const { piece, needs, at } of circle) {
          const { line } = needs[at - 1]!;
          if (piece.named.file === model.file)
            report(line.place, { message: say`“${piece.name}” takes its shape from itself: ${names}.` });
        }
      }
    };
    for (const piece of leaning(model)) if (!state.has(piece)) visit(piece);
  },
};

/** Each piece of the circle says it: of a long one a few names are enough. */
function inShort(names: readonly string[]): string {
  const left = names.length - 2 * MOST_AT_AN_END;
  const said =
    left > 1 ? [...names.slice(0, MOST_AT_AN_END), say`${left} more`, ...names.slice(-MOST_AT_AN_END)] : names;
  return said.join(' → ');
}
const MOST_AT_AN_END = 5;

const leaning = pieces.list((piece) => (needsOf(piece).length ? [piece] : []));

/** The pieces that a piece takes its shape from, by its own lines. */
function needsOf(piece: PieceModel): { to: PieceModel; line: LineReading }[] {
  const { named } = piece;
  return named.section.lines.flatMap((each) => {
    const id = each.word?.id;
    if (id !== 'like' && id !== 'lies' && id !== 'trim') return [];
    const line = new LineReading(named.file, each);
    const other = targetOf(line, id);
    return other?.kind === 'piece' ? [{ to: piece.model.pieceOf(other), line }] : [];
  });
}

function targetOf(line: LineReading, id: 'like' | 'lies' | 'trim'): Named | undefined {
  if (id === 'like') return line.named('piece');
  if (id === 'lies') return line.named('neighbour');
  const word = line.filled('edge')?.items[0];
  const key = word?.kind === 'word' ? word.key.split('.') : [];
  return key.length > 1 ? line.file.find(key[0]!) : undefined;
}
