import type { Place, Section } from '../../../grammar/tree.ts';
import type { WorkKind } from '../../trade/usual/rates.ts';
import { gathered } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import type { HingeModel } from '../things/hinge.ts';
import type { JointModel } from '../things/joint.ts';
import type { PieceModel } from '../things/piece.ts';
import type { RivetModel } from '../things/rivet.ts';
import type { SeamModel } from '../things/seam.ts';
import { type Operation, operation, type Quantity, quantityOf, times } from './operation.ts';

/** What is done where pieces meet: they are fitted, drilled through together, and joined. */
export interface LinkWork {
  /** The pieces that meet, by their sections. */
  readonly pieces: readonly Section[];
  readonly soft: readonly Section[];
  /** The rivets it takes. */
  readonly rivets: readonly Section[];
  /** Done at the leaves before they meet: knuckles. */
  readonly early: readonly Operation[];
  readonly fit: Operation;
  readonly match: readonly Operation[];
  readonly joins: readonly Operation[];
  /** Whether leather or cloth hangs on it. */
  readonly isSoft: boolean;
}

export const linkWork = (model: Model): readonly LinkWork[] => [
  ...ofSeams(model),
  ...ofHinges(model),
  ...ofJoints(model),
];

const ofSeams = gathered('seam', (seam) => [seamWork(seam)]);
const ofHinges = gathered('hinge', (hinge) => [hingeWork(hinge)]);
const ofJoints = gathered('joint', (joint) => [jointWork(joint)]);

function seamWork(seam: SeamModel): LinkWork {
  const done = doneAt(seam, 'seam');
  const layers = seam.stacks().flatMap((stack) => stack.layers);
  const pieces = unique([...layers.flatMap(({ piece }) => piece ?? []), ...seam.along().map(({ piece }) => piece)]);
  const meetings = seam
    .stacks()
    .reduce((sum, stack) => sum + Math.max(0, stack.layers.length - 1) * seam.rowsOf(stack), 0);
  const rivets = seam.figure('rivets');
  const holes = rivets && times(quantityOf(rivets), seam.rows());
  const row = seam.length();
  const long = row && times({ value: row.value, inputs: [`${seam.name}.length`] }, seam.rows());
  // Rivets that it shares are set with the seam that they are of.
  const isRiveted = seam.rivetsLine() !== undefined && !seam.shares().length;
  const joins = seam.lines.flatMap((line): Operation[] => {
    switch (line.id) {
      case 'rivets':
        return isRiveted ? [done('rivet', line.place, holes)] : [];
      case 'weld':
      case 'solder':
      case 'lace':
      case 'sew':
        return [done(line.id, line.place, long)];
      default:
        return [];
    }
  });
  const straps = seam.lines.flatMap((line, i) =>
    line.is('strap') ? [done('strap', line.place, { value: line.count('count', 'count') ?? 1 }, i)] : [],
  );
  return {
    ...meeting(pieces, seam.rivet()),
    early: [],
    fit: done('fit', seam.place, { value: Math.max(1, meetings) }),
    match: isRiveted ? [done('match', seam.rivetsLine()!.place, holes)] : [],
    joins: [...joins, ...straps],
    isSoft:
      layers.some(({ soft }) => soft) ||
      straps.length > 0 ||
      seam.line('lace') !== undefined ||
      seam.line('sew') !== undefined,
  };
}

function hingeWork(hinge: HingeModel): LinkWork {
  const done = doneAt(hinge, 'hinge');
  const pieces = unique(hinge.leaves().map(({ piece }) => piece));
  const make = hinge.make();
  const knuckles = hinge.line('knuckles');
  const held = hinge.rivets();
  const place = (hinge.line('over') ?? hinge.line('bought'))?.place ?? hinge.place;
  const number = knuckles?.count('knuckles');
  const holes = held && { value: held.count * make };
  return {
    ...meeting(pieces, held?.rivet),
    early: knuckles
      ? [done('knuckles', knuckles.place, number === undefined ? undefined : { value: number * make })]
      : [],
    fit: done('fit', hinge.place, { value: make }),
    match: held ? [done('match', place, holes)] : [],
    joins: held ? [done('rivet', place, holes)] : [done('pin', place, { value: make })],
    isSoft: false,
  };
}

function jointWork(joint: JointModel): LinkWork {
  const done = doneAt(joint, 'joint');
  const pieces = unique(joint.plates().map(({ piece }) => piece));
  const make = joint.make();
  const rivets = joint.figures().get('rivets');
  const holes = rivets && times(quantityOf(rivets), make);
  const place = (joint.line('pivots') ?? joint.line('slides') ?? joint.line('leathers'))?.place ?? joint.place;
  return {
    ...meeting(pieces, joint.pivots()[0]?.rivet),
    early: [],
    fit: done('fit', joint.place, { value: Math.max(1, joint.pairs().length) * make }),
    match: [done('match', place, holes)],
    joins: [done('rivet', place, holes)],
    isSoft: joint.leathers().length > 0,
  };
}

const meeting = (pieces: readonly PieceModel[], rivet: RivetModel | undefined) => ({
  pieces: pieces.map(({ named }) => named.section),
  soft: pieces.filter((piece) => piece.material()?.kind() === 'soft').map(({ named }) => named.section),
  rivets: rivet ? [rivet.named.section] : [],
});

const doneAt =
  ({ name, named }: SeamModel | HingeModel | JointModel, kind: Operation['of']['kind']) =>
  (work: WorkKind, place: Place, quantity: Quantity | undefined, nth?: number): Operation =>
    operation({
      of: { kind, name },
      section: named.section,
      place,
      kind: work,
      quantity,
      ...(nth === undefined ? {} : { nth }),
    });

const unique = <T>(all: readonly T[]): T[] => [...new Set(all)];
