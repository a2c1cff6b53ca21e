import type { Place, Section } from '../../grammar/tree.ts';
import type { Finish, Model } from '../model/spec.ts';
import type { HingeModel } from '../model/things/hinge.ts';
import type { JointModel } from '../model/things/joint.ts';
import type { MaterialModel } from '../model/things/material.ts';
import type { PieceModel } from '../model/things/piece.ts';
import type { SeamModel } from '../model/things/seam.ts';
import type { Finding, FindingFix, Related, Severity } from '../model/values/figure.ts';
import type { SizedSeam } from './support/rivets.ts';

/** Families in the order the documentation lists them. */
export const FAMILIES = [
  'Language',
  'Material',
  'Forming',
  'Blanks',
  'Holes',
  'Rivets',
  'Hinges',
  'Joints',
  'Fit',
  'Finish and order',
  'Safety',
  'Stock and money',
] as const;
export type Family = (typeof FAMILIES)[number];

/**
 * One check: what it looks for, why that matters at the bench, what to do, and an example that sets it off.
 * Its documentation, its setting, its SARIF rule and its test are all made from this.
 */
export interface Check {
  /** Kebab-case, reads well after “allow”, and never changes once shipped. */
  readonly code: string;
  /** A line for a list: `A rivet is too short for its stack`. */
  readonly title: string;
  readonly family: Family;
  readonly severity: Severity;
  /** What it looks for, with the formula in words. */
  readonly what: string;
  /** Why it matters at the bench. */
  readonly why: string;
  /** What to do about it. */
  readonly todo: string;
  readonly formula?: string;
  /** Document, table or "common practice (no source)". */
  readonly source: string;
  /** The rows of the tables of what is usual (server/trade/usual) that it reads. */
  readonly usual?: readonly string[];
  /**
   * A safety caution, in a word or two for a list of them: may be lowered to information, never switched off, and always heads
   * the papers.
   */
  readonly caution?: string;
  /** Holds of the whole spec, or of most specs there are, rather than of the place where it is found: as information it is quiet. */
  readonly ofAll?: boolean;
  /** The code also marks what is unused (faded) or deprecated (struck). */
  readonly tag?: 'unused' | 'deprecated';
  /** A spec that sets it off. */
  readonly example: string;
  /** Other files that the example and the better one use, by their paths from it. */
  readonly beside?: Readonly<Record<string, string>>;
  /** The same spec put right: this check says nothing of it. */
  readonly better: string;
  // How it looks. All are absent for what the reader or the model finds by itself. Whoever looks at one thing at a time is
  // asked again only for things of which something changed.
  readonly section?: (section: Section, report: Report, model: Model) => void;
  readonly material?: (material: MaterialModel, report: Report, model: Model) => void;
  readonly piece?: (piece: PieceModel, report: Report, model: Model) => void;
  readonly seam?: (seam: SeamModel, report: Report, model: Model) => void;
  /** A seam whose rivet and its size are known. */
  readonly riveted?: (seam: SizedSeam, report: Report, model: Model) => void;
  readonly hinge?: (hinge: HingeModel, report: Report, model: Model) => void;
  readonly joint?: (joint: JointModel, report: Report, model: Model) => void;
  readonly finish?: (finish: Finish, report: Report, model: Model) => void;
  /** For what must see the whole spec: asked again at every change of anything that it read, so see `gathered`. */
  readonly run?: (model: Model, report: Report) => void;
}

export interface Reported {
  readonly message: string;
  readonly fixes?: readonly FindingFix[] | undefined;
  readonly related?: readonly Related[] | undefined;
  /** Where it is not the check's own: `cannot` is an error, `may not` a warning. */
  readonly severity?: Severity | undefined;
}

export type Report = (place: Place, reported: Reported) => void;

/** A finding with the check that explains it. */
export interface Problem extends Finding {
  readonly severity: Severity;
  readonly check: Check | undefined;
  /** Said once, above the build and under a list of findings, and marked nowhere. */
  readonly isQuiet: boolean;
}

/** A fix that replaces the text at a place. */
export function replacing(uri: string, title: string, place: Place, text: string, preferred = false): FindingFix {
  return { title, edits: [{ uri, place, text }], ...(preferred ? { preferred } : {}) };
}

/** A fix that puts a line in after another line of a section, with its indent. */
export function addingLine(uri: string, title: string, after: Place, text: string): FindingFix {
  const { section, to } = after;
  let end = to;
  while (end < section.text.length && section.text[end] !== '\n' && section.text[end] !== '\r') end++;
  const lineBreak = section.text.includes('\r\n') ? '\r\n' : '\n';
  return { title, edits: [{ uri, place: { section, from: end, to: end }, text: `${lineBreak}  ${text}` }] };
}
