import assert from 'node:assert/strict';
import { bareNumber } from '../../grammar/parser.ts';
import {
  type Element,
  type Filled,
  isMeasure,
  type LineWord,
  type PhraseWord,
  type SectionWord,
} from '../../grammar/pattern.ts';
import { readSpec } from '../../grammar/reader.ts';
import { type KnownNames, lineSnippet, snippetOf, withDefaults } from '../../grammar/snippets.ts';
import type { Span } from '../../grammar/tree.ts';
import { sections } from '../../grammar/vocabulary/index.ts';
import { problemsOf } from '../../server/checks/run.ts';
import { hoverAt } from '../../server/editor/features/hover.ts';
import { inlayHintsIn } from '../../server/editor/features/inlay-hints.ts';
import { ALL_HINTS } from '../../server/editor/workspace/settings.ts';
import { atOnce } from '../../server/incremental/steps.ts';
import { cutListOf } from '../../server/output/documents/cut-list-of.ts';
import { explain } from '../../server/output/documents/explain.ts';
import { orderListOf } from '../../server/output/documents/order-list.ts';
import { writeJson } from '../../server/output/writers/json.ts';
import { open } from './view.ts';

/*
 * Every number of every pattern of the vocabulary, at its ends: a line that holds it is put into a small build, and whatever is
 * asked of that build then is a finding or a figure, in writing that a smith can read. New words are covered as they come.
 */

const ENDS: Readonly<Record<string, string>> = {
  nought: '0',
  'less than nought': '-1',
  'next to nothing': '0.000000001',
  'a thousand million': '1000000000',
  '1e160': `1${'0'.repeat(160)}`,
  '1e308': `1${'0'.repeat(308)}`,
  '400 digits': '7'.repeat(400),
};

/** Ends that no measure of anything has. */
const BEYOND_ALL = new Set(['1e160', '1e308', '400 digits']);

/** Where such a number is not even read, papers say the same of one as of another. */
const ON_PAPER = new Set(Object.keys(ENDS).filter((name) => !BEYOND_ALL.has(name) || name === '1e160'));

/** What nobody can read in a text. */
const UNREADABLE = /\bNaN\b|\bInfinity\b|\bnull\b|\bundefined\b|\d[eE][+-]?\d/;

/** The first thing in a JSON that no reader makes sense of. */
function unreadable(json: string): string | undefined {
  let bad: string | undefined;
  JSON.parse(json, (key, value: unknown) => {
    const isBad =
      value === null ||
      (typeof value === 'string' && UNREADABLE.test(value)) ||
      (typeof value === 'number' && String(value).includes('e+'));
    if (isBad) bad ??= `${key}: ${String(value).slice(0, 300)}`;
    return value;
  });
  return bad;
}

const NAMES: Readonly<Record<string, string>> = {
  piece: 'lid',
  material: 'plate',
  rivet: 'small',
  part: 'buckle',
  wearer: 'guard',
  seam: 'row',
  hinge: 'swinging',
  finish: 'bright',
  rules: 'book',
  copy: 'lid',
  surface: 'lid',
  edge: 'top',
  step: 'lid planish',
};

const known: KnownNames = (type, slot) =>
  slot === 'wire' ? ['pin'] : slot === 'line2' ? ['middle'] : NAMES[type] ? [NAMES[type]] : [];

/** What stands in the build besides the line that is looked at. Each is left out where that line is in a section like it. */
const BUILD: Readonly<Record<string, string>> = {
  build: 'build "Every number"\n  make 2, spare 1\n',
  wearer: 'wearer guard\n  head round 585 mm\n',
  material: `material plate
  mild steel 1.5 mm
  sheet 1250 x 2500 mm, price 74, have 1
material pin
  mild steel wire 1/8 in
  coil 10 m, price 6.50, have 1
`,
  rivet: 'rivet small\n  brass 1/8 x 3/8 in, domed\n  pack 100, price 14.50, have 40\n',
  part: 'part buckle\n  price 6\n',
  rules: 'rules book\n  book "A book"\n',
  piece: `piece lid
  from plate
  cylinder round 300 mm, high 80 mm, wrap 180 deg
piece other
  from plate
  cylinder round 300 mm, high 80 mm, wrap 180 deg
`,
  seam: 'seam row\n  joins lid, other\n  along lid.top\n  rivets small, every 28 mm, inset 8 mm, peened domed\n',
  hinge: 'hinge swinging\n  joins lid.left, other.right\n  knuckles 5, wide 60 mm\n  over pin\n',
  finish: 'finish bright\n  on lid\n  polish\n',
};

/** Lines that a section needs beside the one that is looked at, by their first word or words. */
const BESIDE: Readonly<Record<string, readonly string[]>> = {
  material: ['mild steel 1.5 mm'],
  rivet: ['brass 1/8 x 3/8 in, domed'],
  seam: ['joins lid, other', 'along lid.top', 'rivets small, every 28 mm, inset 8 mm, peened domed'],
  hinge: ['joins lid.left, other.right', 'knuckles 5, wide 60 mm', 'over pin'],
  joint: ['plates lid, other'],
  finish: ['on lid'],
};

/** Ways of filling a line that neither its example nor its snippet takes. */
const OTHER_WAYS: Readonly<Record<string, readonly string[]>> = {
  'half dome': ['half dome round 700 mm, long 240 mm, deep 160 mm'],
  anneal: ['anneal 650 C'],
  pivots: ['pivots small, inset 10 mm, at 30 mm from top and 20 mm right of middle'],
  slides: ['slides small, inset 10 mm, at 30 mm from top and 20 mm right of middle'],
};

function besideOf(section: SectionWord, line: LineWord): readonly string[] {
  if (section.kind !== 'piece') {
    const own = line.group === 'stock' || line.group === 'joining' ? line.group : line.id;
    return (BESIDE[section.kind] ?? []).filter((text) => {
      const word = readSpec(`${section.kind} one\n  ${text}\n`).sections[0]!.lines[0]!.word!;
      return word.id !== own && word.group !== own;
    });
  }
  if (line.id === 'from') return ['cylinder round 300 mm, high 80 mm, wrap 180 deg'];
  if (line.group === 'form') return ['from plate'];
  if (line.group === 'outline')
    return ['from plate', 'outline', 'to 90 mm right and 0 mm up', 'to 90 mm right and 70 mm up'];
  if (line.group === 'level')
    return ['from plate', 'form wrap 180 deg', 'at 0 mm, round 400 mm', 'at 60 mm, round 380 mm'];
  return ['from plate', 'cylinder round 300 mm, high 80 mm, wrap 180 deg', 'dish'].filter((text) => text !== line.id);
}

interface Number {
  readonly section: SectionWord;
  readonly word: PhraseWord;
  readonly slot: string;
  /** The whole line, and where the number stands in it. */
  readonly line: string;
  readonly at: Span;
  readonly text: (line: string) => string;
}

/** Every number that the patterns take, each in a line that holds it. */
const numbers: readonly Number[] = sections.flatMap((section) =>
  section.lines.flatMap((line) => {
    const usual = withDefaults(lineSnippet(line, known));
    const texts = [usual, line.example];
    texts.push(...(OTHER_WAYS[line.id] ?? []));
    for (const qualifier of line.qualifiers) texts.push(`${usual}, ${withDefaults(snippetOf(qualifier, known))}`);
    const seen = new Set<string>();
    return texts.flatMap((text) =>
      numbersIn(section, line, text).filter(({ word, slot, at }) => {
        const key = `${word.id} ${slot} ${text.slice(0, at.from).split(' x ').length > 1 ? 'second' : ''}`;
        return !seen.has(key) && seen.add(key);
      }),
    );
  }),
);

function numbersIn(section: SectionWord, line: LineWord, text: string): Number[] {
  const header = section.named === 'text' ? `${section.kind} "One"` : `${section.kind} one`;
  const beside = besideOf(section, line);
  const others = Object.entries(BUILD).flatMap(([kind, part]) =>
    kind === section.kind && kind === 'build' ? [] : [part],
  );
  const build = (own: string) =>
    `planish 1\n${others.join('')}${header}\n${[...beside, own].map((each) => `  ${each}\n`).join('')}`;
  const start = `${header}\n  `;
  const [read] = readSpec(`${start}${text}\n`).sections[0]!.lines;
  const found: Number[] = [];
  for (const bound of read?.head ? [read.head, ...read.qualifiers] : [])
    for (const [slot, all] of bound.slots)
      for (const at of all.flatMap(numberSpans))
        found.push({
          section,
          word: bound.word,
          slot,
          line: text,
          at: { from: at.from - start.length, to: at.to - start.length },
          text: build,
        });
  return found;
}

function numberSpans(filled: Filled): Span[] {
  const item = filled.items[0];
  if (item?.kind !== 'measure') return [];
  return [...(item.count ? [item.count] : []), ...item.parts].flatMap((expression) => {
    const number = bareNumber(expression);
    return number ? [{ from: number.from, to: number.from + number.written.length }] : [];
  });
}

function measureSlots(elements: readonly Element[]): string[] {
  return elements.flatMap((element): string[] => {
    if (element.kind === 'slot') return isMeasure(element.type) ? [element.name] : [];
    if (element.kind === 'optional') return measureSlots(element.of);
    return element.kind === 'choice' ? element.of.flatMap(measureSlots) : [];
  });
}

/** One spec that is open all the time: the line that is looked at is typed into it, and what else it says is kept. */
const desk = open('planish 1\n');
let version = 1;

/** All that is written out about a build. */
function answers(
  text: string,
  at: number,
  onPaper: boolean,
): { found: ReadonlySet<string>; written: Record<string, string> } {
  const uri = desk.uri('spec.planish');
  desk.workspace.change(uri, ++version, [{ text }]);
  const view = desk.workspace.view(uri)!;
  const { model } = view;
  const problems = problemsOf(model);
  const found = new Set<string>();
  for (const { code, place } of problems)
    if (place.section.start + place.from <= at && at <= place.section.start + place.to) found.add(code);
  const list = onPaper && cutListOf(model, { date: '2027-01-18', problems });
  const messages = problems.map(({ message }) => message);
  return {
    found,
    written: {
      messages: JSON.stringify(messages),
      ...(list
        ? {
            explain: JSON.stringify(explain(model, { file: 'spec.planish', problems })),
            'cut list': atOnce(writeJson('cut list', list)),
            'order list': atOnce(writeJson('order list', orderListOf(list))),
          }
        : {}),
      hover: JSON.stringify(hoverAt(view, view.positionAt(at)) ?? ''),
      hints: JSON.stringify(inlayHintsIn(view, view.range(0, view.text.length), ALL_HINTS)),
    },
  };
}

describe('every number of every pattern, at its ends', function () {
  this.timeout(300_000);

  it('is reached by a line of this test', () => {
    const reached = new Set(numbers.map(({ section, word, slot }) => `${section.kind} ${word.id} ${slot}`));
    const missed = sections.flatMap((section) =>
      section.lines.flatMap((line) =>
        [line, ...line.qualifiers].flatMap((word) =>
          measureSlots(word.pattern.elements)
            .map((slot) => `${section.kind} ${word.id} ${slot}`)
            .filter((each) => !reached.has(each)),
        ),
      ),
    );
    assert.deepEqual([...new Set(missed)], []);
  });

  for (const section of sections)
    it(`of a ${section.kind}: is a finding or figures that can be read`, () => {
      for (const number of numbers.filter((each) => each.section === section)) tryAtEnds(number);
    });
});

function tryAtEnds({ line, at, text, slot }: Number): void {
  for (const [name, end] of Object.entries(ENDS)) {
    const changed = line.slice(0, at.from) + end + line.slice(at.to);
    const whole = text(changed);
    const { found, written } = answers(whole, whole.length - 1 - changed.length + at.from, ON_PAPER.has(name));
    const what = `${slot} at ${name} in “${line}”`;
    for (const [paper, content] of Object.entries(written)) {
      assert.equal(unreadable(content), undefined, `${what}: ${paper}`);
    }
    if (BEYOND_ALL.has(name))
      assert.ok(found.has('number-impossible') || found.has('count-too-large'), `${what}: ${[...found]}`);
  }
}
