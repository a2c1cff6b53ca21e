import type { Named } from '../../model/names/spec-file.ts';
import { targetAt } from '../workspace/names.ts';
import type { Spot } from '../workspace/spot.ts';
import type { View } from '../workspace/workspace.ts';
import { domeProfile } from './dome-profile.ts';
import { edgeSection } from './edge-section.ts';
import { rivetSection } from './rivet-section.ts';
import { pictureOf, type Sketch } from './svg.ts';

/** What a small drawing shows better than words, for the line or the name at a spot. Markdown. */
export function drawingAt(view: View, spot: Spot): string | undefined {
  if (spot.comment || spot.number) return undefined;
  const sketch = sketchAt(view, spot);
  return sketch && pictureOf(sketch);
}

function sketchAt(view: View, spot: Spot): Sketch | undefined {
  const { model, system } = view;
  const found = targetAt(view, spot)?.target;
  const { section, line } = spot;
  // A rivet or a wire is drawn where it sits: by the line that names it.
  const sits = found?.kind === 'named' && line && ['rivet', 'material'].includes(found.named.kind);
  if (found?.kind === 'named' && !sits) return sketchOf(view, found.named);
  if (found?.kind === 'part') return undefined;
  const named = section.name
    ? view.file.bearersOf(section.name.key).find((each) => each.section === section)
    : undefined;
  if (!named || !line?.word) return undefined;
  if (named.kind === 'seam' && ['rivets', 'joins'].includes(line.word.id)) {
    const seam = model.seamOf(named);
    const stack = seam.stacks().find((each) => each.line.line === line) ?? seam.stacks()[0];
    return stack && rivetSection(seam, stack, system);
  }
  if (named.kind !== 'piece') return undefined;
  const piece = model.pieceOf(named);
  if (piece.formLine()?.line === line) return domeProfile(piece, system);
  const work = piece.edgeWorks().find((each) => each.line.line === line);
  return work && edgeSection(work, piece.thickness(), system);
}

function sketchOf(view: View, named: Named): Sketch | undefined {
  const { model, system } = view;
  if (named.kind === 'piece') return domeProfile(model.pieceOf(named), system);
  if (named.kind !== 'seam') return undefined;
  const seam = model.seamOf(named);
  const stack = seam.stacks()[0];
  return stack && rivetSection(seam, stack, system);
}
