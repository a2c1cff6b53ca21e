import { after, type Motion, moved, turned, undone } from '../../geometry/motion/motion.ts';
import { nearestBetween } from '../../geometry/motion/nearest.ts';
import {
  type Axis,
  type Closest,
  clearOf,
  type Encounter,
  reachAbout,
  type Swept,
  sweptInSteps,
} from '../../geometry/motion/sweep.ts';
import { MeshTree } from '../../geometry/motion/tree.ts';
import { Dear, pause } from '../../incremental/steps.ts';
import { foldInward } from '../../trade/hinge/hinge.ts';
import { leastRoom, swingBetween } from '../../trade/hinge/swing.ts';
import { ofThing } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import type { HingeModel } from '../things/hinge.ts';
import type { FigureSet } from '../values/figure-set.ts';
import { bodyName } from './body.ts';
import { type HingeLink, hingedBy } from './hinged.ts';
import type { Group } from './plan.ts';
import { groupOf, type PlacedBody, placedGroup, unitMotion } from './pose.ts';
import { sameData } from './seat.ts';
import { type Solid, solidOf } from './solid.ts';
import { MOST_LOOKED_AT } from './through.ts';

/*
 * How far the leaf of a hinge swings until metal meets metal, with all that hangs on it, and how near it comes to what stands still.
 */

export const SWING = /^(swing|clearance-least)$/;

/** Where a swing ends, and what it meets there; at 180° nothing more is looked at. */
export interface End {
  /** Degrees, outward above nought. */
  readonly angle: number;
  readonly meets?: string;
}

export interface Swing {
  readonly inward: End;
  readonly outward: End;
  /** Within the swing that is asked for, or else the whole of it, to all but the two leaves to each other; nothing where nothing is near. */
  readonly least?: { readonly clear: number; readonly angle: number; readonly between: string };
}

/** Nothing where it is not known: the pin, a place, or what goes along with the leaf. */
export const swingOf = ofThing('hinge', undefined, (hinge, model) => swingFor(model, hinge), { same: sameData });

function swingFor(model: Model, hinge: HingeModel): Swing | undefined {
  const link = hingedBy(hinge).links[0];
  const group = link && groupOf(model).get(link.one.unit);
  const pose = link && unitMotion(model, link.one.unit);
  if (!link?.axis || !group || !pose || group.bodies.length > MOST_LOOKED_AT) return undefined;
  const axis: Axis = { point: moved(pose.motion, link.axis.point), along: turned(pose.motion, link.axis.along) };
  const parts = partsOf(model, hinge, link, group);
  const thickness = link.one.piece.thickness();
  const barrel = thickness === undefined ? undefined : hinge.barrel(thickness);
  if (!parts || barrel === undefined) return undefined;
  const all = meetingsOf(parts, axis, barrel + 1);
  const rest = link.angle;
  const out = sweep(axis, all, 0, Math.PI - rest, 'stop');
  const fold = (-foldOf(hinge, link) * Math.PI) / 180;
  const back = fold < rest ? sweep(axis, all, 0, fold - rest, 'stop') : undefined;
  const end = (found: Closest | undefined, else_: End): End =>
    found ? { angle: degrees(found.angle + rest), meets: all[found.which]!.names[0] } : else_;
  const inward = end(back?.stop, {
    angle: degrees(Math.max(fold, -Math.PI)),
    ...(fold > -Math.PI ? { meets: 'the edge of the other leaf' } : {}),
  });
  const outward = end(out.stop, { angle: 180 });
  const asked = hinge.swing() ?? { from: inward.angle, to: outward.angle };
  const leaves = new Set([link.one.piece, link.other.piece]);
  const others = all.filter(({ pieces }) => !pieces.every((piece) => leaves.has(piece)));
  const [from, to] = [Math.max(asked.from, inward.angle), Math.min(asked.to, outward.angle)].map(
    (angle) => (angle * Math.PI) / 180 - rest,
  ) as [number, number];
  const near = others.length && from <= to ? sweep(axis, others, from, to, 'least') : undefined;
  const least = near?.least;
  return {
    inward,
    outward,
    ...(least
      ? {
          least: {
            clear: Math.max(0, least.clear),
            angle: degrees(least.angle + rest),
            between: others[least.which]!.names.join(' and '),
          },
        }
      : {}),
  };
}

const degrees = (angle: number): number => (angle * 180) / Math.PI;

/** By how much the leaves fold away from the pin before their own edges meet, degrees. */
function foldOf(hinge: HingeModel, { one, other }: HingeLink): number {
  const wide = hinge.wide();
  const pin = hinge.pin()?.thickness()?.value;
  const thickness = Math.max(one.piece.thickness() ?? 0, other.piece.thickness() ?? 0);
  // Beside the knuckles the edges butt; a bought hinge leaves them whole.
  const isWhole = wide !== undefined && [one, other].some(({ length }) => length < wide + BESIDE);
  if (hinge.part() || !isWhole || pin === undefined) return 0;
  const [leaf] = hinge.leaves();
  const notch = leaf && hinge.notchIn(leaf);
  return notch === undefined ? 0 : foldInward({ pin, thickness, notch });
}
/** So much less than its edge a hinge may be and still take all of it, mm. */
const BESIDE = 1;

interface Parts {
  readonly still: readonly PlacedBody[];
  readonly turning: readonly PlacedBody[];
}

/** What goes along with the second leaf, and what stays with the first. */
function partsOf(model: Model, hinge: HingeModel, link: HingeLink, group: Group): Parts | undefined {
  const key = hinge.named.word.key;
  const reached = (isKept: (bond: string) => boolean): ReadonlySet<string> => {
    const found = new Set([link.other.unit]);
    for (const unit of found)
      for (const { seam, one, other } of group.ties) {
        if (seam === key || !isKept(seam)) continue;
        if (one === unit) found.add(other);
        if (other === unit) found.add(one);
      }
    return found;
  };
  // Where it comes round to the first leaf by other pins, these are taken out.
  const isStiff = (bond: string) => model.file.find(bond)?.kind === 'seam';
  const goes = [reached(() => true), reached(isStiff)].find((units) => !units.has(link.one.unit));
  if (!goes) return undefined;
  const placed = placedGroup(model, group).bodies;
  const unitOf = new Map(group.bodies.map(({ id, unit }) => [id, unit]));
  const isAlong = ({ body }: PlacedBody) => goes.has(unitOf.get(body.id) ?? '');
  return { turning: placed.filter(isAlong), still: placed.filter((body) => !isAlong(body)) };
}

interface Meeting extends Encounter {
  readonly names: readonly [still: string, turning: string];
  readonly pieces: readonly [PlacedBody['body']['piece'], PlacedBody['body']['piece']];
  readonly key: string;
}

/** Every two plates that could meet, without what lies so near to the pin that it is the hinge's own. */
function meetingsOf({ still, turning }: Parts, axis: Axis, radius: number): Meeting[] {
  const parts = (bodies: readonly PlacedBody[]) =>
    bodies.flatMap((placed) => {
      const solid = solidOf(placed);
      if (!solid) return [];
      const own: Axis = {
        point: moved(undone(solid.motion), axis.point),
        along: turned(undone(solid.motion), axis.along),
      };
      const tree = freeOf(solid, own, radius);
      return [{ placed, solid, tree, reach: reachAbout(own, tree) }];
    });
  const others = parts(turning);
  return parts(still).flatMap((one) =>
    others.flatMap((other): Meeting[] => {
      const touching = one.solid.half + other.solid.half;
      const isNear = (['away', 'along'] as const).every(
        (of) => one.reach[of][0] <= other.reach[of][1] + touching && other.reach[of][0] <= one.reach[of][1] + touching,
      );
      if (!isNear) return [];
      const room = restingRoom(one.tree, other.tree, after(undone(one.solid.motion), other.solid.motion), touching);
      if (room === undefined) return [];
      return [
        {
          still: one.tree,
          stillAt: one.solid.motion,
          turning: other.tree,
          turningAt: other.solid.motion,
          touching: room,
          names: [bodyName(one.placed.body), bodyName(other.placed.body)],
          pieces: [one.placed.body.piece, other.placed.body.piece],
          key: JSON.stringify([one.solid.id, one.solid.motion, other.solid.id, other.solid.motion, room, axis, radius]),
        },
      ];
    }),
  );
}

/**
 * How near their middles may come. What lies on each other as it stands may go on to do so; what runs through each other then is no
 * matter of the swing.
 */
function restingRoom(one: MeshTree, other: MeshTree, motion: Motion, touching: number): number | undefined {
  const near = nearestBetween(one, other, motion, { within: touching + RUBS });
  if (!near) return touching;
  return near.apart < touching / 2 ? undefined : near.apart - RUBS;
}
/** What triangles in place of curves may hide, mm. */
const RUBS = 0.3;

const free = new WeakMap<MeshTree, Map<string, MeshTree>>();

function freeOf({ tree }: Solid, axis: Axis, radius: number): MeshTree {
  const key = JSON.stringify([axis, radius]);
  const known = free.get(tree) ?? new Map<string, MeshTree>();
  free.set(tree, known);
  let found = known.get(key);
  if (!found) {
    const isNear = reachAbout(axis, tree).away[0] < radius;
    const { positions, triangles } = isNear
      ? clearOf({ positions: tree.positions, triangles: tree.corners }, axis, radius)
      : NO_MESH;
    found = isNear ? new MeshTree(positions, triangles) : tree;
    known.clear();
    known.set(key, found);
    pause();
  }
  return found;
}
const NO_MESH = { positions: new Float64Array(), triangles: new Uint32Array() };

/** The last sweeps, by all that they hang on. */
const sweeps = new Dear<Swept>(64);

const sweep = (axis: Axis, all: readonly Meeting[], from: number, to: number, wants: 'stop' | 'least') =>
  sweeps.get(JSON.stringify([all.map(({ key }) => key), from, to, wants]), () =>
    sweptInSteps(axis, all, from, to, wants),
  );

/** Adds `swing`, degrees, and `clearance-least`, mm. */
export function addSwing(hinge: HingeModel, set: FigureSet): void {
  const joins = hinge.line('joins');
  const swing = joins && swingOf(hinge);
  if (!joins || !swing) return;
  const { inward, outward, least } = swing;
  const place = hinge.line('swing')?.place ?? joins.place;
  const inputs = [...new Set(hinge.leaves().map(({ piece }) => `${piece.name}.area`))];
  const note = [
    `From where the leaves go on into each other: outward ${toldEnd(outward)}, inward ${toldEnd({ ...inward, angle: -inward.angle })}.`,
    'Rivet heads, wire and straps are not looked at, nor what lies within a knuckle’s thickness of the pin.',
  ].join(' ');
  set.add(
    'swing',
    'swing until metal meets metal',
    swingBetween({ out: outward.angle, back: inward.angle, note }),
    place,
    inputs,
    { decimals: 1 },
  );
  if (least)
    set.add(
      'clearance-least',
      'least room as it swings',
      leastRoom({
        room: least.clear,
        angle: least.angle,
        note: `Between ${least.between}${hinge.swing() ? ', within the swing that is asked for' : ''}.`,
      }),
      place,
      inputs,
      { decimals: 1 },
    );
}

const toldEnd = ({ angle, meets }: End): string => {
  const turn = `${Math.round(10 * angle) / 10 + 0}°`;
  return meets ? `${turn}, where it meets ${meets}` : angle >= 180 ? 'all the way round to 180°' : turn;
};
