import { atOnce, manyByMany, type Steps } from '../../incremental/steps.ts';
import { HIDE_WASTE, hideNeed } from '../../nest/hide.ts';
import { layInSteps } from '../../nest/lay.ts';
import type {
  BlankRow,
  Cost,
  CutList,
  CutListInput,
  Material,
  MaterialInput,
  Part,
  Purchase,
  Rivet,
  Wire,
  WireInput,
  WirePurchase,
} from './cut-list.ts';

/**
 * Lays the blanks, multiplies by the builds, and adds up: from what the build knows to the whole paper.
 *
 * @tests in one go: who may not wait asks for the steps
 */
export const gatherCutList = (input: CutListInput): CutList => atOnce(gatherInSteps(input));

/** The same, material by material. */
export function* gatherInSteps(input: CutListInput): Steps<CutList> {
  const builds = Math.max(0, Math.floor(input.make)) + Math.max(0, Math.floor(input.spare));
  const { mass, materials: _materials, wires: _wires, rivets: _rivets, parts: _parts, unreckoned = [], ...job } = input;
  const marks = marker();
  const materials: Material[] = [];
  for (const [done, material] of input.materials.entries()) {
    materials.push(yield* materialOf(material, builds, marks));
    yield done / input.materials.length;
  }
  const wires = input.wires.map((wire): Wire => {
    const uses = wire.uses.map((u) => {
      const total = u.perBuild * builds;
      return { ...u, total, lengthTotal: u.length * total };
    });
    const lengthTotal = sum(uses, (u) => u.lengthTotal);
    const buy = wirePurchase(lengthTotal, wire);
    return {
      ...wire,
      uses,
      lengthTotal,
      ...(wire.massPerMetre === undefined ? {} : { massTotal: (lengthTotal / 1000) * wire.massPerMetre }),
      buy,
      cost: costOf(wire.price, lengthTotal / (wire.coil ?? 1000), buy.coils ?? buy.short / (wire.coil ?? 1000)),
    };
  });
  const rivets = input.rivets.map((rivet): Rivet => {
    const uses = rivet.uses.map((u) => ({ ...u, total: u.perBuild * builds }));
    const total = sum(uses, (u) => u.total);
    const buy = purchase(total, rivet.have, rivet.pack);
    return {
      ...rivet,
      uses,
      perBuild: sum(uses, (u) => u.perBuild),
      total,
      buy,
      cost: costOf(rivet.price, total / (rivet.pack ?? 1), buy.packs),
    };
  });
  const parts = input.parts.map((part): Part => {
    const total = part.perBuild * builds;
    const buy = purchase(total, part.have, part.pack);
    return { ...part, total, buy, cost: costOf(part.price, total / (part.pack ?? 1), buy.packs) };
  });

  const bought = [...materials, ...wires, ...rivets, ...parts];
  const layouts = materials.flatMap((m) => (m.layout ? [m.layout] : []));
  const stockArea = sum(layouts, (l) => l.stockArea);
  const wasteArea = sum(layouts, (l) => l.wasteArea);
  return {
    ...job,
    builds,
    materials,
    wires,
    rivets,
    parts,
    unreckoned,
    totals: {
      ...(mass === undefined ? {} : { formedMass: mass.formed }),
      ...(mass?.worn === undefined ? {} : { wornMass: mass.worn }),
      ...(mass?.note === undefined ? {} : { massNote: mass.note }),
      blankMassOfOne: sum(materials, (m) => sum(m.rows, (r) => r.mass * r.perBuild)),
      blankMass: sum(materials, (m) => m.blankMass),
      blanks: sum(materials, (m) => sum(m.rows, (r) => r.total)),
      sheets: sum(layouts, (l) => l.sheets.length - l.offcutsUsed),
      offcuts: sum(layouts, (l) => l.offcutsUsed),
      sheetsToBuy: sum(layouts, (l) => l.buy),
      stockArea,
      wasteArea,
      leftoverArea: sum(layouts, (l) => l.leftoverArea),
      ...(stockArea > 0 ? { wasteRatio: wasteArea / stockArea } : {}),
      cost: addCosts(bought.map((b) => b.cost)),
      priced: {
        used: sum(bought, (b) => b.cost.used ?? 0),
        toBuy: sum(bought, (b) => b.cost.toBuy ?? 0),
      },
      priceMissing: bought.filter((b) => b.cost.used === undefined).map((b) => b.title),
      errors: input.problems.filter((p) => p.severity === 'error').length,
      warnings: input.problems.filter((p) => p.severity === 'warning').length,
    },
  };
}

function sum<T>(list: readonly T[], of: (one: T) => number): number {
  return list.reduce((total, one) => total + of(one), 0);
}

/** A, B, … Z, AA, AB, …: through the whole paper, so that one letter means one blank. I and O are left out: on a drawing they read as figures. */
function marker(): () => string {
  const letters = 'ABCDEFGHJKLMNPQRSTUVWXYZ';
  let count = 0;
  return () => {
    let text = '';
    for (let n = ++count; n > 0; n = Math.floor((n - 1) / letters.length)) {
      text = letters.charAt((n - 1) % letters.length) + text;
    }
    return text;
  };
}

function* materialOf(input: MaterialInput, builds: number, mark: () => string): Steps<Material> {
  const { blanks, hide, ...material } = input;
  const counted = blanks.map((b) => ({ ...b, total: b.perBuild * builds, copies: b.perBuild * builds }));
  const layout = input.kind === 'sheet' ? yield* layInSteps({ blanks: counted, stock: input.stock }) : undefined;
  const lies = new Map<string, Set<number>>();
  for (const { number, placements } of layout?.sheets ?? []) {
    yield undefined;
    for (const { blank } of placements) lies.set(blank, (lies.get(blank) ?? new Set()).add(number));
  }
  const unplaced = new Map<string, NonNullable<typeof layout>['unplaced'][number][]>();
  for (const each of layout?.unplaced ?? []) unplaced.set(each.blank, [...(unplaced.get(each.blank) ?? []), each]);
  const rows = yield* manyByMany(counted, ({ copies: _, ...b }): BlankRow => {
    const missed = unplaced.get(b.id) ?? [];
    return {
      ...b,
      mark: mark(),
      massTotal: b.mass * b.total,
      sheets: [...(lies.get(b.id) ?? [])],
      ...(missed[0] ? { unplaced: { copies: sum(missed, (m) => m.copies), reason: missed[0].reason } } : {}),
    };
  });
  const blankMass = sum(rows, (r) => r.massTotal);
  if (layout) {
    const prices = layout.taken.map((t) => ({ ...t, price: input.stock.sheets[t.index]?.price }));
    const stuck = layout.unplaced.length > 0;
    const whole = (count: (t: (typeof prices)[number]) => number) =>
      stuck || prices.some((t) => count(t) > 0 && t.price === undefined)
        ? undefined
        : sum(prices, (t) => count(t) * (t.price ?? 0));
    return {
      ...material,
      rows,
      layout,
      blankMass,
      cost: cost(
        whole((t) => t.used),
        whole((t) => t.buy),
      ),
    };
  }
  const need = hideNeed(
    sum(rows, (r) => r.area * r.total),
    hide?.area,
    hide?.have,
  );
  const share = need.hide === undefined ? undefined : need.needed / need.hide;
  return {
    ...material,
    rows,
    blankMass,
    hide: {
      ...need,
      ...(hide?.price === undefined ? {} : { price: hide.price }),
      basis: HIDE_WASTE.basis,
      source: HIDE_WASTE.source,
      share: HIDE_WASTE.share,
    },
    cost: share === undefined ? {} : costOf(hide?.price, share, need.buy ?? 0),
  };
}

function purchase(total: number, have: number | undefined, pack: number | undefined): Purchase {
  const short = Math.max(0, total - (have ?? 0));
  return { short, packs: pack && pack > 0 ? Math.ceil(short / pack) : short };
}

/** By length alone: what is cut off at the end of a coil is short of most edges. */
function wirePurchase(lengthTotal: number, { have, coil, uses }: WireInput): WirePurchase {
  const short = Math.max(0, lengthTotal - (have ?? 0));
  const goesIn = coil !== undefined && coil > 0 && uses.every(({ length }) => length <= coil);
  return { short, ...(goesIn ? { coils: Math.ceil(short / coil - 1e-9) } : {}) };
}

function cost(used: number | undefined, toBuy: number | undefined): Cost {
  return { ...(used === undefined ? {} : { used }), ...(toBuy === undefined ? {} : { toBuy }) };
}

function costOf(price: number | undefined, used: number, buy: number): Cost {
  if (price === undefined) return cost(used === 0 ? 0 : undefined, buy === 0 ? 0 : undefined);
  return cost(price * used, price * buy);
}

function addCosts(costs: readonly Cost[]): Cost {
  const all = (of: (c: Cost) => number | undefined) =>
    costs.some((c) => of(c) === undefined) ? undefined : sum(costs, (c) => of(c) ?? 0);
  return cost(
    all((c) => c.used),
    all((c) => c.toBuy),
  );
}
