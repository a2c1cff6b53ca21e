import { HoverRequest } from 'vscode-languageserver';
import { type Hover, MarkupKind, type Position } from 'vscode-languageserver-types';
import { type Filled, isWordList, type PhraseWord, type SlotType } from '../../../grammar/pattern.ts';
import type { Comment, Line, NumberExpression, Span, Word } from '../../../grammar/tree.ts';
import { listDoc, listWord, sectionsTaking, sectionWord, singleWords } from '../../../grammar/vocabulary/index.ts';
import { say, translated } from '../../../l10n/say.ts';
import type { Check } from '../../checks/check.ts';
import { quietOf } from '../../checks/quiet.ts';
import { checkOf } from '../../checks/run.ts';
import { hyphened, type Named } from '../../model/names/spec-file.ts';
import type { Figure, Severity } from '../../model/values/figure.ts';
import { show } from '../../model/values/show.ts';
import { gritSize } from '../../trade/finish/finish.ts';
import { type GaugeTableId, gaugeTableFor, gaugeTables, gaugeThickness } from '../../trade/metal/gauges.ts';
import type { MetalId } from '../../trade/metal/metals.ts';
import { drawingAt } from '../drawings/drawing-at.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import { FUNCTIONS } from '../text/arithmetic.ts';
import { figureAnswer, figureLine } from '../text/figure-text.ts';
import { code, plainText, withoutMarkup } from '../text/markdown.ts';
import { measureText, quantityText } from '../text/measure-text.ts';
import { figureAt, targetAt } from '../workspace/names.ts';
import { quietSection } from '../workspace/quiet-section.ts';
import { type Spot, spotAt } from '../workspace/spot.ts';
import type { View } from '../workspace/workspace.ts';

export const feature: Feature = {
  capability: () => ({ hoverProvider: true }),
  requests: [
    aboutOne(HoverRequest.type, {
      what: 'hover',
      empty: null,
      judged: true,
      answer: (view, { position }, { client }) =>
        hoverAt(view, position, {
          markdown: client.markdownHover,
          pictures: client.pictures,
          commands: client.commands,
        }) ?? null,
    }),
  ],
};

export interface HoverOptions {
  readonly markdown?: boolean;
  /** The editor shows pictures that lie in the text itself. */
  readonly pictures?: boolean;
  /** The editor has our commands, which a hover may link to. */
  readonly commands?: boolean;
}

/**
 * What stands at a position: first what it comes to, then a drawing of it, then what else is told in a line. It is read in passing;
 * all figures with their formulas are a click away.
 */
export function hoverAt(view: View, position: Position, options: HoverOptions = {}): Hover | undefined {
  const { markdown = true, pictures = false, commands = false } = options;
  const offset = view.offsetAt(position);
  const spot = spotAt(view, offset);
  const found = textAt(view, spot);
  const drawing = pictures && markdown ? drawingAt(view, spot) : undefined;
  const texts = [
    ...found.parts,
    ...(spot.header && spot.section === quietSection(view.spec) ? quietText(view) : []),
    ...problemTexts(view, offset),
  ];
  const more = commands && markdown && found.hasFigures ? figuresLink(view, position) : undefined;
  const [first, ...rest] = within(texts, MOST_LETTERS - (more?.said ?? 0));
  const parts = [
    ...(first === undefined ? [] : [first]),
    ...(drawing ? [drawing] : []),
    ...rest,
    ...(more ? [more.text] : []),
  ];
  if (!parts.length) return undefined;
  const value = parts.join('\n\n---\n\n');
  return {
    contents: markdown
      ? { kind: MarkupKind.Markdown, value }
      : { kind: MarkupKind.PlainText, value: withoutMarkup(value) },
    ...(found.at ? { range: view.range(spot.section.start + found.at.from, spot.section.start + found.at.to) } : {}),
  };
}

/** A hover is glanced at: no more than so many letters, drawings and addresses aside. */
const MOST_LETTERS = 850;

/** As many parts as there is room for, the first of them whatever happens. What has no room is in the panel or in Problems. */
function within(parts: readonly string[], room: number): string[] {
  const kept: string[] = [];
  let left = room;
  for (const part of parts) {
    left -= part.length + 7;
    if (left < 0 && kept.length) break;
    // Whole lines, so that no mark is left open.
    kept.push(left < 0 ? `${part.slice(0, part.lastIndexOf('\n', room))}\n…` : part);
  }
  return kept;
}

/** The way to the panel that has all figures of what stands here. */
function figuresLink(view: View, position: Position): { readonly text: string; readonly said: number } {
  const title = translated('All figures and where they come from');
  const asked = encodeURIComponent(JSON.stringify([view.uri, position]));
  return { text: `[${title}](command:planish.showFigures?${asked})`, said: title.length + 11 };
}

interface Found {
  readonly parts: readonly string[];
  readonly at?: Span;
  /** Of more than is told here the panel has the rest. */
  readonly hasFigures?: boolean;
}

function textAt(view: View, spot: Spot): Found {
  const { section, line, single, word } = spot;
  if (spot.comment) {
    const check = spot.excuse && checkOf(spot.excuse.code);
    return check ? { parts: [checkText(check)], at: spot.excuse.codeAt } : { parts: [] };
  }
  if (spot.header === 'kind' && word) {
    const kind = sectionWord(word.key);
    return kind ? { parts: [`**${kind.kind}**  \n${translated(kind.doc)}`], at: word } : { parts: [] };
  }
  if (spot.header === 'title' && section.title)
    return { parts: [...thingOf(view, spot), ...notesText(section.notes)], at: section.title, hasFigures: true };
  const target = targetAt(view, spot);
  const reached =
    spot.slot?.filled.type === 'edge' || target?.target.kind === 'part' ? undefined : figureAt(view, spot);
  if (reached && word) {
    const head = say`**${plainText(word.text)}** of ${reached.named.kind} ${plainText(reached.named.word.text)}`;
    return { parts: [head, figureAnswer(reached.figure, view.system)], at: word };
  }
  if (target && word) {
    if (target.target.kind === 'named') {
      const { named } = target.target;
      return { parts: [...namedText(view, named), ...notesText(notesOf(named))], at: target.place, hasFigures: true };
    }
    const place = target.place;
    const figures = view.model.figuresAt(lineOfPart(view, target.target.of, target.target.word));
    const own = figures.filter((figure) =>
      figure.name.toLowerCase().includes(`.${target.target.kind === 'part' ? target.target.key : ''}.`),
    );
    return {
      parts: [
        say`**${plainText(target.target.word.text)}** of ${target.target.of.kind} ${plainText(target.target.of.word.text)}`,
        ...figuresText(view, own),
      ],
      at: place,
    };
  }
  if (single) return singleText(view, spot);
  if (!line) return { parts: [] };
  const own = ownText(view, spot);
  const figures = figuresAtSpot(view, spot, line);
  const told = spot.number ? figuresBesideNumber(view, figures, spot.number) : figuresText(view, figures);
  return {
    // A number is first of all itself in other units.
    parts: [...(spot.number ? [...own, ...told] : [...told, ...own]), ...notesText(line.notes)],
    ...(spot.item ? { at: spot.number ? numberSpan(spot.number) : spot.item } : {}),
    hasFigures: figures.length > 0,
  };
}

/** The figures of a line; at one of its options those that stand at it alone. */
function figuresAtSpot(view: View, { section, bound }: Spot, line: Line): readonly Figure[] {
  const figures = view.model.figuresAt({ section, from: line.from, to: line.to });
  if (!bound || bound === line.head || !line.head) return figures;
  return figures.filter(({ place }) => place.from >= bound.from && place.to <= bound.to);
}

const numberSpan = (number: NumberExpression): Span => ({
  from: number.from,
  to: Math.max(number.to, number.unitAt?.to ?? 0),
});

// ---- words of the language, numbers --------------------------------------------------------------------------------

function ownText(view: View, spot: Spot): string[] {
  const { line, bound, slot, number, word, item } = spot;
  if (!line) return [];
  if (number) {
    // A count or a price is read by what it stands behind.
    const text = numberText(view, spot, number) ?? (bound && phraseText(bound.word));
    return text ? [text] : [];
  }
  if (slot && isWordList(slot.filled.type)) {
    const doc = listDoc(slot.filled.type, slot.filled.text);
    const canonical = listWord(slot.filled.type, slot.filled.text) ?? slot.filled.text;
    return doc ? [`**${canonical}**  \n${translated(doc)}`] : [];
  }
  if (word && item?.kind === 'word' && slot && slot.filled.type === 'edge')
    return [say`**${plainText(word.text)}**: an edge or a line of the form`, ...edgeText(view, spot)];
  if (word && slot && NAMES_MEASURE.has(slot.filled.type)) return [];
  const operation = word && slot?.filled.type === 'step' ? listDoc('operation', operationIn(slot.filled)) : undefined;
  if (operation && slot) return [`**${operationIn(slot.filled)}**  \n${translated(operation)}`];
  if (bound) return [phraseText(bound.word)];
  if (line.word) return [phraseText(line.word)];
  if (word && item === line.phrases[0]?.items[0]) {
    const others = sectionsTaking(word.key);
    if (others.length)
      return [say`${code(word.text)} is a line of ${others.map((other) => `a ${other.kind}`).join(', ')}.`];
  }
  return [];
}

/** What follows the piece in a step: `skull dish then raise`. */
const operationIn = ({ text }: Filled): string => text.split(' ').slice(1).join(' ');

const NAMES_MEASURE = new Set<SlotType>(['new name']);

function phraseText(word: PhraseWord): string {
  const example = 'example' in word ? say`  \nfor example ${code(String(word.example))}` : '';
  const later = word.computed ? '' : `\n\n*${translated('Read and kept; not computed yet.')}*`;
  return `${code(notationOf(word))}  \n${translated(word.doc)}${example}${later}`;
}

/** The notation as a smith reads it: `dome diameter, a length`. */
export const notationOf = (word: PhraseWord): string =>
  word.pattern.notation.replace(/<([^:>]+):[^>]+>/g, '‹$1›').replace(/(?<=[([]) | (?=[)\]])/g, '');

/** How long an edge is: one of the piece itself, or one of another behind a dot. */
function edgeText(view: View, spot: Spot): string[] {
  if (!spot.word) return [];
  const [first, edge] = spot.word.key.split('.');
  const named = edge ? view.file.find(first!) : spot.section.name && view.file.find(spot.section.name.key);
  if (named?.kind !== 'piece') return [];
  const length = view.model.figureOf(named, `${edge ?? first}.length`);
  return length ? [figureAnswer(length, view.system)] : [];
}

function numberText(view: View, spot: Spot, number: NumberExpression): string | undefined {
  const text = measureText(number);
  if (!text) return undefined;
  const value = Number(number.written);
  if (number.unit?.dimension === 'gauge' && Number.isFinite(value)) {
    const gauge = gaugeText(view, spot, value);
    return gauge ? `${text}\n\n${gauge}` : text;
  }
  if (number.unit?.dimension === 'grit') {
    const grains = (['P', 'CAMI'] as const).flatMap((system) => {
      const size = gritSize(system, value);
      return size ? [say`${system} ${number.written}: grain of ${Math.round(size.value * 1000)} µm`] : [];
    });
    return [text, ...grains].join('  \n');
  }
  return text;
}

/** A gauge on a stock line has its figure beside it; anywhere else the metal is looked for in the line. */
function gaugeText(view: View, spot: Spot, number: number): string | undefined {
  const { line } = spot;
  if (!line || line.word?.group === 'stock') return undefined;
  const bounds = [...(line.head ? [line.head] : []), ...line.qualifiers];
  const metal = bounds.flatMap((bound) => bound.slots.get('metal') ?? [])[0];
  const id = metal && (listWord('metal', metal.text) as MetalId | undefined);
  const table: GaugeTableId | undefined = id && gaugeTableFor(id, view.model.gaugeFamily(), 'sheet');
  const thickness = table && gaugeThickness(table, number);
  return thickness && table
    ? say`**${show(thickness.value, 'mm', view.system)}** by ${translated(gaugeTables[table].title)}`
    : undefined;
}

// ---- names ---------------------------------------------------------------------------------------------------------

function notesOf(named: Named): readonly Comment[] {
  return named.let ? named.let.notes : named.section.notes;
}

const notesText = (notes: readonly Comment[]): string[] =>
  notes.length ? [notes.map((note) => plainText(note.text)).join('  \n')] : [];

function thingOf(view: View, spot: Spot): string[] {
  const figures = view.model.buildFigures().all();
  const title = spot.section.title?.value ?? '';
  return [`**build** ${plainText(title)}`, ...listed(figures, view)];
}

/** What a name is, and its main figures. */
export function namedText(view: View, named: Named): string[] {
  const { system } = view;
  const head = `**${named.kind}** ${plainText(named.word.text)}`;
  const from = named.file === view.file ? '' : say` · from ${plainText(fileName(named.file.uri))}`;
  switch (named.kind) {
    case 'let': {
      const value = named.let?.value;
      const first = value?.parts[0];
      const quantity = first && named.file.quantity(first, named.section);
      const text = value ? named.section.text.slice(value.from, value.to) : '';
      return [
        `${head}${from}${quantity ? ` = ${quantityText(quantity, system)}` : ''}${text ? `  \n${code(text)}` : ''}`,
      ];
    }
    case 'material': {
      const material = view.model.materialOf(named);
      const table = material.gauge()?.table;
      const lines = [
        `${head}${from}: ${plainText(material.title())}`,
        ...main(material.figures().all(), ['thickness', 'mass-per-area', 'density'], system),
        ...(table ? [say`- gauge by ${translated(gaugeTables[table].title)}`] : []),
      ];
      return [lines.join('\n')];
    }
    case 'rivet': {
      const rivet = view.model.rivetOf(named);
      return [
        [
          `${head}${from}: ${plainText(rivet.title())}`,
          ...main(rivet.figures().all(), ['shank', 'length', 'mass'], system),
        ].join('\n'),
      ];
    }
    case 'piece': {
      const piece = view.model.pieceOf(named);
      const material = piece.material();
      const form = piece.formLine()?.line;
      const lines = [
        `${head}${from}${form ? `: ${plainText(form.section.text.slice(form.from, form.to))}` : ''}`,
        ...(material ? [say`- from ${plainText(material.name)}: ${plainText(material.title())}`] : []),
        ...(piece.make() > 1
          ? [say`- made ${piece.make()} times${piece.mirrored() ? say`, in mirrored pairs` : ''}`]
          : []),
        ...main(
          // By their names: of a plate with hundreds of holes all figures take seconds.
          MAIN_OF_PIECE.flatMap((suffix) => piece.figure(suffix) ?? []),
          MAIN_OF_PIECE,
          system,
        ),
      ];
      return [lines.join('\n')];
    }
    case 'seam': {
      const seam = view.model.seamOf(named);
      return [
        [
          `${head}${from}`,
          ...main(seam.figures().all(), ['length', 'rivets', 'pitch', 'stack', 'rivet-length', 'hole'], system),
        ].join('\n'),
      ];
    }
    case 'wearer': {
      const measures = named.section.lines.flatMap((line) => {
        const words = line.head?.slots.get('measure')?.[0]?.text;
        const figure = words === undefined ? undefined : view.model.figureOf(named, hyphened(words));
        return figure ? [figureLine(figure, system)] : [];
      });
      return [[`${head}${from}`, ...measures].join('\n')];
    }
    default: {
      const figures = view.model.figuresOf(named)?.all().slice(0, 6) ?? [];
      return [[`${head}${from}`, ...figures.map((figure) => figureLine(figure, system))].join('\n')];
    }
  }
}

const MAIN_OF_PIECE = [
  'blank.diameter',
  'blank.long',
  'blank.wide',
  'thickness.crown',
  'thickness.edge',
  'anneals',
  'mass',
] as const;

/** The figures a smith looks for first, in that order. */
function main(
  figures: readonly Figure[],
  suffixes: readonly string[],
  system: Parameters<typeof figureLine>[1],
): string[] {
  return suffixes.flatMap((suffix) => {
    const figure = figures.find((each) => each.name.endsWith(`.${suffix}`));
    return figure ? [figureLine(figure, system)] : [];
  });
}

const fileName = (uri: string): string => {
  const name = uri.slice(uri.lastIndexOf('/') + 1);
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
};

function lineOfPart(view: View, of: Named, word: Word) {
  const line = of.section.lines.find((each) => each.from <= word.from && word.to <= each.to);
  return { section: of.section, from: line?.from ?? word.from, to: line?.to ?? word.to, view };
}

// ---- single lines --------------------------------------------------------------------------------------------------

function singleText(view: View, spot: Spot): Found {
  const { single, number, word } = spot;
  if (!single) return { parts: [] };
  if (number) {
    const text = measureText(number);
    return { parts: text ? [text] : [], at: numberSpan(number) };
  }
  if (word) {
    const called = FUNCTIONS.find((each) => each.name === word.key);
    return called ? { parts: [`${code(called.notation)}  \n${translated(called.doc)}`], at: word } : { parts: [] };
  }
  if (single.kind === 'use' && single.path && spot.at >= single.path.from) {
    const used = view.file.uses().find((use) => use.line === single)?.file;
    const names = used ? [...used.names().values()].flatMap((all) => all.slice(0, 1)) : [];
    const listed = names.map((named) => `- ${named.kind} ${plainText(named.word.text)}`);
    const shownNames = listed.length > 15 ? [...listed.slice(0, 15), say`- and ${listed.length - 15} more`] : listed;
    return { parts: used ? [[translated('Brings in'), ...shownNames].join('\n')] : [], at: single.path };
  }
  const key = single.kind === 'version' ? 'planish' : single.kind;
  const described = singleWords[key];
  return described
    ? { parts: [`${code(described.notation.replace(/<([^:>]+):[^>]+>/g, '‹$1›'))}  \n${translated(described.doc)}`] }
    : { parts: [] };
}

// ---- figures and problems ------------------------------------------------------------------------------------------

/** What a smith cuts first, then what it becomes: the first with its working, the next ones in a line each. */
function figuresText(view: View, figures: readonly Figure[]): string[] {
  const unlike = figures.filter((figure, i) => !figures.slice(0, i).some((earlier) => isSameSum(earlier, figure)));
  const last = (figure: Figure) => (isEdgeLength(figure) && unlike.length > 3) || isProperty(figure);
  const [first, ...others] = unlike
    .map((figure, i) => ({ figure, rank: last(figure) ? 3 : rankOf(figure), i }))
    .sort((a, b) => a.rank - b.rank || a.i - b.i)
    .map(({ figure }) => figure);
  if (!first) return [];
  return [figureAnswer(first, view.system), ...listed(others, view)];
}

/** No more than are taken in at a glance. */
const MOST_LINES = 6;

function listed(figures: readonly Figure[], view: View): string[] {
  const lines = figures.slice(0, MOST_LINES).map((figure) => figureLine(figure, view.system));
  return lines.length ? [lines.join('\n')] : [];
}

/** Of a round blank the size both ways says no more than its diameter. */
const isSameSum = (a: Figure, b: Figure): boolean =>
  a.value === b.value &&
  a.unit === b.unit &&
  a.worked === b.worked &&
  a.source === b.source &&
  isBlank(a) &&
  isBlank(b);

const isBlank = (figure: Figure): boolean => /\.blank\./.test(figure.name);
const rankOf = (figure: Figure): number =>
  /\.blank\.(diameter|long|wide|area)$/.test(figure.name) ? 0 : isBlank(figure) ? 1 : 2;

/** Beside a number the figures of its line are a list; how a gauge becomes a thickness is told in full. */
function figuresBesideNumber(view: View, figures: readonly Figure[], number: NumberExpression): string[] {
  const full = number.unit?.dimension === 'gauge' ? figures.filter((figure) => /\.thickness$/.test(figure.name)) : [];
  return [
    ...figuresText(view, full),
    ...listed(
      figures.filter((figure) => !full.includes(figure)),
      view,
    ),
  ];
}

const isProperty = (figure: Figure): boolean =>
  /^[^.]+\.(yield|tensile|elongation|shear|hardening|strain-before-anneal)$/.test(figure.name);
const isEdgeLength = (figure: Figure): boolean => /^[^.]+\.[^.]+\.length$/.test(figure.name);

/** Why the marks under the cursor are there, the gravest first. The editor itself shows their messages. */
function problemTexts(view: View, offset: number): string[] {
  const here = view.problems().filter(({ check, place, isQuiet }) => {
    const start = place.section.start;
    return check && !isQuiet && offset >= start + place.from && offset <= start + place.to;
  });
  const grave = here.toSorted((a, b) => GRAVITY.indexOf(a.severity) - GRAVITY.indexOf(b.severity));
  return [...new Set(grave.map(({ check }) => check!))].map(checkText);
}
const GRAVITY: readonly Severity[] = ['error', 'warning', 'information', 'hint'];

/** What holds of the whole spec and is marked at no line: each caution with what to do, and what no sum holds. */
function quietText(view: View): string[] {
  const { cautions, others } = quietOf(view.problems());
  const listed = [...cautions].map(([name, todo]) => `- **${translated(name)}**: ${translated(todo)}`);
  return [
    ...(listed.length ? [say`Cautions, in full on the papers:\n\n${listed.join('\n')}`] : []),
    ...others.map(plainText),
  ];
}

const checkText = (check: Check): string =>
  [
    `**${translated(check.title)}** ${code(check.code)}`,
    translated(check.why),
    say`*What to do:* ${translated(check.todo)}`,
  ].join('  \n');
