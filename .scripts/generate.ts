// npm run generate [-- --check]: writes the files that are made from the vocabulary and from the checks; with --check it
// writes nothing and fails where one is stale.
import fs from 'node:fs';
import { fileURLToPath } from 'node:url';
import { referenceMarkdown } from '../grammar/reference.ts';
import { textMateJson } from '../grammar/textmate.ts';
import { rangeTable } from '../server/model/values/ranges.ts';
import { exportOffers, manifestWithExports, textsWithExports } from './export-offers.ts';
import { featureList } from './feature-list.ts';
import { settingsMarkdown } from './settings-page.ts';
import { typedLines } from './typed-lines.ts';

const generated: Readonly<Record<string, () => string>> = {
  'grammar/planish.tmLanguage.json': textMateJson,
  'grammar/generated/lines.ts': typedLines,
  'client/exports.generated.ts': exportOffers,
  'package.json': manifestWithExports,
  'package.nls.json': textsWithExports,
  'grammar/REFERENCE.md': () => referenceMarkdown(rangeTable()),
  'client/SETTINGS.md': settingsMarkdown,
  'server/editor/features/all.generated.ts': featureList,
};

const check = process.argv.includes('--check');
for (const [name, make] of Object.entries(generated)) {
  const file = fileURLToPath(new URL(`../${name}`, import.meta.url));
  const now = make();
  const before = fs.existsSync(file) ? fs.readFileSync(file, 'utf8') : undefined;
  if (now === before) continue;
  if (check) {
    console.error(`${name} is stale: npm run generate`);
    process.exitCode = 1;
  } else {
    fs.writeFileSync(file, now);
    console.log(`wrote ${name}`);
  }
}

await import('./generate-checks.ts');
