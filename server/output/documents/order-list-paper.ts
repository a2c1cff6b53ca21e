import { count, isInches, type System, show, showSize, trim } from '../../model/values/show.ts';
import { cautionNotice, jobFacts, jobPaper, money, notCounted, notReady, statement } from './job.ts';
import type { OrderGroup, OrderLine, OrderList, Sold } from './order-list.ts';
import type { Block, Cell, Column, Paper, Table } from './paper.ts';

const ORDER_STATEMENT =
  'This list says what the spec takes at the prices that stand in it. It is no offer, and no statement that any piece protects anyone: that is for the group’s rulebook, the production’s safety lead and their inspectors to decide.';

export const orderListPaper = (order: OrderList): Paper =>
  jobPaper(order, 'Order list', 'At the prices of the spec. Not a statement that any piece protects.', [
    ...head(order),
    ...toBuy(order),
    ...atHome(order),
    ...tail(order),
  ]);

function head(order: OrderList): Block[] {
  const { total } = order;
  const pay =
    total.toPay !== undefined
      ? money(total.toPay, order)
      : `${money(total.priced, order)} as far as priced; no full price for ${total.missing.join('; ')}`;
  return [
    { kind: 'facts', facts: [...jobFacts(order, 'to buy for'), { name: 'To pay', value: pay }] },
    ...notReady(order, 'Not ready to buy for'),
    ...notCounted(order),
  ];
}

const GROUPS: Readonly<Record<OrderGroup, string>> = {
  sheet: 'Sheet',
  soft: 'Leather and padding',
  wire: 'Wire',
  rivets: 'Rivets',
  parts: 'Parts and washers',
};

function toBuy(order: OrderList): Block[] {
  const groups = Object.entries(GROUPS).flatMap(([group, title]) => {
    const lines = order.lines.filter((line) => line.group === group && line.buy !== 0);
    return lines.length ? [{ title, lines }] : [];
  });
  if (!groups.length)
    return [{ kind: 'text', text: 'Nothing has to be bought: all of it is in the rack and the drawer.' }];
  return [
    { kind: 'heading', level: 2, text: 'To buy' },
    ...groups.map(({ title, lines }) => table(title, lines, order)),
  ];
}

function table(title: string, lines: readonly OrderLine[], order: OrderList): Table {
  const { units } = order;
  const [some] = lines;
  const sum = lines.reduce((all, { toPay = 0 }) => all + toPay, 0);
  return {
    kind: 'table',
    caption: title,
    tick: 'Ordered',
    columns: [
      { title: 'What', head: true },
      { title: 'Job takes', align: 'right' },
      { title: 'Have', align: 'right' },
      { title: 'Buy' },
      { title: 'Each', align: 'right' },
      { title: 'To pay', align: 'right' },
    ],
    rows: lines.map((line): Cell[] => [
      [line.title, ...(line.uses.length ? [`for ${line.uses.join(', ')}`] : [])],
      takes(line, units),
      line.have === undefined ? 'not said' : has(line, units),
      line.buy === undefined
        ? ['to be asked', `${line.why}.`]
        : [soldText(line.buy, line.sold, units), ...left(line, units)],
      line.price === undefined ? 'no price' : money(line.price, order),
      line.toPay === undefined ? 'not known' : money(line.toPay, order),
    ]),
    ...(lines.length > 1 && some ? { foot: ['Together', '', '', '', '', money(sum, order)] } : {}),
  };
}

/** What needs not be bought: laid out before the job begins, and nobody buys it twice. */
function atHome(order: OrderList): Block[] {
  const lines = order.lines.filter((line) => line.buy === 0);
  if (!lines.length) return [];
  const columns: Column[] = [
    { title: 'What', head: true },
    { title: 'Job takes', align: 'right' },
    { title: 'Have', align: 'right' },
    { title: 'Left over', align: 'right' },
  ];
  return [
    { kind: 'heading', level: 2, text: 'In the rack and the drawer already' },
    {
      kind: 'table',
      caption: 'Nothing to buy of these',
      tick: 'Found',
      columns,
      rows: lines.map((line): Cell[] => [
        [line.title, ...(line.uses.length ? [`for ${line.uses.join(', ')}`] : [])],
        takes(line, order.units),
        line.have === undefined ? 'not said' : has(line, order.units),
        line.over === undefined ? '' : amount(line.over, line.sold, order.units),
      ]),
    },
  ];
}

function tail(order: OrderList): Block[] {
  const rest = 'Not counted: paint, abrasives, oil, gas and whatever else is used up.';
  return [
    { kind: 'text', quiet: true, text: rest },
    ...(order.cautions.length ? [cautionNotice(order.cautions)] : []),
    statement(ORDER_STATEMENT),
  ];
}

/** What the whole job takes. */
const takes = ({ needed, sold }: OrderLine, units: System): string =>
  sold.as === 'sheet' || sold.as === 'offcut' ? soldText(needed, sold, units) : amount(needed, sold, units);

/** Hides are counted as they are sold, all else as the job takes it. */
const has = ({ have = 0, sold }: OrderLine, units: System): string =>
  sold.as === 'hide'
    ? count(have, 'hide')
    : sold.as === 'sheet' || sold.as === 'offcut'
      ? String(have)
      : amount(have, sold, units);

const left = ({ over, sold }: OrderLine, units: System): string[] =>
  over === undefined || over <= 0 ? [] : [`${amount(over, sold, units)} left over`];

function amount(value: number, sold: Sold, units: System): string {
  switch (sold.as) {
    case 'hide':
    case 'unsaid':
      return show(value, 'mm2', units);
    case 'coil':
    case 'metre':
      return wireText(value, units);
    default:
      return String(value);
  }
}

/** `2 sheets 1000 × 2000 mm`, `3 packs of 100`. */
function soldText(number: number, sold: Sold, units: System): string {
  switch (sold.as) {
    case 'sheet':
      return `${count(number, 'sheet')} ${showSize(sold.long, sold.wide, units)}`;
    case 'hide':
      return `${count(number, 'hide')}${sold.area === undefined ? '' : ` of ${show(sold.area, 'mm2', units)}`}`;
    case 'coil':
      return `${count(number, 'coil')} of ${wireText(sold.length, units)}`;
    case 'metre':
      return wireText(number * 1000, units);
    case 'pack':
      return `${count(number, 'pack')} of ${sold.of}`;
    case 'offcut':
      return count(number, 'offcut');
    default:
      return String(number);
  }
}

/** Wire is asked for by the metre, or by the foot. */
const wireText = (length: number, units: System): string =>
  isInches(units) ? `${trim(length / 304.8, 2)} ft` : `${trim(length / 1000, 2)} m`;
