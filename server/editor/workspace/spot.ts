import type { Bound, Filled } from '../../../grammar/pattern.ts';
import type {
  Comment,
  Excuse,
  Expression,
  Item,
  Line,
  NumberExpression,
  Section,
  SingleLine,
  Span,
  Word,
} from '../../../grammar/tree.ts';
import type { View } from './workspace.ts';

/** What stands at one place of a spec, from the section down to the word. */
export interface Spot {
  readonly section: Section;
  /** Offset in the section. */
  readonly at: number;
  readonly comment?: Comment;
  readonly excuse?: Excuse;
  readonly header?: 'kind' | 'name' | 'title';
  readonly line?: Line;
  readonly single?: SingleLine;
  readonly item?: Item;
  /** The head of the line or the qualifier in which the place lies. */
  readonly bound?: Bound;
  readonly slot?: { readonly name: string; readonly filled: Filled };
  /** A word, alone or in arithmetic. */
  readonly word?: Word;
  readonly number?: NumberExpression;
}

const touches = (span: Span, at: number): boolean => span.from <= at && at <= span.to;

/** Of things that touch a place, the one that goes on after it: between `1/8` and `in` that is the unit. */
function touching<T extends Span>(spans: readonly T[], at: number): T | undefined {
  let found: T | undefined;
  for (const span of spans) if (touches(span, at)) found = span;
  return found;
}

export function spotAt(view: View, offset: number): Spot {
  const section = view.sectionAt(offset);
  const at = offset - section.start;
  const base = { section, at };
  const line = touching(section.lines, at);
  const single = touching(section.singles, at);
  const comment = section.comments.find((each) => each.from < at && at <= each.to);
  if (comment) {
    const holders = [...section.lines, ...section.singles];
    const excuse = holders
      .map((each) => ('excuse' in each ? each.excuse : undefined))
      .find((each) => each && touches(each, at));
    return { ...base, comment, ...(excuse ? { excuse } : {}) };
  }
  if (section.header && touches(section.header, at)) {
    if (section.kindAt && touches(section.kindAt, at)) return { ...base, header: 'kind', word: section.kindAt };
    if (section.name && touches(section.name, at)) return { ...base, header: 'name', word: section.name };
    return section.title && touches(section.title, at) ? { ...base, header: 'title' } : base;
  }
  if (line) return { ...base, line, ...inLine(line, at) };
  if (single) {
    if (single.kind === 'let') {
      if (single.name && touches(single.name, at)) return { ...base, single, word: single.name };
      const parts = single.value ? [...single.value.parts] : [];
      const part = touching(parts, at);
      return { ...base, single, ...(part ? inExpression(part, at) : {}) };
    }
    return { ...base, single };
  }
  return base;
}

type InLine = Pick<Spot, 'item' | 'bound' | 'slot' | 'word' | 'number'>;

function inLine(line: Line, at: number): InLine {
  const item = touching(
    line.phrases.flatMap((phrase) => phrase.items),
    at,
  );
  if (!item) return {};
  const bounds = [...(line.head ? [line.head] : []), ...line.qualifiers];
  let slot: Spot['slot'];
  let bound: Bound | undefined;
  for (const each of bounds) {
    for (const [name, all] of each.slots) {
      const filled = all.find((one) => one.items.includes(item));
      if (filled) {
        slot = { name, filled };
        bound = each;
      }
    }
  }
  bound ??= bounds.find((each) => touches(each, at));
  return {
    item,
    ...(bound ? { bound } : {}),
    ...(slot ? { slot } : {}),
    ...(item.kind === 'word' ? { word: item } : {}),
    ...(item.kind === 'measure' ? inMeasure(item, at) : {}),
  };
}

function inMeasure(measure: Extract<Item, { kind: 'measure' }>, at: number): InLine {
  const all = [
    ...(measure.count ? [measure.count] : []),
    ...measure.parts,
    ...(measure.tolerance ? [measure.tolerance] : []),
  ];
  const part = touching(all, at);
  return part ? inExpression(part, at) : {};
}

function inExpression(expression: Expression, at: number): InLine {
  switch (expression.kind) {
    case 'number':
      return { number: expression };
    case 'name':
      return { word: expression.name };
    case 'negate':
      return inExpression(expression.of, at);
    case 'binary': {
      const part = touching([expression.left, expression.right], at);
      return part ? inExpression(part, at) : {};
    }
    case 'call': {
      if (touches(expression.name, at)) return { word: expression.name };
      const part = touching(expression.arguments, at);
      return part ? inExpression(part, at) : {};
    }
  }
}

/** Every word that stands for a name in arithmetic. */
export function* namesIn(expression: Expression): Generator<Word> {
  switch (expression.kind) {
    case 'name':
      yield expression.name;
      return;
    case 'negate':
      yield* namesIn(expression.of);
      return;
    case 'binary':
      yield* namesIn(expression.left);
      yield* namesIn(expression.right);
      return;
    case 'call':
      for (const argument of expression.arguments) yield* namesIn(argument);
  }
}

/** Every number of an expression. */
export function* numbersIn(expression: Expression): Generator<NumberExpression> {
  switch (expression.kind) {
    case 'number':
      yield expression;
      return;
    case 'negate':
      yield* numbersIn(expression.of);
      return;
    case 'binary':
      yield* numbersIn(expression.left);
      yield* numbersIn(expression.right);
      return;
    case 'call':
      for (const argument of expression.arguments) yield* numbersIn(argument);
  }
}

/** Every expression of an item. */
export function expressionsIn(item: Item): readonly Expression[] {
  if (item.kind !== 'measure') return [];
  return [...(item.count ? [item.count] : []), ...item.parts, ...(item.tolerance ? [item.tolerance] : [])];
}
