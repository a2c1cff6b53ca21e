import { trim } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { seams } from '../../support/things.ts';

export const check: Check = {
  code: 'galvanic-pair',
  title: 'Two metals that corrode each other',
  family: 'Finish and order',
  severity: 'information',
  what: 'Once for each pair of metals: two metals of a seam, plates or rivet, lie more than 0.25 V apart in the galvanic table. Up to 0.5 V is borne in dry rooms only: brass on steel, as on every trimmed helm, lies near that.',
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
    // A spec is told once of each pair, at the first seam that has it.
    const said = new Set<string>();
    for (const { seam, least, most } of pairs(model)) {
      const pair = `${least.name} ${most.name}`;
      if (said.has(pair)) continue;
      said.add(pair);
      const apart = most.index - least.index;
      const limit =
        apart <= 0.505
          ? 'more than a store allows (0.25 V): keep it dry'
          : 'more than even a dry room allows (0.5 V): keep them apart with paint or leather';
      const name = seam.rivetsLine()?.filled('rivet');
      report(name ? { section: seam.named.section, from: name.from, to: name.to } : seam.place, {
        message: `${capital(least.name)} on ${most.name}: ${trim(apart, 2)} V apart, ${limit}, or the ${most.name} corrodes.`,
      });
    }
  },
};

/** Seams whose metals lie too far apart, with the two that lie farthest. */
const pairs = seams.list((seam) => {
  let least: { name: string; index: number } | undefined;
  let most: { name: string; index: number } | undefined;
  const add = (name: string, index: number | undefined) => {
    if (index === undefined) return;
    if (!least || index < least.index) least = { name, index };
    if (!most || index > most.index) most = { name, index };
  };
  for (const stack of seam.stacks()) {
    for (const layer of stack.layers) {
      const metal = layer.piece?.material()?.metal();
      if (metal) add(metal.title, metal.anodicIndex?.value);
    }
  }
  const rivet = seam.rivet()?.metal();
  if (rivet) add(rivet.title, rivet.anodicIndex?.value);
  return least && most && most.index - least.index > 0.25 ? [{ seam, least, most }] : [];
});

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
