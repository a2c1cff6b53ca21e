import type { LaidSheet } from '../../nest/lay.ts';
import type { CutList, Job, Part, Rivet, Unreckoned } from './cut-list.ts';

/**
 * What has to be bought before a job can begin: the stock, fasteners and parts of the cut list, less what lies in the rack and
 * in the drawer, in the sheets, coils, hides and packs that they are sold in. Every number is the cut list's own. A plain document like
 * that one: raw numbers (mm, mm², pieces, the shop's money), which become text in the writers.
 */
export interface OrderList extends Job {
  /** Builds to buy for: make and spare. */
  readonly builds: number;
  readonly lines: readonly OrderLine[];
  readonly unreckoned: readonly Unreckoned[];
  readonly total: OrderTotal;
}

/** In the order in which a smith goes round: each is another counter. */
export const ORDER_GROUPS = ['sheet', 'soft', 'wire', 'rivets', 'parts'] as const;
export type OrderGroup = (typeof ORDER_GROUPS)[number];

/** One thing that is asked for over the counter. */
export interface OrderLine {
  readonly group: OrderGroup;
  /** Its name in the spec. */
  readonly name: string;
  /** As read out: `mild steel 1.5 mm`. */
  readonly title: string;
  readonly sold: Sold;
  /** The whole job takes so much: sheets of this size, mm² of hide, mm of wire, pieces. */
  readonly needed: number;
  /** In the rack or the drawer, counted as it is sold or as `needed` is; absent when the spec does not say. */
  readonly have?: number;
  /** How many to ask for, of what `sold` says. Absent when that cannot be told, and `why` says why. */
  readonly buy?: number;
  /** What is left of all this when the job is done, counted as `needed`: the rest of the last pack, coil or hide. */
  readonly over?: number;
  /** Price of one, as it is sold. */
  readonly price?: number;
  /** Absent when a price is missing, or how many is not known. */
  readonly toPay?: number;
  /** Pieces and seams it is for. */
  readonly uses: readonly string[];
  /** Why it cannot be told how many. */
  readonly why?: string;
}

/** The way it comes: one sheet of a size, one hide of an area, a coil of a length, a metre, a pack of so many, one. */
export type Sold =
  | { readonly as: 'sheet'; readonly long: number; readonly wide: number }
  | { readonly as: 'hide'; readonly area?: number }
  | { readonly as: 'coil'; readonly length: number }
  | { readonly as: 'metre' }
  | { readonly as: 'pack'; readonly of: number }
  | { readonly as: 'piece' }
  /** Not sold at all: what is left of earlier sheets. */
  | { readonly as: 'offcut' }
  /** No size that it is sold in is written: whoever asks has to find out. */
  | { readonly as: 'unsaid' };

export interface OrderTotal {
  /** Absent where something that is to be bought has no price, or cannot be counted. */
  readonly toPay?: number;
  /** What can be added up. */
  readonly priced: number;
  /** Titles of what is not in `priced`. */
  readonly missing: readonly string[];
}

/** From the cut list, which knows all of it. */
export function orderListOf(list: CutList): OrderList {
  const { materials: _m, wires: _w, rivets: _r, parts: _p, totals: _t, ...job } = list;
  const lines = [
    ...sheets(list),
    ...softStock(list),
    ...wires(list),
    ...list.rivets.map(rivet),
    ...list.parts.map(part),
  ];
  const bought = lines.filter((line) => line.buy !== 0);
  const missing = bought.filter((line) => line.toPay === undefined).map((line) => line.title);
  const priced = bought.reduce((sum, { toPay = 0 }) => sum + toPay, 0);
  return { ...job, lines, total: { ...(missing.length ? {} : { toPay: priced }), priced, missing } };
}

/** How many, with what follows from it. */
function bought(buy: number, price: number | undefined, over: number | undefined): Partial<OrderLine> {
  const toPay = buy === 0 ? 0 : price === undefined ? undefined : buy * price;
  return {
    buy,
    ...(over === undefined ? {} : { over }),
    ...(price === undefined ? {} : { price }),
    ...(toPay === undefined ? {} : { toPay }),
  };
}

/** Offcuts and sheets, size by size, as the blanks were laid on them. What lies on no sheet is a line of its own. */
function sheets(list: CutList): OrderLine[] {
  return list.materials.flatMap((material): OrderLine[] => {
    const { layout, stock, name, title, rows } = material;
    if (!layout) return [];
    const about = { group: 'sheet', name, title } as const;
    const usedOn = (isOn: (sheet: LaidSheet) => boolean) => {
      const laid = new Set(layout.sheets.filter(isOn).flatMap((sheet) => sheet.placements.map(({ blank }) => blank)));
      return rows.filter(({ id }) => laid.has(id)).map(({ label }) => label);
    };
    const offcuts: OrderLine[] =
      layout.offcutsUsed === 0
        ? []
        : [
            {
              ...about,
              sold: { as: 'offcut' },
              needed: layout.offcutsUsed,
              have: stock.offcuts.length,
              ...bought(0, undefined, undefined),
              uses: usedOn((sheet) => sheet.from === 'offcut'),
            },
          ];
    const laid = layout.taken.flatMap(({ index, used, have, buy }): OrderLine[] => {
      const sheet = stock.sheets[index];
      if (!sheet || used === 0) return [];
      return [
        {
          ...about,
          sold: { as: 'sheet', long: sheet.long, wide: sheet.wide },
          needed: used,
          ...(have === undefined ? {} : { have }),
          ...bought(buy, sheet.price, undefined),
          uses: usedOn((laid) => laid.from === 'sheet' && laid.index === index),
        },
      ];
    });
    const missed = rows.filter((row) => row.unplaced);
    if (!missed.length) return [...offcuts, ...laid];
    const reasons = [...new Set(missed.map((row) => row.unplaced!.reason))];
    return [
      ...offcuts,
      ...laid,
      {
        ...about,
        sold: { as: 'unsaid' },
        needed: missed.reduce((sum, row) => sum + row.area * row.unplaced!.copies, 0),
        uses: missed.map((row) => row.label),
        why: reasons.join('; '),
      },
    ];
  });
}

function softStock(list: CutList): OrderLine[] {
  return list.materials.flatMap(({ hide, name, title, rows }): OrderLine[] => {
    if (!hide) return [];
    const about = { group: 'soft', name, title, needed: hide.needed, uses: rows.map((row) => row.label) } as const;
    const have = hide.have === undefined ? {} : { have: hide.have };
    if (hide.hide === undefined || hide.buy === undefined)
      return [{ ...about, sold: { as: 'hide' }, ...have, why: 'the area of a hide is not written' }];
    const over = (hide.buy + (hide.have ?? 0)) * hide.hide - hide.needed;
    return [{ ...about, sold: { as: 'hide', area: hide.hide }, ...have, ...bought(hide.buy, hide.price, over) }];
  });
}

function wires(list: CutList): OrderLine[] {
  return list.wires.map((wire): OrderLine => {
    const { name, title, lengthTotal: needed, have, coil, price, buy } = wire;
    const about = {
      group: 'wire',
      name,
      title,
      needed,
      ...(have === undefined ? {} : { have }),
      uses: [...new Set(wire.uses.map((use) => use.piece))],
    } as const;
    if (coil === undefined) {
      // By the metre: as much as is wanted, and nothing over.
      return { ...about, sold: { as: 'metre' }, ...bought(buy.short / 1000, price, undefined) };
    }
    const sold = { as: 'coil', length: coil } as const;
    if (buy.coils === undefined) return { ...about, sold, why: 'one length is longer than a coil' };
    return { ...about, sold, ...bought(buy.coils, price, (have ?? 0) + buy.coils * coil - needed) };
  });
}

function rivet({ name, title, total, have, pack, price, buy, uses }: Rivet): OrderLine {
  const seams = [...new Set(uses.map((use) => use.seam))];
  return counted({ group: 'rivets', name, title, uses: seams, needed: total }, { have, pack, price, packs: buy.packs });
}

function part({ name, title, total, have, pack, price, buy, uses }: Part): OrderLine {
  return counted({ group: 'parts', name, title, uses, needed: total }, { have, pack, price, packs: buy.packs });
}

function counted(
  about: Pick<OrderLine, 'group' | 'name' | 'title' | 'uses' | 'needed'>,
  {
    have,
    pack,
    price,
    packs,
  }: { have: number | undefined; pack: number | undefined; price: number | undefined; packs: number },
): OrderLine {
  const inPacks = pack !== undefined && pack > 0;
  return {
    ...about,
    sold: inPacks ? { as: 'pack', of: pack } : { as: 'piece' },
    ...(have === undefined ? {} : { have }),
    ...bought(packs, price, (have ?? 0) + packs * (inPacks ? pack : 1) - about.needed),
  };
}
