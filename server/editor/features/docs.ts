import { TextDocumentContentRequest } from 'vscode-languageserver';
import type { Check } from '../../checks/check.ts';
import { checkOf } from '../../checks/run.ts';
import { isLibrary, LIBRARY_SCHEME, libraryText } from '../../model/names/library.ts';
import { type Feature, plain } from '../protocol/feature.ts';

export const feature: Feature = {
  capability: ({ textContent }) =>
    textContent ? { workspace: { textDocumentContent: { schemes: [...TEXT_SCHEMES] } } } : {},
  requests: [
    plain(TextDocumentContentRequest.type, {
      what: 'documentation',
      empty: { text: '' },
      answer: ({ uri }) => ({ text: docsText(uri) ?? '' }),
    }),
  ],
};

/*
 * The page of a check, which a click on its code opens. The server writes it itself, so that it is there without a
 * network and always says what this very version looks for.
 */

export const DOCS_SCHEME = 'planish-docs';

export const docsUri = (check: Check): string => `${DOCS_SCHEME}:/checks/${check.code}.md`;

/** The schemes of texts that the server itself gives: pages of checks, and the stock that comes with Planish. */
const TEXT_SCHEMES: readonly string[] = [DOCS_SCHEME, LIBRARY_SCHEME.replace(':', '')];

export function docsText(uri: string): string | undefined {
  if (isLibrary(uri)) return libraryText(uri);
  const code = new RegExp(`^${DOCS_SCHEME}:/+checks/([a-z0-9-]+)\\.md$`).exec(uri)?.[1];
  const check = code === undefined ? undefined : checkOf(code);
  return check && pageOf(check);
}

function pageOf(check: Check): string {
  const spec = (text: string) => `\`\`\`planish\n${text.trimEnd()}\n\`\`\``;
  return [
    `# ${check.title}`,
    `\`${check.code}\` · ${check.family} · ${check.severity}${check.caution ? ' · a safety caution: never switched off' : ''}`,
    '## What it looks for',
    check.what,
    ...(check.formula ? [`\`${check.formula}\``] : []),
    '## Why',
    check.why,
    '## What to do',
    check.todo,
    '## Where it comes from',
    check.source,
    '## A spec that it marks',
    spec(check.example),
    '## Better',
    spec(check.better),
    ...(check.caution
      ? []
      : [
          '## To excuse one line',
          `Write \`# allow ${check.code}: and why\` at its end. The reason stays with the spec.`,
        ]),
    '',
  ].join('\n\n');
}
