import { SemanticTokensDeltaRequest, SemanticTokensRangeRequest, SemanticTokensRequest } from 'vscode-languageserver';
import type { Range, SemanticTokens } from 'vscode-languageserver-types';
import { isMeasure, isWordList } from '../../../grammar/pattern.ts';
import type { Expression, Item, Line, Section, Span, Word } from '../../../grammar/tree.ts';
import { atOnce, mapped, type Steps } from '../../incremental/steps.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import { expressionsIn } from '../workspace/spot.ts';
import type { View } from '../workspace/workspace.ts';

export const feature: Feature = {
  capability: () => ({
    semanticTokensProvider: {
      legend: { tokenTypes: [...TOKEN_TYPES], tokenModifiers: [...TOKEN_MODIFIERS] },
      full: { delta: true },
      range: true,
    },
  }),
  requests: [
    aboutOne(SemanticTokensRequest.type, {
      what: 'semantic tokens',
      empty: { data: [] },
      answer: (view, _, { tokens }) => mapped(semanticTokensInSteps(view), (all) => tokens.whole(view.uri, all)),
    }),
    aboutOne(SemanticTokensDeltaRequest.type, {
      what: 'semantic tokens',
      empty: { data: [] },
      answer: (view, { previousResultId }, { tokens }) =>
        mapped(semanticTokensInSteps(view), (all) => tokens.since(view.uri, previousResultId, all)),
    }),
    aboutOne(SemanticTokensRangeRequest.type, {
      what: 'semantic tokens',
      empty: { data: [] },
      answer: (view, { range }) => semanticTokensInSteps(view, range),
    }),
  ],
};

/** Standard types only, so that every theme knows them. */
export const TOKEN_TYPES = [
  'keyword',
  'class',
  'property',
  'variable',
  'number',
  'string',
  'comment',
  'operator',
  'enumMember',
  'function',
] as const;
const TOKEN_MODIFIERS = ['declaration'] as const;

type TokenType = (typeof TOKEN_TYPES)[number];
interface Token extends Span {
  readonly type: TokenType;
  readonly declares?: boolean;
}

/**
 * What each word means, for the whole spec or for the lines in view.
 *
 * @tests in one go: who may not wait asks for the steps
 */
export const semanticTokensOf = (view: View, range?: Range): SemanticTokens =>
  atOnce(semanticTokensInSteps(view, range));

function* semanticTokensInSteps(view: View, range?: Range): Steps<SemanticTokens> {
  const from = range ? view.offsetAt(range.start) : 0;
  const to = range ? view.offsetAt(range.end) : view.text.length;
  const data: number[] = [];
  let line = 0;
  let character = 0;
  for (const section of view.spec.sections) {
    if (section.start > to || section.start + section.text.length < from) continue;
    yield undefined;
    const tokens = tokensIn(section).sort((a, b) => a.from - b.from || a.to - b.to);
    let end = -1;
    for (const [i, token] of tokens.entries()) {
      if (i % MANY === MANY - 1) yield undefined;
      // Tokens may not lie over each other, and each must stay on its line.
      if (token.from < end || token.to <= token.from) continue;
      const start = section.start + token.from;
      if (start >= to || section.start + token.to <= from) continue;
      const at = view.positionAt(start);
      const till = view.positionAt(section.start + token.to);
      if (till.line !== at.line) continue;
      end = token.to;
      data.push(
        at.line - line,
        at.line === line ? at.character - character : at.character,
        till.character - at.character,
        TOKEN_TYPES.indexOf(token.type),
        token.declares ? 1 : 0,
      );
      line = at.line;
      character = at.character;
    }
  }
  return { data };
}

/** So many are placed in a few milliseconds. */
const MANY = 1_000;

function tokensIn(section: Section): Token[] {
  const tokens: Token[] = [];
  const add = (span: Span, type: TokenType, declares = false) => {
    let { to } = span;
    // A number ends where its unit begins: the blank between is nobody's.
    while (to > span.from && /\s/.test(section.text[to - 1]!)) to--;
    tokens.push({ from: span.from, to, type, ...(declares ? { declares } : {}) });
  };
  for (const comment of section.comments) add(comment, 'comment');
  if (section.kind && section.kindAt) add(section.kindAt, 'keyword');
  if (section.name) add(section.name, 'class', true);
  if (section.title) add(section.title, 'string');
  for (const line of section.lines) addLine(line, add);
  for (const single of section.singles) {
    const word = single.kind === 'version' ? 'planish' : single.kind;
    add({ from: single.from, to: single.from + word.length }, 'keyword');
    if (single.kind === 'use' && single.path) add(single.path, 'string');
    if (single.kind === 'let') {
      if (single.name) add(single.name, 'variable', true);
      if (single.value) addItem(single.value, 'variable', add);
    }
  }
  return tokens;
}

type Add = (span: Span, type: TokenType, declares?: boolean) => void;

function addLine(line: Line, add: Add): void {
  const filled = new Map<Item, { readonly type: TokenType; readonly declares: boolean }>();
  for (const bound of [...(line.head ? [line.head] : []), ...line.qualifiers]) {
    for (const all of bound.slots.values()) {
      for (const { type, items, copy, face } of all) {
        const kind: TokenType = isWordList(type)
          ? 'enumMember'
          : isMeasure(type) || type === 'edge' || type === 'new name'
            ? 'variable'
            : 'class';
        items.forEach((item, i) => {
          const isSide = (copy && i === 0) || (face && i === items.length - 1) || (type === 'step' && i > 0);
          filled.set(item, { type: isSide ? 'enumMember' : kind, declares: type === 'new name' });
        });
      }
    }
  }
  for (const phrase of line.phrases) {
    for (const item of phrase.items) {
      const as = filled.get(item);
      if (as) addItem(item, as.type, add, as.declares);
      else if (item.kind !== 'word') addItem(item, 'variable', add);
      else if (line.word) add(item, 'property');
    }
  }
}

function addItem(item: Item, type: TokenType, add: Add, declares = false): void {
  if (item.kind === 'word') addWord(item, type, add, declares);
  else if (item.kind === 'text') add(item, 'string');
  else if (item.kind === 'date') add(item, 'number');
  else for (const expression of expressionsIn(item)) addExpression(expression, add);
}

/** `skull.rim`: a thing, and what belongs to it. */
function addWord(word: Word, type: TokenType, add: Add, declares = false): void {
  const dot = word.text.indexOf('.');
  // A name in another Unicode form is longer as written than as kept: then it is one token.
  if (dot < 0 || word.text.length !== word.to - word.from) {
    add(word, type, declares);
    return;
  }
  add({ from: word.from, to: word.from + dot }, type === 'variable' ? 'class' : type);
  add({ from: word.from + dot + 1, to: word.to }, 'variable');
}

function addExpression(expression: Expression, add: Add): void {
  switch (expression.kind) {
    case 'number':
      add({ from: expression.from, to: Math.min(expression.to, expression.unitAt?.from ?? expression.to) }, 'number');
      return;
    case 'name':
      addWord(expression.name, 'variable', add);
      return;
    case 'negate':
      addExpression(expression.of, add);
      return;
    case 'binary':
      addExpression(expression.left, add);
      add(expression.operatorAt, 'operator');
      addExpression(expression.right, add);
      return;
    case 'call':
      add(expression.name, 'function');
      for (const argument of expression.arguments) addExpression(argument, add);
  }
}
