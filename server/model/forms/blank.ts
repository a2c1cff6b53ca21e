import { offset } from '../../geometry/outline/allowance.ts';
import { flattened as chords } from '../../geometry/outline/chords.ts';
import { boxOfPath } from '../../geometry/outline/measure.ts';
import { oval } from '../../geometry/outline/oval.ts';
import type { Path } from '../../geometry/outline/path.ts';
import { drawnArea } from '../../trade/blank/drawn.ts';
import { type Added, grown, grownFrom, movedOutArea } from '../../trade/blank/grown.ts';
import { circleArea, ellipseArea, ellipsePerimeter, plateArea } from '../../trade/blank/plane-shapes.ts';
import { endOf, type FormedBy, solved } from '../../trade/dome/hammered.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { movedOut } from '../names/drawn.ts';
import type { Figure } from '../values/figure.ts';

/* What the smith cuts, and what the blanks of several forms are made by; each form's own blank stands with it. */

/** What one worked edge adds. */
export interface Allowance {
  readonly edge: string;
  /** `rolled over edge-wire` */
  readonly what: string;
  readonly figure: Figure;
}

export type BlankShape =
  | { readonly kind: 'rectangle' | 'round' | 'oval' }
  | {
      readonly kind: 'outline';
      readonly points: readonly (readonly [number, number])[];
      /** The same with its arcs, where it has them. */
      readonly path?: Path;
      /** The middle of a strip that is cut curved, from its left end. */
      readonly middle?: Path;
      /** What the drawing cuts out of it. */
      readonly openings?: readonly (readonly (readonly [number, number])[])[];
    };

/** What the smith cuts. */
export interface Blank {
  readonly shape: BlankShape;
  /** Bounding size as it is laid, mm. */
  readonly long: number;
  readonly wide: number;
  readonly area: number;
  readonly allowances: readonly Allowance[];
  /** The smith's own `blank` line stands. */
  readonly overridden: boolean;
}

/** A figure of a blank, by what follows `blank.`. */
export interface BlankFigure {
  readonly suffix: string;
  readonly title: string;
  readonly result: Result;
}

export interface WorkedBlank {
  readonly blank: Blank;
  /** Made when they are asked for: at every key the blank is, to be laid on its sheet. */
  figures(): readonly BlankFigure[];
  /** What the finished piece and its edges take of it: less than the whole where it is cut to its profile and trimmed. */
  readonly needed: Needed;
  /** The smallest blank that any way of working could do with, rim held, and the largest that it could use. Only where ways differ. */
  readonly least?: Size;
  readonly most?: Size;
}

/** A blank's box, mm. */
export interface Size {
  readonly long: number;
  readonly wide: number;
}

export interface Needed extends Size {
  /** mm² */
  readonly area: number;
}

/** Allowances of a blank by edge, with their sums. */
export class Edges {
  constructor(readonly all: readonly Allowance[]) {}

  of(...edges: string[]): Added[] {
    return this.all
      .filter((each) => edges.includes(each.edge))
      .map((each) => ({ name: each.edge, value: each.figure.value }));
  }

  sum(...edges: string[]): number {
    return this.of(...edges).reduce((total, each) => total + each.value, 0);
  }
}

/** The blank that the smith's own line gives. */
export function givenBlank(long: number, wide: number | undefined, isOval: boolean): Blank {
  const given = { allowances: [], overridden: true } as const;
  if (wide === undefined) return { ...given, shape: { kind: 'round' }, long, wide: long, area: circleArea(long).value };
  return isOval
    ? { ...given, shape: { kind: 'oval' }, long, wide, area: ellipseArea(long, wide).value }
    : { ...given, shape: { kind: 'rectangle' }, long, wide, area: long * wide };
}

export function made(
  shape: BlankShape,
  long: Result,
  wide: Result,
  area: Result,
  edges: Edges,
  more: () => readonly BlankFigure[] = () => [],
): WorkedBlank {
  const needed = { long: long.value, wide: wide.value, area: area.value };
  return {
    blank: { shape, ...needed, allowances: edges.all, overridden: false },
    needed,
    figures: () => [
      ...more(),
      { suffix: 'long', title: 'blank, long', result: long },
      { suffix: 'wide', title: 'blank, wide', result: wide },
      { suffix: 'area', title: 'blank area', result: area },
    ],
  };
}

export function rectangleBlank(
  long: number,
  wide: number,
  edges: Edges,
  source: string,
  longResult?: Result,
): WorkedBlank {
  const sides = edges.of('left', 'right');
  const first = longResult ? grownFrom(longResult, sides, 1) : grown('long', long, sides, 1, source);
  const second = grown('wide', wide, edges.of('top', 'bottom'), 1, source);
  return made({ kind: 'rectangle' }, first, second, plateArea(first.value, second.value), edges);
}

/** Beside an oval there is no oval: what lies even everywhere is a little fuller on its shoulders. */
export function ovalBlank(
  finished: { readonly long: number; readonly wide: number },
  long: Result,
  wide: Result,
  edges: Edges,
): WorkedBlank | undefined {
  const rim = edges.sum('rim');
  if (!rim) return made({ kind: 'oval' }, long, wide, ellipseArea(long.value, wide.value), edges);
  const path = offset(oval(finished.long, finished.wide), rim)[0];
  if (!path) return undefined;
  const area = movedOutArea({
    area: ellipseArea(finished.long, finished.wide).value,
    round: ellipsePerimeter(finished.long, finished.wide).value,
    by: rim,
  });
  return made({ kind: 'outline', points: pointsOf(path), path }, long, wide, area, edges);
}

/** Fine enough to be laid and drawn: mm between a chord and its arc. */
const CHORDS_WITHIN = 0.05;

/** What is cut by an outline. */
export interface Drawn {
  readonly outer: Path;
  readonly openings: readonly Path[];
  /** It is the same object whenever it is asked for. */
  readonly isKept: boolean;
}

/** An outline, made larger all round by what its edge needs. */
export function outlineBlank({ outer, openings, isKept }: Drawn, edges: Edges, area: Result): WorkedBlank | undefined {
  const rim = edges.sum('rim');
  const cut = rim ? movedOut(outer, rim, isKept) : outer;
  if (!cut) return undefined;
  const box = boxOfPath(outer);
  const source = 'Box of the outline and twice what its edge needs';
  const long = grown('long', box.right - box.left, edges.of('rim'), 2, source);
  const wide = grown('wide', box.top - box.bottom, edges.of('rim'), 2, source);
  const moved = 'The outline moved out square to itself by what its edge needs, arcs kept as arcs';
  const shape = {
    kind: 'outline' as const,
    points: pointsOf(cut),
    path: cut,
    ...(openings.length ? { openings: openings.map(pointsOf) } : {}),
  };
  return made(shape, long, wide, rim ? drawnArea(cut, openings, moved) : area, edges);
}

export const pointsOf = (path: Path) => chords(path, CHORDS_WITHIN).map(({ x, y }) => [x, y] as const);

export type What = 'long' | 'wide' | 'area';
export const lettered = (what: What): string => (what === 'area' ? 'A' : what);

/** What a form needs with its edges, and the least and the most of it; `more` is what the edges add. */
export function neededOf(formed: FormedBy, value: Needed, more: Needed) {
  const [least, most, held] = [formed.least, formed.most, formed.held].map((end) => endOf(formed, end));
  const size = (of: Size) => ({ long: of.long + more.long, wide: of.wide + more.wide });
  return {
    bounds: { least: size(held!), most: size(most!) },
    result: (what: What, unit: 'mm' | 'mm2', parts: readonly Added[]): Result =>
      solved(formed, {
        what: lettered(what),
        unit,
        value: value[what],
        ends: [least!, most!].map((end) => end[what] + more[what]),
        parts,
      }),
  };
}

export const neededFigures = ([long, wide, area]: readonly [Result, Result, Result]): readonly BlankFigure[] => [
  { suffix: 'needed-long', title: 'blank that the form needs, long', result: long },
  { suffix: 'needed-wide', title: 'blank that the form needs, wide', result: wide },
  { suffix: 'needed-area', title: 'area of blank that the form needs', result: area },
];
