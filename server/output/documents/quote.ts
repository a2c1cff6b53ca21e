import type { Job } from './cut-list.ts';

/** A price for a job: a plain document, money as numbers of the shop’s currency that add up to the last coin. */
export interface Quote extends Job {
  /** Builds that are made: what is ordered and what is made besides. */
  readonly builds: number;
  readonly decimals: number;
  readonly lines: readonly QuoteLine[];
  /** Absent where something that it takes has no price: then `priced` is what can be added up. */
  readonly total?: number;
  readonly priced: number;
  /** The same with all work quick, and with all work slow. */
  readonly range: { readonly low: number; readonly high: number };
  /** What is in no line, by name. */
  readonly missing: readonly string[];
  /** Other numbers of builds, each as if it alone were ordered. */
  readonly offers: readonly Offer[];
  /** The last day on which it stands. */
  readonly validUntil?: string;
  readonly terms: readonly string[];
}

export interface QuoteLine {
  readonly group: 'materials' | 'work' | 'overhead' | 'margin' | 'tax';
  readonly what: string;
  readonly detail?: string;
  /** Absent where its price is not known. */
  readonly money?: number;
}

export interface Offer {
  readonly builds: number;
  readonly each: number;
  readonly all: number;
}
