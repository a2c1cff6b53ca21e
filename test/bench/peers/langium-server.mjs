// A little block language served by langium over standard input and output, with checks equal to the JSON schema's.
import { EmptyFileSystem } from 'langium';
import { createServicesForGrammar } from 'langium/grammar';
import { startLanguageServer } from 'langium/lsp';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';

const grammar = String.raw`
grammar Parts
entry File: parts+=Part*;
Part: 'part' name=ID '{' props+=Prop* '}';
Prop: {infer Choice} key=('material'|'finish') value=ID
    | {infer Size} key=('thickness'|'width'|'height') value=NUM unit='mm'
    | {infer Note} 'note' text=STRING
    | {infer Joins} 'joins' to+=[Part:ID] (',' to+=[Part:ID])*;
hidden terminal WS: /\s+/;
hidden terminal SL: /\/\/[^\n]*/;
terminal ID: /[a-z_][a-z0-9_]*/;
terminal NUM returns number: /\d+(\.\d+)?/;
terminal STRING: /"[^"\n]*"/;
`;
const CHOICES = { material: ['mild', 'spring', 'brass', 'copper'], finish: ['satin', 'mirror', 'black', 'raw'] };

const connection = createConnection(ProposedFeatures.all);
const services = await createServicesForGrammar({
  grammar,
  languageMetaData: {
    languageId: 'parts',
    fileExtensions: ['.parts'],
    caseInsensitive: false,
    mode: 'production',
  },
  sharedModule: { lsp: { Connection: () => connection } },
  ...EmptyFileSystem,
});
services.validation.ValidationRegistry.register({
  Choice(node, accept) {
    if (!CHOICES[node.key].includes(node.value))
      accept('error', `Unknown ${node.key} '${node.value}'.`, { node, property: 'value' });
  },
  Size(node, accept) {
    const wrong = node.key === 'thickness' ? node.value < 0.3 || node.value > 6 : node.value < 1;
    if (wrong) accept('error', `Out of range: ${node.value}.`, { node, property: 'value' });
  },
  Part(node, accept) {
    for (const key of ['material', 'thickness', 'width', 'height'])
      if (!node.props.some((prop) => prop.key === key)) accept('error', `Missing ${key}.`, { node, property: 'name' });
  },
});
startLanguageServer(services.shared);
