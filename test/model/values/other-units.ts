import { readSpec } from '../../../grammar/reader.ts';
import type { Expression, Item, Span } from '../../../grammar/tree.ts';
import type { UnitWord } from '../../../grammar/units.ts';
import { unitOf } from '../../../grammar/units.ts';
import { exactNumber } from '../exact.ts';

/** The unit of the other system for each unit of length, area and mass. */
const OTHER: Readonly<Record<string, string>> = {
  mm: 'in',
  cm: 'in',
  m: 'ft',
  in: 'mm',
  ft: 'm',
  mm2: 'ft2',
  cm2: 'ft2',
  m2: 'ft2',
  ft2: 'm2',
  g: 'lb',
  kg: 'lb',
  lb: 'kg',
};

/**
 * A spec with every length, area and mass written in the unit of the other system, exactly: 585 mm is 2925/127 in. Gauges,
 * angles and counts stay; so do the units in which figures are shown.
 */
export function inOtherUnits(text: string): string {
  const edits: { from: number; to: number; text: string }[] = [];
  for (const section of readSpec(text).sections) {
    const put = (span: Span, written: string) =>
      edits.push({ from: section.start + span.from, to: section.start + span.to, text: written });
    const visit = (expression: Expression): void => {
      switch (expression.kind) {
        case 'number': {
          const other = expression.unit && OTHER[expression.unit.id];
          if (!expression.unit || !other) return;
          const { unitAt } = expression;
          const numberEnds = unitAt ? Math.min(expression.to, unitAt.from) : expression.to;
          put(
            { from: expression.from, to: numberEnds },
            `${converted(expression.written, expression.unit, unitOf(other)!)}${unitAt ? ' ' : ''}`,
          );
          if (unitAt) put(unitAt, other);
          return;
        }
        case 'negate':
          visit(expression.of);
          return;
        case 'binary':
          visit(expression.left);
          visit(expression.right);
          return;
        case 'call':
          for (const each of expression.arguments) visit(each);
          return;
        case 'name':
      }
    };
    const item = (each: Item): void => {
      if (each.kind !== 'measure') return;
      if (each.count) visit(each.count);
      each.parts.forEach(visit);
      if (each.tolerance) visit(each.tolerance);
    };
    for (const line of section.lines)
      for (const bound of [...(line.head ? [line.head] : []), ...line.qualifiers])
        for (const all of bound.slots.values()) for (const { items } of all) items.forEach(item);
    for (const single of section.singles) if (single.kind === 'let' && single.value) item(single.value);
  }
  let made = text;
  for (const edit of edits.sort((a, b) => b.from - a.from))
    made = made.slice(0, edit.from) + edit.text + made.slice(edit.to);
  return made;
}

/** A number in another unit, as a fraction in lowest terms. */
function converted(written: string, from: UnitWord, to: UnitWord): string {
  const [above, below] = exactNumber(written);
  let [n, d] = [
    above * BigInt(from.factor[0]) * BigInt(to.factor[1]),
    below * BigInt(from.factor[1]) * BigInt(to.factor[0]),
  ];
  const common = greatest(n, d);
  [n, d] = [n / common, d / common];
  return d === 1n ? `${n}` : `${n}/${d}`;
}

const greatest = (a: bigint, b: bigint): bigint => (b === 0n ? a : greatest(b, a % b));
