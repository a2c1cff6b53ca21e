import { say } from '../../../l10n/say.ts';
import { chordOf, type Point, type Span } from '../outline/span.ts';

/** One run of lines and arcs of a drawing file, mm, y up. */
export interface Stroke {
  readonly spans: readonly Span[];
  /** Ends where it begins because the file says so. */
  readonly closed: boolean;
  /** What it may be asked for by: its own name in the file, and those of the groups, layers or blocks that it is in. */
  readonly names: readonly string[];
  /** Why nothing can be cut from it: it has no spans then. */
  readonly fault?: string;
}

/** What a drawing file holds, whatever its format. */
export interface Drawing {
  readonly strokes: readonly Stroke[];
  /** Every name that something to be cut bears, in the order of the file. */
  readonly names: readonly string[];
  /** Set where the file does not say how large it is: how it was read, in words. */
  readonly assumed?: string;
}

/** Why a file cannot be read, in words for a smith. */
export interface Unreadable {
  readonly unreadable: string;
}

export const isDrawing = (answer: Drawing | Unreadable): answer is Drawing => !('unreadable' in answer);

/** mm. Nothing that is drawn lies further from the origin of its drawing: ten kilometres are a surveyor's plan. */
const FARTHEST_DRAWN = 10_000_000;
/** The tangent of a quarter of an arc's turn: above it no more than a hair is wanting to the whole circle. */
const MOST_BULGE = 10_000;

/** Lines and arcs in one drawing: past it a file is something else than an outline or pierced work. */
export const MOST_SPANS = 100_000;
/** Elements, entities and copies of blocks that are looked at: most of them draw something. */
const MOST_PARTS = 200_000;

/** Where in its file something is drawn. */
export interface Where {
  /** `circle`, `LWPOLYLINE` */
  readonly kind: string;
  readonly line: number;
}

/**
 * All that is drawn in a file comes in through here: counted, so that no file takes longer than its reader wants to wait, and
 * held to what can be reckoned with. What cannot is kept as a fault of its own stroke: it may not be the one that is asked for.
 */
export class Sketch {
  private readonly strokes: Stroke[] = [];
  private spans = 0;
  private parts = 0;
  /** Why the whole file cannot be read. */
  fault: string | undefined;

  /** Looks at so many more things of the file; whether it is still to be read. */
  part(count = 1): boolean {
    this.parts += count;
    return this.goesOn(this.parts <= MOST_PARTS);
  }

  /** Makes so many more lines and arcs; whether it is still to be read. */
  made(count: number): boolean {
    this.spans += count;
    return this.goesOn(this.spans <= MOST_SPANS);
  }

  private goesOn(isFew: boolean): boolean {
    if (!isFew) this.fault ??= 'there is more in it than an outline could need';
    return this.fault === undefined;
  }

  add(spans: readonly Span[], closed: boolean, names: readonly string[], where: Where): void {
    if (spans.every(isDrawable)) {
      if (spans.length) this.strokes.push({ spans, closed, names });
      return;
    }
    this.refuse(names, where);
  }

  /** Something of it lies where nothing can be drawn. */
  refuse(names: readonly string[], { kind, line }: Where): void {
    const fault = say`the ${kind} in line ${line} has a place that is no number or lies more than ${FARTHEST_DRAWN / 1e6} km from the origin of the drawing, or an arc that is no arc`;
    this.strokes.push({ spans: [], closed: false, names, fault });
  }

  drawing(assumed?: string): Drawing | Unreadable {
    if (this.fault !== undefined) return { unreadable: this.fault };
    const names = new Set<string>();
    for (const stroke of this.strokes) for (const name of stroke.names) names.add(name);
    return { strokes: this.strokes, names: [...names], ...(assumed === undefined ? {} : { assumed }) };
  }
}

/** Whether something can be drawn there. */
export const isPlace = ({ x, y }: Point): boolean => Math.abs(x) <= FARTHEST_DRAWN && Math.abs(y) <= FARTHEST_DRAWN;

/** Its circle too reaches no further than all else. */
function isDrawable(span: Span): boolean {
  const { from, to, bulge } = span;
  return (
    isPlace(from) &&
    isPlace(to) &&
    Math.abs(bulge) <= MOST_BULGE &&
    (Math.abs(bulge) <= 1 || chordOf(span) * Math.abs(bulge) <= FARTHEST_DRAWN)
  );
}
