import type { Section } from '../../../grammar/tree.ts';
import { measured, wayOf } from '../../geometry/surface/along.ts';
import { formCentreInSteps } from '../../geometry/surface/measure.ts';
import type { Vector } from '../../geometry/surface/vector.ts';
import { Dear } from '../../incremental/steps.ts';
import { balance, centreFront, centreUp, type Weight } from '../../trade/mass/balance.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { MEASURED, NONE } from '../forms/answers.ts';
import { kindOf } from '../forms/index.ts';
import { perModel, thingOf } from '../per-spec.ts';
import { baysOf, keyOf } from '../shapes/surface.ts';
import { homeOf, type Model } from '../spec.ts';
import type { PieceModel } from '../things/piece.ts';
import type { Along, SeamModel } from '../things/seam.ts';
import type { Figure } from '../values/figure.ts';
import type { FigureSet } from '../values/figure-set.ts';
import { fitOf } from './fit.ts';

/*
 * Where mass lies: the centre of a formed plate, and how far in front of the head a helm balances. Forms have their axis
 * upright and their front towards +y. What fits the head or the face stands on the head's own axis. What is riveted to
 * such a piece is turned round the same axis until the edge that is joined looks the way of the row.
 */

/** Kept for each piece, since the balance is asked for at every key. */
function keptOf<T>(reckon: (piece: PieceModel) => T): (piece: PieceModel) => T | undefined {
  const known = perModel((model: Model) => {
    const each = model.eachSection<T | undefined>();
    // The piece is asked for again: after an edit another one stands for the section.
    const get = (section: Section) =>
      each.get(section, () => {
        const piece = thingOf(model, 'piece', section);
        return piece && reckon(piece);
      });
    return () => get;
  });
  return (piece) => known(homeOf(piece))(piece.named.section);
}

/** The middle of a formed plate's area, mm in the form's own frame; nothing for what is flat or has no surface. */
const centreOf = keptOf(reckonedCentre);

/** How far from the axis a piece reaches, mm. */
const reachOf = keptOf(reckonedReach);

/** The last middles of forms, by all that they hang on. */
const centres = new Dear<Vector>(48);

function reckonedCentre(piece: PieceModel): Vector | undefined {
  const form = piece.form();
  if (!form) return undefined;
  const kind = kindOf(form);
  if (kind.follows(form) !== NONE) return middleOf(piece.baseLine()?.points ?? []);
  const own = kind.centre(form);
  if (own === NONE) return undefined;
  if (own !== MEASURED && !baysOf(piece).length && !piece.isWorked()) return own;
  const chart = piece.chart();
  const centre = chart && centres.get(keyOf(piece), () => formCentreInSteps(chart, piece.cutForm()));
  return centre?.every(Number.isFinite) ? centre : undefined;
}

/** The middle of points that stand at even steps. */
function middleOf(points: readonly Vector[]): Vector | undefined {
  if (!points.length) return undefined;
  const mean = (axis: 0 | 1 | 2) => points.reduce((sum, point) => sum + point[axis], 0) / points.length;
  return [mean(0), mean(1), mean(2)];
}

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
      `centre of mass ${centre[1] < 0 ? 'behind' : 'in front of'} the axis of the form`,
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
  pieces: ReadonlySet<PieceModel>,
  seams: readonly SeamModel[],
  mass: Figure,
): Result | undefined {
  const turns = turnsOf(pieces, seams);
  const parts: Weight[] = [];
  let reach = 0;
  for (const [piece, turn] of turns) {
    const centre = centreOf(piece);
    const own = piece.figure('mass');
    if (!centre || !own) continue;
    const [x, y] = centre;
    parts.push({ mass: own.value * piece.make(), front: Math.hypot(x, y) * Math.cos(Math.atan2(x, y) + turn) });
    reach = Math.max(reach, reachOf(piece) ?? 0);
  }
  if (!parts.length) return undefined;
  const placed = parts.reduce((sum, part) => sum + part.mass, 0);
  return balance({ parts, loose: Math.max(0, mass.value - placed), reach });
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
