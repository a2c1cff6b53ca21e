import type { Place } from '../../../grammar/tree.ts';
import { say, translated } from '../../../l10n/say.ts';
import { turned, undone } from '../../geometry/motion/motion.ts';
import { dot, type Vector } from '../../geometry/surface/vector.ts';
import { wholeCentre } from '../../trade/mass/balance.ts';
import { someOf, spanned } from '../../trade/reckoning/readings.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import type { Model } from '../spec.ts';
import type { FigureSet } from '../values/figure-set.ts';
import { bodyName } from './body.ts';
import { centreOfAll } from './centre.ts';
import { type Assembly, assemblyOf, type PlacedBody, type PlacedGroup } from './pose.ts';
import { reachesOf } from './shape.ts';

export const ASSEMBLED = /^(wide|deep|high|placed|centre\.(up|front|right))$/;

/** Least and greatest along x, y and z, outer faces, mm. */
export type Box = readonly [x: Ends, y: Ends, z: Ends];
export type Ends = readonly [least: number, most: number];

/** Back and forth along x, y and z. */
const WAYS: readonly Vector[] = [
  [-1, 0, 0],
  [1, 0, 0],
  [0, -1, 0],
  [0, 1, 0],
  [0, 0, -1],
  [0, 0, 1],
];

/** How far the bodies of a group reach; nothing where none of them has a shape. */
export function boxOf(bodies: readonly PlacedBody[]): Box | undefined {
  const all = bodies.flatMap((body) => {
    const reach = reachesIn(body);
    return reach ? [reach] : [];
  });
  const most = WAYS.map((_, way) => all.reduce((far, reach) => Math.max(far, reach[way]!), Number.NEGATIVE_INFINITY));
  if (!most.every(Number.isFinite)) return undefined;
  const [left, right, back, front, down, up] = most as [number, number, number, number, number, number];
  return [
    [-left, right],
    [-back, front],
    [-down, up],
  ];
}

function reachesIn({ body: { piece }, motion, mirrored }: PlacedBody): readonly number[] | undefined {
  const back = undone(motion);
  const ways = WAYS.map((way): Vector => {
    const [x, y, z] = turned(back, way);
    return mirrored ? [-x, y, z] : [x, y, z];
  });
  return reachesOf(piece, ways)?.map((far, i) => far + dot(motion.shift, WAYS[i]!));
}

/** The group that is worn, or else the one with most metal: the build's own measures are of it. */
export function mainGroup({ groups }: Assembly): PlacedGroup | undefined {
  const area = ({ bodies }: PlacedGroup) =>
    bodies.reduce((sum, { body }) => sum + (body.piece.figure('area')?.value ?? 0), 0);
  const worn = groups.filter(({ fits }) => fits);
  let main: { readonly group: PlacedGroup; readonly area: number } | undefined;
  // Thousands of groups may stand there: each is asked once.
  for (const group of worn.length ? worn : groups) {
    const own = area(group);
    if (!main || own > main.area) main = { group, area: own };
  }
  return main?.group;
}

/** Adds `wide`, `deep`, `high`, `placed` and where the whole balances to the figures of the build. */
export function addAssembled(model: Model, set: FigureSet, place: Place): void {
  const assembly = assemblyOf(model);
  const { groups, unplaced } = assembly;
  const main = mainGroup(assembly);
  const box = main && boxOf(main.bodies);
  if (main && box) {
    const names = main.bodies.map(({ body }) => bodyName(body));
    const taken = main.bodies.flatMap(({ body, assumed }) => (assumed ? [`${bodyName(body)}: ${assumed}.`] : []));
    const lost = [...new Set(unplaced.map(({ piece }) => piece.name))];
    const note = [
      say`Of ${names.join(', ')}, as assembled.`,
      groups.length > 1 ? say`The build has ${groups.length} groups that nothing stiff joins.` : '',
      lost.length ? say`Without ${lost.join(', ')}: no place.` : '',
      ...taken,
      'Without rivet heads, wire and straps.',
    ]
      .filter(Boolean)
      .join(' ');
    const of = ([least, most]: Ends, what: string): Result =>
      spanned(what, ['most', most], ['least', least], {
        source: 'Furthest places of the outer faces, half a thickness out, the thickness taken as even',
        note,
      });
    const inputs = [...new Set(main.bodies.map(({ body }) => `${body.piece.name}.area`))];
    const shape = { decimals: 1 };
    set.add('wide', 'width over all, assembled', of(box[0], 'w'), place, inputs, shape);
    set.add('deep', 'front to back over all, assembled', of(box[1], 'd'), place, inputs, shape);
    set.add('high', 'height over all, assembled', of(box[2], 'h'), place, inputs, shape);
    addCentre(main.bodies, box, set, place);
  }
  const placed = new Set(groups.flatMap(({ bodies }) => bodies.map(({ body }) => body.piece)));
  for (const { piece } of unplaced) placed.delete(piece);
  const all = model.pieces().length;
  if (!all) return;
  set.add(
    'placed',
    'pieces with a place in the assembly',
    someOf('placed', placed.size, all, {
      source: 'By the wearer, by their own form, and by seams that give an edge of both pieces',
      note: unplaced.map(({ piece, why }) => `${piece.name}: ${translated(why)}.`).join(' ') || undefined,
    }),
    place,
    [],
  );
}

/** Adds `centre.up`, `centre.front` and `centre.right`, mm. */
function addCentre(bodies: readonly PlacedBody[], box: Box, set: FigureSet, place: Place): void {
  const found = centreOfAll(bodies);
  if (!found) return;
  const { at, mass, without } = found;
  const note = [
    say`Of ${Math.round(mass)} g of plates.`,
    without.length ? say`Without ${without.join(', ')}, of which no mass is known.` : '',
    'Without rivets, wire, straps and what is bought.',
  ]
    .filter(Boolean)
    .join(' ');
  const masses = [...new Set(bodies.map(({ body }) => `${body.piece.name}.mass`))];
  const shape = { decimals: 1 };
  const root = 'of the piece that the others hang on';
  set.add('centre.up', 'centre of mass above the foot', wholeCentre(at[2], box[2][0], note), place, masses, shape);
  set.add(
    'centre.front',
    say`centre of mass in front of the axis ${root}`,
    wholeCentre(at[1], 0, note),
    place,
    masses,
    shape,
  );
  set.add(
    'centre.right',
    say`centre of mass right of the middle ${root}`,
    wholeCentre(at[0], 0, note),
    place,
    masses,
    shape,
  );
}
