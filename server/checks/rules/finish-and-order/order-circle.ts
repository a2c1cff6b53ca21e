import { say } from '../../../../l10n/say.ts';
import { circlesIn } from '../../../model/operations/graph.ts';
import type { Arrow, Operation } from '../../../model/operations/operation.ts';
import { orderCircles } from '../../../model/operations/order-of-work.ts';
import { orders } from '../../../model/operations/orders.ts';
import { reasonOf } from '../../../model/operations/reasons.ts';
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
    const links = orders(model).flatMap((chain) =>
      chain.slice(1).map((step, i) => ({ from: chain[i]!.key, to: step.key, step })),
    );
    if (!links.length) return;
    const told = new Set<number>();
    for (const circle of circlesIn<string, (typeof links)[number]>(new Set(links.map(({ from }) => from)), links)
      .circles) {
      const { line, filled } = circle.at(-1)!.step;
      told.add(filled.from);
      report(placeOf(line, filled), {
        message: say`This order runs in a circle: ${[...circle, circle[0]!].map(({ from }) => from).join(' → ')}.`,
      });
    }
    for (const circle of orderCircles(model)) {
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
