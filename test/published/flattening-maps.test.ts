import { strict as assert } from 'node:assert';
import { createRequire } from 'node:module';
import { geoAzimuthalEqualAreaRaw } from 'd3-geo';
import { type Flat, isFlat } from '../../server/geometry/flatten/flatten.ts';
import type { Way } from '../../server/geometry/flatten/way.ts';
import type { Surface } from '../../server/geometry/surface/surface.ts';
import { WAYS } from '../../server/trade/dome/ways.ts';
import { flatten } from '../geometry/at-once.ts';
import { cap } from '../geometry/flatten/surfaces.ts';
import { holdsAgainst, type Row } from './rows.ts';

/*
 * The flattening against the maps of the globe, which are the limits of its energy and the best that any flattening can
 * do; and against another library's least squares conformal maps of the same triangles. The figures are printed.
 */

const way = (k: number): Way => ({ ...WAYS['dish then raise'], k });
const laid = (surface: Surface, k: number): Flat => {
  const flat = flatten({ surface, way: way(k) });
  assert.ok(isFlat(flat), 'refused' in flat ? flat.refused : '');
  return flat;
};
const print = (...cells: (string | number)[]) =>
  console.log(
    `      ${cells.map((cell) => (typeof cell === 'number' ? cell.toPrecision(3) : cell).padEnd(16)).join('')}`,
  );

// ---- maps of the globe ---------------------------------------------------------------------------------------------

const RINGS = 32;
const depths = [20, 50, 80, 100];
/** From nearly nothing but kept angles to nearly nothing but kept areas. */
const EVEN = [0.001, 0.2, 0.5, 1, 1.9, 3, 10, 100] as const;

interface Globe {
  readonly deep: number;
  /** The ball, and how far the cap reaches from its crown, radians. */
  readonly ball: number;
  readonly reach: number;
  readonly flats: ReadonlyMap<number, Flat>;
}

let made: readonly Globe[] | undefined;
const globes = (): readonly Globe[] => {
  made ??= depths.map((deep) => {
    const surface = cap(200, deep, RINGS);
    const ball = (100 ** 2 + deep ** 2) / (2 * deep);
    return { deep, ball, reach: 2 * Math.atan2(deep, 100), flats: new Map(EVEN.map((k) => [k, laid(surface, k)])) };
  });
  return made;
};

/** The way from the crown of every vertex but the crown, flat over what a map of the globe gives for it. */
function besideMap({ ball, flats }: Globe, k: number, map: (angle: number) => number): number[] {
  const { positions, surface } = flats.get(k)!;
  return Array.from({ length: positions.length / 2 - 1 }, (_, i) => {
    const [x, y, z] = surface.positions.subarray(3 * i + 3, 3 * i + 6) as unknown as [number, number, number];
    const way = Math.hypot(positions[2 * i + 2]! - positions[0]!, positions[2 * i + 3]! - positions[1]!);
    return way / (ball * map(Math.atan2(Math.hypot(x, y), z)));
  });
}
const stereographic = (angle: number) => 2 * Math.tan(angle / 2);
const equalArea = (angle: number) => 2 * Math.sin(angle / 2);
const most = (values: Iterable<number>) => [...values].reduce((a, b) => Math.max(a, b), -Infinity);
const least = (values: Iterable<number>) => [...values].reduce((a, b) => Math.min(a, b), Infinity);

/** ln of the greatest over the least scale, anywhere and in any direction. */
const spread = ({ strains }: Flat) => most(strains.most) - least(strains.least);
/** Mean of s1/s2 − 1 over the surface, s the scales: nought where angles are kept. */
function askew({ strains, rest }: Flat): number {
  let sum = 0;
  for (let t = 0; t < rest.areas.length; t++) sum += rest.areas[t]! * Math.expm1(strains.most[t]! - strains.least[t]!);
  return sum / rest.area;
}

describe('Flattening beside the maps of the globe', () => {
  it('keeps angles as the stereographic map does where evenness counts for nothing', () => {
    print('deep, mm', 'off its shape', 'askew');
    for (const globe of globes()) {
      const ratios = besideMap(globe, 0.001, stereographic);
      const off = most(ratios) / least(ratios) - 1;
      print(String(globe.deep), off, askew(globe.flats.get(0.001)!));
      assert.ok(off < 0.003, `${globe.deep} deep: ${off}`);
    }
    // Plane triangles cannot keep every angle: half as large, they are half as far off.
    const [coarse, fine] = [laid(cap(200, 80, RINGS / 2), 0.001), globes()[2]!.flats.get(0.001)!].map(askew);
    assert.ok(Math.abs(coarse! / fine! - 2) < 0.05, `${coarse} and ${fine}`);
  });

  it('keeps areas as Lambert’s azimuthal map does where evenness counts for all', () => {
    print('deep, mm', 'k = 10', 'k = 100');
    for (const globe of globes()) {
      const off = ([10, 100] as const).map((k) =>
        most(besideMap(globe, k, equalArea).map((ratio) => Math.abs(ratio - 1))),
      );
      print(String(globe.deep), ...off);
      assert.ok(off[0]! < 0.026 && off[1]! < 0.007, `${globe.deep} deep: ${off.join(', ')}`);
    }
  });

  it('never has less spread of scale than Milnor’s theorem allows, and comes near it', () => {
    // J. Milnor, A problem in cartography, Amer. Math. Monthly 76 (1969), from memory: of all maps of a cap that reaches α
    // from its middle the azimuthal equidistant one has the least distortion, ln(α/sin α).
    print('deep, mm', 'least', ...EVEN.map((k) => `k = ${k}`));
    for (const { deep, reach, flats } of globes()) {
      const bound = Math.log(reach / Math.sin(reach));
      const found = EVEN.map((k) => spread(flats.get(k)!));
      print(String(deep), bound, ...found);
      // A mesh measures from vertex to vertex, which is a hair shorter than along the parallel.
      for (const [i, k] of EVEN.entries())
        assert.ok(found[i]! > bound - 1e-4, `${deep} deep, k = ${k}: ${found[i]} under ${bound}`);
      const best = least(found);
      assert.equal(EVEN[found.indexOf(best)], 1.9, `${deep} deep`);
      assert.ok(best < 1.04 * bound, `${deep} deep: ${best}, least ${bound}`);
    }
  });
});

// ---- another library ----------------------------------------------------------------------------------------------

/*
 * xatlas (MIT), an atlas generator for games, as compiled for the web by xatlasjs: a chart of faces that turn less than 75°
 * from their mean is laid flat by least squares conformal maps (Lévy and others 2002) with two points held; nearly flat
 * ones are only projected, and are left out. Without normals both measure the triangles through the air. The standard mesh
 * is M. Newell's teapot of 1975, in the public domain, as the package `teapot` has it: a quarter of its body from the rim
 * to the foot.
 */

interface Mesh {
  readonly name: string;
  readonly positions: readonly number[];
  readonly triangles: readonly number[];
}

interface Xatlas {
  createAtlas(): void;
  addMesh(indexes: Uint16Array, vertices: Float32Array): object | null;
  generateAtlas(chart: object, pack: object, meshes: true): { readonly meshes: readonly XatlasMesh[] };
  destroyAtlas(): void;
}
interface XatlasMesh {
  readonly vertexCount: number;
  readonly oldIndexes: Uint16Array;
  readonly vertex: { readonly coords1: Float32Array };
}

/** One chart, whatever it costs. */
const ONE_CHART = {
  maxCost: 1e9,
  normalDeviationWeight: 0,
  roundnessWeight: 0,
  straightnessWeight: 0,
  normalSeamWeight: 0,
  textureSeamWeight: 0,
};

async function xatlas(): Promise<Xatlas> {
  const folder = 'xatlasjs/dist/node';
  const [{ Api }, { default: create }] = await Promise.all([
    import(`${folder}/api.mjs`),
    import(`${folder}/xatlas.js`),
  ]);
  const Made = Api(create) as new (loaded: () => void) => Xatlas;
  return new Promise((resolve) => {
    const made: Xatlas = new Made(() => setImmediate(() => resolve(made)));
  });
}

/**
 * The best that the other library does: how well it keeps the angles hangs on the order in which it is told the corners and
 * on whether it turns the chart to lie straight, on the teapot more than twofold.
 */
function bestOfXatlas(other: Xatlas, mesh: Mesh): ReturnType<typeof bent> {
  const orders = [
    [0, 1, 2],
    [1, 2, 0],
    [2, 0, 1],
    [0, 2, 1],
    [2, 1, 0],
    [1, 0, 2],
  ];
  // In some orders it cuts the mesh into several charts.
  const all = orders.flatMap((order) => {
    const triangles = mesh.triangles.map((_, i) => mesh.triangles[i - (i % 3) + order[i % 3]!]!);
    return [true, false].flatMap((turned) => {
      const flat = laidByXatlas(other, { ...mesh, triangles }, turned);
      return flat ? [bent(mesh, flat)] : [];
    });
  });
  assert.ok(all.length, `${mesh.name} comes out in several charts`);
  return all.reduce((best, each) => (each.squared < best.squared ? each : best));
}

/** Where the other library lays each vertex; nothing where it cuts the mesh into several charts. */
function laidByXatlas(other: Xatlas, { positions, triangles }: Mesh, turned: boolean): Float64Array | undefined {
  other.createAtlas();
  try {
    assert.ok(other.addMesh(Uint16Array.from(triangles), Float32Array.from(positions)));
    const pack = { bilinear: false, rotateCharts: false, rotateChartsToAxis: turned };
    const [mesh] = other.generateAtlas(ONE_CHART, pack, true).meshes;
    if (!mesh || mesh.vertexCount !== positions.length / 3) return undefined;
    const flat = new Float64Array(2 * mesh.vertexCount);
    for (const [i, old] of mesh.oldIndexes.entries()) flat.set(mesh.vertex.coords1.subarray(2 * i, 2 * i + 2), 2 * old);
    return flat;
  } finally {
    other.destroyAtlas();
  }
}

/** Of a flat shape of a mesh, worked out here for both alike: mean of ln²(s1/s2) and of s1/s2 − 1 over the surface. */
function bent({ positions, triangles }: Mesh, flat: ArrayLike<number>): { squared: number; askew: number } {
  let [area, squared, skew] = [0, 0, 0];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((i) => triangles[t + i]!) as [number, number, number];
    const side = (to: number) => [0, 1, 2].map((axis) => positions[3 * to + axis]! - positions[3 * a + axis]!);
    const [p, q] = [side(b), side(c)];
    const dot = (u: number[], v: number[]) => u.reduce((sum, each, i) => sum + each * v[i]!, 0);
    const long = Math.sqrt(dot(p, p));
    const along = dot(p, q) / long;
    const up = Math.sqrt(dot(q, q) - along * along);
    const across = (to: number, axis: number) => flat[2 * to + axis]! - flat[2 * a + axis]!;
    const [ux, uy] = [across(b, 0) / long, across(b, 1) / long];
    const [vx, vy] = [(across(c, 0) - along * ux) / up, (across(c, 1) - along * uy) / up];
    // The two scales: half the sum and half the difference of what turns and what mirrors.
    const [turns, mirrors] = [Math.hypot(ux + vy, uy - vx) / 2, Math.hypot(ux - vy, uy + vx) / 2];
    const [s1, s2] = [turns + mirrors, Math.abs(turns - mirrors)];
    const own = (long * up) / 2;
    area += own;
    squared += own * Math.log(s1 / s2) ** 2;
    skew += own * (s1 / s2 - 1);
  }
  return { squared: squared / area, askew: skew / area };
}

/** Ours of the same triangles, angles kept above all. */
function laidByUs({ positions, triangles }: Mesh): Float64Array {
  const count = positions.length / 3;
  const surface: Surface = {
    positions: Float64Array.from(positions),
    normals: new Float64Array(3 * count),
    parameters: Float64Array.from({ length: 2 * count }, (_, i) => positions[3 * (i >> 1) + (i % 2 ? 2 : 0)]!),
    triangles: Uint32Array.from(triangles),
    edges: new Map(),
    lines: new Map(),
  };
  return laid(surface, 1e-4).positions;
}

function capOf(deep: number): Mesh {
  const { positions, triangles } = cap(200, deep, 12);
  return { name: `cap 200 × ${deep}`, positions: [...positions], triangles: [...triangles] };
}

/** A quarter of the teapot's body, its patches joined where they meet. */
function teapot(): Mesh {
  const { positions, cells } = createRequire(import.meta.url)('teapot') as {
    positions: [number, number, number][];
    cells: [number, number, number][];
  };
  // Its axis is upright, a little off the middle of the whole pot.
  const axis = -1.0714;
  const isBody = ([x, high, z]: [number, number, number]) =>
    Math.hypot(x - axis, z) < 10.1 && high < 4.2 && high > -7.2 && x - axis > -0.01 && z > -0.01;
  const numbers = new Map<string, number>();
  const joined: number[] = [];
  const triangles = cells
    .filter((cell) => cell.every((i) => isBody(positions[i]!)))
    .map((cell) =>
      cell.map((i) => {
        const key = positions[i]!.map((each) => each.toFixed(3)).join();
        const known = numbers.get(key);
        if (known !== undefined) return known;
        joined.push(...positions[i]!);
        numbers.set(key, numbers.size);
        return numbers.size - 1;
      }),
    );
  return { name: 'teapot', positions: joined, triangles: triangles.flat() };
}

/** The same surface in four times as many triangles. */
function finer({ name, positions, triangles }: Mesh): Mesh {
  const points = [...positions];
  const middles = new Map<string, number>();
  const middle = (a: number, b: number): number => {
    const key = a < b ? `${a} ${b}` : `${b} ${a}`;
    const known = middles.get(key);
    if (known !== undefined) return known;
    points.push(...[0, 1, 2].map((axis) => (positions[3 * a + axis]! + positions[3 * b + axis]!) / 2));
    middles.set(key, points.length / 3 - 1);
    return points.length / 3 - 1;
  };
  const parts: number[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    const [ab, bc, ca] = [middle(a, b), middle(b, c), middle(c, a)];
    parts.push(a, ab, ca, ab, b, bc, ca, bc, c, ab, bc, ca);
  }
  return { name, positions: points, triangles: parts };
}

const pot = teapot();
const MESHES = [capOf(40), capOf(55), pot, finer(pot)];
/** Both of each mesh, worked out once. */
let beside: Promise<{ own: ReturnType<typeof bent>; theirs: ReturnType<typeof bent> }[]> | undefined;
const besideXatlas = () => {
  beside ??= xatlas().then((other) =>
    MESHES.map((mesh) => ({ own: bent(mesh, laidByUs(mesh)), theirs: bestOfXatlas(other, mesh) })),
  );
  return beside;
};

describe('Flattening beside another library’s least squares conformal maps', () => {
  it('keeps angles of the same triangles better by its own measure', async () => {
    print('', 'triangles', 'askew, ours', 'xatlas', 'ln² ours', 'xatlas');
    for (const [i, { own, theirs }] of (await besideXatlas()).entries()) {
      const mesh = MESHES[i]!;
      print(mesh.name, String(mesh.triangles.length / 3), own.askew, theirs.askew, own.squared, theirs.squared);
      assert.ok(own.squared <= theirs.squared, mesh.name);
    }
  });
});

// By the plain mean, which neither of the two makes least, they are alike.
holdsAgainst(
  'Flattening with its angles kept: by how much its scales differ, beside xatlas’s',
  MESHES.map(
    ({ name, triangles }, i): Row => ({
      what: `${name} in ${triangles.length / 3} triangles, to one of theirs`,
      work: 'xatlas',
      source: 'least squares conformal maps',
      status: 'rule seen',
      ours: async () => {
        const { own, theirs } = (await besideXatlas())[i]!;
        return own.askew / theirs.askew;
      },
      theirs: 1,
      within: 0.02,
    }),
  ),
  'other method',
);

const half = (flat: Flat) => flat.lengths.get('rim')!.flat / (2 * Math.PI);
holdsAgainst(
  'Flattening beside the maps of the globe: half the blank',
  [
    ...depths.map((deep): Row => {
      const flat = laid(cap(200, deep, RINGS), 100);
      return {
        what: `cap 200 × ${deep}, areas kept, mm`,
        work: 'd3',
        source: 'geoAzimuthalEqualAreaRaw: Lambert’s map',
        status: 'rule seen',
        ours: half(flat),
        theirs: ((100 ** 2 + deep ** 2) / (2 * deep)) * geoAzimuthalEqualAreaRaw(2 * Math.atan2(deep, 100), 0)[0],
        within: 0.1,
      };
    }),
  ],
  'physical limit',
);
