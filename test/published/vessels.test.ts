import {
  circleArea,
  circlePerimeter,
  ellipseArea,
  ellipsePerimeter,
  plateArea,
} from '../../server/trade/blank/plane-shapes.ts';
import { coneDevelopment, cylinderBlank } from '../../server/trade/blank/wrap.ts';
import { domeBlankEqualArea } from '../../server/trade/dome/dome.ts';
import { holdsAgainst } from './rows.ts';

/** Blank diameter of a cup with a flat bottom, from the areas that this project computes. */
function cupBlank(diameter: number, deep: number): number {
  const wall = cylinderBlank({ girth: circlePerimeter(diameter).value, high: deep }).area.value;
  return Math.sqrt((4 / Math.PI) * (wall + (Math.PI / 4) * diameter * diameter));
}

/** Blank diameter of a half sphere with a straight wall below it. */
function domedCupBlank(diameter: number, wall: number): number {
  return Math.sqrt(domeBlankEqualArea(diameter, diameter / 2).value ** 2 + 4 * diameter * wall);
}

/** Area of a tapered vessel and its bottom, from its diameters and its upright height. */
const tapered = (top: number, bottom: number, high: number) =>
  coneDevelopment({ top: top * Math.PI, bottom: bottom * Math.PI, high }).area.value + circleArea(bottom).value;
const discOf = (area: number) => Math.sqrt((4 / Math.PI) * area);

/** The radius of a pan's disc by compasses: half the diameter and the depth laid in one line, a half circle over both. */
function byCompasses(across: number, deep: number): number {
  const middle = (across + deep) / 2;
  const up = Math.sqrt(middle ** 2 - (across - middle) ** 2);
  return Math.hypot(across / 2, up);
}

holdsAgainst('Handbook vessels by equal areas', [
  {
    kind: 'worked example',
    what: 'shell 1.5 × 2 in, blank',
    work: 'handbook',
    source: 'p. 1426',
    status: 'seen',
    ours: cupBlank(1.5, 2),
    theirs: 3.78,
    within: 0.006, // printed 3.78; exactly 3.775
  },
  {
    kind: 'other method',
    what: 'pan 24 in across, 18 in deep, blank radius by compasses',
    work: 'atkins',
    source: 'chapter XXVIII, “Solid pans”, fig. 237',
    status: 'rule seen',
    ours: cupBlank(24, 18) / 2,
    theirs: byCompasses(24, 18),
    within: 1e-9,
  },
  {
    what: 'half sphere on a wall as high as its radius, blank to diameter',
    source: '√(2d² + 4dh), worked apart',
    status: 'worked',
    ours: domedCupBlank(1, 0.5),
    theirs: 2,
    within: 1e-9,
  },
  {
    what: 'oval vessel 3.5 × 2 in, true way round',
    source: 'worked apart',
    status: 'worked',
    ours: ellipsePerimeter(3.5, 2),
    theirs: 8.801,
    within: 0.0005,
  },
  {
    kind: 'worked example',
    what: 'oval vessel 3.5 × 2 × 1.25 in, area by the handbook’s crude way round 8.639 in',
    work: 'hodgson',
    source: '“Blank dimensions, continued”, fig. 272',
    status: 'seen',
    ours:
      cylinderBlank({ girth: circlePerimeter((3.5 + 2) / 2).value, high: 1.25 }).area.value + ellipseArea(3.5, 2).value,
    theirs: 16.297,
    within: 0.0005,
  },
  {
    kind: 'worked example',
    what: 'oval blank 3.45 × 6.037 in, area as the handbook prints it',
    work: 'hodgson',
    source: 'the same page',
    status: 'seen',
    ours: ellipseArea(3.45, 6.037),
    theirs: 16.359,
    within: 0.002,
  },
  {
    kind: 'worked example',
    what: 'tapered vessel 4 to 2 in, 2.5 in high, with its bottom, in²',
    work: 'hodgson',
    source: 'the same page, fig. 271',
    status: 'seen',
    ours: tapered(4, 2, 2.5),
    theirs: 28.519,
    within: 0.0005,
  },
  {
    kind: 'worked example',
    what: 'the same: its disc, in',
    work: 'hodgson',
    source: 'the same page, fig. 271',
    status: 'seen',
    ours: discOf(tapered(4, 2, 2.5)),
    theirs: 6.026,
    within: 0.0005,
  },
  {
    kind: 'worked example',
    what: 'the same with its slant measured as 2.75 in, in²',
    work: 'hodgson',
    source: 'the same page: 25.9182 + 3.1416',
    status: 'seen',
    ours: tapered(4, 2, Math.sqrt(2.75 ** 2 - 1)),
    theirs: 29.06,
    within: 0.005,
  },
  {
    kind: 'worked example',
    what: 'the same: its disc, in',
    work: 'hodgson',
    source: 'the same page',
    status: 'seen',
    ours: discOf(tapered(4, 2, Math.sqrt(2.75 ** 2 - 1))),
    theirs: 6.083,
    within: 0.0005,
  },
  {
    kind: 'worked example',
    what: 'blank of a rectangular vessel, 3.86 × 5.404 in, in²',
    work: 'hodgson',
    source: 'the same page, fig. 273',
    status: 'seen',
    ours: plateArea(3.86, 5.404),
    theirs: 20.859,
    within: 0.0005,
  },
  {
    kind: 'worked example',
    what: 'cup 25 mm across, 15 mm deep, blank, mm',
    work: 'curioustab',
    source: 'the question and its answer: 46.1, say 46',
    status: 'seen',
    ours: cupBlank(25, 15),
    theirs: 46.1,
    within: 0.05,
  },
  {
    kind: 'worked example',
    what: 'cup 70 mm across, 35 mm deep, blank, mm',
    work: 'gate',
    source: 'production and industrial engineering, 2006',
    status: 'seen',
    ours: cupBlank(70, 35),
    theirs: 121.24,
    within: 0.005,
  },
]);
