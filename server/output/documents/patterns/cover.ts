import { flattened } from '../../../geometry/outline/chords.ts';
import { measuresIn } from '../../../model/values/show.ts';
import { NOT_CERTIFIED } from '../../writers/svg.ts';
import type { Drawing, Mark } from '../drawing.ts';
import type { Block, Paper } from '../paper.ts';
import type { Patterns } from './pattern.ts';
import { LAP, type Tiling, type Window } from './tiles.ts';

/** A pattern over several sheets, with the number of its first one. */
export interface Spread {
  readonly tiling: Tiling;
  readonly first: number;
}

export interface CoverInput {
  readonly patterns: Patterns;
  readonly size: Paper['size'];
  readonly spreads: readonly Spread[];
  readonly window: Window;
  /** Sheets on which each piece stands, `3` or `4 to 7`. */
  readonly sheets: ReadonlyMap<string, string>;
  readonly full: boolean;
}

const builds = ({ make, spare }: Patterns) => Math.max(1, make + spare);

/** The first page: what there is, how to print it, how the sheets go together. */
export function coverOf({ patterns, size, spreads, window, sheets, full }: CoverInput): Paper {
  const hasTemplates = patterns.patterns.some(({ once }) => once);
  const blocks: Block[] = [{ kind: 'facts', facts: facts(patterns) }];
  if (patterns.errors.length)
    blocks.push({
      kind: 'notice',
      tone: 'stop',
      title: 'Not ready to cut: some of it cannot be made as written',
      items: patterns.errors.map(({ line, text }) => ({ title: `${patterns.file}, line ${line}`, text })),
    });
  if (patterns.missing.length)
    blocks.push({
      kind: 'notice',
      tone: 'stop',
      title: 'Without a pattern',
      items: patterns.missing.map(({ piece, reason }) => ({ title: piece, text: `${reason}.` })),
    });
  blocks.push({
    kind: 'notice',
    tone: 'statement',
    title: 'Print at 100 %, “actual size”, never “fit to page”',
    items: [
      {
        text: `Then measure the two bars at the foot of every sheet: 100 mm and 4 in. If they are short or long, nothing here fits.${full ? '' : ` Sheets of one pattern lap by ${LAP} mm: lay the crosses in circles over each other, tape, then cut along the outline.`}`,
      },
      {
        text: `Patterns are drawn as the piece is seen from outside${hasTemplates ? ', templates from above or from the side that they name' : ''}. Solid: cut. Fine solid: the finished edge. Long dashes: bend or fold. Short dashes: holes that come after forming or through the plate that lies over. Full circles with a cross: drill in the flat.`,
      },
    ],
  });
  blocks.push({ kind: 'heading', level: 2, text: 'Patterns' });
  blocks.push({
    kind: 'table',
    caption: `How many for one build; ${builds(patterns)} ${builds(patterns) === 1 ? 'build' : 'builds'} in all.${hasTemplates ? ' Of a template one for all builds.' : ''}`,
    columns: [
      { title: 'Piece', head: true },
      { title: 'As drawn', align: 'right' },
      { title: 'Turned over', align: 'right' },
      { title: 'From' },
      { title: 'Size', align: 'right' },
      { title: 'Sheets', align: 'right' },
    ],
    dense: true,
    rows: patterns.patterns.map((each) => [
      each.piece,
      String(each.count),
      each.turned ? String(each.turned) : '–',
      each.material,
      each.size,
      sheets.get(each.piece) ?? '–',
    ]),
  });
  if (patterns.seams.length)
    blocks.push({
      kind: 'table',
      caption: 'The same letter stands at every edge that a seam joins.',
      columns: [{ title: 'Letter', head: true }, { title: 'Seam' }, { title: 'Joins, outside first' }],
      dense: true,
      rows: patterns.seams.map(({ letter, seam, pieces }) => [letter, seam, pieces.join(', ')]),
    });
  if (spreads.length) {
    blocks.push({ kind: 'heading', level: 2, text: 'How the sheets go together' });
    for (const row of rowsOf(spreads.map((spread) => mapOf(spread, window))))
      blocks.push({ kind: 'drawing', drawing: row, caption: row.description });
  }
  const sharp = {
    title: 'Cut edges',
    text: 'Blanks come off the shear with edges that cut: gloves on, and break every edge before the blank is worked.',
  };
  blocks.push({
    kind: 'notice',
    tone: 'caution',
    title: 'Cautions',
    items: [
      ...patterns.cautions.map(({ title, text }) => ({ title, text })),
      ...(patterns.cautions.some(({ code }) => code === 'sharp-edge') ? [] : [sharp]),
    ],
  });
  blocks.push({
    kind: 'notice',
    tone: 'statement',
    title: 'What these patterns are not',
    items: [{ text: NOT_CERTIFIED }],
  });
  return {
    sort: 'Patterns',
    title: patterns.title,
    date: patterns.date,
    size,
    foot: 'Not a statement that any piece protects.',
    blocks,
  };
}

function facts(patterns: Patterns): { name: string; value: string }[] {
  const all: [string, string | undefined][] = [
    ['For', patterns.client],
    ['Duty', patterns.duty],
    ['Measures in', measuresIn(patterns.units)],
    ['Rulebook', patterns.rules],
    ['Builds', `${patterns.make}${patterns.spare ? ` + ${patterns.spare} spare` : ''}`],
    ['Spec', patterns.file],
    ['Version of the spec', patterns.version],
    ['Made', patterns.date],
  ];
  return all.flatMap(([name, value]) => (value ? [{ name, value }] : []));
}

const n = (value: number) => String(Math.round(value * 100) / 100);

/** Maps side by side, as many as go on a line. */
function rowsOf(maps: readonly Drawing[]): Drawing[] {
  const rows: Drawing[] = [];
  for (const map of maps) {
    const row = rows.at(-1);
    if (!row || row.width + GAP + map.width > WIDEST) {
      rows.push(map);
      continue;
    }
    const shift = row.width + GAP;
    rows[rows.length - 1] = {
      title: `${row.title}, ${map.title}`,
      description: `${row.description} ${map.description}`,
      width: shift + map.width,
      height: Math.max(row.height, map.height),
      marks: [...row.marks, ...map.marks.map((mark) => shiftedMark(mark, shift))],
    };
  }
  return rows;
}

/** Points. */
const WIDEST = 510;
const GAP = 14;

const shiftedMark = (mark: Mark, by: number): Mark =>
  mark.kind === 'text'
    ? { ...mark, x: mark.x + by }
    : {
        ...mark,
        d: mark.d.replace(/([ML])(-?[\d.]+)/g, (_, command: string, x: string) => `${command}${n(Number(x) + by)}`),
      };

/** The sheets of one pattern as they lie, each with its number. */
function mapOf({ tiling, first }: Spread, window: Window): Drawing {
  const { plan, columns, rows, tiles, left, bottom } = tiling;
  const wide = columns * (window.wide - LAP) + LAP;
  const high = rows * (window.high - LAP) + LAP;
  const scale = Math.min(300 / wide, 180 / high, 0.22);
  const at = (x: number, y: number): readonly [number, number] => [
    2 + (x - left) * scale,
    2 + (high - (y - bottom)) * scale,
  ];
  const marks: Mark[] = [];
  for (const { x, y } of tiles) {
    const [l, t] = at(x, y + window.high);
    const [r, b] = at(x + window.wide, y);
    marks.push({
      kind: 'path',
      style: 'margin',
      d: `M${n(l)} ${n(t)}L${n(r)} ${n(t)}L${n(r)} ${n(b)}L${n(l)} ${n(b)}Z`,
    });
  }
  const points = flattened(plan.outline, 0.5).map(({ x, y }) => at(x, y));
  marks.push({
    kind: 'path',
    style: 'sheet-edge',
    d: `${points.map(([x, y], i) => `${i ? 'L' : 'M'}${n(x)} ${n(y)}`).join('')}Z`,
  });
  for (const [i, { x, y }] of tiles.entries()) {
    const [px, py] = at(x + LAP, y + window.high - LAP);
    marks.push({ kind: 'text', style: 'mark', text: String(first + i), x: px, y: py + 7, size: 8, anchor: 'start' });
  }
  const last = first + tiles.length - 1;
  return {
    title: plan.pattern.piece,
    description: `${plan.pattern.piece}: sheets ${first} to ${last}.`,
    width: wide * scale + 4,
    height: high * scale + 4,
    marks,
  };
}
