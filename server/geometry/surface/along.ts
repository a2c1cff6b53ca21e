import type { Steps } from '../../incremental/steps.ts';
import type { Chart, Spot, Track } from './chart.ts';
import { apart, type Vector } from './vector.ts';

/** Steps into which a way is cut to measure along it. */
const STEPS = 400;

/** A way on a chart that can be measured along, mm. It is measured only as far as it is asked for. */
export interface Measured {
  readonly length: number;
  /** Whether it is so long. */
  reaches(length: number): boolean;
  /** Held to its ends. */
  at(length: number): Spot;
}

/** Measures a way given by shares: chords, in even steps of the share. */
export function measured(chart: Chart, at: (share: number) => Spot, steps = STEPS): Measured {
  return new Way(chart, at, steps);
}

/** The same all the way to its end, with stops. */
export function* measuredInSteps(chart: Chart, at: (share: number) => Spot): Steps<Measured> {
  const way = new Way(chart, at, STEPS);
  for (let step = AT_A_TIME; step <= STEPS; step += AT_A_TIME) {
    yield undefined;
    way.go(step);
  }
  return way;
}
/** Chords between two stops: each end of one may want a section of its own. */
const AT_A_TIME = 40;

class Way implements Measured {
  /** From the start to each step that was gone. */
  private readonly lengths = [0];
  private last: Vector | undefined;

  constructor(
    private readonly chart: Chart,
    private readonly spotAt: (share: number) => Spot,
    private readonly steps: number,
  ) {}

  get length(): number {
    return this.go(this.steps);
  }

  reaches(length: number): boolean {
    this.past(length);
    return !(length > this.lengths[this.lengths.length - 1]!);
  }

  at(length: number): Spot {
    if (!(length > 0)) return this.spotAt(0);
    this.past(length);
    const { lengths, steps } = this;
    if (length >= lengths[lengths.length - 1]!) return this.spotAt(1);
    let [low, high] = [0, lengths.length - 1];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (lengths[middle]! <= length) low = middle;
      else high = middle;
    }
    return this.spotAt((low + (length - lengths[low]!) / (lengths[high]! - lengths[low]!)) / steps);
  }

  /** Goes on until the way is longer than this, or at its end. */
  private past(length: number): void {
    const { lengths, steps } = this;
    while (!(lengths[lengths.length - 1]! > length) && lengths.length <= steps) this.go(lengths.length);
  }

  /** Goes on to this step, and says how long the way is up to the last that was gone. */
  go(step: number): number {
    const { chart, spotAt, steps, lengths } = this;
    const pointAt = (share: number): Vector => {
      const spot = spotAt(share);
      return chart.point(spot[0], spot[1]);
    };
    this.last ??= pointAt(0);
    for (let i = lengths.length; i <= step; i++) {
      const to = pointAt(i / steps);
      lengths.push(lengths[i - 1]! + apart(this.last, to));
      this.last = to;
    }
    return lengths[lengths.length - 1]!;
  }
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
