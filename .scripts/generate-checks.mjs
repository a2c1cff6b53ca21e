#!/usr/bin/env node
// The list of checks is the folder: writes server/checks/all.generated.ts, or with --check fails where it is stale.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';

const folder = new URL('../server/checks/', import.meta.url);
const files = readdirSync(folder)
  .filter((name) => name.endsWith('.ts') && /export const check: Check\b/.test(readFileSync(new URL(name, folder), 'utf8')))
  .sort();
const camel = (name) => name.replace(/\.ts$/, '').replace(/-(\w)/g, (_, letter) => letter.toUpperCase());
const text = `// Made by .scripts/generate-checks.mjs from the files of this folder. Do not edit.
${files.map((name) => `import { check as ${camel(name)} } from './${name}';`).join('\n')}
import type { Check } from './check.ts';

export const checks: readonly Check[] = [
${files.map((name) => `  ${camel(name)},`).join('\n')}
];
`;
const target = new URL('all.generated.ts', folder);
if (process.argv.includes('--check')) {
  if (readFileSync(target, 'utf8') !== text) {
    console.error('server/checks/all.generated.ts is stale: run npm run generate');
    process.exit(1);
  }
} else {
  writeFileSync(target, text);
  console.log(`${files.length} checks`);
}
