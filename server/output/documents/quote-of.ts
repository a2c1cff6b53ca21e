import { patiently, type Steps } from '../../incremental/steps.ts';
import { notCounted } from '../../model/figures/not-counted.ts';
import { workOf } from '../../model/operations/order-of-work.ts';
import type { Model } from '../../model/spec.ts';
import { coinsFor, coinsOf, decimalsOf, inMoney, shareOf } from '../../trade/work/money.ts';
import type { CutList } from './cut-list.ts';
import { type CutListOptions, inputInSteps } from './cut-list-of.ts';
import { gatherInSteps } from './gather.ts';
import type { Offer, Quote, QuoteLine } from './quote.ts';
import { type Scheduled, scheduled } from './scheduled.ts';

/** What a job costs and what is asked for it, from the cut list’s materials and the hours of the order of work. */
export function* quoteInSteps(model: Model, options: CutListOptions): Steps<Quote> {
  const input = yield* inputInSteps(model, options);
  const work = yield* patiently(() => workOf(model));
  const currency = model.currency();
  const decimals = decimalsOf(currency);
  const builds = input.make + input.spare;
  const of = function* (number: number): Steps<Sum> {
    const list = yield* gatherInSteps({ ...input, make: number, spare: 0 });
    return summed(model, list, scheduled(work, number), decimals);
  };
  const sum = yield* of(builds);
  const offers: Offer[] = [];
  if (!sum.missing.length)
    for (const number of new Set([1, builds, 2 * builds])) {
      const all = number === builds ? sum : yield* of(number);
      offers.push({
        builds: number,
        each: inMoney(shareOf(all.coins, number), decimals),
        all: inMoney(all.coins, decimals),
      });
    }
  const days = model.shopLine('valid')?.count('days');
  const { materials: _m, wires: _w, rivets: _r, parts: _p, unreckoned: _u, mass: _mass, ...job } = input;
  return {
    ...job,
    builds,
    decimals,
    lines: sum.lines.map(({ coins, ...line }) => ({
      ...line,
      ...(coins === undefined ? {} : { money: inMoney(coins, decimals) }),
    })),
    ...(sum.missing.length ? {} : { total: inMoney(sum.coins, decimals) }),
    priced: inMoney(sum.coins, decimals),
    range: { low: inMoney(sum.low, decimals), high: inMoney(sum.high, decimals) },
    missing: sum.missing,
    offers,
    ...(days === undefined ? {} : { validUntil: dayAfter(options.date, days) }),
    terms: model.shopLinesOf('terms').flatMap((line) => line.text('terms') ?? []),
  };
}

/** Everything in coins. */
interface Sum {
  readonly lines: readonly (Omit<QuoteLine, 'money'> & { readonly coins?: number })[];
  readonly coins: number;
  readonly low: number;
  readonly high: number;
  readonly missing: readonly string[];
}

function summed(model: Model, list: CutList, work: Scheduled, decimals: number): Sum {
  const lines: Sum['lines'][number][] = [];
  const missing: string[] = [];
  for (const { title, cost } of [...list.materials, ...list.wires, ...list.rivets, ...list.parts]) {
    if (cost.used === undefined) missing.push(`${title}, which has no price`);
    lines.push({
      group: 'materials',
      what: title,
      ...(cost.used === undefined ? {} : { coins: coinsFor(cost.used, 1, decimals) }),
    });
  }
  // What is used up is what an overhead is for.
  const covered = new Set(
    model.shopLine('overhead') ? notCounted(model).flatMap(({ what, isUsedUp }) => (isUsedUp ? [what] : [])) : [],
  );
  for (const { what, reason } of list.unreckoned) if (!covered.has(what)) missing.push(`${what}: ${reason}`);
  const rate = model.shopLine('rate')?.measure('number', 'rate');
  if (rate === undefined) missing.push('the hours, since the shop says no rate');
  if (work.unknown.length) missing.push(`the hours of ${work.unknown.map((each) => each.toLowerCase()).join(', ')}`);
  const hours = (minutes: number) => (rate === undefined ? 0 : coinsFor(rate, minutes / 60, decimals));
  lines.push({
    group: 'work',
    what: 'Work',
    detail: `${(work.hands / 60).toFixed(1)} h${rate === undefined ? '' : ` at ${rate.toFixed(decimals)}`}`,
    ...(rate === undefined ? {} : { coins: hours(work.hands) }),
  });
  const materials = lines.reduce((sum, { group, coins = 0 }) => (group === 'materials' ? sum + coins : sum), 0);
  const added = ADDED.flatMap(([group, what]) => {
    const percent = model.shopLine(group)?.measure('percent', group);
    return percent ? [{ group, what, percent }] : [];
  });
  /** With what comes on top, each share of all that stands above it. */
  const through = (minutes: number): { coins: number; each: number[] } => {
    let coins = materials + hours(minutes);
    const each = added.map(({ percent }) => {
      const more = coinsOf(coins, percent);
      coins += more;
      return more;
    });
    return { coins, each };
  };
  const whole = through(work.hands);
  for (const [i, { group, what, percent }] of added.entries())
    lines.push({ group, what, detail: `${percent} %`, coins: whole.each[i]! });
  return {
    lines,
    coins: whole.coins,
    low: through(work.low).coins,
    high: through(work.high).coins,
    missing,
  };
}

const ADDED = [
  ['overhead', 'Overhead'],
  ['margin', 'Margin'],
  ['tax', 'Tax'],
] as const;

/** `2027-03-01` and so many days more. */
function dayAfter(date: string, days: number): string {
  const at = Date.parse(`${date}T00:00:00Z`) + days * 86_400_000;
  // A day that no calendar has is past any quote.
  return Number.isFinite(at) && at < 8.64e15 ? new Date(at).toISOString().slice(0, 10) : date;
}
