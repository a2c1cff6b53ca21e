import { randomBytes } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fsyncSync,
  linkSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  statSync,
  unlinkSync,
  writeSync,
} from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { URI } from 'vscode-uri';
import { nearest } from '../../grammar/nearest.ts';
import { readSpec } from '../../grammar/reader.ts';
import { Project } from '../model/file.ts';
import { type Model, modelOf } from '../model/model.ts';

/** A message for whoever typed the command: no stack, exit code 2. */
export class CommandError extends Error {}

const LARGEST_SPEC = 8 * 1024 * 1024;

/**
 * Specs from disk. A spec may use files of its workspace only: the current folder where the spec lies in it, otherwise
 * the nearest folder above it that a repository or an editor calls its root, otherwise the folder that all the named
 * files share. A link or a `..` that leads out of it is not followed.
 */
export class Specs {
  private readonly texts = new Map<string, string | undefined>();
  readonly root: string;

  constructor(files: readonly string[], root?: string) {
    this.root = root === undefined ? workspaceOf(files) : real(root);
  }

  readonly project = this.makeProject();

  private makeProject(): Project {
    const project = new Project({
      mayRead: (uri) => this.mayRead(uri),
      read: (uri) => {
        const file = this.pathOf(uri);
        const text = file === undefined ? undefined : this.textOf(file);
        return text === undefined ? undefined : readSpec(text);
      },
      drawing: (uri) => {
        const file = this.pathOf(uri);
        return file === undefined ? undefined : this.textOf(file);
      },
    });
    project.nearestFile = (from, missing) => this.nearestFile(from, missing);
    return project;
  }

  /** @throws {CommandError} where the file cannot be read. */
  model(file: string): Model {
    const text = readText(file);
    this.texts.set(real(file), text);
    const model = modelOf(this.project, uriOf(real(file)));
    if (!model) throw new CommandError(`${shown(file)} lies outside the workspace ${shown(this.root)}.`);
    return model;
  }

  /** How a file is to be called: as one would type it here. */
  nameOf(uri: string): string {
    const file = this.pathOf(uri);
    return file === undefined ? uri : shown(file);
  }

  private textOf(file: string): string | undefined {
    let key: string;
    try {
      key = real(file);
    } catch {
      return undefined;
    }
    if (!this.texts.has(key)) {
      try {
        this.texts.set(key, readText(file));
      } catch {
        this.texts.set(key, undefined);
      }
    }
    return this.texts.get(key);
  }

  private mayRead(uri: string): boolean {
    const file = this.pathOf(uri);
    if (file === undefined || !isUnder(file, this.root)) return false;
    // A link counts as where it leads; a file that is not there is not outside.
    try {
      return isUnder(real(file), this.root);
    } catch {
      return true;
    }
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
    const folders = [path.dirname(wanted), path.dirname(here)].filter((folder) => isUnder(folder, this.root));
    for (const folder of folders) {
      const names = namesLike(path.extname(wanted) || '.planish', folder).filter(
        (name) => path.join(folder, name) !== here,
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
export const uriOf = (file: string): string => URI.parse(pathToFileURL(file).href).toString();

const real = (file: string): string => realpathSync(path.resolve(file));

function isUnder(file: string, folder: string): boolean {
  const way = path.relative(folder, file);
  return way === '' || (way !== '..' && !way.startsWith(`..${path.sep}`) && !path.isAbsolute(way));
}

function workspaceOf(files: readonly string[]): string {
  const here = real('.');
  const folders = files.map((file) => path.dirname(real(file)));
  if (folders.every((folder) => isUnder(folder, here))) return here;
  let common = folders[0] ?? here;
  while (!folders.every((folder) => isUnder(folder, common))) common = path.dirname(common);
  for (let folder = common; ; folder = path.dirname(folder)) {
    if (['.git', '.vscode'].some((mark) => existsSync(path.join(folder, mark)))) return folder;
    if (folder === path.dirname(folder)) return common;
  }
}

/** A path as one would type it in this folder. */
export function shown(file: string): string {
  const way = path.relative(process.cwd(), path.resolve(file));
  if (way === '') return '.';
  return isUnder(path.resolve(file), process.cwd()) ? way : path.resolve(file);
}

/** @throws {CommandError} saying why it cannot be read. */
export function readText(file: string): string {
  const bytes = readBytes(file);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new CommandError(`${shown(file)} is not UTF-8 text.`);
  }
}

function readBytes(file: string): Uint8Array {
  try {
    const found = statSync(file);
    if (found.isDirectory()) throw new CommandError(`${shown(file)} is a folder: a file is wanted here.`);
    if (!found.isFile()) throw new CommandError(`${shown(file)} is no ordinary file.`);
    if (found.size > LARGEST_SPEC) throw new CommandError(`${shown(file)} is larger than any spec (over 8 MB).`);
    return readFileSync(file);
  } catch (error) {
    if (error instanceof CommandError) throw error;
    throw new CommandError(readProblem(file, error));
  }
}

function readProblem(file: string, error: unknown): string {
  const code = codeOf(error);
  if (code === 'ENOENT' || code === 'ENOTDIR') {
    const near = nearest(path.basename(file), namesLike('.planish', path.dirname(file)));
    const suggestion = near === undefined ? '' : `: did you mean ${shown(path.join(path.dirname(file), near))}?`;
    return `There is no ${shown(file)}${suggestion || '.'}`;
  }
  return `${shown(file)} cannot be read (${reason(error)}).`;
}

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'no permission',
  EPERM: 'no permission',
  EISDIR: 'it is a folder',
  ENOSPC: 'the disk is full',
  EROFS: 'the disk is read-only',
  ENOENT: 'the folder is not there',
  ENOTDIR: 'a file stands where a folder is wanted',
  EEXIST: 'it is already there',
  ELOOP: 'its links go in a circle',
  ENAMETOOLONG: 'the name is too long',
};

const codeOf = (error: unknown): string => (error as NodeJS.ErrnoException)?.code ?? '';
const reason = (error: unknown): string => REASONS[codeOf(error)] ?? (codeOf(error) || String(error));

/** The specs that are named, and all those in folders that are named, each once. */
export function specFiles(named: readonly string[]): string[] {
  const found = new Map<string, string>();
  const add = (file: string) => {
    const key = real(file);
    if (!found.has(key)) found.set(key, file);
  };
  for (const each of named) {
    let isFolder: boolean;
    try {
      isFolder = statSync(each).isDirectory();
    } catch (error) {
      throw new CommandError(readProblem(each, error));
    }
    if (!isFolder) {
      add(each);
      continue;
    }
    const inside = specsIn(each);
    if (!inside.length) throw new CommandError(`There is no .planish file in ${shown(each)}.`);
    for (const file of inside) add(file);
  }
  return [...found.values()];
}

function specsIn(folder: string): string[] {
  let entries: import('node:fs').Dirent[];
  try {
    entries = readdirSync(folder, { withFileTypes: true });
  } catch (error) {
    throw new CommandError(readProblem(folder, error));
  }
  return entries
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const file = path.join(folder, entry.name);
      if (entry.isDirectory()) return entry.name.startsWith('.') || entry.name === 'node_modules' ? [] : specsIn(file);
      return entry.isFile() && entry.name.endsWith('.planish') ? [file] : [];
    });
}

/** Writes a file whole or not at all. Without `force`, nothing that is there is touched. */
export function writeWhole(file: string, content: string | Uint8Array, force: boolean): void {
  const target = force ? throughLinks(file) : file;
  if (!force && isThere(target)) throw alreadyThere(target);
  const temporary = path.join(path.dirname(target), `.${path.basename(target)}.${randomBytes(6).toString('hex')}.part`);
  let made = false;
  try {
    const mode = force && existsSync(target) ? statSync(target).mode & 0o777 : 0o666;
    const handle = openSync(temporary, 'wx', mode);
    made = true;
    try {
      const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
      for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    if (force) {
      renameSync(temporary, target);
      made = false;
    } else {
      putInPlace(temporary, target);
    }
  } catch (error) {
    if (error instanceof CommandError) throw error;
    if (codeOf(error) === 'EEXIST') throw alreadyThere(target);
    throw new CommandError(`${shown(target)} cannot be written: ${reason(error)}.`);
  } finally {
    if (made && existsSync(temporary)) unlinkSync(temporary);
  }
}

/** A second name fails where a file is there already, which a rename would not. */
function putInPlace(temporary: string, target: string): void {
  try {
    linkSync(temporary, target);
  } catch (error) {
    if (codeOf(error) === 'EEXIST') throw error;
    // Some disks know no second names.
    if (isThere(target)) throw alreadyThere(target);
    renameSync(temporary, target);
  }
}

const alreadyThere = (file: string) =>
  new CommandError(`${shown(file)} is already there. Nothing was written: --force replaces it.`);

function isThere(file: string): boolean {
  try {
    statSync(file);
    return true;
  } catch (error) {
    return codeOf(error) !== 'ENOENT' && codeOf(error) !== 'ENOTDIR';
  }
}

function throughLinks(file: string): string {
  try {
    return realpathSync(file);
  } catch {
    return file;
  }
}

export function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw new CommandError(`The folder ${shown(folder)} cannot be made: ${reason(error)}.`);
  }
}

export const isFolder = (file: string): boolean => {
  try {
    return statSync(file).isDirectory();
  } catch {
    return false;
  }
};
