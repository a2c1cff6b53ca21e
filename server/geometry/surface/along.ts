import type { Chart, Spot, Track } from './chart.ts';
import { apart } from './vector.ts';

/** Steps into which a way is cut to measure along it. */
const STEPS = 400;

/** A way on a chart that can be measured along, mm. */
export interface Measured {
  readonly length: number;
  /** Held to its ends. */
  at(length: number): Spot;
}

/** Measures a way given by shares: chords, in even steps of the share. */
export function measured(chart: Chart, at: (share: number) => Spot, steps = STEPS): Measured {
  const lengths = [0];
  let from = chart.point(...at(0));
  for (let i = 1; i <= steps; i++) {
    const to = chart.point(...at(i / steps));
    lengths.push(lengths[i - 1]! + apart(from, to));
    from = to;
  }
  const whole = lengths[steps]!;
  return {
    length: whole,
    at(way) {
      if (!(way > 0)) return at(0);
      if (way >= whole) return at(1);
      let [low, high] = [0, steps];
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (lengths[middle]! <= way) low = middle;
        else high = middle;
      }
      return at((low + (way - lengths[low]!) / (lengths[high]! - lengths[low]!)) / steps);
    },
  };
}

/** The straight way from spot to spot. */
export const straight =
  (from: Spot, to: Spot) =>
  (share: number): Spot => [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];

/** A track as one way: its legs in turn, those that stand on a pole left out. */
export function wayOf(chart: Chart, track: Track): (share: number) => Spot {
  const legs = track.slice(1).flatMap((to, i): (readonly [Spot, Spot])[] => {
    const from = track[i]!;
    const onPole = from[1] === to[1] && ((to[1] === 1 && chart.poles.top) || (to[1] === 0 && chart.poles.bottom));
    return onPole ? [] : [[from, to]];
  });
  if (!legs.length) return () => track[0]!;
  return (share) => {
    const i = Math.min(legs.length - 1, Math.max(0, Math.floor(share * legs.length)));
    const [from, to] = legs[i]!;
    return straight(from, to)(share * legs.length - i);
  };
}
