import { SignatureHelpRequest } from 'vscode-languageserver';
import type { ParameterInformation, Position, SignatureHelp, SignatureInformation } from 'vscode-languageserver-types';
import { type LineWord, leadingWords, matchPattern, type PhraseWord } from '../../../grammar/pattern.ts';
import type { Line } from '../../../grammar/tree.ts';
import { lists } from '../../../grammar/vocabulary/index.ts';
import { translated } from '../../../l10n/say.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import { FUNCTIONS } from '../text/arithmetic.ts';
import { spotAt } from '../workspace/spot.ts';
import type { View } from '../workspace/workspace.ts';
import { notationOf } from './hover.ts';

export const feature: Feature = {
  capability: () => ({ signatureHelpProvider: { triggerCharacters: [',', '('] } }),
  requests: [
    aboutOne(SignatureHelpRequest.type, {
      what: 'signature help',
      empty: null,
      answer: (view, { position }) => signatureHelpAt(view, position) ?? null,
    }),
  ],
};

/** How the line under the cursor is written, with what may follow its commas; within brackets how the function is. */
export function signatureHelpAt(view: View, position: Position): SignatureHelp | undefined {
  const offset = view.offsetAt(position);
  const spot = spotAt(view, offset);
  const { section } = spot;
  if (spot.comment) return undefined;
  const at = offset - section.start;
  // Behind the last word of a line the cursor is past the line's own text.
  const behind = ({ to }: { to: number }) => to <= at && /^[^\S\r\n]*,?[^\S\r\n]*$/.test(section.text.slice(to, at));
  const line = spot.line ?? section.lines.find(behind);
  const holder = line ?? spot.single ?? section.singles.find(behind);
  const called = holder && functionAt(section.text.slice(holder.from, at));
  if (called) return called;
  const word = line?.word;
  if (!line || !word) return undefined;
  const ways = waysOf(line, word);
  const active = activeIn(line, word, section.text, at);
  return {
    signatures: ways.map(signatureOf),
    activeSignature: ways.indexOf(word),
    ...(active < 0 ? {} : { activeParameter: active }),
  };
}

/** Every line that begins as this one does so far: behind `edge rim` four of them. */
function waysOf(line: Line, word: LineWord): LineWord[] {
  const items = line.phrases[0]?.items ?? [];
  return (line.section.kind?.lines ?? [word]).filter(
    (each) => each === word || matchPattern(each.pattern, items, lists).used === items.length,
  );
}

function signatureOf(word: LineWord): SignatureInformation {
  const parameters: ParameterInformation[] = [];
  let label = '';
  for (const each of [word, ...word.qualifiers]) {
    if (label) label += ', ';
    const from = label.length;
    label += notationOf(each);
    parameters.push({ label: [from, label.length], documentation: translated(each.doc) });
  }
  return { label, documentation: leadingWords(word.pattern) ? translated(word.doc) : word.example, parameters };
}

/** Which phrase the cursor is in; behind a comma the first that has not been said and begins as what is typed. */
function activeIn(line: Line, word: LineWord, text: string, at: number): number {
  const words: readonly PhraseWord[] = [word, ...word.qualifiers];
  const begun = line.phrases.findLast(({ from }) => from <= at);
  const isNew = begun && begun.to <= at && text.slice(begun.to, at).includes(',');
  const phrase = isNew ? undefined : begun;
  if (phrase === line.phrases[0]) return 0;
  const bound = phrase && line.qualifiers.find(({ from }) => phrase.from <= from && from <= phrase.to);
  if (bound) return words.indexOf(bound.word);
  const typed = phrase ? text.slice(phrase.from, at).toLowerCase() : '';
  const said = new Set<PhraseWord>(line.qualifiers.map((each) => each.word));
  return words.findIndex((each, i) => i > 0 && !said.has(each) && (leadingWords(each.pattern) ?? '').startsWith(typed));
}

/** The function whose bracket is open at the end of a text, and which of its arguments comes. */
function functionAt(text: string): SignatureHelp | undefined {
  let commas = 0;
  let depth = 0;
  for (let at = text.length - 1; at >= 0; at--) {
    if (text[at] === ')') depth++;
    else if (text[at] === ',' && !depth) commas++;
    else if (text[at] === '(' && depth) depth--;
    else if (text[at] === '(') {
      const name = /[\p{L}-]+$/u.exec(text.slice(0, at))?.[0].toLowerCase();
      const called = FUNCTIONS.find((each) => each.name === name);
      if (called) return helpOn(called, commas);
      // Brackets alone: the commas in them are none of a function further out.
      commas = 0;
    }
  }
  return undefined;
}

function helpOn({ notation, doc }: (typeof FUNCTIONS)[number], argument: number): SignatureHelp {
  const open = notation.indexOf('(') + 1;
  const parameters: ParameterInformation[] = [];
  for (const part of notation.slice(open, notation.lastIndexOf(')')).matchAll(/[^,\s][^,]*/g))
    parameters.push({ label: [open + part.index, open + part.index + part[0].length] });
  return {
    signatures: [{ label: notation, documentation: doc, parameters }],
    activeSignature: 0,
    activeParameter: Math.min(argument, parameters.length - 1),
  };
}
