import { circlePerimeter, ellipseArea, ellipsePerimeter } from '../../server/trade/blank/plane-shapes.ts';
import { cylinderBlank } from '../../server/trade/blank/wrap.ts';
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

holdsAgainst('Handbook vessels by equal areas', [
  {
    kind: 'worked example',
    what: 'shell 1.5 × 2 in, blank',
    source: 'Machinery’s Handbook, 31st ed., p. 1426',
    status: 'seen',
    ours: cupBlank(1.5, 2),
    theirs: 3.78,
    within: 0.006, // printed 3.78; exactly 3.775
  },
  {
    what: 'pan 24 in across, 18 in deep, blank radius',
    source: 'public-domain handbook, “Solid pans”',
    status: 'rule seen',
    ours: cupBlank(24, 18) / 2,
    theirs: 24,
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
    source: 'public-domain handbook, “Blank dimensions, continued”',
    status: 'seen',
    ours:
      cylinderBlank({ girth: circlePerimeter((3.5 + 2) / 2).value, high: 1.25 }).area.value + ellipseArea(3.5, 2).value,
    theirs: 16.297,
    within: 0.0005,
  },
  {
    kind: 'worked example',
    what: 'oval blank 3.45 × 6.037 in, area as the handbook prints it',
    source: 'the same page',
    status: 'seen',
    ours: ellipseArea(3.45, 6.037),
    theirs: 16.359,
    within: 0.002,
  },
]);
