import { CodeLensRequest, CodeLensResolveRequest } from 'vscode-languageserver';
import type { CodeLens, Command, Range } from 'vscode-languageserver-types';
import { say, translated } from '../../../l10n/say.ts';
import { quietLines } from '../../checks/quiet.ts';
import type { Steps } from '../../incremental/steps.ts';
import type { Named } from '../../model/names/spec-file.ts';
import { type Figure, shown } from '../../model/values/figure.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import { usesOf } from '../workspace/names.ts';
import { quietSection } from '../workspace/quiet-section.ts';
import type { View } from '../workspace/workspace.ts';

export const feature: Feature = {
  capability: () => ({ codeLensProvider: { resolveProvider: true } }),
  requests: [
    aboutOne(CodeLensRequest.type, {
      what: 'lenses',
      empty: [],
      answer: (view, _, server) => (server.settingsOf(view.uri).lenses ? codeLensesOf(view) : []),
    }),
    aboutOne(CodeLensResolveRequest.type, {
      what: 'lens',
      empty: (lens) => lens,
      uri: (lens) => lensUri(lens),
      answer: (view, lens, { client }) => resolveCodeLens(view, lens, client),
    }),
  ],
};

/** The commands of our own client that a lens calls. An editor without them reads the lens and cannot click it. */
const CUT_LIST_COMMAND = 'planish.showCutList';
const USES_COMMAND = 'planish.showUses';
const HOVER_COMMAND = 'planish.showHover';

/** What a lens is about, kept until the editor shows it: only then is it worked out. */
interface LensData {
  readonly uri: string;
  readonly about: 'mass' | 'cut list' | 'uses' | 'quiet';
  readonly name?: string;
}

const USED = new Set<Named['kind']>(['material', 'rivet', 'part', 'wearer', 'rules', 'piece', 'let']);

/** Above a build its mass and its cut list, above a thing who uses it. */
export function codeLensesOf(view: View): CodeLens[] {
  const lenses: CodeLens[] = [];
  const add = (range: Range, data: LensData) => lenses.push({ range, data });
  const quiet = quietSection(view.spec);
  for (const section of view.spec.sections) {
    if (!section.header) continue;
    const range = view.rangeOf({ section, from: section.header.from, to: section.header.to });
    if (section.kind?.kind === 'build') {
      add(range, { uri: view.uri, about: 'mass' });
      add(range, { uri: view.uri, about: 'cut list' });
    } else if (section.name && namedAt(view, section.name.key)?.section === section) {
      const named = namedAt(view, section.name.key)!;
      if (named.kind === 'piece') add(range, { uri: view.uri, about: 'mass', name: section.name.key });
      if (USED.has(named.kind)) add(range, { uri: view.uri, about: 'uses', name: section.name.key });
    }
    if (section === quiet) add(range, { uri: view.uri, about: 'quiet' });
  }
  return lenses;
}

const namedAt = (view: View, key: string): Named | undefined => view.file.bearersOf(key)[0];

export interface LensOptions {
  /** The editor has our commands. */
  readonly commands: boolean;
}

/** The lens with its text. */
export function* resolveCodeLens(view: View, lens: CodeLens, options: LensOptions): Steps<CodeLens> {
  const command = yield* commandOf(view, lens, options);
  return {
    range: lens.range,
    command: command ? { ...command, title: translated(command.title) } : { title: '–', command: '' },
  };
}

const lensUri = (lens: CodeLens): string => {
  const uri = (lens.data as Partial<LensData> | undefined)?.uri;
  return typeof uri === 'string' ? uri : '';
};

function* commandOf(view: View, lens: CodeLens, options: LensOptions): Steps<Command | undefined> {
  const data = lens.data as LensData;
  const clickable = (title: string, command: string, ...args: unknown[]): Command =>
    options.commands ? { title, command, arguments: args } : { title, command: '' };
  const named = data.name === undefined ? undefined : namedAt(view, data.name);
  switch (data.about) {
    case 'cut list':
      return clickable('Cut list', CUT_LIST_COMMAND, { uri: view.uri });
    case 'quiet': {
      const lines = quietLines(yield* view.problemsInSteps());
      if (!lines.length) return { title: 'no cautions', command: '' };
      return clickable(inOneLine(lines), HOVER_COMMAND, view.uri, lens.range.start);
    }
    case 'mass':
      return { title: named ? pieceMass(view, named) : buildMass(view), command: '' };
    case 'uses': {
      if (!named) return undefined;
      const around = yield* view.workspace.specsAround(view, named.word.key);
      const uses = (yield* usesOf({ kind: 'named', named }, around)).filter((use) => !use.isDefinition);
      // A piece is made though nothing names it; stock that nothing names lies idle.
      if (!uses.length) return { title: named.kind === 'piece' ? 'named nowhere else' : 'not used', command: '' };
      const title = TIMES[uses.length] ?? say`used ${uses.length} times`;
      const at = view.rangeOf({ section: named.section, from: named.word.from, to: named.word.to }).start;
      const places = uses.map((use) => ({ uri: use.view.uri, range: use.view.rangeOf(use) }));
      return clickable(title, USES_COMMAND, view.uri, at, places);
    }
  }
}

/** What is beyond a line is in the hover that the lens opens. */
function inOneLine(lines: readonly string[]): string {
  const all = lines.join('  ·  ');
  return all.length <= LONGEST ? all : `${all.slice(0, LONGEST - 1).trimEnd()}…`;
}
const LONGEST = 120;

const TIMES: Readonly<Record<number, string>> = { 1: 'used once', 2: 'used twice' };

function buildMass(view: View): string {
  const mass = view.model.buildFigures().get('mass');
  return mass ? say`${shown(mass, view.system, false)} in all` : 'no mass yet';
}

function pieceMass(view: View, named: Named): string {
  const piece = view.model.pieceOf(named);
  const mass: Figure | undefined = piece.figure('mass');
  if (!mass) return 'no mass yet';
  const each = shown(mass, view.system, false);
  return piece.make() > 1 ? say`${each} each, ${piece.make()} made` : each;
}
