import { atOnce, manyByMany, type Steps } from '../../incremental/steps.ts';
import { anticlockwise } from './measure.ts';
import type { Path } from './path.ts';
import { regionsIn } from './regions.ts';
import {
  chordOf,
  footOn,
  headingOn,
  lengthOf,
  type Point,
  partOf,
  pathOf,
  pointOn,
  radiusOf,
  type Span,
  spansOf,
} from './span.ts';
import { SpanIndex } from './span-index.ts';

/** A closed outline whose parts have names: span by span as {@link spansOf} counts them. */
export interface EdgedOutline {
  readonly path: Path;
  /** In order round the path; each runs over `spans` spans of it, and together they are all of it. */
  readonly edges: readonly { readonly name: string; readonly spans: number }[];
}

/** What an edge needs beyond its line. */
export interface EdgeAllowance {
  readonly edge: string;
  /** Square to the edge, mm: outward above nought, inward below it. */
  readonly by: number;
  /** Folded over, as a roll or a hem: where two folds meet, the corner between them is notched out. */
  readonly fold: boolean;
  /** The part of the edge that has it, mm along the edge from where it begins; nothing for all of it. */
  readonly stretch?: { readonly from: number; readonly to: number };
}

/**
 * How two allowances meet at an outer corner. `mitre`: both go on straight until they meet, an arc along its tangent, and
 * corners sharper than about 39° are cut off; folds are notched. `round`: an arc about the corner.
 */
export type Join = 'mitre' | 'round';

/**
 * The outline (mm) with what each edge needs: every line moved square to itself by its own allowance, arcs kept as arcs
 * about their own middle. Outer outlines come anticlockwise, then the holes that an allowance closes, clockwise.
 * Nothing is left where an inward allowance takes all.
 *
 * At an outer corner see {@link Join}; where an allowance begins or ends on a smooth line it is cut off square; at an
 * inner corner each is cut where it runs into the other. Nothing crosses itself.
 * Range: any outline that does not cross itself. Source: geometry.
 */
export const widened = (outline: EdgedOutline, allowances: readonly EdgeAllowance[], join: Join = 'mitre'): Path[] =>
  atOnce(widenedIn(outline, allowances, join)) ?? [];

/** The same with stops; nothing where the outline is too finely drawn for what it is moved by. */
function* widenedIn(
  outline: EdgedOutline,
  allowances: readonly EdgeAllowance[],
  join: Join = 'mitre',
): Steps<Path[] | undefined> {
  const strips = yield* stripsOf(outline, allowances);
  if (!strips.length) return [];
  if (strips.every(({ by }) => by === 0)) return [outline.path];
  yield undefined;
  const lines = yield* manyByMany(
    strips,
    (strip): Span => ({ from: off(strip, 0), to: off(strip, 1), bulge: strip.span.bulge }),
    AT_ONCE,
  );
  const trims = yield* trimsOf(strips, lines);
  const raw: Span[] = [];
  for (const [i, strip] of strips.entries()) {
    if (i % AT_ONCE === AT_ONCE - 1) yield undefined;
    const [start, end] = [trims[i], trims[(i + 1) % strips.length]];
    if (!start) raw.push(...corner(strips.at(i - 1)!, strip, join));
    const kept = partOf(lines[i]!, start?.after ?? 0, end?.before ?? 1);
    raw.push({ from: start?.at ?? kept.from, to: end?.at ?? kept.to, bulge: kept.bulge });
  }
  yield undefined;
  const whole = pathOf(linked(raw), true);
  yield undefined;
  const regions = yield* regionsIn([whole]);
  if (!regions) return undefined;
  yield undefined;
  const inward = new Inward(strips);
  const left: Path[] = [];
  for (const path of regions) {
    yield undefined;
    if (!inward.takes(path)) left.push(path);
  }
  return left;
}

/** Strips that are worked on before others may go first. */
const AT_ONCE = 500;

/** The closed path moved outward (or, below nought, inward) by as much everywhere, corners round: as {@link widened}. */
export const offset = (path: Path, by: number, join: Join = 'round'): Path[] => atOnce(offsetIn(path, by, join)) ?? [];

/** The same with stops; nothing where the outline is too finely drawn for what it is moved by. */
export function offsetIn(path: Path, by: number, join: Join = 'round'): Steps<Path[] | undefined> {
  const turned = anticlockwise(path);
  const whole = { path: turned, edges: [{ name: 'all', spans: spansOf(turned).length }] };
  return widenedIn(whole, [{ edge: 'all', by, fold: false }], join);
}

interface Strip {
  readonly span: Span;
  readonly by: number;
  readonly fold: boolean;
}

/** An arc that stands out no further than this from its chord, mm, is taken as straight: its middle is too far away to reckon with. */
const FLAT = 0.002;

/** The outline's spans, cut where an allowance begins or ends, each with what it needs. */
function* stripsOf({ path, edges }: EdgedOutline, allowances: readonly EdgeAllowance[]): Steps<Strip[]> {
  const spans = spansOf(path).map((span) =>
    (Math.abs(span.bulge) * chordOf(span)) / 2 < FLAT ? { ...span, bulge: 0 } : span,
  );
  const strips: Strip[] = [];
  let next = 0;
  for (const edge of edges) {
    const own = allowances.filter((each) => each.edge === edge.name && Number.isFinite(each.by) && each.by !== 0);
    let way = 0;
    for (const [nth, span] of spans.slice(next, next + edge.spans).entries()) {
      if (nth % AT_ONCE === AT_ONCE - 1) yield undefined;
      const length = lengthOf(span);
      const cuts = own.flatMap(({ stretch }) => (stretch ? [stretch.from - way, stretch.to - way] : []));
      const shares = [0, ...cuts.filter((cut) => cut > 1e-6 && cut < length - 1e-6).map((cut) => cut / length), 1];
      shares.sort((a, b) => a - b);
      for (let i = 1; i < shares.length; i++) {
        const [start, end] = [shares[i - 1]!, shares[i]!];
        if (end - start < 1e-12) continue;
        const middle = way + ((start + end) / 2) * length;
        const here = own.filter(({ stretch }) => !stretch || (middle > stretch.from && middle < stretch.to));
        strips.push({
          span: partOf(span, start, end),
          by: here.reduce((sum, each) => sum + each.by, 0),
          fold: here.some((each) => each.fold),
        });
      }
      way += length;
    }
    next += edge.spans;
  }
  return strips;
}

/** The end of a strip's outer line: square to the way one goes, to the right of it, which is outward. */
function off({ span, by }: Strip, share: 0 | 1): Point {
  const { x, y } = headingOn(span, share);
  const at = share === 0 ? span.from : span.to;
  return { x: at.x + y * by, y: at.y - x * by };
}

/** A turn (radians) under which two lines run on into each other. */
const SMOOTH = 1e-3;
/** How far out a mitre may stand, in allowances. */
const SHARPEST = 3;

/** The way from the end of one strip's outer line to the beginning of the next one's. */
function corner(one: Strip, other: Strip, join: Join): Span[] {
  const at = other.span.from;
  const [end, start] = [off(one, 1), off(other, 0)];
  const line = (from: Point, to: Point): Span => ({ from, to, bulge: 0 });
  const [u, v] = [headingOn(one.span, 1), headingOn(other.span, 0)];
  const turn = Math.atan2(u.x * v.y - u.y * v.x, u.x * v.x + u.y * v.y);
  if (Math.abs(turn) < SMOOTH) return [line(end, start)];
  const opens = turn > 0 ? Math.min(one.by, other.by) >= 0 : Math.max(one.by, other.by) <= 0;
  // Where the lines run into each other, by way of the corner itself: the loop that this leaves goes round the wrong way.
  if (!opens || (one.fold && other.fold)) return [line(end, at), line(at, start)];
  if (join === 'round' && one.by === other.by) return [{ from: end, to: start, bulge: Math.tan(turn / 4) }];
  const sine = Math.sin(turn);
  const along = (other.by - one.by * Math.cos(turn)) / sine;
  const tip = { x: at.x + u.y * one.by + u.x * along, y: at.y - u.x * one.by + u.y * along };
  const reach = Math.hypot(tip.x - at.x, tip.y - at.y);
  if (Math.abs(sine) < SMOOTH || reach > SHARPEST * Math.max(Math.abs(one.by), Math.abs(other.by)))
    return [line(end, start)];
  return [line(end, tip), line(tip, start)];
}

/** Where two outer lines run into each other, and at which share of each: the first goes on to there, the second from there. */
interface Trim {
  readonly at: Point;
  readonly before: number;
  readonly after: number;
}

/** A turn (radians) up to which two lines that run into each other are cut at once where they meet. */
const BLUNT = 0.3;

/**
 * The inner corners, by the strip that begins there, at which both lines end where they meet. At a nearly straight corner
 * the loop that they would leave otherwise is a sliver, too thin to tell its inside from its outside. What is cut away lies in
 * both strips, so nothing is lost by it.
 */
function* trimsOf(strips: readonly Strip[], lines: readonly Span[]): Steps<(Trim | undefined)[]> {
  const trims: (Trim | undefined)[] = [];
  for (const [i, other] of strips.entries()) {
    if (i % AT_ONCE === AT_ONCE - 1) yield undefined;
    const before = (i + strips.length - 1) % strips.length;
    trims.push(strips.length > 1 ? trimAt(strips[before]!, lines[before]!, other, lines[i]!) : undefined);
  }
  // A line that is shorter than what both its ends lose keeps both.
  return trims.map((trim, i) => {
    const before = (i + strips.length - 1) % strips.length;
    const next = (i + 1) % strips.length;
    const isLong = (start: Trim | undefined, end: Trim | undefined) => (start?.after ?? 0) < (end?.before ?? 1);
    return trim && isLong(trims[before], trim) && isLong(trim, trims[next]) ? trim : undefined;
  });
}

function trimAt(one: Strip, first: Span, other: Strip, second: Span): Trim | undefined {
  const [u, v] = [headingOn(one.span, 1), headingOn(other.span, 0)];
  const turn = Math.atan2(u.x * v.y - u.y * v.x, u.x * v.x + u.y * v.y);
  const isInner = turn > 0 ? Math.max(one.by, other.by) < 0 : turn < 0 && Math.min(one.by, other.by) > 0;
  if (!isInner || Math.abs(turn) > BLUNT) return undefined;
  const [k, l] = [curvature(one), curvature(other)];
  if (k === undefined || l === undefined) return undefined;
  // Newton's steps from the corner: how far back along the one and on along the other both are at one place.
  let [back, on] = [0, 0];
  for (let step = 0; step < 12; step++) {
    const [p, q] = [onwards(first.to, u, k, back), onwards(second.from, v, l, on)];
    const sine = p.heading.x * q.heading.y - p.heading.y * q.heading.x;
    const [dx, dy] = [q.x - p.x, q.y - p.y];
    if (Math.hypot(dx, dy) < 1e-10) {
      const [before, after] = [1 + back / lengthOf(first), on / lengthOf(second)];
      const near = 4 * Math.max(Math.abs(one.by), Math.abs(other.by)) * Math.abs(Math.tan(turn / 2));
      if (!(back <= 0 && on >= 0 && -back <= near && on <= near && before > 0 && after < 1)) return undefined;
      return { at: { x: p.x, y: p.y }, before, after };
    }
    if (sine === 0) return undefined;
    back += (dx * q.heading.y - dy * q.heading.x) / sine;
    on += (dx * p.heading.y - dy * p.heading.x) / sine;
  }
  return undefined;
}

/** Of a strip's outer line, per mm, above nought to the left; nothing where the arc is turned inside out. */
function curvature({ span, by }: Strip): number | undefined {
  if (span.bulge === 0) return 0;
  const radius = radiusOf(span) + Math.sign(span.bulge) * by;
  return radius > 0 ? Math.sign(span.bulge) / radius : undefined;
}

/** The place so far along a line or circle from a point with this heading, and the heading there. */
function onwards({ x, y }: Point, u: Point, bend: number, way: number): Point & { heading: Point } {
  const turn = bend * way;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const chord = Math.abs(turn) < 1e-12 ? way : (2 * Math.sin(turn / 2)) / bend;
  const [hc, hs] = [Math.cos(turn / 2) * chord, Math.sin(turn / 2) * chord];
  return {
    x: x + u.x * hc - u.y * hs,
    y: y + u.y * hc + u.x * hs,
    heading: { x: u.x * c - u.y * s, y: u.y * c + u.x * s },
  };
}

/** What inward allowances take away. */
class Inward {
  private readonly strips: readonly Strip[];
  private readonly index: SpanIndex;
  private readonly widest: number;

  constructor(strips: readonly Strip[]) {
    this.strips = strips.filter(({ by }) => by < 0);
    this.index = new SpanIndex(this.strips.map(({ span }) => span));
    this.widest = this.strips.reduce((most, { by }) => Math.max(most, -by), 0);
  }

  /**
   * Whether a loop lies in it: so it comes about where the whole outline is narrower than the allowance, and an arc is turned
   * inside out beyond its middle. Every line of it then does; a mitre that runs through what is taken away from its neighbour
   * is one line among others.
   */
  takes(path: Path): boolean {
    return this.strips.length > 0 && spansOf(path).every((span) => this.isTaken(pointOn(span, 0.5)));
  }

  private isTaken({ x, y }: Point): boolean {
    return this.index.near({ left: x, right: x, bottom: y, top: y }, this.widest).some((i) => {
      const strip = this.strips[i]!;
      const foot = footOn(strip.span, { x, y });
      return foot && foot.share > 1e-6 && foot.share < 1 - 1e-6 && foot.away < -strip.by - 1e-4;
    });
  }
}

/** Each span begins exactly where the last one ends. */
function linked(spans: readonly Span[]): Span[] {
  const long = spans.filter(({ from, to }) => Math.hypot(to.x - from.x, to.y - from.y) > 1e-9);
  return long.map((span, i) => ({ ...span, from: long.at(i - 1)!.to }));
}
