import { say } from '../../../../l10n/say.ts';
import type { MaterialModel } from '../../../model/things/material.ts';
import type { RivetModel } from '../../../model/things/rivet.ts';
import { capital } from '../../../model/values/prose.ts';
import { trim } from '../../../model/values/show.ts';
import { platingIndex } from '../../../trade/metal/metals.ts';
import type { Check } from '../../check.ts';
import { pieces, seams } from '../../support/things.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'galvanic-pair',
  title: 'Two metals that corrode each other',
  family: 'Finish and order',
  severity: 'information',
  what: 'Once for each pair of metals: two metals of a seam, plates or rivet, or a plate and the wire in its edge, lie more than 0.25 V apart in the galvanic table, each by what it is plated with. A rivet that passes leather is judged only past 0.5 V. Up to 0.5 V is borne in dry rooms only: brass on steel, as on every trimmed helm, lies near that.',
  why: 'Where sweat or rain bridges the two, the one with the higher index rusts along the joint.',
  todo: 'Keep it dry and waxed, put leather or paint between, or choose metals that lie closer.',
  formula: 'ΔV = |index₁ − index₂|',
  source:
    'Anodic index with its limits of 0.15 V outdoors, 0.25 V in stores, 0.50 V indoors, after MIL-STD-889 and published tables',
  example: `material plate
  mild steel 1.5 mm
rivet small
  copper 4 x 8 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
  better: `material plate
  mild steel 1.5 mm
rivet small
  mild steel 4 x 8 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
  run(model, report) {
    // A spec is told once of each pair, at the first thing that has it.
    const said = new Set<string>();
    for (const { least, most, place } of [...inSeams(model), ...inRolls(model)]) {
      const pair = `${least.name} ${most.name}`;
      if (said.has(pair)) continue;
      said.add(pair);
      const apart = most.index - least.index;
      const limit =
        apart <= DRY_ROOM
          ? 'more than a store allows (0.25 V): keep it dry'
          : 'more than even a dry room allows (0.5 V): keep them apart with paint or leather';
      report(place, {
        message: say`${capital(least.name)} on ${most.name}: ${trim(apart, 2)} V apart, ${limit}, or the ${most.name} corrodes.`,
      });
    }
  },
};

interface Surface {
  readonly name: string;
  readonly index: number;
}

/** With what sums of such numbers are off. */
const DRY_ROOM = 0.505;
const STORE = 0.25;

/** What a stock shows to the wet: its plating, where it has one that is known. */
function surfaceOf(stock: MaterialModel | RivetModel | undefined): Surface | undefined {
  const metal = stock?.metal();
  if (!stock || !metal) return undefined;
  const plating = stock.plating();
  const index = plating === undefined ? metal.anodicIndex : platingIndex(plating);
  return index && { name: plating === undefined ? metal.title : `${plating} ${metal.title}`, index: index.value };
}

/** The two that lie farthest apart, where that is too far. */
function farthest(surfaces: readonly (Surface | undefined)[]): { least: Surface; most: Surface } | undefined {
  const known = surfaces.flatMap((each) => each ?? []).sort((a, b) => a.index - b.index);
  const [least, most] = [known[0], known.at(-1)];
  return least && most && most.index - least.index > STORE ? { least, most } : undefined;
}

/** Seams whose metals lie too far apart. */
const inSeams = seams.list((seam) => {
  const stacks = seam.stacks();
  const plates = stacks.flatMap(({ layers }) => layers.map(({ piece }) => surfaceOf(piece?.material())));
  const withRivet = farthest([...plates, surfaceOf(seam.rivet())]);
  // A copper rivet through a strap and its plate is how it is done: leather is waxed, and the head lies on it.
  const isStrap = stacks.length > 0 && stacks.every(({ layers }) => layers.some(({ soft }) => soft));
  const found =
    withRivet && isStrap && withRivet.most.index - withRivet.least.index <= DRY_ROOM ? farthest(plates) : withRivet;
  if (!found) return [];
  const name = seam.rivetsLine()?.filled('rivet');
  return [{ ...found, place: name ? { section: seam.named.section, from: name.from, to: name.to } : seam.place }];
});

/** Wires in the edges of a plate of another metal. */
const inRolls = pieces.list((piece) =>
  piece.edgeWorks().flatMap(({ line, wire }) => {
    const found = wire && farthest([surfaceOf(piece.material()), surfaceOf(wire)]);
    return found ? [{ ...found, place: placeIn(piece, line) }] : [];
  }),
);
