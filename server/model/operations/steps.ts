import type { LineReading } from '../names/line-reading.ts';

/** What a step leaves on the surface. */
export type Layer = 'bare' | 'colour' | 'coat';

/** Coats lie on the metal and burn or wipe off; colours are in its skin. */
export function layerOf(step: LineReading): Layer {
  switch (step.id) {
    case 'blacken':
    case 'blue':
    case 'patina':
      return 'colour';
    case 'prime':
    case 'paint':
    case 'lacquer':
    case 'wax':
    case 'oil':
    case 'dye':
      return 'coat';
    default:
      return 'bare';
  }
}

/** Steps of a finish that are done by heat. */
export const isHotFinish = (step: LineReading): boolean =>
  step.id === 'blue' || (step.id === 'blacken' && step.has('hot'));
