import { InlayHintRequest, InlayHintResolveRequest } from 'vscode-languageserver';
import { type InlayHint, InlayHintKind, type Range, type TextEdit } from 'vscode-languageserver-types';
import type { Place, Section, Span } from '../../../grammar/tree.ts';
import { say } from '../../../l10n/say.ts';
import { atOnce, type Steps } from '../../incremental/steps.ts';
import { type Figure, shown } from '../../model/values/figure.ts';
import { inches, isInches, type System, show, showBlankSize, unitOf } from '../../model/values/show.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import { figureText } from '../text/figure-text.ts';
import type { HintSettings } from '../workspace/settings.ts';
import type { View } from '../workspace/workspace.ts';

export const feature: Feature = {
  capability: () => ({ inlayHintProvider: { resolveProvider: true } }),
  requests: [
    aboutOne(InlayHintRequest.type, {
      what: 'inlay hints',
      empty: [],
      answer: (view, { range }, server) =>
        inlayHintsInSteps(view, range, server.settingsOf(view.uri).hints, { lazily: server.client.resolvesHints }),
    }),
    aboutOne(InlayHintResolveRequest.type, {
      what: 'inlay hints',
      empty: (hint) => hint,
      uri: (hint) => hintUri(hint),
      answer: (view, hint) => resolveHint(view, hint),
    }),
  ],
};

export interface HintOptions {
  /** The editor asks for the working behind a hint only when somebody points at it. */
  readonly lazily: boolean;
}

/** What a lazy hint keeps of itself. */
interface HintData {
  readonly uri: string;
  readonly figures: readonly string[];
}

/**
 * What a line comes to, written behind it: the blank of a form, the rivet that a seam needs, what a gauge is.
 *
 * @tests in one go: who may not wait asks for the steps
 */
export const inlayHintsIn = (
  view: View,
  range: Range,
  settings: HintSettings,
  options: HintOptions = { lazily: false },
): InlayHint[] => atOnce(inlayHintsInSteps(view, range, settings, options));

function* inlayHintsInSteps(
  view: View,
  range: Range,
  settings: HintSettings,
  options: HintOptions,
): Steps<InlayHint[]> {
  if (!settings.enabled) return [];
  const from = view.offsetAt(range.start);
  const to = view.offsetAt(range.end);
  const hints: { at: number; hint: InlayHint }[] = [];
  const add = (place: Place, label: string, all: readonly (Figure | undefined)[], write?: string) => {
    const at = place.section.start + place.to;
    if (at < from || at > to) return;
    const figures = all.filter((figure) => figure !== undefined);
    const position = view.positionAt(at);
    const data: HintData = { uri: view.uri, figures: figures.map(({ name }) => name) };
    const textEdits: TextEdit[] =
      write === undefined ? [] : [{ range: { start: position, end: position }, newText: write }];
    hints.push({
      at,
      hint: {
        position,
        label,
        kind: InlayHintKind.Parameter,
        paddingLeft: true,
        ...(textEdits.length ? { textEdits } : {}),
        ...(options.lazily ? { data } : tooltipOf(view, figures)),
      },
    });
  };
  const { model, system } = view;
  for (const section of view.spec.sections) {
    // Only what is in view is worked out: opening a long file must not compute all of it.
    if (section.start > to || section.start + section.text.length < from || !section.name) continue;
    yield undefined;
    const named = model.file.bearersOf(section.name.key).find((each) => each.section === section);
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
          ? say`disc ${show(blank.long, 'mm', system, { decimals: 1, up: true })}`
          : showBlankSize(blank.long, blank.wide, system);
        const mass = piece.figure('mass');
        add(
          form.place,
          say`blank ${size}${mass ? say`, ${shown(mass, system, false)}` : ''}`,
          [piece.figure(round ? 'blank.diameter' : 'blank.long'), ...(round ? [] : [piece.figure('blank.wide')]), mass],
          piece.line('blank') || isFollowed(section, form.line)
            ? undefined
            : `${view.lineEnd}  blank ${round ? `disc ${written(blank.long, system)}` : writtenSize(blank, system)}`,
        );
      }
    } else if (named.kind === 'seam' && settings.rivetLength) {
      const seam = model.seamOf(named);
      const line = seam.rivetsLine();
      const needed = seam.figure('rivet-length');
      const count = seam.figure('rivets');
      if (!line || !(needed || count)) continue;
      const parts = [
        needed ? say`needs ${shown(needed, system, false)}` : '',
        count
          ? `${count.value === 1 ? say`${shown(count, system, false)} rivet` : say`${shown(count, system, false)} rivets`}${seam.rows() > 1 ? ` × ${seam.rows()}` : ''}`
          : '',
      ];
      add(line.place, parts.filter(Boolean).join(', '), [needed, count]);
    }
  }
  return hints.sort((a, b) => a.at - b.at).map(({ hint }) => hint);
}

/** The hint with the working of its figures. */
export function resolveHint(view: View, hint: InlayHint): InlayHint {
  const { figures = [] } = (hint.data ?? {}) as Partial<HintData>;
  const found = figures.flatMap((name) => {
    const dot = name.indexOf('.');
    const named = dot > 0 ? view.file.find(name.slice(0, dot).toLowerCase()) : undefined;
    return (named && view.model.figureOf(named, name.slice(dot + 1))) ?? [];
  });
  return { ...hint, ...tooltipOf(view, found) };
}

const hintUri = (hint: InlayHint): string => {
  const uri = (hint.data as Partial<HintData> | undefined)?.uri;
  return typeof uri === 'string' ? uri : '';
};

function tooltipOf(view: View, figures: readonly Figure[]): Pick<InlayHint, 'tooltip'> {
  const value = figures.map((figure) => figureText(figure, view.system)).join('\n\n');
  return value ? { tooltip: { kind: 'markdown', value } } : {};
}

/** Something stands behind the line on its row, or the next line belongs to it: the corners of an outline, the levels of a form. */
const isFollowed = (section: Section, line: Span): boolean => {
  const next = section.lines.find((each) => each.from >= line.to);
  return /^[^\S\r\n]*[^\s]/.test(section.text.slice(line.to)) || /^(to|arc|at)\b/.test(section.text.slice(next?.from));
};

/** As a spec says it, rounded up: to a tenth of a millimetre, to the build's fraction of an inch or a thousandth. */
const number = (value: number, system: System): string =>
  isInches(system) ? inches(value, system, true) : String(Math.ceil(value * 10 - 1e-6) / 10);
const written = (value: number, system: System): string => `${number(value, system)} ${unitOf(system)}`;
const writtenSize = (blank: { long: number; wide: number }, system: System): string =>
  `${number(blank.long, system)} x ${number(blank.wide, system)} ${unitOf(system)}`;
