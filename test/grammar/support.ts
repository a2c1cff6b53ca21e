import fs from 'node:fs';
import fc from 'fast-check';
import type { Bound, Element, LineWord, PhraseWord, SectionWord, SlotType } from '../../grammar/pattern.ts';
import { isWordList } from '../../grammar/pattern.ts';
import { readSpec } from '../../grammar/reader.ts';
import type { Expression, Item, Section, SingleLine, Spec } from '../../grammar/tree.ts';
import { units } from '../../grammar/units.ts';
import { sectionKinds, sections, wordLists } from '../../grammar/vocabulary/index.ts';
import { expectMarks, readFixture } from '../fixture.ts';

/** Whole specs that hold every kind of line. */
export const specs: readonly { readonly name: string; readonly text: string }[] = fs
  .readdirSync(new URL('specs/', import.meta.url))
  .sort()
  .map((name) => ({ name, text: fs.readFileSync(new URL(`specs/${name}`, import.meta.url), 'utf8') }));

/** Reads the first file of a fixture and compares its problems with the marks in it. */
export function check(written: string): Spec {
  const fixture = readFixture(written);
  const spec = readSpec(fixture.file.text);
  expectMarks(fixture, problemsOf(spec));
  return spec;
}

/** The problems of a spec with places in the document. */
export function problemsOf(spec: Spec) {
  return spec.sections.flatMap((section) =>
    section.problems.map(({ code, message, from, to, fixes }) => ({
      code,
      message,
      from: section.start + from,
      to: section.start + to,
      fixes: fixes.map((fix) => ({
        title: fix.title,
        edits: fix.edits.map((edit) => ({
          from: section.start + edit.from,
          to: section.start + edit.to,
          text: edit.text,
        })),
      })),
    })),
  );
}

// ---- trees without places ------------------------------------------------------------------------------------------

/** What a spec says, without where: two texts with the same meaning give equal values. */
export function meaningOf(spec: Spec): unknown {
  return spec.sections
    .map(sectionMeaning)
    .filter((section) => Object.values(section).some((value) => value !== undefined && !isEmpty(value)));
}

const isEmpty = (value: unknown): boolean => Array.isArray(value) && value.length === 0;

function sectionMeaning(section: Section) {
  return {
    kind: section.kind?.kind,
    kindAt: section.kindAt?.key,
    name: section.name?.text,
    title: section.title?.value,
    notes: section.notes.map((note) => note.text),
    lines: section.lines.map((line) => ({
      phrases: line.phrases.map((phrase) => phrase.items.map(itemMeaning)),
      notes: line.notes.map((note) => note.text),
      excuse: line.excuse && [line.excuse.code, line.excuse.why],
      word: line.word?.id,
      head: line.head && boundMeaning(line.head),
      qualifiers: line.qualifiers.map(boundMeaning),
    })),
    singles: section.singles.map(singleMeaning),
    comments: section.comments.map((comment) => [comment.isNote, comment.text]),
    problems: section.problems.map((problem) => problem.code).sort(),
  };
}

function singleMeaning(single: SingleLine): unknown {
  switch (single.kind) {
    case 'use':
      return ['use', single.path?.value];
    case 'version':
      return ['planish', single.number];
    case 'let':
      return [
        'let',
        single.name?.text,
        single.value && itemMeaning(single.value),
        single.notes.map((note) => note.text),
        single.excuse && [single.excuse.code, single.excuse.why],
      ];
  }
}

function boundMeaning(bound: Bound): unknown {
  return {
    word: bound.word.id,
    words: [...bound.words],
    slots: [...bound.slots].map(([name, filled]) => [
      name,
      filled.map(({ type, text, copy, face, items }) => ({ type, text, copy, face, items: items.map(itemMeaning) })),
    ]),
  };
}

function itemMeaning(item: Item): unknown {
  switch (item.kind) {
    case 'word':
      return item.text;
    case 'text':
    case 'date':
      return [item.kind, item.value];
    case 'measure':
      return {
        count: item.count && expressionMeaning(item.count),
        parts: item.parts.map(expressionMeaning),
        tolerance: item.tolerance && expressionMeaning(item.tolerance),
      };
  }
}

function expressionMeaning(expression: Expression): unknown {
  switch (expression.kind) {
    case 'number':
      return `${expression.written} ${expression.unit?.id ?? ''}${expression.unit && !expression.unitAt ? '←' : ''}`;
    case 'name':
      return expression.name.text;
    case 'negate':
      return ['-', expressionMeaning(expression.of)];
    case 'binary':
      return [expression.operator, expressionMeaning(expression.left), expressionMeaning(expression.right)];
    case 'call':
      return [expression.name.key, ...expression.arguments.map(expressionMeaning)];
  }
}

// ---- random texts --------------------------------------------------------------------------------------------------

const { RUNS } = process.env;

/** How often a property is tried: RUNS=20 npm run test:unit makes it twenty times as often. */
export const runs = (quick: number): number => Math.round(quick * Number(RUNS ?? 1));

const numberTexts = ['0', '12', '0.032', '1/8', '2 1/2', '2½', '½', '2-1/2', '1,220', '120,5', '.5', '5.', '3  ¼'];
const signs = [
  ',',
  ', ',
  ' ,',
  ' x ',
  'x',
  '×',
  ' to ',
  ' ± ',
  '+/-',
  '+',
  ' - ',
  '-',
  '–',
  '−',
  '*',
  ' / ',
  '(',
  ')',
  '=',
  ' of ',
];
const spaces = [' ', '  ', '\t', '\n', '\r\n', '\r', '\n\n', '\n\n\n', '\u00A0', '\uFEFF', '\u2028', '\n  ', '\n    '];
const quotes = ['"', '“', '”', '"a, b"', '“cut”', '“say \\“so\\””', '"\\""', '″', '\\'];
const remarks = [
  '#',
  '##',
  '# why',
  '## note',
  '#30',
  '#334455',
  '# allow a-b: since',
  '# allow',
  '\n# c\n',
  '\n## n\n',
];
const words = [
  ...sectionKinds,
  ...sections.flatMap((section) => section.lines.map((line) => line.example)),
  'let a = 3 mm',
  'let b',
  'use "a.planish"',
  'planish 1',
  'skull.rim',
  'rim-3 mm',
  'Ärmel-Länge',
  '鎧',
  'x',
  'x2',
  'foo bar',
  'peice skull',
  'round-up',
  'sqrt(',
  'skull.',
  'pi',
  '2027-03-01',
  ...units.flatMap((unit) => unit.spellings),
];
const odd = ['@', '{', ';', '\u0000', '\uD800', '\uDC00', '😀', 'é', '\u200B', '\u0301', '$', '~', '%'];

const fragment = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...words) },
  { weight: 2, arbitrary: fc.constantFrom(...spaces) },
  { weight: 2, arbitrary: fc.constantFrom(...signs) },
  { weight: 1, arbitrary: fc.constantFrom(...numberTexts) },
  { weight: 1, arbitrary: fc.constantFrom(...quotes) },
  { weight: 1, arbitrary: fc.constantFrom(...remarks) },
  { weight: 1, arbitrary: fc.constantFrom(...odd) },
);

/** Fragments in a row: text that is nearly a spec, or nothing like one. */
export const soup = fc.array(fragment, { maxLength: 40 }).map((parts) => parts.join(''));

/** Any UTF-16 at all, lone surrogates too. */
export const anyText = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 200 }),
  fc.string({ unit: 'grapheme', maxLength: 200 }),
  fc.array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 200 }).map((units) => String.fromCharCode(...units)),
);

export interface RandomEdit {
  readonly at: number;
  readonly remove: number;
  readonly insert: string;
}

export const edit: fc.Arbitrary<RandomEdit> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  remove: fc.oneof(
    { weight: 4, arbitrary: fc.integer({ min: 0, max: 3 }) },
    { weight: 1, arbitrary: fc.integer({ min: 0, max: 200 }) },
  ),
  insert: fc.oneof({ weight: 1, arbitrary: fc.constant('') }, { weight: 4, arbitrary: fragment }),
});

export function applyEdit(text: string, { at, remove, insert }: RandomEdit): string {
  const from = Math.floor(at * text.length);
  return text.slice(0, from) + insert + text.slice(from + remove);
}

/** A spec to start from: mostly a short one, so that more edits meet each other. */
export const startText = fc.oneof(
  ...specs.map(({ text }) => ({ weight: text.length > 2000 ? 1 : 6, arbitrary: fc.constant(text) })),
);

/** A spec with some edits at random places. */
export const editedSpec = fc
  .tuple(startText, fc.array(edit, { minLength: 1, maxLength: 12 }))
  .map(([text, edits]) => edits.reduce(applyEdit, text));

// ---- random specs by the grammar -----------------------------------------------------------------------------------

const name = fc.constantFrom('skull', 'plate-16', 'lame-2', 'Ärmel', 'κράνος', '鎧-左', 'x2', 'ridge');
const length = fc.constantFrom(
  '12 mm',
  '1/8 in',
  '2 1/2 in',
  '2½"',
  '0.5cm',
  '3mm',
  'rim-round',
  '(4 mm+2 mm) * 2',
  'max(3 mm,4 mm)',
  'skull.rim.length - 5 mm',
  '12 mm ± 0.5 mm',
  '12 mm +/- 1/2 mm',
);
const units1: Partial<Record<SlotType, fc.Arbitrary<string>>> = {
  length,
  area: fc.constantFrom('2.2 m2', '1.1 m²', '3 ft2'),
  angle: fc.constantFrom('25 deg', '25°', '-10 deg', '90deg'),
  temperature: fc.constantFrom('830 C', '1500 F', '290 °C'),
  time: fc.constantFrom('3.5 h', '40 min', '2 hours'),
  mass: fc.constantFrom('28 g', '1.5 kg', '2 lbs'),
  density: fc.constantFrom('7.85 g/cm3', '7850 kg/m³'),
  stress: fc.constantFrom('210 MPa', '30 ksi', '250 N/mm²'),
  percent: fc.constantFrom('25 %', '25%', '12.5 percent'),
  grit: fc.constantFrom('80 grit', '120grit'),
  teeth: fc.constantFrom('56 tpi', '32tpi'),
  thickness: fc.constantFrom('16 ga', '18ga', '0.040 in', '7 oz', '1.5 mm'),
  'leather thickness': fc.constantFrom('7 oz', '8oz', '3 mm'),
  count: fc.constantFrom('1', '6', '24'),
  number: fc.constantFrom('14.50', '0.94', '42'),
  size: fc.constantFrom('120 x 80 mm', '120x80 mm', '120 × 80 mm', '3 in x 40 mm', '1/2 x 3/4 in'),
  'count of': fc.constantFrom('4 of 1/8 in', '12 of 3 mm'),
  dimensions: fc.constantFrom('268 x 240 mm', '90 mm'),
  measure: fc.constantFrom('3 mm', '2 * 3 mm'),
  text: fc.constantFrom('"a b"', '"say \\"so\\""', '“curly, quoted”', '"# no comment"'),
  date: fc.constantFrom('2027-03-01'),
  copy: fc.tuple(fc.constantFrom('', 'left ', 'right '), name).map((parts) => parts.join('')),
  surface: fc
    .tuple(fc.constantFrom('', 'left '), name, fc.constantFrom('', ' inside', ' outside'))
    .map((p) => p.join('')),
  edge: fc.constantFrom('rim', 'top', 'left', 'skull.rim', 'Ärmel.top'),
  step: fc.constantFrom('skull raise', 'left skull dish then raise', 'parade'),
};

function slot(type: SlotType): fc.Arbitrary<string> {
  if (isWordList(type)) {
    const all = wordLists[type].flatMap((entry) => [entry.word, ...(entry.also ?? [])]);
    return all.length ? fc.constantFrom(...all) : name;
  }
  return units1[type] ?? name;
}

function elements(of: readonly Element[]): fc.Arbitrary<string> {
  return fc.tuple(...of.map(element)).map((parts) => parts.filter(Boolean).join(' '));
}

function element(of: Element): fc.Arbitrary<string> {
  switch (of.kind) {
    case 'word':
      return fc.constant(of.word);
    case 'slot':
      return of.list
        ? fc.array(slot(of.type), { minLength: 1, maxLength: 4 }).map((parts) => parts.join(', '))
        : slot(of.type);
    case 'optional':
      return fc.oneof(fc.constant(''), elements(of.of));
    case 'choice':
      return fc.oneof(...of.of.map(elements));
  }
}

const phrases = new Map<PhraseWord, fc.Arbitrary<string>>();
const phrase = (word: PhraseWord): fc.Arbitrary<string> => {
  let known = phrases.get(word);
  if (!known) {
    known = elements(word.pattern.elements);
    phrases.set(word, known);
  }
  return known;
};

const comma = fc.constantFrom(', ', ',  ', ' , ', ',\n    ', ', # goes on\n  ');
const trailing = fc.constantFrom('', '', '', '', ' # why', '  #', ' # allow pitch-wide: since it holds', ' ## no note');
const indent = fc.constantFrom('  ', '  ', '', '\t', '      ');
const between = fc.constantFrom(
  '\n',
  '\n',
  '\n',
  '\n\n',
  '\n\n\n',
  '\n  # a comment\n',
  '\n## a note\n',
  '\n\n# air\n\n',
);

function lineOf(word: LineWord): fc.Arbitrary<string> {
  const qualifiers = word.qualifiers.length
    ? fc
        .uniqueArray(fc.constantFrom(...word.qualifiers), { maxLength: 3 })
        .chain((chosen) => fc.tuple(...chosen.flatMap((each) => [comma, phrase(each)])))
    : fc.constant([]);
  return fc
    .tuple(indent, phrase(word), qualifiers, trailing)
    .map(([before, head, rest, after]) => before + head + rest.join('') + after);
}

const single = fc.constantFrom('let a-1 = 3mm+4 mm', 'use "stock.planish"', 'planish  1', 'let b=max( 3 mm , 4 mm )');

function sectionOf(word: SectionWord): fc.Arbitrary<string> {
  const lines = fc.array(
    fc.tuple(
      between,
      fc.oneof(
        { weight: 8, arbitrary: fc.constantFrom(...word.lines).chain(lineOf) },
        { weight: 1, arbitrary: single },
      ),
    ),
    { maxLength: 6 },
  );
  return fc
    .tuple(indent, word.named === 'text' ? fc.constantFrom('"A job"', '“A job”') : name, trailing, lines)
    .map(([before, named, after, body]) => `${before}${word.kind} ${named}${after}${body.flat().join('')}`);
}

/** A spec of random sections with random lines, laid out without care. */
export const randomSpec = fc
  .tuple(
    fc.constantFrom('', '', 'planish 1\n', '\uFEFF', '\n\n', '# first\n'),
    fc.array(fc.tuple(fc.constantFrom(...sections).chain(sectionOf), between), { maxLength: 5 }),
  )
  .map(([start, parts]) => start + parts.flat().join(''));
