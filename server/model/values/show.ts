import { FAR_OUT, farOut, type Unit } from '../../trade/reckoning/result.ts';

/** What a paper says of its lengths, so that nobody takes a rounded one for exact. */
export function measuresIn(system: System): string {
  if (system === 'mm') return 'millimetres';
  const step = system.slice('in '.length);
  return step === 'decimal'
    ? 'inches, in thousandths'
    : `inches to the nearest ${step}; blanks, wire and rivets to the next ${step} up; in thousandths under 1/2 in`;
}

/** How lengths in inches are told: to a fraction that a rule is divided in, or in thousandths. */
export const INCH_STEPS = ['1/32', '1/16', 'decimal'] as const;
export type InchStep = (typeof INCH_STEPS)[number];
export const isInchStep = (given: unknown): given is InchStep => INCH_STEPS.includes(given as InchStep);
export const USUAL_INCH_STEP: InchStep = '1/32';

/** The units figures are shown in. What is read never depends on it. */
export type System = 'mm' | `in ${InchStep}`;

export const isInches = (system: System): boolean => system !== 'mm';
/** The unit by its name, for a machine. */
export type UnitName = 'mm' | 'in';
export const unitOf = (system: System): UnitName => (isInches(system) ? 'in' : 'mm');

export interface ShowOptions {
  /** Decimals of a length; thickness wants two, a blank wants one. */
  readonly decimals?: number;
  readonly currency?: string;
  /** As the spec says it: a length that ends on a hundredth keeps it. */
  readonly written?: boolean;
  /** Grain of an abrasive: in micrometres, whatever the units of the build. */
  readonly grain?: boolean;
  /** What is cut off and may not be short, a blank, a wire or a rivet: a fraction of an inch is the next up. */
  readonly up?: boolean;
}

/** How a length is told that is cut off. */
export const CUT: ShowOptions = { up: true };

/** `1 sheet`, `3 sheets` */
export const count = (number: number, one: string, many = `${one}s`): string =>
  `${number} ${number === 1 ? one : many}`;

/**
 * A number as a smith reads it, with its unit: lengths in mm or in, areas in cm² or in², masses in g, kg, oz or lb.
 * The one place where figures become text.
 */
export function show(value: number, unit: Unit, system: System = 'mm', options: ShowOptions = {}): string {
  if (!Number.isFinite(value)) return '–';
  switch (unit) {
    case 'mm':
      if (options.grain) return `${trim(value * 1000, 1)} µm`;
      return isInches(system)
        ? `${inches(value, system, options.up)} in`
        : `${(options.written ? millimetres : trim)(value, options.decimals ?? (Math.abs(value) < 10 ? 2 : 1))} mm`;
    case 'mm2':
      if (isInches(system))
        return value >= 929030.4 ? `${round(value / 92903.04, 3)} ft²` : `${round(value / 645.16, 3)} in²`;
      return value >= 1e6 ? `${trim(value / 1e6, 2)} m²` : `${round(value / 100, 3)} cm²`;
    case 'mm3':
      return isInches(system) ? `${round(value / 16387.064, 3)} in³` : `${round(value / 1000, 3)} cm³`;
    case 'g':
      if (isInches(system))
        return value >= 453.59237 ? `${trim(value / 453.59237, 2)} lb` : `${trim(value / 28.349523125, 1)} oz`;
      return value >= 1000 ? `${trim(value / 1000, 2)} kg` : `${trim(value, value < 10 ? 1 : 0)} g`;
    case 'g/cm3':
      return `${trim(value, 2)} g/cm³`;
    case 'g/m2':
      return isInches(system) ? `${trim(value * 0.000204816, 2)} lb/ft²` : `${trim(value / 1000, 2)} kg/m²`;
    case 'deg':
      return `${trim(value, 1)}°`;
    case 'min':
      return value >= 60 ? `${trim(value / 60, 1)} h` : `${trim(value, 0)} min`;
    case 'N':
      return value >= 1000 ? `${trim(value / 1000, 2)} kN` : `${trim(value, 0)} N`;
    case 'MPa':
      return `${trim(value, 0)} MPa`;
    case 'C':
      return `${trim(value, 0)} °C`;
    case 'count':
      return trim(value, 0);
    case 'ratio':
      return trim(value, 3);
    case 'percent':
      return `${trim(value, value < 10 ? 1 : 0)} %`;
    case 'tpi':
      return `${trim(value, 1)} tpi`;
    case 'money':
      return options.currency ? `${money(value)} ${options.currency}` : money(value);
  }
}

/** Millimetres with at most so many decimals, but for one that ends on a hundredth: 6.35 stays 6.35. */
export function millimetres(value: number, decimals: number): string {
  const hundredths = value * 100;
  const isWritten = Math.abs(hundredths - Math.round(hundredths)) < 1e-6;
  return trim(value, isWritten ? Math.max(2, decimals) : decimals);
}

/** A length as a shop that thinks in inches would ask for it: `3/8 in`, to the nearest of `parts` to the inch. */
export const inchFraction = (value: number, parts = 32): string => `${fraction(value, parts)} in`;

function fraction(value: number, parts: number, up = false): string {
  if (!(Math.abs(value) < FAR_OUT)) return farOut(value / 25.4);
  const asked = (Math.abs(value) / 25.4) * parts;
  const whole = up ? Math.ceil(asked - SAME) : Math.round(asked);
  const inches = Math.floor(whole / parts);
  let over = whole % parts;
  let under = parts;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  const rest = over ? `${over}/${under}` : '';
  const sign = whole && value < 0 ? '−' : '';
  return `${sign}${[inches || (rest ? '' : '0'), rest].filter((part) => part !== '').join(' ')}`;
}

/**
 * A length in inches, without its unit. What lies on a sixty-fourth is told as that. All else under half an inch is measured with
 * callipers, and told in thousandths; what is longer with a rule, and told to the step that the build asks for.
 */
export function inches(value: number, system: System, up = false): string {
  const step = system.slice('in '.length) as InchStep;
  const thousandths = () => trim(up ? Math.ceil((value / 25.4) * 1000 - SAME) / 1000 : value / 25.4, 3);
  if (step === 'decimal' || !(Math.abs(value) < FAR_OUT)) return thousandths();
  const parts = (value / 25.4) * FINEST;
  if (Math.abs(parts - Math.round(parts)) < SAME) return fraction(value, FINEST);
  return Math.abs(value) < CALLIPERS ? thousandths() : fraction(value, PARTS[step], up);
}
const PARTS = { '1/16': 16, '1/32': 32 } as const;
/** The finest rule in use, and the length from which a rule is laid on: common practice (no source). */
const FINEST = 64;
const CALLIPERS = 12.7;
/** A hair's breadth of float error must not push a whole step up. */
const SAME = 1e-6;

const money = (value: number): string => (Math.abs(value) < FAR_OUT ? value.toFixed(2) : farOut(value));

/** Two lengths as a size: `268 × 240 mm`. */
export function showSize(
  long: number,
  wide: number,
  system: System = 'mm',
  { up = false }: Pick<ShowOptions, 'up'> = {},
): string {
  const one = (value: number) => (isInches(system) ? inches(value, system, up) : trim(value, 1));
  return `${one(long)} × ${one(wide)} ${unitOf(system)}`;
}

/** The size of a blank, its longer side first however it lies. */
export const showBlankSize = (a: number, b: number, system: System = 'mm'): string =>
  showSize(Math.max(a, b), Math.min(a, b), system, { up: true });

/** At most so many decimals, a half rounded up, without trailing noughts, with a real minus sign. */
export function trim(value: number, decimals: number): string {
  if (!(Math.abs(value) < FAR_OUT)) return farOut(value);
  // A hair's breadth up: as a float 6.35 lies just below itself, and would be 6.3.
  const text = (value + Math.sign(value) * 1e-9).toFixed(decimals);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return (short === '-0' ? '0' : short).replace('-', '−');
}

/** So many significant digits, but never fewer than the whole number has. */
function round(value: number, significant: number): string {
  const magnitude = Math.max(1, Math.floor(Math.log10(Math.abs(value) || 1)) + 1);
  return trim(value, Math.max(0, significant - magnitude));
}
