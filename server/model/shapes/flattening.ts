import {
  effectiveStrain,
  type Flat,
  flattenInSteps,
  isFlat,
  type Refusal,
  thicknessBelow,
} from '../../geometry/flatten/flatten.ts';
import { type Cut, cutsInSteps } from '../../geometry/flatten/seams.ts';
import { atVertices } from '../../geometry/flatten/strain.ts';
import type { Way } from '../../geometry/flatten/way.ts';
import type { Chart } from '../../geometry/surface/chart.ts';
import type { CutForm } from '../../geometry/surface/cut.ts';
import type { Surface } from '../../geometry/surface/surface.ts';
import { Dear, type Steps } from '../../incremental/steps.ts';
import type { FormingMethod } from '../../trade/dome/dome.ts';
import { WAYS } from '../../trade/dome/ways.ts';
import { LAID_FLAT } from '../forms/answers.ts';
import { type Form, kindOf } from '../forms/index.ts';
import { baysOf, heldIn, keyOf, meshed, type Surfaced } from './surface.ts';

/* The formed piece laid flat by numbers, where no formula gives its blank. */

/** What is asked of a piece that is to be laid flat. */
export interface Formed extends Surfaced {
  method(): { readonly method: FormingMethod | undefined };
}

/** What is read off a flat plate. Thicknesses are shares of the start, strains effective. */
export interface Readings {
  readonly long: number;
  readonly wide: number;
  readonly area: number;
  readonly crown: number;
  readonly mid: number;
  readonly edge: number;
  /** Nothing but a fortieth of the surface is thinner: the very corners of a mesh are not to be trusted. */
  readonly least: number;
  readonly strainCrown: number;
  readonly strainEdge: number;
  /** Strain that nineteen twentieths of the metal stay below. */
  readonly strain: number;
}

export interface Flattening {
  readonly flat: Flat;
  readonly readings: Readings;
  /** The same of a rim that is held and of one that only shrinks; nothing for a form that rolls out flat. */
  readonly ends?: readonly [held: Readings, raised: Readings];
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

/** The piece laid flat, or why it cannot be; nothing for a form that has a formula, or is not finished. */
export function flatteningOf(piece: Formed): Flattening | Refusal | undefined {
  const form = piece.form();
  if (!form) return undefined;
  const isAsked = hasNoFormula(form) || piece.isRelieved() || heldIn(piece).length > 0 || isRolledWithBays(piece, form);
  return isAsked ? layFlat(piece) : undefined;
}

/** The same of any form with a surface, domes and cones too; nothing for one that has none. */
export function layFlat(piece: Formed): Flattening | Refusal | undefined {
  const form = piece.form();
  // A flare is hammered out of the finished wall: its metal is that of the wall.
  const chart = piece.worked()?.beforeFlaring;
  if (!form || !chart) return undefined;
  const { method } = piece.method();
  return laid.get(`${method ?? ''} ${keyOf(piece)}`, () =>
    laidFlat({ chart, cut: piece.cutForm(), seams: kindOf(form).seams(form), held: heldIn(piece), way: wayOf(method) }),
  );
}

/** All that laying a form flat hangs on. It may take longer than the piece stands: nothing of the model is in it. */
interface Laying {
  readonly chart: Chart;
  readonly cut: CutForm | undefined;
  /** Edges at which it meets its other parts, and those that keep their length. */
  readonly seams: readonly string[];
  readonly held: readonly string[];
  readonly way: Way;
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

/** A bay in a cylinder or a cone is cut out of its blank, however the form is written: no formula knows of it. */
const isRolledWithBays = (piece: Formed, form: Form): boolean =>
  !kindOf(form).isFlat && kindOf(form).keepsThickness(form) && baysOf(piece).length > 0;

/** The way of working behind a method of the language; plane stress where none is said. */
const wayOf = (method: FormingMethod | undefined): Way => WAYS[method ?? 'dish then raise'];

/** Whether forming strains it by no more than the mesh is off. */
export const isRolledOut = ({ strain }: Readings): boolean => strain < ROLLED;

/** The parts that bays leave of them, and the mirrored copies of bays. */
function partsOf(surface: Surface, edges: readonly string[]): string[] {
  return [...surface.edges.keys()].filter((name) =>
    edges.some(
      (edge) => name === edge || (name.startsWith(`${edge} `) && /^(\d+|mirrored)$/.test(name.slice(edge.length + 1))),
    ),
  );
}

function* laidFlat({ chart, cut, seams, held: edges, way }: Laying): Steps<Flattening | Refusal> {
  const surface = yield* meshed(chart, cut, { vertices: FINE });
  yield undefined;
  const flat = yield* flattenInSteps({ surface, way, seams, held: partsOf(surface, edges) });
  if (!isFlat(flat)) return flat;
  const readings = read(flat);
  if (isRolledOut(readings)) return { flat, readings };
  // How far the ends lie from the middle is told well enough by a coarser mesh.
  const coarse = yield* meshed(chart, cut, { vertices: COARSE });
  const coarsely = function* (way: Way, held: readonly string[]): Steps<Readings | undefined> {
    const end = yield* flattenInSteps({ surface: coarse, way, seams, held: partsOf(coarse, held) });
    return isFlat(end) ? read(end) : undefined;
  };
  const middle = yield* coarsely(way, edges);
  const held = yield* coarsely(WAYS.held, edges);
  const raised = yield* coarsely(WAYS.raise, edges);
  if (!middle || !held || !raised) return { flat, readings };
  const scaled = (end: Readings): Readings => {
    const made: { -readonly [Key in keyof Readings]: number } = { ...readings };
    for (const name of Object.keys(made) as (keyof Readings)[])
      made[name] = (readings[name] * end[name]) / middle[name];
    return made;
  };
  const ends = [scaled(held), scaled(raised)] as const;
  const free = edges.length ? yield* coarsely(way, []) : undefined;
  return { flat, readings, ends, ...(free ? { freeStrain: scaled(free).strain } : {}) };
}

function read(flat: Flat): Readings {
  const { depth, thickness } = flat;
  const strain = atVertices(flat.topology, flat.positions, flat.strains.effective);
  const mean = (values: Float64Array, from: number, to: number): number => {
    let [sum, count] = [0, 0];
    for (let i = 0; i < values.length; i++) {
      if (depth[i]! < from || depth[i]! > to) continue;
      sum += values[i]!;
      count++;
    }
    return count ? sum / count : Number.NaN;
  };
  return {
    long: flat.long,
    wide: flat.wide,
    area: flat.flatArea,
    crown: mean(thickness, 0.98, 1),
    mid: mean(thickness, 0.4, 0.6),
    edge: mean(thickness, 0, 0),
    least: thicknessBelow(flat, 0.025),
    strainCrown: mean(strain, 0.98, 1),
    strainEdge: mean(strain, 0, 0),
    strain: effectiveStrain(flat, 0.95),
  };
}
