import { manyByMany, oneByOne, type Steps } from '../../incremental/steps.ts';
import { type Cell, linesOf, type Paper, type Table } from '../documents/paper.ts';
import { markdown } from './escape.ts';

/** A paper as Markdown. Drawings have no place in it: what they show stands in the tables. */
export function* writeMarkdown(paper: Paper): Steps<string> {
  const parts: string[] = [`# ${markdown(paper.title)}`, `**${markdown(paper.sort)}**, ${markdown(paper.date)}`];
  for (const [done, block] of paper.blocks.entries()) {
    yield done / paper.blocks.length;
    switch (block.kind) {
      case 'heading':
        parts.push(`${'#'.repeat(block.level)} ${markdown(block.text)}`);
        break;
      case 'text':
        parts.push(markdown(block.text));
        break;
      case 'facts':
        parts.push(block.facts.map((f) => `- ${markdown(f.name)}: **${strong(f.value)}**`).join('\n'));
        break;
      case 'notice':
        parts.push(
          [
            `> **${strong(block.title)}**`,
            '>',
            ...(yield* manyByMany(
              block.items,
              (i) => `> - ${i.title ? `**${strong(i.title)}.** ` : ''}${markdown(i.text)}`,
            )),
          ].join('\n'),
        );
        break;
      case 'table':
        parts.push(yield* table(block));
        break;
      case 'drawing':
        parts.push(markdown(block.caption));
        break;
    }
  }
  return `${parts.join('\n\n')}\n`;
}

/** Bold breaks at a blank beside its marks. */
const strong = (text: string) => markdown(text.trim());

const cell = (value: Cell) =>
  linesOf(value)
    .map(markdown)
    .filter((line) => line !== '')
    .join('<br>');

function* table(block: Table): Steps<string> {
  const titles = block.columns.map((c) => markdown(c.title));
  const rule = block.columns.map((c) => (c.align === 'right' ? '---:' : '---'));
  const row = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  const tick = block.tick === undefined ? [] : [markdown(block.tick)];
  return [
    `*${strong(block.caption)}*`,
    '',
    row([...tick, ...titles]),
    row([...tick.map(() => ':-:'), ...rule]),
    ...(yield* oneByOne(block.rows, (cells) => row([...tick.map(() => '☐'), ...cells.map(cell)]))),
    ...(block.foot
      ? [row([...tick.map(() => ''), ...block.foot.map((c) => (cell(c) === '' ? '' : `**${cell(c)}**`))])]
      : []),
  ].join('\n');
}
