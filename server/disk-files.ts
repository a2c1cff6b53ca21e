import { lstatSync, readdirSync, realpathSync } from 'node:fs';
import path from 'node:path';
import { URI } from 'vscode-uri';
import { type DiskText, liesIn, markedRoot, textOnDisk } from './disk-text.ts';
import type { ClientFiles } from './editor/workspace/client-files.ts';
import { isUnder } from './editor/workspace/client-files.ts';
import { type FileHost, MOST_SPECS } from './editor/workspace/workspace.ts';
import type { FolderEntry } from './requests.ts';

/*
 * Files on this machine, only under the folders that are open, or under the root of the repository that such a folder lies in: one
 * who opens the folder of one build has its stock beside it. What the editor alone can reach is asked of the editor.
 */

const MOST_FOLDERS = 5_000;

export function diskFiles(roots: () => readonly string[], client: ClientFiles): FileHost {
  const onDisk = (uri: string) => uri.startsWith('file:');
  let known: { readonly of: readonly string[]; readonly reach: readonly string[] } | undefined;
  const reach = () => {
    const of = roots();
    if (known?.of !== of) known = { of, reach: of.map((root) => (onDisk(root) ? aroundIt(root) : root)) };
    return known.reach;
  };
  const mayRead = (uri: string) => reach().some((root) => isUnder(root, uri));
  /** A link may not lead out of them either. */
  const leadsOut = (file: string) => !reach().some((root) => onDisk(root) && isInside(root, file));
  const found = (uri: string): DiskText | undefined => {
    if (!mayRead(uri)) return undefined;
    const file = URI.parse(uri).fsPath;
    // A spec may use thousands that are not there: no way is looked up for them.
    if (isMissing(file)) return undefined;
    const real = realOr(file);
    return leadsOut(real) ? { why: 'is a link that leads outside the open folder' } : textOnDisk(real);
  };
  return {
    mayRead,
    read(uri) {
      if (!onDisk(uri)) return client.read(uri);
      const text = found(uri);
      return text && 'text' in text ? text.text : null;
    },
    trouble(uri) {
      if (!onDisk(uri)) return client.trouble(uri);
      const text = found(uri);
      return text && 'why' in text ? text.why : undefined;
    },
    settled: () => client.settled(),
    forget: (uri) => client.forget(uri),
    lookAgain: () => client.lookAgain(),
    list(folder) {
      if (!onDisk(folder)) return client.list(folder);
      try {
        const place = realpathSync(URI.parse(folder).fsPath);
        if (leadsOut(place)) return [];
        return readdirSync(place, { withFileTypes: true }).map(
          (entry): FolderEntry => ({ name: entry.name, isFolder: entry.isDirectory() }),
        );
      } catch {
        return [];
      }
    },
    specs() {
      const here = specsUnder(roots().filter(onDisk));
      if (roots().every(onDisk)) return here;
      const elsewhere = client.specs();
      return elsewhere && [...here, ...elsewhere.filter((uri) => !onDisk(uri))];
    },
  };
}

function aroundIt(root: string): string {
  const marked = markedRoot(URI.parse(root).fsPath);
  return marked === undefined ? root : URI.file(marked).toString();
}

function isInside(root: string, file: string): boolean {
  try {
    const folder = URI.parse(root).fsPath;
    // What is not there, or is a link in a circle, has no other place than the one it is named by.
    return liesIn(file, realpathSync(folder)) || liesIn(file, folder);
  } catch {
    return false;
  }
}

function isMissing(file: string): boolean {
  try {
    return lstatSync(file, { throwIfNoEntry: false }) === undefined;
  } catch {
    return false;
  }
}

function realOr(file: string): string {
  try {
    return realpathSync(file);
  } catch {
    return file;
  }
}

function specsUnder(roots: readonly string[]): string[] {
  const specs: string[] = [];
  const queue = roots.map((root) => URI.parse(root).fsPath);
  // One more than are looked through says that there are more.
  for (let visited = 0; queue.length && visited < MOST_FOLDERS && specs.length <= MOST_SPECS; visited++) {
    const folder = queue.shift()!;
    try {
      for (const entry of readdirSync(folder, { withFileTypes: true })) {
        if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
        const file = path.join(folder, entry.name);
        if (entry.isDirectory()) queue.push(file);
        else if (entry.isFile() && entry.name.endsWith('.planish')) specs.push(URI.file(file).toString());
      }
    } catch {
      // A folder that may not be read holds nothing for us.
    }
  }
  return specs;
}
