import { PrepareRenameRequest, RenameRequest } from 'vscode-languageserver';
import type { Position, Range, TextEdit, WorkspaceEdit } from 'vscode-languageserver-types';
import { isName } from '../../../grammar/tokens.ts';
import { unitOf } from '../../../grammar/units.ts';
import { reservedNames } from '../../../grammar/vocabulary/index.ts';
import { say } from '../../../l10n/say.ts';
import { patiently, type Steps, steadfast } from '../../incremental/steps.ts';
import { isLibrary } from '../../model/names/library.ts';
import { aboutOne, type Feature, Refused } from '../protocol/feature.ts';
import { isEdge, partsOf, type Target, targetAt, type Use, usesOf } from '../workspace/names.ts';
import { spotAt } from '../workspace/spot.ts';
import { MOST_SPECS, type View } from '../workspace/workspace.ts';

export const feature: Feature = {
  capability: ({ preparesRename }) => ({
    renameProvider: { workDoneProgress: true, ...(preparesRename ? { prepareProvider: true } : {}) },
  }),
  requests: [
    aboutOne(PrepareRenameRequest.type, {
      what: 'rename',
      empty: null,
      answer: (view, { position }) => prepareRenameAt(view, position),
    }),
    aboutOne(RenameRequest.type, {
      what: 'rename',
      empty: null,
      readsAll: true,
      before: ({ workspace }) => workspace.lookAgain(),
      answer: (view, { position, newName }) => renameAt(view, position, newName),
    }),
  ],
};

/** Why something cannot be renamed, said to the smith. */
export class RenameRefused extends Refused {}

export function prepareRenameAt(view: View, position: Position): { range: Range; placeholder: string } {
  const found = targetToRename(view, position);
  return { range: view.rangeOf(found.place), placeholder: wordOf(found.target).text };
}

/** What is named at a position, if its name can be changed. */
function targetToRename(view: View, position: Position) {
  const found = targetAt(view, spotAt(view, view.offsetAt(position)));
  if (!found)
    throw new RenameRefused('Only names can be renamed: those of sections, of measures, and of places on a piece.');
  const { file, word } = found.target.kind === 'named' ? found.target.named : { ...found.target.of, ...found.target };
  if (isLibrary(file.uri)) throw new RenameRefused(say`“${word.text}” comes with Planish and keeps its name.`);
  return found;
}

const wordOf = (target: Target) => (target.kind === 'named' ? target.named.word : target.word);

/** A new name everywhere at once. Refused where the spec would then mean something else. */
export function* renameAt(view: View, position: Position, newName: string): Steps<WorkspaceEdit> {
  const found = targetToRename(view, position);
  const { target } = found;
  const name = newName.trim().normalize('NFC');
  checkName(name);
  const old = wordOf(target);
  if (view.workspace.hasTooManySpecs())
    throw new RenameRefused(
      say`There are more than ${MOST_SPECS} specs in the open folders, and not all are looked through: one that names “${old.text}” could be missed. Open the folder of this build alone.`,
    );
  const views = yield* view.workspace.specsAround(view, old.key);
  const uses = yield* usesOf(target, views);
  // Who has the new name already may never have said the old one.
  if (name.toLowerCase() !== old.key)
    yield* checkFree(name, target, [...views, ...(yield* view.workspace.specsAround(view, name))]);
  const edits = new Map<View, TextEdit[]>();
  for (const use of uses) {
    yield undefined;
    const edit = { range: use.view.rangeOf(use), newText: name };
    const own = edits.get(use.view);
    if (own) own.push(edit);
    else edits.set(use.view, [edit]);
  }
  if (name.toLowerCase() !== old.key) yield* steadfast(checkMeaning(name, uses, target));
  return { changes: Object.fromEntries([...edits].map(([each, changes]) => [each.uri, changes])) };
}

function checkName(name: string): void {
  if (!isName(name)) throw new RenameRefused('A name is letters, digits and hyphens, and starts with a letter.');
  if (reservedNames.has(name.toLowerCase()) || unitOf(name))
    throw new RenameRefused(say`“${name}” is a word of the language and cannot be a name.`);
}

function* checkFree(name: string, target: Target, views: readonly View[]): Steps<void> {
  const key = name.toLowerCase();
  if (target.kind === 'part') {
    if (isEdge(key)) throw new RenameRefused(say`“${name}” is an edge or a line of a form already.`);
    if (partsOf(target.of.section).has(key))
      throw new RenameRefused(say`“${name}” is the name of another place on ${target.of.word.text} already.`);
    return;
  }
  for (const view of views) {
    yield undefined;
    const taken = view.file.find(key);
    const seesTarget = view.file.find(wordOf(target).key);
    if (taken && seesTarget) throw new RenameRefused(say`“${taken.word.text}” is the name of a ${taken.kind} already.`);
  }
}

/**
 * Reads the specs as they would be: a name that the grammar takes for one of its own words (`rolled`, `round`) would
 * quietly change what a line says, and is refused before anything is touched.
 */
function* checkMeaning(name: string, uses: readonly Use[], target: Target): Steps<void> {
  const texts = new Map<string, string>();
  const byView = new Map<View, Use[]>();
  for (const use of uses) {
    const own = byView.get(use.view);
    if (own) own.push(use);
    else byView.set(use.view, [use]);
  }
  for (const [view, own] of byView) {
    let text = '';
    let at = 0;
    for (const use of own) {
      text += view.text.slice(at, use.section.start + use.from) + name;
      at = use.section.start + use.to;
    }
    texts.set(view.file.uri, text + view.text.slice(at));
  }
  const first = uses[0];
  if (!first) return;
  const imagined = first.view.workspace.imagine(texts);
  const refused = new RenameRefused(
    say`“${name}” would be read as something else where it is used: choose another name.`,
  );
  for (const [view, own] of byView) {
    yield* imagined.reading(view.file.uri);
    const then = imagined.view(view.file.uri);
    if (!then || (yield* problemCount(then)) > (yield* problemCount(view))) throw refused;
    for (const [i, use] of own.entries()) {
      yield undefined;
      if (!holdsName(then, use, name, i, wordOf(target).text.length)) throw refused;
    }
  }
}

function* problemCount({ file, spec }: View): Steps<number> {
  let count = 0;
  for (const section of spec.sections) {
    yield undefined;
    count += section.problems.length + (yield* patiently(() => file.findingsIn(section))).length;
  }
  return count;
}

/** Whether the i-th use still names something at its place after the ones before it grew or shrank. */
function holdsName(view: View, use: Use, name: string, index: number, oldLength: number): boolean {
  const offset = use.section.start + use.from + index * (name.length - oldLength);
  const found = targetAt(view, spotAt(view, Math.max(0, offset)));
  return found !== undefined && view.spec.text.slice(offset, offset + name.length) === name;
}
