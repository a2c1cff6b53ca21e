import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { ProgressType } from 'vscode-languageserver-protocol/node';
import type {
  CallHierarchyIncomingCall,
  CallHierarchyItem,
  CallHierarchyOutgoingCall,
  CodeAction,
  CodeLens,
  ColorInformation,
  CompletionItem,
  Diagnostic,
  InlayHint,
  LocationLink,
  SemanticTokens,
  SemanticTokensDelta,
  TextEdit,
  WorkspaceEdit,
} from 'vscode-languageserver-types';
import { URI } from 'vscode-uri';
import { bandedCap, shortRivet } from '../client/specs.ts';
import { ABILITIES, builtServer, Client, type ClientOptions } from './stdio.ts';

/* One conversation a capability, over standard input and output, with an editor that has it. */

const uri = 'file:///elsewhere/cap.planish';
const document = { textDocument: { uri } };

const positionOf = (text: string, needle: string, offset = 0) => {
  const at = text.indexOf(needle);
  assert.ok(at >= 0, needle);
  const before = text.slice(0, at + offset).split('\n');
  return { line: before.length - 1, character: before[before.length - 1]!.length };
};

const codes = (diagnostics: readonly Diagnostic[]) =>
  diagnostics.filter(({ severity = 1 }) => severity <= 2).map(({ code }) => code);

describe('language server, feature by feature', () => {
  let program: string;
  before(async () => {
    program = await builtServer();
  });
  after(() => Client.endAll());

  const start = (options: ClientOptions = {}) => Client.start({ program, ...options });

  describe('to an editor that can do it all', () => {
    let client: Client;
    before(async () => {
      client = await start({
        params: { initializationOptions: { commands: true, pictures: true } },
      });
    });
    after(async () => assert.equal(await client.stop(), 0));
    afterEach(async () => {
      await client.close(uri);
      assert.deepEqual(client.logged, [], 'something was logged as an error');
    });

    it('lenses say mass, cut list and uses, and the uses can be gone to', async () => {
      await client.open(uri, bandedCap);
      const lenses = await client.request<CodeLens[]>('textDocument/codeLens', document);
      assert.ok(lenses.every((lens) => lens.command === undefined && lens.data));
      const resolved = await Promise.all(lenses.map((lens) => client.request<CodeLens>('codeLens/resolve', lens)));
      const line = (needle: string) => positionOf(bandedCap, needle).line;
      const titles = (needle: string) =>
        resolved.filter(({ range }) => range.start.line === line(needle)).map(({ command }) => command?.title);
      assert.match(titles('build "')[0]!, /^\d+ g in all$/);
      assert.equal(titles('build "')[1], 'Cut list');
      assert.match(titles('build "')[2]!, /^\d cautions?: /);
      assert.match(titles('piece tab')[0]!, /^\d+ g each, 3 made$/);
      assert.equal(titles('piece tab')[1], 'used once');
      assert.deepEqual(titles('material plate'), ['used twice']);
      const uses = resolved.find(({ command }) => command?.title === 'used twice')!.command!;
      assert.equal(uses.command, 'planish.showUses');
      assert.equal(((uses.arguments ?? [])[2] as unknown[]).length, 2);
    });

    it('tokens go as a change, and the change makes the whole', async () => {
      await client.open(uri, bandedCap);
      const first = await client.request<SemanticTokens>('textDocument/semanticTokens/full', document);
      const at = positionOf(bandedCap, 'strip 300');
      await client.change(uri, { start: at, end: at }, 'plate 1 x 2 mm\n  ');
      const delta = await client.request<SemanticTokensDelta>('textDocument/semanticTokens/full/delta', {
        ...document,
        previousResultId: first.resultId,
      });
      const whole = await client.request<SemanticTokens>('textDocument/semanticTokens/full', document);
      assert.equal(delta.edits.length, 1);
      const [edit] = delta.edits;
      assert.ok(edit!.data!.length < 40, 'only what changed goes over the wire');
      const made = [...first.data];
      made.splice(edit!.start, edit!.deleteCount, ...(edit!.data ?? []));
      assert.deepEqual(made, whole.data);
      const unknown = await client.request<SemanticTokens>('textDocument/semanticTokens/full/delta', {
        ...document,
        previousResultId: 'long gone',
      });
      assert.deepEqual(unknown.data, whole.data);
    });

    it('a new line lays out the one that was left, and no other', async () => {
      const text = bandedCap
        .replace('  strip 300 x 40 mm', '     strip   300x40mm\n')
        .replace('  make 3', '      make 3');
      await client.open(uri, text);
      const edits = await client.request<TextEdit[]>('textDocument/onTypeFormatting', {
        ...document,
        position: { line: positionOf(text, 'strip   300').line + 1, character: 0 },
        ch: '\n',
        options: { tabSize: 2, insertSpaces: true },
      });
      const line = positionOf(text, 'strip   300').line;
      assert.ok(edits.length > 0);
      assert.ok(edits.every(({ range }) => range.start.line === line && range.end.line === line));
      const ranges = [line, positionOf(text, 'make 3').line].map((row) => ({
        start: { line: row, character: 0 },
        end: { line: row, character: 3 },
      }));
      const both = await client.request<TextEdit[]>('textDocument/rangesFormatting', {
        ...document,
        ranges,
        options: { tabSize: 2, insertSpaces: true },
      });
      assert.deepEqual(
        [...new Set(both.map(({ range }) => range.start.line))].sort((a, b) => a - b),
        ranges.map(({ start }) => start.line),
      );
    });

    it('says what a thing is made of, and what is made of it', async () => {
      await client.open(uri, bandedCap);
      const links = (method: string, needle: string, offset: number) =>
        client.request<LocationLink[]>(`textDocument/${method}`, {
          ...document,
          position: positionOf(bandedCap, needle, offset),
        });
      const lines = (all: LocationLink[]) => all.map(({ targetSelectionRange }) => targetSelectionRange.start.line);
      const line = (needle: string) => positionOf(bandedCap, needle).line;
      assert.deepEqual(lines(await links('typeDefinition', 'joins band', 7)), [line('material plate')]);
      assert.deepEqual(lines(await links('implementation', 'material plate', 10)), [
        line('piece band'),
        line('piece tab'),
      ]);
      assert.deepEqual(await links('declaration', 'joins band', 7), await links('definition', 'joins band', 7));
    });

    it('follows what uses a thing, and what it is made from', async () => {
      await client.open(uri, bandedCap);
      const [band] = await client.request<CallHierarchyItem[]>('textDocument/prepareCallHierarchy', {
        ...document,
        position: positionOf(bandedCap, 'piece band', 7),
      });
      assert.equal(band?.detail, 'piece');
      const users = await client.request<CallHierarchyIncomingCall[]>('callHierarchy/incomingCalls', { item: band });
      assert.deepEqual(
        users.map(({ from, fromRanges }) => [from.name, fromRanges.length]),
        [['band-line', 2]],
      );
      const made = await client.request<CallHierarchyOutgoingCall[]>('callHierarchy/outgoingCalls', {
        item: users[0]!.from,
      });
      assert.deepEqual(made.map(({ to }) => to.name).sort(), ['band', 'small', 'tab']);
    });

    it('a name and its uses are typed over together', async () => {
      await client.open(uri, bandedCap);
      const linked = await client.request<{ ranges: unknown[] }>('textDocument/linkedEditingRange', {
        ...document,
        position: positionOf(bandedCap, 'piece band', 7),
      });
      assert.equal(linked.ranges.length, 3);
    });

    it('knows the colours that a paint is named by', async () => {
      const text = 'planish 1\n\nfinish parade\n  paint "#a03020"\n  paint "black", coats 2\n  paint "harbour grey"\n';
      await client.open(uri, text);
      const colours = await client.request<ColorInformation[]>('textDocument/documentColor', document);
      assert.deepEqual(
        colours.map(({ range, color }) => [range.start.line, Math.round(color.red * 255)]),
        [
          [3, 0xa0],
          [4, 0],
        ],
      );
      const [shown] = await client.request<{ label: string }[]>('textDocument/colorPresentation', {
        ...document,
        ...colours[0]!,
      });
      assert.equal(shown?.label, '#a03020');
    });

    it('offers fractions of an inch with their millimetres, and tells more of the name that is looked at', async () => {
      const text = bandedCap.replace('strip 300 x 40 mm', 'strip 3/');
      await client.open(uri, text);
      const at = (needle: string, offset: number) => ({ ...document, position: positionOf(text, needle, offset) });
      const items = await client.request<CompletionItem[]>('textDocument/completion', at('strip 3/', 8));
      const fraction = items.find(({ label }) => label === '3/8 in');
      assert.equal(fraction?.detail, '9.525 mm');
      const names = await client.request<CompletionItem[]>('textDocument/completion', at('from plate', 5));
      const plate = names.find(({ label }) => label === 'plate');
      assert.ok(plate && plate.documentation === undefined);
      assert.deepEqual(plate.commitCharacters, [',']);
      const resolved = await client.request<CompletionItem>('completionItem/resolve', plate);
      assert.match(JSON.stringify(resolved.documentation), /mild steel 16 ga/);
    });

    it('makes no file for an editor that cannot', async () => {
      await client.open(uri, bandedCap);
      const at = positionOf(bandedCap, 'material plate');
      const actions = await client.request<CodeAction[]>('textDocument/codeAction', {
        ...document,
        range: { start: at, end: at },
        context: { diagnostics: [], only: ['refactor.extract'] },
      });
      // This editor has not said that it can make files.
      assert.deepEqual(actions, []);
    });
  });

  it('hints are worked out when pointed at, and can be taken into the spec', async () => {
    const client = await start({
      params: {
        capabilities: {
          ...ABILITIES,
          textDocument: { ...ABILITIES.textDocument, inlayHint: { resolveSupport: { properties: ['tooltip'] } } },
        },
      },
    });
    await client.open(uri, bandedCap);
    const range = { start: { line: 0, character: 0 }, end: { line: 40, character: 0 } };
    const hints = await client.request<InlayHint[]>('textDocument/inlayHint', { ...document, range });
    assert.ok(hints.every(({ tooltip }) => tooltip === undefined));
    const blank = hints.find(({ label }) => /^blank 300/.test(String(label)))!;
    assert.equal(blank.textEdits?.[0]?.newText, '\n  blank 300 x 40 mm');
    const resolved = await client.request<InlayHint>('inlayHint/resolve', blank);
    assert.match(JSON.stringify(resolved.tooltip), /mass/);
    // What was taken in is not offered again, and says the same.
    const end = blank.position;
    await client.change(uri, { start: end, end }, blank.textEdits![0]!.newText);
    const after = await client.request<InlayHint[]>('textDocument/inlayHint', { ...document, range });
    assert.ok(!after.some(({ textEdits }) => textEdits?.[0]?.newText.includes('300')));
    assert.deepEqual(codes(await client.diagnosticsOf(uri)), []);
    await client.stop();
  });

  it('lenses are text alone where the editor lacks our commands, and go where they are switched off', async () => {
    let enabled = true;
    const client = await start({ settings: () => ({ lenses: { enabled } }) });
    await client.open(uri, bandedCap);
    const lenses = await client.request<CodeLens[]>('textDocument/codeLens', document);
    const resolved = await Promise.all(lenses.map((lens) => client.request<CodeLens>('codeLens/resolve', lens)));
    assert.ok(resolved.length && resolved.every(({ command }) => command?.command === ''));
    enabled = false;
    await client.connection.sendNotification('workspace/didChangeConfiguration', { settings: null });
    await client.until(() => client.refreshed.includes('inlayHint'));
    assert.deepEqual(await client.request('textDocument/codeLens', document), []);
    await client.stop();
  });

  describe('to an editor that asks for diagnostics', () => {
    let folder: string;
    let client: Client;
    const fileUri = (name: string) => URI.file(path.join(folder, name)).toString();
    interface Report {
      kind: 'full' | 'unchanged';
      resultId: string;
      items: Diagnostic[];
      uri: string;
    }
    const pull = (asked: string, previousResultId?: string) =>
      client.request<Report>('textDocument/diagnostic', { textDocument: { uri: asked }, previousResultId });

    before(async () => {
      folder = mkdtempSync(path.join(tmpdir(), 'planish-'));
      mkdirSync(path.join(folder, 'shop'));
      writeFileSync(path.join(folder, 'shop/stock.planish'), 'material plate\n  mild steel 16 ga\n');
      writeFileSync(
        path.join(folder, 'tab.planish'),
        'use "shop/stock.planish"\n\npiece tab\n  from plate\n  disc 90 mm\n',
      );
      writeFileSync(path.join(folder, 'broken.planish'), 'piece tab\n  from nothing\n  disc 90 mm\n');
      client = await start({
        params: {
          workspaceFolders: [{ uri: URI.file(folder).toString(), name: 'build' }],
          capabilities: {
            ...ABILITIES,
            workspace: { ...ABILITIES.workspace, diagnostics: { refreshSupport: true } },
            textDocument: { ...ABILITIES.textDocument, diagnostic: {} },
          },
        },
      });
    });
    after(async () => {
      await client.stop();
      rmSync(folder, { recursive: true, force: true });
    });

    it('tells them when asked, only if they changed, and never unasked', async () => {
      await client.open(uri, shortRivet);
      const first = await pull(uri);
      assert.deepEqual(codes(first.items), ['rivet-too-short']);
      assert.ok(first.items.find(({ code }) => code === 'rivet-too-short')?.codeDescription?.href);
      const again = await pull(uri, first.resultId);
      assert.deepEqual(again, { kind: 'unchanged', resultId: first.resultId });
      const at = positionOf(shortRivet, '3/16');
      await client.change(uri, { start: at, end: { ...at, character: at.character + 4 } }, '5/16');
      const mended = await pull(uri, first.resultId);
      assert.deepEqual([mended.kind, codes(mended.items)], ['full', []]);
      await client.close(uri);
      assert.deepEqual(client.published, []);
    });

    it('asks to be asked again where a change reaches another spec', async () => {
      const tab = fileUri('tab.planish');
      const stock = fileUri('shop/stock.planish');
      await client.open(tab, 'use "shop/stock.planish"\n\npiece tab\n  from plate\n  disc 90 mm\n');
      assert.deepEqual(codes((await pull(tab)).items), []);
      await client.open(stock, 'material plate\n  mild steel 16 ga\n');
      client.refreshed.length = 0;
      await client.change(stock, undefined, 'material sheet\n  mild steel 16 ga\n');
      await client.until(() => client.refreshed.includes('diagnostic'));
      assert.deepEqual(codes((await pull(tab)).items), ['unknown-name']);
      await client.close(stock);
      await client.close(tab);
    });

    it('goes through every spec of the folders, in parts and with progress', async () => {
      const parts: Report[] = [];
      const heard: string[] = [];
      client.connection.onProgress(new ProgressType<{ items: Report[] }>(), 'parts', ({ items }) => {
        parts.push(...items);
      });
      client.connection.onProgress(new ProgressType<{ kind: string }>(), 'work', ({ kind }) => {
        heard.push(kind);
      });
      const whole = await client.request<{ items: Report[] }>('workspace/diagnostic', { previousResultIds: [] });
      const names = (reports: Report[]) => reports.map((report) => path.basename(URI.parse(report.uri).fsPath)).sort();
      assert.deepEqual(names(whole.items), ['broken.planish', 'stock.planish', 'tab.planish']);
      const broken = whole.items.find((report) => report.uri.endsWith('broken.planish'))!;
      assert.deepEqual(codes(broken.items), ['unknown-name']);
      const again = await client.request<{ items: Report[] }>('workspace/diagnostic', {
        previousResultIds: whole.items.map((report) => ({ uri: report.uri, value: report.resultId })),
        partialResultToken: 'parts',
        workDoneToken: 'work',
      });
      assert.deepEqual(again.items, []);
      assert.deepEqual(names(parts), names(whole.items));
      assert.ok(parts.every(({ kind }) => kind === 'unchanged'));
      assert.deepEqual([heard[0], heard[heard.length - 1]], ['begin', 'end']);
    });
  });

  it('files and folders that move take the lines that use them along', async () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'planish-'));
    const fileUri = (name: string) => URI.file(path.join(folder, name)).toString();
    mkdirSync(path.join(folder, 'shop'));
    mkdirSync(path.join(folder, 'caps'));
    writeFileSync(
      path.join(folder, 'shop/stock.planish'),
      'use "rivets.planish"\n\nmaterial plate\n  mild steel 16 ga\n',
    );
    writeFileSync(path.join(folder, 'shop/rivets.planish'), 'rivet small\n  brass 1/8 x 3/8 in\n');
    writeFileSync(path.join(folder, 'caps/cap.planish'), 'use "../shop/stock.planish"\nuse "planish:metals"\n');
    const client = await start({
      params: {
        workspaceFolders: [{ uri: URI.file(folder).toString(), name: 'build' }],
        capabilities: { ...ABILITIES, workspace: { ...ABILITIES.workspace, fileOperations: { willRename: true } } },
      },
    });
    const filters = client.result.capabilities.workspace?.fileOperations?.willRename?.filters;
    // Of every scheme: what an editor has open moves on a virtual file system too.
    assert.deepEqual(
      filters?.map(({ scheme, pattern }) => [scheme, pattern.glob]),
      [
        [undefined, '**/*.{planish,svg,dxf}'],
        [undefined, '**'],
      ],
    );
    const move = async (from: string, to: string) => {
      const edit = await client.request<WorkspaceEdit>('workspace/willRenameFiles', {
        files: [{ oldUri: fileUri(from), newUri: fileUri(to) }],
      });
      return Object.fromEntries(
        Object.entries(edit.changes ?? {}).map(([file, edits]) => [
          path.relative(folder, URI.parse(file).fsPath),
          edits.map(({ newText }) => newText),
        ]),
      );
    };
    // The stock is renamed: who uses it follows.
    assert.deepEqual(await move('shop/stock.planish', 'shop/sheet.planish'), {
      'caps/cap.planish': ['"../shop/sheet.planish"'],
    });
    // A whole folder moves: its files still find each other, and the others find them.
    assert.deepEqual(await move('shop', 'stores/shop'), { 'caps/cap.planish': ['"../stores/shop/stock.planish"'] });
    // A spec moves: what it uses is further away.
    assert.deepEqual(await move('caps/cap.planish', 'cap.planish'), { 'caps/cap.planish': ['"shop/stock.planish"'] });
    await client.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  it('makes files for an editor that can', async () => {
    const client = await start({
      params: {
        capabilities: {
          ...ABILITIES,
          workspace: {
            ...ABILITIES.workspace,
            workspaceEdit: { documentChanges: true, resourceOperations: ['create'] },
          },
        },
      },
    });
    await client.open(uri, bandedCap);
    const at = positionOf(bandedCap, 'material plate');
    const actions = await client.request<CodeAction[]>('textDocument/codeAction', {
      ...document,
      range: { start: at, end: at },
      context: { diagnostics: [], only: ['refactor.extract'] },
    });
    const [create] = actions[0]?.edit?.documentChanges ?? [];
    assert.deepEqual(create, { kind: 'create', uri: 'file:///elsewhere/stock.planish', options: { overwrite: false } });
    await client.stop();
  });
});
