import { anticlockwise } from './measure.ts';
import type { Path } from './path.ts';
import { regionsOf } from './regions.ts';
import {
  chordOf,
  deviation,
  headingOn,
  lengthOf,
  type Point,
  partOf,
  pathOf,
  pointOn,
  type Span,
  shareOf,
  spansOf,
} from './span.ts';

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
export function widened(outline: EdgedOutline, allowances: readonly EdgeAllowance[], join: Join = 'mitre'): Path[] {
  for (const nudge of NUDGES) {
    const made = tried(outline, allowances, join, nudge);
    if (made.length) return made;
  }
  return [];
}

/**
 * mm, added to every allowance in turn until an outline comes out: where three lines meet in nearly one point the digits do
 * not tell which of them goes on, and a hair's breadth further they do. What truly has nothing left has nothing left each time.
 */
const NUDGES = [0, 3e-4, -3e-4, 1.1e-3, -1.1e-3, 5e-3, -5e-3, 0.02, -0.02];

function tried(outline: EdgedOutline, allowances: readonly EdgeAllowance[], join: Join, nudge: number): Path[] {
  const strips = stripsOf(
    outline,
    nudge === 0 ? allowances : allowances.map((each) => ({ ...each, by: each.by === 0 ? 0 : each.by + nudge })),
  );
  if (!strips.length) return [];
  if (strips.every(({ by }) => by === 0)) return [outline.path];
  const raw: Span[] = [];
  for (const [i, strip] of strips.entries()) {
    raw.push(...corner(strips.at(i - 1)!, strip, join));
    raw.push({ from: off(strip, 0), to: off(strip, 1), bulge: strip.span.bulge });
  }
  return regionsOf([pathOf(linked(raw), true)]).filter((path) => !isUsedUp(path, strips));
}

/** The closed path moved outward (or, below nought, inward) by as much everywhere, corners round: as {@link widened}. */
export function offset(path: Path, by: number, join: Join = 'round'): Path[] {
  const turned = anticlockwise(path);
  const whole = { path: turned, edges: [{ name: 'all', spans: spansOf(turned).length }] };
  return widened(whole, [{ edge: 'all', by, fold: false }], join);
}

interface Strip {
  readonly span: Span;
  readonly by: number;
  readonly fold: boolean;
}

/** An arc that stands out no further than this from its chord, mm, is taken as straight: its middle is too far away to reckon with. */
const FLAT = 0.002;

/** The outline's spans, cut where an allowance begins or ends, each with what it needs. */
function stripsOf({ path, edges }: EdgedOutline, allowances: readonly EdgeAllowance[]): Strip[] {
  const spans = spansOf(path).map((span) =>
    (Math.abs(span.bulge) * chordOf(span)) / 2 < FLAT ? { ...span, bulge: 0 } : span,
  );
  const strips: Strip[] = [];
  let next = 0;
  for (const edge of edges) {
    const own = allowances.filter((each) => each.edge === edge.name && Number.isFinite(each.by) && each.by !== 0);
    let way = 0;
    for (const span of spans.slice(next, next + edge.spans)) {
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

/**
 * Whether a loop lies in what an inward allowance takes away: so it comes about where the whole outline is narrower than
 * the allowance, and an arc is turned inside out beyond its middle.
 */
function isUsedUp(path: Path, strips: readonly Strip[]): boolean {
  const inward = strips.filter(({ by }) => by < 0);
  const span = spansOf(path)[0];
  if (!inward.length || !span) return false;
  const middle = pointOn(span, 0.5);
  return inward.some((strip) => {
    const share = shareOf(strip.span, middle);
    return share > 1e-6 && share < 1 - 1e-6 && deviation(strip.span, middle) < -strip.by - 1e-4;
  });
}

/** Each span begins exactly where the last one ends. */
function linked(spans: readonly Span[]): Span[] {
  const long = spans.filter(({ from, to }) => Math.hypot(to.x - from.x, to.y - from.y) > 1e-9);
  return long.map((span, i) => ({ ...span, from: long.at(i - 1)!.to }));
}
