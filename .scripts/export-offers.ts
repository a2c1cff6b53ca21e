// From the table of exports: client/exports.generated.ts, and the commands and menus of the manifest. Part of npm run generate.
import fs from 'node:fs';
import { type Export, exportCommandOf, exports, methodOf, showCommandOf } from '../server/output/exports.ts';
import { FILE_FORMATS } from '../server/output/writers/file-formats.ts';

const read = (name: string) => JSON.parse(fs.readFileSync(new URL(`../${name}`, import.meta.url), 'utf8'));
const json = (data: unknown) => `${JSON.stringify(data, null, 2)}\n`;
const titleOf = ({ words }: Export) => `Export ${words.title.toLowerCase()}`;
const showTitleOf = ({ words }: Export) => `Show ${words.title.toLowerCase()}`;
const keyOf = (command: string) => command.replace('planish.', 'command.');

/** With every text written out in its call, as whoever translates them needs it. */
export function exportOffers(): string {
  const text = (said: string) => `'${said.replaceAll("'", "\\'")}'`;
  const said = (words: string) => `vscode.l10n.t(${text(words)})`;
  const of = (words: string) => `(name) => vscode.l10n.t(${text(words)}, name)`;
  const offer = (row: Export) => {
    const { words, picks, kerf, whole, parts, shown } = row;
    const formats = picks.map(({ to, paper, label, says }) => {
      const decides = `{ to: '${to}'${paper ? `, paper: '${paper}'` : ''} }`;
      const name = label === undefined ? text(FILE_FORMATS[to].label) : said(label);
      return `      { decides: ${decides}, label: ${name}, description: ${said(says)} },`;
    });
    return `  {
    command: '${exportCommandOf(row)}',
    show: '${showCommandOf(row)}',
    method: '${methodOf(row)}',
    name: ${said(words.title)},
    title: ${said(titleOf(row))},
    making: ${said(words.making)},
    formats: [
${formats.join('\n')}
    ],
    kerf: ${kerf === true},
    shown: { to: '${shown}', parts: ${parts !== undefined} },
${
  whole
    ? `    written: ${of(`${words.title} written to {0}.`)},`
    : `    parts: {
      written: ${of(words.parts!.written)},
      without: ${of(words.parts!.without)},
      none: ${said(words.parts!.none)},
    },`
}
  },`;
  };
  return `// Made by npm run generate from server/output/exports.ts. Do not edit.
import * as vscode from 'vscode';
import type { Offer } from './offer.ts';

export const offers = (): Offer[] => [
${exports.map(offer).join('\n')}
];
`;
}

/** The commands of exports stand first, and so do their lines in the menus: what is shown can be saved from there. */
export function manifestWithExports(): string {
  const manifest = read('package.json');
  const { contributes } = manifest;
  const ours = new Set(exports.flatMap((row) => [exportCommandOf(row), showCommandOf(row)]));
  const first = (made: object[], all: { command: string }[]) => [
    ...made,
    ...all.filter(({ command }) => !ours.has(command)),
  ];
  contributes.commands = first(
    exports.flatMap((row) => [
      {
        command: showCommandOf(row),
        category: 'Planish',
        title: `%${keyOf(showCommandOf(row))}%`,
        ...(row.menu?.icon ? { icon: row.menu.icon } : {}),
      },
      { command: exportCommandOf(row), category: 'Planish', title: `%${keyOf(exportCommandOf(row))}%` },
    ]),
    contributes.commands,
  );
  const lines = (menu: string, when: string, group: string | undefined, commands: readonly string[]) => {
    const made = commands.map((command) => ({ command, when, ...(group ? { group } : {}) }));
    contributes.menus[menu] = first(made, contributes.menus[menu]);
  };
  lines('commandPalette', 'editorLangId == planish', undefined, [...ours]);
  const inTitle = exports.filter(({ menu }) => menu?.title).map(showCommandOf);
  lines('editor/title', 'resourceLangId == planish', 'navigation', inTitle);
  lines('editor/context', 'editorLangId == planish', 'planish@1', exports.map(showCommandOf));
  lines('explorer/context', 'resourceExtname == .planish', 'planish@1', exports.map(showCommandOf));
  return json(manifest);
}

export function textsWithExports(): string {
  const texts = read('package.nls.json');
  for (const row of exports) {
    texts[keyOf(showCommandOf(row))] = showTitleOf(row);
    texts[keyOf(exportCommandOf(row))] = `${titleOf(row)}…`;
  }
  return json(texts);
}
