import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { CodeAction, CompletionItem, Hover, TextEdit, WorkspaceEdit } from 'vscode-languageserver-types';
import { URI } from 'vscode-uri';
import { bandedCap, shortRivet } from '../client/specs.ts';
import { ABILITIES, builtServer, Client } from './stdio.ts';

/* A real client and the bundled server, over standard input and output. */

const uri = 'file:///elsewhere/cap.planish';
const document = { textDocument: { uri } };

/** Where a text stands in a spec. */
const positionOf = (text: string, needle: string, offset = 0) => {
  const at = text.indexOf(needle);
  assert.ok(at >= 0, needle);
  const before = text.slice(0, at + offset).split('\n');
  return { line: before.length - 1, character: before[before.length - 1]!.length };
};

/** What must be mended; what is only worth knowing changes with every check that is added. */
const codes = (diagnostics: { code?: unknown; severity?: number }[]) =>
  diagnostics.filter(({ severity = 1 }) => severity <= 2).map(({ code }) => code);

describe('language server', () => {
  let program: string;
  let client: Client;

  before(async () => {
    program = await builtServer();
  });

  after(() => Client.endAll());

  describe('in one conversation', () => {
    before(async () => {
      client = await Client.start({ program });
    });
    after(async () => {
      assert.equal(await client.stop(), 0);
    });
    afterEach(async () => {
      await client.close(uri);
      assert.deepEqual(client.logged, [], 'something was logged as an error');
    });

    it('answers everything that it announces, and announces nothing else', async () => {
      await client.open(uri, bandedCap);
      const position = positionOf(bandedCap, 'joins band', 7);
      const range = { start: { line: 0, character: 0 }, end: { line: 20, character: 0 } };
      const at = { ...document, position };
      const asks: Record<string, readonly (readonly [string, object])[]> = {
        // Which one was agreed on has tests of its own.
        positionEncoding: [],
        textDocumentSync: [],
        workspace: [['workspace/textDocumentContent', { uri: 'planish-docs:/checks/rivet-too-short.md' }]],
        hoverProvider: [['textDocument/hover', at]],
        completionProvider: [['textDocument/completion', at]],
        signatureHelpProvider: [
          ['textDocument/signatureHelp', { ...document, position: positionOf(bandedCap, 'strip 300', 3) }],
        ],
        definitionProvider: [['textDocument/definition', at]],
        declarationProvider: [['textDocument/declaration', at]],
        typeDefinitionProvider: [['textDocument/typeDefinition', at]],
        implementationProvider: [['textDocument/implementation', at]],
        callHierarchyProvider: [['textDocument/prepareCallHierarchy', at]],
        linkedEditingRangeProvider: [['textDocument/linkedEditingRange', at]],
        codeLensProvider: [['textDocument/codeLens', document]],
        colorProvider: [['textDocument/documentColor', document]],
        documentOnTypeFormattingProvider: [
          ['textDocument/onTypeFormatting', { ...at, ch: '\n', options: { tabSize: 2, insertSpaces: true } }],
        ],
        referencesProvider: [['textDocument/references', { ...at, context: { includeDeclaration: true } }]],
        documentHighlightProvider: [['textDocument/documentHighlight', at]],
        documentSymbolProvider: [['textDocument/documentSymbol', document]],
        workspaceSymbolProvider: [['workspace/symbol', { query: 'band' }]],
        codeActionProvider: [
          [
            'textDocument/codeAction',
            {
              ...document,
              range: { start: positionOf(bandedCap, '1/8 x'), end: positionOf(bandedCap, '1/8 x') },
              context: { diagnostics: [] },
            },
          ],
        ],
        documentFormattingProvider: [
          ['textDocument/formatting', { ...document, options: { tabSize: 2, insertSpaces: true } }],
        ],
        documentRangeFormattingProvider: [
          [
            'textDocument/rangesFormatting',
            { ...document, ranges: [range], options: { tabSize: 2, insertSpaces: true } },
          ],
          ['textDocument/rangeFormatting', { ...document, range, options: { tabSize: 2, insertSpaces: true } }],
        ],
        renameProvider: [
          ['textDocument/prepareRename', at],
          ['textDocument/rename', { ...at, newName: 'brow' }],
        ],
        foldingRangeProvider: [['textDocument/foldingRange', document]],
        selectionRangeProvider: [['textDocument/selectionRange', { ...document, positions: [position] }]],
        documentLinkProvider: [['textDocument/documentLink', document]],
        semanticTokensProvider: [
          ['textDocument/semanticTokens/full', document],
          ['textDocument/semanticTokens/full/delta', { ...document, previousResultId: '' }],
          ['textDocument/semanticTokens/range', { ...document, range }],
        ],
        inlayHintProvider: [['textDocument/inlayHint', { ...document, range }]],
      };
      assert.deepEqual(Object.keys(client.result.capabilities).sort(), Object.keys(asks).sort());
      // A tidy spec needs no edits, and this one has no links.
      const mayBeEmpty = new Set([
        'textDocument/formatting',
        'textDocument/rangeFormatting',
        'textDocument/rangesFormatting',
        'textDocument/onTypeFormatting',
        'textDocument/documentColor',
        'textDocument/documentLink',
      ]);
      for (const [method, params] of Object.values(asks).flat()) {
        const answer = await client.request<unknown>(method, params);
        const isEmpty = !answer || (Array.isArray(answer) && !answer.length);
        if (mayBeEmpty.has(method)) assert.ok(Array.isArray(answer), method);
        else assert.ok(!isEmpty, `${method} answered nothing`);
      }
      for (const method of ['textDocument/inlineValue', 'textDocument/moniker'])
        await assert.rejects(client.request(method, { ...at, range }), /Unhandled method/);
    });

    it('says what is wrong on opening, on every change, and nothing after closing', async () => {
      await client.open(uri, shortRivet);
      assert.deepEqual(codes(await client.diagnosticsOf(uri)), ['rivet-too-short']);
      const start = positionOf(shortRivet, '3/16');
      const end = { ...start, character: start.character + 4 };
      await client.change(uri, { start, end }, '5/16');
      assert.deepEqual(codes(await client.diagnosticsOf(uri)), []);
      await client.change(uri, { start: positionOf(shortRivet, 'strip'), end: positionOf(shortRivet, 'strip') }, 'x');
      assert.ok(codes(await client.diagnosticsOf(uri)).includes('unknown-word'));
      await client.close(uri);
      assert.deepEqual(await client.diagnostics(uri, (published) => !published.diagnostics.length), []);
    });

    it('takes a burst of keys as one, and speaks of the last', async () => {
      await client.open(uri, bandedCap);
      await client.diagnosticsOf(uri);
      const before = client.published.length;
      const at = positionOf(bandedCap, 'strip 300', 9);
      let version = 0;
      for (let i = 0; i < 20; i++) version = await client.change(uri, { start: at, end: at }, '0');
      await client.diagnosticsOf(uri);
      const versions = client.published.slice(before).map((published) => published.version ?? 0);
      assert.equal(versions[versions.length - 1], version);
      assert.ok(versions.length < 10, versions.join());
      assert.deepEqual(
        versions,
        [...versions].sort((a, b) => a - b),
      );
    });

    it('hovers with the working and completes with snippets', async () => {
      await client.open(uri, bandedCap);
      const hover = await client.request<Hover>('textDocument/hover', {
        ...document,
        position: positionOf(bandedCap, 'rivets small'),
      });
      assert.match(JSON.stringify(hover.contents), /rivets in one row: \d+.*rounded up/);
      const items = await client.request<CompletionItem[]>('textDocument/completion', {
        ...document,
        position: positionOf(bandedCap, 'strip 300'),
        context: { triggerKind: 1 },
      });
      assert.ok(items.some(({ label, insertTextFormat }) => label === 'disc' && insertTextFormat === 2));
    });

    it('renames, formats and refuses with a reason', async () => {
      await client.open(uri, bandedCap.replace('  from plate', '     from   plate'));
      const at = { ...document, position: positionOf(bandedCap, 'piece band', 7) };
      const edit = await client.request<WorkspaceEdit>('textDocument/rename', { ...at, newName: 'brow' });
      assert.equal(edit.changes?.[uri]?.length, 3);
      await assert.rejects(
        client.request('textDocument/rename', { ...at, newName: 'tab' }),
        /“tab” is the name of a piece already/,
      );
      const edits = await client.request<TextEdit[]>('textDocument/formatting', { ...document, options: {} });
      assert.ok(edits.length);
    });

    it('summarises, explains and writes the papers', async () => {
      await client.open(uri, bandedCap);
      const summary = await client.request<{ mass: string; errors: number }>('planish/summary', { uri });
      assert.match(summary.mass, /^\d+ g$/);
      assert.equal(summary.errors, 0);
      const explained = await client.request<{ figures: { name: string }[] }>('planish/explain', { uri, name: 'band' });
      assert.ok(explained.figures.length && explained.figures.every(({ name }) => name.startsWith('band.')));
      type Placed = { groups: { pieces: { name: string; shift: number[] }[] }[]; unplaced: unknown[] };
      const placed = await client.request<Placed>('planish/assembly', { uri });
      assert.ok(
        placed.groups.length && placed.groups.every(({ pieces }) => pieces.every(({ shift }) => shift.length === 3)),
      );
      assert.equal(await client.request('planish/assembly', { uri: 'file:///nowhere/none.planish' }), null);
      for (const to of ['html', 'csv', 'md', 'json', 'pdf']) {
        const made = await client.request<{ name: string; text?: string; base64?: string }>('planish/cutList', {
          uri,
          to,
        });
        assert.equal(made.name, `cap.cut-list.${to}`);
        if (to === 'pdf') assert.match(made.base64 ?? '', /^JVBERi/);
        else assert.match(made.text ?? '', /band/);
      }
      await assert.rejects(client.request('planish/cutList', { uri, to: 'docx' }), /“docx”/);
      for (const to of ['html', 'md', 'json', 'pdf']) {
        const made = await client.request<{ name: string; text?: string; base64?: string }>('planish/orderList', {
          uri,
          to,
        });
        assert.equal(made.name, `cap.order-list.${to}`);
        if (to === 'pdf') assert.match(made.base64 ?? '', /^JVBERi/);
        else assert.match(made.text ?? '', /order list/i);
      }
      await assert.rejects(client.request('planish/orderList', { uri, to: 'csv' }), /“csv”/);
      for (const [to, sign] of [
        ['svg', /^<\?xml/],
        ['dxf', /AC1009/],
      ] as const) {
        const made = await client.request<{ sheets: { name: string; text: string }[]; missing: object[] }>(
          'planish/layouts',
          { uri, to },
        );
        assert.deepEqual(
          made.sheets.map(({ name }) => name),
          [`cap.plate-1.${to}`],
        );
        assert.match(made.sheets[0]!.text, sign);
        assert.deepEqual(made.missing, []);
      }
      await assert.rejects(client.request('planish/layouts', { uri, to: 'pdf' }), /“pdf”/);
      const { sheets } = await client.request<{ sheets: { name: string; title: string; text: string }[] }>(
        'planish/patterns',
        { uri, to: 'svg', parts: true },
      );
      assert.deepEqual(
        sheets.map(({ name, title }) => [name, title]),
        ['band', 'tab'].map((piece) => [`cap.${piece}.svg`, piece]),
      );
      assert.match(sheets[1]!.text, /data-piece="tab"/);
      assert.doesNotMatch(sheets[1]!.text, /data-piece="band"/);
      for (const [method, to] of [
        ['planish/patterns', 'pdf'],
        ['planish/cutList', 'html'],
      ])
        await assert.rejects(client.request(method!, { uri, to, parts: true }), /cannot be written in parts/);
      assert.equal(await client.request('planish/summary', { uri: 'file:///not/there.planish' }), null);
    });

    it('moves what is cut aside of the kerf, where it is asked to', async () => {
      await client.open(uri, bandedCap.replace('  sheet', '  kerf 0.4 mm\n  sheet'));
      const drawn = async (method: string, kerf?: boolean) =>
        JSON.stringify(await client.request(method, { uri, to: 'svg', ...(kerf === undefined ? {} : { kerf }) }));
      for (const method of ['planish/patterns', 'planish/layouts']) {
        const plain = await drawn(method);
        assert.equal(await drawn(method, false), plain, method);
        assert.notEqual(await drawn(method, true), plain, method);
        for (const kerf of ['0.4 mm', 0.4, null])
          await assert.rejects(
            client.request(method, { uri, to: 'svg', kerf }),
            ({ message }: Error) => message.includes(`true or false, not ${JSON.stringify(kerf)}`),
            method,
          );
      }
      assert.match(await drawn('planish/patterns', true), /half the kerf of 0\.4 mm in the waste/);
      await assert.rejects(
        client.request('planish/patterns', { uri, to: 'pdf', kerf: true }),
        /for a cutter: a PDF is cut by hand/,
      );
    });
  });

  it('shows the stock that comes with Planish, and leaves it as it is', async () => {
    const client = await Client.start({ program });
    const text = 'use "planish:metals"\n\npiece tab\n  from mild-steel-16-ga\n  disc 90 mm\n';
    await client.open(uri, text);
    const name = /^material (\S+)/m.exec(
      (await client.request<{ text: string }>('workspace/textDocumentContent', { uri: 'planish:metals' })).text,
    )?.[1];
    assert.ok(name);
    const at = { start: positionOf(text, 'mild-steel'), end: positionOf(text, '\n  disc') };
    await client.change(uri, at, name);
    assert.deepEqual(codes(await client.diagnosticsOf(uri)), []);
    const position = { ...at.start, character: at.start.character + 1 };
    const [link] = await client.request<{ targetUri: string }[]>('textDocument/definition', { ...document, position });
    assert.equal(link?.targetUri, 'planish:metals');
    await assert.rejects(
      client.request('textDocument/rename', { ...document, position, newName: 'other' }),
      /comes with Planish/,
    );
    assert.equal(await client.stop(), 0);
  });

  it('gives the starter builds', async () => {
    const client = await Client.start({ program });
    const starters = await client.request<{ id: string; title: string }[]>('planish/starters', null);
    assert.ok(starters.length);
    for (const { id } of starters) {
      const { files } = await client.request<{ files: { path: string; text: string }[] }>('planish/newBuild', {
        from: id,
      });
      assert.match(files[0]?.path ?? '', /\.planish$/);
    }
    await assert.rejects(client.request('planish/newBuild', { from: 'nothing' }), /no starter build “nothing”/);
    assert.equal(await client.stop(), 0);
  });

  it('goes on after questions that make no sense', async () => {
    const client = await Client.start({ program });
    await client.open(uri, bandedCap);
    const methods = [
      'hover',
      'completion',
      'definition',
      'references',
      'documentSymbol',
      'rename',
      'prepareRename',
      'formatting',
      'codeAction',
      'foldingRange',
      'selectionRange',
      'semanticTokens/full',
      'inlayHint',
      'signatureHelp',
      'documentLink',
    ];
    const odd: unknown[] = [
      {},
      { textDocument: null },
      { textDocument: { uri: 7 }, position: 'x' },
      { textDocument: { uri: ':::' }, position: { line: -1, character: 1e9 } },
      { textDocument: { uri }, position: { line: 1e9, character: -4 }, range: null, context: null, newName: 3 },
      { textDocument: { uri } },
    ];
    for (const method of methods)
      for (const params of odd) await client.request(`textDocument/${method}`, params).catch(() => undefined);
    for (const method of [
      'planish/summary',
      'planish/explain',
      'planish/assembly',
      'planish/cutList',
      'planish/orderList',
      'planish/buildSheet',
      'planish/quote',
      'planish/layouts',
    ])
      for (const params of [{}, { uri: 3 }, null]) await client.request(method, params).catch(() => undefined);
    for (const params of [
      {},
      { textDocument: {} },
      { textDocument: { uri, version: 9 }, contentChanges: [{ range: 3, text: 4 }] },
    ])
      for (const method of ['didOpen', 'didChange', 'didClose'])
        await client.connection.sendNotification(`textDocument/${method}`, params);
    await client.connection.sendNotification('workspace/didChangeConfiguration', { settings: 'loud' });
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: 3 });
    await client.open('file:///elsewhere/after.planish', shortRivet);
    assert.deepEqual(codes(await client.diagnosticsOf('file:///elsewhere/after.planish')), ['rivet-too-short']);
    assert.equal(await client.stop(), 0);
  });

  describe('with files on disk', () => {
    let folder: string;
    let client: Client;
    const fileUri = (name: string) => URI.file(path.join(folder, 'open', name)).toString();
    const stock = (name: string) => `material ${name}\n  mild steel 16 ga\n`;
    const user = 'use "shop/stock.planish"\n\npiece tab\n  from plate\n  disc 90 mm\n';

    before(async () => {
      folder = mkdtempSync(path.join(tmpdir(), 'planish-'));
      mkdirSync(path.join(folder, 'open/shop'), { recursive: true });
      writeFileSync(path.join(folder, 'open/shop/stock.planish'), stock('plate'));
      writeFileSync(path.join(folder, 'open/other.planish'), user.replace('tab', 'other'));
      writeFileSync(path.join(folder, 'secret.planish'), stock('secret'));
      symlinkSync(path.join(folder, 'secret.planish'), path.join(folder, 'open/link.planish'));
      symlinkSync(folder, path.join(folder, 'open/out'));
      client = await Client.start({
        program,
        params: {
          workspaceFolders: [{ uri: URI.file(path.join(folder, 'open')).toString(), name: 'open' }],
          initializationOptions: { commands: true },
        },
      });
    });
    after(async () => {
      await client.stop();
      rmSync(folder, { recursive: true, force: true });
    });

    it('reads what a spec uses, and again when that changes', async () => {
      const tab = fileUri('tab.planish');
      await client.open(tab, user);
      assert.deepEqual(codes(await client.diagnosticsOf(tab)), []);
      const changed = async (name: string) => {
        writeFileSync(path.join(folder, 'open/shop/stock.planish'), stock(name));
        await client.connection.sendNotification('workspace/didChangeWatchedFiles', {
          changes: [{ uri: fileUri('shop/stock.planish'), type: 2 }],
        });
      };
      await changed('steel');
      await client.diagnostics(tab, ({ diagnostics }) => codes(diagnostics).includes('unknown-name'));
      await changed('plate');
      await client.diagnostics(tab, ({ diagnostics }) => !codes(diagnostics).length);
    });

    it('sees an open stock file as it is typed, before it is saved', async () => {
      const tab = fileUri('tab.planish');
      const used = fileUri('shop/stock.planish');
      await client.open(tab, user);
      await client.open(used, stock('plate'));
      await client.change(used, undefined, stock('typed'));
      await client.diagnostics(tab, ({ diagnostics }) => codes(diagnostics).includes('unknown-name'));
      await client.close(used);
      await client.diagnostics(tab, ({ diagnostics }) => !codes(diagnostics).length);
    });

    it('renames in specs of the folder that nobody has open', async () => {
      const tab = fileUri('tab.planish');
      await client.open(tab, user);
      const edit = await client.request<WorkspaceEdit>('textDocument/rename', {
        textDocument: { uri: tab },
        position: positionOf(user, 'from plate', 6),
        newName: 'cap-steel',
      });
      assert.deepEqual(
        Object.keys(edit.changes ?? {}).sort(),
        [fileUri('other.planish'), fileUri('shop/stock.planish'), tab].sort(),
      );
    });

    it('reads nothing outside the open folders, not even by a link', async () => {
      const tab = fileUri('tab.planish');
      for (const out of ['../secret.planish', 'link.planish', '/etc/passwd', '..%2fsecret.planish']) {
        await client.open(tab, `use "${out}"\n\npiece tab\n  from secret\n  disc 90 mm\n`);
        const found = await client.diagnosticsOf(tab);
        assert.ok(codes(found).includes('use-missing'), `${out}: ${codes(found).join()}`);
        const at = { textDocument: { uri: tab }, position: { line: 3, character: 8 } };
        assert.deepEqual((await client.request<unknown[] | null>('textDocument/definition', at)) ?? [], [], out);
        const actions = await client.request<CodeAction[]>('textDocument/codeAction', {
          textDocument: { uri: tab },
          range: found.find(({ code }) => code === 'use-missing')!.range,
          context: { diagnostics: found },
        });
        const opens = actions.flatMap(({ command }) => command?.arguments ?? []);
        assert.deepEqual(opens, out === '../secret.planish' ? [URI.file(folder).toString()] : [], out);
        await client.close(tab);
        await client.diagnostics(tab, ({ diagnostics }) => !codes(diagnostics).length);
        client.published.length = 0;
      }
    });

    it('offers the files beside a spec, and none from outside, not even by a link', async () => {
      const tab = fileUri('tab.planish');
      for (const [line, offered] of [
        ['use "shop/"', ['stock.planish']],
        ['use "out/"', []],
      ] as const) {
        await client.open(tab, `${line}\n`);
        const items = await client.request<CompletionItem[]>('textDocument/completion', {
          textDocument: { uri: tab },
          position: { line: 0, character: line.length - 1 },
        });
        assert.deepEqual(
          items.map(({ label }) => label),
          offered,
        );
        await client.close(tab);
      }
    });
  });

  it('asks the editor for files that it cannot reach, and follows its settings', async () => {
    let severity: unknown = {};
    const client = await Client.start({
      program,
      params: {
        initializationOptions: { readsFiles: true },
        workspaceFolders: [{ uri: 'vscode-vfs://shop/', name: 'shop' }],
      },
      readFile: (asked) => (asked === 'vscode-vfs://shop/stock.planish' ? 'material plate\n  mild steel 2 mm\n' : null),
      settings: () => ({ checks: { severity } }),
    });
    const remote = 'vscode-vfs://shop/tab.planish';
    const text = 'use "stock.planish"\nuse "none.planish"\n\npiece tab\n  from plate\n  disc 90 mm\n';
    await client.open(remote, text);
    assert.deepEqual(codes(await client.diagnosticsOf(remote)), ['use-missing']);
    severity = { 'use-missing': 'hint' };
    await client.connection.sendNotification('workspace/didChangeConfiguration', { settings: null });
    await client.diagnostics(remote, ({ diagnostics }) =>
      diagnostics.some(({ code, severity: told }) => code === 'use-missing' && told === 4),
    );
    assert.equal(await client.stop(), 0);
  });

  it('knows of specs that are not open from the editor, where it cannot look itself', async () => {
    const shop = 'vscode-vfs://shop';
    const texts: Record<string, string> = {
      [`${shop}/stock.planish`]: 'material plate\n  mild steel 2 mm\n',
      [`${shop}/caps/cap.planish`]: 'use "../stock.planish"\n\npiece cap\n  from plate\n  disc 90 mm\n',
      [`${shop}/other.planish`]: 'material plate\n  brass 1 mm\n',
    };
    const client = await Client.start({
      program,
      params: {
        initializationOptions: { readsFiles: true, findsSpecs: true },
        capabilities: { ...ABILITIES, workspace: { ...ABILITIES.workspace, fileOperations: { willRename: true } } },
        workspaceFolders: [{ uri: `${shop}/`, name: 'shop' }],
      },
      readFile: (asked) => texts[asked] ?? null,
      findSpecs: () => Object.keys(texts),
    });
    const stock = `${shop}/stock.planish`;
    const touched = ({ changes = {} }: WorkspaceEdit) => Object.keys(changes).sort();
    const moved = await client.request<WorkspaceEdit>('workspace/willRenameFiles', {
      files: [{ oldUri: stock, newUri: `${shop}/sheet.planish` }],
    });
    assert.deepEqual(touched(moved), [`${shop}/caps/cap.planish`]);
    await client.open(stock, texts[stock]!);
    const renamed = await client.request<WorkspaceEdit>('textDocument/rename', {
      textDocument: { uri: stock },
      position: { line: 0, character: 10 },
      newName: 'steel',
    });
    assert.deepEqual(touched(renamed), [`${shop}/caps/cap.planish`, stock]);
    // A name that is taken in a spec which has not come yet is taken all the same.
    texts[`${shop}/late.planish`] =
      'use "stock.planish"\n\nmaterial brass-sheet\n  brass 1 mm\n\npiece a\n  from plate\n';
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: `${shop}/late.planish`, type: 1 }],
    });
    await assert.rejects(
      client.request('textDocument/rename', {
        textDocument: { uri: stock },
        position: { line: 0, character: 10 },
        newName: 'brass-sheet',
      }),
      /brass-sheet/,
    );
    assert.equal(await client.stop(), 0);
  });

  describe('with folders that only the editor can list', () => {
    const shop = 'vscode-vfs://host/shop';
    const cap = `${shop}/caps/cap.planish`;
    const file = (name: string) => ({ name, isFolder: false });
    let folders: Record<string, { name: string; isFolder: boolean }[]>;
    let client: Client;

    beforeEach(async () => {
      folders = {
        [shop]: [file('stock.planish'), { name: 'caps', isFolder: true }, file('crest.svg')],
        [`${shop}/caps`]: [file('cap.planish')],
      };
      client = await Client.start({
        program,
        params: {
          initializationOptions: { readsFiles: true, listsFolders: true },
          capabilities: {
            ...ABILITIES,
            workspace: {
              ...ABILITIES.workspace,
              didChangeWatchedFiles: { dynamicRegistration: true, relativePatternSupport: true },
            },
          },
          workspaceFolders: [{ uri: `${shop}/`, name: 'shop' }],
        },
        listFolder: (asked) => {
          const entries = folders[asked];
          if (!entries) throw new Error(`There is no ${asked}.`);
          return entries;
        },
      });
    });
    afterEach(async () => {
      assert.deepEqual(client.logged, []);
      assert.equal(await client.stop(), 0);
    });

    const offered = async (line: string) => {
      await client.open(cap, `${line}\n`);
      const items = await client.request<CompletionItem[]>('textDocument/completion', {
        textDocument: { uri: cap },
        position: { line: 0, character: line.lastIndexOf('"') },
      });
      await client.close(cap);
      return items.map(({ label }) => label).filter((label) => !label.startsWith('planish:'));
    };

    it('offers their files and folders', async () => {
      assert.deepEqual(await offered('use "../"'), ['caps/', 'stock.planish', '../']);
      assert.deepEqual(await offered('outline "../"'), ['caps/', 'crest.svg', '../']);
      assert.deepEqual(await offered('use "../none/"'), []);
    });

    it('offers nothing from outside the open folders', async () => {
      folders['vscode-vfs://host/'] = [file('secret.planish')];
      assert.deepEqual(await offered('use "../../"'), ['../']);
    });

    it('names the file that was likely meant by a use that leads nowhere', async () => {
      await client.open(cap, 'use "../stok.planish"\n');
      const [found] = await client.diagnosticsOf(cap);
      assert.equal(found?.code, 'use-missing');
      assert.match(String(found.message), /did you mean “\.\.\/stock\.planish”/);
    });

    it('asks to be told what comes into them and leaves them, and lists them anew then', async () => {
      assert.deepEqual(await offered('use "../"'), ['caps/', 'stock.planish', '../']);
      const watched = client.registered.flatMap(({ registerOptions }) => registerOptions?.watchers ?? []);
      assert.deepEqual(watched, [{ globPattern: { baseUri: shop, pattern: '*' }, kind: 5 }]);
      folders[shop]!.push({ name: 'greaves', isFolder: true });
      await client.connection.sendNotification('workspace/didChangeWatchedFiles', {
        changes: [{ uri: `${shop}/greaves`, type: 1 }],
      });
      assert.deepEqual(await offered('use "../"'), ['caps/', 'greaves/', 'stock.planish', '../']);
    });
  });

  it('serves an editor that can do next to nothing', async () => {
    const client = await Client.start({ program, params: { capabilities: {} } });
    await client.open(uri, shortRivet);
    const [found] = await client.diagnosticsOf(uri);
    assert.equal(found?.codeDescription, undefined);
    assert.equal(client.result.capabilities.workspace?.textDocumentContent, undefined);
    const items = await client.request<CompletionItem[]>('textDocument/completion', {
      ...document,
      position: positionOf(shortRivet, 'strip 300'),
    });
    assert.ok(
      items.every(({ insertTextFormat, textEdit }) => insertTextFormat !== 2 && !textEdit?.newText.includes('${')),
    );
    const [definition] = await client.request<{ uri: string }[]>('textDocument/definition', {
      ...document,
      position: positionOf(shortRivet, 'joins band', 7),
    });
    assert.equal(definition?.uri, uri);
    assert.equal(await client.stop(), 0);
  });
});
