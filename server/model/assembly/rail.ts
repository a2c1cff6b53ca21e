import { say } from '../../../l10n/say.ts';
import { lengthOfPath } from '../../geometry/outline/measure.ts';
import type { Path } from '../../geometry/outline/path.ts';
import { headingOn, lengthOf, pointOn, type Span, spansOf } from '../../geometry/outline/span.ts';
import type { Chart } from '../../geometry/surface/chart.ts';
import { alongEdge } from '../../geometry/surface/place.ts';
import { apart, cross, dot, minus, NOWHERE, plus, unit, type Vector } from '../../geometry/surface/vector.ts';
import { directionOut, leftOf } from '../../geometry/surface/walk.ts';
import { NOT_KNOWN } from '../forms/answers.ts';
import { kindOf } from '../forms/index.ts';
import type { PieceModel } from '../things/piece.ts';

/** A place beside an edge at the middle of the thickness, in the piece's own frame, mm. */
export interface Station {
  readonly point: Vector;
  /** Unit, outward. */
  readonly normal: Vector;
  /** In the surface, from the edge into the plate; nothing on a line that runs through the plate. */
  readonly inward?: Vector;
}

/** An edge or a line of a formed piece on which stations are measured. */
export interface Rail {
  readonly length: number;
  /** Whether it comes back to its beginning, as drawn or where the piece meets itself. */
  readonly isClosed: boolean;
  /** So many mm along it and so many straight in from it; nothing where the plate is not so large. */
  at(station: number, inset: number): Station | undefined;
}

/** The edge, or in words why stations cannot be measured on it. */
export function railOf(piece: PieceModel, edge: string): Rail | string {
  const form = piece.form();
  if (!form) return say`the form of “${piece.name}” is not known`;
  const chart = piece.chart();
  const rail = chart ? railOnChart(piece, chart, edge) : edge === 'rim' ? flatRim(piece) : undefined;
  return rail ?? say`where “${edge}” of “${piece.name}” runs is not known`;
}

function railOnChart(piece: PieceModel, chart: Chart, edge: string): Rail | undefined {
  const stretches = piece.cutForm()?.stretches;
  const along = alongEdge(chart, edge, stretches);
  const length = piece.edgeLength(edge)?.value;
  if (!along || length === undefined || !(length > 0)) return undefined;
  const isEdge = chart.edges.has(edge) || stretches?.some(({ name, of }) => name === edge || of === edge);
  const spotAt = (station: number, inset: number) => {
    const found = along(Math.min(station, length), inset);
    return typeof found === 'string' ? undefined : found;
  };
  /** On which side of the way it is measured the plate lies: 1 on the left as seen from outside. */
  let side: 1 | -1 | undefined;
  const sideOf = (): 1 | -1 => {
    if (side === undefined) {
      const [on, beside] = [spotAt(length * 0.41, 0), spotAt(length * 0.41, PROBE)];
      const into = on && beside && minus(chart.point(...beside.spot), chart.point(...on.spot));
      side = into && dot(into, leftOf(chart, on.spot, unit(on.across))) < 0 ? -1 : 1;
    }
    return side;
  };
  const at = (station: number, inset: number): Station | undefined => {
    const place = spotAt(station, inset);
    if (!place) return undefined;
    const normal = directionOut(chart, place.spot);
    const point = chart.point(...place.spot);
    if (!isEdge) return { point, normal };
    const left = leftOf(chart, place.spot, unit(place.across));
    return { point, normal, inward: plus(NOWHERE, left, sideOf()) };
  };
  const [start, end] = [spotAt(0, 0), spotAt(length, 0)];
  const isClosed =
    piece.isClosedEdge(edge) ||
    (start !== undefined &&
      end !== undefined &&
      apart(chart.point(...start.spot), chart.point(...end.spot)) < 1e-6 * length);
  return { length, isClosed, at };
}

/** How far in from an edge one looks on which side the plate lies, mm. */
const PROBE = 0.5;

/** Round a flat plate that has no surface of its own. */
function flatRim(piece: PieceModel): Rail | undefined {
  const form = piece.form()!;
  const layout = kindOf(form).layout(form);
  if (layout === NOT_KNOWN) return undefined;
  const path = layout.kind === 'rimmed' ? layout.outer : undefined;
  if (path) return pathRim(path);
  return layout.kind === 'round' && kindOf(form).isFlat ? ovalRim(layout) : undefined;
}

/** Upright, its face to the front: its right as drawn is the right of who looks at it, the wearer's left. */
export const upright = (x: number, y: number): Vector => [-x, 0, y];

function pathRim(path: Path): Rail {
  const spans = spansOf(path);
  const length = lengthOfPath(path);
  return {
    length,
    isClosed: true,
    at(station, inset) {
      const found = spanAt(spans, ((station % length) + length) % length);
      if (!found) return undefined;
      const { x, y } = pointOn(found.span, found.share);
      const heading = headingOn(found.span, found.share);
      const long = Math.hypot(heading.x, heading.y) || 1;
      // An outline runs anticlockwise: the plate lies on its left.
      const [inX, inY] = [-heading.y / long, heading.x / long];
      return {
        point: upright(x + inset * inX, y + inset * inY),
        normal: [0, 1, 0],
        inward: upright(inX, inY),
      };
    },
  };
}

function spanAt(spans: readonly Span[], station: number): { readonly span: Span; readonly share: number } | undefined {
  let left = station;
  for (const span of spans) {
    const long = lengthOf(span);
    if (left <= long) return { span, share: long > 0 ? left / long : 0 };
    left -= long;
  }
  const last = spans.at(-1);
  return last && { span: last, share: 1 };
}

/** A disc or an oval lies level as a dome without depth would, its rim measured from the front to the left. */
function ovalRim({ long, wide }: { readonly long: number; readonly wide: number }): Rail {
  const [a, b] = [long / 2, wide / 2];
  const steps = 720;
  const point = (t: number): Vector => [-b * Math.sin(t), a * Math.cos(t), 0];
  const lengths = [0];
  const at = (i: number) => (2 * Math.PI * i) / steps;
  const speed = (t: number) => Math.hypot(b * Math.cos(t), a * Math.sin(t));
  for (let i = 0; i < steps; i++)
    lengths.push(
      lengths[i]! + ((2 * Math.PI) / steps / 6) * (speed(at(i)) + 4 * speed(at(i + 0.5)) + speed(at(i + 1))),
    );
  const length = lengths[steps]!;
  return {
    length,
    isClosed: true,
    at(station, inset) {
      const wanted = ((station % length) + length) % length;
      let i = Math.min(steps - 1, Math.floor((wanted / length) * steps));
      while (i > 0 && lengths[i]! > wanted) i--;
      while (i < steps - 1 && lengths[i + 1]! <= wanted) i++;
      const t = at(i + (wanted - lengths[i]!) / (lengths[i + 1]! - lengths[i]!));
      const ahead = unit([-b * Math.cos(t), -a * Math.sin(t), 0]);
      const inward = cross([0, 0, 1], ahead);
      return { point: plus(point(t), inward, inset), normal: [0, 0, 1], inward };
    },
  };
}
