import { listWord } from '../../../grammar/vocabulary/index.ts';
import { say } from '../../../l10n/say.ts';
import type { LineReading } from '../../model/names/line-reading.ts';
import type { Model } from '../../model/spec.ts';
import type { MaterialModel } from '../../model/things/material.ts';
import type { PieceModel } from '../../model/things/piece.ts';
import type { FindingFix } from '../../model/values/figure.ts';
import { numberOf } from '../../model/values/quantity.ts';
import { show } from '../../model/values/show.ts';
import { gaugeTableFor, gaugeThickness, thinnestGaugeOver } from '../../trade/metal/gauges.ts';
import { type Metal, type MetalId, metal as metalOf } from '../../trade/metal/metals.ts';
import { metricSheetOver } from '../../trade/metal/stock.ts';
import { type Interval, intervalOf, through } from '../../trade/reckoning/interval.ts';
import { replacing } from '../check.ts';
import { fromRack } from './rack.ts';
import { placeOf, written } from './writing.ts';

/* What is sold, and what a shop's tools take. */

/** The next stock that is at least so thick, as its material's line would write it. */
function thickerStock(material: MaterialModel, least: number): { text: string; spelling: string } | undefined {
  const expression = material.stock()?.expressions('thickness')[0];
  if (expression?.kind !== 'number' || !expression.unitAt) return undefined;
  const gauge = material.gauge();
  if (gauge) {
    const found = gauge.table && thinnestGaugeOver(gauge.table, least);
    if (!found || found.number < 1) return undefined;
    return { text: `${found.number} ga (${show(found.thickness, 'mm')})`, spelling: `${found.number} ga` };
  }
  if (expression.unit?.id === 'in') {
    const inches = `${(Math.ceil((least / 25.4) * 1000) / 1000).toFixed(3)} in`;
    return { text: inches, spelling: inches };
  }
  const stocked = metricSheetOver(least);
  if (stocked === undefined) return undefined;
  const spelling = written(stocked, expression);
  return { text: spelling, spelling };
}

/** For a piece that has to start from as much: from other stock in the rack, or with its own made thicker. */
export function thickening(piece: PieceModel, least: number, model: Model): FindingFix[] {
  const material = piece.material();
  return material ? [...fromRack(piece, least, model), ...madeThicker(material, least)] : [];
}

function madeThicker(material: MaterialModel, least: number): FindingFix[] {
  const stock = material.stock();
  const expression = stock?.expressions('thickness')[0];
  const thicker = thickerStock(material, least);
  if (!stock || !expression || !thicker) return [];
  return [
    replacing(
      material.named.file.uri,
      say`Make ${material.name} ${thicker.text}`,
      placeOf(stock, expression),
      thicker.spelling,
    ),
  ];
}

/** What a tool takes, as written: `up to mild steel 14 ga`. */
export interface Capacity {
  readonly metal: Metal;
  readonly thickness: number;
  readonly line: LineReading;
}

/** The capacity of a shop's line; nothing where its thickness cannot be known. */
export function capacityOf(model: Model, line: LineReading | undefined, qualifier?: 'up to'): Capacity | undefined {
  const text = line?.text('metal', qualifier);
  const id = text === undefined ? undefined : (listWord('metal', text) as MetalId | undefined);
  const quantity = line?.quantity('thickness', qualifier);
  if (!line || !id || !quantity) return undefined;
  const value = numberOf(quantity);
  if (!(value > 0) || !Number.isFinite(value)) return undefined;
  const metal = metalOf(id);
  if (quantity.dimension === 'length') return { metal, thickness: value, line };
  if (quantity.dimension !== 'gauge') return undefined;
  const table = gaugeTableFor(id, model.gaugeFamily(), 'sheet');
  const thickness = table && gaugeThickness(table, value)?.value;
  return thickness === undefined ? undefined : { metal, thickness, line };
}

/** The thickness of another metal that takes the same tool the same force: shear strength × thickness is kept. */
export const takenOf = ({ thickness, metal: stated }: Capacity, metal: Metal): Interval =>
  stated.id === metal.id && stated.temper === metal.temper
    ? intervalOf({ value: thickness })
    : through((own, other) => (thickness * own!) / other!, intervalOf(stated.shear), intervalOf(metal.shear));
