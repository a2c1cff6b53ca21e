import { MaxRectsBin, PACKING_LOGIC, Rectangle } from 'maxrects-packer/dist/maxrects-packer.mjs';
import { atOnce, type Steps } from '../incremental/steps.ts';
import type { Shape } from './shape.ts';

/**
 * Laying blanks on stock by their bounding rectangles.
 *
 * The rectangle packer is asked many times, in several orders and by several rules, and the best answer is kept:
 * fewest blanks left over, least to buy, fewest sheets, and then the shortest stretch of the last sheet, so that what
 * remains of it is one big rectangle. Nothing is random: the same blanks and stock always give the same layout.
 *
 * All arithmetic is in whole micrometres (a blank is rounded up, stock down), so a blank that fits exactly does fit
 * and no rounding eats into kerf or margin.
 */

export interface Blank {
  readonly id: string;
  readonly piece: string;
  readonly label: string;
  /** The bounding rectangle in the blank's own frame (see `shape.ts`), mm. */
  readonly long: number;
  readonly wide: number;
  readonly copies: number;
  /** Which way the sheet's grain must run in the blank: `up` along its `wide` measure, `across` along its `long` one. */
  readonly grain?: 'up' | 'across';
  /** Every second copy is the mirror image of the first. */
  readonly mirrored?: boolean;
  readonly shape: Shape;
  /** Area of the blank itself, mm². */
  readonly area: number;
}

export interface SheetStock {
  readonly long: number;
  readonly wide: number;
  /** How many lie in the rack. Unsaid means none are counted on. */
  readonly have?: number;
  readonly price?: number;
}

export interface Stock {
  readonly sheets: readonly SheetStock[];
  /** Used before any sheet is cut into. */
  readonly offcuts: readonly { readonly long: number; readonly wide: number }[];
  /** Kept clear at every edge of sheets and offcuts, mm. */
  readonly margin: number;
  /** Kept clear between any two blanks, mm. */
  readonly kerf: number;
  /** The stock has a grain, along the longer side of a sheet and along the first measure of an offcut. */
  readonly grain?: boolean;
}

export interface Placement {
  readonly blank: string;
  /** 1 for the first copy of the blank. */
  readonly copy: number;
  /** The corner of the bounding rectangle nearest the sheet's own corner, mm. */
  readonly x: number;
  readonly y: number;
  /** Turned a quarter, so that `wide` runs along the sheet. */
  readonly turned: boolean;
  /** Laid face down. */
  readonly flipped: boolean;
  /** The bounding rectangle as it lies, mm. */
  readonly long: number;
  readonly wide: number;
}

export interface LaidSheet {
  /** 1 for the first sheet of the layout. */
  readonly number: number;
  readonly from: 'offcut' | 'sheet';
  /** Which line of `stock.offcuts` or `stock.sheets`, from 0. */
  readonly index: number;
  /** x runs along `long`, which for a sheet is its longer side. */
  readonly long: number;
  readonly wide: number;
  /** Not in the rack: has to be bought. */
  readonly bought: boolean;
  readonly placements: readonly Placement[];
  /** True area of the blanks on it, mm². */
  readonly used: number;
  /** The rectangle at its far end that no blank touches, when it is worth keeping. */
  readonly leftover?: { readonly x: number; readonly y: number; readonly long: number; readonly wide: number };
}

export interface Unplaced {
  readonly blank: string;
  readonly copies: number;
  readonly reason: string;
  readonly code: 'no-stock' | 'over-sheet' | 'against-grain' | 'no-stock-left';
}

export interface Layout {
  readonly sheets: readonly LaidSheet[];
  readonly unplaced: readonly Unplaced[];
  /** For every line of `stock.sheets`: used, and how many of those must be bought. */
  readonly taken: readonly {
    readonly index: number;
    readonly used: number;
    readonly have?: number;
    readonly buy: number;
  }[];
  readonly offcutsUsed: number;
  readonly buy: number;
  /** Area of all the stock cut into, mm². */
  readonly stockArea: number;
  /** True area of the blanks laid, mm². */
  readonly usedArea: number;
  /** Everything else, what is worth keeping included. */
  readonly wasteArea: number;
  readonly leftoverArea: number;
  /** Waste over stock, 0 to 1; 0 when nothing was laid. */
  readonly wasteRatio: number;
}

/** A leftover shorter than this is scrap, mm. */
const WORTH_KEEPING = 100;

/** More copies than this of all blanks together are not laid: nobody cuts them from one list. */
const MOST_COPIES = 5000;

const down = (mm: number) => Math.floor(mm * 1000 + 1e-6);
const up = (mm: number) => Math.ceil(mm * 1000 - 1e-6);
const mm = (micrometres: number) => micrometres / 1000;

interface Item {
  readonly blank: Blank;
  readonly copy: number;
  /** As laid without turning, or already turned because the grain asks for it; micrometres. */
  readonly long: number;
  readonly wide: number;
  readonly turned: boolean;
  readonly mayTurn: boolean;
}

interface Slot {
  readonly from: 'offcut' | 'sheet';
  readonly index: number;
  readonly long: number;
  readonly wide: number;
}

interface Spot {
  readonly item: Item;
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
}

interface Open {
  readonly slot: Slot;
  readonly bin: Bin;
  readonly spots: Spot[];
  readonly bought: boolean;
}

type Logic = 'edge' | 'area' | 'rows';
type Order = (a: Item, b: Item) => number;

const LOGIC: Record<Logic, PACKING_LOGIC> = {
  edge: PACKING_LOGIC.MAX_EDGE,
  area: PACKING_LOGIC.MAX_AREA,
  rows: PACKING_LOGIC.FILL_WIDTH,
};

const area = (i: Item) => i.long * i.wide;
const longest = (i: Item) => Math.max(i.long, i.wide);
const shortest = (i: Item) => Math.min(i.long, i.wide);
const ORDERS: readonly Order[] = [
  (a, b) => longest(b) - longest(a) || shortest(b) - shortest(a),
  (a, b) => area(b) - area(a) || longest(b) - longest(a),
  (a, b) => shortest(b) - shortest(a) || longest(b) - longest(a),
  (a, b) => b.wide - a.wide || b.long - a.long,
];

/** One sheet, less its margin, in the packer's terms. `across` swaps the axes, since the packer's rules favour one. */
class Bin {
  private readonly packer: MaxRectsBin<Rectangle>;
  constructor(
    long: number,
    wide: number,
    kerf: number,
    logic: Logic,
    private readonly across: boolean,
  ) {
    const [w, h] = across ? [wide, long] : [long, wide];
    this.packer = new MaxRectsBin<Rectangle>(w, h, kerf, {
      smart: false,
      pot: false,
      square: false,
      allowRotation: true,
      border: 0,
      logic: LOGIC[logic],
    });
  }

  add(item: Item): Spot | undefined {
    const [w, h] = this.across ? [item.wide, item.long] : [item.long, item.wide];
    const placed = this.packer.add(new Rectangle(w, h, 0, 0, false, item.mayTurn));
    if (!placed) return undefined;
    const turned = placed.rot ? !item.turned : item.turned;
    return this.across ? { item, x: placed.y, y: placed.x, turned } : { item, x: placed.x, y: placed.y, turned };
  }
}

const laidLong = (s: Spot) => (s.turned === s.item.turned ? s.item.long : s.item.wide);
const reach = (spots: readonly Spot[]) => spots.reduce((most, s) => Math.max(most, s.x + laidLong(s)), 0);

function fits(item: Item, slot: Slot): boolean {
  return (
    (item.long <= slot.long && item.wide <= slot.wide) ||
    (item.mayTurn && item.wide <= slot.long && item.long <= slot.wide)
  );
}

interface Attempt {
  readonly opened: Open[];
  readonly left: Item[];
}

/** Each is tried on every sheet that is open, and among all the room that is left of it. */
const LAID_AT_ONCE = 8;

/** First fit over what is open: offcuts, then sheets in the rack, then sheets to buy. */
function* attempt(
  items: readonly Item[],
  offcuts: readonly Slot[],
  sheets: readonly Slot[],
  stock: Stock,
  kerf: number,
  logic: Logic,
  across: boolean,
): Steps<Attempt> {
  const open = (slot: Slot, bought: boolean): Open => ({
    slot,
    bin: new Bin(slot.long, slot.wide, kerf, logic, across),
    spots: [],
    bought,
  });
  const opened: Open[] = offcuts.map((slot) => open(slot, false));
  const racked = stock.sheets.map((sheet) => Math.max(0, Math.floor(sheet.have ?? 0)));
  const left: Item[] = [];
  for (const [i, item] of items.entries()) {
    if (i % LAID_AT_ONCE === LAID_AT_ONCE - 1) yield undefined;
    let spot: Spot | undefined;
    for (const place of opened) {
      if (!fits(item, place.slot)) continue;
      spot = place.bin.add(item);
      if (spot) {
        place.spots.push(spot);
        break;
      }
    }
    if (spot) continue;
    const slot = sheets.find((s) => racked[s.index]! > 0 && fits(item, s)) ?? sheets.find((s) => fits(item, s));
    if (!slot) {
      left.push(item);
      continue;
    }
    const bought = racked[slot.index]! <= 0;
    if (!bought) racked[slot.index]! -= 1;
    const fresh = open(slot, bought);
    const first = fresh.bin.add(item);
    if (first) fresh.spots.push(first);
    else left.push(item);
    opened.push(fresh);
  }
  return { opened: opened.filter((o) => o.spots.length > 0), left };
}

/** Lower is better, compared number by number. */
function score(tried: Attempt, stock: Stock): number[] {
  const whole = (o: Open) => o.slot.long * o.slot.wide;
  const cut = tried.opened.filter((o) => o.slot.from === 'sheet');
  const buying = cut.filter((o) => o.bought);
  const priced = buying.every((o) => stock.sheets[o.slot.index]?.price !== undefined);
  const last = cut.at(-1) ?? tried.opened.at(-1);
  return [
    tried.left.length,
    priced
      ? buying.reduce((sum, o) => sum + stock.sheets[o.slot.index]!.price!, 0)
      : buying.reduce((sum, o) => sum + whole(o), 0),
    cut.reduce((sum, o) => sum + whole(o), 0),
    tried.opened.length,
    last ? reach(last.spots) * last.slot.wide : 0,
    tried.opened.reduce((sum, o) => sum + reach(o.spots), 0),
  ];
}

function better(a: readonly number[], b: readonly number[]): boolean {
  for (let i = 0; i < a.length; i++) {
    const difference = a[i]! - b[i]!;
    if (Math.abs(difference) > 1e-9) return difference < 0;
  }
  return false;
}

/** Packs one sheet's blanks into an ever shorter stretch of it. */
function* tighten(spots: readonly Spot[], slot: Slot, kerf: number, rounds: number): Steps<Spot[]> {
  let best = [...spots];
  const items = spots.map((s) => s.item);
  const total = items.reduce((sum, i) => sum + area(i), 0);
  let low = Math.floor(total / Math.max(1, slot.wide));
  let high = reach(best);
  for (let round = 0; round < rounds && high - low > 1000; round++) {
    const length = Math.floor((low + high) / 2);
    const found = yield* packInto(items, length, slot.wide, kerf);
    if (found) {
      best = found;
      high = reach(found);
    } else low = length;
  }
  return best;
}

function* packInto(items: readonly Item[], long: number, wide: number, kerf: number): Steps<Spot[] | undefined> {
  for (const across of [true, false]) {
    for (const order of ORDERS) {
      const sorted = [...items].sort(order);
      for (const logic of ['edge', 'area'] as const) {
        const bin = new Bin(long, wide, kerf, logic, across);
        const spots: Spot[] = [];
        for (const [i, item] of sorted.entries()) {
          if (i % LAID_AT_ONCE === 0) yield undefined;
          const spot = bin.add(item);
          if (!spot) break;
          spots.push(spot);
        }
        if (spots.length === items.length) return spots;
      }
    }
  }
  return undefined;
}

const length = (value: number) => `${Math.round(value * 10) / 10} mm`;

/** Why a blank lies nowhere, in words for the smith. */
function whyNot(
  blank: Blank,
  stock: Stock,
  sheets: readonly Slot[],
  offcuts: readonly Slot[],
): Omit<Unplaced, 'blank' | 'copies'> {
  const slots = [...sheets, ...offcuts];
  if (slots.length === 0) return { code: 'no-stock', reason: 'no sheet or offcut is given for this material' };
  const turnedFits = slots.some(
    (s) =>
      (up(blank.long) <= s.long && up(blank.wide) <= s.wide) || (up(blank.wide) <= s.long && up(blank.long) <= s.wide),
  );
  if (turnedFits && !sheets.some((s) => fits(itemOf(blank, 1, stock), s)) && blank.grain && stock.grain) {
    return { code: 'against-grain', reason: `fits only against the grain it asks for (grain ${blank.grain})` };
  }
  if (turnedFits) return { code: 'no-stock-left', reason: 'the offcuts it would fit are full and no sheet is given' };
  const largest = slots.reduce((a, b) => (b.long * b.wide > a.long * a.wide ? b : a));
  const margin = stock.margin > 0 ? ` less a margin of ${length(stock.margin)}` : '';
  const whole = (s: Slot) => `${length(mm(s.long) + 2 * stock.margin)} × ${length(mm(s.wide) + 2 * stock.margin)}`;
  return {
    code: 'over-sheet',
    reason: `${length(blank.long)} × ${length(blank.wide)} is bigger than the largest ${largest.from} (${whole(largest)}${margin})`,
  };
}

function itemOf(blank: Blank, copy: number, stock: Stock): Item {
  const bound = Boolean(stock.grain && blank.grain);
  // The grain runs along the sheet's long side: `across` lies as it is, `up` lies turned.
  const turned = bound && blank.grain === 'up';
  const [long, wide] = turned ? [blank.wide, blank.long] : [blank.long, blank.wide];
  return { blank, copy, long: up(long), wide: up(wide), turned, mayTurn: !bound };
}

const sensible = (value: number) => Number.isFinite(value) && value > 0;

/**
 * Lays every copy of every blank, or says why it cannot.
 *
 * @tests in one go: who may not wait asks for the steps
 */
export const layBlanks = (given: { readonly blanks: readonly Blank[]; readonly stock: Stock }): Layout =>
  atOnce(layInSteps(given));

/** The same, one try after the other. */
export function* layInSteps({
  blanks,
  stock,
}: {
  readonly blanks: readonly Blank[];
  readonly stock: Stock;
}): Steps<Layout> {
  const margin = Math.max(0, up(Number.isFinite(stock.margin) ? stock.margin : 0));
  const kerf = Math.max(0, up(Number.isFinite(stock.kerf) ? stock.kerf : 0));
  const slot = (from: Slot['from'], long: number, wide: number, index: number): Slot => {
    const [l, w] = from === 'sheet' ? [Math.max(long, wide), Math.min(long, wide)] : [long, wide];
    return { from, index, long: down(l) - 2 * margin, wide: down(w) - 2 * margin };
  };
  const usable = (s: Slot) => sensible(s.long) && sensible(s.wide);
  const sheets = stock.sheets.map((s, i) => slot('sheet', s.long, s.wide, i)).filter(usable);
  // The smallest offcut first, so that a big one is kept for what needs it.
  const offcuts = stock.offcuts
    .map((s, i) => slot('offcut', s.long, s.wide, i))
    .filter(usable)
    .sort((a, b) => a.long * a.wide - b.long * b.wide || a.index - b.index);

  const unplaced: Unplaced[] = [];
  const items: Item[] = [];
  for (const blank of blanks) {
    const copies = Math.max(0, Math.floor(blank.copies));
    if (copies === 0) continue;
    const one = itemOf(blank, 1, stock);
    if (!sensible(one.long) || !sensible(one.wide)) {
      unplaced.push({ blank: blank.id, copies, code: 'no-stock', reason: 'its size is not known' });
    } else if (items.length + copies > MOST_COPIES) {
      unplaced.push({
        blank: blank.id,
        copies,
        code: 'no-stock-left',
        reason: `more than ${MOST_COPIES} blanks in one list are not laid`,
      });
    } else if (![...sheets, ...offcuts].some((s) => fits(one, s))) {
      unplaced.push({ blank: blank.id, copies, ...whyNot(blank, stock, sheets, offcuts) });
    } else {
      for (let copy = 1; copy <= copies; copy++) items.push(copy === 1 ? one : { ...one, copy });
    }
  }

  const best = yield* search(items, offcuts, sheets, stock, kerf);
  for (const [id, lost] of groupLeft(best.left)) {
    unplaced.push({ blank: id, copies: lost.length, ...whyNot(lost[0]!.blank, stock, sheets, offcuts) });
  }
  return yield* finish(best.opened, unplaced, stock, margin, kerf);
}

function groupLeft(left: readonly Item[]): Map<string, Item[]> {
  const lost = new Map<string, Item[]>();
  for (const item of left) {
    const list = lost.get(item.blank.id);
    if (list) list.push(item);
    else lost.set(item.blank.id, [item]);
  }
  return lost;
}

function* search(
  items: readonly Item[],
  offcuts: readonly Slot[],
  sheets: readonly Slot[],
  stock: Stock,
  kerf: number,
): Steps<Attempt> {
  // A long list is tried in fewer ways: the packer's work grows faster than the list.
  const thorough = items.length <= 120;
  const logics: readonly Logic[] =
    items.length > 400 ? ['edge'] : thorough ? ['edge', 'area', 'rows'] : ['edge', 'area'];
  const orders = items.length > 250 ? ORDERS.slice(0, 2) : ORDERS;
  const preferred =
    sheets.length <= 1 ? [sheets] : sheets.slice(0, 4).map((s) => [s, ...sheets.filter((other) => other !== s)]);
  let best: Attempt | undefined;
  let bestScore: number[] = [];
  for (const order of orders) {
    const sorted = [...items].sort(order);
    for (const logic of logics) {
      for (const across of thorough ? [true, false] : [true]) {
        for (const list of preferred) {
          const tried = yield* attempt(sorted, offcuts, list, stock, kerf, logic, across);
          const value = score(tried, stock);
          if (best === undefined || better(value, bestScore)) {
            best = tried;
            bestScore = value;
          }
          yield undefined;
        }
      }
    }
  }
  return best ?? { opened: [], left: [...items] };
}

function* finish(
  opened: readonly Open[],
  unplaced: Unplaced[],
  stock: Stock,
  margin: number,
  kerf: number,
): Steps<Layout> {
  const ordered = [...opened.filter((o) => o.slot.from === 'offcut'), ...opened.filter((o) => o.slot.from === 'sheet')];
  const laid: LaidSheet[] = [];
  for (const [i, o] of ordered.entries()) {
    const rounds = o.spots.length <= 60 ? 8 : o.spots.length <= 150 ? 3 : 0;
    const spots = yield* tighten(o.spots, o.slot, kerf, rounds);
    const long = o.slot.long + 2 * margin;
    const wide = o.slot.wide + 2 * margin;
    const end = margin + reach(spots) + kerf;
    const kept = long - end;
    laid.push({
      number: i + 1,
      from: o.slot.from,
      index: o.slot.index,
      long: mm(long),
      wide: mm(wide),
      bought: o.bought,
      placements: spots
        .map(
          (s): Placement => ({
            blank: s.item.blank.id,
            copy: s.item.copy,
            x: mm(s.x + margin),
            y: mm(s.y + margin),
            turned: s.turned,
            flipped: Boolean(s.item.blank.mirrored) && s.item.copy % 2 === 0,
            long: s.turned ? s.item.blank.wide : s.item.blank.long,
            wide: s.turned ? s.item.blank.long : s.item.blank.wide,
          }),
        )
        .sort((a, b) => a.x - b.x || a.y - b.y),
      used: spots.reduce((sum, s) => sum + s.item.blank.area, 0),
      ...(kept >= up(WORTH_KEEPING) ? { leftover: { x: mm(end), y: 0, long: mm(kept), wide: mm(wide) } } : {}),
    });
    yield undefined;
  }
  const taken = stock.sheets.map((sheet, index) => {
    const used = laid.filter((s) => s.from === 'sheet' && s.index === index);
    return {
      index,
      used: used.length,
      buy: used.filter((s) => s.bought).length,
      ...(sheet.have === undefined ? {} : { have: sheet.have }),
    };
  });
  const stockArea = laid.reduce((sum, s) => sum + s.long * s.wide, 0);
  const usedArea = laid.reduce((sum, s) => sum + s.used, 0);
  const wasteArea = Math.max(0, stockArea - usedArea);
  return {
    sheets: laid,
    unplaced,
    taken,
    offcutsUsed: laid.filter((s) => s.from === 'offcut').length,
    buy: taken.reduce((sum, t) => sum + t.buy, 0),
    stockArea,
    usedArea,
    wasteArea,
    leftoverArea: laid.reduce((sum, s) => sum + (s.leftover ? s.leftover.long * s.leftover.wide : 0), 0),
    wasteRatio: stockArea > 0 ? wasteArea / stockArea : 0,
  };
}
