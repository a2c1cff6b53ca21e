import { URI } from 'vscode-uri';
import type { FolderEntry } from '../../requests.ts';
import { sameUri } from './workspace.ts';

/** What the editor is asked for. */
export interface ClientAnswers {
  text(uri: string): Promise<string | Unreadable | null>;
  entries(folder: string): Promise<readonly FolderEntry[]>;
  /** Every spec of the open folders. */
  specs(): Promise<readonly string[]>;
}

/** What lies there and is no text of ours, in words that follow its name. */
export interface Unreadable {
  readonly why: string;
}

/** Files that only the editor can reach, as on a virtual file system or in a browser: asked for once, kept until they change. */
export class ClientFiles {
  private readonly texts: Kept<string | Unreadable | null>;
  private readonly folders: Kept<readonly FolderEntry[]>;
  private readonly found: Kept<readonly string[]>;

  constructor(client: ClientAnswers) {
    this.texts = new Kept((uri) => client.text(uri), null);
    this.folders = new Kept((folder) => client.entries(folder), []);
    this.found = new Kept(() => client.specs(), []);
  }

  read(uri: string): string | null | undefined {
    const text = this.texts.get(sameUri(uri));
    return typeof text === 'object' ? null : text;
  }

  /** Why a file that gave no text cannot be read. */
  trouble(uri: string): string | undefined {
    const text = this.texts.get(sameUri(uri));
    return text && typeof text === 'object' ? text.why : undefined;
  }

  /** What lies in a folder, nothing where it cannot be read; `undefined` while it is being asked for. */
  list(folder: string): readonly FolderEntry[] | undefined {
    return this.folders.get(withoutSlash(folder));
  }

  /** Every spec of the open folders; `undefined` while they are being looked for. */
  specs(): readonly string[] | undefined {
    return this.found.get(ALL);
  }

  async settled(): Promise<void> {
    const kept = [this.texts, this.folders, this.found];
    while (kept.some((each) => each.isComing())) await Promise.all(kept.map((each) => each.settled()));
  }

  /** Which specs there are is asked for anew. */
  lookAgain(): void {
    this.found.forget(ALL);
  }

  /** A file or a folder changed, and may be one that was not there. */
  forget(uri: string): void {
    this.lookAgain();
    this.texts.forget(sameUri(uri));
    for (const folder of this.folders.keys())
      if (isUnder(folder, uri) || isUnder(uri, folder)) this.folders.forget(folder);
  }
}

/** What the editor is asked for once and then kept. */
class Kept<T> {
  private readonly answers = new Map<string, T>();
  private readonly coming = new Map<string, Promise<void>>();

  constructor(
    private readonly ask: (key: string) => Promise<T>,
    private readonly nothing: T,
  ) {}

  /** `undefined` while it is coming. */
  get(key: string): T | undefined {
    const have = this.answers.get(key);
    if (have !== undefined) return have;
    if (!this.coming.has(key)) {
      const run = this.ask(key)
        .catch(() => this.nothing)
        .then((answer) => {
          // Forgotten meanwhile: what came is old.
          if (this.coming.get(key) !== run) return;
          this.answers.set(key, answer);
          this.coming.delete(key);
        });
      this.coming.set(key, run);
    }
    return undefined;
  }

  keys(): string[] {
    return [...this.answers.keys(), ...this.coming.keys()];
  }

  isComing(): boolean {
    return this.coming.size > 0;
  }

  async settled(): Promise<void> {
    await Promise.all(this.coming.values());
  }

  forget(key: string): void {
    this.answers.delete(key);
    this.coming.delete(key);
  }
}

/** All specs are one answer. */
const ALL = '';

/** A folder may be written with a slash at its end, and has to be where it is the root. */
function withoutSlash(folder: string): string {
  const uri = URI.parse(folder);
  return uri.with({ path: uri.path.replace(/(?<=.)\/+$/, '') }).toString();
}

/** Whether an address lies in a folder, or is it. */
export function isUnder(folder: string, uri: string): boolean {
  const root = sameUri(folder).replace(/\/+$/, '');
  const key = sameUri(uri);
  return key === root || key.startsWith(`${root}/`);
}
