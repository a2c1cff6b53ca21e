/*
 * Which file may import which: part of npm run lint, and the only list of it. Every import counts, of types as of values, and
 * `import()` too: what knows of a type hangs on its file. test/layers.test.ts plants what is forbidden and sees it found.
 */

/** The layers from the bottom up, each with those that it may import besides itself. Arrows point down only. */
const LAYERS = {
  l10n: [],
  grammar: ['l10n'],
  'server/incremental': [],
  'server/geometry': ['l10n', 'server/incremental'],
  'server/trade': ['l10n', 'server/incremental', 'server/geometry'],
  'server/model': ['l10n', 'grammar', 'server/incremental', 'server/geometry', 'server/trade'],
  'server/nest': ['server/incremental', 'server/geometry', 'server/trade'],
  'server/checks': ['l10n', 'grammar', 'server/incremental', 'server/geometry', 'server/trade', 'server/model'],
  'server/output': [
    'l10n',
    'grammar',
    'server/incremental',
    'server/geometry',
    'server/trade',
    'server/model',
    'server/nest',
    'server/checks',
  ],
};

/** The same within the model; what stands right in its folder is one with `things` and all below. */
const IN_MODEL = {
  'server/model/values': [],
  'server/model/names': ['server/model/values'],
  'server/model/forms': ['server/model/values', 'server/model/names'],
  'server/model/shapes': ['server/model/values', 'server/model/names', 'server/model/forms'],
  'server/model/things': ['server/model/values', 'server/model/names', 'server/model/forms', 'server/model/shapes'],
  'server/model/(spec|per-spec)\\.ts': [
    'server/model/values',
    'server/model/names',
    'server/model/forms',
    'server/model/shapes',
    'server/model/things',
  ],
  'server/model/operations': [
    'server/model/values',
    'server/model/names',
    'server/model/forms',
    'server/model/shapes',
    'server/model/things',
    'server/model/(spec|per-spec)\\.ts',
  ],
};

/** Node's own modules stay in the entry points for Node, the files beside them, and the command line. */
const NODE = '^server/((main|cli|disk-files|disk-fonts|disk-texts?)\\.ts$|start|cli/)';
/** Who speaks the editor's protocol. */
const SPEAKS = '^(client/|server/editor/|server/(main|browser|framing)\\.ts$)';

const within = (folder) => (/\\\.ts$/.test(folder) ? `^${folder}$` : `^${folder}/`);
const downward = (layers, inside) =>
  Object.entries(layers).map(([layer, below]) => ({
    name: `${layer.replace(/\\\.ts$/, '')} points down`,
    comment: below.length ? `It may import ${below.join(', ')}.` : 'It imports nothing of the others.',
    severity: 'error',
    from: { path: within(layer) },
    to: { path: inside, pathNot: [layer, ...below].map(within) },
  }));

export default {
  forbidden: [
    { name: 'no circle', severity: 'error', from: {}, to: { circular: true } },
    ...downward(LAYERS, '^(l10n|grammar|server|client|test)/'),
    ...downward(IN_MODEL, '^server/model/'),
    {
      name: 'formulas stand in the trade',
      comment:
        'Who makes a figure of one stands in the folder of its craft; what is only read comes from reckoning/readings.ts.',
      severity: 'error',
      from: { path: '^(grammar|server|client)/', pathNot: '^server/trade/' },
      to: { path: '^server/trade/reckoning/(working|reckon)\\.ts$' },
    },
    {
      name: 'a check knows no other check',
      comment: 'What several of them share stands in checks/support.',
      severity: 'error',
      from: { path: '^server/checks/rules/' },
      to: { path: '^server/checks/rules/' },
    },
    {
      name: 'no command line in the server',
      severity: 'error',
      from: { path: '^server/editor/' },
      to: { path: '^(server/cli|client|test)/' },
    },
    {
      name: 'the client takes types only',
      comment: 'Those of server/requests.ts, and nothing that runs.',
      severity: 'error',
      from: { path: '^client/' },
      to: { path: '^(grammar|server|test)/', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'the client takes the types of requests',
      severity: 'error',
      from: { path: '^client/' },
      to: { path: '^(grammar|server|test)/', pathNot: '^server/requests\\.ts$' },
    },
    {
      name: 'Node at the edge',
      comment: 'The rest runs in a browser too.',
      severity: 'error',
      from: { path: '^(grammar|server|client)/', pathNot: NODE },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'the protocol at the edge',
      comment: 'Only the editor layer and the client know the language server protocol.',
      severity: 'error',
      from: { path: '^(grammar|server)/', pathNot: SPEAKS },
      to: { path: '(^|node_modules/)vscode-language' },
    },
    {
      name: 'the editor in the client',
      severity: 'error',
      from: { path: '^(grammar|server)/' },
      to: { path: '^vscode$' },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
    exclude: { path: 'node_modules/(?!vscode)' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.mts', '.js', '.mjs', '.cjs', '.json'],
      exportsFields: ['exports'],
      conditionNames: ['types', 'import', 'require', 'node', 'default'],
    },
  },
};
