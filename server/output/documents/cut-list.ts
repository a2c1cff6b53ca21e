import type { System } from '../../model/values/show.ts';
import type { HideNeed } from '../../nest/hide.ts';
import type { Blank, Layout, Stock } from '../../nest/lay.ts';
import type { Basis, Result } from '../../trade/reckoning/result.ts';

/**
 * The cut list as a plain document: everything a paper says, and nothing of how it looks.
 *
 * Numbers are raw (mm, mm², g, the shop's money) and become text only in the writers, through one formatter.
 * `CutListInput` is what the build knows; `gatherCutList` (gather.ts) lays the blanks, counts and adds up, and makes a
 * `CutList` of it. Nothing here reads a clock or a file: the same input gives the same paper, byte for byte.
 */

export type Duty = 'display' | 'stage' | 'contact';

export interface Caution {
  readonly code: string;
  readonly title: string;
  readonly text: string;
}

export interface ListedProblem {
  readonly severity: 'error' | 'warning' | 'information' | 'hint';
  readonly code: string;
  readonly message: string;
  /** From 1. */
  readonly line: number;
  /** Set where the problem stands in another file than the build's own. */
  readonly file?: string;
}

/** Where a number comes from, beside the number. */
export type Reasoned = Pick<Result, 'formula' | 'worked' | 'basis' | 'source'>;

/** One thing added to the finished size. */
export interface Allowance extends Reasoned {
  /** The edge or line it is for, e.g. `rim`. */
  readonly edge: string;
  /** What for, e.g. `rolled over 1/8 in wire`. */
  readonly what: string;
  /** mm. */
  readonly amount: number;
}

/** The build as a whole, the same in input and list. */
export interface Job {
  readonly title: string;
  /** Name of the spec file, without its folder. */
  readonly file: string;
  readonly client?: string;
  readonly duty?: Duty;
  /** The rulebook a contact build names, as its user entered it. */
  readonly rules?: string;
  /** Builds ordered, and spare builds made with them. */
  readonly make: number;
  readonly spare: number;
  readonly units: System;
  /** The day the paper is made, `2027-03-01`: given by whoever asks for it. */
  readonly date: string;
  readonly due?: string;
  /** ISO 4217 or whatever the shop writes; absent when no shop says. */
  readonly currency?: string;
  readonly cautions: readonly Caution[];
  readonly problems: readonly ListedProblem[];
}

/** What the build knows of one kind of blank. Counts are per build. */
export interface BlankInput extends Omit<Blank, 'copies'> {
  readonly perBuild: number;
  readonly notes: readonly string[];
  readonly allowances: readonly Allowance[];
  /** How the blank's size was found, with its range where there is one. */
  readonly size?: Reasoned & { readonly low?: number; readonly high?: number; readonly outside?: string };
  /** The smith's own `blank …` line governs. */
  readonly overridden?: boolean;
  /** Mass of one blank, g. */
  readonly mass: number;
}

/** One material that is cut from sheet, or from hide by area. */
export interface MaterialInput {
  /** The material's name in the spec. */
  readonly name: string;
  /** As read out: `mild steel 1.5 mm`. */
  readonly title: string;
  readonly kind: 'sheet' | 'hide';
  /** Real thickness, mm. */
  readonly thickness: number;
  /** Which table the gauge was read from, e.g. `16 ga, uncoated steel`. */
  readonly gauge?: string;
  readonly stock: Stock;
  readonly hide?: { readonly area?: number; readonly have?: number; readonly price?: number };
  readonly blanks: readonly BlankInput[];
}

export interface WireUse {
  readonly piece: string;
  readonly edge: string;
  /** Length of one, mm, with what is cut off at the ends. */
  readonly length: number;
  readonly perBuild: number;
  readonly reason?: Reasoned;
}

export interface WireInput {
  readonly name: string;
  readonly title: string;
  readonly diameter: number;
  readonly uses: readonly WireUse[];
  /** Mass of a metre, g. */
  readonly massPerMetre?: number;
  /** Length that it is sold in, mm. */
  readonly coil?: number;
  /** Price of a coil, or of a metre where no coil is said. */
  readonly price?: number;
  /** Length in the rack, mm. */
  readonly have?: number;
}

export interface RivetUse {
  readonly seam: string;
  /** Which of its rivets, e.g. `1 to 9`; empty for all. */
  readonly positions: string;
  readonly perBuild: number;
  /** Shank length the stack and head ask for, mm. */
  readonly needed?: Pick<Result, 'value' | 'low' | 'high' | 'formula' | 'worked' | 'basis' | 'source'>;
  /** What the bought length means for it; absent when that cannot be told. */
  readonly verdict?: 'fits' | 'short' | 'long';
  /** Hole, mm. */
  readonly hole?: number;
  /** Washers under the peened end, per rivet. */
  readonly washers?: number;
}

export interface RivetInput {
  readonly name: string;
  readonly title: string;
  readonly diameter: number;
  /** Length bought, mm. */
  readonly bought: number;
  readonly uses: readonly RivetUse[];
  readonly pack?: number;
  /** Price of a pack, or of one when no pack is said. */
  readonly price?: number;
  readonly have?: number;
  /** Mass of one, g. */
  readonly mass?: number;
}

export interface PartInput {
  readonly name: string;
  readonly title: string;
  /** Seams or pieces it is for. */
  readonly uses: readonly string[];
  readonly perBuild: number;
  readonly pack?: number;
  readonly price?: number;
  readonly have?: number;
  readonly mass?: number;
}

/** Something the spec asks for that this list cannot count yet. It is said, never left out. */
export interface Unreckoned {
  /** `piece skull` */
  readonly what: string;
  /** How many in one build, where that is known. */
  readonly perBuild?: number;
  /** From what, as read out. */
  readonly material?: string;
  readonly reason: string;
}

export interface CutListInput extends Job {
  readonly materials: readonly MaterialInput[];
  readonly wires: readonly WireInput[];
  readonly rivets: readonly RivetInput[];
  readonly parts: readonly PartInput[];
  readonly unreckoned?: readonly Unreckoned[];
  /** Mass of one finished build, g: as formed, and with what is worn with it (padding, straps) where known. */
  readonly mass?: {
    readonly formed: number;
    readonly worn?: number;
    /** What it leaves out, in words. */
    readonly note?: string;
  };
}

export interface BlankRow extends BlankInput {
  /** A letter that stands on the drawing: `A`, `B`, … `AA`. */
  readonly mark: string;
  /** Copies to cut, spare builds included. */
  readonly total: number;
  readonly massTotal: number;
  /** Numbers of the sheets it lies on. */
  readonly sheets: readonly number[];
  /** Copies that lie on no sheet, and why. */
  readonly unplaced?: { readonly copies: number; readonly reason: string };
}

export interface Material extends Omit<MaterialInput, 'blanks' | 'hide'> {
  readonly rows: readonly BlankRow[];
  /** Absent for hides. */
  readonly layout?: Layout;
  readonly hide?: HideNeed & {
    readonly price?: number;
    readonly basis: Basis;
    readonly source: string;
    readonly share: number;
  };
  /** Mass of all its blanks, g. */
  readonly blankMass: number;
  readonly cost: Cost;
}

export interface Wire extends Omit<WireInput, 'uses'> {
  readonly uses: readonly (WireUse & { readonly total: number; readonly lengthTotal: number })[];
  readonly lengthTotal: number;
  readonly massTotal?: number;
  readonly buy: WirePurchase;
  readonly cost: Cost;
}

export interface Rivet extends Omit<RivetInput, 'uses'> {
  readonly uses: readonly (RivetUse & { readonly total: number })[];
  readonly perBuild: number;
  readonly total: number;
  readonly buy: Purchase;
  readonly cost: Cost;
}

export interface Part extends PartInput {
  readonly total: number;
  readonly buy: Purchase;
  readonly cost: Cost;
}

export interface Purchase {
  /** Pieces wanted beyond what is in the drawer. */
  readonly short: number;
  /** Packs to buy; equals `short` when no pack is said. */
  readonly packs: number;
}

export interface WirePurchase {
  /** Length wanted beyond what is in the rack, mm. */
  readonly short: number;
  /** Coils to buy; absent when no coil is said, or one use is longer than a coil. */
  readonly coils?: number;
}

/** Money, where prices are known. */
export interface Cost {
  /** What the material that goes in is worth at its price; offcuts count nothing. Absent when a price is missing. */
  readonly used?: number;
  /** What has to be paid out now. Absent when a price that is needed is missing. */
  readonly toBuy?: number;
}

export interface Totals {
  readonly formedMass?: number;
  readonly wornMass?: number;
  readonly massNote?: string;
  /** All blanks of one build, g. */
  readonly blankMassOfOne: number;
  /** All blanks of the whole job, g. */
  readonly blankMass: number;
  readonly blanks: number;
  readonly sheets: number;
  readonly offcuts: number;
  readonly sheetsToBuy: number;
  readonly stockArea: number;
  readonly wasteArea: number;
  readonly leftoverArea: number;
  /** Absent when nothing was laid. */
  readonly wasteRatio?: number;
  readonly cost: Cost;
  /** The same without what has no price: nothing is left out of it when `priceMissing` is empty. */
  readonly priced: Required<Cost>;
  /** Titles of what has no price. */
  readonly priceMissing: readonly string[];
  readonly errors: number;
  readonly warnings: number;
}

export interface CutList extends Job {
  /** Builds to cut for: make and spare. */
  readonly builds: number;
  readonly materials: readonly Material[];
  readonly wires: readonly Wire[];
  readonly rivets: readonly Rivet[];
  readonly parts: readonly Part[];
  readonly unreckoned: readonly Unreckoned[];
  readonly totals: Totals;
}

export type { Layout, Stock };
