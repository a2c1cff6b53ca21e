import { type BigIntStats, existsSync, lstatSync, readFileSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import path from 'node:path';
import { say } from '../l10n/say.ts';

/* Texts on this machine, for the command line and the server alike: what one of them reads the other reads too. */

/** A spec is a page or two of text, a drawing a little more; past this it is something else. */
export const LARGEST = 5_000_000;

/** A text, or why what lies there is none, in words that follow its name: `is a folder`. */
export type DiskText = { readonly text: string } | { readonly why: string };

/** Nothing where there is no such file. A mark of byte order is no part of the text. */
export function textOnDisk(file: string): DiskText | undefined {
  const found = bytesOnDisk(file);
  return found && ('why' in found ? found : textOf(found.bytes, file));
}

export type DiskBytes = { readonly bytes: Uint8Array } | { readonly why: string };

/** @param noted is told which file it is before it is read. */
export function bytesOnDisk(file: string, noted: (found: BigIntStats) => void = () => {}): DiskBytes | undefined {
  try {
    const found = statSync(file, { bigint: true });
    const sort = sortOf(found);
    if (sort) return { why: say`is a ${sort}` };
    noted(found);
    if (found.size > LARGEST) return { why: say`is larger than any spec (over ${LARGEST / 1e6} MB)` };
    return { bytes: readFileSync(file) };
  } catch (error) {
    const code = codeOf(error);
    if (code === 'ENOENT' || code === 'ENOTDIR')
      return isLink(file) ? { why: 'is a link to a file that is not there' } : undefined;
    if (code === 'ELOOP') return { why: 'is a link that leads in a circle' };
    return { why: say`cannot be read (${reasonOf(error)})` };
  }
}

/**
 * As UTF-8, the one encoding of specs: a guess at another would turn letters into wrong ones without a word. Only a DXF is of old in
 * the code page of western Windows (its `$DWGCODEPAGE`), and a smith cannot have it otherwise from his program.
 */
export function textOf(bytes: Uint8Array, file = ''): DiskText {
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    if (/\.dxf$/i.test(file)) return { text: new TextDecoder('windows-1252').decode(bytes) };
    const isWide = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
    return { why: isWide ? 'is not UTF-8 text but UTF-16: save it as UTF-8' : 'is not UTF-8 text: save it as UTF-8' };
  }
}

/** What a thing on disk is that is no ordinary file. */
export function sortOf(found: BigIntStats): string | undefined {
  if (found.isFile()) return undefined;
  if (found.isDirectory()) return 'folder';
  if (found.isFIFO()) return 'pipe';
  if (found.isSocket()) return 'socket';
  return 'device';
}

/** Whether a path lies in a folder, or is it. A folder may well be called `..foo`. */
export function liesIn(file: string, folder: string): boolean {
  const way = path.relative(folder, file);
  return way !== '..' && !way.startsWith(`..${path.sep}`) && !path.isAbsolute(way);
}

function isLink(file: string): boolean {
  try {
    return lstatSync(file).isSymbolicLink();
  } catch {
    return false;
  }
}

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'no permission',
  EPERM: 'no permission',
  EISDIR: 'it is a folder',
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is full',
  EFBIG: 'the disk takes no file as large',
  EROFS: 'the disk is read-only',
  ENOENT: 'the folder is not there',
  ENOTDIR: 'a file stands where a folder is wanted',
  EEXIST: 'it is already there',
  ELOOP: 'its links go in a circle',
  ENAMETOOLONG: 'the name is too long',
  ENXIO: 'nobody listens there',
  EPIPE: 'who read it has gone',
};

export const codeOf = (error: unknown): string => (error as NodeJS.ErrnoException)?.code ?? '';

/** What went wrong, in words of our own where there are some. */
export const reasonOf = (error: unknown): string => REASONS[codeOf(error)] ?? (codeOf(error) || String(error));

/**
 * The nearest folder at or above this one that a repository or an editor calls its root. A whole home is none: an editor keeps
 * its own things there, under the same name.
 */
export function markedRoot(folder: string): string | undefined {
  for (let at = folder; at !== homedir() && at !== path.dirname(at); at = path.dirname(at))
    if (ROOT_MARKS.some((mark) => existsSync(path.join(at, mark)))) return at;
  return undefined;
}

const ROOT_MARKS = ['.git', '.vscode'];
