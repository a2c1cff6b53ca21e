/*
 * In which language is told what is found and worked out. The English sentence at its place is the one source: what stands in
 * another language is looked up by it, and where that has nothing the English is told. The language is set once, before anything
 * is asked: what the model keeps is told in it.
 */

/** What is told in another language, by the short key of the English sentence, in which what is put in is numbered: `needs {0}`. */
export type Texts = Readonly<Record<string, string>>;

/** The same as it is written, by the English itself. */
export const shortened = (texts: Texts): Texts =>
  Object.fromEntries(Object.entries(texts).map(([english, told]) => [shortKey(english), told]));

/** Stands for a sentence where it is looked up: whole, the English would be shipped twice. FNV-1a of 32 bits. */
function shortKey(english: string): string {
  let hash = 0x811c9dc5;
  for (let at = 0; at < english.length; at++) hash = Math.imul(hash ^ english.charCodeAt(at), 0x01000193);
  return (hash >>> 0).toString(36);
}

type Given = string | number | undefined;

/** What stands between the parts that are put in, and which part stands behind each. */
interface Sentence {
  readonly between: readonly string[];
  readonly order: readonly number[];
}

let texts: ReadonlyMap<string, string> | undefined;
/** By its place in our sources; what has no translation is kept too. */
let sentences = new Map<TemplateStringsArray, Sentence | undefined>();
/** Who hears of what is asked for, for tests. */
let listener: ((english: string, told: string, isFound: boolean) => void) | undefined;

/** From now on, in this language; in English without one. */
export function speak(other?: Texts, hears?: typeof listener): void {
  texts = other && new Map(Object.entries(other));
  sentences = new Map();
  listener = hears;
}

/**
 * A sentence with what is put in: say`needs ${length}`. Where that is a text of ours of several words it is told in the other
 * language too; what a spec names is one word, and stays as it is.
 */
export function say(strings: TemplateStringsArray, ...given: readonly Given[]): string {
  if (!texts) return put(strings, given);
  let sentence = sentences.get(strings);
  if (sentence === undefined && !sentences.has(strings)) {
    const found = texts.get(shortKey(keyOf(strings)));
    sentence = found === undefined ? undefined : sentenceOf(found);
    sentences.set(strings, sentence);
  }
  const parts = given.map((part) => (typeof part === 'string' && part.includes(' ') ? translated(part) : part));
  const told = sentence ? put(sentence.between, sentence.order, parts) : put(strings, parts);
  listener?.(keyOf(strings), told, sentence !== undefined);
  return told;
}

/** A whole text, as it stands in a table or a line of ours. What is told already comes back as it is. */
export function translated(text: string): string {
  if (!texts) return text;
  const found = texts.get(shortKey(text));
  listener?.(text, found ?? text, found !== undefined);
  return found ?? text;
}

/** Several of them in a row, those that there are. */
export const inARow = (...texts: readonly (string | undefined | false)[]): string =>
  texts.flatMap((text) => (text ? [translated(text)] : [])).join(' ');

/** What a sentence is looked up by. */
export const keyOf = (strings: readonly string[]): string =>
  strings.reduce((key, part, i) => `${key}{${i - 1}}${part}`);

function sentenceOf(text: string): Sentence {
  const parts = text.split(/\{(\d+)\}/);
  return {
    between: parts.filter((_, i) => i % 2 === 0),
    order: parts.filter((_, i) => i % 2 === 1).map(Number),
  };
}

function put(between: readonly string[], order: readonly Given[], given?: readonly Given[]): string {
  let told = between[0]!;
  for (let i = 0; i < order.length; i++) told += (given ? given[order[i] as number]! : order[i]!) + between[i + 1]!;
  return told;
}
