import { bendAllowance, bendDeduction, flareStrain, kFactorFor, setback } from '../trade/bend.ts';
import { rollStrain } from '../trade/edge.ts';
import { ends, intervalOf, through } from '../trade/interval.ts';
import { plain } from '../trade/result.ts';
import type { FigureSet } from './figure-set.ts';
import type { Form } from './form.ts';
import type { Bend, PieceModel } from './piece.ts';

/* Bends, flares and rolled edges: what they take up, and what they ask of the metal. */

export function addTurning(piece: PieceModel, set: FigureSet): void {
  const material = piece.material();
  const thickness = material?.thickness();
  const form = piece.form();
  if (!form || !thickness || material?.kind() !== 'sheet') return;
  addBends(piece, set);
  for (const bend of piece.bends()) {
    const flare = flareOf(form, bend);
    if (flare)
      set.add(
        `${bend.edge}.strain`,
        `stretch of the edge by the flare at ${bend.edge}`,
        flareStrain(flare),
        bend.line.place,
        [],
      );
  }
  for (const { line, edge, hollow, outward } of piece.edgeWorks()) {
    const radius = edgeRadius(form, edge);
    if (hollow === undefined || radius === undefined) continue;
    set.add(
      `${edge}.roll-strain`,
      `strain of the lip rolled at ${edge}`,
      rollStrain({ hollow, thickness: thickness.value, radius, outward }),
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
      `Neutral line at ${plain(factor.value)} of the thickness: ${factor.source}. ${factor.note ?? ''}`.trim();
    const inputs = [thickness.name];
    set.add(
      `${name}.allowance`,
      'metal that the bend takes up',
      {
        ...bendAllowance(now),
        ...spreadOf(bendAllowance),
        note: `${neutral} The angle is the one the metal is turned through.`,
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

/** What a flare starts from and ends as; nothing for one that is not finished being written or on another form. */
export function flareOf(form: Form, bend: Bend): Parameters<typeof flareStrain>[0] | undefined {
  const { kind, edge, angle, distance } = bend;
  if (kind !== 'flare' || angle === undefined || distance === undefined) return undefined;
  if ((form.kind !== 'cylinder' && form.kind !== 'cone') || (edge !== 'top' && edge !== 'bottom')) return undefined;
  const girth = form.kind === 'cylinder' ? form.girth : form[edge];
  const other = form.kind === 'cylinder' ? form.girth : form[edge === 'top' ? 'bottom' : 'top'];
  return {
    radius: girth / (2 * Math.PI),
    taper: (Math.atan2((girth - other) / (2 * Math.PI), form.high) * 180) / Math.PI,
    turned: angle,
    width: distance,
  };
}

/** The smallest radius of an edge, in plan, mm; nothing for a straight one. */
export function edgeRadius(form: Form, edge: string): number | undefined {
  switch (form.kind) {
    case 'dome':
    case 'disc':
      return edge === 'rim' ? form.diameter / 2 : undefined;
    case 'oval dome':
    case 'half dome':
    case 'oval': {
      const long = Math.max(form.long, form.wide);
      const wide = Math.min(form.long, form.wide);
      return edge === 'rim' ? (wide * wide) / (2 * long) : undefined;
    }
    case 'cylinder':
      return edge === 'top' || edge === 'bottom' ? form.girth / (2 * Math.PI) : undefined;
    case 'cone':
      return edge === 'top' || edge === 'bottom' ? form[edge] / (2 * Math.PI) : undefined;
    default:
      return undefined;
  }
}
