import { cutToProfile, type Flat, flattenInSteps, isFlat, type Refusal } from '../../geometry/flatten/flatten.ts';
import { formedOf, type Formed as Plate, type Readings, readingsOf } from '../../geometry/flatten/formed.ts';
import { isDome } from '../../geometry/flatten/round.ts';
import { type Cut, cutsInSteps } from '../../geometry/flatten/seams.ts';
import type { Way } from '../../geometry/flatten/way.ts';
import type { Chart } from '../../geometry/surface/chart.ts';
import { type CutForm, smoothParts, wayLength } from '../../geometry/surface/cut.ts';
import type { Surface } from '../../geometry/surface/surface.ts';
import { apart } from '../../geometry/surface/vector.ts';
import { Dear, Recent, type Steps } from '../../incremental/steps.ts';
import { type End, endOf, type FormedBy, formedRound } from '../../trade/dome/hammered.ts';
import { type Bracket, bracketOf, type FormingMethod, WAYS } from '../../trade/dome/ways.ts';
import { LAID_FLAT } from '../forms/answers.ts';
import type { Domed } from '../forms/form.ts';
import { type Form, kindOf } from '../forms/index.ts';
import { baysOf, heldIn, keyOf, meshed, type Surfaced } from './surface.ts';

/*
 * What a hammered form is made of: laid flat by triangles, or a plain round dome by rings, which is the same energy. Whoever
 * asks for a blank, a thickness, a strain or a mass of a formed piece asks here.
 */

/** What is asked of a piece that is hammered. */
export interface Formed extends Surfaced {
  method(): { readonly method: FormingMethod | undefined };
  /** The dome that it is, or is a half of; nothing for another form. */
  domed(): Domed | undefined;
  flattening(): Flattening | Refusal | undefined;
}

/** A form laid flat by triangles. */
export interface Flattening {
  readonly flat: Flat;
  readonly readings: Readings;
  /** Nothing for a form that rolls out flat. */
  readonly formed?: FormedBy;
  /** Where the border lies when the plate is cut to the length of its profile, by vertex, as for raising. */
  readonly profile?: ReadonlyMap<number, readonly [x: number, y: number]>;
  /** Where edges are held to their finished length: the strain that 95 % of the metal would stay below if they were not. */
  readonly freeStrain?: number;
}

/** Strains below this are the mesh's own: the form rolls out flat. */
const ROLLED = 0.004;

/** Vertices of the mesh: the outline is then within 0.2 mm of one ten times as fine. */
const FINE = 900;
/** Of the mesh on which the ends of the range are found, as shares of its own middle. */
const COARSE = 220;

/** The last few forms laid flat, by all that they hang on: an edit of another line of the piece lays nothing flat again. */
const laid = new Dear<Flattening | Refusal>(24);
/** And the cuts that were tried on them. */
const tried = new Dear<readonly Cut[]>(24);

/** The piece laid flat, or why it cannot be; nothing for a form that needs no triangles, or is not finished. */
export function flatteningOf(piece: Formed): Flattening | Refusal | undefined {
  const form = piece.form();
  if (!form) return undefined;
  const domed = piece.domed();
  if (domed && !isDome(Math.min(domed.long, domed.wide), domed.deep))
    return { refused: 'it is more than twice as deep as it is wide: a tube, not a dome' };
  const isAsked = hasNoFormula(form) || piece.isRelieved() || heldIn(piece).length > 0 || hasBays(piece, form);
  return isAsked ? layFlat(piece) : undefined;
}

/** What forming makes of a piece; nothing for one that is only bent or rolled, that cannot be laid flat or is not finished. */
export function formedBy(piece: Formed): FormedBy | undefined {
  const flattening = piece.flattening();
  if (flattening) return 'flat' in flattening ? flattening.formed : undefined;
  const form = piece.form();
  if (form?.kind !== 'dome') return undefined;
  const { method } = piece.method();
  const { diameter, deep } = form;
  return rounds.get(`${method ?? ''} ${diameter} ${deep}`, () => formedRound(diameter, deep, method));
}
const rounds = new Recent<FormedBy | undefined>(48);

/** The same of any form with a surface, domes and cones too; nothing for one that has none. */
export function layFlat(piece: Formed): Flattening | Refusal | undefined {
  const form = piece.form();
  // A flare is hammered out of the finished wall: its metal is that of the wall.
  const chart = piece.worked()?.beforeFlaring;
  if (!form || !chart) return undefined;
  const { method } = piece.method();
  return laid.get(`${method ?? ''} ${keyOf(piece)}`, () =>
    laidFlat({
      chart,
      cut: piece.cutForm(),
      seams: kindOf(form).seams(form),
      held: heldIn(piece),
      bracket: bracketOf(method),
    }),
  );
}

/** All that laying a form flat hangs on. It may take longer than the piece stands: nothing of the model is in it. */
interface LaidOut {
  readonly chart: Chart;
  readonly cut: CutForm | undefined;
  /** Edges at which it meets its other parts, and those that keep their length. */
  readonly seams: readonly string[];
  readonly held: readonly string[];
  readonly bracket: Bracket;
}

/**
 * Cuts that were tried on the piece, the one that spares the metal most first; nothing for a form without a
 * surface. Each cut form is laid flat in its turn: ask only where it matters.
 */
export function cutsTried(piece: Formed): readonly Cut[] {
  const chart = piece.worked()?.beforeFlaring;
  if (!chart) return [];
  const cut = piece.cutForm();
  return tried.get(keyOf(piece), function* () {
    return yield* cutsInSteps(yield* meshed(chart, cut, { vertices: COARSE }), WAYS['dish then raise']);
  });
}

/** A form whose blank no formula gives; of the others none does when flutes or creases draw its metal in. */
const hasNoFormula = (form: Form): boolean => kindOf(form).blank === LAID_FLAT;

/** A bay is cut out of the blank, however the form is written: no formula knows of it. */
const hasBays = (piece: Formed, form: Form): boolean =>
  !kindOf(form).isFlat &&
  (kindOf(form).keepsThickness(form) || piece.domed() !== undefined) &&
  baysOf(piece).length > 0;

/** Whether forming strains it by no more than the mesh is off. */
const isRolledOut = ({ strain }: Readings): boolean => strain < ROLLED;

/** The parts that bays leave of them, and the mirrored copies of bays. */
function partsOf(surface: Surface, edges: readonly string[]): string[] {
  return [...surface.edges.keys()].filter((name) =>
    edges.some(
      (edge) => name === edge || (name.startsWith(`${edge} `) && /^(\d+|mirrored)$/.test(name.slice(edge.length + 1))),
    ),
  );
}

function* laidFlat({ chart, cut, seams, held: edges, bracket }: LaidOut): Steps<Flattening | Refusal> {
  const { way } = bracket;
  const surface = yield* meshed(chart, cut, { vertices: FINE });
  yield undefined;
  const flat = yield* flattenInSteps({ surface, way, seams, held: partsOf(surface, edges) });
  if (!isFlat(flat)) return flat;
  const value = formedOf(flat);
  const readings = readingsOf(value);
  if (isRolledOut(readings)) return { flat, readings };
  const profile = bracket.cutsToProfile ? yield* profileOf(chart, flat, partsOf(surface, seams)) : undefined;
  const coarse = yield* meshed(chart, cut, { vertices: COARSE });
  const middle = yield* flattenInSteps({ surface: coarse, way, seams, held: partsOf(coarse, edges) });
  if (!isFlat(middle)) return { flat, readings };
  const beside = formedOf(middle);
  // The ends lie near the middle: from there they are soon found.
  const coarsely = function* (by: Way, held: readonly string[]): Steps<Plate | undefined> {
    const end = yield* flattenInSteps({ surface: coarse, way: by, seams, held: partsOf(coarse, held), from: middle });
    return isFlat(end) ? formedOf(end) : undefined;
  };
  const least = yield* coarsely(bracket.least, edges);
  const most = yield* coarsely(bracket.most, edges);
  const held = bracket.least === WAYS.held ? least : yield* coarsely(WAYS.held, edges);
  if (!least || !most || !held) return { flat, readings };
  const end = (formed: Plate): End => ({ formed, beside });
  const formed: FormedBy = {
    bracket,
    value,
    least: end(least),
    most: end(most),
    held: end(held),
    asked: flat.asked,
    count: flat.topology.triangles.length / 3,
    parts: 'triangles',
  };
  const free = edges.length ? yield* coarsely(way, []) : undefined;
  return {
    flat,
    readings,
    formed,
    ...(profile ? { profile } : {}),
    ...(free ? { freeStrain: endOf(formed, end(free)).strain } : {}),
  };
}

/**
 * Where the border lies on a plate that is cut to the length of its profile, measured up the form's columns to the crown.
 * Nothing for a form that does not close over at its top.
 */
function* profileOf(
  chart: Chart,
  flat: Flat,
  seams: readonly string[],
): Steps<ReadonlyMap<number, readonly [number, number]> | undefined> {
  if (!chart.poles.top) return undefined;
  const { positions, parameters } = flat.surface;
  const top = chart.point(0.5, 1);
  let [crown, nearest] = [0, Number.POSITIVE_INFINITY];
  for (let v = 0; v < flat.topology.vertices; v++) {
    const away = apart(top, [positions[3 * v]!, positions[3 * v + 1]!, positions[3 * v + 2]!]);
    if (away < nearest) [crown, nearest] = [v, away];
  }
  // A bay has taken the crown away.
  if (nearest > 1e-6 * Math.sqrt(flat.formedArea)) return undefined;
  // What mates with another part is not trimmed.
  const mating = new Set(seams.flatMap((name) => [...flat.surface.edges.get(name)!.subarray(1, -1)]));
  const lengths = new Map<number, number>();
  for (const vertex of flat.topology.loops[0]!) {
    if (vertex === crown || mating.has(vertex)) continue;
    const [u, v] = chart.spot(parameters[2 * vertex]!, parameters[2 * vertex + 1]!);
    yield undefined;
    const parts = smoothParts(chart, (share) => [u, v + (1 - v) * share]);
    lengths.set(
      vertex,
      parts.reduce((sum, part) => sum + wayLength(chart, part), 0),
    );
  }
  return cutToProfile(flat, crown, lengths);
}
