import { domeArea, domeMeridian, gore, ovalDomeArea, ovalDomeBlankArc } from '../trade/dome.ts';
import {
  circleArea,
  circlePerimeter,
  ellipseArea,
  ellipsePerimeter,
  outlineMeasures,
  plateArea,
} from '../trade/flat.ts';
import type { CutOut } from '../trade/outline/import/outline-in.ts';
import { lengthOfPath, signedArea } from '../trade/outline/measure.ts';
import type { Path } from '../trade/outline/path.ts';
import { type Result, result } from '../trade/result.ts';
import { coneDevelopment, cylinderBlank } from '../trade/wrap.ts';
import type { Form } from './form.ts';

/* Areas and lengths of the finished form, at the middle of the thickness. */

/** Area of the finished surface, mm²; nothing where there is no formula and the surface itself must be measured. */
export function areaOf(form: Form): Result | undefined {
  switch (form.kind) {
    case 'plate':
    case 'strip':
      return plateArea(form.wide, form.high);
    case 'trim':
      return plateArea(form.length, form.wide);
    case 'disc':
      return circleArea(form.diameter);
    case 'oval':
      return ellipseArea(form.long, form.wide);
    case 'outline':
      return outlineMeasures(form.points).area;
    case 'drawing':
      return drawnArea(
        form.outline.outer,
        form.outline.openings,
        `The outline in ${form.file}: shoelace formula with the segments of the arcs`,
      );
    case 'dome':
      return domeArea(form.diameter, form.deep);
    case 'oval dome':
      return ovalDomeArea(form.long, form.wide, form.deep);
    case 'half dome': {
      const whole = ovalDomeArea(form.long, form.wide, form.deep);
      return {
        ...whole,
        value: whole.value / 2,
        formula: `${whole.formula}; half of it`,
        worked: `(${whole.worked}) ÷ 2`,
      };
    }
    case 'cylinder':
      return cylinderBlank(form).area;
    case 'cone':
      return coneDevelopment(form).area;
    case 'gore dome':
      return form.long === form.wide ? gore(form.long, form.deep, form.gores).area : undefined;
    case 'comb':
      return combArea(form);
    case 'loft':
    case 'cover':
    case 'later':
      return undefined;
  }
}

/** Width of a comb rolled out, mm: both feet, both sides, and half round over its top. */
function combWidth({ high, foot, radius }: Form & { kind: 'comb' }): Result {
  return result({
    value: 2 * foot + 2 * (high - radius) + Math.PI * radius,
    unit: 'mm',
    formula: 'w = 2 × {f} + 2 × ({h} − {r}) + π × {r}',
    symbols: { f: foot, h: high, r: radius },
    basis: 'geometry',
    source: 'Feet, upright sides and half a turn over the top, at the middle of the thickness; the feet’s bends sharp',
  });
}

function combArea(form: Form & { kind: 'comb' }): Result {
  const width = combWidth(form);
  return {
    ...plateArea(form.length, width.value),
    note: `Laid straight; it is ${width.formula.slice(4)} wide rolled out.`,
  };
}

/** Length of an edge, or of the middle line over the crown, along the finished surface, mm. */
export function lengthOfEdge(form: Form, edge: string): Result | undefined {
  const straight = (value: number, source: string) => given(value, 'L', source);
  const arc = (girth: number, wrap: number) =>
    result({
      value: (girth * wrap) / 360,
      unit: 'mm',
      formula: 'L = {C} × {w}/360',
      symbols: { C: girth, w: wrap },
      basis: 'geometry',
      source: 'Girth and wrap',
    });
  switch (form.kind) {
    case 'plate':
    case 'strip':
      if (edge === 'top' || edge === 'bottom') return straight(form.wide, 'Width of the plate');
      return edge === 'left' || edge === 'right' ? straight(form.high, 'Height of the plate') : undefined;
    case 'trim':
      if (edge === 'top' || edge === 'bottom') return straight(form.length, `Length of ${form.along}`);
      return edge === 'left' || edge === 'right' ? straight(form.wide, 'Width of the strip') : undefined;
    case 'disc':
      return edge === 'rim' ? circlePerimeter(form.diameter) : undefined;
    case 'oval':
      return edge === 'rim' ? ellipsePerimeter(form.long, form.wide) : undefined;
    case 'outline':
      return edge === 'rim' ? outlineMeasures(form.points).perimeter : undefined;
    case 'drawing':
      return edge === 'rim'
        ? result({
            value: lengthOfPath(form.outline.outer),
            unit: 'mm',
            formula: 'P = sum of {n} sides',
            symbols: { n: form.outline.outer.vertices.length },
            basis: 'geometry',
            source: `Lines and arcs of the outline in ${form.file}`,
          })
        : undefined;
    case 'dome': {
      if (edge === 'rim') return circlePerimeter(form.diameter);
      if (edge !== 'middle') return undefined;
      const meridian = domeMeridian(form.diameter, form.deep);
      return {
        ...meridian,
        value: 2 * meridian.value,
        formula: '2s, from rim over the crown to rim',
        worked: `2 × (${meridian.worked})`,
      };
    }
    case 'oval dome':
      if (edge === 'rim') return ellipsePerimeter(form.long, form.wide);
      return edge === 'middle' ? ovalDomeBlankArc(form.long, form.wide, form.deep).long : undefined;
    case 'half dome':
      if (edge === 'rim') return halfOf(ellipsePerimeter(form.long, form.wide));
      return edge === 'middle' ? ovalDomeBlankArc(form.long, form.wide, form.deep).long : undefined;
    case 'cylinder':
      if (edge === 'top' || edge === 'bottom') return arc(form.girth, form.wrap);
      return edge === 'left' || edge === 'right' ? straight(form.high, 'Height of the piece') : undefined;
    case 'cone':
      if (edge === 'top') return arc(form.top, form.wrap);
      if (edge === 'bottom') return arc(form.bottom, form.wrap);
      return edge === 'left' || edge === 'right' ? coneDevelopment(form).slant : undefined;
    case 'gore dome': {
      if (form.long !== form.wide) return undefined;
      const one = gore(form.long, form.deep, form.gores);
      if (edge === 'rim') return one.wide;
      return edge === 'left' || edge === 'right' ? one.long : undefined;
    }
    case 'comb':
      if (edge === 'top' || edge === 'bottom') return straight(form.length, `Length of ${form.along}`);
      return edge === 'left' || edge === 'right' ? combWidth(form) : undefined;
    case 'loft':
    case 'cover':
    case 'later':
      return undefined;
  }
}

const halfOf = (whole: Result): Result => ({
  ...whole,
  value: whole.value / 2,
  formula: `${whole.formula}; half of it`,
  worked: `(${whole.worked}) ÷ 2`,
});

/** Area of an outline out of a drawing, less what the drawing cuts out of it (clockwise paths), mm². */
export function drawnArea(outline: Path, openings: readonly Path[], source: string): Result {
  const whole = signedArea(outline);
  const out = openings.reduce((sum, path) => sum - signedArea(path), 0);
  return result({
    value: whole - out,
    unit: 'mm2',
    formula: openings.length ? 'A = {outline} − {openings}' : 'A = {outline}',
    symbols: openings.length ? { outline: whole, openings: out } : { outline: whole },
    basis: 'geometry',
    source,
  });
}

/** What pierced work takes out of a plate, mm². */
export function cutOutArea({ shapes }: CutOut): Result {
  const area = shapes.reduce((sum, path) => sum + signedArea(path), 0);
  return result({
    value: area,
    unit: 'mm2',
    formula: 'A = sum of {n} shapes',
    symbols: { n: shapes.length },
    basis: 'geometry',
    source: 'The shapes in the drawing, arcs as arcs; what lies inside one falls out with it',
  });
}

/** What the saw goes along, mm. */
export function sawnLength({ shapes }: CutOut): Result {
  return result({
    value: shapes.reduce((sum, path) => sum + lengthOfPath(path), 0),
    unit: 'mm',
    formula: 'L = way round {n} shapes',
    symbols: { n: shapes.length },
    basis: 'geometry',
    source: 'The shapes in the drawing, arcs as arcs',
  });
}

/** A slot has half-round ends: its narrower measure is the tool's. */
export function slotArea(long: number, wide: number): number {
  const longer = Math.max(long, wide);
  const narrower = Math.min(long, wide);
  return (longer - narrower) * narrower + (Math.PI / 4) * narrower * narrower;
}

/** The width of an oval of this way round and this length; nothing when no oval has both. */
export function widthOfOval(girth: number, long: number): number | undefined {
  if (!(girth > 2 * long) || !Number.isFinite(girth)) return undefined;
  let low = 0;
  let high = girth;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (ellipsePerimeter(Math.max(long, middle), Math.min(long, middle)).value < girth) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** A measure that the form gives as it stands. */
function given(value: number, symbol: string, source: string): Result {
  return result({
    value,
    unit: 'mm',
    formula: `${symbol} = {${symbol}}`,
    symbols: { [symbol]: value },
    basis: 'geometry',
    source,
  });
}
