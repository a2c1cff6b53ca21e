import type { Unit } from '../trade/result.ts';

export type System = 'mm' | 'in';

const trim = (value: number, decimals: number) => {
  const text = value.toFixed(decimals);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short.replace('-', '−');
};

/** Stands in for `server/model/show.ts` until that is there; same signature. */
export function show(value: number, unit: Unit, system: System): string {
  if (!Number.isFinite(value)) return 'not known';
  const inches = system === 'in';
  switch (unit) {
    case 'mm':
      return inches ? `${trim(value / 25.4, 3)} in` : `${trim(value, Math.abs(value) < 10 ? 2 : 1)} mm`;
    case 'mm2':
      if (inches) return value >= 929_030 ? `${trim(value / 92_903.04, 2)} ft²` : `${trim(value / 645.16, 1)} in²`;
      return value >= 1e5 ? `${trim(value / 1e6, 2)} m²` : `${trim(value / 100, 1)} cm²`;
    case 'g':
      if (inches) return value >= 453.6 ? `${trim(value / 453.592, 2)} lb` : `${trim(value / 28.3495, 1)} oz`;
      return value >= 1000 ? `${trim(value / 1000, 2)} kg` : `${trim(value, value < 10 ? 1 : 0)} g`;
    case 'deg':
      return `${trim(value, 1)}°`;
    case 'ratio':
      return `${trim(value * 100, 0)} %`;
    default:
      return trim(value, 2);
  }
}
