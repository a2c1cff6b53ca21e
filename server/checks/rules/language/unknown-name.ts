import { anyOf, nearest } from '../../../../grammar/nearest.ts';
import type { Bound, Filled } from '../../../../grammar/pattern.ts';
import type { Line, Section, Word } from '../../../../grammar/tree.ts';
import { say } from '../../../../l10n/say.ts';
import { LINES } from '../../../model/forms/form.ts';
import { isComputed } from '../../../model/forms/index.ts';
import { BOX_SIDES, ownOutline } from '../../../model/shapes/places.ts';
import type { Model } from '../../../model/spec.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import { type Check, type Report, replacing } from '../../check.ts';

export const check: Check = {
  code: 'unknown-name',
  title: 'A name that nothing has',
  family: 'Language',
  severity: 'error',
  what: 'A piece, material, rivet, measure, edge, opening, copy or rivet position is named that is not there: not in this file, not in those it uses, or not on that form.',
  why: 'What is not found cannot be measured, cut or counted, and everything that leans on it stays unknown.',
  todo: 'Correct the spelling, give the thing its section, or bring its file in with use.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 160 mm, deep 40 mm
  edge rum rolled, hollow 6 mm
`,
  better: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 160 mm, deep 40 mm
  edge rim rolled, hollow 6 mm
`,
  section(section, report, model) {
    for (const line of section.lines) {
      for (const bound of boundsOf(line)) {
        for (const [slot, all] of bound.slots) {
          for (const filled of all) {
            if (filled.type === 'edge')
              findEdge(model, section, filled, report, {
                isPlaced: PLACED.has(slot),
                isTurned: line.word?.group === 'edge',
              });
            else if (filled.copy) findCopy(model, section, filled, report);
          }
        }
      }
    }
  },
  seam(seam, report, model) {
    for (const { line, seam: named, position } of seam.shares()) {
      if (named?.kind !== 'seam') continue;
      const count = model.seamOf(named).rivetCount()?.value;
      if (count === undefined || position <= count) continue;
      report(line.place, {
        message: say`“${named.word.text}” has ${count} ${count === 1 ? say`rivet` : say`rivets`} in a row, and there is no ${ordinal(position)}.`,
      });
    }
  },
};

const boundsOf = (line: Line): readonly Bound[] => (line.head ? [line.head, ...line.qualifiers] : line.qualifiers);

/** Slots of what a place is measured from. */
const PLACED: ReadonlySet<string> = new Set(['line', 'line2']);

function findEdge(
  model: Model,
  section: Section,
  filled: Filled,
  report: Report,
  { isPlaced, isTurned }: { readonly isPlaced: boolean; readonly isTurned: boolean },
): void {
  const word = filled.items[0];
  if (word?.kind !== 'word') return;
  const dot = word.key.indexOf('.');
  const named =
    dot > 0
      ? model.file.find(word.key.slice(0, dot))
      : section.kind?.kind === 'piece' && section.name
        ? model.file.find(section.name.key)
        : undefined;
  if (named?.kind !== 'piece') return;
  const piece = model.pieceOf(named);
  const form = piece.form();
  // A form that is not read, or not computed yet, may have any edge.
  if (!form || !isComputed(form)) return;
  const edge = word.key.slice(dot + 1);
  if (edge === '') return;
  // A line on a form is no edge that could be turned, and not every form has every line.
  const isKnown = () => (section.kind?.kind === 'seam' ? piece.figure(`${edge}.length`) : piece.edgeLength(edge));
  if (LINES.includes(edge) && !isTurned && (isPlaced || isKnown())) return;
  const edges = [...piece.edgeNames(), ...(isPlaced && ownOutline(piece) ? BOX_SIDES : [])];
  if (edges.includes(edge) || ownNames(piece).has(edge)) return;
  const options = [...edges, ...ownNames(piece)];
  const near = nearest(edge, options) ?? (edges.length === 1 ? edges[0] : undefined);
  const text = word.text.slice(dot + 1);
  report(
    { section, from: word.from, to: word.to },
    {
      message: say`“${piece.name}” has no edge or opening “${text}”: it has ${anyOf(options, 5)}.`,
      fixes: near
        ? [
            replacing(
              model.file.uri,
              say`Change to ${near}`,
              { section, from: word.from + dot + 1, to: word.to },
              near,
              true,
            ),
          ]
        : [],
    },
  );
}

/** Names that a piece gives to its openings and cuts. */
const ownNames = (piece: PieceModel): ReadonlySet<string> =>
  new Set(
    piece.lines().flatMap((line) => {
      const item: Word | undefined = line
        .all('name')
        .flatMap((filled) => filled.items)
        .find((each): each is Word => each.kind === 'word');
      return item ? [item.key] : [];
    }),
  );

function findCopy(model: Model, section: Section, filled: Filled, report: Report): void {
  const [side, name] = filled.items;
  if (side?.kind !== 'word' || name?.kind !== 'word') return;
  const named = model.file.find(name.key);
  if (named?.kind !== 'piece') return;
  const piece = model.pieceOf(named);
  if (piece.mirrored()) return;
  report(
    { section, from: side.from, to: name.to },
    {
      message: say`“${piece.name}” is not made in mirrored pairs, so it has no ${filled.copy} copy.`,
      fixes: [
        replacing(model.file.uri, say`Take ${piece.name} itself`, { section, from: side.from, to: name.from }, ''),
      ],
      related: [{ uri: named.file.uri, place: piece.place, message: say`piece ${piece.name}` }],
    },
  );
}

function ordinal(n: number): string {
  const last = n % 100 >= 11 && n % 100 <= 13 ? 0 : n % 10;
  return `${n}${last === 1 ? 'st' : last === 2 ? 'nd' : last === 3 ? 'rd' : 'th'}`;
}
