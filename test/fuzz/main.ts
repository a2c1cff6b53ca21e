// npm run fuzz [-- --inputs 1000000] [--edits 40] [--server 2000] [--seed N]: random specs, near-specs and edits
// through the reader, every so many of them edited (`--edits`) and every so many asked of every feature of the server (`--server`);
// and among them what is dearer (`KINDS`), such as builds whose papers are read back by readers that are not ours. A fault is printed with what set it off.
import assert from 'node:assert/strict';
import { parseArgs } from 'node:util';
import fc from 'fast-check';
import type { Diagnostic } from 'vscode-languageserver-types';
import { readSpec } from '../../grammar/reader.ts';
import { codeActionsIn } from '../../server/editor/features/code-actions.ts';
import { codeLensesOf, resolveCodeLens } from '../../server/editor/features/code-lens.ts';
import { coloursOf } from '../../server/editor/features/colours.ts';
import { completionsAt, resolveCompletion } from '../../server/editor/features/completion.ts';
import { definitionAt, highlightsAt, referencesAt } from '../../server/editor/features/definition.ts';
import { diagnosticsOf } from '../../server/editor/features/diagnostics.ts';
import { documentLinksOf } from '../../server/editor/features/document-links.ts';
import { foldingRangesOf } from '../../server/editor/features/folding.ts';
import { formattingOf } from '../../server/editor/features/formatting.ts';
import { madeFrom, prepareHierarchyAt, usersOf } from '../../server/editor/features/hierarchy.ts';
import { hoverAt } from '../../server/editor/features/hover.ts';
import { inlayHintsIn, resolveHint } from '../../server/editor/features/inlay-hints.ts';
import { implementationsAt, typeDefinitionAt } from '../../server/editor/features/kin.ts';
import { linkedEditingAt } from '../../server/editor/features/linked-editing.ts';
import { onTypeFormattingAt } from '../../server/editor/features/on-type.ts';
import { RenameRefused, renameAt } from '../../server/editor/features/rename.ts';
import { selectionRangesAt } from '../../server/editor/features/selection-range.ts';
import { semanticTokensOf } from '../../server/editor/features/semantic-tokens.ts';
import { signatureHelpAt } from '../../server/editor/features/signature-help.ts';
import { summaryOf } from '../../server/editor/features/summary.ts';
import { documentSymbolsOf, workspaceSymbolsOf } from '../../server/editor/features/symbols.ts';
import { ALL_HINTS } from '../../server/editor/workspace/settings.ts';
import { type View, Workspace } from '../../server/editor/workspace/workspace.ts';
import { atOnce } from '../../server/incremental/steps.ts';
import { anyText, editedSpec, meaningOf, randomSpec, soup } from '../grammar/support.ts';
import { fuzzCommandLine } from './command-line.ts';
import { drawnInputs, tryDrawing } from './drawings.ts';
import { fuzzPapers } from './papers.ts';

const { values } = parseArgs({
  options: {
    inputs: { type: 'string', default: '1000000' },
    edits: { type: 'string', default: '40' },
    server: { type: 'string', default: '2000' },
    seed: { type: 'string' },
  },
});
const inputs = Number(values.inputs);
const everyEdit = Number(values.edits);
const every = Number(values.server);
const seed = Number(values.seed ?? Date.now() % 2 ** 31);
/** Few enough at once that a fault can be made small in seconds. */
const BLOCK = 10_000;
/** Of the processor, not of the clock: other work on the machine is no fault of ours. */
const TOO_LONG_MS = 20_000;

interface Kind {
  readonly name: string;
  /** One in so many inputs is such a one. */
  readonly every: number;
  /** Gives how many of what came of it. */
  run(options: { readonly runs: number; readonly seed: number }): Promise<ReadonlyMap<string | number, number>>;
}

/** What takes far longer than reading a text: so many of them that a million inputs take an hour. */
const KINDS: readonly Kind[] = [
  { name: 'builds with their papers', every: 1000, run: fuzzPapers },
  { name: 'drawings', every: 50, run: fuzzDrawings },
  { name: 'command lines', every: 500, run: fuzzCommandLine },
];

const uri = 'file:///build/spec.planish';
const texts = fc.oneof(
  { weight: 60, arbitrary: soup },
  { weight: 1, arbitrary: editedSpec },
  { weight: 2, arbitrary: randomSpec },
  { weight: 20, arbitrary: anyText },
);
const cases = fc.tuple(texts, fc.nat(), fc.nat(60), soup, fc.noBias(fc.nat(every - 1)));

let asked = 0;
let edited = 0;
const counts = new Map<string, number>();
let started = Date.now();
let slowest = 0;
const begun = started;
for (let done = 0; done < inputs; done += BLOCK) {
  const block = Math.min(BLOCK, inputs - done);
  const run = fc.check(fc.property(cases, tried), {
    numRuns: block - KINDS.reduce((sum, { every }) => sum + Math.floor(block / every), 0),
    seed: seed + done / BLOCK,
    endOnFailure: false,
    interruptAfterTimeLimit: 30 * 60_000,
  });
  if (run.failed) {
    console.error(fc.defaultReportMessage(run), run.errorInstance);
    process.exit(1);
  }
  for (const { name, every: share, run: send } of KINDS) {
    const runs = Math.floor(block / share);
    if (!runs) continue;
    count(name, runs);
    for (const [what, times] of await send({ runs, seed: seed + done / BLOCK })) count(`${name}: ${what}`, times);
  }
  if (Date.now() - started > 30_000) {
    started = Date.now();
    console.log(`${done + BLOCK} of ${inputs}, ${asked} of them through the server`);
  }
}
console.log(
  `${inputs} inputs, ${edited} of them edited, ${asked} through every feature of the server; ` +
    `${[...counts].map(([what, times]) => `${what} ${times}`).join(', ')}; no fault; slowest ${slowest.toFixed(0)} ms; ` +
    `${((Date.now() - begun) / 60_000).toFixed(0)} min; seed ${seed}`,
);

async function fuzzDrawings({ runs, seed }: { readonly runs: number; readonly seed: number }) {
  const each = new Map<string, number>();
  const drawn = fc.property(drawnInputs, (input) => {
    tryDrawing(input);
    each.set(input.as, (each.get(input.as) ?? 0) + 1);
  });
  fc.assert(drawn, { numRuns: runs, seed });
  return each;
}

function count(what: string, times: number): void {
  counts.set(what, (counts.get(what) ?? 0) + times);
}

function tried([text, number, length, put, turn]: [string, number, number, string, number]): void {
  const before = process.cpuUsage();
  const spec = readSpec(text);
  assert.equal(spec.sections.map((section) => section.text).join(''), text, 'the sections are the text');
  const at = number % (text.length + 1);
  const replaced = put.slice(0, 200);
  if (turn % everyEdit === 0) {
    edited++;
    const now = text.slice(0, at) + replaced + text.slice(at + length);
    // What was read again in part says what it says when it is read whole.
    assert.deepEqual(meaningOf(readSpec(now, spec)), meaningOf(readSpec(now)));
  }
  if (turn === 0) {
    asked++;
    askAll(text, at, Math.min(length, text.length - at), replaced);
  }
  const took = process.cpuUsage(before).user / 1000;
  slowest = Math.max(slowest, took);
  assert.ok(took < TOO_LONG_MS, `it took ${took.toFixed(0)} ms`);
}

function askAll(text: string, at: number, length: number, put: string): void {
  const workspace = new Workspace({ mayRead: () => true, read: () => null });
  workspace.open(uri, 1, text);
  const view = workspace.view(uri)!;
  ask(view, at);
  const range = { start: view.positionAt(at), end: view.positionAt(at + length) };
  workspace.change(uri, 2, [{ range, text: put }]);
  const then = workspace.view(uri)!;
  ask(then, Math.min(at, then.text.length));
  const fresh = new Workspace({ mayRead: () => true, read: () => null });
  fresh.open(uri, 2, then.text);
  const told = (each: View) => diagnosticsOf(each, { linksToDocs: true }).map(asSeen).sort();
  assert.deepEqual(told(then), told(fresh.view(uri)!), 'after an edit the same is said as of the whole');
}

function asSeen({ code, range, message }: Diagnostic): string {
  return JSON.stringify([code, range, message]);
}

function ask(view: View, at: number): void {
  const position = view.positionAt(at);
  const whole = view.range(0, view.text.length);
  for (const diagnostic of diagnosticsOf(view, { linksToDocs: true }))
    assert.ok(diagnostic.range.start.line >= 0 && diagnostic.message);
  hoverAt(view, position, { pictures: true });
  for (const item of completionsAt(view, position, { snippets: true }).slice(0, 5))
    if (item.data) resolveCompletion(view, item);
  signatureHelpAt(view, position);
  definitionAt(view, position);
  typeDefinitionAt(view, position);
  atOnce(implementationsAt(view, position));
  atOnce(referencesAt(view, position, true));
  atOnce(highlightsAt(view, position));
  atOnce(linkedEditingAt(view, position));
  for (const item of prepareHierarchyAt(view, position) ?? []) {
    atOnce(usersOf(view, item));
    madeFrom(view, item);
  }
  documentSymbolsOf(view);
  atOnce(workspaceSymbolsOf(view.workspace, view.workspace.openUris(), 'a'));
  foldingRangesOf(view);
  selectionRangesAt(view, [position]);
  documentLinksOf(view);
  coloursOf(view);
  const { data } = semanticTokensOf(view);
  assert.ok(data.length % 5 === 0 && data.every((each) => each >= 0));
  for (const hint of inlayHintsIn(view, whole, ALL_HINTS, { lazily: true })) resolveHint(view, hint);
  for (const lens of codeLensesOf(view)) atOnce(resolveCodeLens(view, lens, { commands: true }));
  codeActionsIn(view, { start: position, end: position }, [], undefined);
  codeActionsIn(view, { start: position, end: position }, [], ['refactor', 'source.fixAll']);
  formattingOf(view);
  onTypeFormattingAt(view, position);
  summaryOf(view);
  try {
    atOnce(renameAt(view, position, 'other-name'));
  } catch (error) {
    if (!(error instanceof RenameRefused)) throw error;
  }
}
