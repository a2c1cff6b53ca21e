import { manyByMany, oneByOne, type Steps } from '../../incremental/steps.ts';
import type { Drawing, Mark } from '../documents/drawing.ts';
import { type Block, type Cell, linesOf, type Notice, type Paper, type Table } from '../documents/paper.ts';
import { markup } from './escape.ts';

/** A paper as one HTML file: no scripts, nothing fetched, which it forbids itself too; good on paper and on a phone by the shear. */
export function* writeHtml(paper: Paper): Steps<string> {
  const inSections: string[] = [];
  const seen = { blocks: 0, drawings: 0, tables: 0 };
  for (const section of sections(paper.blocks)) {
    const inner: string[] = [];
    for (const block of section) {
      yield seen.blocks++ / paper.blocks.length;
      inner.push(yield* blockHtml(block, seen));
    }
    inSections.push(`<section>\n${inner.join('\n')}\n</section>`);
  }
  const page = paper.size === 'letter' ? 'letter' : 'A4';
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light">
<title>${markup(`${paper.sort}: ${paper.title}`)}</title>
<style>
${STYLE}
@page { size: ${page}; margin: 15mm 14mm 16mm; }
</style>
</head>
<body>
<header>
<p class="sort">${markup(paper.sort)}</p>
<h1 dir="auto">${markup(paper.title)}</h1>
</header>
<main>
${inSections.join('\n')}
</main>
<footer><p>${markup(paper.foot)}</p><p>${markup(paper.date)}</p></footer>
</body>
</html>
`;
}

/** `seen` counts what must have a name of its own on the page. */
function* blockHtml(block: Block, seen: { drawings: number; tables: number }): Steps<string> {
  switch (block.kind) {
    case 'heading':
      return `<h${block.level}>${markup(block.text)}</h${block.level}>`;
    case 'text':
      return `<p${block.quiet ? ' class="quiet"' : ''}>${markup(block.text)}</p>`;
    case 'facts':
      return `<dl>${block.facts.map((f) => `<div><dt>${markup(f.name)}</dt><dd dir="auto">${markup(f.value)}</dd></div>`).join('')}</dl>`;
    case 'notice':
      return yield* notice(block);
    case 'table':
      return yield* table(block, `t${++seen.tables}`);
    case 'drawing':
      return `<figure>${svg(block.drawing, `d${++seen.drawings}`)}<figcaption>${markup(block.caption)}</figcaption></figure>`;
  }
}

/** Each second-level heading starts a section of its own. */
function sections(blocks: readonly Block[]): Block[][] {
  const all: Block[][] = [[]];
  for (const block of blocks) {
    if (block.kind === 'heading' && block.level === 2) all.push([]);
    all.at(-1)!.push(block);
  }
  return all.filter((s) => s.length > 0);
}

function* notice(block: Notice): Steps<string> {
  const items = yield* manyByMany(
    block.items,
    (i) => `<li>${i.title ? `<b>${markup(i.title)}.</b> ` : ''}${markup(i.text)}</li>`,
  );
  return `<aside class="${block.tone}"${block.tone === 'stop' ? ' role="alert"' : ''} aria-label="${markup(block.title)}"><h2>${markup(block.title)}</h2><ul>${items.join('')}</ul></aside>`;
}

/** Only a word that is longer than any of ours may be broken, so that no column is squeezed into syllables. */
const breakable = (text: string) => (text.split(/\s/).some((word) => word.length > 24) ? ' class="long"' : '');

function cellHtml(cell: Cell): string {
  const [first = '', ...more] = linesOf(cell);
  return `<span dir="auto"${breakable(first)}>${markup(first)}</span>${more.map((line) => `<small dir="auto"${breakable(line)}>${markup(line)}</small>`).join('')}`;
}

/** A table that a narrow screen shows as cards; the roles keep it a table for who listens to it. */
function* table(block: Table, id: string): Steps<string> {
  const { columns } = block;
  const side = (i: number) => (columns[i]?.align === 'right' ? ' class="n"' : '');
  const headings = columns.map((c, i) => `<th scope="col" role="columnheader"${side(i)}>${markup(c.title)}</th>`);
  if (block.tick) headings.unshift(`<th scope="col" role="columnheader" class="tick">${markup(block.tick)}</th>`);
  const nameAt = Math.max(
    0,
    columns.findIndex((c) => c.head),
  );
  const rows = yield* oneByOne(block.rows, (cells) => {
    const inner = cells.map((cell, i) => {
      const title = columns[i]?.title ?? '';
      return columns[i]?.head
        ? `<th scope="row" role="rowheader" data-of="${markup(title)}"${side(i)}>${cellHtml(cell)}</th>`
        : `<td role="cell" data-of="${markup(title)}"${side(i)}>${cellHtml(cell)}</td>`;
    });
    if (block.tick) {
      const named = [...(nameAt > 0 ? [cells[0] ?? ''] : []), cells[nameAt] ?? '']
        .map((c) => linesOf(c)[0] ?? '')
        .join(' ');
      inner.unshift(
        `<td role="cell" class="tick"><input type="checkbox" aria-label="${markup(`${block.tick}: ${named}`)}"></td>`,
      );
    }
    return `<tr role="row">${inner.join('')}</tr>`;
  });
  const foot = block.foot
    ? `<tfoot role="rowgroup"><tr role="row">${block.tick ? '<td role="cell" class="tick"></td>' : ''}${block.foot
        .map((cell, i) => {
          const blank = linesOf(cell).every((l) => l === '') ? ' data-blank' : '';
          return `<td role="cell" data-of="${markup(columns[i]?.title ?? '')}"${side(i)}${blank}>${cellHtml(cell)}</td>`;
        })
        .join('')}</tr></tfoot>`
    : '';
  return `<table role="table"${block.dense ? ' class="dense"' : ''} aria-labelledby="${id}"><caption id="${id}">${markup(block.caption)}</caption><thead role="rowgroup"><tr role="row">${headings.join('')}</tr></thead><tbody role="rowgroup">
${rows.join('\n')}
</tbody>${foot}</table>`;
}

const round = (value: number) => String(Math.round(value * 100) / 100);

function markSvg(mark: Mark): string {
  if (mark.kind === 'path') return `<path class="${mark.style}" d="${markup(mark.d)}"/>`;
  const turn = mark.upward ? ` transform="rotate(-90 ${round(mark.x)} ${round(mark.y)})"` : '';
  return `<text class="${mark.style}" x="${round(mark.x)}" y="${round(mark.y)}" font-size="${round(mark.size)}" text-anchor="${mark.anchor}"${turn}>${markup(mark.text)}</text>`;
}

function svg(drawing: Drawing, id: string): string {
  return `<svg role="img" aria-labelledby="${id}-t ${id}-d" viewBox="0 0 ${round(drawing.width)} ${round(drawing.height)}" width="${round(drawing.width * 1.45)}pt"><title id="${id}-t">${markup(drawing.title)}</title><desc id="${id}-d">${markup(drawing.description)}</desc>${drawing.marks.map(markSvg).join('')}</svg>`;
}

const STYLE = `body { --ink: #1d2226; --soft: #59626a; --line: #c9ced2; --pale: #f3f1ec; --copper: #94471c; --red: #a01c1c; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1.5rem 1.25rem 3rem; max-width: 62rem; color: var(--ink); background: #fff; font: 15px/1.45 system-ui, "Noto Sans", sans-serif; overflow-wrap: anywhere; }
header { border-top: 6px solid var(--ink); border-bottom: 1px solid var(--ink); padding: .6rem 0 .8rem; margin-bottom: 1rem; }
.sort { margin: 0; color: var(--copper); font-size: .8rem; font-weight: 700; letter-spacing: .12em; text-transform: uppercase; }
h1 { margin: .1rem 0 0; font-size: 1.9rem; line-height: 1.15; }
h2 { margin: 2.2rem 0 .6rem; padding-bottom: .25rem; border-bottom: 2px solid var(--copper); font-size: 1.25rem; }
h3 { margin: 1.6rem 0 .5rem; font-size: 1rem; }
dl { display: grid; grid-template-columns: repeat(auto-fill, minmax(13rem, 1fr)); gap: .5rem 1.5rem; margin: 0 0 1rem; }
dt { color: var(--soft); font-size: .78rem; }
dd { margin: 0; font-weight: 600; }
aside { margin: .8rem 0; padding: .6rem .9rem .7rem; border: 1px solid var(--line); border-left: 6px solid var(--copper); background: var(--pale); }
aside h2 { margin: 0 0 .25rem; padding: 0; border: 0; font-size: 1rem; }
aside ul { margin: 0; padding-left: 1.1rem; }
aside.stop { border-color: var(--red); background: #fdf1f0; }
aside.stop h2 { color: var(--red); }
aside.statement { border-left-color: var(--soft); background: #fff; }
aside.statement ul { padding: 0; list-style: none; }
th, td { overflow-wrap: normal; }
.long { overflow-wrap: anywhere; }
table { width: 100%; border-collapse: collapse; margin: 0 0 1.2rem; font-variant-numeric: tabular-nums; font-size: .9rem; }
caption { padding: .3rem 0; text-align: left; color: var(--soft); font-size: .95em; }
th, td { padding: .35rem .5rem; border-bottom: 1px solid var(--line); text-align: left; vertical-align: top; }
thead th { border-bottom: 2px solid var(--ink); font-size: .87em; vertical-align: bottom; }
tbody th { font-weight: 600; }
tfoot td { border-bottom: 0; border-top: 2px solid var(--ink); font-weight: 700; }
.n { text-align: right; }
td.n > span:not(.long), th.n > span:not(.long) { white-space: nowrap; }
td small, th small { display: block; color: var(--soft); font-weight: 400; font-size: .88em; }
.tick { width: 3.6rem; text-align: center; }
input[type=checkbox] { width: 1.15rem; height: 1.15rem; margin: .05rem 0 0; accent-color: var(--copper); }
figure { margin: 0 0 1rem; }
figcaption { color: var(--soft); font-size: .85rem; }
svg { display: block; max-width: 100%; height: auto; margin-bottom: .35rem; font-family: system-ui, "Noto Sans", sans-serif; }
svg path { fill: none; stroke-width: .6; }
svg .sheet { fill: #fff; }
svg .sheet-edge { stroke: #1d2226; stroke-width: 1.2; }
svg .hatch { stroke: #cdbfae; stroke-width: .5; }
svg .leftover { stroke: #94471c; stroke-dasharray: 4 2.5; stroke-width: .9; }
svg .margin { stroke: #8d959b; stroke-dasharray: 1.5 2; stroke-width: .5; }
svg .blank { fill: #fff; fill-rule: evenodd; stroke: #1d2226; stroke-width: .8; }
svg .flipped { fill: #f3e3d6; fill-rule: evenodd; stroke: #1d2226; stroke-width: .8; }
svg .leader { stroke: #94471c; stroke-width: .5; }
svg .dimension { stroke: #59626a; stroke-width: .5; }
svg text.dimension { stroke: none; fill: #59626a; }
svg text.mark { fill: #1d2226; font-weight: 700; }
svg text.name { fill: #59626a; }
.quiet { color: var(--soft); }
footer { display: flex; justify-content: space-between; gap: 1rem; margin-top: 2rem; padding-top: .5rem; border-top: 1px solid var(--ink); color: var(--soft); font-size: .85rem; }
footer p { margin: 0; }
@media screen and (max-width: 42rem) {
  body { padding: 1rem .8rem 2rem; font-size: 16px; }
  h1 { font-size: 1.5rem; }
  table, caption, tbody, tfoot, tr, th, td { display: block; width: auto; }
  thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  th, td { overflow-wrap: anywhere; }
  tbody tr, tfoot tr { position: relative; padding: .5rem 0; border-bottom: 1px solid var(--line); }
  tfoot tr { border-top: 2px solid var(--ink); }
  th, td, tfoot td { display: grid; grid-template-columns: 8.5rem 1fr; column-gap: .6rem; padding: .12rem 0; border: 0; }
  th.n, td.n { text-align: left; }
  th::before, td::before { content: attr(data-of); color: var(--soft); font-weight: 400; font-size: .85rem; }
  th > small, td > small { grid-column: 2; }
  .tick { position: absolute; right: 0; top: .4rem; display: block; width: auto; }
  .tick::before { content: none; }
  .tick input { width: 1.7rem; height: 1.7rem; }
  [data-blank] { display: none; }
}
@media print {
  body { max-width: none; padding: 0; font-size: 9.5pt; -webkit-print-color-adjust: exact; print-color-adjust: exact; }
  h1 { font-size: 18pt; }
  h2 { margin-top: 14pt; }
  h2, h3, caption { break-after: avoid; }
  aside, figure, tr, dl > div { break-inside: avoid; }
  h3, h3 + figure { break-inside: avoid; }
  thead { display: table-header-group; }
  tfoot { display: table-row-group; }
  table { font-size: 8.5pt; }
  input[type=checkbox] { width: .8rem; height: .8rem; }
  svg { width: 100%; max-height: 150mm; }
  table.dense { font-size: 8pt; }
  table.dense th, table.dense td { padding: .12rem .5rem; }
}`;
