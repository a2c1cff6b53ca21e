import { say } from '../../../../l10n/say.ts';
import type { Arrow, Operation } from '../../../model/work/operation.ts';
import { orders, type Step } from '../../../model/work/orders.ts';
import { reasonOf } from '../../../model/work/reasons.ts';
import { workOf } from '../../../model/work/work.ts';
import type { Check } from '../../check.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'order-circle',
  title: 'An order of work that runs in a circle',
  family: 'Finish and order',
  severity: 'error',
  what: 'By the orders of the spec, and by what must come first whatever they say, a step comes before itself, over one or more others.',
  why: 'No day of work can keep it.',
  todo: 'Take out the step that is the wrong way round.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 180 mm, deep 40 mm
  dish
  planish
order bench-order
  first bowl dish, then bowl planish
  first bowl planish, then bowl dish
`,
  better: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 180 mm, deep 40 mm
  dish
  planish
order bench-order
  first bowl dish, then bowl planish
`,
  run(model, report) {
    const after = new Map<string, { to: Step; from: Step }[]>();
    for (const chain of orders(model)) {
      for (let i = 1; i < chain.length; i++) {
        const from = chain[i - 1]!;
        const to = chain[i]!;
        const have = after.get(from.key);
        if (have) have.push({ from, to });
        else after.set(from.key, [{ from, to }]);
      }
    }
    const told = new Set<number>();
    const state = new Map<string, 'open' | 'done'>();
    for (const start of after.keys()) {
      if (state.has(start)) continue;
      const way: { key: string; next: number }[] = [{ key: start, next: 0 }];
      state.set(start, 'open');
      while (way.length) {
        const top = way[way.length - 1]!;
        const link = after.get(top.key)?.[top.next++];
        if (!link) {
          state.set(top.key, 'done');
          way.pop();
          continue;
        }
        const { key } = link.to;
        const seen = state.get(key);
        if (seen === 'open') {
          const circle = way.slice(way.findIndex((each) => each.key === key)).map((each) => each.key);
          told.add(link.to.filled.from);
          report(placeOf(link.to.line, link.to.filled), {
            message: say`This order runs in a circle: ${[...circle, key].join(' → ')}.`,
          });
        } else if (!seen) {
          state.set(key, 'open');
          way.push({ key, next: 0 });
        }
      }
    }
    if (!after.size) return;
    for (const circle of workOf(model).circles) {
      const own = circle.findLast(({ place }) => place);
      const against = circle.find(({ reason }) => reason !== 'your-order');
      if (!own?.place || !against || told.has(own.place.from)) continue;
      report(own.place, {
        message: say`This order runs in a circle with what must come first: ${[own.to, ...around(circle, own)].map(({ key }) => key).join(' → ')}. ${reasonOf(against.reason).why}`,
        related: circle.flatMap(({ place, to }) =>
          place && place !== own.place ? [{ uri: model.file.uri, place, message: say`Then ${to.key}` }] : [],
        ),
      });
    }
  },
};

/** What comes one after the other from where an arrow of the circle leads, until it is there again. */
function around(circle: readonly Arrow[], from: Arrow): Operation[] {
  const at = circle.indexOf(from);
  return [...circle.slice(at + 1), ...circle.slice(0, at + 1)].map(({ to }) => to);
}
