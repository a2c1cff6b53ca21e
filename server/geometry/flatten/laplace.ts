import { BlockMatrix, Factor } from './block-matrix.ts';
import { EvenFactor, EvenMatrix } from './even-matrix.ts';
import type { Rest } from './rest.ts';
import type { Topology } from './topology.ts';

/* The linear problems on the mesh: a first flat shape, how far in a place lies, and where raising gathers metal. */

/**
 * The flattest conformal map (LSCM; Lévy and others 2002, from memory): angles kept as well as they can be, two vertices
 * of the border held. Scaled to the formed area. Some triangles may come out turned over on a strongly curved form.
 */
export function conformalStart(topology: Topology, rest: Rest): Float64Array | undefined {
  const border = topology.loops[0]!;
  const matrix = BlockMatrix.of(topology, laplaceMatrix(topology, rest));
  // Half the squared gradient less the area: what is left is the failing from a conformal map.
  for (const loop of topology.loops) addArea(topology, matrix, loop);
  const fixed = new Uint8Array(topology.vertices);
  const flat = new Float64Array(2 * topology.vertices);
  const right = new Float64Array(2 * topology.vertices);
  const first = border[0]!;
  const second = border[border.length >> 1]!;
  fixed[first] = 1;
  fixed[second] = 1;
  flat[2 * second] = Math.sqrt(rest.area);
  matrix.fix(fixed, flat, right);
  const factor = new Factor(topology.symbolic);
  if (!factor.of(matrix, 0)) return undefined;
  factor.solve(right);
  return scaledTo(rest.area, topology, right);
}

/**
 * Brings a flat shape nearer to the lengths of the formed one: every triangle is turned to lie best on it, and the mesh
 * drawn after them (as rigid as possible; Liu and others 2008, from memory). The matrix stays the same, so a step is cheap.
 * Stops before a step that turns a triangle over.
 */
export function lengthKeeping(topology: Topology, rest: Rest, start: Float64Array, steps: number): Float64Array {
  const { triangles, vertices } = topology;
  const { gradients, areas } = rest;
  const matrix = laplaceMatrix(topology, rest);
  const fixed = new Uint8Array(vertices);
  fixed[0] = 1;
  const nought = new Float64Array(2 * vertices);
  const factor = new EvenFactor(topology.symbolic);
  matrix.fix(fixed, nought, new Float64Array(2 * vertices));
  if (!factor.of(matrix)) return start;
  let flat = start;
  for (let step = 0; step < steps; step++) {
    const right = new Float64Array(2 * vertices);
    for (let t = 0; t < areas.length; t++) {
      const g = 6 * t;
      let c = 0;
      let s = 0;
      for (let i = 0; i < 3; i++) {
        const vertex = 2 * triangles[3 * t + i]!;
        c += flat[vertex]! * gradients[g + 2 * i]! + flat[vertex + 1]! * gradients[g + 2 * i + 1]!;
        s += flat[vertex + 1]! * gradients[g + 2 * i]! - flat[vertex]! * gradients[g + 2 * i + 1]!;
      }
      const size = Math.sqrt(c * c + s * s) / areas[t]!;
      c /= size;
      s /= size;
      for (let i = 0; i < 3; i++) {
        const vertex = 2 * triangles[3 * t + i]!;
        right[vertex]! += c * gradients[g + 2 * i]! - s * gradients[g + 2 * i + 1]!;
        right[vertex + 1]! += s * gradients[g + 2 * i]! + c * gradients[g + 2 * i + 1]!;
      }
    }
    right[0] = 0;
    right[1] = 0;
    factor.solve(right);
    if (!twiceAreas(topology, right).every((each) => each > 0)) break;
    flat = right;
  }
  return flat;
}

/**
 * The border on a circle, every inner vertex in the mean of its neighbours: never a triangle turned over (Tutte 1963,
 * from memory), but far from the answer.
 */
export function circularStart(topology: Topology, rest: Rest): Float64Array | undefined {
  const { edges } = topology;
  const matrix = new EvenMatrix(topology);
  for (let e = 0; e < edges.length; e += 2) {
    matrix.addOwn(edges[e]!, 1);
    matrix.addOwn(edges[e + 1]!, 1);
    matrix.addPair(e / 2, -1);
  }
  const border = topology.loops[0]!;
  const fixed = new Uint8Array(topology.vertices);
  const flat = new Float64Array(2 * topology.vertices);
  const steps = stepsAlong(border, topology, rest.edgeLengths);
  const round = steps.reduce((sum, step) => sum + step, 0);
  const radius = Math.sqrt(rest.area / Math.PI);
  let way = 0;
  border.forEach((vertex, i) => {
    fixed[vertex] = 1;
    flat[2 * vertex] = radius * Math.cos((2 * Math.PI * way) / round);
    flat[2 * vertex + 1] = radius * Math.sin((2 * Math.PI * way) / round);
    way += steps[i]!;
  });
  const right = new Float64Array(2 * topology.vertices);
  matrix.fix(fixed, flat, right);
  const factor = new EvenFactor(topology.symbolic);
  if (!factor.of(matrix)) return undefined;
  factor.solve(right);
  return scaledTo(rest.area, topology, right);
}

/**
 * The bulge w of a skin held at `held` vertices under even pressure: −1 is its Laplacian, its slope is nought at free
 * borders. By vertex, divided by its greatest value; 1 − s² on a disc. Nothing where no vertex is held.
 */
export function bulge(topology: Topology, rest: Rest, held: Iterable<number>): Float64Array | undefined {
  const load = Float64Array.from(rest.areas, (area) => area / 3);
  const found = skin(topology, rest, held, load);
  const most = found?.reduce((greatest, each) => Math.max(greatest, each), 0);
  return most ? found!.map((each) => each / most) : undefined;
}

/**
 * φ: by how much, as a logarithm, the map that keeps angles and the length of the border makes each place of the surface
 * smaller. Nought at the border, −K (Gauss curvature) its Laplacian: ln(cos ½s / cos ½S) × 2 on a cap of the unit ball. By vertex.
 */
export function conformalLog(topology: Topology, rest: Rest): Float64Array | undefined {
  const { triangles, vertices, loops } = topology;
  const border = new Uint8Array(vertices);
  for (const loop of loops) for (const vertex of loop) border[vertex] = 1;
  // What the angles about an inner vertex lack of a full turn is the curvature of a third of the triangles there: a tip or
  // a fold across a slope has its share, however few normals it has.
  const lack = new Float64Array(vertices).fill(2 * Math.PI);
  const own = new Float64Array(vertices);
  for (let t = 0; t < rest.areas.length; t++) {
    for (let i = 0; i < 3; i++) {
      const vertex = triangles[3 * t + i]!;
      lack[vertex]! -= angleAt(topology, rest, t, i);
      own[vertex]! += rest.areas[t]! / 3;
    }
  }
  // A triangle at the border bends as those of its corners do that lie within.
  const load = Float64Array.from(rest.areas, (area, t) => {
    const within = [...triangles.subarray(3 * t, 3 * t + 3)].filter((vertex) => !border[vertex]);
    return (
      within.reduce((sum, vertex) => sum + lack[vertex]! / own[vertex]!, 0) * (area / 3 / Math.max(1, within.length))
    );
  });
  return skin(
    topology,
    rest,
    loops.flatMap((loop) => [...loop]),
    load,
  );
}

/** The angle of a triangle laid flat at one of its corners, radians. */
function angleAt({ sides }: Topology, { edgeLengths }: Rest, t: number, i: number): number {
  const [a, b, c] = [0, 1, 2].map((step) => edgeLengths[sides[3 * t + ((i + step) % 3)]!]!) as [number, number, number];
  // Side i leads from corner i to the next, the one after that lies opposite.
  return Math.acos(Math.max(-1, Math.min(1, (a * a + c * c - b * b) / (2 * a * c))));
}

/** A skin held at some vertices, each corner of a triangle pushed out by the triangle's load: how far it stands out, by vertex. */
function skin(topology: Topology, rest: Rest, held: Iterable<number>, load: Float64Array): Float64Array | undefined {
  const fixed = new Uint8Array(topology.vertices);
  for (const vertex of held) fixed[vertex] = 1;
  if (!fixed.includes(1)) return undefined;
  const matrix = laplaceMatrix(topology, rest);
  const right = new Float64Array(2 * topology.vertices);
  const { triangles } = topology;
  for (let i = 0; i < triangles.length; i++) right[2 * triangles[i]!]! += load[Math.floor(i / 3)]!;
  matrix.fix(fixed, new Float64Array(2 * topology.vertices), right);
  const factor = new EvenFactor(topology.symbolic);
  if (!factor.of(matrix)) return undefined;
  factor.solve(right);
  return Float64Array.from({ length: topology.vertices }, (_, vertex) => right[2 * vertex]!);
}

/** Twice the flat area of every triangle, mm²; below nought where it is turned over. */
export function twiceAreas({ triangles }: Topology, flat: Float64Array): Float64Array {
  const twice = new Float64Array(triangles.length / 3);
  for (let t = 0; t < twice.length; t++) {
    const a = 2 * triangles[3 * t]!;
    const b = 2 * triangles[3 * t + 1]!;
    const c = 2 * triangles[3 * t + 2]!;
    twice[t] =
      (flat[b]! - flat[a]!) * (flat[c + 1]! - flat[a + 1]!) - (flat[c]! - flat[a]!) * (flat[b + 1]! - flat[a + 1]!);
  }
  return twice;
}

function laplaceMatrix(topology: Topology, rest: Rest): EvenMatrix {
  const { triangles, sides } = topology;
  const { gradients, areas } = rest;
  const matrix = new EvenMatrix(topology);
  for (let t = 0; t < areas.length; t++) {
    const area = areas[t]!;
    for (let i = 0; i < 3; i++) {
      const g = 6 * t + 2 * i;
      const h = 6 * t + 2 * ((i + 1) % 3);
      matrix.addOwn(triangles[3 * t + i]!, area * (gradients[g]! ** 2 + gradients[g + 1]! ** 2));
      matrix.addPair(sides[3 * t + i]!, area * (gradients[g]! * gradients[h]! + gradients[g + 1]! * gradients[h + 1]!));
    }
  }
  return matrix;
}

/** Takes the area within a loop off the energy: ½ Σ (x·y′ − x′·y). */
function addArea(topology: Topology, matrix: BlockMatrix, loop: Uint32Array): void {
  const sideOf = sidesAlong(loop, topology);
  loop.forEach((from, i) => {
    const to = loop[(i + 1) % loop.length]!;
    matrix.addPair(sideOf[i]!, from, to, 0, -0.5, 0.5, 0);
  });
}

function stepsAlong(loop: Uint32Array, topology: Topology, lengths: Float64Array): number[] {
  return sidesAlong(loop, topology).map((edge) => lengths[edge]!);
}

/** The mesh edge from every vertex of a border loop to the next. */
function sidesAlong(loop: Uint32Array, { triangles, sides, vertices }: Topology): number[] {
  const next = new Map<number, number>();
  loop.forEach((from, i) => {
    next.set(from, loop[(i + 1) % loop.length]!);
  });
  const edgeFrom = new Int32Array(vertices).fill(-1);
  for (let i = 0; i < triangles.length; i++) {
    const from = triangles[i]!;
    const to = triangles[i % 3 === 2 ? i - 2 : i + 1]!;
    if (next.get(from) === to) edgeFrom[from] = sides[i]!;
  }
  return Array.from(loop, (from) => edgeFrom[from]!);
}

function scaledTo(area: number, topology: Topology, flat: Float64Array): Float64Array | undefined {
  const have = twiceAreas(topology, flat).reduce((sum, each) => sum + each, 0) / 2;
  if (!(have > 0) || !Number.isFinite(have)) return undefined;
  const scale = Math.sqrt(area / have);
  return flat.map((each) => each * scale);
}
