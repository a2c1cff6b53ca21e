import {
  type Element,
  isWordList,
  type LineWord,
  type PhraseWord,
  type SectionWord,
  type SlotType,
} from './pattern.ts';
import { wordLists } from './vocabulary/index.ts';

/*
 * Completion snippets, made from the notation of the vocabulary: what is offered is what is read. Placeholders hold an
 * example that parses, so that a snippet taken as it comes is a line without a mistake.
 */

/** A line or a qualifier as snippet text: `disc ${1:90 mm}`, `grain ${1|up,across|}`. What may be left out is left out. */
export function snippetOf(word: PhraseWord): string {
  return new Writer().elements(word.pattern.elements);
}

/** A line with what it is hardly ever written without: `dome ${1:90 mm}, deep ${2:60 mm}`. */
export function lineSnippet(line: LineWord): string {
  return new Writer().line(line);
}

/** A section with its header and the lines that it needs. */
export function sectionSnippet(section: SectionWord): string {
  const writer = new Writer();
  const named = writer.placeholder(NAMES[section.kind] ?? 'Harbour-watch sallet');
  const lines = section.needs.flatMap(({ any }) => {
    const line = section.lines.find(({ id, group }) => any.includes(id) || any.includes(`@${group}`));
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

/** What a line is hardly ever written without. */
const USUAL: Readonly<Record<string, readonly string[]>> = {
  dome: ['deep'],
  'oval dome': ['deep'],
  'half dome': ['deep'],
  'gore dome': ['deep', 'gores'],
  cylinder: ['high'],
  cone: ['high'],
  comb: ['high'],
  lies: ['gap', 'high'],
  trim: ['wide'],
  level: ['round'],
  'arc to': ['radius'],
  flute: ['deep', 'wide'],
  crease: ['deep'],
  flare: ['angle', 'wide'],
  bend: ['angle', 'radius'],
  cut: ['deep'],
  harden: ['quench'],
  slot: ['at'],
  hole: ['at'],
  holes: ['along', 'inset'],
  breaths: ['at'],
  pierce: ['at'],
  rivet: ['head'],
  book: ['dated'],
  rivets: ['every', 'inset', 'peened'],
  strap: ['wide', 'at'],
  knuckles: ['wide'],
  pivots: ['inset'],
  slides: ['inset'],
  leathers: ['wide'],
  first: ['then'],
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

class Writer {
  private stop = 1;

  line(line: LineWord): string {
    const usual = USUAL[line.id] ?? [];
    return [line, ...line.qualifiers.filter((qualifier) => usual.includes(qualifier.id))]
      .map((word) => this.elements(word.pattern.elements))
      .join(', ');
  }

  placeholder(example: string): string {
    return `\${${this.stop++}:${example.replace(/[$}\\]/g, '\\$&')}}`;
  }

  private choice(words: readonly string[]): string {
    return `\${${this.stop++}|${words.map((word) => word.replace(/[,|\\]/g, '\\$&')).join(',')}|}`;
  }

  elements(of: readonly Element[]): string {
    return of
      .map((element) => this.element(element))
      .filter(Boolean)
      .join(' ');
  }

  private element(element: Element): string {
    switch (element.kind) {
      case 'word':
        return element.word;
      case 'slot':
        return this.slot(element.name, element.type);
      case 'optional':
        return '';
      case 'choice': {
        const words = element.of.map((way) => (way.every(({ kind }) => kind === 'word') ? wordsOf(way) : undefined));
        if (words.every((word) => word !== undefined)) return this.choice(words);
        // Of ways that are more than words, the simplest: the one that begins with something to fill in.
        const way = element.of.find((one) => one[0]?.kind === 'slot') ?? element.of[0]!;
        return this.elements(way);
      }
    }
  }

  private slot(name: string, type: SlotType): string {
    if (isWordList(type)) {
      const words = wordLists[type].map((entry) => entry.word);
      if (words.length) return this.choice(words);
    }
    if (type === 'text') return `"${this.placeholder(BY_NAME[name] ?? name)}"`;
    return this.placeholder(BY_NAME[name] ?? DEFAULTS[type] ?? name);
  }
}

const wordsOf = (way: readonly Element[]): string =>
  way.map((element) => (element.kind === 'word' ? element.word : '')).join(' ');
