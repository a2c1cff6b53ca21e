// npm run generate [-- --check]: writes the files that are made from the vocabulary, the forms, the features and the checks; with
// --check it writes nothing and fails where one is stale.
import fs from 'node:fs';
import { fileURLToPath } from 'node:url';
import { featureList } from './feature-list.ts';
import { formList } from './form-list.ts';

const check = process.argv.includes('--check');

function generate(generated: Readonly<Record<string, () => string>>): void {
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
}

// The lists of what stands in a folder come first: the rest is made by code that imports them.
generate({ 'server/editor/features/all.generated.ts': featureList, 'server/model/forms/all.generated.ts': formList });

const { referenceMarkdown } = await import('../grammar/reference.ts');
const { textMateJson } = await import('../grammar/textmate.ts');
const { rangeTable } = await import('../server/model/values/ranges.ts');
const { exportOffers, manifestWithExports, textsWithExports } = await import('./export-offers.ts');
const { settingsMarkdown } = await import('./settings-page.ts');
const { typedLines } = await import('./typed-lines.ts');

generate({
  'grammar/planish.tmLanguage.json': textMateJson,
  'grammar/generated/lines.ts': typedLines,
  'client/exports.generated.ts': exportOffers,
  'package.json': manifestWithExports,
  'package.nls.json': textsWithExports,
  'grammar/REFERENCE.md': () => referenceMarkdown(rangeTable()),
  'client/SETTINGS.md': settingsMarkdown,
});

await import('./generate-checks.ts');
