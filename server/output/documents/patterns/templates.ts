import { boxOfPath, distanceTo, lengthOfPath, reversed } from '../../../geometry/outline/measure.ts';
import type { Contour } from '../../../geometry/surface/contour.ts';
import { patiently, type Steps } from '../../../incremental/steps.ts';
import { placeInWords, type Template, thicknessUnder } from '../../../model/shapes/templates.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import { show, showSize } from '../../../model/values/show.ts';
import { type Board, boardOf, linesOn } from '../../../trade/blank/template.ts';
import { distance, line, part } from './paths.ts';
import type { Pattern, PatternLabel, PatternLine } from './pattern.ts';

/** The boards that are held against a piece, and those that cannot be drawn. */
export function* templatePatterns(
  piece: PieceModel,
): Steps<{ patterns: Pattern[]; missing: { piece: string; reason: string }[] }> {
  const patterns: Pattern[] = [];
  const missing: { piece: string; reason: string }[] = [];
  const alike = new Map<string, number>();
  for (const template of yield* patiently(() => piece.templates())) {
    yield undefined;
    const plain = templateName(template, piece);
    const number = (alike.get(plain) ?? 0) + 1;
    alike.set(plain, number);
    const name = number > 1 ? `${plain} (${number})` : plain;
    const contour = yield* patiently(() => template.contour());
    const board = contour && boardOf(contour, template.inside ? 'inside' : 'outside');
    if (contour && board) patterns.push(yield* patiently(() => patternOf(name, template, contour, board, piece)));
    else
      missing.push({ piece: name, reason: template.refused?.why ?? 'a board cut to its section would cross itself' });
  }
  return { patterns, missing };
}

/** What a template is called on every paper; of those that are alike the second and all others are told apart by a number. */
function templateName({ height, called, along, inside }: Template, piece: PieceModel): string {
  const where = along !== undefined ? `along ${along}` : `at ${called ?? show(height!, 'mm', piece.model.units())}`;
  return `${piece.name}, template ${where}${inside ? ', inside' : ''}`;
}

function patternOf(name: string, template: Template, contour: Contour, board: Board, piece: PieceModel): Pattern {
  const units = piece.model.units();
  const face = template.inside ? 'inside' : 'outside';
  const lines: PatternLine[] = [{ kind: 'outline', path: board.outline }];
  if (board.hole) lines.push({ kind: 'opening', path: board.hole });
  for (const path of board.ends) lines.push({ kind: 'match', path });
  const labels: PatternLabel[] = [
    {
      what: 'edge',
      text: `${face} of ${piece.name}, ${placeInWords(template, piece)}`,
      along: board.edge,
      side: template.inside ? 'left' : 'right',
    },
    ...sideLabels(template, contour, board),
  ];
  if (template.along === undefined) addMiddle(board, lines, labels);
  else addHeights(template, board, piece, lines, labels);
  const box = boxOfPath(board.outline);
  return {
    piece: name,
    count: 1,
    turned: 0,
    once: true,
    material: 'stiff card or thin sheet',
    size: showSize(box.right - box.left, box.top - box.bottom, units),
    notes: notesOf(template, contour, board, piece),
    lines,
    labels,
  };
}

function notesOf(template: Template, contour: Contour, board: Board, piece: PieceModel): string[] {
  const units = piece.model.units();
  const thickness = thicknessUnder(piece, piece.thickness()!);
  const { inside, along, name } = template;
  const mm = (suffix: string) => {
    const figure = piece.figure(`${name}.${suffix}`);
    return figure ? show(figure.value, 'mm', units, figure.shape) : '–';
  };
  const notes = [
    `${placeInWords(template, piece)}: cut to the ${inside ? 'inside' : 'outside'} of ${piece.name}, the middle of its thickness moved ${inside ? 'in' : 'out'} by half of ${show(thickness, 'mm', units)}.`.replace(
      /^./,
      (first) => first.toUpperCase(),
    ),
    along === undefined
      ? `Hold it level, this face up. The section: ${mm('length')} along, ${mm('wide')} wide, ${mm('deep')} deep.`
      : `Hold it upright, ${SEEN_FROM[sideOf(contour.right, 'far')] ?? 'the outside to the right'}. The section: ${mm('length')} along, ${mm('high')} high.`,
  ];
  if (piece.mirrored()) notes.push('Turn it over for the copy on the other side.');
  if (board.ends.length) notes.push('Ticks across the edge: there the metal ends or begins again.');
  if (board.grips)
    notes.push(
      contour.closed
        ? 'It goes all round: drop it over the work, or saw it in two along its middle line.'
        : 'It reaches behind the work: saw it in two along its middle line to put it on.',
    );
  return notes;
}

// ---- which way round -----------------------------------------------------------------------------------------------

/** From where one looks to see this way to the right. */
const SEEN_FROM: Readonly<Record<string, string>> = {
  front: 'seen from the wearer’s right',
  back: 'seen from the wearer’s left',
  'wearer’s left': 'seen from the front',
  'wearer’s right': 'seen from the back',
};

/** The side of the wearer that lies to the right of a drawing, or to its left. */
function sideOf([x, y]: Contour['right'], end: 'near' | 'far'): string {
  const sign = end === 'far' ? 1 : -1;
  if (Math.abs(y) > 0.99) return sign * y > 0 ? 'front' : 'back';
  if (Math.abs(x) > 0.99) return sign * x > 0 ? 'wearer’s right' : 'wearer’s left';
  return end === 'far' ? 'outside' : '';
}

/** A side of the frame shorter than this bears no word, mm. */
const WORD = 18;

/** What lies to each side, on the straight sides of the frame. */
function sideLabels({ along }: Template, { right }: Contour, { outline }: Board): PatternLabel[] {
  const [above, below] = along === undefined ? ['front', 'back'] : ['up', 'down'];
  const [toRight, toLeft] = [sideOf(right, 'far'), sideOf(right, 'near')];
  const box = boxOfPath(outline);
  const { vertices } = outline;
  return vertices.flatMap((from, i): PatternLabel[] => {
    const to = vertices[(i + 1) % vertices.length]!;
    if (from.bulge || distance(from, to) < WORD) return [];
    const on = (key: 'x' | 'y', value: number) => Math.abs(from[key] - value) + Math.abs(to[key] - value) < 1e-6;
    const text = on('y', box.top)
      ? above
      : on('y', box.bottom)
        ? below
        : on('x', box.right)
          ? toRight
          : on('x', box.left)
            ? toLeft
            : '';
    // The outline runs anticlockwise: the board lies to its left.
    return text ? [{ what: 'edge', text, along: line(from, to), side: 'left' }] : [];
  });
}

// ---- lines to set it by --------------------------------------------------------------------------------------------

/** Nearer than this to an end of the board the middle is no line of its own, mm. */
const APART = 2;

function addMiddle(board: Board, lines: PatternLine[], labels: PatternLabel[]): void {
  const { left, right } = boxOfPath(board.outline);
  if (left > -APART || right < APART) return;
  for (const path of linesOn(board, 'y', 0)) {
    lines.push({ kind: 'centre', path });
    labels.push({ what: 'line', text: 'middle', along: path, side: 'left' });
  }
}

const TICK = 12;
/** What counts as on the edge, mm. */
const NEAR = 0.2;

/** Where the form's levels and the other templates lie, so that they can be set to one another. */
function addHeights(
  { zero = 0 }: Template,
  board: Board,
  piece: PieceModel,
  lines: PatternLine[],
  labels: PatternLabel[],
): void {
  const units = piece.model.units();
  const levels = piece.formLine()?.id === 'form' ? (piece.levels() ?? []) : [];
  const heights = new Set([
    ...levels.map(({ level }) => level.high),
    ...piece.templates().flatMap(({ height, refused }) => (height === undefined || refused ? [] : [height])),
  ]);
  const box = boxOfPath(board.outline);
  for (const height of [...heights].sort((a, b) => a - b)) {
    const level = height + zero;
    // Along the frame there is nothing to mark.
    if (level < box.bottom + APART || level > box.top - APART) continue;
    for (const path of linesOn(board, 'x', level)) {
      const whole = lengthOfPath(path);
      const starts = path.vertices.map((end) => distanceTo(board.edge, end) < NEAR);
      const ticks = [
        ...(starts[0] ? [part(path, 0, Math.min(TICK, whole))] : []),
        ...(starts[1] ? [part(reversed(path), 0, Math.min(TICK, whole))] : []),
      ];
      for (const tick of ticks) {
        lines.push({ kind: 'match', path: tick });
        const { x, y } = tick.vertices.at(-1)!;
        labels.push({ what: 'end', text: show(height, 'mm', units), x, y, clear: 1 });
      }
    }
  }
}
