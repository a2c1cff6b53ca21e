import { oneByOne, type Steps } from '../../incremental/steps.ts';
import { isInches, type System } from '../../model/values/show.ts';
import type { CutList } from '../documents/cut-list.ts';
import { csvCell } from './escape.ts';

/** Columns of the one flat table. Numbers are in the unit the title names, with a point, so that a spreadsheet can add them up. */
const COLUMNS = [
  'kind',
  'material',
  'mark',
  'name',
  'for',
  'notes',
  'per build',
  'builds',
  'total',
  'shape',
  'long (mm)',
  'wide (mm)',
  'diameter (mm)',
  'thickness (mm)',
  'length each (mm)',
  'length total (mm)',
  'length needed (mm)',
  'area each (mm2)',
  'mass each (g)',
  'mass total (g)',
  'grain',
  'sheets',
  'not laid',
  'have',
  'pack',
  'packs to buy',
  'to pay',
  'currency',
] as const;

type Row = Partial<Record<(typeof COLUMNS)[number], string | number | undefined>>;

export interface CsvOptions {
  /** Starts the file with a byte order mark, which some spreadsheets need to see that it is UTF-8. */
  readonly byteOrderMark?: boolean;
}

/** RFC 4180: comma, CRLF, quotes doubled. */
export function* writeCsv(list: CutList, options: CsvOptions = {}): Steps<string> {
  const line = (cells: readonly string[]) => `${cells.join(',')}\r\n`;
  const columns = COLUMNS.map((column) => ({ column, ...columnIn(column, list.units) }));
  const rows = yield* oneByOne(rowsOf(list), (row) =>
    line(columns.map(({ column, times }) => csvCell(number(row[column], times)))),
  );
  return `${options.byteOrderMark ? '\ufeff' : ''}${line(columns.map(({ title }) => csvCell(title)))}${rows.join('')}`;
}

/** What a build in inches calls the unit of a column, and how much of it one of ours is: decimals, which a machine reads. */
const INCHES: Readonly<Record<string, readonly [string, number]>> = {
  mm: ['in', 1 / 25.4],
  mm2: ['in2', 1 / 645.16],
  g: ['oz', 1 / 28.349523125],
};

function columnIn(column: string, units: System): { readonly title: string; readonly times: number } {
  const unit = isInches(units) ? INCHES[/\((\w+)\)$/.exec(column)?.[1] ?? ''] : undefined;
  return unit ? { title: column.replace(/\(\w+\)$/, `(${unit[0]})`), times: unit[1] } : { title: column, times: 1 };
}

/** To a thousandth: enough for any shop, and no binary dust in the cells. */
const number = (value: string | number | undefined, times: number) =>
  typeof value === 'number' && Number.isFinite(value) ? Math.round(value * times * 1000) / 1000 || 0 : value;

/** However a sheet is written, its longer side is long. */
const longFirst = (sheet: { long: number; wide: number } | undefined): Row =>
  sheet ? { 'long (mm)': Math.max(sheet.long, sheet.wide), 'wide (mm)': Math.min(sheet.long, sheet.wide) } : {};

function rowsOf(list: CutList): Row[] {
  const { builds, currency } = list;
  const money = (value: number | undefined): Row => (value === undefined ? {} : { 'to pay': value, currency });
  return [
    ...list.materials.flatMap((m) => [
      ...m.rows.map(
        (r): Row => ({
          kind: m.kind === 'hide' ? 'leather' : 'blank',
          material: m.title,
          mark: r.mark,
          name: r.label,
          for: r.piece,
          notes: r.notes.join('; '),
          'per build': r.perBuild,
          builds,
          total: r.total,
          shape: r.shape.kind,
          // Where the grain says which way round it lies, its sides stand as they are.
          'long (mm)': r.grain ? r.long : Math.max(r.long, r.wide),
          'wide (mm)': r.grain ? r.wide : Math.min(r.long, r.wide),
          'diameter (mm)': r.shape.kind === 'round' ? r.long : undefined,
          'thickness (mm)': m.thickness,
          'area each (mm2)': r.area,
          'mass each (g)': r.mass,
          'mass total (g)': r.massTotal,
          grain: r.grain,
          sheets: r.sheets.join(' '),
          'not laid': r.unplaced?.copies,
        }),
      ),
      ...(m.layout?.taken ?? []).map(
        (t): Row => ({
          kind: 'sheet',
          material: m.title,
          name: m.title,
          total: t.used,
          ...longFirst(m.stock.sheets[t.index]),
          'thickness (mm)': m.thickness,
          have: t.have,
          'packs to buy': t.buy,
          ...money(t.buy === 0 ? 0 : multiply(m.stock.sheets[t.index]?.price, t.buy)),
        }),
      ),
      ...(m.hide
        ? [
            {
              kind: 'hide',
              material: m.title,
              name: m.title,
              total: m.hide.hides,
              'thickness (mm)': m.thickness,
              'area each (mm2)': m.hide.hide,
              have: m.hide.have,
              'packs to buy': m.hide.buy,
              ...money(m.cost.toBuy),
            } satisfies Row,
          ]
        : []),
    ]),
    ...list.wires.flatMap((w) => [
      ...w.uses.map(
        (u): Row => ({
          kind: 'wire',
          material: w.title,
          name: u.piece,
          for: u.edge,
          'per build': u.perBuild,
          builds,
          total: u.total,
          'diameter (mm)': w.diameter,
          'length each (mm)': u.length,
          'length total (mm)': u.lengthTotal,
          'mass each (g)': w.massPerMetre === undefined ? undefined : (u.length / 1000) * w.massPerMetre,
          'mass total (g)': w.massPerMetre === undefined ? undefined : (u.lengthTotal / 1000) * w.massPerMetre,
        }),
      ),
      ...(w.coil === undefined
        ? []
        : [
            {
              kind: 'wire to have',
              material: w.title,
              name: w.name,
              'length each (mm)': w.coil,
              'length total (mm)': w.lengthTotal,
              'packs to buy': w.buy.coils,
              ...money(w.cost.toBuy),
            } satisfies Row,
          ]),
    ]),
    ...list.rivets.flatMap((r) => [
      ...r.uses.map(
        (u): Row => ({
          kind: 'rivet',
          material: r.title,
          name: r.name,
          for: u.positions ? `${u.seam}, rivets ${u.positions}` : u.seam,
          notes: u.verdict === undefined || u.verdict === 'fits' ? u.verdict : `too ${u.verdict}`,
          'per build': u.perBuild,
          builds,
          total: u.total,
          'diameter (mm)': r.diameter,
          'length each (mm)': r.bought,
          'length needed (mm)': u.needed?.value,
          'mass each (g)': r.mass,
          'mass total (g)': multiply(r.mass, u.total),
        }),
      ),
      {
        kind: 'rivets to have',
        material: r.title,
        name: r.name,
        'per build': r.perBuild,
        builds,
        total: r.total,
        have: r.have,
        pack: r.pack,
        'packs to buy': r.buy.packs,
        ...money(r.cost.toBuy),
      } satisfies Row,
    ]),
    ...list.parts.map(
      (p): Row => ({
        kind: 'part',
        material: p.title,
        name: p.name,
        for: p.uses.join(', '),
        'per build': p.perBuild,
        builds,
        total: p.total,
        'mass each (g)': p.mass,
        'mass total (g)': multiply(p.mass, p.total),
        have: p.have,
        pack: p.pack,
        'packs to buy': p.buy.packs,
        ...money(p.cost.toBuy),
      }),
    ),
    ...list.unreckoned.map(
      (u): Row => ({
        kind: 'not in this list',
        material: u.material,
        name: u.what,
        notes: u.reason,
        'per build': u.perBuild,
        builds,
        total: multiply(u.perBuild, builds),
      }),
    ),
  ];
}

function multiply(one: number | undefined, times: number): number | undefined {
  return one === undefined ? undefined : one * times;
}
