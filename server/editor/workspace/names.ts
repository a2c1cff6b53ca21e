import type { Filled, SlotType } from '../../../grammar/pattern.ts';
import type { Line, Place, Section, Word } from '../../../grammar/tree.ts';
import { patiently, type Steps } from '../../incremental/steps.ts';
import { LINES } from '../../model/forms/form.ts';
import { FORM_EDGES } from '../../model/forms/index.ts';
import type { Named } from '../../model/names/spec-file.ts';
import type { Figure } from '../../model/values/figure.ts';
import { expressionsIn, namesIn, type Spot } from './spot.ts';
import type { View } from './workspace.ts';

/*
 * What a word under the cursor names: a thing with a section or a `let`, or a place of one piece (an opening, an edge
 * that a `cut` made). Definition, references, highlight and rename all ask here.
 */

export type Target =
  | { readonly kind: 'named'; readonly named: Named }
  /** A name given inside a piece. */
  | { readonly kind: 'part'; readonly of: Named; readonly key: string; readonly word: Word };

export interface Use extends Place {
  readonly view: View;
  readonly isDefinition: boolean;
}

/** What is named at a spot, and which letters name it. */
export function targetAt(view: View, spot: Spot): { readonly target: Target; readonly place: Place } | undefined {
  const { section, at, word } = spot;
  if (!word) return undefined;
  const whole = { section, from: word.from, to: word.to };
  if (spot.header === 'name') {
    const named = namedBy(view, section, word);
    return named && { target: { kind: 'named', named }, place: whole };
  }
  if (spot.header) return undefined;
  if (spot.single?.kind === 'let' && spot.single.name === word) {
    const named = namedBy(view, section, word);
    return named && { target: { kind: 'named', named }, place: whole };
  }
  const reference = view.file
    .referencesIn(section)
    .find((each) => each.from <= at && at <= each.to && each.from >= word.from - 1);
  if (reference?.target) return { target: { kind: 'named', named: reference.target }, place: placeOf(reference) };
  const part = partAt(view, spot);
  return part;
}

const placeOf = ({ section, from, to }: Place): Place => ({ section, from, to });

function namedBy(view: View, section: Section, word: Word): Named | undefined {
  return view.file.bearersOf(word.key).find((named) => named.section === section && named.word === word);
}

/** The figure that a name reaches behind its dot: `skull.rim.length`, `guard.head-round`, and for an edge its length. */
export function figureAt(view: View, spot: Spot): { readonly named: Named; readonly figure: Figure } | undefined {
  const { word, at } = spot;
  const dot = word ? word.text.indexOf('.') : -1;
  if (!word || dot < 0 || at <= word.from + dot) return undefined;
  const named = view.file.find(word.key.slice(0, dot));
  const rest = word.key.slice(dot + 1);
  const figure = named && (view.model.figureOf(named, rest) ?? view.model.figureOf(named, `${rest}.length`));
  return figure && { named, figure };
}

/** The names that are given inside a piece: openings and cuts, each where it is first given. */
export function partsOf(section: Section): Map<string, Word> {
  const parts = new Map<string, Word>();
  for (const line of section.lines) {
    for (const { filled } of slotsOf(line)) {
      const word = filled.items[0];
      if (filled.type === 'new name' && word?.kind === 'word' && !parts.has(word.key)) parts.set(word.key, word);
    }
  }
  return parts;
}

export function* slotsOf(line: Line): Generator<{ readonly name: string; readonly filled: Filled }> {
  for (const bound of [...(line.head ? [line.head] : []), ...line.qualifiers])
    for (const [name, all] of bound.slots) for (const filled of all) yield { name, filled };
}

function partAt(view: View, spot: Spot): { target: Target; place: Place } | undefined {
  const { section, word, at } = spot;
  if (!word) return undefined;
  for (const use of partUsesIn(view, section)) {
    if (use.place.from > at || use.place.to < at || use.place.from < word.from || use.place.to > word.to) continue;
    const given = partsOf(use.of.section).get(use.key);
    if (given) return { target: { kind: 'part', of: use.of, key: use.key, word: given }, place: use.place };
  }
  return undefined;
}

interface PartUse {
  readonly of: Named;
  readonly key: string;
  readonly place: Place;
  readonly isDefinition: boolean;
}

const ALWAYS_EDGES = FORM_EDGES;

/** Whether every form may have an edge or a line of that name. */
export const isEdge = (key: string): boolean => ALWAYS_EDGES.has(key) || LINES.includes(key);

/** Everywhere in a section where a name inside a piece is given or used. */
function* partUsesIn(view: View, section: Section): Generator<PartUse> {
  const own = section.kind?.kind === 'piece' && section.name ? namedBy(view, section, section.name) : undefined;
  for (const line of section.lines) {
    for (const { filled } of slotsOf(line)) {
      const word = filled.items[0];
      if (word?.kind === 'word') yield* partUsesOf(view, section, own, filled.type, filled, word);
      for (const item of filled.items)
        for (const expression of expressionsIn(item))
          for (const name of namesIn(expression)) yield* dottedUse(view, section, name);
    }
  }
  for (const single of section.singles) {
    if (single.kind !== 'let' || !single.value) continue;
    for (const part of single.value.parts) for (const name of namesIn(part)) yield* dottedUse(view, section, name);
  }
}

function* partUsesOf(
  view: View,
  section: Section,
  own: Named | undefined,
  type: SlotType,
  filled: Filled,
  word: Word,
): Generator<PartUse> {
  if (type === 'new name' && own) {
    yield { of: own, key: word.key, place: { section, from: word.from, to: word.to }, isDefinition: true };
  } else if (type === 'edge') {
    if (word.key.includes('.')) yield* dottedUse(view, section, word);
    else if (own && !ALWAYS_EDGES.has(word.key))
      yield { of: own, key: word.key, place: { section, from: word.from, to: word.to }, isDefinition: false };
  } else if (type === 'step') {
    const last = filled.items[filled.items.length - 1];
    const piece = view.file.find(filled.text.split(' ')[0] ?? '');
    if (piece?.kind === 'piece' && last?.kind === 'word' && last !== word)
      yield { of: piece, key: last.key, place: { section, from: last.from, to: last.to }, isDefinition: false };
  }
}

function* dottedUse(view: View, section: Section, word: Word): Generator<PartUse> {
  const [first, second] = word.key.split('.');
  if (!second) return;
  const piece = view.file.find(first!);
  if (piece?.kind !== 'piece') return;
  const from = word.from + first!.length + 1;
  yield { of: piece, key: second, place: { section, from, to: from + second.length }, isDefinition: false };
}

/** Everywhere a target is given or used, in the views that are looked at. */
export function* usesOf(target: Target, views: readonly View[]): Steps<Use[]> {
  const uses: Use[] = [];
  for (const view of views) for (const use of yield* usesIn(target, view)) uses.push(use);
  return uses;
}

/** Everywhere a target is given or used in one file. */
export function* usesIn(target: Target, view: View): Steps<Use[]> {
  const uses: Use[] = [];
  const known = new Map<Section, Set<number>>();
  const add = (place: Place, isDefinition: boolean) => {
    const { section, from, to } = place;
    const there = known.get(section) ?? new Set();
    if (there.has(from)) return;
    known.set(section, there.add(from));
    uses.push({ section, from, to, view, isDefinition });
  };
  if (target.kind === 'named') {
    const { named } = target;
    if (named.file.uri === view.file.uri)
      add({ section: named.section, from: named.word.from, to: named.word.to }, true);
    for (const section of view.spec.sections) {
      yield undefined;
      for (const reference of yield* patiently(() => view.file.referencesIn(section)))
        if (reference.target && isSame(reference.target, named)) add(reference, false);
    }
  } else {
    for (const section of view.spec.sections) {
      yield undefined;
      for (const use of partUsesIn(view, section))
        if (use.key === target.key && isSame(use.of, target.of)) add(use.place, use.isDefinition);
    }
  }
  return uses.sort((a, b) => a.section.start + a.from - (b.section.start + b.from));
}

/** Whether two are one name, given in one place. */
export const isSame = (a: Named, b: Named): boolean =>
  a.file.uri === b.file.uri && a.section === b.section && a.word.from === b.word.from;
