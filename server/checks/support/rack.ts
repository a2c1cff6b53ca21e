import { say } from '../../../l10n/say.ts';
import type { Model } from '../../model/spec.ts';
import type { MaterialModel } from '../../model/things/material.ts';
import type { PieceModel } from '../../model/things/piece.ts';
import type { RivetModel } from '../../model/things/rivet.ts';
import type { StockThing } from '../../model/things/thing.ts';
import type { FindingFix } from '../../model/values/figure.ts';
import { show } from '../../model/values/show.ts';
import { intervalOf } from '../../trade/reckoning/interval.ts';
import { replacing } from '../check.ts';
import { lengthShown, type SizedSeam, type StockedLength } from './rivets.ts';
import { isOwn, placeOf } from './writing.ts';

/* What lies in the rack already and would do: taken before anything in it is changed, which others may use. */

/** From other sheet of the same metal that is at least so thick even where it is rolled thin. */
export function fromRack(piece: PieceModel, least: number, model: Model): FindingFix[] {
  const line = piece.line('from');
  const slot = line?.filled('material');
  const material = piece.material();
  if (!line || !slot || !material || !isOwn(piece, line)) return [];
  const thick = (each: MaterialModel) => each.thickness()?.value ?? 0;
  return model.file
    .visibleOf('material')
    .map((named) => model.materialOf(named))
    .filter((each) => each.kind() === 'sheet' && isLike(each, material) && lowest(each) >= least)
    .sort((a, b) => thick(a) - thick(b))
    .slice(0, MOST_OFFERED)
    .map((each) => {
      const title = say`From ${each.name}, ${show(thick(each), 'mm', model.units())}`;
      return replacing(line.file.uri, title, placeOf(line, slot), each.name);
    });
}

/** With other rivets of the same metal, shank and head that are as long as is needed and no longer than that. */
export function rivetsInRack(
  { seam, rivet, size, place }: SizedSeam,
  least: number,
  most: number,
  model: Model,
): FindingFix[] {
  const long = (each: typeof rivet) => each.size()?.length ?? 0;
  return model.file
    .visibleOf('rivet')
    .map((named) => model.rivetOf(named))
    .filter((each) => isLike(each, rivet) && each.head() === rivet.head())
    .filter((each) => Math.abs((each.size()?.shank ?? 0) - size.shank) < 0.01)
    .filter((each) => long(each) >= least - 0.05 && long(each) <= most + 0.05)
    .sort((a, b) => long(a) - long(b))
    .slice(0, MOST_OFFERED)
    .map((each, i) => {
      const title = say`With ${each.name}, ${lengthShown(long(each), model.units(), each)} long`;
      return replacing(seam.named.file.uri, title, place, each.name, i === 0);
    });
}

/** To buy the rivet in another length; nothing where its line has no size to change. */
export const boughtLong = (
  rivet: RivetModel,
  { text, spelling, place }: StockedLength,
  preferred: boolean,
): FindingFix[] =>
  rivet.stock()?.filled('size')
    ? [
        replacing(
          rivet.named.file.uri,
          say`Make ${rivet.name} ${text} long`,
          { section: rivet.named.section, ...place },
          spelling,
          preferred,
        ),
      ]
    : [];

const MOST_OFFERED = 2;

const lowest = (each: MaterialModel): number => {
  const thickness = each.thickness();
  return thickness ? intervalOf(thickness).low : 0;
};

/** Another one of the same metal, temper and plating. */
const isLike = <Thing extends StockThing>(each: Thing, other: Thing): boolean =>
  each.name !== other.name &&
  each.metal()?.id !== undefined &&
  each.metal()?.id === other.metal()?.id &&
  each.metal()?.temper === other.metal()?.temper &&
  each.plating() === other.plating();
