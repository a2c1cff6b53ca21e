import { say } from '../../../l10n/say.ts';
import { wayOf } from '../../geometry/surface/along.ts';
import type { Chart } from '../../geometry/surface/chart.ts';
import { smoothParts, wayLength } from '../../geometry/surface/cut.ts';
import { creaseSection } from '../../geometry/surface/relief.ts';
import {
  bendAllowance,
  bendDeduction,
  edgeStrain,
  flangeStrain,
  flareStrain,
  kFactorFor,
  setback,
} from '../../trade/bend/bend.ts';
import { creaseMeasures } from '../../trade/bend/crease.ts';
import { fluteSection } from '../../trade/bend/flute.ts';
import { rollStiffness, rollStrain } from '../../trade/edge/edge.ts';
import { ends, intervalOf, through } from '../../trade/reckoning/interval.ts';
import { plain, type Result } from '../../trade/reckoning/result.ts';
import { NONE, NOT_KNOWN } from '../forms/answers.ts';
import { type Form, kindOf } from '../forms/index.ts';
import type { LineReading } from '../names/line-reading.ts';
import { type Bend, creasesIn, fluteLines } from '../shapes/worked.ts';
import type { PieceModel } from '../things/piece.ts';
import type { FigureSet } from '../values/figure-set.ts';

/* Bends, flares and rolled edges: what they take up, and what they ask of the metal. */

export function addTurning(piece: PieceModel, set: FigureSet): void {
  const material = piece.material();
  const thickness = material?.thickness();
  const form = piece.form();
  if (!form || !thickness || material?.kind() !== 'sheet') return;
  addBends(piece, set);
  addFlutes(piece, set);
  addCreases(piece, set);
  for (const { line, edge, strain } of gatheringsOf(piece))
    set.add(`${edge}.gathering`, say`gathering of the edge turned at ${edge}`, strain, line.place, []);
  for (const bend of piece.bends()) {
    const strain = flaredStrain(piece, bend);
    if (strain)
      set.add(
        `${bend.edge}.strain`,
        say`stretch of the edge by the flare at ${bend.edge}`,
        strain,
        bend.line.place,
        [],
      );
  }
  for (const { line, edge, hollow, outward, wire } of piece.edgeWorks()) {
    if (hollow === undefined) continue;
    set.add(
      `${edge}.stiffness`,
      say`stiffness of the edge rolled at ${edge}, beside the same metal left flat`,
      rollStiffness({ hollow, thickness: thickness.value, wired: wire !== undefined }),
      line.place,
      [thickness.name],
    );
    const curve = tightestOn(piece, edge, outward);
    if (!curve) continue;
    set.add(
      `${edge}.roll-strain`,
      say`strain of the lip rolled at ${edge}`,
      rollStrain({ hollow, thickness: thickness.value, ...curve }),
      line.place,
      [thickness.name],
    );
  }
}

/** Bends have no names: they are counted as they stand. */
function addBends(piece: PieceModel, set: FigureSet): void {
  const thickness = piece.material()?.thickness();
  const metal = piece.material()?.metal();
  if (!thickness || !metal) return;
  const bends = piece.bends().filter(({ kind }) => kind === 'bend');
  for (const [i, { line, angle, radius }] of bends.entries()) {
    if (angle === undefined || radius === undefined || !(radius >= 0)) continue;
    const name = `bend-${i + 1}`;
    const factor = kFactorFor({ metal: metal.id, temper: metal.temper, radius, thickness: thickness.value });
    const of = (kFactor: number, t: number) => ({ turned: angle, radius, thickness: t, kFactor });
    const now = of(factor.value, thickness.value);
    const spreadOf = (formula: (bend: ReturnType<typeof of>) => { value: number }) =>
      ends(through((k, t) => formula(of(k, t)).value, intervalOf(factor), intervalOf(thickness)));
    const neutral =
      say`Neutral line at ${plain(factor.value)} of the thickness: ${factor.source}. ${factor.note ?? ''}`.trim();
    const inputs = [thickness.name];
    set.add(
      `${name}.allowance`,
      'metal that the bend takes up',
      {
        ...bendAllowance(now),
        ...spreadOf(bendAllowance),
        note: say`${neutral} The angle is the one the metal is turned through.`,
      },
      line.place,
      inputs,
    );
    set.add(`${name}.setback`, 'from the outside corner to where the bend begins', setback(now), line.place, inputs);
    set.add(
      `${name}.deduction`,
      'to take off the sum of the outside measures',
      { ...bendDeduction(now), ...spreadOf(bendDeduction) },
      line.place,
      inputs,
    );
  }
}

/** Flutes of a piece, by their lines. */
export function flutesOf(
  piece: PieceModel,
): { line: LineReading; deep: number; wide: number; section: ReturnType<typeof fluteSection> }[] {
  return fluteLines(piece).map(({ line, deep, wide }) => ({ line, deep, wide, section: fluteSection({ deep, wide }) }));
}

/** Flutes have no names: they are counted as they stand. */
function addFlutes(piece: PieceModel, set: FigureSet): void {
  for (const [i, { line, section }] of flutesOf(piece).entries()) {
    const name = `flute-${i + 1}`;
    set.add(`${name}.way`, 'way over one flute', section.way, line.place, []);
    set.add(`${name}.strain`, 'strain across a flute', section.strain, line.place, []);
    set.add(`${name}.radius`, 'tightest radius of a flute', section.radius, line.place, []);
  }
}

/** Creases have no names either. */
function addCreases(piece: PieceModel, set: FigureSet): void {
  for (const [i, { line, wide, turn }] of creaseSectionsOf(piece).entries()) {
    set.add(`crease-${i + 1}.wide`, 'width of the crease, half way along it', wide, line.place, []);
    set.add(`crease-${i + 1}.turn`, 'angle that the ridge turns through', turn, line.place, []);
  }
}

/** How wide each crease is and how far its ridge is turned, half way along it. */
export function creaseSectionsOf(piece: PieceModel): { line: LineReading; wide: Result; turn: Result }[] {
  const creases = creasesIn(piece);
  const chart = creases.length ? piece.plainChart() : undefined;
  return creases.flatMap(({ line, what }) => {
    const section = chart && creaseSection(chart, what);
    if (!section || !(section.deep > 0)) return [];
    return [{ line, ...creaseMeasures(section) }];
  });
}

/** Edges that have to gather: flanges and hems turned along an outside curve. */
export function gatheringsOf(piece: PieceModel): {
  line: LineReading;
  edge: string;
  strain: Result;
  /** Of the line it is turned on, in plan, and how wide what is turned is, mm; how far it is turned, degrees. */
  radius: number;
  width: number;
  turned: number;
  /** Where a line says the width by itself. */
  slot?: 'hem';
}[] {
  if (!piece.form() || piece.material()?.kind() !== 'sheet') return [];
  const flanges = piece.bends().flatMap(({ line, kind, edge, angle, distance }) => {
    const rim = edge === 'rim' && kind === 'bend' ? edgeRadius(piece, edge) : undefined;
    if (rim === undefined || angle === undefined || distance === undefined || distance >= rim) return [];
    return [{ line, edge, radius: rim - distance, width: distance, turned: angle }];
  });
  const hems = piece.edgeWorks().flatMap(({ line, edge, hem }) => {
    const radius = hem && edge === 'rim' ? edgeRadius(piece, edge) : undefined;
    return hem && radius !== undefined
      ? [{ line, edge, radius, width: hem.width, turned: 180, slot: 'hem' as const }]
      : [];
  });
  return [...flanges, ...hems].map((each) => ({
    ...each,
    strain: flangeStrain({ radius: each.radius, width: each.width, angle: each.turned, side: 'shrink' }),
  }));
}

/** How far a flare stretches its edge; nothing where it does not change the surface. */
export function flaredStrain(piece: PieceModel, bend: Bend): Result | undefined {
  const form = piece.form();
  const flare = form && flareOf(form, bend);
  if (flare) return flareStrain(flare);
  if (bend.kind !== 'flare' || !piece.isWorked()) return undefined;
  const [before, after] = [piece.worked()?.beforeFlaring, piece.chart()].map(
    (chart) => chart && sideLength(chart, bend.edge),
  );
  if (before === undefined || after === undefined) return undefined;
  return edgeStrain({ before, after });
}

/** Length of a whole side of a form, mm. */
function sideLength(chart: Chart, edge: string): number | undefined {
  const track = chart.edges.get(edge);
  if (!track || track.length < 2) return undefined;
  return smoothParts(chart, wayOf(chart, track)).reduce((sum, way) => sum + wayLength(chart, way), 0);
}

/** What a flare starts from and ends as; nothing for one that is not finished being written or on another form. */
export function flareOf(form: Form, bend: Bend): Parameters<typeof flareStrain>[0] | undefined {
  const { kind, edge, angle, distance } = bend;
  if (kind !== 'flare' || angle === undefined || distance === undefined) return undefined;
  const wall = kindOf(form).wall(form, edge);
  return wall === NONE ? undefined : { ...wall, turned: angle, width: distance };
}

/** The smallest radius with which an edge bulges outward, mm; nothing for a straight one, or where it is not known. */
function edgeRadius(piece: PieceModel, edge: string): number | undefined {
  const run = piece.edgeRun(edge);
  return run !== NOT_KNOWN && typeof run.tightest === 'number' ? run.tightest : undefined;
}

/** With which radius an edge curves in its middle, where a hinge sits, mm; nothing where it is straight or not known. */
export function radiusAtMiddle(piece: PieceModel, edge: string): number | undefined {
  const run = piece.edgeRun(edge);
  const length = piece.edgeLength(edge)?.value;
  const curvature = run === NOT_KNOWN || length === undefined ? 0 : Math.abs(run.curvature(length / 2));
  return curvature * (length ?? 0) > AS_GOOD_AS_STRAIGHT ? 1 / curvature : undefined;
}

/** Turned by less than this over its length, rad, an edge is straight but for rounding. */
const AS_GOOD_AS_STRAIGHT = 1e-5;

/** Where an edge curves most, and whether what is turned there is stretched: on a hollow one the other way round. */
export function tightestOn(
  piece: PieceModel,
  edge: string,
  outward: boolean,
): { readonly radius: number; readonly outward: boolean } | undefined {
  const run = piece.edgeRun(edge);
  if (run === NOT_KNOWN) return undefined;
  const bulging = typeof run.tightest === 'number' ? run.tightest : Number.POSITIVE_INFINITY;
  const hollow = run.hollow ?? Number.POSITIVE_INFINITY;
  const radius = Math.min(bulging, hollow);
  return Number.isFinite(radius) ? { radius, outward: bulging <= hollow ? outward : !outward } : undefined;
}

/** Where the bends of a piece curve: the bend line, and how far the curve goes to either side of it on the flat plate, mm. */
export function bendCurves(
  piece: PieceModel,
): { readonly edge: string; readonly distance: number; readonly half: number }[] {
  const thickness = piece.thickness();
  const metal = piece.material()?.metal();
  if (thickness === undefined || !metal) return [];
  return piece.bends().flatMap(({ kind, edge, angle, radius, distance }: Bend) => {
    if (kind !== 'bend' || angle === undefined || radius === undefined || distance === undefined) return [];
    const { value: kFactor } = kFactorFor({ metal: metal.id, temper: metal.temper, radius, thickness });
    const taken = bendAllowance({ turned: angle, radius, thickness, kFactor });
    return taken.outside === undefined ? [{ edge, distance, half: taken.value / 2 }] : [];
  });
}
