import { oneByOne, type Steps } from '../../incremental/steps.ts';
import { count, type System, show, showBlankSize } from '../../model/values/show.ts';
import type { BuildSheet, Card, Measured, Turn, Why } from './build-sheet.ts';
import { cautionNotice, jobFacts, jobPaper, notReady, statement } from './job.ts';
import type { Block, Cell, Paper, Table } from './paper.ts';

const BUILD_STATEMENT =
  'This sheet says in which order the work goes together, and forecasts how long it takes. It is no statement that any piece protects anyone: that is for the group’s rulebook, the production’s safety lead and their inspectors to decide. Heat, fume, dust and chemicals: your own local codes and the makers’ data sheets come first.';

export function* buildSheetPaper(sheet: BuildSheet): Steps<Paper> {
  const cards = yield* oneByOne(sheet.cards, (card) => cardBlocks(card, sheet));
  return jobPaper(sheet, 'Build sheet', 'A forecast. Not a statement that any piece protects.', [
    ...head(sheet),
    ...orderOfWork(sheet),
    ...cards.flat(),
    ...whyBlocks(sheet),
    statement(BUILD_STATEMENT),
  ]);
}

const time = (minutes: number): string => show(minutes, 'min', 'mm');

function head(sheet: BuildSheet): Block[] {
  const { hours, builds } = sheet;
  const { one } = hours;
  return [
    {
      kind: 'facts',
      facts: [
        ...jobFacts(sheet, 'to make'),
        { name: 'Hands, one build', value: one ? ranged(one, time) : 'not known' },
        ...(builds > 1 ? [{ name: `Hands, all ${builds}`, value: `${time(hours.hands)}, worked in one go` }] : []),
        { name: 'Waiting', value: hours.waiting >= 1 ? `${time(hours.waiting)} besides, to dry and to cool` : 'none' },
      ],
    },
    ...notReady(sheet, 'Not ready to make'),
    ...(hours.unknown.length
      ? [
          {
            kind: 'text',
            text: `Without the time for: ${hours.unknown.join('; ')}. How much there is of it is not known yet.`,
          } as const,
        ]
      : []),
    ...(sheet.cautions.length ? [cautionNotice(sheet.cautions)] : []),
  ];
}

function orderOfWork(sheet: BuildSheet): Block[] {
  const { turns, builds } = sheet;
  if (!turns.length) return [{ kind: 'text', text: 'There is nothing to make.' }];
  return [
    { kind: 'heading', level: 2, text: 'Order of work' },
    {
      kind: 'text',
      quiet: true,
      text: `For one pair of hands${builds > 1 ? `, all ${builds} builds in one go` : ''}. Work of one kind stands together where nothing speaks against it, so that one lays out for it once. Times are common practice (no source) and spread widely: your own hours (“hours skull raise 3.5 h” in an order) go before them.`,
    },
    turnTable(turns, 'Order of work'),
  ];
}

const turnTable = (turns: readonly Turn[], caption: string): Table => ({
  kind: 'table',
  caption,
  tick: 'Done',
  dense: true,
  columns: [
    { title: 'No.', align: 'right' },
    { title: 'What', head: true },
    { title: 'After', align: 'right' },
    { title: 'Hands', align: 'right' },
    { title: 'Then wait', align: 'right' },
  ],
  rows: turns.map((turn): Cell[] => [
    String(turn.number),
    [turn.title, ...(turn.says.length ? [turn.says.join(', ')] : []), ...cautionsOf(turn)],
    turn.after.join(', '),
    turn.minutes === undefined ? 'not known' : atLeastAMinute(turn.minutes),
    turn.wait === undefined ? '' : time(turn.wait),
  ]),
});

const cautionsOf = ({ cautions }: Turn): string[] => (cautions.length ? [`Caution: ${cautions.join(', ')}`] : []);

const atLeastAMinute = (minutes: number): string => (minutes < 1 ? 'under 1 min' : time(minutes));

// ---- cards -----------------------------------------------------------------------------------------------------------

function cardBlocks(card: Card, sheet: BuildSheet): Block[] {
  const { units, turns } = sheet;
  return [
    { kind: 'heading', level: 2, text: `Card: ${card.piece}` },
    { kind: 'facts', facts: cardFacts(card, sheet) },
    ...card.notes.map((text): Block => ({ kind: 'text', text })),
    turnTable(
      card.turns.flatMap((number) => turns[number - 1] ?? []),
      `Work on ${card.piece}`,
    ),
    ...holes(card, units),
    ...measures(card, units),
  ];
}

function cardFacts(card: Card, { units, builds }: BuildSheet): { name: string; value: string }[] {
  const length = (value: number) => show(value, 'mm', units);
  const { blank } = card;
  const copies = `${card.make * builds}${card.mirrored ? ', half of them mirrored' : ''}`;
  return [
    { name: 'From', value: card.material },
    { name: 'How many', value: builds > 1 ? `${copies} (${card.make} in each of ${builds} builds)` : copies },
    {
      name: 'Blank',
      value: !blank
        ? `none: ${card.noBlank ?? 'not known'}`
        : blank.round
          ? `Ø ${length(blank.long)}`
          : `${showBlankSize(blank.long, blank.wide, units)}${blank.ownOutline ? ', to its pattern' : ''}`,
    },
    ...(blank?.allowances.length
      ? [
          {
            name: 'In it',
            value: blank.allowances
              .map(({ edge, what, amount }) => `${length(amount)} at ${edge} (${what})`)
              .join('; '),
          },
        ]
      : []),
    ...(card.tightest === undefined
      ? []
      : [{ name: 'Stake and hammer', value: `no flatter than a radius of ${length(card.tightest)}` }]),
  ];
}

/** Every hole of the piece: its own and those that it shares with others. */
function holes(card: Card, units: System): Table[] {
  const length = (value: number) => show(value, 'mm', units);
  const rows: Cell[][] = [
    ...card.openings.map(({ what, count: number, long, wide, round, now }): Cell[] => [
      what,
      String(number),
      round ? `Ø ${length(long)}` : showBlankSize(long, wide, units),
      now,
      '',
    ]),
    ...card.rivets.map(({ seam, rivet, perBuild, positions, hole, drill, needed }): Cell[] => [
      [`${seam}: ${rivet}`, ...(positions ? [positions] : [])],
      String(perBuild),
      hole === undefined
        ? 'not known'
        : [`Ø ${length(hole)}`, ...(drill === undefined ? [] : [`drill ${length(drill)}`])],
      'when fitted',
      needed === undefined ? '' : ranged(needed, length),
    ]),
  ];
  if (!rows.length) return [];
  return [
    {
      kind: 'table',
      caption: `Holes of ${card.piece}, one build`,
      tick: 'Made',
      columns: [
        { title: 'For', head: true },
        { title: 'How many', align: 'right' },
        { title: 'Size', align: 'right' },
        { title: 'When' },
        { title: 'Rivet length', align: 'right' },
      ],
      rows,
    },
  ];
}

/** `6.5 mm (6.2 mm to 7.6 mm)` */
function ranged(
  { value, low, high }: { readonly value: number; readonly low?: number; readonly high?: number },
  told: (value: number) => string,
): string {
  return low === undefined || high === undefined ? told(value) : `${told(value)} (${told(low)} to ${told(high)})`;
}

function measures(card: Card, units: System): Table[] {
  if (!card.measures.length) return [];
  return [
    {
      kind: 'table',
      caption: `Measured on ${card.piece}, for a log`,
      columns: [
        { title: 'Line of the log', head: true },
        { title: 'Forecast', align: 'right' },
        { title: 'Found', align: 'right' },
      ],
      rows: card.measures.map((each): Cell[] => [`found ${each.name}`, forecast(each, units), '__________']),
    },
  ];
}

function forecast({ forecast: [one, other], unit, ...ends }: Measured, units: System): string {
  if (one === undefined) return '';
  if (other !== undefined) return showBlankSize(one, other, units);
  return ranged({ value: one, ...ends }, (value) => show(value, unit, units));
}

// ---- why -------------------------------------------------------------------------------------------------------------

/** More pairs than this nobody reads off a paper; the JSON has all of them. */
const MOST_PAIRS = 12;

function whyBlocks({ why, against }: BuildSheet): Block[] {
  const row = ({ why, usual, pairs }: Why): Cell[] => [
    [why, ...(usual ? ['Common practice (no source): an order of your own goes before it.'] : [])],
    `${pairs
      .slice(0, MOST_PAIRS)
      .map(([from, to]) => `${from} before ${to}`)
      .join('; ')}${pairs.length > MOST_PAIRS ? `; and ${count(pairs.length - MOST_PAIRS, 'more', 'more')}` : ''}`,
  ];
  const table = (caption: string, rows: readonly Why[]): Table => ({
    kind: 'table',
    caption,
    dense: true,
    columns: [{ title: 'Why', head: true }, { title: 'Which turns' }],
    rows: rows.map(row),
  });
  return [
    ...(against.length
      ? [
          { kind: 'heading', level: 2, text: 'Where your order goes against what is usual' } as const,
          table('Common practice that your order goes before', against),
        ]
      : []),
    ...(why.length
      ? [
          { kind: 'heading', level: 2, text: 'Why in this order' } as const,
          table('The reasons, and the turns that they hold between', why),
        ]
      : []),
  ];
}
