import type { Problem } from '../../../checks/check.ts';
import { isCutOut } from '../../../geometry/drawings/outline-in.ts';
import { lengthOfPath } from '../../../geometry/outline/measure.ts';
import type { Path } from '../../../geometry/outline/path.ts';
import { atOnce, manyByMany, patiently, type Steps, steadfast } from '../../../incremental/steps.ts';
import { drilledFor } from '../../../model/assembly/joint-rivets.ts';
import { openingName } from '../../../model/figures/openings.ts';
import { rowOf } from '../../../model/figures/rows.ts';
import type { Fold } from '../../../model/forms/form.ts';
import { kindOf } from '../../../model/forms/index.ts';
import { heldIn } from '../../../model/shapes/surface.ts';
import { flaresIn, flutesIn } from '../../../model/shapes/worked.ts';
import type { Model } from '../../../model/spec.ts';
import { homeOf } from '../../../model/spec.ts';
import { foldOf, inWords } from '../../../model/things/edge-work.ts';
import type { Opening, PieceModel, Pierced } from '../../../model/things/piece.ts';
import { shown } from '../../../model/values/figure.ts';
import { inUnits } from '../../../model/values/prose.ts';
import { show, showSize, trim } from '../../../model/values/show.ts';
import { arcs } from '../arcs.ts';
import { cautionsIn, fileName, noBlank, rulesOf } from '../cut-list-of.ts';
import { everyFile, explainedProblemsInSteps } from '../explain.ts';
import { EDGES_RUN, type Flat, flatOf, laidPlainly } from './blank-drawing.ts';
import { guidesOf } from './guides.ts';
import { asideOfKerf } from './kerf.ts';
import { withKnuckles } from './knuckles.ts';
import { beside, boxOf, line, part, type Station, slot } from './paths.ts';
import type { Pattern, PatternLabel, PatternLine, Patterns } from './pattern.ts';
import {
  hingeOn,
  jointOn,
  type LetteredHinge,
  type LetteredJoint,
  type LetteredSeam,
  letteredHinges,
  letteredJoints,
  letteredSeams,
  seamOn,
} from './seams.ts';
import { strapPatterns } from './straps.ts';
import { templatePatterns } from './templates.ts';

export interface PatternsOptions {
  /** The day the patterns are made, `2027-03-01`. */
  readonly date: string;
  readonly problems: readonly Problem[];
  /** One piece alone, by its name in any case. */
  readonly piece?: string;
  /** What is cut from stock alone, without the templates. */
  readonly blanksOnly?: boolean;
  /** What is cut is moved aside by half the kerf of its material. */
  readonly kerf?: boolean;
}

/**
 * From a spec's model to the patterns of its pieces. Every number on them is a figure that the model has.
 *
 * @tests in one go: who may not wait asks for the steps
 */
export const patternsOf = (model: Model, options: PatternsOptions): Patterns => atOnce(patternsInSteps(model, options));

/** The same, piece by piece. What is drawn hangs on no model any more. */
export function* patternsInSteps(
  model: Model,
  { date, problems, piece: only, blanksOnly, kerf }: PatternsOptions,
): Steps<Patterns> {
  const file = fileName(model.file.uri);
  const seams = yield* letteredSeams(model);
  const hinges = letteredHinges(model, seams.length);
  const joints = letteredJoints(model, seams.length + hinges.length);
  const patterns: Pattern[] = [];
  const wanted = ({ piece }: { piece: string }) => only === undefined || piece.toLowerCase() === only.toLowerCase();
  const missing: { piece: string; reason: string }[] = [];
  const pieces = model.pieces();
  for (const [done, piece] of pieces.entries()) {
    if (!wanted({ piece: piece.name })) continue;
    yield done / pieces.length;
    // What the model keeps first, since that can be asked again.
    const figures = yield* patiently(() => piece.figures());
    yield* figures.workedOut();
    for (const { joint } of joints)
      if (joint.plates().some((plate) => plate.piece === piece)) yield* patiently(() => drilledFor(joint));
    const made = yield* steadfast(patternOf(piece, seams, hinges, joints));
    if (typeof made === 'string') missing.push({ piece: piece.name, reason: made });
    else patterns.push(kerf ? yield* asideOfKerf(made, piece.material()?.kerf() ?? 0, model.units()) : made);
  }
  const straps = yield* strapPatterns(model);
  patterns.push(...straps.patterns.filter(wanted));
  missing.push(...straps.missing.filter(wanted));
  for (const piece of blanksOnly ? [] : model.pieces().filter(({ name }) => wanted({ piece: name }))) {
    const templates = yield* templatePatterns(piece);
    patterns.push(...templates.patterns);
    missing.push(...templates.missing);
  }
  const drawn = new Set(patterns.map(({ piece }) => piece));
  const client = model.client();
  const duty = model.duty();
  const rules = rulesOf(model);
  return {
    title: model.title() ?? file.replace(/\.planish$/i, ''),
    file,
    version: yield* versionOf(model),
    ...(client === undefined ? {} : { client }),
    ...(duty === undefined ? {} : { duty }),
    ...(rules === undefined ? {} : { rules }),
    units: model.units(),
    date,
    make: model.make(),
    spare: model.spare(),
    cautions: cautionsIn(problems),
    errors: (yield* explainedProblemsInSteps(
      model,
      problems.filter(({ severity }) => severity === 'error'),
    )).map(({ line, message }) => ({ line, text: message })),
    patterns,
    missing,
    seams: [
      ...seams.map(({ letter, seam, pieces }) => ({ letter, seam: seam.name, pieces })),
      ...hinges.map(({ letter, hinge, pieces }) => ({ letter, seam: hinge.name, pieces })),
      ...joints.map(({ letter, joint, pieces }) => ({ letter, seam: joint.name, pieces })),
    ].filter(({ pieces }) => pieces.some((piece) => drawn.has(piece))),
  };
}

/** Two papers of the same fingerprint were made from the same words (FNV-1a over the spec and the files that it uses). */
function* versionOf(model: Model): Steps<string> {
  let hash = 0x811c9dc5;
  for (const { spec } of everyFile(model.file)) {
    for (let i = 0; i < spec.text.length; i++) {
      if (i % LETTERS_AT_ONCE === 0) yield undefined;
      hash = Math.imul(hash ^ spec.text.charCodeAt(i), 0x01000193);
    }
  }
  return (hash >>> 0).toString(16).padStart(8, '0');
}

const LETTERS_AT_ONCE = 1_000_000;

/** The pattern of a piece, or why it has none. */
function* patternOf(
  piece: PieceModel,
  seams: readonly LetteredSeam[],
  hinges: readonly LetteredHinge[],
  joints: readonly LetteredJoint[],
): Steps<Pattern | string> {
  const material = piece.material();
  if (!material) return 'what it is cut from is not known';
  if (material.kind() === 'wire') return `${material.name} is wire, not sheet`;
  const blank = piece.blank();
  if (!blank) return noBlank(piece);
  const flat = flatOf(piece);
  if (!flat) return 'its outline cannot be drawn with what its edges need: make a paper pattern';
  const knuckled = withKnuckles(piece, flat);
  const lines: PatternLine[] = [{ kind: 'outline', path: knuckled.cut }];
  if (flat.finished) lines.push({ kind: 'finished', path: flat.finished });
  for (const path of flat.openings ?? []) lines.push({ kind: 'opening', path });
  for (const path of flat.centres) lines.push({ kind: 'centre', path });
  const labels: PatternLabel[] = [];
  const notes: string[] = [...flat.notes, ...sizeNotes(piece), ...knuckled.notes];
  yield undefined;
  yield* addEdges(piece, flat, lines, labels);
  yield* addBends(piece, flat, lines, labels, notes);
  yield undefined;
  yield* addOpenings(piece, flat, lines, labels, notes);
  for (const seam of seams) {
    yield undefined;
    const on = yield* seamOn(piece, flat, seam);
    lines.push(...on.lines);
    labels.push(...on.labels);
    notes.push(...on.notes);
  }
  for (const hinge of hinges) {
    yield undefined;
    const on = hingeOn(piece, flat, hinge);
    labels.push(...on.labels);
    notes.push(...on.notes);
  }
  for (const joint of joints) {
    yield undefined;
    const on = jointOn(piece, flat, joint);
    lines.push(...on.lines);
    labels.push(...on.labels);
    notes.push(...on.notes);
  }
  const guides = blank.overridden ? undefined : guidesOf(piece);
  if (guides) {
    lines.push(...guides.lines);
    labels.push(...guides.labels);
    notes.push(...guides.notes);
  }
  if (!flat.exact && lines.some(({ kind }) => kind === 'later' || kind === 'rivet'))
    notes.push('Dashed places are a guide: forming moves them. Mark them again on the formed piece.');
  if (piece.edgeWorks().some(({ stretch }) => stretch) || lines.some(({ kind }) => kind === 'match'))
    notes.push(EDGES_RUN);
  notes.push(...writtenNotes(piece));
  const made = piece.make();
  const over = piece.mirrored() ? Math.floor(made / 2) : 0;
  const box = boxOf([flat.cut]);
  const grain = piece.line('grain');
  return {
    piece: piece.name,
    count: made - over,
    turned: over,
    material: material.title(),
    size: showSize(box.right - box.left, box.top - box.bottom, piece.model.units(), { up: true }),
    notes,
    lines,
    labels,
    ...(grain ? { grain: grain.word('across') ? 0 : 90 } : {}),
  };
}

/** What is worth knowing of the blank itself: how it is found, its range, the radii to strike it by. */
function sizeNotes(piece: PieceModel): string[] {
  const units = piece.model.units();
  const notes: string[] = [];
  const { method, said } = piece.method();
  const size = piece.figure('blank.diameter') ?? piece.figure('blank.long');
  const wide = piece.figure('blank.diameter') ? undefined : piece.figure('blank.wide');
  if (method) {
    const ranged = [size, wide].flatMap((figure) => (figure?.low === undefined ? [] : [shown(figure, units)]));
    notes.push(
      `${said ? 'To ' : 'No method is said: for '}${said ? method : `“${method}”`}.${ranged.length ? ` Blank ${ranged.join(' × ')}, by how far the rim draws in: try one first.` : ''}`,
    );
  }
  if (size?.note) notes.push(inUnits(size.note, units));
  const [strain, free] = ['strain.most', 'strain.free'].map((name) => piece.figure(name));
  if (strain && free)
    notes.push(
      `Held to the finished length at every point: ${heldIn(piece).join(', ')}. 95 % of the plate strain less than ${trim(strain.value, 3)}; with every edge free it would be ${trim(free.value, 3)}.`,
    );
  if (!piece.blank()!.overridden) {
    const [outer, inner, sector] = ['outer-radius', 'inner-radius', 'sector'].map((name) => piece.figure(name));
    if (outer && inner && sector)
      notes.push(
        `Finished edges: sector of ${show(sector.value, 'deg', units)}, ${arcs([outer.value, inner.value], sector.value, units)}.`,
      );
  }
  return notes;
}

function writtenNotes(piece: PieceModel): string[] {
  const notes = piece.named.section.notes.filter((note) => note.isNote).map((note) => note.text.trim());
  return notes.length ? [notes.join(' ')] : [];
}

// ---- edges ---------------------------------------------------------------------------------------------------------

function* addEdges(piece: PieceModel, flat: Flat, lines: PatternLine[], labels: PatternLabel[]): Steps<void> {
  const units = piece.model.units();
  const works = piece.edgeWorks();
  const thickness = piece.thickness();
  for (const { name, path, inside, allowance } of flat.edges) {
    const plain = name.replace(/ \d+$/, '');
    const own = works.filter((work) => piece.edgesOf(work).includes(plain));
    const said = own.map(
      (work) =>
        `${inWords(work)}${work.stretch ? ` from ${show(work.stretch.from, 'mm', units)} to ${show(work.stretch.to, 'mm', units)}` : ''}`,
    );
    const more = allowance ? `${show(allowance, 'mm', units)} beyond the finished edge` : '';
    const text = said.length || more ? `${name}: ${[...said, more].filter(Boolean).join(', ')}` : name;
    labels.push({ what: 'edge', text, along: path, side: inside });
    for (const work of own) {
      yield undefined;
      const begins = thickness === undefined ? undefined : foldOf(work, thickness);
      if (begins === undefined) continue;
      // The roll begins so far in from the cut edge; a hem folds at the finished one.
      const fold = yield* parallel(piece, flat, name, Math.max(0, begins - allowance), work.stretch);
      if (fold) lines.push({ kind: 'fold', path: fold });
      if (work.stretch)
        for (const station of [work.stretch.from, work.stretch.to]) {
          const [out, into] = [flat.inFrom(name, station, -allowance), flat.inFrom(name, station, begins)];
          if (out && into) lines.push({ kind: 'match', path: line(out, into) });
        }
    }
  }
  const rim = flat.edges.find(({ name }) => name === 'rim');
  const measured =
    works.some(({ stretch }) => stretch) ||
    homeOf(piece)
      .seams()
      .some((seam) => seam.along().some((along) => along.piece === piece && along.edge === 'rim'));
  if (!rim || !(measured || piece.all('holes').length)) return;
  const [out, into] = [flat.inFrom('rim', 0, -rim.allowance), flat.inFrom('rim', 0, 8)];
  if (!out || !into) return;
  lines.push({ kind: 'match', path: line(out, into) });
  labels.push({ what: 'end', text: 'rim starts', x: into.x, y: into.y, clear: 0.5 });
}

/** A line at a distance inside an edge, all of it or a part. */
function* parallel(
  piece: PieceModel,
  flat: Flat,
  edge: string,
  inset: number,
  stretch?: { from: number; to: number },
): Steps<Path | undefined> {
  const whole = flat.edges.find(({ name }) => name === edge)?.path;
  if (!whole) return undefined;
  const level = inset < 1e-6 ? whole : yield* flat.across(edge, inset);
  if (level) {
    if (!stretch) return level;
    const share = lengthOfPath(level) / lengthOfPath(whole);
    return part(level, stretch.from * share, stretch.to * share);
  }
  // Stations are counted on the finished piece: a dome's rim is longer in the flat.
  const length = piece.edgeLength(edge)?.value ?? lengthOfPath(whole);
  const [from, to] = stretch ? [stretch.from, Math.min(stretch.to, length)] : [0, length];
  const steps = Math.max(8, Math.ceil((to - from) / 4));
  const vertices: { x: number; y: number }[] = [];
  for (let i = 0; i <= steps; i++) {
    const station = flat.inFrom(edge, from + ((to - from) * i) / steps, inset);
    if (!station) return undefined;
    vertices.push({ x: station.x, y: station.y });
    yield undefined;
  }
  return whole.closed && !stretch ? { vertices: vertices.slice(0, -1), closed: true } : { vertices, closed: false };
}

// ---- bends, creases and flutes -------------------------------------------------------------------------------------

function* addBends(
  piece: PieceModel,
  flat: Flat,
  lines: PatternLine[],
  labels: PatternLabel[],
  notes: string[],
): Steps<void> {
  const units = piece.model.units();
  const draw = (path: Path | undefined, kind: 'bend' | 'crease', text: string) => {
    if (!path) {
      notes.push(`Not drawn: ${text}.`);
      return;
    }
    lines.push({ kind, path });
    labels.push({ what: 'line', text, along: path, side: 'left' });
  };
  for (const { at, what } of foldsOf(piece)) draw(yield* flat.across('bottom', at), 'bend', what);
  for (const { kind, edge, angle, radius, distance } of piece.bends()) {
    const turn = angle === undefined ? '' : ` ${show(angle, 'deg', units)}`;
    const round = radius === undefined ? '' : `, radius ${show(radius, 'mm', units)}`;
    const from = distance === undefined ? '' : `, ${show(distance, 'mm', units)} from ${edge}`;
    const path = distance === undefined ? undefined : yield* flat.across(edge, distance);
    draw(path, 'bend', `${kind}${turn}${round}${from}`);
  }
  for (const crease of piece.all('crease')) {
    const name = crease.text('edge') ?? '';
    const deep = crease.length('deep', 'deep');
    const [from, to] = [crease.length('from', 'from'), crease.length('to', 'from')];
    const part =
      from === undefined || to === undefined ? '' : `, ${show(from, 'mm', units)} to ${show(to, 'mm', units)}`;
    const out = deep === undefined ? '' : `, ${show(deep, 'mm', units)} ${crease.has('inward') ? 'in' : 'out'}`;
    draw(flat.named(name), 'crease', `crease along ${name}${part}${out}`);
  }
  const worked = piece.worked();
  let drawn = 0;
  for (const { line, what } of flutesIn(piece)) {
    // One that is left out has no number on the form: its lines would be those of the next.
    const count = worked && !worked.noRoom.some((each) => each.line === line) ? what.count : 0;
    const feet: Path[] = [];
    for (let i = 1; i <= count; i++) {
      yield undefined;
      for (const side of ['left', 'right']) {
        const foot = flat.named(`flute ${drawn + i} ${side}`);
        if (foot) feet.push(foot);
      }
    }
    const text = `${what.count} ${what.count === 1 ? 'flute' : 'flutes'}, ${show(what.wide, 'mm', units)} wide, ${show(Math.abs(what.deep), 'mm', units)} ${what.deep < 0 ? 'in' : 'out'}`;
    if (!feet.length) {
      notes.push(`Not drawn: ${text}.`);
      continue;
    }
    drawn += what.count;
    for (const path of feet) lines.push({ kind: 'crease', path });
    labels.push({ what: 'line', text, along: feet[0]!, side: 'left' });
  }
  for (const { what } of flaresIn(piece))
    notes.push(
      `The flare at ${what.edge} is hammered out of the finished wall: the outline is that of the wall, and the edge stretches.`,
    );
}

/** Where a form is folded by what it is. */
function foldsOf(piece: PieceModel): readonly Fold[] {
  const form = piece.form();
  const layout = form && kindOf(form).layout(form);
  return typeof layout === 'object' && layout.kind === 'square' ? (layout.folds ?? []) : [];
}

// ---- openings ------------------------------------------------------------------------------------------------------

/** Nothing is formed: what is cut in the flat stays where it is. */
function staysFlat(piece: PieceModel): boolean {
  const form = piece.form();
  return (
    form !== undefined &&
    kindOf(form).isFlat &&
    !piece.bends().length &&
    !(['dish', 'raise', 'dish then raise', 'crease', 'flute'] as const).some((id) => piece.line(id))
  );
}

function* addOpenings(
  piece: PieceModel,
  flat: Flat,
  lines: PatternLine[],
  labels: PatternLabel[],
  notes: string[],
): Steps<void> {
  for (const pierced of piece.pierced()) {
    yield undefined;
    yield* addPierced(pierced, piece, flat, lines, labels, notes);
  }
  for (const opening of piece.openings()) {
    yield undefined;
    const now = opening.beforeForming || staysFlat(piece);
    const text = `${openingTitle(opening, piece)}${now ? '' : ', after forming'}`;
    const places = yield* placesOf(piece, flat, opening);
    if (!places.length) {
      notes.push(`Not drawn: ${text}.`);
      continue;
    }
    const shape = slot({ x: 0, y: 0 }, opening.long, opening.wide);
    for (const place of places) {
      yield undefined;
      const path = flat.laid ? yield* flat.laid(place, shape) : laidPlainly(place, shape);
      lines.push({ kind: now ? (opening.round ? 'hole' : 'opening') : 'later', path });
    }
    if (opening.kind === 'breaths' && places.length < opening.count)
      notes.push(`${openingTitle(opening, piece)}: only their middle is marked, since the spec gives no pitch.`);
    // The first of a row often lies on the middle line, where there is no room.
    const { x, y } = places[1] ?? places[0]!;
    labels.push({
      what: 'hole',
      text,
      x,
      y,
      clear: Math.min(opening.long, opening.wide) / 2,
    });
  }
}

function* addPierced(
  { cutOut, ...pierced }: Pierced,
  piece: PieceModel,
  flat: Flat,
  lines: PatternLine[],
  labels: PatternLabel[],
  notes: string[],
): Steps<void> {
  const now = pierced.beforeForming || staysFlat(piece);
  const file = pierced.line.text('file') ?? '';
  const text = `${pierced.name?.text ?? 'pierced'} “${file}”${now ? '' : ', after forming'}`;
  const place = pierced.line.has('at') ? flat.at(pierced.line) : undefined;
  if (!cutOut || !isCutOut(cutOut) || !place) {
    notes.push(`Not drawn: ${text}.`);
    return;
  }
  for (const [i, shape] of cutOut.shapes.entries()) {
    if (i % SHAPES_AT_ONCE === SHAPES_AT_ONCE - 1) yield undefined;
    const path = flat.laid ? yield* flat.laid(place, shape) : laidPlainly(place, shape);
    lines.push({ kind: now ? 'opening' : 'later', path });
  }
  labels.push({ what: 'hole', text, x: place.x, y: place.y, clear: Math.min(cutOut.long, cutOut.wide) / 2 });
  if (cutOut.falling)
    notes.push(
      `${text}: ${cutOut.falling === 1 ? 'one line' : `${cutOut.falling} lines`} inside a shape left out, since what they enclose falls out with it.`,
    );
}

/** Shapes of a drawing that are laid before others may go first. */
const SHAPES_AT_ONCE = 100;

function openingTitle(opening: Opening, { model }: PieceModel): string {
  const units = model.units();
  const size = opening.round ? `Ø ${show(opening.long, 'mm', units)}` : showSize(opening.long, opening.wide, units);
  const name = opening.name ? openingName(opening) : opening.kind;
  return `${name} ${opening.count > 1 ? `${opening.count} × ` : ''}${size}`;
}

/** Breathing holes in rows about their middle, the last row in the middle of the others; their middle alone where no pitch is said. */
function* breathsAbout(middle: Station, flat: Flat, { line, count }: Opening): Steps<Station[]> {
  const pitch = line.length('pitch', 'pitch');
  if (pitch === undefined || !(pitch > 0) || count > MOST_HOLES) return [middle];
  const rows = Math.min(count, Math.max(1, line.count('rows', 'rows') ?? 1));
  const across = Math.ceil(count / rows);
  const filled = Math.ceil(count / across);
  const placeOf = (i: number): Station | undefined => {
    const row = Math.floor(i / across);
    const inRow = Math.min(across, count - row * across);
    const right = ((i % across) - (inRow - 1) / 2) * pitch;
    const up = ((filled - 1) / 2 - row) * pitch;
    return flat.beside ? flat.beside(middle, right, up) : plainlyBeside(middle, right, up);
  };
  return yield* stationsOf(count, placeOf);
}

/** Where the places of a row are; some have none. */
function* stationsOf(count: number, placeOf: (i: number) => Station | undefined): Steps<Station[]> {
  const found = yield* manyByMany([...Array(count).keys()], placeOf, 1);
  return found.filter((each): each is Station => each !== undefined);
}

const plainlyBeside = (at: Station, right: number, up: number): Station => ({
  ...beside({ ...beside({ ...at, turn: at.turn - 90 }, right), turn: at.turn }, up),
  turn: at.turn,
});

/** More holes than anyone drills: drawn, they would be one black spot. */
const MOST_HOLES = 2000;

function* placesOf(piece: PieceModel, flat: Flat, opening: Opening): Steps<Station[]> {
  const { line, count, kind } = opening;
  if (kind === 'breaths') {
    const middle = flat.at(line);
    return middle ? yield* breathsAbout(middle, flat, opening) : [];
  }
  const edge = line.text('edge', 'along');
  if (!line.has('along') || edge === undefined) {
    const place = line.has('at') ? flat.at(line) : undefined;
    return place && count === 1 ? [place] : [];
  }
  const path = flat.edges.find(({ name }) => name === edge)?.path ?? flat.named(edge);
  const row = count > MOST_HOLES ? undefined : rowOf(piece, opening, path && lengthOfPath(path));
  return row ? yield* stationsOf(count, (i) => flat.inFrom(edge, row.stations[i]!, row.inset)) : [];
}
