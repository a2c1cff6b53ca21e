// What the editor tests say over and over: a spec of the test's own in the workspace, what the editor shows of it, and
// patience, since everything the server says arrives a little later.
import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { Planish } from '../../client/extension.ts';

/** No judgement: how long something takes is for the benchmarks, and a busy machine is no fault of ours. */
const PATIENCE_MS = 120_000;

/** Tries again until the assertion holds; where it never does, the last failure is the test's. `limit` is for who goes on from there. */
export async function eventually<T>(attempt: () => T | Promise<T>, limit = PATIENCE_MS): Promise<T> {
  const deadline = Date.now() + limit;
  for (;;) {
    try {
      return await attempt();
    } catch (error) {
      if (Date.now() > deadline) throw error;
      await new Promise((wait) => setTimeout(wait, 50));
    }
  }
}

/** Whether the extension host, and with it the server, is a worker of a browser. */
const inBrowser = 'WorkerGlobalScope' in globalThis;

/**
 * What the server runs in, a process or a worker, as the client keeps it to itself: there is no other way to take it away.
 * Another one after every start.
 */
export function serverOf(client: BaseLanguageClient): { kill(): void; readonly runsIn: object | undefined } {
  const { _serverProcess: process, server } = client as unknown as {
    _serverProcess?: { kill(signal: string): boolean };
    server?: { worker: Worker };
  };
  return {
    runsIn: process ?? server?.worker,
    kill: () => (process ? process.kill('SIGKILL') : server!.worker.terminate()),
  };
}

/**
 * What makes the server hang for as long as it lives. A process is halted. A worker cannot be, so another one is started: what
 * ships, and beside it a loop without an end that one message begins. The one after it is again what ships.
 */
export async function hangOf(client: BaseLanguageClient): Promise<() => void> {
  if (!inBrowser) return () => (serverOf(client).runsIn as { kill(signal: string): void }).kill('SIGSTOP');
  const starting = client as unknown as { script: string };
  const { script } = starting;
  const loop = `addEventListener('message', ({ data }) => { if (data.method === 'hang') for (;;); });`;
  const text = `importScripts(${JSON.stringify(script)}); ${loop}`;
  starting.script = URL.createObjectURL(new Blob([text], { type: 'text/javascript' }));
  try {
    await vscode.commands.executeCommand('planish.restartServer');
  } finally {
    starting.script = script;
  }
  return () => void client.sendNotification('hang');
}

/** A test of something that nothing but a browser has. */
export const itInBrowser = (title: string, test: Mocha.AsyncFunc): void => {
  if (inBrowser) it(title, test);
};

/** A test of something that a browser has not: left out there, and the report says so and why. */
export function itOutsideBrowser(title: string, why: string, test: Mocha.AsyncFunc): void {
  if (inBrowser) it.skip(`${title} (${why})`);
  else it(title, test);
}

/** The running extension, activated by the editor itself. */
export async function planish(): Promise<Planish> {
  const extension = vscode.extensions.getExtension<Planish>('planish.planish');
  assert.ok(extension, 'the extension is not installed');
  return extension.activate();
}

export function workspaceFile(name: string): vscode.Uri {
  const folder = vscode.workspace.workspaceFolders?.[0];
  assert.ok(folder, 'the tests run in a workspace folder');
  return vscode.Uri.joinPath(folder.uri, name);
}

export async function writeFile(name: string, text: string): Promise<vscode.Uri> {
  const uri = workspaceFile(name);
  await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
  return uri;
}

export async function readFile(uri: vscode.Uri): Promise<string> {
  return new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
}

// Each test file is bundled with a copy of this one, so a count alone would give two files one name.
const ownPrefix = Math.random().toString(36).slice(2, 7);
let count = 0;

/** Writes a spec to a file of its own and opens it. */
export async function openSpec(text: string, name = `${ownPrefix}-${++count}.planish`): Promise<Spec> {
  const uri = await writeFile(name, text);
  return new Spec(await vscode.window.showTextDocument(uri, { preview: false }));
}

export async function closeAll(): Promise<void> {
  await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
  await vscode.commands.executeCommand('workbench.action.closeAllEditors');
}

/** An open spec, asked in words of its own text: a place is the start of the first text that matches. */
export class Spec {
  readonly editor: vscode.TextEditor;
  constructor(editor: vscode.TextEditor) {
    this.editor = editor;
  }

  get document(): vscode.TextDocument {
    return this.editor.document;
  }

  get uri(): vscode.Uri {
    return this.document.uri;
  }

  get text(): string {
    return this.document.getText();
  }

  /** The range of the nth text that reads so. */
  find(text: string, nth = 1): vscode.Range {
    let at = -1;
    for (let left = nth; left > 0; left -= 1) {
      at = this.text.indexOf(text, at + 1);
      assert.notEqual(at, -1, `the spec has no ${JSON.stringify(text)} (${nth}):\n${this.text}`);
    }
    return new vscode.Range(this.document.positionAt(at), this.document.positionAt(at + text.length));
  }

  async replace(old: string, text: string): Promise<void> {
    assert.ok(await this.editor.edit((edit) => edit.replace(this.find(old), text)));
  }

  /** Types as a user would, so that closing pairs, Enter rules and on-type formatting take part. */
  async type(text: string, at: vscode.Position): Promise<void> {
    this.editor.selection = new vscode.Selection(at, at);
    await vscode.commands.executeCommand('type', { text });
  }

  /** The problems shown now. */
  problems(): vscode.Diagnostic[] {
    return vscode.languages.getDiagnostics(this.uri);
  }

  /** Waits for a problem of this code and gives it. */
  problem(code: string): Promise<vscode.Diagnostic> {
    return eventually(() => {
      const found = this.problems().find((problem) => codeOf(problem) === code);
      assert.ok(found, `no ${code} among: ${this.describeProblems()}`);
      return found;
    });
  }

  /** Waits until no problem of this code is left. */
  withoutProblem(code: string): Promise<void> {
    return eventually(() =>
      assert.ok(!this.problems().some((problem) => codeOf(problem) === code), `still: ${this.describeProblems()}`),
    );
  }

  /** Waits until no error and no warning is left. Cautions may stay: sheet has sharp edges whatever is written. */
  clean(): Promise<void> {
    return eventually(() =>
      assert.ok(
        !this.problems().some(({ severity }) => severity <= vscode.DiagnosticSeverity.Warning),
        this.describeProblems(),
      ),
    );
  }

  describeProblems(): string {
    const told = this.problems().map(
      (problem) => `${problem.range.start.line + 1}: ${codeOf(problem)} ${problem.message}`,
    );
    return told.join('\n') || '(no problems)';
  }

  async hover(text: string, nth = 1): Promise<string> {
    const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
      'vscode.executeHoverProvider',
      this.uri,
      this.find(text, nth).start,
    );
    return hovers
      .flatMap((hover) => hover.contents)
      .map((content) => (typeof content === 'string' ? content : content.value))
      .join('\n');
  }

  /** Waits for a hover that says so: after a start it takes a while until the editor knows whom to ask. */
  hovers(text: string, says: RegExp): Promise<void> {
    return eventually(async () => assert.match(await this.hover(text), says));
  }

  async completions(at: vscode.Position): Promise<vscode.CompletionItem[]> {
    const list = await vscode.commands.executeCommand<vscode.CompletionList>(
      'vscode.executeCompletionItemProvider',
      this.uri,
      at,
    );
    return list.items;
  }

  async completionNames(at: vscode.Position): Promise<string[]> {
    const items = await this.completions(at);
    return items.map(({ label }) => (typeof label === 'string' ? label : label.label));
  }

  async quickFixes(range: vscode.Range): Promise<vscode.CodeAction[]> {
    return vscode.commands.executeCommand<vscode.CodeAction[]>(
      'vscode.executeCodeActionProvider',
      this.uri,
      range,
      vscode.CodeActionKind.QuickFix.value,
      // Resolve them all: an edit may be computed only when it is asked for.
      20,
    );
  }

  async apply(action: vscode.CodeAction): Promise<void> {
    assert.ok(action.edit, `${action.title} brings no edit`);
    assert.ok(await vscode.workspace.applyEdit(action.edit));
  }

  async hints(): Promise<string[]> {
    const hints = await vscode.commands.executeCommand<vscode.InlayHint[]>(
      'vscode.executeInlayHintProvider',
      this.uri,
      new vscode.Range(0, 0, this.document.lineCount, 0),
    );
    return hints.map(({ label }) => (typeof label === 'string' ? label : label.map(({ value }) => value).join('')));
  }

  async format(): Promise<void> {
    const edits = await vscode.commands.executeCommand<vscode.TextEdit[] | undefined>(
      'vscode.executeFormatDocumentProvider',
      this.uri,
      { tabSize: 2, insertSpaces: true },
    );
    if (!edits?.length) return;
    const change = new vscode.WorkspaceEdit();
    change.set(this.uri, edits);
    assert.ok(await vscode.workspace.applyEdit(change));
  }
}

function codeOf(problem: vscode.Diagnostic): string {
  const { code } = problem;
  return String(typeof code === 'object' ? code.value : code);
}
