import { strict as assert } from 'node:assert';
import { isFlat } from '../../../server/geometry/flatten/flatten.ts';
import { formedOf } from '../../../server/geometry/flatten/formed.ts';
import { cutAlong } from '../../../server/geometry/flatten/seams.ts';
import { domeChart } from '../../../server/geometry/surface/dome.ts';
import { domeArea } from '../../../server/trade/dome/dome.ts';
import { WAYS } from '../../../server/trade/dome/ways.ts';
import { flatten, meshOf } from '../../geometry/at-once.ts';
import { figuresOf } from '../support.ts';

/*
 * One shape, one answer: from every way of writing a surface a walk leads to its neighbour, and no figure jumps where it
 * arrives. What is left is what triangles differ from rings by.
 */

const made = (lines: string) => {
  const figures = figuresOf(`material plate
  mild steel 1.5 mm
piece part
  from plate
${lines
  .split('\n')
  .map((line) => `  ${line}\n`)
  .join('')}`);
  return (name: string) => {
    const figure = figures.get(`part.${name}`);
    assert.ok(figure, `no ${name} of ${lines}`);
    return figure;
  };
};
type Made = ReturnType<typeof made>;

/** Shares by which figures of two neighbours may differ: lengths and metal by the mesh, thickness at a place by its triangles. */
const WITHIN = {
  'blank.long': 1e-3,
  'blank.wide': 1e-3,
  'blank.area': 2e-3,
  mass: 2e-3,
  'thickness.mean': 2e-3,
  'thickness.crown': 6e-3,
  'thickness.mid': 6e-3,
  'thickness.edge': 6e-3,
  'thickness.least': 6e-3,
} as const;
const STRAINS = ['strain.edge-along', 'strain.edge-across', 'strain.edge', 'strain.crown'] as const;

/** The same figures with the same ranges. */
function isNeighbour(one: Made, other: Made, times = 1): void {
  for (const [name, within] of Object.entries(WITHIN)) {
    const [a, b] = [one(name), other(name)];
    for (const end of ['value', 'low', 'high'] as const) {
      const [x, y] = [a[end] ?? a.value, b[end] ?? b.value];
      // The ends of what is laid flat by triangles are found on coarse ones.
      const may = times * (end === 'value' ? within : Math.max(0.012, within));
      assert.ok(Math.abs(x / y - 1) < may, `${name} ${end}: ${x} beside ${y}`);
    }
  }
  for (const name of STRAINS) {
    const [x, y] = [one(name).value, other(name).value];
    assert.ok(Math.abs(x - y) < 0.008 * times, `${name}: ${x} beside ${y}`);
  }
}

const METHODS = ['dish', 'raise', 'dish then raise'] as const;
const SHALLOW = { dish: 60, raise: 140, 'dish then raise': 80 } as const;

describe('one surface in its several notations', () => {
  for (const method of METHODS) {
    const deep = SHALLOW[method];
    const round = `dome 200 mm, deep ${deep} mm\n${method}`;
    const oval = `oval dome 220 x 190 mm, deep ${deep} mm\n${method}`;

    it(`${method}: a crease that grows less and less deep ends at the plain form, round and oval`, () => {
      for (const plain of [round, oval]) {
        const end = made(plain);
        isNeighbour(made(`${plain}\ncrease along middle, deep 0.01 mm`), end);
        const off = [4, 2, 1].map((depth) => {
          const creased = made(`${plain}\ncrease along middle, deep ${depth} mm`);
          return Math.abs(creased('blank.area').value / end('blank.area').value - 1);
        });
        assert.ok(off[0]! > off[1]! && off[1]! > off[2]!, `${plain}: ${off}`);
      }
    });

    it(`${method}: an oval that grows round is the round dome`, () => {
      const end = made(round);
      isNeighbour(made(`oval dome 200.001 x 200 mm, deep ${deep} mm\n${method}`), end);
      const wide = [230, 210, 202].map(
        (long) => made(`oval dome ${long} x 200 mm, deep ${deep} mm\n${method}`)('mass').value,
      );
      assert.ok(wide[0]! > wide[1]! && wide[1]! > wide[2]! && wide[2]! > end('mass').value, `${wide}`);
    });

    it(`${method}: a bay that grows less and less deep ends at the whole form`, () => {
      const bay = (depth: number) => made(`${round}\ncut eye from 20 mm on rim to 588 mm on rim, deep ${depth} mm`);
      const end = made(round);
      const areas = [12, 6, 3, 0.05].map((depth) => bay(depth)('blank.area').value);
      assert.ok(areas[0]! < areas[1]! && areas[1]! < areas[2]!, `${areas}`);
      isNeighbour(bay(0.05), end, 1.5);
    });

    it(`${method}: from a cap to half an ellipsoid there is no jump`, () => {
      const [less, more] = [99.999, 100.001].map((each) => made(`dome 200 mm, deep ${each} mm\n${method}`));
      for (const name of Object.keys(WITHIN))
        assert.ok(Math.abs(less!(name).value / more!(name).value - 1) < 2e-4, name);
    });

    it(`${method}: a blank of one’s own as large as the form needs changes nothing, and a little less little`, () => {
      for (const plain of [round, oval]) {
        const end = made(plain);
        const needed = method === 'raise' ? 'blank.needed' : 'blank';
        const [long, wide] = [`${needed}-long`, `${needed}-wide`].map((name) => name.replace('blank-', 'blank.'));
        const [l, w] = [end(long!).value, end(wide!).value];
        const own = (share: number) =>
          made(`${plain}\nblank ${plain === round ? `disc ${l * share}` : `${l * share} x ${w * share}`} mm`);
        const [whole, less] = [own(1), own(0.999)];
        // An oval of that box is a little smaller or larger than what the solver cuts.
        const may = plain === round ? 1e-6 : 0.01;
        for (const name of ['mass', 'thickness.mean', 'thickness.crown'])
          assert.ok(
            Math.abs(whole(name).value / end(name).value - 1) < may,
            `${name}: ${whole(name).value} ${end(name).value}`,
          );
        const drop = less('thickness.mean').value / whole('thickness.mean').value;
        assert.ok(drop <= 1 && drop > 0.997, `${drop}`);
      }
    });
  }

  it('two halves, each with a free seam, are the whole that is cut in two', () => {
    const shape = { long: 240, wide: 180, deep: 110 };
    const whole = meshOf(domeChart(shape), { vertices: 1800 });
    const half = meshOf(domeChart(shape, 'half'), { vertices: 900 });
    for (const way of [WAYS.dish, WAYS.raise, WAYS['dish then raise'], WAYS['all shrink']]) {
      const parts = cutAlong(whole, whole.lines.get('middle')!).map((surface) => flatten({ surface, way }));
      const one = flatten({ surface: half, way });
      assert.equal(parts.length, 2);
      assert.ok(isFlat(one) && parts.every(isFlat));
      const areas = parts.map((part) => (isFlat(part) ? part.flatArea / part.formedArea : Number.NaN));
      for (const mean of areas)
        assert.ok(Math.abs(mean / (one.flatArea / one.formedArea) - 1) < 1e-3, `${way.name}: ${areas}`);
      const halves = parts.map((part) => (isFlat(part) ? formedOf(part).area : Number.NaN));
      assert.ok(Math.abs((halves[0]! + halves[1]!) / (2 * formedOf(one).area) - 1) < 2e-3, `${halves}`);
    }
  });

  it('gores that grow more and more are hardly formed, and together have the area of the dome', () => {
    for (const method of METHODS) {
      const gores = [4, 8, 16].map((count) => made(`gore dome 200 mm, deep 100 mm, gores ${count}\n${method}`));
      const strains = gores.map((each) => each('strain.most').value);
      assert.ok(strains[0]! > 2 * strains[1]! && strains[1]! > 2 * strains[2]!, `${method}: ${strains}`);
      const needed = gores.map((each, i) => {
        const name = method === 'raise' ? 'blank.needed-area' : 'blank.area';
        return Math.abs((each(name).value * 2 ** (i + 2)) / domeArea(200, 100).value - 1);
      });
      assert.ok(needed[2]! < 0.004, `${method}: ${needed}`);
      assert.ok(Math.abs(gores[2]!('thickness.mean').value / 1.5 - 1) < 0.004);
    }
  });

  it('a rim that is held point by point is the disc of the rim', () => {
    const held = made('dome 200 mm, deep 60 mm\ndish\nhold rim');
    const own = made('dome 200 mm, deep 60 mm\ndish\nblank disc 200 mm');
    for (const name of ['thickness.mean', 'mass', 'blank.area'])
      assert.ok(
        Math.abs(held(name).value / own(name).value - 1) < 3e-3,
        `${name}: ${held(name).value} ${own(name).value}`,
      );
    assert.ok(Math.abs(held('strain.edge-along').value) < 2e-3);
  });

  it('of no depth is the flat sheet', () => {
    for (const method of METHODS) {
      const flat = made(`dome 200 mm, deep 0.1 mm\n${method}`);
      for (const place of ['crown', 'mid', 'edge', 'mean', 'least'])
        assert.ok(Math.abs(flat(`thickness.${place}`).value / 1.5 - 1) < 1e-5, place);
      assert.ok(Math.abs(flat('blank.diameter').value - 200) < 0.001);
    }
  });
});

describe('figures that an outside solver gave', () => {
  it('oval dome 200 × 140, 50 deep, dished: 222 × 178', () => {
    const dome = made('oval dome 200 x 140 mm, deep 50 mm\ndish');
    assert.ok(Math.abs(dome('blank.long').value - 222) < 1, `${dome('blank.long').value}`);
    assert.ok(Math.abs(dome('blank.wide').value - 178) < 1, `${dome('blank.wide').value}`);
  });

  it('dome 160, 45 deep, dished then raised, of 1.2 mm: crown 1.127, edge 1.286', () => {
    const dome = made('dome 160 mm, deep 45 mm\ndish then raise');
    const of = (name: string) => (dome(`thickness.${name}`).value * 1.2) / 1.5;
    assert.ok(Math.abs(of('crown') - 1.127) < 0.0006, `${of('crown')}`);
    assert.ok(Math.abs(of('edge') - 1.286) < 0.0006, `${of('edge')}`);
  });

  it('a raised skull with a crease of 0.01 mm has the blank and the mass of the same without', () => {
    const skull = 'oval dome 240 x 200 mm, deep 150 mm, inside\nraise';
    isNeighbour(made(`${skull}\ncrease along middle, deep 0.01 mm`), made(skull));
  });
});
