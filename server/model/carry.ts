import { isMeasure, isWordList } from '../../grammar/pattern.ts';
import type { Expression, LetLine, Line, Section } from '../../grammar/tree.ts';
import type { Named, SpecFile } from './file.ts';

/*
 * What was worked out of a section stays good as long as nothing that it read has changed. The reader takes sections
 * whose text did not change over from the tree before, so "not changed" is "the same object": a thing's reckoning is
 * kept with its section, beside the list of all that it could have read, and used again while that list is the same.
 *
 * **Invariant:** only plain values are kept, figures and results; nothing that points at a file or a model, since those
 * are made anew for every revision of the text.
 */

/** A section, a named measure, or a name that nothing has. */
type Read = Section | LetLine | string;

interface Kept {
  readonly reads: readonly Read[];
  readonly values: Map<string, unknown>;
}

const kept = new WeakMap<Section, Kept>();

/** Hands a thing of a spec what was worked out of it before, where that is still good. */
export class Carry {
  private values: Map<string, unknown> | undefined;

  constructor(private readonly named: Named) {}

  /** The value of this name as kept, else worked out and kept. */
  value<T>(name: string, compute: () => T): T {
    this.values ??= valuesOf(this.named);
    const { values } = this;
    if (values.has(name)) return values.get(name) as T;
    const value = compute();
    values.set(name, value);
    return value;
  }
}

function valuesOf(named: Named): Map<string, unknown> {
  const { section } = named;
  const reads = readsOf(named);
  // What is made from itself comes out as the question is asked: nothing of it is kept.
  if (!reads) return new Map();
  const have = kept.get(section);
  if (have && have.reads.length === reads.length && have.reads.every((read, i) => read === reads[i]))
    return have.values;
  const values = new Map<string, unknown>();
  kept.set(section, { reads, values });
  return values;
}

/** All that a thing could read, itself first: what it names, what that names, and so on. Nothing where that is a circle. */
function readsOf(named: Named): Read[] | undefined {
  const reads = new Set<Read>();
  const open = new Set<Read>();
  const visit = (node: Section | LetLine, file: SpecFile): boolean => {
    if (open.has(node)) return false;
    if (reads.has(node)) return true;
    reads.add(node);
    open.add(node);
    // Which table a gauge is read by is said in the shop, which nobody names.
    const shop = shopOf(file);
    if (shop) reads.add(shop);
    // Nor the rulebook that the build is held against, which some figures are worked out for.
    const build = buildOf(file);
    if (build && !reads.has(build) && !visit(build, file)) return false;
    for (const key of mentionsOf(node)) {
      const target = file.find(key);
      if (!target) reads.add(key);
      else if (!visit(target.let ?? target.section, target.file)) return false;
    }
    open.delete(node);
    return true;
  };
  if (!visit(named.section, named.file)) return undefined;
  // A hinge takes its knuckles from a leaf that does not name it.
  if (named.kind === 'piece') {
    for (const hinge of named.file.sectionsOf('hinge')) {
      const keys = mentionsOf(hinge);
      if (!keys.includes(named.word.key)) continue;
      reads.add(hinge);
      for (const key of keys) {
        const target = named.file.find(key);
        if (!target) reads.add(key);
        else if (target.kind === 'material' && !visit(target.section, target.file)) return undefined;
      }
    }
  }
  return [...reads];
}

const shops = new WeakMap<SpecFile, Section | null>();

function shopOf(file: SpecFile): Section | null {
  let shop = shops.get(file);
  if (shop === undefined) {
    shop = file.firstSection('shop')?.section ?? null;
    shops.set(file, shop);
  }
  return shop;
}

const builds = new WeakMap<SpecFile, Section | null>();

function buildOf(file: SpecFile): Section | null {
  let build = builds.get(file);
  if (build === undefined) {
    build = file.sectionsOf('build')[0] ?? null;
    builds.set(file, build);
  }
  return build;
}

const mentions = new WeakMap<Section | LetLine, readonly string[]>();

/** The names that stand in a section's lines, or in a measure. */
function mentionsOf(node: Section | LetLine): readonly string[] {
  let found = mentions.get(node);
  if (!found) {
    const keys = new Set<string>();
    if ('lines' in node) for (const line of node.lines) collectLine(line, keys);
    else for (const part of node.value?.parts ?? []) collect(part, keys);
    found = [...keys];
    mentions.set(node, found);
  }
  return found;
}

function collectLine(line: Line, keys: Set<string>): void {
  for (const bound of [...(line.head ? [line.head] : []), ...line.qualifiers]) {
    for (const all of bound.slots.values()) {
      for (const { type, items } of all) {
        if (isWordList(type) || type === 'new name') continue;
        for (const item of items) {
          if (item.kind === 'word') {
            // An edge of the piece itself is no name.
            if (type !== 'edge' || item.key.includes('.')) keys.add(firstOf(item.key));
          } else if (item.kind === 'measure' && isMeasure(type)) {
            if (item.count) collect(item.count, keys);
            for (const part of item.parts) collect(part, keys);
          }
        }
      }
    }
  }
}

function collect(expression: Expression, keys: Set<string>): void {
  switch (expression.kind) {
    case 'number':
      return;
    case 'name':
      if (expression.name.key !== 'pi') keys.add(firstOf(expression.name.key));
      return;
    case 'negate':
      collect(expression.of, keys);
      return;
    case 'binary':
      collect(expression.left, keys);
      collect(expression.right, keys);
      return;
    case 'call':
      for (const argument of expression.arguments) collect(argument, keys);
  }
}

const firstOf = (key: string): string => {
  const dot = key.indexOf('.');
  return dot < 0 ? key : key.slice(0, dot);
};
