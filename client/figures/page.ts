// The page of the panel of figures: it only lays out what it is told, and is asked for nothing else.
import type { ExplainedFigure } from '../../server/requests.ts';
import type { FromPage, ToPage } from './messages.ts';

declare function acquireVsCodeApi(): { postMessage(message: FromPage): void };

const editor = acquireVsCodeApi();
const main = document.querySelector('main')!;
const { copy = '', none = '' } = document.body.dataset;

addEventListener('message', ({ data }: MessageEvent<ToPage>) => show(data));
editor.postMessage({ kind: 'ready' });

function show({ of, figures, line }: ToPage): void {
  const head = element('header', element('h1', of));
  if (figures.length) {
    const button = element('button', copy);
    button.addEventListener('click', () => editor.postMessage({ kind: 'copy', text: textOf(of, figures) }));
    head.append(button);
  }
  const cards = figures.map((figure, i) => card(figure, figures, figures[i - 1]));
  main.replaceChildren(head, ...(cards.length ? cards : [element('p', none)]));
  const here = cards.filter((_, i) => figures[i]!.line === line);
  for (const each of here) each.classList.add('here');
  (here[0] ?? head).scrollIntoView({ block: here.length ? 'center' : 'start' });
}

function card(figure: ExplainedFigure, all: readonly ExplainedFigure[], before?: ExplainedFigure): HTMLElement {
  const title = element('a', figure.title);
  title.href = '#';
  title.addEventListener('click', (event) => {
    event.preventDefault();
    editor.postMessage({ kind: 'go', line: figure.line, column: figure.column });
  });
  const section = element('section', element('h2', title, element('strong', figure.shown)));
  const range = rangeOf(figure);
  if (range) section.append(range);
  for (const sum of sumsOf(figure)) section.append(element('p', element('code', sum)));
  // Of several of one sum the ground is read once.
  if (groundOf(figure) !== (before && groundOf(before))) section.append(classed('ground', groundOf(figure)));
  if (figure.note && figure.note !== before?.note) section.append(classed('note', figure.note));
  if (figure.outside) section.append(classed('doubt', `⚠ ${figure.outside}`));
  const from = all.filter(({ name }) => figure.inputs.includes(name));
  const into = all.filter(({ inputs }) => inputs.includes(figure.name));
  if (from.length) section.append(classed('links', `← ${titles(from)}`));
  if (into.length) section.append(classed('links', `→ ${titles(into)}`));
  return section;
}

/** The formula, and with its numbers, where they say more than what it comes to. */
function sumsOf({ formula, worked, shown }: ExplainedFigure): string[] {
  const [left, right] = formula.split(' = ', 2);
  return [
    // `n = n` says nothing.
    ...(formula === shown || left === right ? [] : [formula]),
    ...(worked === formula || worked === shown ? [] : [`= ${worked}`]),
  ];
}

const groundOf = ({ basis, source }: ExplainedFigure): string => `${basis} · ${source}`;

const titles = (figures: readonly ExplainedFigure[]): string => figures.map(({ title }) => title).join(', ');

/** Where the figure lies between the ends of its range. */
function rangeOf({ value, low, high, shown }: ExplainedFigure): SVGElement | undefined {
  if (low === undefined || high === undefined || !(high > low)) return undefined;
  const at = 10 + (280 * (Math.min(high, Math.max(low, value)) - low)) / (high - low);
  const drawn = svg('svg', { viewBox: '0 0 300 14', role: 'img', 'aria-label': shown });
  drawn.append(
    svg('line', { x1: 10, x2: 290, y1: 7, y2: 7 }),
    svg('line', { x1: 10, x2: 10, y1: 3, y2: 11 }),
    svg('line', { x1: 290, x2: 290, y1: 3, y2: 11 }),
    svg('circle', { cx: at, cy: 7, r: 4 }),
  );
  return drawn;
}

const textOf = (of: string, figures: readonly ExplainedFigure[]): string =>
  [
    of,
    '',
    ...figures.flatMap((figure) => [
      `${figure.title}: ${figure.shown}`,
      ...[...sumsOf(figure), groundOf(figure), figure.note, figure.outside && `⚠ ${figure.outside}`].flatMap((line) =>
        line ? [`  ${line}`] : [],
      ),
    ]),
    '',
  ].join('\n');

function element<K extends keyof HTMLElementTagNameMap>(name: K, ...content: (string | Node)[]) {
  const made = document.createElement(name);
  made.append(...content);
  return made;
}

function classed(name: string, text: string): HTMLElement {
  const made = element('p', text);
  made.className = name;
  return made;
}

function svg(name: string, attributes: Readonly<Record<string, string | number>>): SVGElement {
  const made = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  return made;
}
