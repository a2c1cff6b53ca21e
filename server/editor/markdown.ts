/* Building hover texts. Whatever came from a spec is escaped: a note is read as words, never as markup. */

/** Text of a spec, to be read as it stands. */
export const plainText = (text: string): string =>
  text.replace(/[\\`*_{}[\]<>#|~!&]/g, '\\$&').replace(/^(\s*)([-+]|\d+[.)])(?=\s)/gm, '$1\\$2');

/** Code in a line, whatever marks it holds. */
export function code(text: string): string {
  const flat = text.replace(/\s+/g, ' ').trim();
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
    .replace(/\\([\\`*_{}[\]<>#|~!&+.()-])/g, '$1')
    .replace(/\n{3,}/g, '\n\n')
    .trim();
}
