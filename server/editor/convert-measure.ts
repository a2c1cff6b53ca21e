import Fraction from 'fraction.js';
import { type CodeAction, CodeActionKind, type Range } from 'vscode-languageserver-types';
import type { Measure, NumberExpression } from '../../grammar/tree.ts';
import { literal } from '../model/quantity.ts';
import { spotAt } from './spot.ts';
import type { View } from './workspace.ts';

/** The measure under the cursor in inches or in millimetres, where that says exactly the same. */
export function convertActions(view: View, range: Range): CodeAction[] {
  const spot = spotAt(view, view.offsetAt(range.start));
  const measure =
    spot.item?.kind === 'measure' ? spot.item : spot.single?.kind === 'let' ? spot.single.value : undefined;
  const number = spot.number;
  if (!measure || !number?.unit || number.unit.dimension !== 'length') return [];
  const group = groupOf(measure, number);
  const to = number.unit.id === 'in' ? 'mm' : 'in';
  const converted = group.map((each) => inUnit(each, to));
  if (converted.some((text) => text === undefined)) return [];
  const { section } = spot;
  const edits = group.map((each, i) => {
    const end = each.unitAt?.to ?? each.to;
    const isLast = each.unitAt !== undefined;
    return {
      range: view.rangeOf({ section, from: each.from, to: Math.max(end, each.to) }),
      newText: isLast ? `${converted[i]} ${to}` : converted[i]!,
    };
  });
  const shown = `${converted.join(' x ')} ${to}`;
  return [
    {
      title: `Write it as ${shown}`,
      kind: CodeActionKind.RefactorRewrite,
      edit: { changes: { [view.uri]: edits } },
    },
  ];
}

/** Numbers that share a unit are converted together: `120 x 80 mm`. */
function groupOf(measure: Measure, number: NumberExpression): NumberExpression[] {
  const parts = measure.parts.filter((part): part is NumberExpression => part.kind === 'number');
  if (number.unitAt && (!parts.includes(number) || measure.parts.length !== parts.length || measure.tolerance))
    return [number];
  if (!parts.includes(number) || parts.length !== measure.parts.length) return [];
  return parts.some((part) => part !== number && !part.unitAt) || !number.unitAt ? parts : [number];
}

/** Exactly the same length in another unit: fractions to 1/64 in, decimals to a thousandth. */
function inUnit(number: NumberExpression, unit: 'mm' | 'in'): string | undefined {
  const value = literal(number)?.value;
  if (!(value instanceof Fraction)) return undefined;
  if (unit === 'mm') return decimal(value);
  const inches = value.div(127).mul(5);
  const parts = inches.mul(64);
  if (parts.d === 1n) {
    const whole = inches.floor();
    const rest = inches.sub(whole);
    if (rest.n === 0n) return whole.toFraction();
    return whole.n === 0n ? rest.toFraction() : `${whole.toFraction()} ${rest.toFraction()}`;
  }
  return decimal(inches);
}

/** As a decimal of at most four places; nothing where that would round. */
function decimal(value: Fraction): string | undefined {
  const scaled = value.mul(10_000);
  if (scaled.d !== 1n) return undefined;
  return value.toString();
}
