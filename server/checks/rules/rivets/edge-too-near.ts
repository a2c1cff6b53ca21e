import { say } from '../../../../l10n/say.ts';
import { NONE } from '../../../model/forms/answers.ts';
import { kindOf } from '../../../model/forms/index.ts';
import type { LineReading } from '../../../model/names/line-reading.ts';
import type { SeamModel } from '../../../model/things/seam.ts';
import type { Check } from '../../check.ts';
import { edgeDistanceOf, rivetHoleOf, softEdgeDistanceOf } from '../../support/limits.ts';
import { lengthShown } from '../../support/rivets.ts';
import { changingLength, nextUp, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'edge-too-near',
  title: 'A row of rivets sits too near the edge',
  family: 'Rivets',
  severity: 'warning',
  what: 'The inset, from the edge to the middle of the hole, is less than two shank diameters; so is what an overlap, a narrow plate or a binding leaves on the other side of the row; in a stack with leather less than three and less than 10 mm. A hole that breaks out of the edge is an error.',
  why: 'The rivet tears out through the strip of metal that is left.',
  todo: 'Move the row in, or take a thinner rivet.',
  formula: 'e ≥ 2 × D; in leather e ≥ 3 × D and at least 10 mm',
  source:
    'FAA AC 43.13-1B: at least 2 D; for leather “3 D or 10 mm”, common practice (no source): what falls short of both is marked, and the greater is offered',
  example: `material plate
  mild steel 1.5 mm
rivet small
  brass 4 x 10 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, every 28 mm, inset 5 mm, peened domed
`,
  better: `material plate
  mild steel 1.5 mm
rivet small
  brass 4 x 10 mm, domed
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
  riveted({ seam, rivet, size, stacks }, report, model) {
    const system = model.units();
    const inset = seam.inset();
    const line = seam.rivetsLine()!;
    const filled = line.filled('inset', 'inset');
    if (inset === undefined || !filled) return;
    const soft = stacks.some((stack) => stack.layers.some((layer) => layer.soft));
    const metal = edgeDistanceOf(size.shank).least.value;
    const leather = soft ? softEdgeDistanceOf(size.shank) : undefined;
    const least = Math.max(metal, leather?.value ?? 0);
    for (const { name, left, line: at } of farEdges(seam, inset)) {
      if (left >= metal - 0.05) continue;
      const isOut = left <= rivetHoleOf(size.shank).value / 2;
      report(at?.place ?? placeOf(line, filled), {
        severity: isOut ? 'error' : undefined,
        message: say`${lengthShown(Math.max(0, left), system)} in from the edge of “${name}” on its other side, this row ${isOut ? say`breaks out of it` : say`is too near it for a ${lengthShown(size.shank, system, rivet)} shank`}: at least ${lengthShown(metal, system)} (2 D).`,
      });
    }
    if (inset >= Math.max(metal, leather?.low ?? 0) - 0.05) return;
    const hole = rivetHoleOf(size.shank).value;
    const out = inset <= hole / 2;
    report(placeOf(line, filled), {
      severity: out ? 'error' : undefined,
      message: out
        ? say`A ${lengthShown(hole, system)} hole ${lengthShown(inset, system)} from the edge breaks out of it: inset at least ${lengthShown(least, system)}.`
        : say`An inset of ${lengthShown(inset, system)} is too near the edge for a ${lengthShown(size.shank, system, rivet)} shank: at least ${lengthShown(least, system)}${soft && least > metal ? say` in leather` : ' (2 D)'}.`,
      fixes: changingLength(
        line,
        { slot: 'inset', qualifier: 'inset' },
        nextUp(least, line.expressions('inset', 'inset')[0]),
        (text) => say`Set the row ${text} in`,
        true,
      ),
    });
  },
};

/** How far a row lies from the edges on its other side: of the plate below an overlap, of a narrow plate, of a binding; mm. */
function farEdges(
  seam: SeamModel,
  inset: number,
): readonly { readonly name: string; readonly left: number; readonly line?: LineReading }[] {
  const first = seam.along()[0];
  const overlap = seam.line('overlap');
  const over = overlap?.length('overlap');
  const below = seam.stacks()[0]?.layers.find(({ piece, soft }) => piece && !soft && piece !== first?.piece)?.piece;
  const lapped =
    // A row beside the plate below does not touch it: that is another check.
    overlap && over !== undefined && over > inset && below && first
      ? [{ name: below.name, left: over - inset, line: overlap }]
      : [];
  const narrow = seam.along().flatMap(({ piece, edge }) => {
    const form = piece.form();
    const square = form ? kindOf(form).square(form) : NONE;
    if (square === NONE || piece.material()?.kind() !== 'sheet') return [];
    const across = edge === 'top' || edge === 'bottom' ? square.high : square.wide;
    return across === undefined ? [] : [{ name: piece.name, left: across - inset }];
  });
  const bound = new Set(seam.stacks().flatMap(({ layers }) => layers.flatMap(({ piece }) => piece ?? [])));
  const bindings = [...bound].flatMap((piece) => {
    const form = piece.form();
    const band = form ? kindOf(form).band(form) : NONE;
    if (band === NONE || piece.material()?.kind() !== 'sheet') return [];
    if (!first || band.along.toLowerCase() !== `${first.piece.name}.${first.edge}`.toLowerCase()) return [];
    // One that lies elsewhere takes its rivets in its middle.
    const off = Math.abs(inset - band.inset);
    const left = off < band.wide / 2 ? band.wide / 2 - off : band.wide / 2;
    return [{ name: piece.name, left }];
  });
  return [...lapped, ...narrow, ...bindings];
}
