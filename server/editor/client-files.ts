import { sameUri } from './workspace.ts';

/** What the editor is asked for. */
export interface ClientAnswers {
  text(uri: string): Promise<string | null>;
  /** Every spec of the open folders. */
  specs(): Promise<readonly string[]>;
}

/** Files that only the editor can reach, as on a virtual file system or in a browser: asked for once, kept until they change. */
export class ClientFiles {
  private readonly texts = new Map<string, string | null>();
  private readonly fetching = new Map<string, Promise<void>>();
  private found: readonly string[] | undefined;
  private finding: Promise<void> | undefined;

  constructor(private readonly client: ClientAnswers) {}

  read(uri: string): string | null | undefined {
    const key = sameUri(uri);
    const have = this.texts.get(key);
    if (have !== undefined) return have;
    if (!this.fetching.has(key)) {
      const run = this.client
        .text(key)
        .catch(() => null)
        .then((text) => {
          // Forgotten meanwhile: what came is old.
          if (this.fetching.get(key) !== run) return;
          this.texts.set(key, text);
          this.fetching.delete(key);
        });
      this.fetching.set(key, run);
    }
    return undefined;
  }

  /** Every spec of the open folders; `undefined` while they are being looked for. */
  specs(): readonly string[] | undefined {
    if (this.found) return this.found;
    if (!this.finding) {
      const run = this.client
        .specs()
        .catch(() => [])
        .then((found) => {
          if (this.finding !== run) return;
          this.found = found;
          this.finding = undefined;
        });
      this.finding = run;
    }
    return undefined;
  }

  async settled(): Promise<void> {
    while (this.fetching.size || this.finding) await Promise.all([...this.fetching.values(), this.finding]);
  }

  /** Which specs there are is asked for anew. */
  lookAgain(): void {
    this.found = undefined;
    this.finding = undefined;
  }

  /** A file changed, and may be one that was not there. */
  forget(uri: string): void {
    this.lookAgain();
    const key = sameUri(uri);
    this.texts.delete(key);
    this.fetching.delete(key);
  }
}

/** Whether an address lies in a folder, or is it. */
export function isUnder(folder: string, uri: string): boolean {
  const root = sameUri(folder).replace(/\/+$/, '');
  const key = sameUri(uri);
  return key === root || key.startsWith(`${root}/`);
}
