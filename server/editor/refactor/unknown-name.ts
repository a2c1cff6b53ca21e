import { type CodeAction, CodeActionKind, type Diagnostic } from 'vscode-languageserver-types';
import { sectionSnippet, withDefaults } from '../../../grammar/snippets.ts';
import { sectionWord } from '../../../grammar/vocabulary/index.ts';
import { say } from '../../../l10n/say.ts';
import type { Problem } from '../../checks/check.ts';
import type { Steps } from '../../incremental/steps.ts';
import { isLibrary } from '../../model/names/library.ts';
import type { Named } from '../../model/names/spec-file.ts';
import { namesKnown } from '../workspace/known-names.ts';
import { spotAt } from '../workspace/spot.ts';
import { relativePath, sameUri, type View } from '../workspace/workspace.ts';
import { useOf } from './use-line.ts';

/** For a name that nothing bears: a `use` of each file of the workspace in which something does, and a section of that name. */
export function* unknownNameActions(view: View, problem: Problem, mended: readonly Diagnostic[]): Steps<CodeAction[]> {
  if (problem.code !== 'unknown-name') return [];
  const { section, from, to } = problem.place;
  const { slot, word } = spotAt(view, section.start + from);
  const kind = slot && KINDS.find((each) => each === slot.filled.type);
  const name = word?.text;
  if (!kind || !name || word.from !== from || word.to !== to || view.file.find(word.key)) return [];
  const action = (title: string, edit: NonNullable<CodeAction['edit']>): CodeAction => ({
    title,
    kind: CodeActionKind.QuickFix,
    edit,
    ...(mended.length ? { diagnostics: [...mended] } : {}),
  });
  const actions: CodeAction[] = [];
  for (const other of yield* view.workspace.specsAround(view, word.key)) {
    yield undefined;
    if (sameUri(other.uri) === sameUri(view.uri) || isLibrary(other.uri) || other.model.buildSection()) continue;
    if (!other.file.bearersOf(word.key).some((named) => named.kind === kind)) continue;
    const written = relativePath(view.uri, other.uri);
    actions.push(
      action(say`Use "${written}", which has ${name}`, { changes: { [view.uri]: [useOf(view, other.uri)] } }),
    );
  }
  const described = sectionWord(kind);
  if (!described) return actions;
  const text = withDefaults(sectionSnippet(described, namesKnown(view, section)))
    .replace(/^.*$/m, `${kind} ${name}`)
    .trimEnd();
  const end = view.positionAt(view.text.trimEnd().length);
  const range = { start: end, end: view.positionAt(view.text.length) };
  actions.push(action(say`Make a ${kind} ${name}`, { changes: { [view.uri]: [{ range, newText: `\n\n${text}\n` }] } }));
  return actions;
}

/** What a section gives a name to and a line asks for by it. */
const KINDS: readonly Named['kind'][] = ['material', 'rivet', 'part', 'wearer', 'piece', 'rules'];
