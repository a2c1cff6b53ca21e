import type { Interval } from '../reckoning/interval.ts';
import { PRACTICE } from './practice.ts';

/** What a kind of work is counted by: each thing, a metre along, a square decimetre over. */
export type Per = 'each' | 'm' | 'dm2';

/** How long a kind of work takes a smith who knows it, minutes. */
export interface Rate {
  /** As one would say it: `raising`. */
  readonly what: string;
  /** As it begins a line: `Raise`. */
  readonly does: string;
  readonly per: Per;
  /** What there are `each` of: `hole`. */
  readonly of?: string;
  /** To lay out, light and clear away, whatever there is of it: once in one go. */
  readonly setUp: number;
  readonly rate: Interval;
  /** What passes afterwards without hands before anything else touches the work: drying, cooling. */
  readonly wait?: Interval;
}

/**
 * Rates of work: none has a source, each has its spread, and the shop’s own hours go before them. Of all of them
 * {@link RATE_SOURCE} says where they come from.
 */
export const rateTable = {
  mark: each('marking out', 'Mark out', 'blank', 3, [2, 5, 12]),
  cut: along('cutting the blank', 'Cut', 5, [4, 8, 20]),
  file: along('filing and deburring', 'File and deburr', 2, [3, 6, 12]),
  drill: each('drilling or punching', 'Drill or punch', 'hole', 5, [0.7, 1.5, 3]),
  saw: along('sawing out', 'Saw out', 5, [30, 60, 150]),
  dish: over('dishing', 'Dish', 5, [4, 8, 16]),
  raise: over('raising, each course', 'Raise', 5, [3, 6, 12]),
  anneal: each('annealing', 'Anneal', 'heat', 10, [3, 6, 12]),
  trim: along('trimming level', 'Trim level', 3, [6, 12, 25]),
  planish: over('planishing', 'Planish', 5, [4, 8, 20]),
  texture: over('texturing', 'Texture', 5, [2, 4, 8]),
  flute: each('fluting', 'Flute', 'flute', 5, [6, 12, 30]),
  crease: each('creasing', 'Crease', 'line', 5, [8, 18, 40]),
  flare: each('flaring', 'Flare', 'edge', 5, [8, 18, 40]),
  bend: each('bending', 'Bend', 'bend', 5, [2, 5, 10]),
  form: over('bending to the form', 'Bend to its form', 5, [0.7, 1.5, 4]),
  roll: along('rolling an edge', 'Roll', 5, [40, 80, 200]),
  hem: along('hemming', 'Hem', 5, [15, 30, 80]),
  round: along('rounding edges', 'Round', 2, [4, 8, 16]),
  knuckles: each('cutting and curling knuckles', 'Cut and curl the knuckles of', 'knuckle', 10, [4, 8, 20]),
  harden: each('hardening', 'Harden', 'piece', 30, [6, 12, 30], [20, 40, 120]),
  temper: each('tempering', 'Temper', 'piece', 20, [5, 10, 20], [40, 90, 180]),
  fit: each('fitting', 'Fit', 'joint', 5, [6, 15, 45]),
  match: each('drilling through both plates', 'Match-drill', 'hole', 5, [1, 2, 4]),
  weld: along('welding and dressing', 'Weld', 15, [25, 60, 150]),
  solder: along('soldering', 'Solder', 15, [25, 60, 150], [10, 20, 40]),
  rivet: each('riveting', 'Rivet', 'rivet', 5, [1.5, 2.5, 6]),
  lace: along('lacing', 'Lace', 2, [10, 25, 60]),
  sew: along('sewing', 'Sew', 5, [40, 100, 250]),
  strap: each('cutting and fastening straps', 'Strap', 'strap', 5, [8, 18, 40]),
  pin: each('driving the pin', 'Hang', 'hinge', 3, [4, 10, 25]),
  hold: each('holding a soft edge', 'Edge', 'edge', 5, [15, 30, 90]),
  grind: over('grinding', 'Grind', 5, [0.7, 1.5, 4]),
  sand: over('sanding, each grit', 'Sand', 3, [0.5, 1.2, 3]),
  polish: over('polishing', 'Polish', 5, [0.7, 1.5, 4]),
  blacken: over('blackening', 'Blacken', 15, [0.3, 0.6, 1.5], [10, 30, 120]),
  blue: over('bluing', 'Blue', 15, [0.2, 0.5, 1.2], [10, 20, 60]),
  patina: over('a patina', 'Patinate', 15, [0.4, 0.8, 2], [30, 240, 1440]),
  prime: over('priming', 'Prime', 10, [0.1, 0.25, 0.6], [60, 240, 1440]),
  paint: over('painting, each coat', 'Paint', 15, [0.1, 0.3, 0.8], [120, 480, 1440]),
  dye: over('dyeing', 'Dye', 10, [0.1, 0.3, 0.8], [240, 720, 1440]),
  oil: over('oiling', 'Oil', 3, [0.05, 0.15, 0.3]),
  wax: over('waxing', 'Wax', 5, [0.1, 0.3, 0.6]),
  lacquer: over('lacquering', 'Lacquer', 10, [0.1, 0.25, 0.6], [60, 240, 1440]),
} as const satisfies Readonly<Record<string, Rate>>;

export type WorkKind = keyof typeof rateTable;

export const RATE_SOURCE = `Rates of work: ${PRACTICE}`;

export const rateOf = (kind: WorkKind): Rate => rateTable[kind];

type Spread = readonly [low: number, value: number, high: number];

function each(what: string, does: string, of: string, setUp: number, rate: Spread, wait?: Spread): Rate {
  return { ...row(what, does, 'each', setUp, rate, wait), of };
}
function along(what: string, does: string, setUp: number, rate: Spread, wait?: Spread): Rate {
  return row(what, does, 'm', setUp, rate, wait);
}
function over(what: string, does: string, setUp: number, rate: Spread, wait?: Spread): Rate {
  return row(what, does, 'dm2', setUp, rate, wait);
}
function row(what: string, does: string, per: Per, setUp: number, rate: Spread, wait: Spread | undefined): Rate {
  return { what, does, per, setUp, rate: interval(rate), ...(wait ? { wait: interval(wait) } : {}) };
}
function interval([low, value, high]: Spread): Interval {
  return { low, value, high };
}
