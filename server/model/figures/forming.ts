import { say } from '../../../l10n/say.ts';
import { radiusToRollTo } from '../../trade/bend/bend.ts';
import { atInside } from '../../trade/dome/curvature.ts';
import { formingLimit, stretchLimit } from '../../trade/dome/dome.ts';
import { gaugeTables, thinnestGaugeOver } from '../../trade/metal/gauges.ts';
import { finishedThickness, metricStockInWords, startThickness, zincOn } from '../../trade/metal/stock.ts';
import { ends, intervalOf, through } from '../../trade/reckoning/interval.ts';
import { fromSpec } from '../../trade/reckoning/readings.ts';
import { plain, type Result } from '../../trade/reckoning/result.ts';
import { NONE, NOT_KNOWN } from '../forms/answers.ts';
import { type Form, kindOf } from '../forms/index.ts';
import { homeOf } from '../spec.ts';
import type { MaterialModel } from '../things/material.ts';
import type { PieceModel } from '../things/piece.ts';
import type { Figure } from '../values/figure.ts';
import type { FigureSet } from '../values/figure-set.ts';
import { rulebook, strictest } from './rulebook.ts';

/* What forming asks: the limit of the metal, the stock to start from, the stake, the roll, how far the metal goes. */

/** What is formed, and of what; nothing where one of them is not known, or it is no sheet. */
function sheetOf(piece: PieceModel): { form: Form; material: MaterialModel; thickness: Figure } | undefined {
  const form = piece.form();
  const material = piece.material();
  const thickness = material?.thickness();
  return form && material && thickness && material.kind() === 'sheet' ? { form, material, thickness } : undefined;
}

/** What is left of sound metal: rulebooks and callipers ask for that. */
export function addFinished(piece: PieceModel, set: FigureSet): void {
  const sheet = sheetOf(piece);
  if (!sheet) return;
  const { material, thickness } = sheet;
  const least = set.get('thickness.least') ?? thickness;
  const line = piece.line('from');
  if (!line) return;
  set.add(
    'thickness.finished',
    'thinnest sound metal when it is finished',
    soundMetal(material, thickness, { least, planished: piece.line('planish') !== undefined }),
    line.place,
    [least.name, thickness.name],
  );
}

/** What a sheet has of sound metal, as it is sold or, with `least`, after work: the mill may deliver it thinner; zinc is no steel. */
export const soundMetal = (
  material: MaterialModel,
  thickness: Figure,
  worked?: { readonly least: Figure; readonly planished: boolean },
): Result =>
  finishedThickness({
    least: worked?.least ?? thickness,
    thickness: thickness.value,
    planished: worked?.planished ?? false,
    mill: material.figures().get('tolerance')?.value,
    zinc:
      material.metalId() === 'galvanised steel'
        ? zincOn(material.gauge()?.table === 'GSG' ? 'gauge' : 'millimetres')
        : undefined,
  });

export function addLimit(piece: PieceModel, set: FigureSet): void {
  const sheet = sheetOf(piece);
  if (!sheet || !piece.domed()) return;
  const { form, material, thickness } = sheet;
  const metal = material.metal();
  const hardening = material.figures().get('hardening');
  const elongation = material.figures().get('elongation');
  if (!metal || !hardening || !elongation) return;
  set.add(
    'limit',
    'stretch that the metal bears in one go',
    metal.keelerHolds
      ? formingLimit({ thickness: thickness.value, hardening: hardening.value })
      : stretchLimit(elongation),
    piece.method().line?.place ?? form.line.place,
    metal.keelerHolds ? [thickness.name, hardening.name] : [elongation.name],
  );
}

export function addRadii(piece: PieceModel, set: FigureSet): void {
  const sheet = sheetOf(piece);
  if (!sheet) return;
  const { form, material, thickness } = sheet;
  const place = form.line.place;
  const tightest = kindOf(form).tightestRadius(form);
  if (tightest !== NOT_KNOWN && tightest !== NONE) {
    set.add('tightest-radius', 'tightest radius, at the inside face', atInside(tightest, thickness.value), place, [
      thickness.name,
    ]);
  }
  const metal = material.metal();
  const strength = material.figures().get('yield');
  if (!metal || !strength) return;
  const roll = (suffix: string, title: string, middle: number) => {
    const radius = middle - thickness.value / 2;
    if (!(radius > 0)) return;
    const at = (yieldAt: number, modulus: number) =>
      radiusToRollTo({ radius, yield: yieldAt, modulus, thickness: thickness.value });
    const made = at(strength.value, metal.modulus.value);
    const spread = through(
      (stress, stiffness) => at(stress, stiffness).value,
      intervalOf(strength),
      intervalOf(metal.modulus),
    );
    set.add(
      suffix,
      title,
      {
        ...made,
        ...(made.outside === undefined ? ends(spread) : {}),
        note: say`It opens to ${plain(radius)} mm inside. The range is that of the yield stress and the stiffness: roll a strip first.`,
      },
      place,
      [strength.name, thickness.name],
    );
  };
  for (const { suffix, title, radius } of kindOf(form).rolls(form)) roll(`roll-radius${suffix}`, title, radius);
}

export function addStart(piece: PieceModel, set: FigureSet): void {
  const sheet = sheetOf(piece);
  if (!sheet) return;
  const { material, thickness } = sheet;
  const book = rulebook(homeOf(piece));
  const least = set.get('thickness.finished');
  const line = piece.line('from');
  if (!book || !least || !line) return;
  const finished = strictest(book.finished, piece);
  const start = strictest(book.start, piece);
  if (!finished && !start) return;
  const made: Result = finished
    ? startThickness({ asked: finished.value, thickness: thickness.value, least })
    : fromSpec(start!.value, 'mm', 't0');
  const governs = finished && start && start.value > made.value;
  const needed: Result = governs
    ? {
        ...fromSpec(start.value, 'mm', 't0'),
        low: start.value,
        high: Math.max(start.value, made.high ?? 0),
      }
    : made;
  set.add(
    'start-thickness',
    'thinnest stock that ends thick enough',
    {
      ...needed,
      source: say`${needed.source}; asked for by ${book.title}`,
      note: say`Next stock up: ${stockInWords(material, needed.value)}.${
        needed.high !== undefined && needed.high > needed.value * 1.0001
          ? say` At the thin end of what forming may leave it takes ${plain(needed.high)} mm.`
          : ''
      }`,
    },
    line.place,
    [least.name, thickness.name],
  );
}

/** `14 ga (1.897 mm) or 2 mm sheet`, as this metal is sold. */
function stockInWords(material: MaterialModel, least: number): string {
  const table = material.gauge()?.table;
  const gauge = table && thinnestGaugeOver(table, least);
  const words = [
    table && gauge
      ? say`${gauge.number} ga of the ${gaugeTables[table].title} (${plain(gauge.thickness)} mm)`
      : undefined,
    metricStockInWords(least),
  ].filter((each) => each !== undefined);
  return words.join(', or ') || 'none in the lists';
}
