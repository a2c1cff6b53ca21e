import { type InlayHint, InlayHintKind, type Range } from 'vscode-languageserver-types';
import type { Place } from '../../grammar/tree.ts';
import { type Figure, shown } from '../model/figure.ts';
import { show, showSize } from '../model/show.ts';
import { figureText } from './figure-text.ts';
import type { View } from './workspace.ts';

export interface HintSettings {
  readonly enabled: boolean;
  readonly blankSize: boolean;
  readonly rivetLength: boolean;
  readonly thickness: boolean;
}

export const ALL_HINTS: HintSettings = { enabled: true, blankSize: true, rivetLength: true, thickness: true };

/** What a line comes to, written behind it: the blank of a form, the rivet that a seam needs, what a gauge is. */
export function inlayHintsIn(view: View, range: Range, settings: HintSettings): InlayHint[] {
  if (!settings.enabled) return [];
  const from = view.offsetAt(range.start);
  const to = view.offsetAt(range.end);
  const hints: { at: number; hint: InlayHint }[] = [];
  const add = (place: Place, label: string, figures: readonly (Figure | undefined)[]) => {
    const at = place.section.start + place.to;
    if (at < from || at > to) return;
    const tooltip = figures.flatMap((figure) => (figure ? [figureText(figure, view.system)] : [])).join('\n\n');
    hints.push({
      at,
      hint: {
        position: view.positionAt(at),
        label,
        kind: InlayHintKind.Parameter,
        paddingLeft: true,
        ...(tooltip ? { tooltip: { kind: 'markdown', value: tooltip } } : {}),
      },
    });
  };
  const { model, system } = view;
  for (const section of view.spec.sections) {
    // Only what is in view is worked out: opening a long file must not compute all of it.
    if (section.start > to || section.start + section.text.length < from || !section.name) continue;
    const named = model.file
      .names()
      .get(section.name.key)
      ?.find((each) => each.section === section);
    if (!named) continue;
    if (named.kind === 'material' && settings.thickness) {
      const material = model.materialOf(named);
      const thickness = material.thickness();
      const stock = material.stock();
      if (thickness && stock && thickness.basis !== 'from the spec')
        add(stock.place, `= ${shown(thickness, system, false)}`, [thickness]);
    } else if (named.kind === 'piece' && settings.blankSize) {
      const piece = model.pieceOf(named);
      const form = piece.formLine();
      const blank = piece.blank();
      if (form && blank && form.line.section === section) {
        const round = blank.shape.kind === 'round';
        const size = round
          ? `disc ${show(blank.long, 'mm', system, { decimals: 1 })}`
          : showSize(blank.long, blank.wide, system);
        const mass = piece.figure('mass');
        add(form.place, `blank ${size}${mass ? `, ${shown(mass, system, false)}` : ''}`, [
          piece.figure(round ? 'blank.diameter' : 'blank.long'),
          ...(round ? [] : [piece.figure('blank.wide')]),
          mass,
        ]);
      }
    } else if (named.kind === 'seam' && settings.rivetLength) {
      const seam = model.seamOf(named);
      const line = seam.rivetsLine();
      const needed = seam.figure('rivet-length');
      const count = seam.figure('rivets');
      if (!line || !(needed || count)) continue;
      const parts = [
        needed ? `needs ${shown(needed, system, false)}` : '',
        count ? `${shown(count, system, false)} rivets${seam.rows() > 1 ? ` × ${seam.rows()}` : ''}` : '',
      ];
      add(line.place, parts.filter(Boolean).join(', '), [needed, count]);
    }
  }
  return hints.sort((a, b) => a.at - b.at).map(({ hint }) => hint);
}
