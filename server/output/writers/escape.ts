/** Every escape that text from a spec goes through on its way into a paper. Nothing else in `output` builds markup from raw text. */

/** What no format can hold: control characters but tab and line breaks, lone surrogates, and marks that reorder what follows. */
const UNFIT = /(?![\t\n\r])\p{Cc}|[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufffe\uffff]|\p{Surrogate}/gu;

/** Takes out what no format can hold. Letters of every script stay, right-to-left ones with them; overrides of direction go. */
export function printable(text: string): string {
  return text.replace(UNFIT, '\ufffd');
}

const MARKUP: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** For HTML, SVG and XML, in text and in attribute values within double or single quotes. */
export function markup(text: string): string {
  return printable(text).replace(/[&<>"']/g, (c) => MARKUP[c] ?? c);
}

/** A spreadsheet runs a cell that starts like this as a formula, some after skipping blanks and what nobody sees. */
const FORMULA = /^[\s\p{C}\ufffd]*[=+\-@\uff0b\uff0d\uff1d\uff20]|^[\t\r\n]/u;
/** One that is set to another mark than the comma parts a cell there, quotes or no quotes. */
const PARTS = /(?<=[;\t|\r\n])(?=[\s\p{C}\ufffd]*[=+\-@\uff0b\uff0d\uff1d\uff20])/gu;

/** One CSV cell. A number is written as a number; what a spreadsheet would run gets an apostrophe before it. */
export function csvCell(value: string | number | undefined): string {
  if (value === undefined) return '';
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : '';
  const inside = printable(value.replace(PARTS, "'"));
  const safe = FORMULA.test(value) ? `'${inside}` : inside;
  return /[",\r\n]|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** Text within a line of Markdown, table cells too: nothing in it starts markup, a link or HTML. */
export function markdown(text: string): string {
  return printable(text)
    .replace(/\s+/g, ' ')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replace(/[\\`*_[\]|~$]/g, '\\$&')
    .replace(/^ ?([#+=-])/, '\\$1')
    .replace(/^ ?(\d+)([.)])(?= )/, '$1\\$2')
    .replace(/(https?|ftp|mailto|javascript|data):/gi, '$1&#58;')
    .replace(/\bwww\./gi, 'www&#46;')
    .replaceAll('@', '&#64;');
}
