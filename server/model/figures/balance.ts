import { say } from '../../../l10n/say.ts';
import { measured, wayOf } from '../../geometry/surface/along.ts';
import type { Vector } from '../../geometry/surface/vector.ts';
import { balance, centreFront, centreUp, type Weight } from '../../trade/mass/balance.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { placedCentre } from '../assembly/centre.ts';
import { assemblyOf } from '../assembly/pose.ts';
import { NONE } from '../forms/answers.ts';
import { kindOf } from '../forms/index.ts';
import { ofThing } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import type { PieceModel } from '../things/piece.ts';
import type { Along, SeamModel } from '../things/seam.ts';
import type { Figure } from '../values/figure.ts';
import type { FigureSet } from '../values/figure-set.ts';
import { fitOf } from './fit.ts';
import { centreOf, middleOf } from './plate-centre.ts';

/*
 * Where mass lies: the centre of a formed plate, and how far in front of the head a helm balances. Forms have their axis
 * upright and their front towards +y. What has a place in the assembly with the piece that fits the head lies there. What fits the
 * head or the face stands on the head's own axis. What else is riveted to such a piece is turned round the same axis until the
 * edge that is joined looks the way of the row.
 */

/** How far from the axis a piece reaches, mm. */
const reachOf = ofThing('piece', undefined, reckonedReach);

/** Adds `centre.up` and `centre.front`, mm. */
export function addCentre(piece: PieceModel, set: FigureSet): void {
  const form = piece.form();
  const centre = form && kindOf(form).follows(form) === NONE ? centreOf(piece) : undefined;
  const chart = piece.chart();
  if (!form || !centre || !chart) return;
  const lowest = chart.point(0.5, 0)[2];
  const { place } = form.line;
  set.add('centre.up', 'centre of mass above the lower edge', centreUp(centre[2], lowest), place, [
    `${piece.name}.area`,
  ]);
  if (Math.abs(centre[1]) > 0.05)
    set.add(
      'centre.front',
      say`centre of mass ${centre[1] < 0 ? say`behind` : say`in front of`} the axis of the form`,
      centreFront(centre[1]),
      place,
      [`${piece.name}.area`],
    );
}

/**
 * How far in front of the middle of the head a helm balances, mm. `mass` is all that is worn on the head. Nothing where
 * no piece of it has both a place and a mass.
 */
export function helmBalance(
  model: Model,
  pieces: ReadonlySet<PieceModel>,
  seams: readonly SeamModel[],
  mass: Figure,
): Result | undefined {
  const placed = placedFronts(model);
  const parts: Weight[] = [];
  let reach = 0;
  for (const [piece, front] of placed) {
    const own = piece.figure('mass');
    if (!pieces.has(piece) || !own) continue;
    parts.push({ mass: own.value * piece.make(), front });
    reach = Math.max(reach, reachOf(piece) ?? 0);
  }
  for (const [piece, turn] of turnsOf(pieces, seams)) {
    if (placed.has(piece)) continue;
    const centre = centreOf(piece);
    const own = piece.figure('mass');
    if (!centre || !own) continue;
    const [x, y] = centre;
    parts.push({ mass: own.value * piece.make(), front: Math.hypot(x, y) * Math.cos(Math.atan2(x, y) + turn) });
    reach = Math.max(reach, reachOf(piece) ?? 0);
  }
  if (!parts.length) return undefined;
  const known = parts.reduce((sum, part) => sum + part.mass, 0);
  return balance({ parts, loose: Math.max(0, mass.value - known), reach });
}

/** How far in front of the head's axis each piece lies that has a place with the one that fits the head, mm. */
function placedFronts(model: Model): ReadonlyMap<PieceModel, number> {
  const found = new Map<PieceModel, number[]>();
  for (const { root, bodies } of assemblyOf(model).groups) {
    const piece = bodies.find(({ body }) => body.id === root)?.body.piece;
    const region = piece && fitOf(piece)?.region;
    if (region !== 'head' && region !== 'face') continue;
    for (const placed of bodies) {
      const at = placedCentre(placed);
      if (at) found.set(placed.body.piece, [...(found.get(placed.body.piece) ?? []), at[1]]);
    }
  }
  return new Map([...found].map(([piece, all]) => [piece, all.reduce((sum, y) => sum + y / all.length, 0)]));
}

/** By how much each piece is turned round the head's axis, rad; without those of which it is not known. */
function turnsOf(pieces: ReadonlySet<PieceModel>, seams: readonly SeamModel[]): ReadonlyMap<PieceModel, number> {
  const turns = new Map<PieceModel, number>();
  for (const piece of pieces) {
    const region = fitOf(piece)?.region;
    if (region === 'head' || region === 'face') turns.set(piece, 0);
  }
  for (let before = -1; before !== turns.size; ) {
    before = turns.size;
    for (const seam of seams) {
      const row = seam.along().find(({ piece }) => turns.has(piece));
      const from = row && directionOf(row);
      if (!row || from === undefined) continue;
      const looks = from + turns.get(row.piece)!;
      for (const piece of new Set(
        seam.stacks().flatMap(({ layers }) => layers.flatMap((layer) => layer.piece ?? [])),
      )) {
        if (turns.has(piece)) continue;
        const form = piece.form();
        // It lies along its neighbour's line, where that is.
        const followed = form ? kindOf(form).follows(form) : NONE;
        if (followed !== NONE) {
          const turn = turns.get(piece.model.pieceOf(followed.neighbour));
          if (turn !== undefined) turns.set(piece, turn);
          continue;
        }
        const joined = seam.along().find((each) => each.piece === piece);
        const own = (joined && directionOf(joined)) ?? lookOf(centreOf(piece));
        if (own !== undefined) turns.set(piece, looks - own);
      }
    }
  }
  return turns;
}

/** Which way a stretch of an edge looks from the axis, rad from the front. */
function directionOf({ piece, edge, from, to }: Along): number | undefined {
  const chart = piece.chart();
  const track = chart && (chart.edges.get(edge) ?? chart.lines.get(edge));
  if (!chart || !track || track.length < 2) return undefined;
  const way = measured(chart, wayOf(chart, track));
  const [start, end] = from === undefined || to === undefined ? [0, way.length] : [from, to];
  const points = Array.from({ length: STEPS + 1 }, (_, i) =>
    chart.point(...way.at(start + ((end - start) * i) / STEPS)),
  );
  return lookOf(middleOf(points));
}
const STEPS = 32;

/** What stands on the axis looks nowhere: whichever way it is turned, it stays there. */
const lookOf = (at: Vector | undefined): number | undefined =>
  at && (Math.hypot(at[0], at[1]) > 1e-6 ? Math.atan2(at[0], at[1]) : 0);

function reckonedReach(piece: PieceModel): number {
  const chart = piece.chart();
  if (!chart) return 0;
  let most = 0;
  for (let i = 0; i <= STEPS; i++)
    for (let j = 0; j <= STEPS; j++) {
      const [x, y] = chart.point(i / STEPS, j / STEPS);
      most = Math.max(most, Math.hypot(x, y));
    }
  return most;
}
