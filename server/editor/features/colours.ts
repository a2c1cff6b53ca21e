import { ColorPresentationRequest, DocumentColorRequest } from 'vscode-languageserver';
import type { Color, ColorInformation, ColorPresentation, Range } from 'vscode-languageserver-types';
import { aboutOne, type Feature, plain } from '../protocol/feature.ts';
import type { View } from '../workspace/workspace.ts';

export const feature: Feature = {
  capability: () => ({ colorProvider: true }),
  requests: [
    aboutOne(DocumentColorRequest.type, { what: 'colours', empty: [], answer: (view) => coloursOf(view) }),
    plain(ColorPresentationRequest.type, {
      what: 'colours',
      empty: [],
      answer: ({ range, color }) => presentationsOf(range, color),
    }),
  ],
};

/*
 * Colours that a paint or a dye is named by. A text that holds `#a03020` is that colour; plain words are the colours
 * of CSS, since those are fixed: a maker's own shade is only known by its tin.
 */

/** CSS Color Module Level 4, named colours; the words a paint shop uses. */
const NAMED: Readonly<Record<string, number>> = {
  black: 0x000000,
  white: 0xffffff,
  grey: 0x808080,
  gray: 0x808080,
  silver: 0xc0c0c0,
  red: 0xff0000,
  maroon: 0x800000,
  crimson: 0xdc143c,
  orange: 0xffa500,
  gold: 0xffd700,
  yellow: 0xffff00,
  green: 0x008000,
  olive: 0x808000,
  blue: 0x0000ff,
  navy: 0x000080,
  teal: 0x008080,
  purple: 0x800080,
  brown: 0xa52a2a,
  tan: 0xd2b48c,
  ivory: 0xfffff0,
};

const COLOURED = new Set(['paint', 'dye']);

export function coloursOf(view: View): ColorInformation[] {
  const found: ColorInformation[] = [];
  for (const section of view.spec.sections)
    for (const line of section.lines) {
      if (!line.word || !COLOURED.has(line.word.id)) continue;
      for (const item of line.phrases[0]?.items ?? []) {
        if (item.kind !== 'text') continue;
        const written = section.text.slice(item.from, item.to);
        const colour = colourIn(written);
        if (!colour) continue;
        const from = item.from + colour.at;
        found.push({
          range: view.rangeOf({ section, from, to: from + colour.length }),
          color: colourOf(colour.value),
        });
      }
    }
  return found;
}

/** The colour as it is written into the text. */
function presentationsOf(range: Range, { red, green, blue }: Color): ColorPresentation[] {
  const two = (part: number) =>
    Math.round(Math.min(1, Math.max(0, part)) * 255)
      .toString(16)
      .padStart(2, '0');
  const newText = `#${two(red)}${two(green)}${two(blue)}`;
  return [{ label: newText, textEdit: { range, newText } }];
}

function colourIn(text: string): { at: number; length: number; value: number } | undefined {
  const hex = /#([0-9a-f]{6})(?![0-9a-f])/i.exec(text);
  if (hex) return { at: hex.index, length: 7, value: Number.parseInt(hex[1]!, 16) };
  const word = /^["“]\s*(\p{L}+)\s*["”]$/u.exec(text)?.[1];
  const value = word === undefined ? undefined : NAMED[word.toLowerCase()];
  return word === undefined || value === undefined ? undefined : { at: text.indexOf(word), length: word.length, value };
}

const colourOf = (value: number): Color => ({
  red: (value >> 16) / 255,
  green: ((value >> 8) & 255) / 255,
  blue: (value & 255) / 255,
  alpha: 1,
});
