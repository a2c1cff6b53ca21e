import { HoverRequest } from 'vscode-languageserver';
import { type Hover, MarkupKind, type Position } from 'vscode-languageserver-types';
import { type Filled, isWordList, type PhraseWord, type SlotType } from '../../../grammar/pattern.ts';
import type { Comment, NumberExpression, Span, Word } from '../../../grammar/tree.ts';
import { listDoc, listWord, sectionsTaking, sectionWord, singleWords } from '../../../grammar/vocabulary/index.ts';
import type { Check } from '../../checks/check.ts';
import { checkOf } from '../../checks/run.ts';
import { hyphened, type Named } from '../../model/names/spec-file.ts';
import type { Figure } from '../../model/values/figure.ts';
import { numberOf, type Quantity, UNIT_OF_DIMENSION } from '../../model/values/quantity.ts';
import { show } from '../../model/values/show.ts';
import { gritSize } from '../../trade/finish/finish.ts';
import { type GaugeTableId, gaugeTableFor, gaugeTables, gaugeThickness } from '../../trade/metal/gauges.ts';
import type { MetalId } from '../../trade/metal/metals.ts';
import { drawingAt } from '../drawings/drawing-at.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import { FUNCTIONS } from '../text/arithmetic.ts';
import { figureLine, figureText } from '../text/figure-text.ts';
import { code, plainText, withoutMarkup } from '../text/markdown.ts';
import { measureText } from '../text/measure-text.ts';
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
        hoverAt(view, position, { markdown: client.markdownHover, pictures: client.pictures }) ?? null,
    }),
  ],
};

export interface HoverOptions {
  readonly markdown?: boolean;
  /** The editor shows pictures that lie in the text itself. */
  readonly pictures?: boolean;
}

/** Everything worth reading about what stands at a position. */
export function hoverAt(view: View, position: Position, options: HoverOptions = {}): Hover | undefined {
  const { markdown = true, pictures = false } = options;
  const offset = view.offsetAt(position);
  const spot = spotAt(view, offset);
  const found = textAt(view, spot);
  const drawing = pictures && markdown ? drawingAt(view, spot) : undefined;
  const [first, ...rest] = found.parts;
  const parts = [
    ...(first === undefined ? [] : [first]),
    ...(drawing ? [drawing] : []),
    ...rest,
    ...(spot.header && spot.section === quietSection(view.spec) ? quietText(view) : []),
    ...problemTexts(view, offset),
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

interface Found {
  readonly parts: readonly string[];
  readonly at?: Span;
}

function textAt(view: View, spot: Spot): Found {
  const { section, line, single, word } = spot;
  if (spot.comment) {
    const check = spot.excuse && checkOf(spot.excuse.code);
    return check ? { parts: [checkText(check)], at: spot.excuse.codeAt } : { parts: [] };
  }
  if (spot.header === 'kind' && word) {
    const kind = sectionWord(word.key);
    return kind ? { parts: [`**${kind.kind}**  \n${kind.doc}`], at: word } : { parts: [] };
  }
  if (spot.header === 'title' && section.title)
    return { parts: [...thingOf(view, spot), ...notesText(section.notes)], at: section.title };
  const target = targetAt(view, spot);
  const reached =
    spot.slot?.filled.type === 'edge' || target?.target.kind === 'part' ? undefined : figureAt(view, spot);
  if (reached && word) {
    const head = `**${plainText(word.text)}** of ${reached.named.kind} ${plainText(reached.named.word.text)}`;
    return { parts: [head, figureText(reached.figure, view.system, inputs(view))], at: word };
  }
  if (target && word) {
    if (target.target.kind === 'named') {
      const { named } = target.target;
      return { parts: [...namedText(view, named), ...notesText(notesOf(named))], at: target.place };
    }
    const place = target.place;
    const figures = view.model.figuresAt(lineOfPart(view, target.target.of, target.target.word));
    const own = figures.filter((figure) =>
      figure.name.toLowerCase().includes(`.${target.target.kind === 'part' ? target.target.key : ''}.`),
    );
    return {
      parts: [
        `**${plainText(target.target.word.text)}** of ${target.target.of.kind} ${plainText(target.target.of.word.text)}`,
        ...figuresText(view, own),
      ],
      at: place,
    };
  }
  if (single) return singleText(view, spot);
  if (!line) return { parts: [] };
  const own = ownText(view, spot);
  const figures = view.model.figuresAt({ section, from: line.from, to: line.to });
  return {
    parts: [
      ...own,
      ...(spot.number ? figuresBesideNumber(view, figures, spot.number) : figuresText(view, figures)),
      ...notesText(line.notes),
    ],
    ...(spot.item ? { at: spot.number ? numberSpan(spot.number) : spot.item } : {}),
  };
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
    return doc ? [`**${canonical}**  \n${doc}`] : [];
  }
  if (word && item?.kind === 'word' && slot && slot.filled.type === 'edge')
    return [`**${plainText(word.text)}**: an edge or a line of the form`, ...edgeText(view, spot)];
  if (word && slot && NAMES_MEASURE.has(slot.filled.type)) return [];
  const operation = word && slot?.filled.type === 'step' ? listDoc('operation', operationIn(slot.filled)) : undefined;
  if (operation && slot) return [`**${operationIn(slot.filled)}**  \n${operation}`];
  if (bound) return [phraseText(bound.word)];
  if (line.word) return [phraseText(line.word)];
  if (word && item === line.phrases[0]?.items[0]) {
    const others = sectionsTaking(word.key);
    if (others.length)
      return [`${code(word.text)} is a line of ${others.map((other) => `a ${other.kind}`).join(', ')}.`];
  }
  return [];
}

/** What follows the piece in a step: `skull dish then raise`. */
const operationIn = ({ text }: Filled): string => text.split(' ').slice(1).join(' ');

const NAMES_MEASURE = new Set<SlotType>(['new name']);

function phraseText(word: PhraseWord): string {
  const example = 'example' in word ? `  \nfor example ${code(String(word.example))}` : '';
  const later = word.computed ? '' : '\n\n*Read and kept; not computed yet.*';
  return `${code(notationOf(word))}  \n${word.doc}${example}${later}`;
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
  return length ? [figureText(length, view.system)] : [];
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
      return size ? [`${system} ${number.written}: grain of ${Math.round(size.value * 1000)} µm`] : [];
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
    ? `**${show(thickness.value, 'mm', view.system)}** by ${gaugeTables[table].title}`
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
  return [`**build** ${plainText(title)}`, ...figuresText(view, figures)];
}

/** What a name is, and its main figures. */
export function namedText(view: View, named: Named): string[] {
  const { system } = view;
  const head = `**${named.kind}** ${plainText(named.word.text)}`;
  const from = named.file === view.file ? '' : ` · from ${plainText(fileName(named.file.uri))}`;
  switch (named.kind) {
    case 'let': {
      const value = named.let?.value;
      const first = value?.parts[0];
      const quantity = first && named.file.quantity(first, named.section);
      const text = value ? named.section.text.slice(value.from, value.to) : '';
      return [
        `${head}${from}${quantity ? ` = ${quantityText(quantity, view)}` : ''}${text ? `  \n${code(text)}` : ''}`,
      ];
    }
    case 'material': {
      const material = view.model.materialOf(named);
      const table = material.gauge()?.table;
      const lines = [
        `${head}${from}: ${plainText(material.title())}`,
        ...main(material.figures().all(), ['thickness', 'mass-per-area', 'density'], system),
        ...(table ? [`- gauge by ${gaugeTables[table].title}`] : []),
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
        ...(material ? [`- from ${plainText(material.name)}: ${plainText(material.title())}`] : []),
        ...(piece.make() > 1 ? [`- made ${piece.make()} times${piece.mirrored() ? ', in mirrored pairs' : ''}`] : []),
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

function quantityText(quantity: Quantity, view: View): string {
  const unit = UNIT_OF_DIMENSION[quantity.dimension] ?? 'ratio';
  const text = show(numberOf(quantity), unit, view.system);
  return unit === 'ratio' && quantity.dimension !== 'number' ? `${text} ${quantity.dimension}` : text;
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
    return called ? { parts: [`${code(called.notation)}  \n${called.doc}`], at: word } : { parts: [] };
  }
  if (single.kind === 'use' && single.path && spot.at >= single.path.from) {
    const used = view.file.uses().find((use) => use.line === single)?.file;
    const names = used ? [...used.names().values()].flatMap((all) => all.slice(0, 1)) : [];
    const listed = names.map((named) => `- ${named.kind} ${plainText(named.word.text)}`);
    const shownNames = listed.length > 15 ? [...listed.slice(0, 15), `- and ${listed.length - 15} more`] : listed;
    return { parts: used ? [['Brings in', ...shownNames].join('\n')] : [], at: single.path };
  }
  const key = single.kind === 'version' ? 'planish' : single.kind;
  const described = singleWords[key];
  return described
    ? { parts: [`${code(described.notation.replace(/<([^:>]+):[^>]+>/g, '‹$1›'))}  \n${described.doc}`] }
    : { parts: [] };
}

// ---- figures and problems ------------------------------------------------------------------------------------------

/** What a smith cuts first, then what it becomes; lengths of edges and a metal's properties as a list, since their working says little. */
function figuresText(view: View, figures: readonly Figure[]): string[] {
  const unlike = figures.filter((figure, i) => !figures.slice(0, i).some((earlier) => isSameSum(earlier, figure)));
  const edges = unlike.filter((figure) => (isEdgeLength(figure) && unlike.length > 3) || isProperty(figure));
  const ordered = unlike
    .filter((figure) => !edges.includes(figure))
    .map((figure, i) => ({ figure, rank: rankOf(figure), i }))
    .sort((a, b) => a.rank - b.rank || a.i - b.i)
    .map(({ figure }) => figure);
  const inputOf = inputs(view);
  const told = new Set<string>();
  const texts = ordered.map((figure) =>
    figureText(figure, view.system, (name) => {
      // What is read on this very card, or belongs to another thing, is not worked out twice.
      const input = inputOf(name);
      if (input?.of !== figure.of || told.has(name) || figures.some((each) => each.name === input.name))
        return undefined;
      told.add(name);
      return input;
    }),
  );
  if (edges.length) texts.push(edges.map((figure) => figureLine(figure, view.system)).join('\n'));
  return texts.length ? [texts.join('\n\n')] : [];
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
  const rest = figures.filter((figure) => !full.includes(figure));
  const list = rest.map((figure) => figureLine(figure, view.system)).join('\n');
  return [...figuresText(view, full), ...(list ? [list] : [])];
}

const isProperty = (figure: Figure): boolean =>
  /^[^.]+\.(yield|tensile|elongation|shear|hardening|strain-before-anneal)$/.test(figure.name);
const isEdgeLength = (figure: Figure): boolean => /^[^.]+\.[^.]+\.length$/.test(figure.name);

/** Finds the figures that a figure was made from, by their dotted names. */
function inputs(view: View): (name: string) => Figure | undefined {
  return (name) => {
    const dot = name.indexOf('.');
    const named = dot > 0 ? view.file.find(name.slice(0, dot).toLowerCase()) : undefined;
    return named && view.model.figureOf(named, name.slice(dot + 1));
  };
}

function problemTexts(view: View, offset: number): string[] {
  const seen = new Set<Check>();
  return view.problems().flatMap(({ check, place, isQuiet }) => {
    const start = place.section.start;
    if (isQuiet || !check || seen.has(check) || offset < start + place.from || offset > start + place.to) return [];
    seen.add(check);
    return [checkText(check)];
  });
}

/** What holds of the whole spec and is marked at no line: each caution with what to do, and what no sum holds. */
function quietText(view: View): string[] {
  const quiet = view.problems().filter(({ isQuiet }) => isQuiet);
  const cautions = new Map(quiet.flatMap(({ check }) => (check?.caution ? [[check.caution, check.todo]] : [])));
  const others = quiet.filter(({ check }) => !check?.caution).map(({ message }) => plainText(message));
  const listed = [...cautions].map(([name, todo]) => `- **${name}**: ${todo}`);
  return [...(listed.length ? [`Cautions, in full on the papers:\n\n${listed.join('\n')}`] : []), ...others];
}

const checkText = (check: Check): string =>
  [
    `**${check.title}** ${code(check.code)}`,
    check.why,
    `*What to do:* ${check.todo}`,
    ...(check.formula ? [code(check.formula)] : []),
    `*${check.source}*`,
  ].join('  \n');
