import { oneByOne, type Steps } from '../../incremental/steps.ts';
import { count, isInches, type System, show, showBlankSize, showSize } from '../../model/values/show.ts';
import type { LaidSheet, Placement } from '../../nest/lay.ts';
import type { Unit } from '../../trade/reckoning/result.ts';
import { arcs } from './arcs.ts';
import type { BlankRow, CutList, Material, Purchase, Reasoned, Wire } from './cut-list.ts';
import { drawSheet } from './drawing.ts';
import { cautionNotice, jobFacts, jobPaper, money, notCounted, notReady, place, statement, times } from './job.ts';
import type { Block, Cell, Paper } from './paper.ts';

/** What every cut list says of itself, whatever the duty. */
export const STATEMENT =
  'This list says what to cut. It is no statement that any piece protects anyone: that is for the group’s rulebook, the production’s safety lead and their inspectors to decide.';

const SHARP = {
  code: 'sharp-edge',
  title: 'Cut edges',
  text: 'Blanks and offcuts come off the shear with edges that cut. Gloves on to carry them, and break every edge before the blank is worked.',
};

/** What a blank measures, in the words and order a smith marks it out by. */
function blankSize(row: Pick<BlankRow, 'shape' | 'long' | 'wide'>, units: System): string[] {
  switch (row.shape.kind) {
    case 'round':
      return [`Ø ${show(row.long, 'mm', units, { up: true })}`];
    case 'oval':
      return [showBlankSize(row.long, row.wide, units), 'oval'];
    case 'sector':
      return [
        showBlankSize(row.long, row.wide, units),
        `sector ${show(row.shape.angle, 'deg', units)}, ${arcs([row.shape.outer, row.shape.inner], row.shape.angle, units)}`,
      ];
    case 'outline':
      return [showBlankSize(row.long, row.wide, units), 'to its outline'];
    default:
      return [showBlankSize(row.long, row.wide, units)];
  }
}

const worked = (units: System): string => ` (worked in ${isInches(units) ? 'inches' : 'millimetres'})`;

/** A sum that cannot be worked in the units of the build is told by its formula alone. */
const sumOf = ({ formula, worked }: Pick<Reasoned, 'formula' | 'worked'>): string[] =>
  worked === formula ? [formula] : [formula, `= ${worked}`];

export function* cutListPaper(list: CutList): Steps<Paper> {
  const blocks: Block[] = [...head(list), ...summary(list)];
  for (const [done, material] of list.materials.entries()) {
    yield done / list.materials.length;
    blocks.push(...(yield* materialBlocks(material, list)));
  }
  blocks.push(...(yield* wireBlocks(list)));
  blocks.push(...(yield* rivetBlocks(list)));
  blocks.push(...partBlocks(list), ...problemBlocks(list));
  return jobPaper(list, 'Cut list', 'Not a statement that any piece protects.', blocks);
}

function head(list: CutList): Block[] {
  const unlaid = list.materials.flatMap((m) =>
    m.rows.flatMap((r) =>
      r.unplaced
        ? [
            {
              title: `${r.mark} ${r.label}`,
              text: `${count(r.unplaced.copies, 'copy', 'copies')} of ${r.total}: ${r.unplaced.reason}.`,
            },
          ]
        : [],
    ),
  );
  return [
    { kind: 'facts', facts: jobFacts(list, 'to cut') },
    ...notReady(list, 'Not ready to cut'),
    ...(unlaid.length > 0
      ? [{ kind: 'notice', tone: 'stop', title: 'Blanks that lie on no sheet', items: unlaid } as const]
      : []),
    ...notCounted(list),
    cautionNotice(list.cautions.some((c) => c.code === SHARP.code) ? list.cautions : [...list.cautions, SHARP]),
    statement(STATEMENT),
  ];
}

const percent = (ratio: number) => `${(ratio * 100).toFixed(ratio < 0.1 ? 1 : 0)} %`;

function summary(list: CutList): Block[] {
  const { totals, units } = list;
  const rows = list.materials.map((m): Cell[] => [
    m.title,
    String(m.rows.reduce((sum, r) => sum + r.total, 0)),
    useText(m, units),
    buyText(m),
    m.layout && m.layout.stockArea > 0
      ? percent(m.layout.wasteRatio)
      : m.hide
        ? [percent(m.hide.share), 'allowed for']
        : '',
    show(m.blankMass, 'g', units),
  ]);
  const blocks: Block[] = [{ kind: 'heading', level: 2, text: 'What it takes' }];
  if (rows.length > 0) {
    blocks.push({
      kind: 'table',
      caption: 'Stock for the whole job',
      columns: [
        { title: 'Material', head: true },
        { title: 'Blanks', align: 'right' },
        { title: 'Use' },
        { title: 'Buy' },
        { title: 'Not in blanks', align: 'right' },
        { title: 'Blanks weigh', align: 'right' },
      ],
      rows,
    });
  }
  const facts: { name: string; value: string }[] = [];
  if (totals.formedMass !== undefined)
    facts.push({
      name: 'One build, finished',
      value: `${show(totals.formedMass, 'g', units)}${totals.massNote ? `. ${totals.massNote}` : ''}`,
    });
  if (totals.wornMass !== undefined)
    facts.push({ name: 'One build, as worn', value: show(totals.wornMass, 'g', units) });
  facts.push({ name: 'Blanks of one build', value: show(totals.blankMassOfOne, 'g', units) });
  facts.push({ name: `Blanks of all ${list.builds}`, value: show(totals.blankMass, 'g', units) });
  if (totals.wasteRatio !== undefined) {
    const kept =
      totals.leftoverArea > 0 ? `, of which ${show(totals.leftoverArea, 'mm2', units)} in pieces worth keeping` : '';
    facts.push({
      name: 'Sheet not in blanks',
      value: `${percent(totals.wasteRatio)} of ${show(totals.stockArea, 'mm2', units)}${kept}`,
    });
  }
  if (totals.cost.used !== undefined) {
    facts.push({ name: 'Material used, at its price', value: money(totals.cost.used, list) });
  } else if (totals.priceMissing.length > 0) {
    const missing = `no full price for ${totals.priceMissing.join('; ')}`;
    facts.push({
      name: 'Material used, as far as priced',
      value: totals.priced.used > 0 ? `${money(totals.priced.used, list)}, ${missing}` : `not known: ${missing}`,
    });
  }
  if (totals.cost.toBuy === undefined && totals.priced.toBuy > 0) {
    facts.push({ name: 'To pay now, as far as priced', value: money(totals.priced.toBuy, list) });
  }
  if (totals.cost.toBuy !== undefined) facts.push({ name: 'To pay now', value: money(totals.cost.toBuy, list) });
  blocks.push({ kind: 'facts', facts });
  return blocks;
}

function useText(m: Material, units: System): Cell {
  if (m.hide) {
    const need = `${show(m.hide.needed, 'mm2', units)} of hide`;
    return m.hide.hides === undefined ? need : [count(m.hide.hides, 'hide'), need];
  }
  if (!m.layout) return '';
  const parts: string[] = [];
  if (m.layout.offcutsUsed > 0) parts.push(count(m.layout.offcutsUsed, 'offcut'));
  for (const t of m.layout.taken) {
    const stock = m.stock.sheets[t.index];
    if (t.used > 0 && stock) parts.push(`${count(t.used, 'sheet')} ${showSize(stock.long, stock.wide, units)}`);
  }
  return parts.length > 0 ? parts.join(' + ') : 'nothing';
}

function buyText(m: Material): Cell {
  if (m.hide) return m.hide.buy === undefined ? '' : bought(m.hide.buy, 'hide', m.hide.have);
  if (!m.layout) return '';
  const have = m.stock.sheets.some((s) => s.have !== undefined)
    ? m.stock.sheets.reduce((sum, s) => sum + (s.have ?? 0), 0)
    : undefined;
  return bought(m.layout.buy, 'sheet', have);
}

function bought(buy: number, one: string, have: number | undefined): Cell {
  const rack = have === undefined ? 'rack not counted' : `rack: ${have}`;
  return [buy === 0 ? 'none' : count(buy, one), rack];
}

function* materialBlocks(m: Material, list: CutList): Steps<Block[]> {
  const { units } = list;
  const blocks: Block[] = [{ kind: 'heading', level: 2, text: m.title }];
  const facts = [
    { name: 'Thickness', value: `${show(m.thickness, 'mm', units, { decimals: 2 })}${m.gauge ? ` (${m.gauge})` : ''}` },
  ];
  if (m.layout) {
    facts.push({ name: 'Kerf', value: show(m.stock.kerf, 'mm', units) });
    facts.push({ name: 'Margin', value: show(m.stock.margin, 'mm', units) });
  }
  if (m.cost.used !== undefined) facts.push({ name: 'Worth of the stock used', value: money(m.cost.used, list) });
  blocks.push({ kind: 'facts', facts });

  const grain = m.rows.some((r) => r.grain);
  blocks.push({
    kind: 'table',
    caption: `Blanks of ${m.title}`,
    tick: 'Cut',
    columns: [
      { title: 'Mark' },
      { title: 'Piece', head: true },
      { title: 'Per build × builds', align: 'right' },
      { title: 'Blank' },
      ...(grain ? [{ title: 'Grain' }] : []),
      ...(m.layout ? [{ title: 'On sheet' }] : []),
      { title: 'Each', align: 'right' as const },
      { title: 'All', align: 'right' as const },
    ],
    rows: yield* oneByOne(m.rows, (r): Cell[] => [
      r.mark,
      [
        r.label,
        ...(r.overridden ? ['size set by the spec'] : []),
        ...(r.mirrored ? ['every second one mirrored'] : []),
        ...r.notes,
      ],
      times(r.perBuild, list.builds),
      blankSize(r, units),
      ...(grain ? [r.grain ?? 'either'] : []),
      ...(m.layout
        ? [r.unplaced ? [r.sheets.join(', ') || 'none', `${r.unplaced.copies} not laid`] : r.sheets.join(', ')]
        : []),
      show(r.mass, 'g', units),
      show(r.massTotal, 'g', units),
    ]),
    ...(m.rows.length > 1
      ? {
          foot: [
            '',
            'Together',
            String(m.rows.reduce((sum, r) => sum + r.total, 0)),
            show(
              m.rows.reduce((sum, r) => sum + r.area * r.total, 0),
              'mm2',
              units,
            ),
            ...(grain ? [''] : []),
            ...(m.layout ? [''] : []),
            '',
            show(m.blankMass, 'g', units),
          ],
        }
      : {}),
  });
  blocks.push(...(yield* reasons(m, units)));
  if (m.hide) blocks.push({ kind: 'text', text: hideText(m, units) });
  const sheets = m.layout?.sheets ?? [];
  const blanks = new Map(
    sheets.length ? m.rows.map((r) => [r.id, { ...r, sizeText: blankSize(r, units)[0] ?? '' }]) : [],
  );
  blocks.push(...(yield* oneByOne(sheets, (sheet) => sheetBlocks(m, sheet, blanks, units))).flat());
  return blocks;
}

function* reasons(m: Material, units: System): Steps<Block[]> {
  const rows = yield* oneByOne(m.rows, (r): Cell[][] => {
    const named = `${r.mark} ${r.label}`;
    const range =
      r.size?.low !== undefined && r.size.high !== undefined
        ? [`${show(r.size.low, 'mm', units)} to ${show(r.size.high, 'mm', units)} by hand`]
        : [];
    return [
      ...(r.size
        ? [
            [
              named,
              ['the whole blank', ...range],
              blankSize(r, units)[0] ?? '',
              [...sumOf(r.size), ...(r.size.outside ? [r.size.outside] : [])],
              [r.size.basis, r.size.source],
            ],
          ]
        : []),
      ...r.allowances.map((a): Cell[] => [
        named,
        [a.edge, a.what],
        `${a.amount < 0 ? '' : '+ '}${show(a.amount, 'mm', units)}`,
        sumOf(a),
        [a.basis, a.source],
      ]),
    ];
  });
  if (rows.every((of) => of.length === 0)) return [];
  return [
    {
      kind: 'table',
      caption: `Where the sizes come from${worked(units)}`,
      columns: [
        { title: 'Blank', head: true },
        { title: 'For' },
        { title: 'Size', align: 'right' },
        { title: 'Worked' },
        { title: 'Basis' },
      ],
      rows: rows.flat(),
    },
  ];
}

function hideText(m: Material, units: System): string {
  const h = m.hide;
  if (!h) return '';
  const area = (value: number) => show(value, 'mm2', units);
  const sum = `The pieces take ${area(h.pieces)}; with ${percent(h.share)} for waste, ${area(h.needed)} of hide.`;
  const against =
    h.hide === undefined || h.hides === undefined
      ? ' The size of a hide is not given.'
      : ` A hide has ${area(h.hide)}: ${count(h.hides, 'hide')}.`;
  return `${sum}${against} Reckoned by area alone, not laid out. ${h.source}`;
}

const lies = (p: Placement) =>
  [p.turned ? 'turned a quarter' : '', p.flipped ? 'face down' : ''].filter((t) => t !== '').join(', ') || 'as drawn';

function sheetBlocks(
  m: Material,
  sheet: LaidSheet,
  blanks: ReadonlyMap<string, BlankRow & { readonly sizeText: string }>,
  units: System,
): Block[] {
  const mm = (value: number) => show(value, 'mm', units);
  const from = sheet.from === 'offcut' ? 'offcut' : sheet.bought ? 'sheet to buy' : 'sheet from the rack';
  const title = `Sheet ${sheet.number}: ${from}, ${showSize(sheet.long, sheet.wide, units)}`;
  const waste = sheet.long * sheet.wide > 0 ? 1 - sheet.used / (sheet.long * sheet.wide) : 0;
  const left = sheet.leftover ? `; ${showSize(sheet.leftover.long, sheet.leftover.wide, units)} left over whole` : '';
  const drawing = drawSheet({
    title,
    sheet,
    margin: m.stock.margin,
    grain: m.stock.grain ?? false,
    longText: mm(sheet.long),
    wideText: mm(sheet.wide),
    leftoverText: sheet.leftover ? showSize(sheet.leftover.long, sheet.leftover.wide, units) : '',
    kerf: m.stock.kerf,
    blanks,
  });
  return [
    { kind: 'heading', level: 3, text: title },
    {
      kind: 'drawing',
      drawing,
      caption: `${count(sheet.placements.length, 'blank')}, ${percent(waste)} not in blanks${left}. Hatched: scrap.${sheet.placements.some((p) => p.flipped) ? ' Tinted: laid face down.' : ''}`,
    },
    {
      kind: 'table',
      caption: `Marking out sheet ${sheet.number}: corner of each blank’s rectangle, from the left and top edge as drawn`,
      tick: 'Marked out',
      dense: true,
      columns: [
        { title: 'Mark' },
        { title: 'Piece', head: true },
        { title: 'Rectangle as it lies' },
        { title: 'From left', align: 'right' },
        { title: 'From top', align: 'right' },
        { title: 'Lies' },
      ],
      rows: sheet.placements.map((p): Cell[] => {
        const row = blanks.get(p.blank);
        return [
          `${row?.mark ?? ''}${p.copy}`,
          row?.label ?? p.blank,
          showSize(p.long, p.wide, units, { up: true }),
          mm(p.x),
          mm(p.y),
          lies(p),
        ];
      }),
    },
  ];
}

function* wireBlocks(list: CutList): Steps<Block[]> {
  if (list.wires.length === 0) return [];
  const { units } = list;
  const blocks: Block[] = [{ kind: 'heading', level: 2, text: 'Wire' }];
  for (const w of list.wires)
    blocks.push({
      kind: 'table',
      caption: w.title,
      tick: 'Cut',
      columns: [
        { title: 'For', head: true },
        { title: 'Per build × builds', align: 'right' },
        { title: 'Each', align: 'right' },
        { title: 'All', align: 'right' },
        { title: 'Worked' },
      ],
      rows: yield* oneByOne(w.uses, (u): Cell[] => [
        [u.piece, u.edge],
        times(u.perBuild, list.builds),
        show(u.length, 'mm', units, { up: true }),
        show(u.lengthTotal, 'mm', units, { up: true }),
        u.reason ? [...sumOf(u.reason), u.reason.basis] : '',
      ]),
      foot: [
        'Together',
        String(w.uses.reduce((sum, u) => sum + u.total, 0)),
        '',
        show(w.lengthTotal, 'mm', units, { up: true }),
        [...(w.massTotal === undefined ? [] : [show(w.massTotal, 'g', units)]), ...wireBuying(w, list)],
      ],
    });
  return blocks;
}

/** What the rack lacks, and what it costs; nothing for a wire of which no coil is said. */
function wireBuying(w: Wire, list: CutList): string[] {
  if (w.coil === undefined) return [];
  const { short, coils } = w.buy;
  const coil = show(w.coil, 'mm', list.units);
  const lacks =
    short === 0
      ? 'in the rack'
      : coils === undefined
        ? `buy ${show(short, 'mm', list.units)}: longer than a coil of ${coil}`
        : `buy ${count(coils, 'coil')} of ${coil}`;
  return [lacks, ...(short === 0 ? [] : [w.cost.toBuy === undefined ? 'no price' : money(w.cost.toBuy, list)])];
}

function* rivetBlocks(list: CutList): Steps<Block[]> {
  if (list.rivets.length === 0) return [];
  const { units } = list;
  const mm = (value: number, unit: Unit = 'mm') => show(value, unit, units);
  const verdict = { fits: 'fits', short: 'too short', long: 'too long' } as const;
  const uses = list.rivets.flatMap((r) => r.uses.map((u) => [r, u] as const));
  return [
    { kind: 'heading', level: 2, text: 'Rivets' },
    {
      kind: 'table',
      caption: `Rivets, seam by seam${worked(units)}`,
      tick: 'Counted out',
      columns: [
        { title: 'Rivet', head: true },
        { title: 'Seam' },
        { title: 'Per build × builds', align: 'right' },
        { title: 'Needs', align: 'right' },
        { title: 'Bought', align: 'right' },
        { title: 'Hole', align: 'right' },
        { title: 'Worked' },
      ],
      rows: yield* oneByOne(uses, ([r, u]): Cell[] => [
        r.title,
        [
          u.seam,
          ...(u.positions ? [`rivets ${u.positions}`] : []),
          ...(u.washers ? [`${count(u.washers, 'washer')} each`] : []),
        ],
        times(u.perBuild, list.builds),
        u.needed
          ? [
              show(u.needed.value, 'mm', units, { up: true }),
              ...(u.needed.low !== undefined && u.needed.high !== undefined
                ? [`${mm(u.needed.low)} to ${mm(u.needed.high)}`]
                : []),
            ]
          : 'not known',
        [mm(r.bought), ...(u.verdict ? [verdict[u.verdict]] : [])],
        u.hole === undefined ? '' : mm(u.hole),
        u.needed ? [...sumOf(u.needed), u.needed.basis] : '',
      ]),
    },
    {
      kind: 'table',
      caption: 'Rivets to have in the drawer',
      columns: BUYING('Rivet'),
      rows: list.rivets.map((r) => buyingRow(r.title, [], r, list)),
    },
  ];
}

const BUYING = (what: string) => [
  { title: what, head: true },
  { title: 'Per build × builds', align: 'right' as const },
  { title: 'Have', align: 'right' as const },
  { title: 'Buy' },
  { title: 'To pay', align: 'right' as const },
];

function buyingRow(
  title: string,
  more: readonly string[],
  item: { perBuild: number; total: number; have?: number; pack?: number; buy: Purchase; cost: { toBuy?: number } },
  list: CutList,
): Cell[] {
  const packs =
    item.buy.short === 0
      ? 'none'
      : item.pack
        ? [`${count(item.buy.packs, 'pack')} of ${item.pack}`, `${item.buy.short} short`]
        : String(item.buy.short);
  return [
    [title, ...more],
    times(item.perBuild, list.builds),
    item.have === undefined ? 'not said' : String(item.have),
    packs,
    item.cost.toBuy === undefined ? 'no price' : money(item.cost.toBuy, list),
  ];
}

function partBlocks(list: CutList): Block[] {
  if (list.parts.length === 0) return [];
  return [
    { kind: 'heading', level: 2, text: 'Parts' },
    {
      kind: 'table',
      caption: 'Parts to have in the drawer',
      tick: 'Laid out',
      columns: BUYING('Part'),
      rows: list.parts.map((p) => buyingRow(p.title, p.uses.length > 0 ? [`for ${p.uses.join(', ')}`] : [], p, list)),
    },
  ];
}

function problemBlocks(list: CutList): Block[] {
  const shown = list.problems.filter((p) => p.severity === 'error' || p.severity === 'warning');
  if (shown.length === 0)
    return [{ kind: 'text', quiet: true, text: 'The spec had no errors and no warnings when this was made.' }];
  return [
    { kind: 'heading', level: 2, text: 'What the spec was marked with' },
    {
      kind: 'table',
      caption: `${count(list.totals.errors, 'error')}, ${count(list.totals.warnings, 'warning')}`,
      columns: [{ title: 'Where', head: true }, { title: 'Kind' }, { title: 'Message' }],
      rows: shown.map((p): Cell[] => [place(p, list), [p.severity, p.code], p.message]),
    },
  ];
}
