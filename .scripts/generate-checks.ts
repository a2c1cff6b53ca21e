// Part of npm run generate [-- --check]. The list of checks is the folder server/checks/rules: from it come the list in
// code,
// grammar/CHECKS.md, the setting planish.checks.severity of package.json, and one spec a check in samples/faults.
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../', import.meta.url));
const checking = process.argv.includes('--check');

function write(name: string, text: string | undefined): void {
  const file = path.join(root, name);
  const before = fs.existsSync(file) ? fs.readFileSync(file, 'utf8') : undefined;
  if (before === text) return;
  if (checking) {
    console.error(`${name} is stale: npm run generate`);
    process.exitCode = 1;
  } else if (text === undefined) {
    fs.rmSync(file);
    console.log(`removed ${name}`);
  } else {
    fs.mkdirSync(path.dirname(file), { recursive: true });
    fs.writeFileSync(file, text);
    console.log(`wrote ${name}`);
  }
}

const files = fs
  .readdirSync(path.join(root, 'server/checks/rules'), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .map((name) => ({ code: path.basename(name, '.ts'), name: name.replaceAll(path.sep, '/') }))
  .sort((one, other) => (one.code < other.code ? -1 : 1));
const camel = (code: string) => code.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());
write(
  'server/checks/all.generated.ts',
  `// Made by .scripts/generate-checks.ts from the files of the folder rules. Do not edit.
${files.map(({ code, name }) => `import { check as ${camel(code)} } from './rules/${name}';`).join('\n')}
import type { Check } from './check.ts';

export const checks: readonly Check[] = [
${files.map(({ code }) => `  ${camel(code)},`).join('\n')}
];
`,
);

// Read only now: the list above may just have been written.
const { checks } = await import('../server/checks/all.generated.ts');
const { checksMarkdown, faultSample, severitySchema } = await import('../server/checks/docs.ts');

write('grammar/CHECKS.md', checksMarkdown());

const manifest = JSON.parse(fs.readFileSync(path.join(root, 'package.json'), 'utf8')) as {
  contributes: { configuration: { properties: Record<string, { properties?: object }> } };
};
const setting = manifest.contributes.configuration.properties['planish.checks.severity'];
if (!setting) throw new Error('package.json has no setting planish.checks.severity');
setting.properties = severitySchema();
write('package.json', `${JSON.stringify(manifest, null, 2)}\n`);

const samples = new Map<string, string>();
for (const check of checks) {
  samples.set(`${check.code}.planish`, faultSample(check));
  for (const [name, text] of Object.entries(check.beside ?? {})) samples.set(name, text);
}
for (const [name, text] of samples) write(`samples/faults/${name}`, text);
for (const each of fs.readdirSync(path.join(root, 'samples/faults'), { recursive: true, encoding: 'utf8' })) {
  const name = each.replaceAll(path.sep, '/');
  if (/\.(planish|svg|dxf)$/.test(name) && !samples.has(name)) write(`samples/faults/${name}`, undefined);
}
