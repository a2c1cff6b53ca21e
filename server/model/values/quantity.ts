import Fraction from 'fraction.js';
import type {
  CallExpression,
  Expression,
  Fix,
  NameExpression,
  NumberExpression,
  ProblemCode,
  Span,
} from '../../../grammar/tree.ts';
import type { Dimension, UnitWord } from '../../../grammar/units.ts';
import { say } from '../../../l10n/say.ts';
import type { Unit } from '../../trade/reckoning/result.ts';
import { capital } from './prose.ts';

/**
 * A number with its dimension. It stays an exact ratio until a root, an angle's function or pi makes it a float,
 * so that `2 1/2 in` and `63.5 mm` are the same to the last digit.
 *
 * Lengths multiply: their dimension is a power of length, `1` for a length and `2` for an area. Every other dimension
 * stands for itself and takes only plain numbers as factors.
 */
export interface Quantity {
  readonly value: Fraction | number;
  readonly dimension: Dimension | 'number' | 'volume';
}

export const numberOf = (quantity: Quantity): number =>
  typeof quantity.value === 'number' ? quantity.value : quantity.value.valueOf();

/** Digits above and below the line of a fraction that is still kept exact: no shop's fraction comes near. */
const EXACT_DIGITS = 60;
const ENDLESS = 10n ** BigInt(EXACT_DIGITS);

/** The same number, as a float where the exact one has grown past all use: squared sixteen times, 1.1 has 65,000 digits. */
const bounded = (value: Fraction): Fraction | number =>
  value.n < ENDLESS && value.d < ENDLESS ? value : quotient(value.n, value.d) * Number(value.s);

/** What may be too long for a float each may be none too long for one divided. */
function quotient(over: bigint, under: bigint): number {
  const spare = Math.max(0, Math.min(String(over).length, String(under).length) - 30);
  const scale = 10n ** BigInt(spare);
  return Number(over / scale) / Number(under / scale);
}

export interface Evaluation {
  /** What a name stands for; nothing when it is unknown (and reported) or cannot be said. */
  lookup(name: NameExpression): Quantity | undefined;
  report(code: ProblemCode | 'number-impossible', at: Span, message: string, fixes?: readonly Fix[]): void;
}

const PLAIN: Quantity['dimension'] = 'number';

/** The value of an expression; nothing when a part of it is missing or wrong, which is then reported where it stands. */
export function evaluate(expression: Expression, by: Evaluation): Quantity | undefined {
  switch (expression.kind) {
    case 'number':
      return literal(expression);
    case 'name':
      return expression.name.key === 'pi' ? { value: Math.PI, dimension: PLAIN } : by.lookup(expression);
    case 'negate': {
      const of = evaluate(expression.of, by);
      return of && { ...of, value: typeof of.value === 'number' ? -of.value : of.value.neg() };
    }
    case 'binary': {
      const left = evaluate(expression.left, by);
      const right = evaluate(expression.right, by);
      if (!left || !right) return undefined;
      return expression.operator === '+' || expression.operator === '-'
        ? added(expression, left, right, by)
        : multiplied(expression, left, right, by);
    }
    case 'call':
      return called(expression, by);
  }
}

/** A number as written, in its base unit. */
export function literal({ written, unit }: NumberExpression): Quantity | undefined {
  const key = unit ? `${written} ${unit.id}` : written;
  let value = literals.get(key);
  if (value) return value;
  value = quantityAs(written, unit);
  if (!value) return undefined;
  if (literals.size >= MOST_LITERALS) literals.clear();
  literals.set(key, value);
  return value;
}
/** A spec says the same few measures over and over. */
const literals = new Map<string, Quantity>();
const MOST_LITERALS = 5_000;

function quantityAs(written: string, unit: UnitWord | undefined): Quantity | undefined {
  const number = numberAs(written);
  if (number === undefined) return undefined;
  if (!unit) return { value: number, dimension: PLAIN };
  const { factor, offset = [0, 1], dimension } = unit;
  if (typeof number === 'number') return { value: (number * factor[0]) / factor[1] + offset[0] / offset[1], dimension };
  const scaled = number.mul(factor[0]).div(factor[1]);
  return { value: bounded(unit.offset ? scaled.add(offset[0], offset[1]) : scaled), dimension };
}

function numberAs(written: string): Fraction | number | undefined {
  // A number written in a doubtful way has its own message; a fraction over nought has no value.
  const match = /^(?:(\d+) )?(\d+)\/(\d+)$|^(\d+(?:\.\d+)?)$/.exec(written);
  if (!match) return undefined;
  const [, whole = '0', over, under, decimal] = match;
  if (decimal !== undefined) return decimal.length <= EXACT_DIGITS ? new Fraction(decimal) : Number(decimal);
  if (/^0+$/.test(under!)) return undefined;
  if (written.length > EXACT_DIGITS) return Number(whole) + Number(over) / Number(under);
  return new Fraction(BigInt(over!), BigInt(under!)).add(new Fraction(BigInt(whole)));
}

/** The unit in which a figure of this dimension is given. */
export const UNIT_OF_DIMENSION: Partial<Record<Quantity['dimension'], Unit>> = {
  number: 'ratio',
  length: 'mm',
  area: 'mm2',
  volume: 'mm3',
  mass: 'g',
  angle: 'deg',
  time: 'min',
  temperature: 'C',
  density: 'g/cm3',
  stress: 'MPa',
  force: 'N',
  percent: 'percent',
};

/** The dimension of a figure in this unit; counts and ratios are plain numbers. */
export const dimensionOfUnit = (unit: Unit): Quantity['dimension'] => dimensions.get(unit) ?? PLAIN;
const dimensions = new Map(
  (Object.entries(UNIT_OF_DIMENSION) as [Quantity['dimension'], Unit][]).map(([dimension, unit]) => [unit, dimension]),
);

const POWERS: Readonly<Record<string, number>> = { number: 0, length: 1, area: 2, volume: 3 };
const OF_POWER = ['number', 'length', 'area', 'volume'] as const;

export const DIMENSION_NAMES: Readonly<Record<Quantity['dimension'], string>> = {
  number: 'a plain number',
  length: 'a length',
  area: 'an area',
  volume: 'a volume',
  mass: 'a mass',
  angle: 'an angle',
  temperature: 'a temperature',
  time: 'a time',
  density: 'a density',
  stress: 'a stress',
  force: 'a force',
  percent: 'a percentage',
  grit: 'a grit',
  teeth: 'a count of teeth',
  gauge: 'a gauge',
  ounce: 'a leather weight',
};

function added(
  at: { operatorAt: Span; operator: string; left: Expression; right: Expression },
  left: Quantity,
  right: Quantity,
  by: Evaluation,
): Quantity | undefined {
  if (left.dimension !== right.dimension) {
    const verb = at.operator === '+' ? 'added' : 'subtracted';
    by.report(
      'unit-mismatch',
      at.operatorAt,
      say`${capital(DIMENSION_NAMES[left.dimension])} and ${DIMENSION_NAMES[right.dimension]} cannot be ${verb}.`,
    );
    return undefined;
  }
  if (left.dimension === 'gauge' || left.dimension === 'temperature' || left.dimension === 'grit') {
    by.report(
      'unit-mismatch',
      at.operatorAt,
      say`${capital(DIMENSION_NAMES[left.dimension])} cannot be reckoned with.`,
    );
    return undefined;
  }
  const sign = at.operator === '+' ? 1 : -1;
  if (typeof left.value === 'number' || typeof right.value === 'number') {
    return { value: numberOf(left) + sign * numberOf(right), dimension: left.dimension };
  }
  const value = bounded(sign > 0 ? left.value.add(right.value) : left.value.sub(right.value));
  return { value, dimension: left.dimension };
}

function multiplied(
  at: { operatorAt: Span; operator: string; right: Expression },
  left: Quantity,
  right: Quantity,
  by: Evaluation,
): Quantity | undefined {
  const dividing = at.operator === '/';
  const dimension = dimensionOfProduct(left.dimension, right.dimension, dividing);
  if (!dimension) {
    by.report(
      'unit-mismatch',
      at.operatorAt,
      say`${capital(DIMENSION_NAMES[left.dimension])} cannot be ${dividing ? say`divided` : say`multiplied`} by ${DIMENSION_NAMES[right.dimension]}.`,
    );
    return undefined;
  }
  if (dividing && numberOf(right) === 0) {
    by.report('number-impossible', at.right, 'Nothing can be divided by nought.');
    return undefined;
  }
  if (typeof left.value === 'number' || typeof right.value === 'number') {
    const value = dividing ? numberOf(left) / numberOf(right) : numberOf(left) * numberOf(right);
    return { value, dimension };
  }
  return { value: bounded(dividing ? left.value.div(right.value) : left.value.mul(right.value)), dimension };
}

function dimensionOfProduct(
  left: Quantity['dimension'],
  right: Quantity['dimension'],
  dividing: boolean,
): Quantity['dimension'] | undefined {
  const a = POWERS[left];
  const b = POWERS[right];
  if (a !== undefined && b !== undefined) return OF_POWER[dividing ? a - b : a + b];
  if (right === PLAIN && left !== 'gauge' && left !== 'temperature' && left !== 'grit') return left;
  if (left === PLAIN && !dividing && right !== 'gauge' && right !== 'temperature' && right !== 'grit') return right;
  if (dividing && left === right && left !== 'gauge' && left !== 'temperature' && left !== 'grit') return PLAIN;
  return undefined;
}

const ARGUMENTS: Readonly<Record<string, readonly [number, number]>> = {
  sqrt: [1, 1],
  sin: [1, 1],
  cos: [1, 1],
  tan: [1, 1],
  min: [1, 50],
  max: [1, 50],
  'round-up': [2, 2],
};

function called(expression: CallExpression, by: Evaluation): Quantity | undefined {
  const name = expression.name.key;
  const [least, most] = ARGUMENTS[name] ?? [0, 0];
  const count = expression.arguments.length;
  if (count < least || count > most) {
    const wants =
      least === most ? `${least} ${least === 1 ? 'measure' : 'measures'}` : say`${least} to ${most} measures`;
    by.report('line-unfinished', expression, say`${name} takes ${wants} in its brackets.`);
    return undefined;
  }
  const values: Quantity[] = [];
  for (const argument of expression.arguments) {
    const value = evaluate(argument, by);
    if (!value) return undefined;
    values.push(value);
  }
  const first = values[0]!;
  const wrong = (message: string): undefined => {
    by.report('unit-mismatch', expression, message);
    return undefined;
  };
  switch (name) {
    case 'sqrt': {
      const power = POWERS[first.dimension];
      if (power !== 0 && power !== 2)
        return wrong(say`sqrt takes an area or a plain number, not ${DIMENSION_NAMES[first.dimension]}.`);
      if (numberOf(first) < 0) {
        by.report('number-impossible', expression, 'There is no root of a negative number.');
        return undefined;
      }
      return { value: Math.sqrt(numberOf(first)), dimension: power === 2 ? 'length' : PLAIN };
    }
    case 'sin':
    case 'cos':
    case 'tan': {
      if (first.dimension !== 'angle')
        return wrong(say`${name} takes an angle, not ${DIMENSION_NAMES[first.dimension]}.`);
      return { value: Math[name]((numberOf(first) * Math.PI) / 180), dimension: PLAIN };
    }
    default: {
      const other = values.find((value) => value.dimension !== first.dimension);
      if (other)
        return wrong(
          say`${name} compares like with like: here are ${DIMENSION_NAMES[first.dimension]} and ${DIMENSION_NAMES[other.dimension]}.`,
        );
      if (name === 'round-up') {
        const step = numberOf(values[1]!);
        if (step <= 0) {
          by.report('number-impossible', expression.arguments[1]!, 'The step to round to must be above nought.');
          return undefined;
        }
        // A hair's breadth of float error must not push a whole step up.
        return { value: Math.ceil(numberOf(first) / step - 1e-9) * step, dimension: first.dimension };
      }
      const pick = name === 'min' ? Math.min : Math.max;
      const best = pick(...values.map(numberOf));
      return values.find((value) => numberOf(value) === best);
    }
  }
}
