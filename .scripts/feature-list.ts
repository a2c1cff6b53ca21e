// server/editor/features/all.generated.ts: the list of features is the folder. Part of npm run generate.
import fs from 'node:fs';

const folder = new URL('../server/editor/features/', import.meta.url);

export function featureList(): string {
  const files = fs
    .readdirSync(folder)
    .filter((name) => /^export const feature: Feature\b/m.test(fs.readFileSync(new URL(name, folder), 'utf8')))
    .sort();
  const camel = (name: string) =>
    name.replace(/\.ts$/, '').replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());
  return `// Made by npm run generate from the files of this folder. Do not edit.
import type { Feature } from '../protocol/feature.ts';
${files.map((name) => `import { feature as ${camel(name)} } from './${name}';`).join('\n')}

export const features: readonly Feature[] = [
${files.map((name) => `  ${camel(name)},`).join('\n')}
];
`;
}
