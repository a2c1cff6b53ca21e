import { loftChart } from '../../geometry/surface/loft.ts';
import { sectionOf } from '../../geometry/surface/section.ts';
import { arcOfGirth } from '../../trade/blank/plane-shapes.ts';
import { coneDevelopment, conePattern, widenedCone } from '../../trade/blank/wrap.ts';
import { coneTightestRadius } from '../../trade/dome/curvature.ts';
import { MEASURED, NONE, NOT_KNOWN } from './answers.ts';
import { type Edges, made, pointsOf, type WorkedBlank } from './blank.ts';
import { circularRun, straightRun } from './edge-run.ts';
import { type FormKind, isAbove, isWrap, measured, no, none, nothing, SIDES, wrapOf, yes } from './form.ts';
import {
  type Cone,
  type Cylinder,
  coneOf,
  type Loft,
  levelsOfTube,
  ovalRefusals,
  readOvalTube,
  seamsOfWrap,
  tubeGirths,
} from './tube.ts';

export const cone: FormKind<Cone, Loft | Cone | Cylinder> = {
  notations: {
    cone: {
      read({ line, grow }) {
        const top = line.length('top');
        const bottom = line.length('bottom');
        const high = line.length('high', 'high');
        const wrap = wrapOf(line);
        if (line.has('long')) return readOvalTube(line, { bottom, top, high, wrap, grow });
        if (!isAbove(top) || !isAbove(bottom) || !isAbove(high) || !isWrap(wrap)) return undefined;
        const more = Math.PI * grow;
        return coneOf(line, { top: top + more, bottom: bottom + more, high, wrap });
      },
      refusals: ovalRefusals,
    },
  },
  example: 'piece example\n  from plate\n  cone round 260 to 200 mm, high 220 mm, wrap 300 deg\n',
  isFlat: false,
  isBand: false,
  keepsThickness: yes,

  edges: () => SIDES,
  seams: ({ wrap }) => seamsOfWrap(wrap),
  closes: no,
  length(form, edge) {
    if (edge === 'top' || edge === 'bottom') return arcOfGirth(form[edge], form.wrap);
    return edge === 'left' || edge === 'right' ? coneDevelopment(form).slant : MEASURED;
  },
  run(form, edge) {
    if (edge === 'top' || edge === 'bottom') return circularRun(form[edge] / (2 * Math.PI), form.wrap);
    return edge === 'left' || edge === 'right' ? straightRun : NOT_KNOWN;
  },

  area: (form) => coneDevelopment(form).area,
  centre: measured,
  chart: (form) => loftChart(levelsOfTube(form)),
  refusal: nothing,
  liesOn: none,
  follows: none,
  band: none,

  around: ({ wrap }) => wrap,
  girths: (form) => tubeGirths(levelsOfTube(form)),
  meets({ bottom }) {
    const section = sectionOf({ high: 0, round: bottom });
    return typeof section === 'string' ? NONE : { section, girth: bottom };
  },
  domed: none,
  tightestRadius: coneTightestRadius,
  rolls: ({ top, bottom }) => [
    { suffix: '.top', title: 'inside radius to roll the top to', radius: top / (2 * Math.PI) },
    { suffix: '.bottom', title: 'inside radius to roll the bottom to', radius: bottom / (2 * Math.PI) },
  ],
  wall(form, edge) {
    if (edge !== 'top' && edge !== 'bottom') return NONE;
    const [girth, other] = [form[edge], form[edge === 'top' ? 'bottom' : 'top']];
    return {
      radius: girth / (2 * Math.PI),
      taper: (Math.atan2((girth - other) / (2 * Math.PI), form.high) * 180) / Math.PI,
    };
  },

  square: none,
  outline: none,
  blank: (form, { edges }) => sectorBlank(form, edges),
  layout: ({ top, bottom, wrap }) => ({ kind: 'sector', top, bottom, wrap }),
  addFigures(form, set, piece) {
    // Of the plain cone: with flutes in it the flat is no sector.
    if (piece.isRelieved()) return;
    const { place } = form.line;
    const flat = coneDevelopment(form);
    set.add('slant', 'slant height', flat.slant, place, []);
    set.add('sector', 'angle of the flat sector', flat.sector, place, []);
    if (flat.outerRadius.outside !== undefined) return;
    set.add('outer-radius', 'outer radius of the flat sector', flat.outerRadius, place, []);
    set.add('inner-radius', 'inner radius of the flat sector', flat.innerRadius, place, []);
  },
};

function sectorBlank(form: Cone, edges: Edges): WorkedBlank | undefined {
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
  const more = { left: edges.sum('left'), right: edges.sum('right') };
  if (!more.left && !more.right) {
    const { path } = conePattern(longer);
    return made({ kind: 'outline', points: pointsOf(path), path }, flat.blankLong, flat.blankWide, flat.area, edges);
  }
  const wider = widenedCone(longer, more);
  if (!wider) return undefined;
  const { path, long, wide, area } = wider;
  return made({ kind: 'outline', points: pointsOf(path), path }, long, wide, area, edges);
}
