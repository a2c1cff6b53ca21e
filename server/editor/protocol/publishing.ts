import { CancellationToken } from 'vscode-languageserver';
import type { Diagnostic } from 'vscode-languageserver-types';
import { sameList } from '../../incremental/memo.ts';
import { isLibrary } from '../../model/names/library.ts';
import { diagnosticsInSteps, withoutRelated } from '../features/diagnostics.ts';
import { shortNameOf } from '../workspace/workspace.ts';
import type { Answers } from './answers.ts';

/**
 * Long enough to take a burst of keys as one, short enough not to be felt. Only where a round takes so long that the next
 * key would wait for it: what is quick is told at once.
 */
const SETTLE_MS = 15;
const QUICK_MS = 8;

/** Diagnostics that nobody asks for: told as the texts change, and where the editor asks itself, that it should. */
export class Publishing {
  private readonly published = new Map<string, { readonly version: number; readonly diagnostics: Diagnostic[] }>();
  /** How long the last round of diagnostics took, ms. */
  private lastRound = 0;
  /** Texts that changed, and others that a change of these reaches: of all of them it has to be said anew what is wrong. */
  private readonly dirty = new Set<string>();
  private readonly reached = new Set<string>();
  private isPublishing = false;
  /** Something else than a key changed what is known: a file, a setting, a folder. */
  private outside = false;
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly answers: Answers) {}

  /** Of texts that something else than a key has changed or reached. */
  scheduleFromOutside(uris: readonly string[]): void {
    this.outside = true;
    this.schedule(uris);
  }

  schedule(uris: readonly string[], delay = this.lastRound < QUICK_MS ? 0 : SETTLE_MS): void {
    for (const uri of uris) this.dirty.add(uri);
    if (!this.dirty.size) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.publishDirty(), delay);
  }

  /** Text by text, the one that was typed in first, until there is none left. What changes meanwhile is looked at in the same round. */
  private async publishDirty(): Promise<void> {
    if (this.answers.client.pullsDiagnostics) {
      const uris = [...this.dirty];
      this.dirty.clear();
      this.askToPull(uris);
      return;
    }
    if (this.isPublishing) return;
    this.isPublishing = true;
    try {
      await this.answers.withProgress(
        { title: 'Looking through the specs', cancellable: false },
        NEVER,
        async (_, told) => {
          for (let done = 1; this.dirty.size + this.reached.size; done++) {
            const [uri] = this.dirty.size ? this.dirty : this.reached;
            await this.publishNext(uri!);
            const left = this.dirty.size + this.reached.size;
            told(done / (done + left), shortNameOf(uri!));
            // Keys typed meanwhile go first.
            if (left) await this.answers.turns.pass();
          }
        },
      );
    } finally {
      this.isPublishing = false;
    }
  }

  private async publishNext(uri: string): Promise<void> {
    const isTyped = this.dirty.delete(uri);
    this.reached.delete(uri);
    const started = performance.now();
    try {
      await this.publish(uri);
      if (!isTyped) return;
      this.lastRound = performance.now() - started;
      for (const other of this.answers.workspace.affectedBy(uri))
        if (!this.dirty.has(other) && other !== uri) this.reached.add(other);
    } catch (error) {
      this.answers.log('diagnostics', error);
    }
  }

  /** The editor asks again about what it changed itself; of what else that reaches it has to be told. */
  private askToPull(uris: readonly string[]): void {
    const reaches =
      this.outside || uris.length > 1 || uris.some((uri) => this.answers.workspace.affectedBy(uri).length > 1);
    this.outside = false;
    if (reaches && this.answers.client.refreshesDiagnostics)
      this.answers.quietly(this.answers.connection.languages.diagnostics.refresh());
  }

  private async publish(uri: string): Promise<void> {
    // Nobody mends what comes with Planish.
    if (isLibrary(uri)) return;
    const { workspace } = this.answers;
    const options = { linksToDocs: this.answers.client.textContent };
    const found = await this.answers.steadily(uri, function* (view) {
      const diagnostics = yield* diagnosticsInSteps(view, options);
      return { diagnostics, version: workspace.version(uri) };
    });
    // Closed meanwhile.
    if (found?.version === undefined) return;
    const { version, diagnostics } = found;
    const told = this.published.get(uri);
    // Of a new version it is said again even where it is the same: editors move what they show along with what is typed, and
    // a word that is pasted over by itself leaves its mark behind; and some let fall what was said of another version.
    // It costs next to nothing: 2 ms for 436 problems, at a spec of 10,000 lines.
    if (told?.version === version && sameList(told.diagnostics, diagnostics)) return;
    this.published.set(uri, { version, diagnostics });
    await this.answers.connection.sendDiagnostics({ uri, version, diagnostics: this.forClient(diagnostics) });
  }

  /** A text that is closed has nothing wrong any more. */
  forget(uri: string): void {
    this.dirty.delete(uri);
    this.reached.delete(uri);
    this.published.delete(uri);
    if (!this.answers.client.pullsDiagnostics)
      this.answers.quietly(this.answers.connection.sendDiagnostics({ uri, diagnostics: [] }));
  }

  private forClient(diagnostics: Diagnostic[]): Diagnostic[] {
    return this.answers.client.relatedInformation ? diagnostics : diagnostics.map(withoutRelated);
  }
}

const NEVER = CancellationToken.None;
