import { say, translated } from '../l10n/say.ts';
import { slotInWords } from './bind.ts';
import {
  type Element,
  type LineGroup,
  type LineWord,
  leadingWords,
  type Need,
  type SectionWord,
  type Slot,
} from './pattern.ts';
import type { Line } from './tree.ts';

/*
 * What a line must also say before anything can be worked out from it. The vocabulary says it beside the pattern; here it is
 * held against what is written.
 */

/** The needs of a line that neither it nor the lines of its section meet. `lines` are those of the section. */
export function unmetNeeds(line: Line, lines: readonly Line[]): readonly Need[] {
  const { word, head, qualifiers } = line;
  if (!word?.needs.length) return [];
  const says = (fact: string): boolean => {
    const lineFact = lineFactOf(fact);
    if (lineFact) return lines.filter((each) => each.word && fits(each.word, lineFact.id)).length >= lineFact.least;
    return head?.slots.has(fact) || head?.words.has(fact) || qualifiers.some((each) => each.word.id === fact) || false;
  };
  return word.needs.filter(({ ways }) => !ways.some((way) => way.every(says)));
}

/** What would finish a line as it is written, in words: another way of its own pattern would be another line. */
export function unmetInWords(need: Need, word: LineWord, section: SectionWord): string {
  const choices = word.pattern.elements.flatMap((each) => (each.kind === 'choice' ? each.of.flat() : []));
  const ways = need.ways.filter((way) => !way.some((fact) => slotNamed(choices, fact)));
  return needInWords({ ways }, word, section);
}

/** What would meet a need, in words: `“over …” or “hollow …”`. */
export function needInWords(need: Need, word: LineWord, section: SectionWord): string {
  return need.ways
    .map((way) => way.map((fact) => factInWords(fact, word, section)).join(translated(' and ')))
    .join(translated(' or '));
}

function factInWords(fact: string, word: LineWord, section: SectionWord): string {
  const lineFact = lineFactOf(fact);
  if (lineFact) {
    const { id, least } = lineFact;
    const names = section.lines.filter((each) => fits(each, id)).map((each) => `“${leadingWords(each.pattern)} …”`);
    return least > 1
      ? say`${least} lines or more of ${names.join(translated(' or '))} below it`
      : say`a line ${names.join(translated(' or '))}`;
  }
  const of = word.qualifiers.find((each) => each.id === fact)?.pattern ?? word.pattern;
  const leading = of === word.pattern ? '' : leadingWords(of);
  if (leading) return of.elements.length > 1 ? `“${leading} …”` : `“${leading}”`;
  const slot = of === word.pattern ? slotNamed(of.elements, fact) : slotNamed(of.elements);
  return slot ? slotInWords(slot.type) : `“${fact} …”`;
}

/** A slot of a pattern: the one of this name, or the first. */
function slotNamed(elements: readonly Element[], name?: string): Slot | undefined {
  for (const element of elements) {
    if (element.kind === 'word') continue;
    const found =
      element.kind === 'slot'
        ? name === undefined || element.name === name
          ? element
          : undefined
        : slotNamed(element.kind === 'optional' ? element.of : element.of.flat(), name);
    if (found) return found;
  }
  return undefined;
}

const fits = (word: LineWord, what: string): boolean => (GROUPS.has(what) ? word.group === what : word.id === what);

const GROUPS: ReadonlySet<string> = new Set<LineGroup>(['level', 'outline', 'joining', 'step']);

/** `@level×2`: at least two lines of a group, or of an id, in the same section. */
function lineFactOf(fact: string): { readonly id: string; readonly least: number } | undefined {
  const match = /^@([^×]+)(?:×(\d+))?$/.exec(fact);
  return match ? { id: match[1]!, least: Number(match[2] ?? 1) } : undefined;
}

/**
 * The ids of the qualifiers without which a line is hardly ever written, since it needs them: of several ways the first that
 * qualifiers make up. Nothing for what a slot of the line's own pattern meets that is never left out.
 */
export const neededQualifiers = (word: LineWord): readonly string[] =>
  word.needs.flatMap(({ ways }) => {
    const always = word.pattern.elements.flatMap((element) =>
      element.kind === 'choice' ? element.of.flat() : element.kind === 'optional' ? [] : [element],
    );
    if (ways.some((way) => way.every((fact) => slotNamed(always, fact)))) return [];
    return ways.find((way) => way.every((fact) => word.qualifiers.some(({ id }) => id === fact))) ?? [];
  });
