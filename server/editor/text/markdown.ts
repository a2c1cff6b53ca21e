import { seen } from '../../model/values/seen.ts';

/* Building hover texts. Whatever came from a spec is escaped: a note is read as words, never as markup. */

/** Text of a spec, to be read as it stands: no address in it becomes a link that one could follow by a slip. */
export const plainText = (text: string): string =>
  text
    .split('\n')
    .map(seen)
    .join('\n')
    .replace(/[\\`*_{}[\]<>#|~!&@]/g, '\\$&')
    .replace(/(?<=[a-z0-9+.-]):(?=\S)/gi, '\\:')
    .replace(/\bwww\./gi, (www) => `${www.slice(0, -1)}\\.`)
    .replace(/^(\s*)([-+]|\d+[.)])(?=\s)/gm, '$1\\$2');

/** Code in a line, whatever marks it holds. */
export function code(text: string): string {
  const flat = seen(text.replace(/\s+/g, ' ').trim());
  let fence = '`';
  while (flat.includes(fence)) fence += '`';
  return flat.startsWith('`') || flat.endsWith('`') ? `${fence} ${flat} ${fence}` : `${fence}${flat}${fence}`;
}

/** Markdown that we wrote, for an editor that shows plain text only. */
export function withoutMarkup(text: string): string {
  return text
    .replace(/^---$/gm, '')
    .replace(/\*\*([^*]+)\*\*/g, '$1')
    .replace(/(?<![\w\\])\*([^*\n]+)\*(?!\w)/g, '$1')
    .replace(/(`+) ?(.+?) ?\1/g, '$2')
    .replace(/ {2}$/gm, '')
    .replace(/\\([\\`*_{}[\]<>#|~!&@:+.()-])/g, '$1')
    .replace(/\n{3,}/g, '\n\n')
    .trim();
}
