import type { Place, Span } from '../../../grammar/tree.ts';
import type { LineReading } from '../../model/names/line-reading.ts';
import type { RivetModel } from '../../model/things/rivet.ts';
import type { Layer, SeamModel, Stack } from '../../model/things/seam.ts';
import { inchFraction, isInches, millimetres, type System, show, trim } from '../../model/values/show.ts';
import { type Interval, intervalOf } from '../../trade/reckoning/interval.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { nearestLengthUp } from '../../trade/rivet/rivet.ts';

/* What the checks of rivets share. */

export interface StackedSeam {
  readonly seam: SeamModel;
  readonly rivet: RivetModel;
  readonly size: { readonly shank: number; readonly length: number };
  /** Stacks whose every layer is known. */
  readonly stacks: readonly (Stack & { readonly total: Result; readonly needed: Result })[];
  /** The rivet's name in the seam. */
  readonly place: Place;
  /** The rivet's own line. */
  readonly rivetPlace: Place;
}

export type SizedSeam = Omit<StackedSeam, 'stacks'> & { readonly stacks: readonly Stack[] };

/** A riveted seam whose rivet is known, whatever of its stacks is. */
export function sizedSeam(seam: SeamModel): SizedSeam | undefined {
  const rivet = seam.rivet();
  const size = rivet?.size();
  const stock = rivet?.stock();
  const name = seam.rivetsLine()?.filled('rivet');
  if (!rivet || !size || !stock || !name) return undefined;
  const place = { section: seam.named.section, from: name.from, to: name.to };
  return { seam, rivet, size, stacks: seam.stacks(), place, rivetPlace: stock.place };
}

/** The same with the stacks of which every layer is known; nothing where there is none. */
export function stackedSeam(sized: SizedSeam): StackedSeam | undefined {
  const stacks = sized.stacks.filter(
    (stack): stack is StackedSeam['stacks'][number] => stack.total !== undefined && stack.needed !== undefined,
  );
  return stacks.length ? { ...sized, stacks } : undefined;
}

/** The outermost layer of a stack on one side. */
export const outermost = (stack: Stack, side: 'inside' | 'outside'): Layer | undefined =>
  side === 'outside' ? stack.layers[0] : stack.layers[stack.layers.length - 1];

/** The thickest metal layer of all the stacks of a seam. */
export function thickestPlate(
  stacks: readonly Stack[],
): { readonly name: string; readonly thickness: Interval; readonly line: LineReading } | undefined {
  let thickest: { name: string; thickness: Interval; line: LineReading } | undefined;
  for (const { layers, line } of stacks) {
    for (const { name, soft, thickness } of layers) {
      if (!soft && thickness && !(thickest && thickest.thickness.value >= thickness.value))
        thickest = { name, thickness: intervalOf(thickness), line };
    }
  }
  return thickest;
}

/** Whether a rivet is sold by the inch: as its own line is written. */
function isInch(rivet: RivetModel): boolean {
  return (
    rivet
      .stock()
      ?.expressions('size')
      .some((part) => part.kind === 'number' && part.unit?.id === 'in') ?? false
  );
}

/** A rivet's length as its smith would say it, with the fraction beside mm for one that is sold by the inch. */
export function lengthShown(value: number, system: System, rivet?: RivetModel): string {
  if (isInches(system)) return show(value, 'mm', system);
  const text = `${millimetres(value, 1)} mm`;
  if (!rivet || !isInch(rivet)) return text;
  const off = Math.abs((value / 25.4) * 16 - Math.round((value / 25.4) * 16));
  return off < 1e-6 ? `${text} (${inchFraction(value, 16)})` : text;
}

export interface StockedLength {
  readonly text: string;
  /** What to write in the place of the length. */
  readonly spelling: string;
  /** The length in the rivet's own line. */
  readonly place: Span;
  readonly value: number;
}

/** The next length up that is usually sold, in the system that the rivet is written in. */
export function stockedLength(needed: number, rivet: RivetModel): StockedLength | undefined {
  const parts = rivet.stock()?.expressions('size');
  const length = parts?.[1];
  if (!length) return undefined;
  const inch = isInch(rivet);
  const value = nearestLengthUp(needed, inch ? 'in' : 'mm');
  if (value === undefined) return undefined;
  const text = inch ? inchFraction(value) : `${trim(value, 1)} mm`;
  const hasUnit = length.kind === 'number' && length.unitAt !== undefined;
  const spelling = hasUnit ? text : text.replace(/ (in|mm)$/, '');
  return { text, spelling, place: { from: length.from, to: length.to }, value };
}
