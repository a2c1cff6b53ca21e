// grammar/generated/lines.ts: what each line holds, as types, from the notation of the vocabulary. Part of npm run generate.
import type { Element, PhraseWord } from '../grammar/pattern.ts';
import { sections } from '../grammar/vocabulary/index.ts';

export function typedLines(): string {
  const lines = sections.flatMap(({ kind, lines }) =>
    lines.map(
      (line) => `  {
    readonly kind: '${kind}';
    readonly id: '${line.id}';
    readonly group: '${line.group}';
${phrase(line, '    ')}
    readonly with: {${line.qualifiers
      .map((qualifier) => `\n      readonly '${qualifier.id}': {\n${phrase(qualifier, '        ')}\n      };`)
      .join('')}${line.qualifiers.length ? '\n    ' : ''}};
  }`,
    ),
  );
  return `// Made by npm run generate from the notation of the vocabulary. Do not edit.

/** Every line of the language: its section, its id, what can be filled in, the words it may hold, and what may follow a comma. */
export type VocabularyLine =
${lines.map((line) => `  |${line.slice(1)}`).join('\n')};
`;
}

function phrase({ pattern }: PhraseWord, indent: string): string {
  const { slots, words } = partsOf(pattern.elements);
  const filled = [...slots].map(([name, type]) => `readonly '${name}': '${type}'`).join('; ');
  return [
    `${indent}readonly slots: {${filled ? ` ${filled} ` : ''}};`,
    `${indent}readonly words: ${words.size ? [...words].map((word) => `'${word}'`).join(' | ') : 'never'};`,
  ].join('\n');
}

/** @throws where a phrase has two slots of one name and different types: nobody could say what is read. */
function partsOf(elements: readonly Element[], slots = new Map<string, string>(), words = new Set<string>()) {
  for (const element of elements)
    if (element.kind === 'word') words.add(element.word);
    else if (element.kind === 'slot') {
      const have = slots.get(element.name);
      if (have !== undefined && have !== element.type)
        throw new Error(`<${element.name}> is ${have} and ${element.type}`);
      slots.set(element.name, element.type);
    } else if (element.kind === 'optional') partsOf(element.of, slots, words);
    else for (const way of element.of) partsOf(way, slots, words);
  return { slots, words };
}
