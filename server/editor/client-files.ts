import { sameUri } from './workspace.ts';

/** Files that only the editor can reach, as on a virtual file system or in a browser: asked for once, kept until they change. */
export class ClientFiles {
  private readonly texts = new Map<string, string | null>();
  private readonly fetching = new Map<string, Promise<void>>();

  constructor(private readonly fetch: (uri: string) => Promise<string | null>) {}

  read(uri: string): string | null | undefined {
    const key = sameUri(uri);
    const have = this.texts.get(key);
    if (have !== undefined) return have;
    if (!this.fetching.has(key)) {
      const run = this.fetch(key)
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

  async settled(): Promise<void> {
    while (this.fetching.size) await Promise.all(this.fetching.values());
  }

  forget(uri: string): void {
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
