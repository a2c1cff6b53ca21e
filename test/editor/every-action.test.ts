import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import type { CodeAction } from 'vscode-languageserver-types';
import type { Problem } from '../../server/checks/check.ts';
import { codeActionsIn } from '../../server/editor/features/code-actions.ts';
import { diagnosticsOf } from '../../server/editor/features/diagnostics.ts';
import { inlayHintsIn } from '../../server/editor/features/inlay-hints.ts';
import { ALL_HINTS } from '../../server/editor/workspace/settings.ts';
import { expressionsIn, numbersIn } from '../../server/editor/workspace/spot.ts';
import type { View } from '../../server/editor/workspace/workspace.ts';
import { folder, samples } from '../samples/support.ts';
import { openSample, textsAfter } from './view.ts';

/* What is offered is applied, wherever it is offered: a fix takes its finding away, a refactor changes no figure. */

function countOf(problems: readonly Problem[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { code } of problems) counts.set(code, (counts.get(code) ?? 0) + 1);
  return counts;
}

const told = (problems: readonly Problem[]) => problems.map(({ code, message }) => `${code}: ${message}`).join('\n');

/** What is found after that was not found before, but for notes and hints. */
function newIn(after: readonly Problem[], before: readonly Problem[]): Problem[] {
  const had = countOf(before);
  const has = countOf(after);
  return after.filter(
    ({ code, severity }) =>
      (severity === 'error' || severity === 'warning') && (has.get(code) ?? 0) > (had.get(code) ?? 0),
  );
}

describe('every quick fix of a sample of a fault', () => {
  for (const name of readdirSync(`${folder}faults`).filter((each) => each.endsWith('.planish')))
    it(`takes away what it is offered for: ${name.replace('.planish', '')}`, () => {
      const file = `faults/${name}`;
      const view = openSample(file);
      const before = view.problems();
      for (const diagnostic of diagnosticsOf(view, { linksToDocs: false })) {
        const actions = codeActionsIn(view, diagnostic.range, [diagnostic], ['quickfix']);
        for (const action of actions.filter(({ diagnostics }) => diagnostics?.includes(diagnostic))) {
          const after = openSample(file, textsAfter(view.workspace, action)).problems();
          const count = (problems: readonly Problem[]) => countOf(problems).get(String(diagnostic.code)) ?? 0;
          assert.ok(count(after) < count(before), `“${action.title}” leaves\n${told(after)}`);
          assert.equal(told(newIn(after, before)), '', `after “${action.title}”`);
        }
      }
    });
});

describe('every refactor of a sample changes no figure', () => {
  for (const file of samples)
    it(file, () => {
      const view = openSample(file);
      const before = view.problems();
      const figures = figuresOf(view);
      for (const action of refactorsOf(view)) {
        const then = openSample(file, textsAfter(view.workspace, action));
        assert.equal(told(newIn(then.problems(), before)), '', action.title);
        for (const [name, value] of figures) {
          const now = figureOf(then, name);
          assert.ok(
            now !== undefined && Math.abs(now - value) <= 1e-9 * Math.max(1, Math.abs(value)),
            `${name} was ${value} and is ${now} after “${action.title}”`,
          );
        }
      }
    });
});

describe('every hint that can be written into a sample', () => {
  for (const file of samples)
    it(`says nothing new: ${file}`, () => {
      const view = openSample(file);
      const before = view.problems();
      for (const { label, textEdits } of inlayHintsIn(view, view.range(0, view.text.length), ALL_HINTS, {
        lazily: true,
      }))
        if (textEdits) {
          const edit = { changes: { [view.uri]: textEdits } };
          const then = openSample(file, textsAfter(view.workspace, { title: '', edit }));
          assert.equal(told(newIn(then.problems(), before)), '', String(label));
        }
    });
});

const figuresOf = (view: View): Map<string, number> =>
  new Map(view.model.figures().flatMap((set) => set.all().map(({ name, value }) => [name, value] as const)));

/** A figure by its name: also one of a thing that moved to a file that is used. */
function figureOf(view: View, name: string): number | undefined {
  const [first, ...rest] = name.split('.');
  const named = view.file.find(first!.toLowerCase());
  const own = named && view.model.figureOf(named, rest.join('.').toLowerCase());
  return (
    own?.value ??
    view.model
      .buildFigures()
      .all()
      .find((each) => each.name === name)?.value ??
    letOf(view, name)
  );
}

const letOf = (view: View, name: string): number | undefined => figuresOf(view).get(name);

/** Of all refactors that are offered at a header or a number one for each kind of line, and those of the whole file. */
function refactorsOf(view: View): CodeAction[] {
  const found = new Map<string, CodeAction>();
  const offer = (kind: string, at: number) => {
    const position = view.positionAt(at);
    for (const action of codeActionsIn(view, { start: position, end: position }, [], ['refactor'])) {
      // To round is to change, by how much its own test says.
      if (action.kind?.includes('.rounded.')) continue;
      // “Write it as”, “Move material”, “Write the lengths of this file in inches”
      const what = action.title.replace(/\d.*|:.*/, '');
      const key = what.includes('this file') || what.startsWith('Move') ? what : `${kind} ${what.slice(0, 8)}`;
      if (!found.has(key)) found.set(key, action);
    }
  };
  for (const section of view.spec.sections) {
    if (section.header) offer(section.kind?.kind ?? '', section.start + section.header.from);
    for (const line of section.lines)
      for (const { items } of line.phrases)
        for (const number of items.flatMap(expressionsIn).flatMap((each) => [...numbersIn(each)]))
          offer(`${line.word?.id} ${items.length}`, section.start + number.from);
    for (const single of section.singles)
      if (single.kind === 'let' && single.value)
        for (const number of expressionsIn(single.value).flatMap((each) => [...numbersIn(each)]))
          offer(`let ${single.value.parts[0]?.kind}`, section.start + number.from);
  }
  assert.ok(found.size > 3, 'refactors are offered');
  return [...found.values()];
}
