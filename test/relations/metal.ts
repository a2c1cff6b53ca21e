import type { PieceModel } from '../../server/model/things/piece.ts';

/*
 * What must hold of every hammered piece, whatever its form, its way of working and its blank: the metal is kept, and no
 * figure of the piece gainsays another.
 */

/** How far a relation is from holding, in shares of what it is about; nothing where it says nothing of the piece. */
export interface Relation {
  readonly name: string;
  /** It holds up to this. */
  readonly within: number;
  off(piece: PieceModel): number | undefined;
}

/** Two numbers that should be the same, as a share of the greater. */
const apart = (one: number, other: number) => Math.abs(one - other) / Math.max(Math.abs(one), Math.abs(other), 1e-9);
/** How far the first lies above the second. */
const above = (one: number, other: number) => Math.max(0, one - other) / Math.max(Math.abs(one), Math.abs(other), 1e-9);
const most = (values: readonly (number | undefined)[]): number | undefined => {
  const known = values.filter((each) => each !== undefined);
  return known.length ? Math.max(...known) : undefined;
};

const PLACES = ['crown', 'mid', 'edge', 'mean'] as const;

const RELATIONS: readonly Relation[] = [
  {
    name: 'flat metal = ∫ t dA over the surface',
    within: 1e-3,
    off(piece) {
      const outcome = piece.outcome();
      if (!outcome) return undefined;
      const { areas, τ } = outcome.by.value.parts;
      const more = Math.log(outcome.value.area / outcome.by.value.area);
      const volume = τ.reduce((sum, each, i) => sum + Math.exp(each + more) * areas[i]!, 0);
      return apart(volume / areas.reduce((sum, each) => sum + each, 0), outcome.value.mean);
    },
  },
  {
    name: 'flat metal × t0 = mean thickness × finished area',
    within: 3e-3,
    off(piece) {
      const [outcome, mean, area] = [piece.outcome(), piece.figure('thickness.mean'), piece.figure('area')];
      if (!outcome || !mean || !area) return undefined;
      return apart(outcome.value.area * piece.thickness()!, mean.value * area.value);
    },
  },
  {
    name: 'mass of the piece + trimmings = blank × t0 × density, less what is cut out',
    within: 2e-4,
    off(piece) {
      const [outcome, mass, blank] = [piece.outcome(), piece.figure('mass'), piece.blank()];
      const density = piece.material()?.density()?.value;
      if (!outcome || !mass || !blank || density === undefined || piece.openings().length || piece.pierced().length)
        return undefined;
      const whole = (blank.area * piece.thickness()! * density) / 1000;
      return apart(mass.value + (piece.figure('trimmings')?.value ?? 0), whole);
    },
  },
  {
    name: 'least ≤ crown, mid, edge, mean ≤ most',
    within: 1e-9,
    off(piece) {
      const [least, greatest] = [piece.figure('thickness.least'), piece.figure('thickness.most')];
      if (!least || !greatest) return undefined;
      return most(
        PLACES.map((place) => piece.figure(`thickness.${place}`)).flatMap((each) =>
          each
            ? [
                above(least.value, each.value),
                above(each.value, greatest.value),
                above(least.low!, each.low!),
                above(each.high!, greatest.high!),
              ]
            : [],
        ),
      );
    },
  },
  {
    name: 'every value lies in its own range',
    within: 1e-12,
    off: (piece) =>
      most(
        piece
          .figures()
          .all()
          .map(({ low, value, high }) =>
            low === undefined || high === undefined ? undefined : Math.max(above(low, value), above(value, high)),
          ),
      ),
  },
  {
    name: 'every figure is a number',
    within: 0,
    off: (piece) =>
      most(
        piece
          .figures()
          .all()
          .map(({ value, low = value, high = value }) => ([value, low, high].every(Number.isFinite) ? 0 : 1)),
      ),
  },
  {
    name: 'what is needed ≤ what is cut',
    within: 2e-3,
    off(piece) {
      const blank = piece.blank();
      if (!piece.outcome() || !blank || blank.overridden) return undefined;
      return most(
        (['long', 'wide', 'area'] as const).map((name) => {
          const needed = piece.figure(`blank.needed-${name}`);
          return needed && above(needed.value, blank[name]);
        }),
      );
    },
  },
  {
    name: 'what is in the piece ≤ its own blank',
    within: 1e-9,
    off(piece) {
      const [outcome, blank] = [piece.outcome(), piece.blank()];
      return outcome && blank?.overridden
        ? above(outcome.value.area, Math.max(blank.area, 1e-3 * outcome.by.value.area))
        : undefined;
    },
  },
  {
    name: 'its own blank, too small, is all in the piece',
    within: 3e-3,
    off(piece) {
      const [outcome, blank, worked] = [piece.outcome(), piece.blank(), piece.workedBlank()];
      const [mean, area] = [piece.figure('thickness.mean'), piece.figure('area')];
      if (!outcome || !blank?.overridden || !worked || !mean || !area) return undefined;
      const edges = worked.needed.area - outcome.by.value.area;
      if (blank.area >= worked.needed.area || blank.area - edges < 0.05 * outcome.by.value.area) return undefined;
      return apart(((blank.area - edges) * piece.thickness()!) / area.value, mean.value);
    },
  },
  {
    name: 'along the edge + across it + ln(t/t0) = 0',
    within: 1e-6,
    off(piece) {
      const [along, across, edge] = ['strain.edge-along', 'strain.edge-across', 'thickness.edge'].map((name) =>
        piece.figure(name),
      );
      if (!along || !across || !edge) return undefined;
      return Math.abs(along.value + across.value + Math.log(edge.value / piece.thickness()!));
    },
  },
  {
    name: 'area of the blank ≤ its box',
    within: 1e-4,
    off(piece) {
      const blank = piece.blank();
      return blank && above(blank.area, blank.long * blank.wide);
    },
  },
  {
    name: 'held rim ≤ needed ≤ most',
    within: 0.02,
    off(piece) {
      const worked = piece.workedBlank();
      const by = piece.formedBy();
      if (!worked?.least || !worked.most || !by || piece.line('hold')) return undefined;
      return most([
        above(worked.least.long * worked.least.wide, worked.needed.long * worked.needed.wide),
        by.bracket.cutsToProfile
          ? above(worked.needed.long * worked.needed.wide, worked.most.long * worked.most.wide)
          : undefined,
      ]);
    },
  },
];

export interface Tally {
  readonly relation: Relation;
  asked: number;
  failed: number;
  worst: number;
  /** Where it was furthest from holding. */
  at: string;
}

/** Holds the relations against pieces. */
export class Tallies {
  readonly all: readonly Tally[] = RELATIONS.map((relation) => ({ relation, asked: 0, failed: 0, worst: 0, at: '' }));
  pieces = 0;
  formed = 0;

  hold(piece: PieceModel, at: string): void {
    this.pieces++;
    if (piece.outcome()) this.formed++;
    for (const tally of this.all) {
      const found = tally.relation.off(piece);
      if (found === undefined) continue;
      // What is no number does not hold either.
      const off = Number.isNaN(found) ? Number.POSITIVE_INFINITY : found;
      tally.asked++;
      if (off > tally.relation.within) tally.failed++;
      if (off > tally.worst) {
        tally.worst = off;
        tally.at = at;
      }
    }
  }

  table(): string {
    const rows = this.all.map(({ relation, asked, failed, worst, at }) =>
      [
        relation.name,
        `${asked}`,
        `${failed}`,
        worst.toExponential(1),
        relation.within.toExponential(0),
        failed ? at.replaceAll('\n', ' / ') : '',
      ].join(' | '),
    );
    return [
      `relation | pieces | fail | furthest off | within | where\n--- | --- | --- | --- | --- | ---`,
      ...rows,
    ].join('\n');
  }
}
