import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type {
  CallHierarchyItem,
  CodeLens,
  CompletionItem,
  CompletionList,
  Diagnostic,
  DocumentSymbol,
  InlayHint,
  Position,
  Range,
  SemanticTokens,
} from 'vscode-languageserver-types';
import { URI } from 'vscode-uri';
import { planish } from '../cli/support.ts';
import type { HostileCase } from './case.ts';
import { type Cost, Ended, type Session } from './session.ts';

/** What every case may take, where it does not say so itself. */
const BUDGET = { seconds: 10, mebibytes: 700 } as const;
/** ms of the processor: what a step is to stay under, and what a hover of another spec may wait. */
export const STEP_AIM = 50;
const WAIT_MOST = 1000;
/**
 * A step is cold code in one run and warm in the next, and garbage is collected when it is: what is aimed at is told, and broken
 * is what takes so many times as much.
 */
export const SLACK = 4;

export interface Outcome {
  readonly name: string;
  /** ms of the processor, and what was asked. */
  readonly step: number;
  readonly stepIn: string;
  /** ms that the hover of another spec waited, of the server's processor and by the clock. */
  readonly wait: number;
  readonly clock: number;
  readonly seconds: number;
  readonly mebibytes: number;
  readonly asked: number;
  readonly errors: readonly string[];
  /** What is wrong with it, in words; empty where the case is survived within its budget. */
  readonly broken: readonly string[];
}

/** One case from the opening of its spec to the closing; `briefly` at fewer places, and after the edits no more than is asked at each key. */
export async function runCase(
  session: Session,
  hostile: HostileCase,
  { briefly = false }: { readonly briefly?: boolean } = {},
): Promise<Outcome> {
  const folder = mkdtempSync(path.join(tmpdir(), 'planish-hostile-'));
  try {
    return await new Run(session, hostile, folder, briefly).all();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const FORMATS = {
  cutlist: ['planish/cutList', ['csv', 'html', 'md', 'json', 'pdf']],
  order: ['planish/orderList', ['md', 'html', 'json', 'pdf']],
  buildsheet: ['planish/buildSheet', ['md', 'html', 'json', 'pdf']],
  quote: ['planish/quote', ['md', 'html', 'json', 'pdf']],
  patterns: ['planish/patterns', ['svg', 'dxf', 'pdf']],
  layouts: ['planish/layouts', ['svg', 'dxf']],
} as const;
const ALL = ['cutlist', 'order', 'buildsheet', 'quote', 'patterns', 'layouts', 'explain'] as const;
const LAYOUT = { options: { tabSize: 2, insertSpaces: true } };

class Run {
  private readonly uri: string;
  private readonly spec: string;
  private document: TextDocument;
  private version = 0;
  private asked = 0;
  private step = 0;
  private stepIn = '';
  private last: Cost = { longest: 0, seconds: 0, peak: 0 };
  private diagnostics: readonly Diagnostic[] = [];

  constructor(
    private readonly session: Session,
    private readonly hostile: HostileCase,
    private readonly folder: string,
    private readonly briefly: boolean,
  ) {
    const files = hostile.files();
    const [spec] = Object.keys(files);
    for (const [name, content] of Object.entries(files)) {
      const file = path.join(folder, name);
      mkdirSync(path.dirname(file), { recursive: true });
      writeFileSync(file, content);
    }
    this.spec = path.join(folder, spec!);
    this.uri = URI.file(this.spec).toString();
    const content = files[spec!]!;
    const text = typeof content === 'string' ? content : new TextDecoder().decode(content);
    this.document = TextDocument.create(this.uri, 'planish', 0, text);
  }

  async all(): Promise<Outcome> {
    const { session, hostile } = this;
    const budget = { ...BUDGET, ...hostile.budget };
    const before = (await session.cost(true)).seconds;
    const errors: string[] = [];
    let found: readonly string[] = [];
    // Past its budget it is only looked whether it ends at all.
    session.begin(budget.seconds * 1.5);
    try {
      await this.stage('opening', () => this.open());
      found = this.codes();
      await this.askEverything('');
      await this.askPapers();
      await this.type();
      await (this.briefly ? this.askAtKeys() : this.askEverything(', edited'));
      await this.stage('closing', () => this.session.client.close(this.uri));
    } catch (error) {
      if (!(error instanceof Ended)) throw error;
      errors.push(`${error.message}, ${this.now}`);
    }
    const { processor: wait, clock } = session.finish();
    this.last = { ...this.last, ...session.atEnd };
    await this.draw(errors);
    errors.push(...session.errors);
    const outcome = {
      name: hostile.name,
      step: session.isAlive ? this.step : Math.max(this.step, wait),
      stepIn: session.isAlive ? this.stepIn : this.now,
      wait,
      clock,
      seconds: this.last.seconds - before,
      mebibytes: this.last.peak,
      asked: this.asked,
      errors,
    };
    return { ...outcome, broken: [...this.missing(found), ...brokenBy(outcome, budget)] };
  }

  private codes(): string[] {
    return [...new Set(this.diagnostics.map(({ code }) => String(code)))];
  }

  private missing(found: readonly string[]): string[] {
    const { finds, isClean } = this.hostile;
    if (finds !== undefined && !found.includes(finds))
      return [`“${finds}” was not found, but ${found.join(', ') || 'nothing'}`];
    const severe = this.firstDiagnostics.filter(({ severity = 1 }) => severity <= 2);
    if (isClean && severe.length) return [`it is ordinary, but ${severe[0]!.code} was found`];
    return [];
  }
  private firstDiagnostics: readonly Diagnostic[] = [];

  // ---- what is asked -----------------------------------------------------------------------------------------------

  private now = '';

  /** A part of the conversation; the longest step in it is known by its name. */
  private async stage<T>(name: string, work: () => Promise<T>): Promise<T> {
    this.now = name;
    const result = await work();
    this.last = await this.session.cost();
    if (this.last.longest > this.step) {
      this.step = this.last.longest;
      this.stepIn = name;
    }
    return result;
  }

  private ask<T>(method: string, params: unknown): Promise<T | undefined> {
    this.asked++;
    return this.session.ask<T>(method, params);
  }

  private async open(): Promise<void> {
    await this.session.client.open(this.uri, this.document.getText());
    this.version = 1;
    await this.heard();
    this.firstDiagnostics = this.diagnostics;
  }

  private async heard(): Promise<void> {
    this.diagnostics = (await this.session.told(this.uri, this.version)).diagnostics;
  }

  private async askEverything(when: string): Promise<void> {
    const textDocument = { uri: this.uri };
    const positions = this.places();
    const range: Range = { start: { line: 0, character: 0 }, end: this.document.positionAt(Number.MAX_SAFE_INTEGER) };
    const each = async (method: string, params: object = {}) =>
      this.stage(method.replace('textDocument/', '') + when, () =>
        Promise.all(positions.map((position) => this.ask<unknown>(method, { textDocument, position, ...params }))),
      );
    const whole = <T>(method: string, params: object = {}) =>
      this.stage(method.replace('textDocument/', '') + when, () => this.ask<T>(method, { textDocument, ...params }));

    await each('textDocument/hover');
    const lists = (await each('textDocument/completion')) as (CompletionItem[] | CompletionList | undefined)[];
    const items = lists.flatMap((list) => (Array.isArray(list) ? list : (list?.items ?? [])).slice(0, 2));
    await this.stage(`completion resolved${when}`, () =>
      Promise.all(items.map((item) => this.ask('completionItem/resolve', item))),
    );
    for (const method of ['signatureHelp', 'definition', 'typeDefinition', 'implementation', 'documentHighlight'])
      await each(`textDocument/${method}`);
    await each('textDocument/references', { context: { includeDeclaration: true } });
    await each('textDocument/linkedEditingRange');
    await each('textDocument/prepareRename');
    await each('textDocument/rename', { newName: 'quite-another' });
    await each('textDocument/onTypeFormatting', { ch: '\n', ...LAYOUT });
    await this.askHierarchy((await each('textDocument/prepareCallHierarchy')) as (CallHierarchyItem[] | null)[], when);

    await whole<DocumentSymbol[]>('textDocument/documentSymbol');
    const tokens = await whole<SemanticTokens>('textDocument/semanticTokens/full');
    await whole('textDocument/semanticTokens/full/delta', { previousResultId: tokens?.resultId ?? '1' });
    await whole('textDocument/semanticTokens/range', { range: this.visible() });
    for (const method of ['foldingRange', 'documentLink', 'documentColor']) await whole(`textDocument/${method}`);
    const hints = await whole<InlayHint[]>('textDocument/inlayHint', { range });
    await this.stage(`hints resolved${when}`, () =>
      Promise.all(few(hints ?? []).map((hint) => this.ask('inlayHint/resolve', hint))),
    );
    const lenses = await whole<CodeLens[]>('textDocument/codeLens');
    await this.stage(`lenses resolved${when}`, () =>
      Promise.all(few(lenses ?? []).map((lens) => this.ask('codeLens/resolve', lens))),
    );
    await whole('textDocument/selectionRange', { positions });
    await whole('textDocument/formatting', LAYOUT);
    await whole('textDocument/rangeFormatting', { range: this.visible(), ...LAYOUT });
    await this.askActions(range, when);
    await this.stage(`symbols of all${when}`, () => this.ask('workspace/symbol', { query: 'a' }));
    await this.stage(`summary${when}`, () => this.ask('planish/summary', { uri: this.uri }));
  }

  /** What an editor asks whenever a text changed. */
  private async askAtKeys(): Promise<void> {
    const textDocument = { uri: this.uri };
    const [position] = this.places().slice(-1);
    for (const method of ['hover', 'completion'])
      await this.stage(`${method}, edited`, () => this.ask(`textDocument/${method}`, { textDocument, position }));
    for (const method of ['documentSymbol', 'semanticTokens/full', 'foldingRange', 'codeLens'])
      await this.stage(`${method}, edited`, () => this.ask(`textDocument/${method}`, { textDocument }));
    await this.stage('hints, edited', () =>
      this.ask('textDocument/inlayHint', { textDocument, range: this.visible() }),
    );
  }

  private async askHierarchy(prepared: readonly (CallHierarchyItem[] | null | undefined)[], when: string) {
    const items = prepared.flatMap((each) => each ?? []).slice(0, 3);
    for (const way of ['incoming', 'outgoing'])
      await this.stage(`${way} calls${when}`, () =>
        Promise.all(items.map((item) => this.ask(`callHierarchy/${way}Calls`, { item }))),
      );
  }

  /** Where something is marked, as an editor asks at each lamp; and over the whole text, as one asks who mends all. */
  private async askActions(whole: Range, when: string): Promise<void> {
    const textDocument = { uri: this.uri };
    const marked = few(this.diagnostics).map((each) => ({ range: each.range, context: { diagnostics: [each] } }));
    const all = { range: whole, context: { diagnostics: this.diagnostics } };
    await this.stage(`code actions${when}`, () =>
      Promise.all(marked.map((asked) => this.ask('textDocument/codeAction', { textDocument, ...asked }))),
    );
    await this.stage(`code actions on all${when}`, () => this.ask('textDocument/codeAction', { textDocument, ...all }));
    await this.stage(`fix all${when}`, () =>
      this.ask('textDocument/codeAction', {
        textDocument,
        ...all,
        context: { ...all.context, only: ['source.fixAll'] },
      }),
    );
  }

  /** In all formats where the case names papers, in the cheapest one of all else. */
  private async askPapers(): Promise<void> {
    for (const what of this.hostile.exports ?? ALL) {
      if (what === 'draw') continue;
      if (what === 'explain') {
        await this.stage('explain', () => this.ask('planish/explain', { uri: this.uri }));
        continue;
      }
      const [method, formats] = FORMATS[what];
      for (const to of this.hostile.exports ? formats : formats.slice(0, 1))
        await this.stage(`${what} ${to}`, () => this.ask(method, { uri: this.uri, to }));
    }
  }

  /** A drawing is made by the command line alone. */
  private async draw(errors: string[]): Promise<void> {
    if (!this.hostile.exports?.includes('draw')) return;
    const names = [...this.document.getText().matchAll(/^piece (\S+)/gm)].map(([, name]) => name!).slice(0, 2);
    for (const name of names) {
      const ran = await planish(['draw', this.spec, name], this.folder, { NODE_OPTIONS: '--max-old-space-size=3000' });
      if (ran.code === null || ran.code > 2 || /\n\s+at .*:\d+:\d+/.test(ran.err))
        errors.push(`draw ${name}: code ${ran.code} ${ran.err.slice(0, 300)}`);
    }
  }

  // ---- what is typed -----------------------------------------------------------------------------------------------

  /** The last measure is taken away letter by letter and typed again, a line comes in the middle, one goes at the end. */
  private async type(): Promise<void> {
    const text = this.document.getText();
    const measure = [...text.slice(-20_000).matchAll(/\d+(?: ?mm)?\b/g)].at(-1);
    if (measure) {
      // Of a number without end its last letters: each is a question of its own.
      const typed = measure[0].slice(-MOST_TYPED);
      const { length } = typed;
      const from = Math.max(0, text.length - 20_000) + measure.index + measure[0].length - length;
      for (let left = length - 1; left >= 0; left--) await this.edit('backspace', from + left, from + left + 1, '');
      for (const [at, letter] of [...typed].entries()) await this.edit('typing', from + at, from + at, letter);
    }
    const middle = this.document.offsetAt({ line: Math.floor(this.document.lineCount / 2), character: 0 });
    await this.edit('a line more', middle, middle, '  # as bought\n');
    await this.edit('a line less', middle, middle + '  # as bought\n'.length, '');
    const end = this.document.getText().length;
    await this.edit('a section more', end, end, '\npiece late\n  disc 90 mm\n');
  }

  private async edit(what: string, from: number, to: number, text: string): Promise<void> {
    const range = { start: this.document.positionAt(from), end: this.document.positionAt(to) };
    await this.stage(what, async () => {
      this.version = await this.session.client.change(this.uri, range, text);
      TextDocument.update(this.document, [{ range, text }], this.version);
      await this.heard();
    });
  }

  // ---- where it is asked -------------------------------------------------------------------------------------------

  /** Spread over the text, and at its end, where one types. */
  private places(): Position[] {
    const { length } = this.document.getText();
    const share = this.briefly ? [0.1, 0.5, 0.9] : [0, 0.09, 0.23, 0.41, 0.5, 0.68, 0.83, 0.97];
    return [...share.map((part) => Math.floor(length * part)), length].map((at) => this.document.positionAt(at));
  }

  private visible(): Range {
    return { start: { line: 0, character: 0 }, end: { line: 60, character: 0 } };
  }
}

/** So many letters of a measure are taken away and typed again. */
const MOST_TYPED = 12;

function few<T>(all: readonly T[]): T[] {
  return all.length <= 5 ? [...all] : [0, 1, 2, 3, 4].map((i) => all[Math.floor((i * (all.length - 1)) / 4)]!);
}

function brokenBy(
  { errors, step, stepIn, wait, seconds, mebibytes }: Omit<Outcome, 'broken'>,
  budget: { readonly seconds: number; readonly mebibytes: number },
): string[] {
  const broken = errors.map((error) => error.split('\n')[0]!);
  if (step > STEP_AIM * SLACK) broken.push(`a step of ${step.toFixed(0)} ms (${stepIn})`);
  if (wait > WAIT_MOST) broken.push(`another spec's hover waited ${wait.toFixed(0)} ms`);
  if (seconds > budget.seconds) broken.push(`${seconds.toFixed(1)} s of ${budget.seconds} s`);
  if (mebibytes > budget.mebibytes) broken.push(`${mebibytes.toFixed(0)} MiB of ${budget.mebibytes} MiB`);
  return broken;
}
