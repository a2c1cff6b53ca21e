// What is told in another language: every sentence of ours as it stands in the sources, for the test and for who translates.
//   npm run sentences     what is told with what is put in and has no German yet, signs and units among it
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import ts from 'typescript';
import { keyOf } from '../l10n/say.ts';

const root = path.resolve(import.meta.dirname, '..');

export interface Sources {
  /** What is told with say`…`, and the files that it stands in. */
  readonly said: ReadonlyMap<string, ReadonlySet<string>>;
  /** Every text that stands in quotes: what is told whole is one of them, or put together of them as the program is loaded. */
  readonly quoted: ReadonlySet<string>;
  /** Where something is told before the language is known. */
  readonly tooSoon: readonly string[];
}

export function sourcesRead(): Sources {
  const said = new Map<string, Set<string>>();
  const quoted = new Set<string>();
  const tooSoon: string[] = [];
  for (const folder of ['grammar', 'server'])
    for (const name of readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' })) {
      if (!name.endsWith('.ts') || name.endsWith('.d.ts')) continue;
      const file = `${folder}/${name.replaceAll('\\', '/')}`;
      const source = ts.createSourceFile(
        file,
        readFileSync(path.join(root, file), 'utf8'),
        ts.ScriptTarget.Latest,
        true,
      );
      const look = (node: ts.Node, isLater: boolean): void => {
        if (ts.isTaggedTemplateExpression(node) && node.tag.getText() === 'say') {
          const key = keyOf(partsOf(node.template));
          said.set(key, (said.get(key) ?? new Set()).add(file));
          if (!isLater) tooSoon.push(`${file}: ${key}`);
        } else if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) quoted.add(node.text);
        const within = isLater || ts.isFunctionLike(node) || ts.isPropertyDeclaration(node);
        ts.forEachChild(node, (child) => look(child, within));
      };
      look(source, false);
    }
  return { said, quoted, tooSoon };
}

function partsOf(template: ts.TemplateLiteral): string[] {
  if (ts.isNoSubstitutionTemplateLiteral(template)) return [template.text];
  return [template.head.text, ...template.templateSpans.map(({ literal }) => literal.text)];
}

if (process.argv[1] === import.meta.filename) {
  const german: Record<string, string> = JSON.parse(readFileSync(path.join(root, 'l10n/de.json'), 'utf8'));
  for (const [text, files] of sourcesRead().said) if (!(text in german)) console.log(`${[...files][0]}: ${text}`);
}
