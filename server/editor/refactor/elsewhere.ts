import type { CodeAction, Position } from 'vscode-languageserver-types';
import { say } from '../../../l10n/say.ts';
import { counted } from '../../checks/support/writing.ts';
import type { Steps } from '../../incremental/steps.ts';
import type { FindingFix } from '../../model/values/figure.ts';
import { usesOf } from '../workspace/names.ts';
import { sameUri, shortNameOf, type View } from '../workspace/workspace.ts';
import { confirmed } from './edits.ts';

/** The command of our own client that shows what was changed in a file which is not in front. */
const SHOW_CHANGE_COMMAND = 'planish.showChange';

export interface ElsewhereOptions {
  /** The editor has our commands. */
  readonly commands?: boolean;
  /** It shows an edit before it makes it, where that is asked for. */
  readonly confirmsEdits?: boolean;
}

/** A fix that changes another file says which, and how many use what it changes there; and the change is seen. */
export function* seenElsewhere(
  view: View,
  fix: FindingFix,
  action: CodeAction,
  { commands = false, confirmsEdits = false }: ElsewhereOptions,
): Steps<CodeAction> {
  const changes = action.edit?.changes;
  const edit = fix.edits.find(({ uri }) => sameUri(uri) !== sameUri(view.uri));
  const other = edit && view.workspace.view(edit.uri);
  if (!edit || !other || !changes) return action;
  const name = edit.place.section.name;
  const title = say`${action.title}${edit === fix.edits[0] ? '' : say`, and change ${name?.text ?? say`a line`}`} in ${shortNameOf(other.uri)}${yield* usedBy(view, edit)}`;
  const { isPreferred: _, ...plain } = action;
  if (commands) {
    const at: Position = other.rangeOf(edit.place).start;
    return { ...plain, title, command: { title, command: SHOW_CHANGE_COMMAND, arguments: [other.uri, at] } };
  }
  return { ...plain, title, ...(confirmsEdits ? { edit: confirmed(changes, title) } : {}) };
}

/** `: 3 pieces use it` */
function* usedBy(view: View, { uri, place: { section } }: FindingFix['edits'][number]): Steps<string> {
  const { name } = section;
  const named =
    name &&
    view.workspace
      .view(uri)
      ?.file.bearersOf(name.key)
      .find((each) => each.section === section);
  if (!named) return '';
  const uses = yield* usesOf({ kind: 'named', named }, yield* view.workspace.specsAround(view, name.key));
  const told = (['piece', 'seam'] as const).flatMap((kind) => {
    const users = new Set(uses.flatMap((use) => (use.section.kind?.kind === kind ? [use.section] : [])));
    return users.size ? [say`${counted(users.size, kind)} ${users.size > 1 ? say`use` : say`uses`} it`] : [];
  });
  return told.length ? `: ${told.join(', ')}` : '';
}
