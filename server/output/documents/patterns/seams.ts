import { lengthOfPath } from '../../../geometry/outline/measure.ts';
import { oneByOne, type Steps } from '../../../incremental/steps.ts';
import { drilledFor } from '../../../model/assembly/joint-rivets.ts';
import { NONE } from '../../../model/forms/answers.ts';
import type { Band } from '../../../model/forms/form.ts';
import { kindOf } from '../../../model/forms/index.ts';
import type { LineReading } from '../../../model/names/line-reading.ts';
import type { Model } from '../../../model/spec.ts';
import type { HingeModel } from '../../../model/things/hinge.ts';
import type { JointModel } from '../../../model/things/joint.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import type { SeamModel, Stack } from '../../../model/things/seam.ts';
import { show, showSize, trim } from '../../../model/values/show.ts';
import { holeFor } from '../../../trade/rivet/rivet.ts';
import { type Flat, laidPlainly } from './blank-drawing.ts';
import { circle, line, slot } from './paths.ts';
import type { PatternLabel, PatternLine } from './pattern.ts';
import { strapName } from './straps.ts';

/** What a piece's pattern shows of a seam. */
export interface SeamOnPiece {
  readonly lines: PatternLine[];
  readonly labels: PatternLabel[];
  readonly notes: string[];
}

export interface LetteredSeam {
  readonly letter: string;
  readonly seam: SeamModel;
  readonly pieces: readonly string[];
}

/** Every seam of a build with its letter, in the order of the spec: A to Z, then AA, AB and on. */
export function* letteredSeams(model: Model): Steps<LetteredSeam[]> {
  const pieces = yield* oneByOne(model.seams(), (seam) => [
    ...new Set(seam.stacks().flatMap((stack) => stack.layers.map(({ name }) => name))),
  ]);
  return model.seams().map((seam, i) => ({ letter: letterOf(i), seam, pieces: pieces[i]! }));
}

export interface LetteredHinge {
  readonly letter: string;
  readonly hinge: HingeModel;
  readonly pieces: readonly string[];
}

/** The hinges of a build with the letters that come after those of its seams. */
export const letteredHinges = (model: Model, after: number): LetteredHinge[] =>
  model.hinges().map((hinge, i) => ({
    letter: letterOf(after + i),
    hinge,
    pieces: [...new Set(hinge.leaves().map(({ piece }) => piece.name))],
  }));

/** What a piece's pattern shows of a hinge: its letter at the edges that it joins. */
export function hingeOn(piece: PieceModel, flat: Flat, { letter, hinge }: LetteredHinge): SeamOnPiece {
  const found: SeamOnPiece = { lines: [], labels: [], notes: [] };
  const edges = hinge.leaves().flatMap((leaf) => (leaf.piece === piece ? [leaf.edge] : []));
  const others = hinge.leaves().flatMap((leaf) => (leaf.piece === piece ? [] : [`${leaf.piece.name}.${leaf.edge}`]));
  for (const edge of new Set(edges)) {
    const path = flat.edges.find(({ name }) => name === edge)?.path ?? flat.named(edge);
    const length = piece.edgeLength(edge)?.value ?? (path && lengthOfPath(path));
    const middle = length === undefined ? undefined : flat.inFrom(edge, length / 2, 0);
    if (middle) found.labels.push({ what: 'seam', text: letter, x: middle.x, y: middle.y, clear: 1 });
    const to = others.length ? ` to ${[...new Set(others)].join(', ')}` : '';
    found.notes.push(`Hinge ${letter}, ${hinge.name}: ${edge}${to}.`);
  }
  return found;
}

export interface LetteredJoint {
  readonly letter: string;
  readonly joint: JointModel;
  readonly pieces: readonly string[];
}

/** The joints of a build with the letters that come after those of its seams and hinges. */
export const letteredJoints = (model: Model, after: number): LetteredJoint[] =>
  model.joints().map((joint, i) => ({
    letter: letterOf(after + i),
    joint,
    pieces: [...new Set(joint.plates().map(({ piece }) => piece.name))],
  }));

/** What a piece's pattern shows of a joint: the holes and slots of its rivets, where the other plate has them too. */
export function jointOn(piece: PieceModel, flat: Flat, { letter, joint }: LetteredJoint): SeamOnPiece {
  const found: SeamOnPiece = { lines: [], labels: [], notes: [] };
  const units = piece.model.units();
  const said = new Map<string, number>();
  for (const { what, piece: of, to, rivet, spot, slot: slotted } of drilledFor(joint)) {
    if (of !== piece) continue;
    const shank = rivet?.size()?.shank;
    const at = flat.spot?.(slotted?.middle ?? spot);
    const hole = shank === undefined ? undefined : holeFor(shank).value;
    const size =
      hole === undefined
        ? ''
        : slotted
          ? `, slot ${showSize(slotted.travel + shank!, hole, units)}`
          : `, hole ${show(hole, 'mm', units)}`;
    const text = `Joint ${letter}, ${joint.name}: ${what}${what === 'leather' ? '' : ` to ${to}`}${size}`;
    said.set(text, (said.get(text) ?? 0) + 1);
    if (!at || hole === undefined) continue;
    const ahead = slotted && flat.spot?.(slotted.ahead);
    const turn = ahead ? (Math.atan2(ahead.y - at.y, ahead.x - at.x) * 180) / Math.PI : 0;
    const path = slotted
      ? laidPlainly({ ...at, turn }, slot({ x: 0, y: 0 }, slotted.travel + shank!, hole))
      : circle(at, hole / 2);
    found.lines.push({ kind: flat.exact ? (slotted ? 'opening' : 'hole') : 'rivet', path });
    if (what !== 'leather') found.labels.push({ what: 'end', text: letter, x: at.x, y: at.y, clear: hole / 2 });
  }
  const how = flat.exact ? '' : '; drill after forming';
  for (const [text, times] of said) found.notes.push(`${text}${times > 1 ? `, ${times} times` : ''}${how}.`);
  return found;
}

export function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last;
}

/** A stretch of an edge that a seam runs along, on one piece. */
interface Run {
  readonly edge: string;
  readonly from: number;
  readonly to: number;
  readonly whole: boolean;
}

export function* seamOn(piece: PieceModel, flat: Flat, { letter, seam }: LetteredSeam): Steps<SeamOnPiece> {
  const found: SeamOnPiece = { lines: [], labels: [], notes: [] };
  const stacks = seam.stacks().filter((stack) => stack.layers.some((layer) => layer.piece === piece));
  if (!stacks.length) return found;
  const straps = seam.lines.filter(({ id }) => id === 'strap');
  if (straps.length && !seam.rivetsLine() && !seam.along().length) {
    found.notes.push(...straps.map((strap) => strapNote(strap, letter, seam, piece)));
    return found;
  }
  const run = runOn(piece, flat, seam);
  const others = [...new Set(stacks.flatMap(({ layers }) => layers.map(({ name }) => name)))].filter(
    (name) => name !== piece.name,
  );
  const withWhat = others.length ? ` with ${others.join(', ')}` : '';
  const said = `Seam ${letter}, ${seam.name}${withWhat}`;
  const size = seam.figure('hole')?.value;
  const hole = size === undefined ? '' : `, hole ${show(size, 'mm', piece.model.units())}`;
  if (!run) {
    found.notes.push(`${said}: ${unplaced(seam, hole)}`);
    return found;
  }
  const middle = flat.inFrom(run.edge, (run.from + run.to) / 2, 0);
  if (middle) found.labels.push({ what: 'seam', text: letter, x: middle.x, y: middle.y, clear: 1 });
  if (!run.whole) {
    for (const station of [run.from, run.to]) {
      const [edge, inner] = [flat.inFrom(run.edge, station, 0), flat.inFrom(run.edge, station, TICK)];
      if (edge && inner) found.lines.push({ kind: 'match', path: line(edge, inner) });
    }
  }
  const inset = insetOf(piece, seam);
  const spots = yield* oneByOne(seam.shares().length ? [] : spotsOf(seam, run), (at) =>
    flat.inFrom(run.edge, at, inset),
  );
  const placed = spots.flatMap((spot, i) => (spot ? [{ spot, nth: i + 1 }] : []));
  if (!placed.length || size === undefined) {
    found.notes.push(`${said}: along ${run.edge}.`);
    return found;
  }
  const drillsHere = flat.exact && leads(piece, seam, stacks);
  for (const { spot } of placed)
    found.lines.push({ kind: drillsHere ? 'hole' : 'rivet', path: circle(spot, size / 2) });
  for (const { spot, nth } of new Set([placed[0]!, placed.at(-1)!]))
    found.labels.push({ what: 'end', text: `${letter}${nth}`, x: spot.x, y: spot.y, clear: size / 2 });
  const lead = leadOf(seam, stacks);
  const how = drillsHere
    ? 'drill here, and the plates under it through these'
    : lead && lead !== piece
      ? `drilled through ${lead.name}`
      : 'drill after forming';
  found.notes.push(
    `${said}: ${spots.length} ${spots.length === 1 ? 'rivet' : 'rivets'} along ${run.edge}${hole}; ${how}.${placed.length < spots.length ? ` ${spots.length - placed.length} of them lie off this piece.` : ''}`,
  );
  return found;
}

function strapNote(strap: LineReading, letter: string, seam: SeamModel, { model }: PieceModel): string {
  const units = model.units();
  const places = (
    [
      ['across', 'line'],
      ['along', 'line2'],
    ] as const
  ).flatMap(([distance, edge]) => {
    const [length, from] = [strap.length(distance, 'at'), strap.text(edge, 'at')];
    return length === undefined || from === undefined ? [] : [`${show(length, 'mm', units)} from ${from}`];
  });
  const wide = strap.length('wide', 'wide');
  const size = wide === undefined ? '' : `, ${show(wide, 'mm', units)} wide`;
  return `Seam ${letter}: ${strapName(seam, strap)}${size}${places.length ? `, at ${places.join(' and ')}` : ''}.`;
}

/** Length of the tick at an end of a seam, mm. */
const TICK = 5;

function unplaced(seam: SeamModel, hole: string): string {
  const shares = seam.shares();
  if (shares.length) {
    const where = shares.map(({ seam: host, position }) => `${trim(position, 0)} of ${host?.word.text ?? '?'}`);
    return `its holes come from rivets ${where.join(' and ')}${hole}.`;
  }
  const along = seam.along()[0];
  return along
    ? `spots are taken over from ${along.piece.name}.${along.edge}${hole}.`
    : `it runs along no edge that is named${hole}.`;
}

/** The stretch of this piece's edge that the seam runs along; a trim strip takes it over from the edge that it follows. */
function runOn(piece: PieceModel, flat: Flat, seam: SeamModel): Run | undefined {
  const own = seam.along().find((along) => along.piece === piece);
  if (own) {
    const path = flat.edges.find(({ name }) => name === own.edge)?.path ?? flat.named(own.edge);
    const length = piece.edgeLength(own.edge)?.value ?? (path && lengthOfPath(path));
    if (length === undefined) return undefined;
    return own.from === undefined || own.to === undefined
      ? { edge: own.edge, from: 0, to: length, whole: true }
      : { edge: own.edge, from: own.from, to: Math.min(own.to, length), whole: false };
  }
  const band = bandOf(piece);
  if (!band) return undefined;
  const followed = seam
    .along()
    .find((along) => `${along.piece.named.word.key}.${along.edge}` === band.along.toLowerCase());
  if (!followed) return undefined;
  const length = followed.piece.edgeLength(followed.edge)?.value;
  if (followed.from === undefined || followed.to === undefined || length === undefined)
    return { edge: band.outer, from: 0, to: band.long, whole: true };
  // Each station of the edge has its own on the strip, which lies outside it and in from it.
  const scale = band.long / length;
  return { edge: band.outer, from: scale * followed.from, to: scale * Math.min(followed.to, length), whole: false };
}

/** How far in from the edge the row runs on this piece: on a trim strip, from the edge of that. */
function insetOf(piece: PieceModel, seam: SeamModel): number {
  const inset = seam.inset() ?? 0;
  const band = bandOf(piece);
  if (!band) return inset;
  const within = inset - band.inset + band.wide / 2;
  return within > 0 && within < band.wide ? within : band.wide / 2;
}

/** Where the rivets stand, mm along the edge. */
function spotsOf(seam: SeamModel, run: Run): number[] {
  const count = seam.rivetCount()?.value ?? 0;
  if (!count || count > MOST_SPOTS) return [];
  if (seam.isClosed()) return Array.from({ length: count }, (_, i) => run.from + ((run.to - run.from) * i) / count);
  if (count === 1) return [(run.from + run.to) / 2];
  const margin = Math.min(seam.endMargin(), (run.to - run.from) / 2);
  const pitch = (run.to - run.from - 2 * margin) / (count - 1);
  return Array.from({ length: count }, (_, i) => run.from + margin + i * pitch);
}

/** More rivets than anyone drills in one row: drawn, they would be one black line. */
const MOST_SPOTS = 2000;

/** The plate whose holes are drilled first: the outermost that the seam's row is known on. */
function leadOf(seam: SeamModel, stacks: readonly Stack[]): PieceModel | undefined {
  const known = new Set(seam.along().map(({ piece }) => piece));
  for (const { layers } of stacks)
    for (const { piece } of layers) if (piece && (known.has(piece) || followsRow(piece, seam))) return piece;
  return undefined;
}

const leads = (piece: PieceModel, seam: SeamModel, stacks: readonly Stack[]): boolean => leadOf(seam, stacks) === piece;

function followsRow(piece: PieceModel, seam: SeamModel): boolean {
  const band = bandOf(piece);
  return (
    band !== undefined &&
    seam.along().some((along) => `${along.piece.named.word.key}.${along.edge}` === band.along.toLowerCase())
  );
}

/** The strip that a piece is, if it is one that takes over its neighbour's row. */
function bandOf(piece: PieceModel): Band | undefined {
  const form = piece.form();
  const band = form && kindOf(form).band(form);
  return band === NONE ? undefined : band;
}
