import type { Expression, Place, Span } from '../../../grammar/tree.ts';
import { say } from '../../../l10n/say.ts';
import type { LengthAt, LineReading } from '../../model/names/line-reading.ts';
import type { PieceModel } from '../../model/things/piece.ts';
import type { FindingFix } from '../../model/values/figure.ts';
import { inchFraction, trim } from '../../model/values/show.ts';
import { replacing } from '../check.ts';

/* How fixes are written: in the unit the smith writes in, and only where the line stands in the file itself. */

export const upTo = (value: number, step: number): number => Math.ceil(value / step - 1e-9) * step;
export const downTo = (value: number, step: number): number => Math.floor(value / step + 1e-9) * step;

export const placeOf = (line: LineReading, span: Span): Place => ({
  section: line.line.section,
  from: span.from,
  to: span.to,
});

/** Whether a line is the piece's own: one that came by `like` is marked and mended where it was written. */
export const isOwn = (piece: PieceModel, line: LineReading): boolean => line.line.section === piece.named.section;

/** Where to mark a line of a piece: on the line, or on the `like` that brought it. */
export function placeIn(piece: PieceModel, line: LineReading | undefined, span?: Span): Place {
  if (line && isOwn(piece, line)) return span ? placeOf(line, span) : line.place;
  const like = piece.lines().find((each) => each.id === 'like');
  return line && like ? like.place : piece.place;
}

/** A length as this expression is written: in inches where it is in inches, without a unit where one reaches back to it. */
export function written(mm: number, like: Expression | undefined, decimals = 2): string {
  if (like?.kind === 'number' && like.unit?.id === 'in') {
    const text = inchFraction(mm, 64);
    return like.unitAt ? text : text.replace(/ in$/, '');
  }
  const text = trim(mm, decimals);
  return like?.kind === 'number' && like.unit && !like.unitAt ? text : `${text} mm`;
}

/** The next length that is as long or longer, and easily set out: half a millimetre, or 1/64 in. */
export function nextUp(mm: number, like: Expression | undefined, step = 0.5): number {
  return like?.kind === 'number' && like.unit?.id === 'in' ? upTo(mm, 25.4 / 64) : upTo(mm, step);
}

export function nextDown(mm: number, like: Expression | undefined, step = 0.5): number {
  return like?.kind === 'number' && like.unit?.id === 'in' ? downTo(mm, 25.4 / 64) : downTo(mm, step);
}

/** A fix that gives a slot another length. Nothing where the line is a scaled copy, or the length is one of several. */
export function changingLength(
  line: LineReading,
  at: LengthAt & { readonly index?: number },
  mm: number,
  title: (text: string) => string,
  preferred = false,
): FindingFix[] {
  const expression = line.expressionsAt(at)[at.index ?? 0];
  if (!expression || line.scale !== 1 || !(mm > 0)) return [];
  const text = written(mm, expression);
  const full = /[a-z]$/.test(text) ? text : written(mm, undefined);
  return [replacing(line.file.uri, title(full), placeOf(line, expression), text, preferred)];
}

/** A fix that adds a qualifier at the end of a line. */
export function appending(line: LineReading, text: string, title: string, preferred = false): FindingFix {
  const { to } = line.line;
  return replacing(line.file.uri, title, placeOf(line, { from: to, to }), `, ${text}`, preferred);
}

/** A fix that takes a qualifier and the comma before it off a line. Nothing where the line has none. */
export function removingQualifier(
  line: LineReading,
  qualifier: Parameters<LineReading['has']>[0],
  title: string,
  preferred = false,
): FindingFix[] {
  const bound = line.bound(qualifier);
  const comma = bound ? line.line.section.text.lastIndexOf(',', bound.from) : -1;
  if (!bound || comma <= line.line.from) return [];
  return [replacing(line.file.uri, title, placeOf(line, { from: comma, to: bound.to }), '', preferred)];
}

/** The whole of a line with its indent and its line break. */
function wholeLine(line: LineReading): Span {
  return wholeSpan(line.line.section.text, line.line);
}

export function wholeSpan(text: string, span: Span): Span {
  let { from, to } = span;
  while (from > 0 && text[from - 1] !== '\n' && text[from - 1] !== '\r') from--;
  while (to < text.length && text[to] !== '\n' && text[to] !== '\r') to++;
  if (text[to] === '\r') to++;
  if (text[to] === '\n') to++;
  return { from, to };
}

export function removingLine(line: LineReading, title: string): FindingFix {
  return replacing(line.file.uri, title, placeOf(line, wholeLine(line)), '');
}

/** A fix that moves a line to stand before another of the same section. Nothing where a note stands above it. */
export function movingBefore(line: LineReading, before: LineReading, title: string): FindingFix[] {
  if (line.line.section !== before.line.section || line.line.notes.length || before.line.notes.length) return [];
  const from = wholeLine(line);
  const { text } = line.line.section;
  const moved = text.slice(from.from, from.to);
  const to = wholeLine(before).from;
  const { uri } = line.file;
  return [
    {
      title,
      edits: [
        { uri, place: placeOf(line, { from: to, to }), text: moved.endsWith('\n') ? moved : `${moved}\n` },
        { uri, place: placeOf(line, from), text: '' },
      ],
    },
  ];
}

/** A fix that puts a line in before another, with its indent. */
export function addingBefore(line: LineReading, text: string, title: string): FindingFix {
  const { section } = line.line;
  const { from } = wholeSpan(section.text, line.line.notes[0] ?? line.line);
  const lineBreak = section.text.includes('\r\n') ? '\r\n' : '\n';
  return replacing(line.file.uri, title, placeOf(line, { from, to: from }), `  ${text}${lineBreak}`);
}

/** `one anneal`, `3 anneals`. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  count === 1 ? say`one ${one}` : `${count} ${many}`;

/** `top, left and right` */
export const allOf = (words: readonly string[]): string =>
  words.length > 1 ? say`${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}` : (words[0] ?? '');
