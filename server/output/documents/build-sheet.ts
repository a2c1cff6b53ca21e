import type { WorkKind } from '../../trade/usual/rates.ts';
import type { Job, Reasoned, RivetUse } from './cut-list.ts';

/**
 * What a smith has at the bench: in which order all is done and why, how long it takes, and a card for each piece with what has to be
 * known of it. A plain document: raw numbers (mm, minutes), which become text in the writers.
 */
export interface BuildSheet extends Job {
  /** Builds worked in one go: make and spare. */
  readonly builds: number;
  readonly hours: BuildHours;
  readonly turns: readonly Turn[];
  /** Common practice that the smith’s own order goes against. */
  readonly against: readonly Why[];
  readonly why: readonly Why[];
  readonly cards: readonly Card[];
}

/** Minutes. */
export interface BuildHours {
  /** Of hands for one build, as `build.hours` has it; absent where nothing of it is known. */
  readonly one?: Reasoned & { readonly value: number; readonly low?: number; readonly high?: number };
  /** Of hands for all builds in this order, laying out included. */
  readonly hands: number;
  /** What passes in between without hands. */
  readonly waiting: number;
  /** From the first mark to the last dry coat. */
  readonly throughout: number;
  /** No order is quicker. */
  readonly least: number;
  /** Operations whose time is not known. */
  readonly unknown: readonly string[];
}

/** One operation in its turn. */
export interface Turn {
  /** From 1. */
  readonly number: number;
  readonly key: string;
  readonly kind: WorkKind;
  readonly title: string;
  readonly of: string;
  readonly says: readonly string[];
  /** Of all builds, without laying out. Absent where how much there is of it is not known. */
  readonly minutes?: number;
  readonly low?: number;
  readonly high?: number;
  readonly setUp: number;
  /** Minutes of work from the beginning. */
  readonly start: number;
  /** What has to pass afterwards. */
  readonly wait?: number;
  /** Turns that it waits for and that no other of them waits for. */
  readonly after: readonly number[];
  /** Titles of the cautions that matter here. */
  readonly cautions: readonly string[];
  readonly line: number;
}

/** A reason, and the turns that it holds between. */
export interface Why {
  readonly reason: string;
  readonly why: string;
  /** Common practice, which gives way to an order of the smith’s own. */
  readonly usual: boolean;
  readonly pairs: readonly (readonly [number, number])[];
}

export interface Card {
  readonly piece: string;
  readonly material: string;
  /** In one build. */
  readonly make: number;
  readonly mirrored: boolean;
  readonly notes: readonly string[];
  readonly blank?: {
    readonly long: number;
    readonly wide: number;
    readonly round: boolean;
    readonly ownOutline: boolean;
    readonly allowances: readonly { readonly edge: string; readonly what: string; readonly amount: number }[];
  };
  /** Why it has no blank. */
  readonly noBlank?: string;
  /** Tightest radius of the form: the stake and the face of the hammer must be no flatter, mm. */
  readonly tightest?: number;
  readonly openings: readonly {
    readonly what: string;
    readonly count: number;
    readonly long: number;
    readonly wide: number;
    readonly round: boolean;
    readonly now: 'in the flat' | 'when formed';
  }[];
  readonly rivets: readonly (Omit<RivetUse, 'verdict'> & { readonly rivet: string; readonly drill?: number })[];
  /** What is to be measured, beside what is forecast: lines for a log. */
  readonly measures: readonly Measured[];
  /** Turns in which it is worked. */
  readonly turns: readonly number[];
}

export interface Measured {
  /** As a log line names it: `skull crown`. */
  readonly name: string;
  readonly forecast: readonly number[];
  readonly unit: 'mm' | 'g';
  readonly low?: number;
  readonly high?: number;
}
