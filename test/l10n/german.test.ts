import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { sourcesRead } from '../../.scripts/sentences.ts';
import { sections, singleWords, wordLists } from '../../grammar/vocabulary/index.ts';
import { shortened, speak, type Texts } from '../../l10n/say.ts';
import { checks } from '../../server/checks/all.generated.ts';
import { codeActionsIn } from '../../server/editor/features/code-actions.ts';
import { completionsAt } from '../../server/editor/features/completion.ts';
import { hoverAt } from '../../server/editor/features/hover.ts';
import type { View } from '../../server/editor/workspace/workspace.ts';
import { open, openSample } from '../editor/view.ts';

/*
 * What the server says in German: that nothing is missing, nothing stale, and that what is put in stays. How it is done: l10n/say.ts.
 */

const german: Texts = JSON.parse(readFileSync(path.resolve(import.meta.dirname, '../../l10n/de.json'), 'utf8'));
const { said, quoted, tooSoon } = sourcesRead();

/** Where words follow each other, what is put in and what is quoted aside; a formula of signs needs no German. */
const isProse = (text: string): boolean => /[a-z’]{2,}[ ,;:]+[a-z’]{2,}/.test(text.replace(/\{[^}]*\}|`[^`]*`/g, '#'));

/** What comes from the language itself, and is written so in a spec. */
const OF_THE_LANGUAGE = new Set([
  ...Object.values(wordLists).flatMap((list) => list.flatMap(({ word, also = [] }) => [word, ...also])),
  ...sections.flatMap((section) => section.lines.flatMap((line) => [line, ...line.qualifiers].map(({ id }) => id))),
  'before forming',
  'head inside',
  'round-up(measure, step)',
  // What the completion shows of a stock file.
  'mild steel 16 ga',
  'veg-tan leather 7 oz',
]);

/** What stands in a table and is told whole: of the words of the language, and of each check. */
const described = [
  ...checks.flatMap(({ title, why, todo, caution }) => [title, why, todo, ...(caution ? [caution] : [])]),
  ...sections.flatMap((section) => [
    section.doc,
    ...section.needs.map(({ what }) => what),
    ...section.lines.flatMap((line) => [line.doc, ...line.qualifiers.map(({ doc }) => doc)]),
  ]),
  ...Object.values(singleWords).map(({ doc }) => doc),
  ...Object.values(wordLists).flatMap((list) => list.map(({ doc }) => doc)),
];

describe('the German of the server', () => {
  it('has every sentence that is told with what is put in', () => {
    assert.deepEqual(
      [...said].flatMap(([text, files]) => (text in german || !isProse(text) ? [] : [`${[...files][0]}: ${text}`])),
      [],
    );
  });

  it('has what the words of the language mean, and what each check is about', () => {
    assert.deepEqual(
      described.filter((text) => !(text in german)),
      [],
    );
  });
  it('puts in what the English puts in', () => {
    const parts = (text: string) => [...new Set(text.match(/\{[^{}]*\}/g) ?? [])].sort();
    for (const [text, told] of Object.entries(german)) {
      assert.deepEqual(parts(told), parts(text), text);
      assert.equal(/^\s*/.exec(told)![0], /^\s*/.exec(text)![0], `begins otherwise: ${text}`);
    }
  });

  it('keeps what is shipped apart by short keys', () => {
    assert.equal(Object.keys(shortened(german)).length, Object.keys(german).length);
  });

  it('is not asked for before the language is known', () => assert.deepEqual(tooSoon, []));

  describe('in the editor', () => {
    const missing = new Set<string>();
    const heard = new Set<string>();
    const told: { readonly where: string; readonly text: string }[] = [];

    before(() => {
      speak(shortened(german), (english, _, isFound) => {
        heard.add(english);
        if (!isFound && quoted.has(english) && isProse(english) && !OF_THE_LANGUAGE.has(english)) missing.add(english);
      });
      for (const { code, example, better, beside = {} } of checks)
        for (const spec of [example, better]) {
          const files = Object.entries(beside).map(([name, text]) => `#- ${name}\n${text}`);
          look(code, open([`planish 1\n\n${spec.replaceAll('$0', '')}`, ...files].join('')).view);
        }
      for (const sample of ['sallet/sallet.planish', 'elbow/elbow.planish']) look(sample, openSample(sample));
    });
    after(() => speak());

    function look(where: string, view: View): void {
      for (const { message, fixes, related } of view.problems())
        for (const text of [message, ...fixes.map(({ title }) => title), ...related.map((each) => each.message)])
          told.push({ where, text });
      const range = { start: view.positionAt(0), end: view.positionAt(view.text.length) };
      codeActionsIn(view, range, [], undefined);
      for (const { index } of view.text.matchAll(/[\p{L}\d][\p{L}\d.-]*/gu)) hoverAt(view, view.positionAt(index));
      for (const { index } of view.text.matchAll(/(?<=\n {2})\S|(?<=, )\S/g))
        completionsAt(view, view.positionAt(index), { snippets: true });
    }

    it('misses no text of ours', () => assert.deepEqual([...missing], []));

    it('finds, mends and relates in German', () => {
      const english = told.filter(({ text }) =>
        ENGLISH.test(text.replace(/„[^“]*“|“[^”]*”|`[^`]*`|"[^"]*"|\S+-\S+/g, '#')),
      );
      assert.deepEqual(
        [...new Set(english.map(({ where, text }) => `${where}: ${text}`))].filter((line) => !QUOTES.test(line)),
        [],
      );
    });

    it('has no text that nothing tells any more', () => {
      const known = (text: string) => said.has(text) || quoted.has(text) || heard.has(text) || described.includes(text);
      assert.deepEqual(
        Object.keys(german).filter((text) => !known(text)),
        [],
      );
    });
  });
});

/** Words that no German sentence has. */
const ENGLISH = /\b(the|is|are|of|and|with|from|least|needs|has|too|than|not|which|its|but|for|what)\b/i;

/** What is quoted as it stands in a spec. */
const QUOTES = /: (Einfügen: |finish |for the |Rules of the list)/;
