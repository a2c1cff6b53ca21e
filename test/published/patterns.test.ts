import { coneDevelopment, ovalConeDevelopment, slopedCylinderCut } from '../../server/trade/blank/wrap.ts';
import { gore, goreHalfWidth } from '../../server/trade/dome/dome.ts';
import { holdsAgainst } from './rows.ts';

const drafting = 'frustum 6 in and 3 in, 3 in high';
const frustum = coneDevelopment({ top: 3 * Math.PI, bottom: 6 * Math.PI, high: 3 });
const cone = coneDevelopment({ top: 120 * Math.PI, bottom: 190 * Math.PI, high: 110 });
const leaning = ovalConeDevelopment({
  bottom: { long: 120, wide: 120 },
  top: { long: 0, wide: 0 },
  offset: 30,
  high: 120,
});
const oval = ovalConeDevelopment({ bottom: { long: 210, wide: 170 }, top: { long: 0, wide: 0 }, high: 130 });
const sloped = slopedCylinderCut({ girth: 100 * Math.PI, angle: 45, steps: 12 });
const eighth = gore(200, 100, 8);

/** Half width of a gore of a 200 half sphere at a latitude, hammered to a double curve. */
function atLatitude(degrees: number): number {
  return goreHalfWidth(200, 100, 8, (Math.PI / 180) * degrees * 100);
}

const worked = 'worked apart';

holdsAgainst('Cones', [
  {
    kind: 'worked example',
    what: 'slant, in',
    work: 'longfield',
    source: drafting,
    status: 'seen',
    ours: frustum.slant,
    theirs: 3.354,
    within: 0.0005,
  },
  {
    what: 'area, in²',
    work: 'longfield',
    source: `${drafting}; inputs seen, area worked`,
    status: 'worked',
    ours: frustum.area,
    theirs: 47.42,
    within: 0.005,
  },
  {
    what: 'sector, degrees',
    work: 'longfield',
    source: `${drafting}; inputs seen, angle worked`,
    status: 'worked',
    ours: frustum.sector,
    theirs: 161.0,
    within: 0.05,
  },
  {
    what: 'R 95, r 60, H 110: slant',
    source: worked,
    status: 'worked',
    ours: cone.slant,
    theirs: 115.43,
    within: 0.005,
  },
  {
    what: 'the same: outer radius',
    source: worked,
    status: 'worked',
    ours: cone.outerRadius,
    theirs: 313.32,
    within: 0.005,
  },
  {
    what: 'the same: inner radius',
    source: worked,
    status: 'worked',
    ours: cone.innerRadius,
    theirs: 197.89,
    within: 0.005,
  },
  { what: 'the same: sector', source: worked, status: 'worked', ours: cone.sector, theirs: 109.15, within: 0.005 },
  {
    kind: 'worked example',
    what: 'cone of girth 14 and slant 3.5 in, twice its area, in²',
    work: 'longfield',
    source: '14 × 3.5 = 49 for twice the sector',
    status: 'seen',
    ours: 2 * coneDevelopment({ top: 0, bottom: 14, high: Math.sqrt(3.5 ** 2 - (7 / Math.PI) ** 2) }).area.value,
    theirs: 49,
    within: 1e-9,
  },
  {
    what: 'leaning cone r 60, apex 30 off, H 120: limit of the angle',
    source: worked,
    status: 'worked',
    ours: leaning.sector,
    theirs: 156.287,
    within: 0.0005,
  },
  {
    what: 'its shortest element',
    source: worked,
    status: 'worked',
    ours: leaning.shortestElement,
    theirs: 123.69,
    within: 0.005,
  },
  {
    what: 'its longest element',
    source: worked,
    status: 'worked',
    ours: leaning.longestElement,
    theirs: 150.0,
    within: 0.005,
  },
  {
    what: 'oval cone 210 × 170, H 130: limit of the angle',
    source: worked,
    status: 'worked',
    ours: oval.sector,
    theirs: 212.39,
    within: 0.0005,
  },
  {
    what: 'its shortest element',
    source: worked,
    status: 'worked',
    ours: oval.shortestElement,
    theirs: 155.32,
    within: 0.005,
  },
  {
    what: 'its longest element',
    source: worked,
    status: 'worked',
    ours: oval.longestElement,
    theirs: 167.11,
    within: 0.005,
  },
]);

holdsAgainst('Cylinder cut on the slope, R 50, 45°', [
  ...[0, 6.7, 25, 50, 75, 93.3, 100].map((theirs, index) => ({
    what: `ordinate at ${30 * index}°`,
    source: worked,
    status: 'worked' as const,
    ours: sloped.ordinates[index]?.up,
    theirs,
    within: 0.05,
  })),
  { what: 'rise', source: worked, status: 'worked', ours: sloped.rise, theirs: 100, within: 1e-9 },
]);

holdsAgainst('Gores, sphere R 100 in eight', [
  { what: 'length', source: worked, status: 'worked', ours: eighth.long, theirs: 157.08, within: 0.005 },
  {
    what: 'half width at the rim',
    source: worked,
    status: 'worked',
    ours: eighth.wide.value / 2,
    theirs: 39.27,
    within: 0.005,
  },
  {
    what: 'half width at the rim, flat across',
    source: worked,
    status: 'worked',
    ours: eighth.slab.value / 2,
    theirs: 41.42,
    within: 0.005,
  },
  { what: 'half width at 30°', source: worked, status: 'worked', ours: atLatitude(30), theirs: 34.01, within: 0.005 },
  { what: 'half width at 45°', source: worked, status: 'worked', ours: atLatitude(45), theirs: 27.77, within: 0.005 },
  { what: 'half width at 60°', source: worked, status: 'worked', ours: atLatitude(60), theirs: 19.63, within: 0.005 },
  { what: 'half width at 75°', source: worked, status: 'worked', ours: atLatitude(75), theirs: 10.16, within: 0.005 },
]);
