// client/SETTINGS.md: every command and setting, from package.json and its texts. Part of npm run generate.
import fs from 'node:fs';

interface Manifest {
  readonly contributes: {
    readonly commands: readonly { readonly command: string; readonly title: string }[];
    readonly menus: { readonly commandPalette: readonly { readonly command: string; readonly when: string }[] };
    readonly configuration: { readonly properties: Readonly<Record<string, Setting>> };
    readonly taskDefinitions: readonly {
      readonly type: string;
      readonly properties: Readonly<Record<string, Setting>>;
    }[];
  };
}

interface Setting {
  readonly type: string;
  readonly default?: unknown;
  readonly enum?: readonly string[];
  readonly description?: string;
  readonly markdownDescription?: string;
}

const read = (name: string) => JSON.parse(fs.readFileSync(new URL(`../${name}`, import.meta.url), 'utf8'));

export function settingsMarkdown(): string {
  const { contributes } = read('package.json') as Manifest;
  const texts: Record<string, string> = read('package.nls.json');
  const said = (text = '') => text.replace(/%([^%]+)%/g, (_, key: string) => texts[key] ?? key).replace(/\s+/g, ' ');
  const hidden = new Set(
    contributes.menus.commandPalette.filter(({ when }) => when === 'false').map(({ command }) => command),
  );
  const usual = (value: unknown) => (typeof value === 'object' ? '' : `\`${JSON.stringify(value)}\``);
  return [
    '# Commands and settings',
    '<!-- Made by npm run generate from package.json. Do not edit. -->',
    'Every command stands in the command palette under “Planish”.',
    '| command | what it does |\n| --- | --- |\n' +
      contributes.commands
        .filter(({ command }) => !hidden.has(command))
        .map(({ command, title }) => `| \`${command}\` | ${said(title)} |`)
        .join('\n'),
    '| setting | usual | what it does |\n| --- | --- | --- |\n' +
      Object.entries(contributes.configuration.properties)
        .map(([name, setting]) => `| \`${name}\` | ${usual(setting.default)} | ${said(setting.markdownDescription)} |`)
        .join('\n'),
    'The checks, and how loudly each speaks of itself: [grammar/CHECKS.md](../grammar/CHECKS.md).',
    ...contributes.taskDefinitions.map(
      ({ type, properties }) =>
        `A task of the type \`${type}\` in \`tasks.json\` runs the command line, with \`"problemMatcher": "$planish"\`:\n\n` +
        `| property | what it says |\n| --- | --- |\n` +
        Object.entries(properties)
          .map(([name, { description }]) => `| \`${name}\` | ${said(description)} |`)
          .join('\n'),
    ),
    '',
  ].join('\n\n');
}
