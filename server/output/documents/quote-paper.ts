import { cautionNotice, jobFacts, jobPaper, money, notReady, statement } from './job.ts';
import type { Block, Cell, Paper } from './paper.ts';
import type { Quote, QuoteLine } from './quote.ts';

const QUOTE_STATEMENT =
  'The price is forecast from the spec: hours are common practice (no source) unless the spec gives its own. Nothing in it states that any piece protects anyone: that is for the group’s rulebook, the production’s safety lead and their inspectors to decide.';

export const quotePaper = (quote: Quote): Paper =>
  jobPaper(quote, 'Quote', 'A forecast from the spec. Not a statement that any piece protects.', [
    ...head(quote),
    ...lines(quote),
    ...offers(quote),
    ...tail(quote),
  ]);

function head(quote: Quote): Block[] {
  const { total, priced, range, missing, validUntil } = quote;
  const price = total === undefined ? `${money(priced, quote)} as far as priced` : money(total, quote);
  return [
    {
      kind: 'facts',
      facts: [
        ...jobFacts(quote, 'to make'),
        { name: 'Price', value: price },
        ...(range.low < range.high
          ? [
              {
                name: 'Between',
                value: `${money(range.low, quote)} (all work quick) and ${money(range.high, quote)} (all work slow)`,
              },
            ]
          : []),
        ...(validUntil === undefined ? [] : [{ name: 'Stands until', value: validUntil }]),
      ],
    },
    ...notReady(quote, 'Not ready to quote for'),
    ...(missing.length
      ? [
          {
            kind: 'notice',
            tone: 'stop',
            title: 'Not in this price',
            items: missing.map((text) => ({ text: `${text}.` })),
          } as const,
        ]
      : []),
  ];
}

const GROUPS: Readonly<Record<QuoteLine['group'], string>> = {
  materials: 'Materials',
  work: 'Work',
  overhead: 'Overhead',
  margin: 'Margin',
  tax: 'Tax',
};

function lines(quote: Quote): Block[] {
  return [
    {
      kind: 'table',
      caption: 'What it comes to',
      columns: [{ title: 'What', head: true }, { title: 'Of' }, { title: 'Price', align: 'right' }],
      rows: quote.lines.map((line): Cell[] => [
        [line.what, ...(line.detail === undefined ? [] : [line.detail])],
        GROUPS[line.group],
        line.money === undefined ? 'not priced' : money(line.money, quote),
      ]),
      foot: [quote.total === undefined ? 'Together, as far as priced' : 'Together', '', money(quote.priced, quote)],
    },
  ];
}

function offers(quote: Quote): Block[] {
  if (quote.offers.length < 2) return [];
  return [
    {
      kind: 'table',
      caption: 'For other numbers of builds, each worked in one go',
      columns: [
        { title: 'Builds', head: true, align: 'right' },
        { title: 'Each', align: 'right' },
        { title: 'Together', align: 'right' },
      ],
      rows: quote.offers.map(({ builds, each, all }): Cell[] => [
        String(builds),
        money(each, quote),
        money(all, quote),
      ]),
    },
  ];
}

const tail = (quote: Quote): Block[] => [
  ...quote.terms.map((text): Block => ({ kind: 'text', text })),
  {
    kind: 'text',
    quiet: true,
    text: 'Not counted: paint, abrasives, oil, gas and whatever else is used up, unless overhead covers it. Stock is counted as it is used: sheets whole, wire, hides and packs by their share.',
  },
  ...(quote.cautions.length ? [cautionNotice(quote.cautions)] : []),
  statement(QUOTE_STATEMENT),
];
