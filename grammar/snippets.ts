import { neededQualifiers } from './needs.ts';
import {
  type Bound,
  type Element,
  isMeasure,
  isWordList,
  type LineWord,
  type PhraseWord,
  type SectionWord,
  type SlotType,
} from './pattern.ts';
import { readSection } from './reader.ts';
import { sections, wordLists } from './vocabulary/index.ts';

/*
 * Completion snippets, made from the notation of the vocabulary: what is offered is what is read. Placeholders hold an
 * example that parses, so that a snippet taken as it comes is a line without a mistake. Where names are known that fit, they
 * stand there in place of an example.
 */

/** The names that fill a slot where the snippet goes, likeliest first. */
export type KnownNames = (type: SlotType, slot: string) => readonly string[];

const NONE: KnownNames = () => [];

/** An example of a measure in the units of the build: `1/8 in` becomes `3 mm`. */
export type InUnits = (example: string) => string;

const AS_IT_IS: InUnits = (example) => example;

/** A line or a qualifier as snippet text: `disc ${1:90 mm}`, `grain ${1|up,across|}`. What may be left out is left out. */
export function snippetOf(word: PhraseWord, names = NONE, inUnits = AS_IT_IS): string {
  const own = 'example' in word ? examplesOf(word as LineWord).get(word) : undefined;
  return new Writer(names, inUnits).elements(word.pattern.elements, own);
}

/** A line with what it is hardly ever written without: `dome ${1:210 mm}, deep ${2:60 mm}`. */
export function lineSnippet(line: LineWord, names = NONE, inUnits = AS_IT_IS): string {
  return new Writer(names, inUnits).line(line);
}

/** What a line still wants, as snippet text, and where it goes: behind its pattern, at its end, or in rows of their own. */
export interface Wanted {
  readonly where: 'in' | 'after' | 'below';
  readonly snippet: string;
}

/** These facts of a line (`Need`), with an example for each; nothing where there is no one place for them all. */
export function wantedSnippet(
  line: LineWord,
  facts: readonly string[],
  names = NONE,
  inUnits = AS_IT_IS,
): Wanted | undefined {
  return new Writer(names, inUnits).wanted(line, facts);
}

/** A section with its header and the lines that it needs. */
export function sectionSnippet(section: SectionWord, names = NONE, inUnits = AS_IT_IS): string {
  const writer = new Writer(names, inUnits);
  const named = writer.placeholder(NAMES[section.kind] ?? 'Harbour-watch sallet');
  const lines = section.needs.flatMap(({ any }) => {
    const fitting = section.lines.filter(({ id, group }) => any.includes(id) || any.includes(`@${group}`));
    const line = fitting.find(({ id }) => id === any[0]) ?? fitting[0];
    return line ? [`  ${writer.line(line)}`] : [];
  });
  const header = `${section.kind} ${section.named === 'text' ? `"${named}"` : named}`;
  return [header, ...lines, '  $0'].join('\n');
}

/** A snippet with every default taken: the text that stands when a smith only presses Tab. */
export function withDefaults(snippet: string): string {
  return snippet
    .replace(/\$\{\d+:((?:\\.|[^}\\])*)\}/g, '$1')
    .replace(/\$\{\d+\|((?:\\.|[^,|\\])*)(?:\\.|[^|\\])*\|\}/g, '$1')
    .replace(/\$\d+/g, '')
    .replace(/\\([$}\\,|])/g, '$1');
}

/** What a line is hardly ever written without, besides what it needs. */
const USUAL: Readonly<Record<string, readonly string[]>> = {
  lies: ['gap'],
  level: ['round'],
  harden: ['quench'],
  rivet: ['head'],
  book: ['dated'],
  rivets: ['peened'],
  strap: ['at'],
};

const NAMES: Readonly<Partial<Record<SectionWord['kind'], string>>> = {
  wearer: 'guard',
  material: 'plate-16',
  rivet: 'brass-rivet',
  part: 'buckle',
  rules: 'list-book',
  piece: 'skull',
  seam: 'ridge-line',
  hinge: 'visor-hinge',
  joint: 'elbow',
  finish: 'bright',
  shop: 'bench',
  order: 'bench-order',
  log: 'first-copy',
};

/** An example for each kind of slot. */
const DEFAULTS: Readonly<Partial<Record<SlotType, string>>> = {
  length: '20 mm',
  area: '2.2 m2',
  angle: '90 deg',
  temperature: '290 C',
  time: '2 h',
  mass: '120 g',
  density: '7.85 g/cm3',
  stress: '210 MPa',
  percent: '20 %',
  grit: '120 grit',
  teeth: '32 tpi',
  thickness: '16 ga',
  'leather thickness': '7 oz',
  count: '2',
  number: '1.00',
  size: '120 x 80 mm',
  'count of': '4 of 1/8 in',
  dimensions: '120 x 80 mm',
  measure: '20 mm',
  date: '2027-05-14',
  piece: 'skull',
  material: 'plate-16',
  rivet: 'brass-rivet',
  part: 'buckle',
  wearer: 'guard',
  seam: 'ridge-line',
  rules: 'list-book',
  copy: 'skull',
  surface: 'skull',
  edge: 'rim',
  'new name': 'sight',
  step: 'skull raise',
};

/** Where the name of a slot tells more than its kind. */
const BY_NAME: Readonly<Record<string, string>> = {
  girth: '580 mm',
  top: '260 mm',
  bottom: '200 mm',
  diameter: '90 mm',
  deep: '60 mm',
  high: '80 mm',
  long: '240 mm',
  wide: '25 mm',
  inset: '8 mm',
  every: '30 mm',
  gap: '1 mm',
  liner: '10 mm',
  ease: '6 mm',
  radius: '2 mm',
  kerf: '0.3 mm',
  client: 'own stock',
  file: 'drawing.svg',
  colour: 'harbour grey',
  thread: 'waxed linen',
  lace: 'waxed cord',
  book: 'The rulebook',
  recipe: 'brown',
  grade: '1050',
  solder: 'silver',
  pieces: 'skull, ridge',
  plates: 'upper, cop, lower',
  edges: 'visor.left, arm.right',
};

type Examples = ReadonlyMap<string, string>;

/** What the example of a line fills its own slots with and those of what qualifies it. */
function examplesOf(line: LineWord): ReadonlyMap<PhraseWord, Examples> {
  let found = read.get(line);
  if (!found) {
    const kind = sections.find(({ lines }) => lines.includes(line))?.kind;
    const section = readSection(`${kind} one\n  ${line.example}`);
    const bounds = section.lines.flatMap(({ head, qualifiers }) => (head ? [head, ...qualifiers] : []));
    const filled = ({ slots }: Bound): Examples =>
      new Map(
        [...slots].map(([name, all]) => [name, section.text.slice(all[0]!.from, all[all.length - 1]!.to).trim()]),
      );
    found = new Map(bounds.map((bound) => [bound.word, filled(bound)]));
    read.set(line, found);
  }
  return found;
}
const read = new Map<LineWord, ReadonlyMap<PhraseWord, Examples>>();

/** More are no choice to read through. */
const MOST_CHOICES = 20;

class Writer {
  private stop = 1;

  constructor(
    private readonly names: KnownNames,
    private readonly inUnits: InUnits,
  ) {}

  line(line: LineWord): string {
    const usual = [...neededQualifiers(line), ...(USUAL[line.id] ?? [])];
    const examples = examplesOf(line);
    const own = [line, ...line.qualifiers.filter((qualifier) => usual.includes(qualifier.id))]
      .map((word) => this.elements(word.pattern.elements, examples.get(word)))
      .join(', ');
    // An editor gives each row of a snippet the indent of the one it goes into.
    return [own, ...line.followedBy.map((below) => this.measuresIn(below))].join('\n');
  }

  wanted(line: LineWord, facts: readonly string[]): Wanted | undefined {
    const [fact] = facts;
    if (fact === undefined) return undefined;
    if (fact.startsWith('@'))
      return line.followedBy.length && facts.length === 1
        ? { where: 'below', snippet: line.followedBy.map((below) => this.measuresIn(below)).join('\n') }
        : undefined;
    const examples = examplesOf(line);
    const qualifiers = facts.map((each) => line.qualifiers.find(({ id }) => id === each));
    if (qualifiers.every((each) => each !== undefined))
      return {
        where: 'after',
        snippet: qualifiers.map((each) => `, ${this.elements(each.pattern.elements, examples.get(each))}`).join(''),
      };
    const left = line.pattern.elements.find((each) => each.kind === 'optional' && holds(each.of, fact));
    return left?.kind === 'optional' && facts.length === 1
      ? { where: 'in', snippet: ` ${this.elements(left.of, examples.get(line))}` }
      : undefined;
  }

  /** An example of a line with its measures to be filled in. */
  private measuresIn(example: string): string {
    return example.replace(/\d+ mm/g, (measure) => this.placeholder(this.inUnits(measure)));
  }

  placeholder(example: string): string {
    return `\${${this.stop++}:${example.replace(/[$}\\]/g, '\\$&')}}`;
  }

  private choice(words: readonly string[]): string {
    return `\${${this.stop++}|${words.map((word) => word.replace(/[,|\\]/g, '\\$&')).join(',')}|}`;
  }

  elements(of: readonly Element[], examples?: Examples): string {
    return of
      .map((element) => this.element(element, examples))
      .filter(Boolean)
      .join(' ');
  }

  private element(element: Element, examples: Examples | undefined): string {
    switch (element.kind) {
      case 'word':
        return element.word;
      case 'slot':
        return this.slot(element.name, element.type, examples?.get(element.name));
      case 'optional':
        return '';
      case 'choice': {
        const words = element.of.map((way) => (way.every(({ kind }) => kind === 'word') ? wordsOf(way) : undefined));
        const plain = words.filter((word) => word !== undefined);
        // `from`, `above` and `below` are choice enough where `left of` is a fourth.
        if (plain.length === words.length || plain.length > 1) return this.choice(plain);
        // Of ways that are more than words, the simplest: the one that begins with something to fill in.
        const way = element.of.find((one) => one[0]?.kind === 'slot') ?? element.of[0]!;
        return this.elements(way, examples);
      }
    }
  }

  private slot(name: string, type: SlotType, example: string | undefined): string {
    if (isWordList(type)) {
      const words = wordLists[type].map((entry) => entry.word);
      if (words.length) return this.choice(words);
    }
    if (type === 'text') return `"${this.placeholder(BY_NAME[name] ?? name)}"`;
    if (example !== undefined && (isMeasure(type) || type === 'date')) return this.placeholder(this.inUnits(example));
    const usual = BY_NAME[name] ?? DEFAULTS[type] ?? name;
    return this.known(name, type) ?? this.placeholder(isMeasure(type) ? this.inUnits(usual) : usual);
  }

  private known(name: string, type: SlotType): string | undefined {
    const names = this.names(type, name);
    const wanted = BY_NAME[name]?.split(', ') ?? [name];
    const [only] = names;
    if (only === undefined) return undefined;
    // Of several the one that there is stands, and the next is to be named.
    if (wanted.length > 1 && names.length === 1)
      return `${only}, ${this.placeholder(wanted.find((each) => each !== only)!)}`;
    if (wanted.length > 1 || names.length === 1) return this.placeholder(names.slice(0, wanted.length).join(', '));
    return this.choice(names.slice(0, MOST_CHOICES));
  }
}

const holds = (elements: readonly Element[], fact: string): boolean =>
  elements.some((each) => (each.kind === 'word' && each.word === fact) || (each.kind === 'slot' && each.name === fact));

const wordsOf = (way: readonly Element[]): string =>
  way.map((element) => (element.kind === 'word' ? element.word : '')).join(' ');
