// server/model/forms/all.generated.ts: the list of forms is the folder. Part of npm run generate.
import fs from 'node:fs';

const folder = new URL('../server/model/forms/', import.meta.url);

interface Found {
  readonly name: string;
  readonly file: string;
}

export function formList(): string {
  const files = fs.readdirSync(folder).filter((name) => name.endsWith('.ts') && !name.endsWith('.generated.ts'));
  const forms: (Found & { readonly type: string })[] = [];
  const types = new Map<string, Found>();
  for (const file of files.sort()) {
    const text = fs.readFileSync(new URL(file, folder), 'utf8');
    for (const [, name, type] of text.matchAll(/^export const (\w+): FormKind<(\w+)/gm))
      forms.push({ name: name!, type: type!, file });
    for (const [, type, kind] of text.matchAll(/^export (?:interface|type) (\w+) (?:extends|=) FormOf<'([^']+)'>/gm))
      types.set(type!, { name: kind!, file });
  }
  const imports = forms.flatMap(({ name, type, file }) => {
    const { file: own } = types.get(type)!;
    return own === file
      ? [`import { type ${type}, ${name} } from './${file}';`]
      : [`import { ${name} } from './${file}';`, `import type { ${type} } from './${own}';`];
  });
  const row = ({ name, type }: (typeof forms)[number]) => {
    const kind = types.get(type)!.name;
    return kind === name ? `  ${name},` : `  '${kind}': ${name},`;
  };
  return `// Made by npm run generate from the files of this folder. Do not edit.
import type { FormKind } from './form.ts';
${imports.join('\n')}

/** The finished shape of a piece, measures at the middle of the thickness, mm and degrees. */
export type Form =
${forms.map(({ type }) => `  | ${type}`).join('\n')};

/** Every kind of form. One that leaves out what must be known of it does not compile. */
export const FORMS: { readonly [Kind in Form['kind']]: FormKind<Extract<Form, { kind: Kind }>, Form> } = {
${forms.map(row).join('\n')}
};
`;
}
