import { say } from '../../../l10n/say.ts';
import { massOf, wireMass } from '../../trade/mass/mass.ts';
import { counted, type Part } from '../../trade/reckoning/readings.ts';
import { gathered } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import type { JointModel } from '../things/joint.ts';
import type { PieceModel } from '../things/piece.ts';
import type { FigureSet } from '../values/figure-set.ts';
import { helmBalance } from './balance.ts';
import { fitOf } from './fit.ts';
import { jointRivets } from './joint-hardware.ts';
import { rivetCounts } from './rivet-count.ts';
import { wires } from './wires.ts';

/* What is worn on the head: the pieces that fit it, and all that seams, hinges and joints hang on them. */

/** Pieces that fit the head or the face. */
export const headPieces = gathered('piece', (piece) => {
  const region = fitOf(piece)?.region;
  return region === 'head' || region === 'face' ? [piece] : [];
});

/** Pieces that fit the head or the face, with those joined to them, and to these again. */
function helmPieces(model: Model): ReadonlySet<PieceModel> {
  const found = new Set(headPieces(model));
  if (!found.size) return found;
  const groups = [
    ...model.seams().map((seam) => seam.stacks().flatMap(({ layers }) => layers.flatMap((layer) => layer.piece ?? []))),
    ...model.hinges().map((hinge) => hinge.leaves().map(({ piece }) => piece)),
    ...model.joints().map((joint) => joint.plates().map(({ piece }) => piece)),
  ];
  for (let before = 0; before !== found.size; ) {
    before = found.size;
    for (const group of groups)
      if (group.some((piece) => found.has(piece))) for (const piece of group) found.add(piece);
  }
  return found;
}

/** Adds `helm-mass`, g: plates, wire, pins and rivets. Liner, straps and bought parts are not in it. */
export function addHelm(model: Model, set: FigureSet, place: Parameters<FigureSet['add']>[3]): void {
  const pieces = helmPieces(model);
  if (!pieces.size) return;
  const names = new Set([...pieces].map((piece) => piece.name));
  const known: Part[] = [];
  const missing: string[] = [];
  for (const piece of pieces) {
    const mass = piece.figure('mass');
    if (mass) known.push(counted(mass, piece.make()));
    else missing.push(piece.name);
  }
  const hinges = new Set(
    model.hinges().flatMap((hinge) => (hinge.leaves().some(({ piece }) => pieces.has(piece)) ? [hinge.name] : [])),
  );
  for (const { of, what, length, wire, times } of wires(model)) {
    const diameter = wire.thickness()?.value;
    const density = wire.density()?.value;
    if (!(what === 'pin' ? hinges : names).has(of) || diameter === undefined || density === undefined) continue;
    const { value } = wireMass({ length: length.value, wire: diameter, density });
    known.push({ name: length.name, times, value });
  }
  const seams = model
    .seams()
    .filter((seam) =>
      seam.stacks().some(({ layers }) => layers.some((layer) => layer.piece && pieces.has(layer.piece))),
    );
  const counts = rivetCounts(model);
  const isOnHead = (joint: JointModel) => joint.plates().some(({ piece }) => pieces.has(piece));
  const turned = jointRivets(model).flatMap(({ joint, rivet }) => (isOnHead(joint) ? [rivet] : []));
  for (const rivet of new Set([...seams.flatMap((seam) => seam.rivet() ?? []), ...turned])) {
    const mass = rivet.figures().get('mass');
    const times = counts.get(rivet);
    // A rivet that other seams use too cannot be told apart here: it weighs a gram.
    if (mass && times) known.push(counted(mass, times));
  }
  if (!known.length) return;
  const mass = set.add(
    'helm-mass',
    'mass of what is worn on the head',
    massOf(known, {
      source: 'Plates that fit the head, what is joined to them, their wire, pins and rivets',
      note: say`Without liner, straps and bought parts.${missing.length ? say` Without ${missing.join(', ')} too, whose mass is not known yet.` : ''}`,
    }),
    place,
    known.map(({ name }) => name),
  );
  const front = mass && helmBalance(model, pieces, seams, mass);
  if (front)
    set.add('helm-front', 'balance of what is worn on the head, in front of the middle of the head', front, place, [
      mass.name,
    ]);
}
