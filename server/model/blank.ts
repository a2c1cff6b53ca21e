import {
  domeBlankArc,
  domeBlankEqualArea,
  domeBlankHeld,
  type FormingMethod,
  ovalDomeBlankArc,
  ovalDomeBlankEqualArea,
  ovalDomeBlankHeld,
} from '../trade/dome.ts';
import { circleArea, ellipseArea, ellipsePerimeter, outlineMeasures, plateArea } from '../trade/flat.ts';
import { type CutOutline, type Flat, outlineOf } from '../trade/flatten/flatten.ts';
import { stripAlong } from '../trade/flatten/strip.ts';
import { offset, widened } from '../trade/outline/allowance.ts';
import { pathOfCorners } from '../trade/outline/corners.ts';
import { flattened as chords } from '../trade/outline/flatten.ts';
import { anticlockwise, boxOfPath, signedArea } from '../trade/outline/measure.ts';
import { oval } from '../trade/outline/oval.ts';
import type { Path } from '../trade/outline/path.ts';
import { plain, type Result, result } from '../trade/result.ts';
import type { SurfaceLine } from '../trade/surface/walk.ts';
import { coneDevelopment, conePattern, cylinderBlank } from '../trade/wrap.ts';
import { movedOut } from './drawn.ts';
import type { Figure } from './figure.ts';
import { laidFlat } from './flat-figures.ts';
import type { Flattening } from './flattening.ts';
import type { Form } from './form.ts';
import { drawnArea, lengthOfEdge } from './measures.ts';

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
  readonly figures: readonly BlankFigure[];
  /** The smallest blank that any way of working could do with: rim held. Only where ways differ. */
  readonly least?: { readonly long: number; readonly wide: number };
}

/** The outline to cut of what was laid flat last: a line of the piece that changes neither finds it again. */
const outlines = new WeakMap<Flat, { readonly key: string; readonly outline: CutOutline }>();

function cutOutline(flat: Flat, more: ReadonlyMap<string, number>): CutOutline {
  const key = JSON.stringify([...more]);
  let kept = outlines.get(flat);
  if (kept?.key !== key) {
    kept = { key, outline: outlineOf(flat, more) };
    outlines.set(flat, kept);
  }
  return kept.outline;
}

/** Allowances of a blank by edge, with their sums. */
class Edges {
  constructor(readonly all: readonly Allowance[]) {}

  of(...edges: string[]): { name: string; value: number }[] {
    return this.all
      .filter((each) => edges.includes(each.edge))
      .map((each) => ({ name: each.edge, value: each.figure.value }));
  }

  sum(...edges: string[]): number {
    return this.of(...edges).reduce((total, each) => total + each.value, 0);
  }
}

/**
 * The blank of a form with what its edges need; nothing for a form whose blank is not computed yet. Measures of a bent
 * plate are those of the flat plate, as the smith marks out the bend line.
 */
export function blankOf(
  form: Form,
  allowances: readonly Allowance[],
  method: FormingMethod | undefined,
  flattening: () => Flattening | undefined,
  followed: () => SurfaceLine | undefined,
): WorkedBlank | undefined {
  const edges = new Edges(allowances);
  const laid = flattening();
  if (laid) return flattened(laid, edges);
  switch (form.kind) {
    case 'plate':
    case 'strip':
      return rectangle(form.wide, form.high, edges, 'Size of the plate and what its edges need');
    case 'trim':
      return trim(form, edges, followed());
    case 'cylinder': {
      const flat = cylinderBlank({ girth: form.girth, high: form.high, wrap: form.wrap });
      if (flat.long.outside !== undefined) return undefined;
      return rectangle(flat.long.value, form.high, edges, 'Girth and wrap, height, and what the edges need', flat.long);
    }
    case 'disc':
      return round(form.diameter, edges, 'The finished size and twice what its rim needs');
    case 'oval':
      return flatOval(form, edges);
    case 'outline':
      return outline(form, edges);
    case 'drawing':
      return drawn(form, edges);
    case 'cone':
      return cone(form, edges);
    case 'dome':
      return dome(form, edges, method);
    case 'oval dome':
      return ovalDome(form, edges, method);
    case 'comb': {
      const width = lengthOfEdge(form, 'left')!;
      const flat = rectangle(form.length, width.value, edges, `Length of ${form.along} and what the ends need`);
      return flat;
    }
    case 'half dome':
    case 'gore dome':
    case 'loft':
    case 'cover':
    case 'later':
      return undefined;
  }
}

/** The blank that the smith's own line gives. */
export function givenBlank(form: Form | undefined, long: number, wide: number | undefined): Blank {
  const given = { allowances: [], overridden: true } as const;
  if (wide === undefined) return { ...given, shape: { kind: 'round' }, long, wide: long, area: circleArea(long).value };
  return form?.kind === 'oval dome' || form?.kind === 'oval'
    ? { ...given, shape: { kind: 'oval' }, long, wide, area: ellipseArea(long, wide).value }
    : { ...given, shape: { kind: 'rectangle' }, long, wide, area: long * wide };
}

function made(
  shape: BlankShape,
  long: Result,
  wide: Result,
  area: Result,
  edges: Edges,
  more: readonly BlankFigure[] = [],
): WorkedBlank {
  return {
    blank: { shape, long: long.value, wide: wide.value, area: area.value, allowances: edges.all, overridden: false },
    figures: [
      ...more,
      { suffix: 'long', title: 'blank, long', result: long },
      { suffix: 'wide', title: 'blank, wide', result: wide },
      { suffix: 'area', title: 'blank area', result: area },
    ],
  };
}

/** A finished measure with what edges add to it, each named in the formula: `long = w + left + right`. */
function grown(
  symbol: string,
  base: number,
  parts: readonly { name: string; value: number }[],
  times: 1 | 2,
  source: string,
): Result {
  const own = symbol === 'D' ? 'd' : symbol === 'wide' ? 'h' : 'w';
  const symbols: Record<string, number> = { [own]: base };
  for (const part of parts) symbols[part.name] = (symbols[part.name] ?? 0) + part.value;
  const factor = times === 2 ? '2 × ' : '';
  const added = Object.keys(symbols)
    .slice(1)
    .map((name) => ` + ${factor}{${name}}`);
  return result({
    value: base + times * parts.reduce((total, part) => total + part.value, 0),
    unit: 'mm',
    formula: `${symbol} = {${own}}${added.join('')}`,
    symbols,
    basis: 'geometry',
    source,
  });
}

/** The same, on a measure that has a formula of its own. */
function grownFrom(base: Result, parts: readonly { name: string; value: number }[], times: 1 | 2): Result {
  if (!parts.length) return base;
  const total = parts.reduce((sum, part) => sum + part.value, 0);
  const factor = times === 2 ? '2 × ' : '';
  return {
    ...base,
    value: base.value + times * total,
    ...(base.low === undefined || base.high === undefined
      ? {}
      : { low: base.low + times * total, high: base.high + times * total }),
    formula: `${base.formula}${parts.map((part) => ` + ${factor}${part.name}`).join('')}`,
    worked: `${base.worked}${parts.map((part) => ` + ${factor}${plain(part.value)}`).join('')}`,
  };
}

function rectangle(long: number, wide: number, edges: Edges, source: string, longResult?: Result): WorkedBlank {
  const sides = edges.of('left', 'right');
  const first = longResult ? grownFrom(longResult, sides, 1) : grown('long', long, sides, 1, source);
  const second = grown('wide', wide, edges.of('top', 'bottom'), 1, source);
  return made({ kind: 'rectangle' }, first, second, plateArea(first.value, second.value), edges);
}

function round(diameter: number, edges: Edges, source: string): WorkedBlank {
  const size = grown('D', diameter, edges.of('rim'), 2, source);
  return made({ kind: 'round' }, size, size, circleArea(size.value), edges, [
    { suffix: 'diameter', title: 'blank diameter', result: size },
  ]);
}

function flatOval(form: Form & { kind: 'oval' }, edges: Edges): WorkedBlank | undefined {
  const source = 'The finished size and twice what its rim needs';
  const long = grown('long', form.long, edges.of('rim'), 2, source);
  const wide = grown('wide', form.wide, edges.of('rim'), 2, source);
  return roundOval(form, long, wide, edges);
}

/** Beside an oval there is no oval: what lies even everywhere is a little fuller on its shoulders. */
function roundOval(
  finished: { readonly long: number; readonly wide: number },
  long: Result,
  wide: Result,
  edges: Edges,
): WorkedBlank | undefined {
  const rim = edges.sum('rim');
  if (!rim) return made({ kind: 'oval' }, long, wide, ellipseArea(long.value, wide.value), edges);
  const path = offset(oval(finished.long, finished.wide), rim)[0];
  if (!path) return undefined;
  const area = ellipseArea(finished.long, finished.wide).value;
  const way = ellipsePerimeter(finished.long, finished.wide).value;
  const grownArea = result({
    value: area + rim * way + Math.PI * rim * rim,
    unit: 'mm2',
    formula: 'A = {A0} + {a} × {P} + π × {a}²',
    symbols: { A0: area, a: rim, P: way },
    basis: 'geometry',
    source: 'Steiner’s formula for a rounded outline moved out square to itself (geometry)',
  });
  return made({ kind: 'outline', points: pointsOf(path), path }, long, wide, grownArea, edges);
}

function outline(form: Form & { kind: 'outline' }, edges: Edges): WorkedBlank | undefined {
  const { area } = outlineMeasures(form.points);
  if (area.outside !== undefined) return undefined;
  return drawnRound(
    { outer: anticlockwise(pathOfCorners(form.points).path), openings: [], isKept: false },
    edges,
    area,
  );
}

/** Fine enough to be laid and drawn: mm between a chord and its arc. */
const CHORDS_WITHIN = 0.05;

/** An outline out of a drawing; openings stay as they are drawn. */
function drawn(form: Form & { kind: 'drawing' }, edges: Edges): WorkedBlank | undefined {
  const { outer, openings } = form.outline;
  const area = drawnArea(outer, openings, `The outline in ${form.file}`);
  return drawnRound({ outer, openings, isKept: true }, edges, area);
}

interface Round {
  readonly outer: Path;
  readonly openings: readonly Path[];
  /** It is the same object whenever it is asked for. */
  readonly isKept: boolean;
}

/** An outline, made larger all round by what its edge needs. */
function drawnRound({ outer, openings, isKept }: Round, edges: Edges, area: Result): WorkedBlank | undefined {
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

const pointsOf = (path: Path) => chords(path, CHORDS_WITHIN).map(({ x, y }) => [x, y] as const);

function cone(form: Form & { kind: 'cone' }, edges: Edges): WorkedBlank | undefined {
  const { slant } = coneDevelopment(form);
  if (slant.outside !== undefined) return undefined;
  // What the ends need goes on along the cone's own side, at most to its point: the pattern of the longer cone is the one wanted.
  const taper = (form.bottom - form.top) / slant.value;
  const top = taper > 0 ? Math.min(edges.sum('top'), form.top / taper) : edges.sum('top');
  const bottom = taper < 0 ? Math.min(edges.sum('bottom'), form.bottom / -taper) : edges.sum('bottom');
  const longer = {
    top: Math.max(0, form.top - taper * top),
    bottom: Math.max(0, form.bottom + taper * bottom),
    high: form.high * (1 + (top + bottom) / slant.value),
    wrap: form.wrap,
  };
  const flat = coneDevelopment(longer);
  if (flat.blankLong.outside !== undefined) return undefined;
  const pattern = conePattern(longer);
  const sides = edges.of('left', 'right').map(({ name, value }) => ({ edge: name, by: value, fold: false }));
  const path = sides.length ? widened(pattern, sides)[0] : pattern.path;
  if (!path) return undefined;
  const shape: BlankShape = { kind: 'outline', points: pointsOf(path), path };
  if (!sides.length) return made(shape, flat.blankLong, flat.blankWide, flat.area, edges);
  const box = boxOfPath(path);
  const symbols = { l: edges.sum('left'), r: edges.sum('right') };
  const shared = {
    basis: 'geometry',
    source: 'The pattern of the cone, its sides moved out square to themselves',
  } as const;
  const size = (name: 'long' | 'wide', value: number): Result =>
    result({
      ...shared,
      value,
      unit: 'mm',
      formula: `${name} = box of the pattern {${name}}, its sides {l} and {r} further out`,
      symbols: { [name]: name === 'long' ? flat.blankLong.value : flat.blankWide.value, ...symbols },
    });
  const area = result({
    ...shared,
    value: signedArea(path),
    unit: 'mm2',
    formula: 'A = {A0} + ({l} + {r}) × {s}',
    symbols: { A0: flat.area.value, ...symbols, s: flat.slant.value },
  });
  return made(shape, size('long', box.right - box.left), size('wide', box.top - box.bottom), area, edges);
}

const RANGE_NOTE = 'The range runs from a rim that is held to one that only shrinks.';

/** Raising shrinks the edge and leads with the arc; under dishing the rim draws in and the area is kept. */
const leadsWithArc = (method: FormingMethod | undefined): boolean => method === 'raise';

function dome(form: Form & { kind: 'dome' }, edges: Edges, method: FormingMethod | undefined): WorkedBlank {
  const held = domeBlankHeld(form.diameter, form.deep);
  const equal = domeBlankEqualArea(form.diameter, form.deep);
  const arc = domeBlankArc(form.diameter, form.deep);
  const lead = leadsWithArc(method) ? arc : equal;
  const why = leadsWithArc(method)
    ? 'the arc, since raising shrinks the edge'
    : 'equal area, since the rim draws in under the hammer';
  const ranged: Result = { ...lead, low: held.value, high: arc.value, note: `Leads with ${why}. ${RANGE_NOTE}` };
  const size = grownFrom(ranged, edges.of('rim'), 2);
  const more: BlankFigure[] = [
    { suffix: 'held', title: 'blank if the rim is held', result: held },
    { suffix: 'equal-area', title: 'blank of equal area', result: equal },
    { suffix: 'arc', title: 'blank of the arc', result: arc },
    { suffix: 'diameter', title: 'blank diameter', result: size },
  ];
  const least = size.low ?? size.value;
  return {
    ...made({ kind: 'round' }, size, size, circleArea(size.value), edges, more),
    least: { long: least, wide: least },
  };
}

function ovalDome(
  form: Form & { kind: 'oval dome' },
  edges: Edges,
  method: FormingMethod | undefined,
): WorkedBlank | undefined {
  const held = ovalDomeBlankHeld(form.long, form.wide, form.deep);
  const equal = ovalDomeBlankEqualArea(form.long, form.wide, form.deep);
  const arc = ovalDomeBlankArc(form.long, form.wide, form.deep);
  const lead = leadsWithArc(method) ? arc : equal;
  const [long, wide] = (['long', 'wide'] as const).map((way) =>
    grownFrom({ ...lead[way], low: held[way].value, high: arc[way].value, note: RANGE_NOTE }, edges.of('rim'), 2),
  ) as [Result, Result];
  const worked = roundOval({ long: lead.long.value, wide: lead.wide.value }, long, wide, edges);
  return worked && { ...worked, least: { long: long.low ?? long.value, wide: wide.low ?? wide.value } };
}

/** The blank of a form that is laid flat by numbers, each edge cut so much further out as it needs. */
function flattened(flattening: Flattening, edges: Edges): WorkedBlank {
  const { flat, ends } = flattening;
  const more = new Map<string, number>();
  for (const { edge, figure } of edges.all) more.set(edge, (more.get(edge) ?? 0) + figure.value);
  const outline = cutOutline(flat, more);
  const parts = edges.all.map(({ edge, figure }) => ({ name: edge, value: figure.value }));
  const size = (what: 'long' | 'wide' | 'area', unit: 'mm' | 'mm2'): Result =>
    laidFlat(flattening, {
      what: what === 'area' ? 'A' : what,
      unit,
      value: outline[what],
      // What the edges need is the same at the ends of the range.
      ends: ends?.map((end) => end[what] + outline[what] - flattening.readings[what]),
      parts,
    });
  const [long, wide, area] = [size('long', 'mm'), size('wide', 'mm'), size('area', 'mm2')];
  const worked = made({ kind: 'outline', points: outline.points, path: outline.path }, long, wide, area, edges);
  return ends ? { ...worked, least: { long: long.low ?? long.value, wide: wide.low ?? wide.value } } : worked;
}

/** A strip whose box is wider than the strip by no more than this, mm, is cut straight. */
const STRAIGHT = 0.2;

/** A strip along a line of another piece: straight where the line does not turn in the surface, else as it lies flat. */
function trim(form: Form & { kind: 'trim' }, edges: Edges, line: SurfaceLine | undefined): WorkedBlank {
  const straight = rectangle(form.length, form.wide, edges, `Length of ${form.along} and what the ends need`);
  const noted = (note: string): WorkedBlank => ({
    ...straight,
    figures: straight.figures.map((each) =>
      each.suffix === 'long' ? { ...each, result: { ...each.result, note } } : each,
    ),
  });
  const more = Object.fromEntries((['left', 'right', 'top', 'bottom'] as const).map((edge) => [edge, edges.sum(edge)]));
  const strip =
    line && stripAlong(Float64Array.from(line.points.flat()), Float64Array.from(line.normals.flat()), form.wide, more);
  if (!strip) return noted(`Laid as a straight strip: how ${form.along} turns is not known, so trim it after fitting.`);
  const across = form.wide + edges.sum('top', 'bottom');
  if (strip.wide - across < STRAIGHT)
    return noted(`${form.along} does not turn in its surface: the strip is straight.`);
  const turns = `${form.along} turns by ${plain(Math.abs(strip.turn))} deg in its surface`;
  if (strip.overlaps)
    return noted(
      `${turns}, and a strip cut to it would lie over itself: cut it in parts, or work a straight one round.`,
    );
  const shared = {
    basis: 'geometry',
    source: 'Flat strip with the line’s curvature in its surface, N · (γ′ × γ″)/|γ′|³ (geometry)',
    note: `${turns}. A straight strip would do if its edges stretch and shrink by up to ${plain((50 * form.wide) / strip.tightest)} %.`,
  } as const;
  const symbols = { L: strip.length, w: form.wide };
  const size = (what: 'long' | 'wide', value: number): Result =>
    result({
      ...shared,
      value,
      unit: 'mm',
      formula: `${what} = box of the strip {L} × {w} bent as its line turns`,
      symbols,
    });
  const ends = edges.sum('left', 'right');
  const area = result({
    ...shared,
    value: (strip.length + ends) * across,
    unit: 'mm2',
    formula: 'A = ({L} + {e}) × {w}',
    symbols: { L: strip.length, e: ends, w: across },
  });
  return made(
    { kind: 'outline', points: strip.points, path: strip.outline, middle: openPath(strip.middle) },
    size('long', strip.long),
    size('wide', strip.wide),
    area,
    edges,
  );
}

const openPath = (points: Float64Array): Path => ({
  vertices: Array.from({ length: points.length / 2 }, (_, i) => ({ x: points[2 * i]!, y: points[2 * i + 1]! })),
  closed: false,
});
