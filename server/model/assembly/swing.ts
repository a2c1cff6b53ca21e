import { say, translated } from '../../../l10n/say.ts';
import { moved, turned } from '../../geometry/motion/motion.ts';
import type { Axis, Closest } from '../../geometry/motion/sweep.ts';
import { foldInward } from '../../trade/hinge/hinge.ts';
import { leastRoom, swingBetween } from '../../trade/hinge/swing.ts';
import { ofThing } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import type { HingeModel } from '../things/hinge.ts';
import type { FigureSet } from '../values/figure-set.ts';
import { type HingeLink, hingedBy } from './hinged.ts';
import { groupOf, unitMotion } from './pose.ts';
import { sameData } from './seat.ts';
import { type End, meetingsOf, type PlannedPlate, partsOf, sweep } from './sweeping.ts';
import { MOST_LOOKED_AT } from './through.ts';

/*
 * How far the leaf of a hinge swings until metal meets metal, with all that hangs on it, and how near it comes to what stands still.
 */

export const SWING = /^(swing|clearance-least)$/;

export interface Swing {
  /** Degrees, outward above nought; at 180° nothing more is looked at. */
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
  const [stays, turns] = [link.one, link.other].map(({ unit, piece }) => ({ unit, piece: piece.named.word.key })) as [
    PlannedPlate,
    PlannedPlate,
  ];
  const parts = partsOf(model, group, { turns, stays, cut: hinge.named.word.key });
  const thickness = link.one.piece.thickness();
  const barrel = thickness === undefined ? undefined : hinge.barrel(thickness);
  if (!parts || barrel === undefined) return undefined;
  const all = meetingsOf(parts, axis, barrel + 1).filter(({ isThrough }) => !isThrough);
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
            between: others[least.which]!.names.join(translated(' and ')),
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

/** Adds `swing`, degrees, and `clearance-least`, mm. */
export function addSwing(hinge: HingeModel, set: FigureSet): void {
  const joins = hinge.line('joins');
  const swing = joins && swingOf(hinge);
  if (!joins || !swing) return;
  const { inward, outward, least } = swing;
  const place = hinge.line('swing')?.place ?? joins.place;
  const inputs = [...new Set(hinge.leaves().map(({ piece }) => `${piece.name}.area`))];
  const note = [
    say`From where the leaves go on into each other: outward ${toldEnd(outward)}, inward ${toldEnd({ ...inward, angle: -inward.angle })}.`,
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
        note: say`Between ${least.between}${hinge.swing() ? say`, within the swing that is asked for` : ''}.`,
      }),
      place,
      inputs,
      { decimals: 1 },
    );
}

const toldEnd = ({ angle, meets }: End): string => {
  const turn = `${Math.round(10 * angle) / 10 + 0}°`;
  return meets ? say`${turn}, where it meets ${meets}` : angle >= 180 ? 'all the way round to 180°' : turn;
};
