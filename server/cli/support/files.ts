import { type BigIntStats, readdirSync, realpathSync, statSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { URI } from 'vscode-uri';
import { nearest } from '../../../grammar/nearest.ts';
import { readSpec } from '../../../grammar/reader.ts';
import { bytesOnDisk, type DiskText, liesIn, markedRoot, reasonOf, textOf } from '../../disk-text.ts';
import { modelOf } from '../../model/index.ts';
import { Project } from '../../model/names/project.ts';
import type { Model } from '../../model/spec.ts';
import { seen } from '../../model/values/seen.ts';
import { isInchStep } from '../../model/values/show.ts';

/** A message for whoever typed the command: no stack, exit code 2. */
export class CommandError extends Error {}

/** What was read, whatever it was called: a file has one number on its disk, by whichever path or link it is reached. */
export class FilesRead {
  private readonly seen = new Set<string>();

  readonly note = (found: BigIntStats): void => {
    this.seen.add(numberOf(found));
  };

  has(found: BigIntStats): boolean {
    return this.seen.has(numberOf(found));
  }
}

const numberOf = ({ dev, ino }: BigIntStats): string => `${dev}:${ino}`;

/**
 * Specs from disk. A spec may use files of its workspace only: the nearest folder above all the named files that a repository
 * or an editor calls its root; where there is none the current folder, or what the files share where they do not lie in it.
 * A link or a `..` that leads out of it is not followed.
 */
export class Specs {
  /** What every file holds that was asked for, or why it cannot be read. */
  private readonly texts = new Map<string, DiskText | undefined>();
  readonly root: string;
  /** Every file that was read: what is made from them takes the place of none. */
  readonly read = new FilesRead();

  constructor(files: readonly string[], options: ReadonlyMap<string, string> = new Map()) {
    const root = options.get('root');
    this.root = root === undefined ? workspaceOf(files) : rootOf(root);
    this.project = this.makeProject();
    const step = options.get('inches');
    if (isInchStep(step)) this.project.tell({ inches: step });
  }

  readonly project: Project;

  private makeProject(): Project {
    const project = new Project({
      mayRead: (uri) => this.mayRead(uri),
      read: (uri) => {
        const text = this.textAt(uri);
        return text === undefined ? undefined : readSpec(text);
      },
      drawing: (uri) => this.textAt(uri),
      outside: `lies outside ${shown(this.root)} and is not read: name a folder that holds both with --root`,
      trouble: (uri) => {
        const found = this.foundAt(uri);
        return found && 'why' in found ? found.why : undefined;
      },
    });
    project.nearestFile = (from, missing) => this.nearestFile(from, missing);
    return project;
  }

  /** @throws {CommandError} where the file cannot be read. */
  model(file: string): Model {
    return this.modelFrom(file, real(file), readText(file, this.read));
  }

  /** Of a text that is on no disk, as if it lay in this folder. */
  modelOfText(name: string, text: string): Model {
    return this.modelFrom(name, path.join(real('.'), name), text);
  }

  private modelFrom(file: string, place: string, text: string): Model {
    this.texts.set(place, { text });
    const model = modelOf(this.project, uriOf(place));
    if (!model) throw new CommandError(`${shown(file)} lies outside the workspace ${shown(this.root)}.`);
    return model;
  }

  /** How a file is to be called: as one would type it here. */
  nameOf(uri: string): string {
    const file = this.pathOf(uri);
    return file === undefined ? uri : typed(file);
  }

  private textAt(uri: string): string | undefined {
    const found = this.foundAt(uri);
    return found && 'text' in found ? found.text : undefined;
  }

  private foundAt(uri: string): DiskText | undefined {
    const file = this.pathOf(uri);
    if (file === undefined) return undefined;
    const key = realOr(file);
    if (!this.texts.has(key)) {
      const found = bytesOnDisk(file, this.read.note);
      this.texts.set(key, found && ('why' in found ? found : textOf(found.bytes, file)));
    }
    return this.texts.get(key);
  }

  private mayRead(uri: string): boolean {
    const file = this.pathOf(uri);
    // A link counts as where it leads; a file that is not there is not outside.
    return file !== undefined && liesIn(file, this.root) && liesIn(realOr(file), this.root);
  }

  private pathOf(uri: string): string | undefined {
    try {
      return uri.startsWith('file:') ? fileURLToPath(uri) : undefined;
    } catch {
      return undefined;
    }
  }

  /** A file of the workspace with nearly the name of the one that is missing, as the spec would write it. */
  private nearestFile(from: string, missing: string): string | undefined {
    const [here, wanted] = [this.pathOf(from), this.pathOf(missing)];
    if (here === undefined || wanted === undefined) return undefined;
    const folders = [path.dirname(wanted), path.dirname(here)].filter((folder) => liesIn(folder, this.root));
    for (const folder of folders) {
      const names = namesLike(path.extname(wanted) || '.planish', folder).filter(
        // What is there and cannot be read is not what was meant.
        (name) => ![here, wanted].includes(path.join(folder, name)),
      );
      const near = names.includes(path.basename(wanted))
        ? path.basename(wanted)
        : nearest(path.basename(wanted), names);
      if (near !== undefined)
        return path.relative(path.dirname(here), path.join(folder, near)).split(path.sep).join('/');
    }
    return undefined;
  }
}

/** The files of a folder that end so. */
function namesLike(extension: string, folder: string): string[] {
  try {
    return readdirSync(folder).filter((name) => name.toLowerCase().endsWith(extension.toLowerCase()));
  } catch {
    return [];
  }
}

/** One spelling of an address everywhere, as the model joins paths. */
const uriOf = (file: string): string => URI.parse(pathToFileURL(file).href).toString();

const real = (file: string): string => realpathSync(path.resolve(file));

function realOr(file: string): string {
  try {
    return real(file);
  } catch {
    return file;
  }
}

function rootOf(folder: string): string {
  if (!isFolder(folder)) throw new CommandError(`There is no folder ${shown(folder)} to be the root.`);
  return real(folder);
}

function workspaceOf(files: readonly string[]): string {
  const here = real('.');
  const folders = files.map((file) => path.dirname(real(file)));
  let common = folders[0] ?? here;
  while (!folders.every((folder) => liesIn(folder, common))) common = path.dirname(common);
  return markedRoot(common) ?? (liesIn(common, here) ? here : common);
}

/** A path as one would type it in this folder, for data. */
export function typed(file: string): string {
  const way = path.relative(process.cwd(), path.resolve(file));
  if (way === '') return '.';
  return liesIn(path.resolve(file), process.cwd()) ? way : path.resolve(file);
}

/** The same for people: a name may hold what would steer a terminal. */
export const shown = (file: string): string => seen(typed(file));

/** @throws {CommandError} saying why it cannot be read. */
export function readText(file: string, read?: FilesRead): string {
  const { text } = readFile(file, read);
  return text;
}

/** A text with the bytes that it was read from. @throws {CommandError} saying why it cannot be read. */
export function readFile(file: string, read = new FilesRead()): { readonly text: string; readonly bytes: Uint8Array } {
  const found = bytesOnDisk(file, read.note);
  if (!found) throw new CommandError(notThere(file));
  const text = 'why' in found ? found : textOf(found.bytes);
  if ('why' in text) throw new CommandError(`${shown(file)} ${text.why}.`);
  return { text: text.text, bytes: (found as { bytes: Uint8Array }).bytes };
}

function notThere(file: string): string {
  if (file === '-') return 'Only planish check reads standard input: name a file.';
  const near = nearest(path.basename(file), namesLike('.planish', path.dirname(file)));
  const suggestion = near === undefined ? '.' : `: did you mean ${shown(path.join(path.dirname(file), near))}?`;
  return `There is no ${shown(file)}${suggestion}`;
}

/** Specs to look at, and what was meant to be looked at and cannot be read. */
export interface SpecFiles {
  readonly files: readonly string[];
  readonly unread: readonly Unread[];
}

export interface Unread {
  readonly file: string;
  /** A whole sentence. */
  readonly why: string;
}

/** The specs that are named, and all those in folders that are named, each once. */
export function specFiles(named: readonly string[]): SpecFiles {
  const found = new Map<string, string>();
  const unread: Unread[] = [];
  for (const each of named) {
    const files = isFolder(each) ? specsIn(each, unread) : [each];
    if (!files.length && !unread.length)
      unread.push({ file: each, why: `There is no .planish file in ${shown(each)}.` });
    for (const file of files) {
      try {
        // A file has one entry, however often and by whichever link it is named.
        const key = real(file);
        if (!found.has(key)) found.set(key, file);
      } catch {
        unread.push({ file, why: whyUnread(file) });
      }
    }
  }
  return { files: [...found.values()], unread };
}

function whyUnread(file: string): string {
  try {
    readText(file);
    return `${shown(file)} cannot be read.`;
  } catch (error) {
    if (error instanceof CommandError) return error.message;
    throw error;
  }
}

function specsIn(folder: string, unread: Unread[]): string[] {
  let entries: import('node:fs').Dirent[];
  try {
    entries = readdirSync(folder, { withFileTypes: true });
  } catch (error) {
    unread.push({ file: folder, why: `${shown(folder)} cannot be read (${reasonOf(error)}).` });
    return [];
  }
  return entries
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const file = path.join(folder, entry.name);
      if (entry.isDirectory())
        return entry.name.startsWith('.') || entry.name === 'node_modules' ? [] : specsIn(file, unread);
      return entry.isFile() && entry.name.endsWith('.planish') ? [file] : [];
    });
}

export const isFolder = (file: string): boolean => {
  try {
    return statSync(file).isDirectory();
  } catch {
    return false;
  }
};
