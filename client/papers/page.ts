// The page of a paper: it lays out what it is told, keeps its place and what is ticked, and hands out files.
import morphdom from 'morphdom';
import type { FromPage, Picture, ToPage } from './messages.ts';

/** What outlasts a page that is hidden and shown again. */
interface Kept {
  readonly scroll: number;
  readonly ticked: readonly string[];
}

declare function acquireVsCodeApi(): {
  postMessage(message: FromPage): void;
  getState(): Kept | undefined;
  setState(kept: Kept): void;
};

const editor = acquireVsCodeApi();
const { print, save, full, title = '' } = document.body.dataset;
const main = document.querySelector('main')!;
const state = document.createElement('p');
const ticked = new Set(editor.getState()?.ticked);
const word = document.createElement('p');
const places: Place[] = [];
let scroll = editor.getState()?.scroll;

state.setAttribute('role', 'status');
document.body.prepend(toolbar());
// So that the keyboard can scroll it.
main.tabIndex = 0;
main.setAttribute('aria-label', title);

/** Styles of a paper hold for the paper only. */
const paper = main.appendChild(document.createElement('div')).attachShadow({ mode: 'open' });
const style = document.createElement('style');
style.nonce = document.querySelector<HTMLScriptElement>('script[src]')!.nonce;
paper.append(style, document.createElement('body'));

addEventListener('message', ({ data }: MessageEvent<ToPage>) => void hear(data));
addEventListener('scrollend', keep);
paper.addEventListener('change', ({ target }) => {
  if (!(target instanceof HTMLInputElement)) return;
  if (target.checked) ticked.add(nameOf(target));
  else ticked.delete(nameOf(target));
  keep();
});
editor.postMessage({ kind: 'ready' });

function toolbar(): HTMLElement {
  const bar = document.createElement('header');
  bar.setAttribute('role', 'toolbar');
  bar.setAttribute('aria-label', title);
  bar.append(state);
  if (full) bar.append(button(full, toggleSize));
  if (print) bar.append(button(print, () => editor.postMessage({ kind: 'print' })));
  bar.append(button(save!, () => editor.postMessage({ kind: 'save' })));
  return bar;
}

function button(text: string, press: (button: HTMLElement) => void): HTMLElement {
  const made = document.createElement('button');
  made.textContent = text;
  made.addEventListener('click', () => press(made));
  return made;
}

/** Drawings fit into the width, or have the size that they are cut in, as far as a screen knows millimetres. */
function toggleSize(button: HTMLElement): void {
  button.ariaPressed = String(paper.querySelector('body')!.classList.toggle('full'));
}

async function hear(message: ToPage): Promise<void> {
  switch (message.kind) {
    case 'state':
      state.textContent = message.text;
      return;
    case 'file':
      return handOut(message);
    case 'page':
      showPage(message.html);
      break;
    case 'pictures':
      await showPictures(message.pictures, message.missing);
  }
  state.textContent = '';
  if (scroll !== undefined) scrollTo({ top: scroll });
  scroll = undefined;
}

/** Only what differs is touched: the rest keeps its place, its ticks and the keyboard. */
function showPage(html: string): void {
  const read = new DOMParser().parseFromString(html, 'text/html');
  main.lang = read.documentElement.lang;
  const styles = read.querySelector('style')?.textContent ?? '';
  if (style.textContent !== styles) style.textContent = styles;
  for (const input of read.querySelectorAll('input')) input.toggleAttribute('checked', ticked.has(nameOf(input)));
  morphdom(paper.querySelector('body')!, read.body, { onBeforeElUpdated: (now, next) => !now.isEqualNode(next) });
}

/** A box has a name in its table. */
const nameOf = (input: HTMLInputElement): string =>
  `${input.closest('table')?.caption?.textContent}: ${input.ariaLabel}`;

/** One picture after the other, each replaced only when the new one can be drawn. */
async function showPictures(pictures: readonly Picture[], missing: string): Promise<void> {
  const body = paper.querySelector('body')!;
  style.textContent = PICTURES;
  word.textContent = missing;
  word.hidden = !missing;
  if (!word.isConnected) body.append(word);
  for (const { figure } of places.splice(pictures.length)) figure.remove();
  await Promise.all(
    pictures.map(async ({ title, svg }, i) => {
      places[i] ??= placeIn(body);
      const place = places[i];
      place.caption.textContent = title;
      place.image.alt = title;
      if (place.svg === svg) return;
      place.svg = svg;
      const fresh = new Image();
      fresh.alt = title;
      fresh.src = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
      await fresh.decode().catch(() => undefined);
      URL.revokeObjectURL(fresh.src);
      if (place.svg !== svg) return;
      place.image.replaceWith(fresh);
      place.image = fresh;
    }),
  );
}

interface Place {
  readonly figure: HTMLElement;
  readonly caption: HTMLElement;
  image: HTMLImageElement;
  svg?: string;
}
function placeIn(body: HTMLElement): Place {
  const place = {
    figure: document.createElement('figure'),
    caption: document.createElement('figcaption'),
    image: new Image(),
  };
  place.figure.append(place.caption, place.image);
  body.append(place.figure);
  return place;
}

function handOut({ name, base64 }: { readonly name: string; readonly base64: string }): void {
  const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([bytes], { type: 'application/pdf' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

function keep(): void {
  editor.setState({ scroll: scrollY, ticked: [...ticked] });
}

const PICTURES = `
body { margin: 0; padding: 1.25rem; color: #1d2226; background: #fff; font: 15px/1.45 system-ui, sans-serif; }
figure { margin: 0 0 2rem; }
figcaption { margin-bottom: .5rem; padding-bottom: .25rem; border-bottom: 2px solid #94471c; font-weight: 600; }
img { display: block; max-width: 100%; height: auto; }
.full figure { overflow-x: auto; }
.full img { max-width: none; }
p { margin: 0 0 1rem; color: #a01c1c; }
`;
