import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import * as protocol from 'vscode-languageserver-protocol/node';
import { URI } from 'vscode-uri';
import { features } from '../../server/editor/features/all.generated.ts';
import { longSpec } from '../bench/peers/long-spec.ts';
import { bandedCap } from '../client/specs.ts';
import { type Heard, notification, opened, RawClient, request, takeBack } from './raw.ts';
import { ABILITIES, builtServer } from './stdio.ts';

/*
 * A question that is taken back is answered so. Where it waited behind another, nobody ever looks at it; where it is being
 * worked out, that ends. The server says in `$/logTrace` what it begins to work on, and so it can be counted.
 */

const CANCELLED = -32800;
const MODIFIED = -32801;
const NO_SUCH_METHOD = -32601;

const uri = 'file:///elsewhere/cap.planish';
const long = 'file:///elsewhere/long.planish';
const document = { textDocument: { uri } };
const position = { line: 18, character: 9 };
const at = { ...document, position };
const range = { start: { line: 0, character: 0 }, end: { line: 20, character: 0 } };
const layout = { options: { tabSize: 2, insertSpaces: true } };
const item = { name: 'band', kind: 5, uri, range, selectionRange: range, data: { key: 'band', line: 0 } };

/** Every method that the server answers, and something to ask with it. A method that is missing here fails the first test. */
const ASKS: Readonly<Record<string, unknown>> = {
  'textDocument/hover': at,
  'textDocument/completion': at,
  'completionItem/resolve': { label: 'band', data: { uri } },
  'textDocument/signatureHelp': at,
  'textDocument/definition': at,
  'textDocument/declaration': at,
  'textDocument/typeDefinition': at,
  'textDocument/implementation': at,
  'textDocument/references': { ...at, context: { includeDeclaration: true } },
  'textDocument/documentHighlight': at,
  'textDocument/documentSymbol': document,
  'workspace/symbol': { query: 'band' },
  'textDocument/foldingRange': document,
  'textDocument/selectionRange': { ...document, positions: [position] },
  'textDocument/documentLink': document,
  'textDocument/semanticTokens/full': document,
  'textDocument/semanticTokens/full/delta': { ...document, previousResultId: '1' },
  'textDocument/semanticTokens/range': { ...document, range },
  'textDocument/inlayHint': { ...document, range },
  'inlayHint/resolve': { position, label: 'x', data: { uri } },
  'workspace/textDocumentContent': { uri: 'planish:metals' },
  'textDocument/prepareCallHierarchy': at,
  'callHierarchy/incomingCalls': { item },
  'callHierarchy/outgoingCalls': { item },
  'textDocument/codeLens': document,
  'codeLens/resolve': { range, data: { uri, about: 'mass' } },
  'textDocument/documentColor': document,
  'textDocument/colorPresentation': { ...document, range, color: { red: 0, green: 0, blue: 0, alpha: 1 } },
  'textDocument/linkedEditingRange': at,
  'textDocument/formatting': { ...document, ...layout },
  'textDocument/rangeFormatting': { ...document, range, ...layout },
  'textDocument/rangesFormatting': { ...document, ranges: [range], ...layout },
  'textDocument/onTypeFormatting': { ...at, ch: '\n', ...layout },
  'textDocument/codeAction': { ...document, range, context: { diagnostics: [] } },
  'textDocument/prepareRename': at,
  'textDocument/rename': { ...at, newName: 'brow' },
  'workspace/willRenameFiles': { files: [{ oldUri: uri, newUri: 'file:///elsewhere/other.planish' }] },
  'textDocument/diagnostic': document,
  'workspace/diagnostic': { previousResultIds: [] },
  'planish/alive': {},
  'planish/summary': { uri },
  'planish/explain': { uri },
  'planish/assembly': { uri },
  'planish/cutList': { uri, to: 'csv' },
  'planish/orderList': { uri, to: 'md' },
  'planish/buildSheet': { uri, to: 'md' },
  'planish/quote': { uri, to: 'md' },
  'planish/patterns': { uri, to: 'svg' },
  'planish/layouts': { uri, to: 'svg' },
  'planish/starters': {},
  'planish/newBuild': { from: 'cap' },
};

/** What begins and ends a conversation and is no question. */
const LIFE = new Set(['initialize', 'shutdown']);

/** Every request that the protocol lets an editor send. */
const requestsOfTheProtocol = (): string[] => {
  const types = Object.values(protocol) as { method?: unknown; messageDirection?: unknown; type?: unknown }[];
  const isFromEditor = (direction: unknown) =>
    direction === protocol.MessageDirection.clientToServer || direction === protocol.MessageDirection.both;
  return types.flatMap(({ method, messageDirection, type }) =>
    typeof method === 'string' && isFromEditor(messageDirection) && type instanceof protocol.ProtocolRequestType
      ? [method]
      : [],
  );
};

/** Our own, where they are answered. */
const ownRequests = (): string[] =>
  features
    .flatMap(({ requests }) => requests.map(({ method }) => method))
    .filter((method) => /^planish\//.test(method));

/** From a third on a paper is written, and no text is read for it any more. */
const isWriting = ({ params }: Heard): boolean => {
  const { token, value } = (params ?? {}) as { token?: unknown; value?: { percentage?: number } };
  return token === 'far' && (value?.percentage ?? 0) > 35;
};

/** So long the server works before it offers to show it, ms. */
const UNNOTICED_MS = 700;

const asks = Object.entries(ASKS);
const asked = (client: RawClient) => client.heard.filter((each) => each.method === '$/logTrace').length;

describe('a question that is taken back', () => {
  let program: string;
  before(async () => {
    program = await builtServer();
  });
  after(() => RawClient.endAll());

  /** An editor that asks for everything, and hears what the server works on. */
  const start = (params: Partial<protocol.InitializeParams> = {}, window = {}) =>
    RawClient.start(program, {
      trace: 'messages',
      ...params,
      capabilities: {
        ...ABILITIES,
        window,
        workspace: { ...ABILITIES.workspace, configuration: false, fileOperations: { willRename: true } },
        textDocument: { ...ABILITIES.textDocument, diagnostic: {} },
      },
    });

  it('is in the table of this test, whatever the server answers', async () => {
    const client = await start();
    const methods = [...new Set([...requestsOfTheProtocol(), ...ownRequests()])].filter((method) => !LIFE.has(method));
    assert.ok(methods.length > 50, 'the protocol has more than that');
    client.write(opened(uri, bandedCap), ...methods.map((method, id) => request(id, method, ASKS[method] ?? {})));
    const answers = await Promise.all(methods.map((_, id) => client.answer(id)));
    const answered = methods.filter((_, id) => answers[id]!.error?.code !== NO_SUCH_METHOD);
    assert.deepEqual(answered.sort(), Object.keys(ASKS).sort());
    assert.equal(await client.stop(), 0);
  });

  it('while it waits behind a long one is never looked at, whatever it asks', async () => {
    const client = await start();
    const before = asked(client);
    client.write(
      opened(uri, bandedCap),
      opened(long, longSpec(4000)),
      ...asks.flatMap(([method, params], id) => [request(id, method, params), takeBack(id)]),
    );
    const answers = await Promise.all(asks.map((_, id) => client.answer(id)));
    for (const [id, [method]] of asks.entries()) assert.equal(answers[id]!.error?.code, CANCELLED, method);
    assert.equal(asked(client), before, 'something was worked on');
    // The count counts: the same questions, not taken back, are each worked on once.
    for (const [method, params] of asks) {
      const soFar = asked(client);
      const { error } = await client.ask(method, params);
      assert.notEqual(error?.code, CANCELLED, method);
      assert.equal(asked(client), soFar + 1, method);
    }
    assert.equal(await client.stop(), 0);
  });

  it('is no answer to another, nor a second answer', async () => {
    const client = await start();
    client.write(opened(uri, bandedCap), request(1, 'textDocument/hover', at));
    const { result } = await client.answer(1);
    assert.ok(result);
    client.write(takeBack(1), takeBack(77), notification('$/cancelRequest', {}), request(2, 'textDocument/hover', at));
    assert.deepEqual((await client.answer(2)).result, result);
    assert.equal(client.heard.filter(({ id }) => id === 1).length, 1);
    assert.equal(await client.stop(), 0);
  });

  describe('while it is worked out, ends', () => {
    let folder: string;
    let client: RawClient;
    const FILES = 400;
    before(async () => {
      folder = mkdtempSync(path.join(tmpdir(), 'planish-'));
      mkdirSync(path.join(folder, 'many'));
      for (let i = 0; i < FILES; i++) writeFileSync(path.join(folder, `many/spec-${i}.planish`), longSpec(300));
      client = await start({ workspaceFolders: [{ uri: URI.file(folder).toString(), name: 'many' }] });
      client.write(opened(long, longSpec(1500)));
    });
    after(async () => {
      assert.equal(await client.stop(), 0);
      rmSync(folder, { recursive: true, force: true });
    });

    const inLong = { textDocument: { uri: long } };
    const place = { line: 70, character: 9 };
    /** What can take long here, and whether it says how far it has come. */
    const works: readonly (readonly [string, object])[] = [
      ['planish/patterns', { uri: long, to: 'pdf' }],
      ['planish/patterns', { uri: long, to: 'svg' }],
      ['planish/layouts', { uri: long, to: 'dxf' }],
      ['planish/cutList', { uri: long, to: 'html' }],
      ['workspace/diagnostic', { previousResultIds: [] }],
      ['textDocument/references', { ...inLong, position: place, context: { includeDeclaration: true } }],
      ['textDocument/rename', { ...inLong, position: place, newName: 'brow' }],
      ['workspace/willRenameFiles', { files: [{ oldUri: long, newUri: `${long}.planish` }] }],
    ];
    for (const [number, [method, params]] of works.entries()) {
      it(`${method} ${'to' in params ? params.to : ''}`, async () => {
        const id = 100 + number;
        const token = `work ${id}`;
        const told = () =>
          client.heard.filter((each) => each.method === '$/progress' && each.params?.['token'] === token);
        const soFar = asked(client);
        client.write(request(id, method, { ...params, workDoneToken: token }));
        await client.until((each) => each === told()[0] || (!told().length && asked(client) > soFar), 'it never began');
        client.write(takeBack(id));
        const { error } = await client.answer(id);
        assert.equal(error?.code, CANCELLED);
        // What was said to begin is said to end, and had not come to its end.
        const values = told().map((each) => each.params!['value'] as { kind: string; percentage?: number });
        if (values.length) assert.equal(values.at(-1)!.kind, 'end');
        assert.ok(values.every(({ percentage = 0 }) => percentage < 100));
        const heard = client.heard.length;
        assert.ok((await client.ask('planish/summary', { uri: long })).result);
        const late = client.heard.slice(heard).filter((each) => each.method === '$/progress');
        assert.deepEqual(late, [], 'it went on');
      });
    }

    it('planish/patterns pdf, while it is written', async () => {
      client.write(request(150, 'planish/patterns', { uri: long, to: 'pdf', workDoneToken: 'far' }));
      await client.until(isWriting, 'it never came so far');
      client.write(takeBack(150));
      assert.equal((await client.answer(150)).error?.code, CANCELLED);
    });

    it('workspace/symbol, which reads all that a spec uses', async () => {
      const all = URI.file(path.join(folder, 'all.planish')).toString();
      const uses = Array.from({ length: FILES }, (_, i) => `use "many/spec-${i}.planish"\n`).join('');
      const other = await start({ workspaceFolders: [{ uri: URI.file(folder).toString(), name: 'many' }] });
      other.write(opened(all, uses), request(1, 'workspace/symbol', { query: 'band', workDoneToken: 'symbols' }));
      await other.until(({ method }) => method === '$/progress', 'it never began');
      other.write(takeBack(1));
      assert.equal((await other.answer(1)).error?.code, CANCELLED);
      // Asked for again, and not taken back, it finds them all.
      const { result } = (await other.ask('workspace/symbol', { query: 'band-1' })) as Heard & { result: unknown[] };
      assert.ok(result.length >= FILES);
      assert.equal(await other.stop(), 0);
    });

    it('explaining and judging a spec that has just been opened', async () => {
      for (const [number, method] of ['planish/explain', 'textDocument/diagnostic', 'planish/cutList'].entries()) {
        const other = `file:///elsewhere/long-${number}.planish`;
        const soFar = asked(client);
        client.write(
          opened(other, longSpec(4000)),
          request(200 + number, method, { textDocument: { uri: other }, uri: other, to: 'html' }),
        );
        await client.until(() => asked(client) > soFar, 'it never began');
        client.write(takeBack(200 + number));
        assert.equal((await client.answer(200 + number)).error?.code, CANCELLED, method);
        client.write(notification('textDocument/didClose', { textDocument: { uri: other } }));
      }
    });

    it('and short ones are answered before a long one', async () => {
      client.write(opened(uri, bandedCap));
      client.write(request(300, 'planish/patterns', { uri: long, to: 'pdf' }));
      for (let i = 0; i < 5; i++) assert.ok((await client.ask('textDocument/hover', at)).result);
      const order = client.heard
        .filter(({ id, method }) => id !== undefined && method === undefined)
        .map(({ id }) => id);
      assert.ok(!order.includes(300), 'the long one was in the way');
      client.write(takeBack(300));
      assert.equal((await client.answer(300)).error?.code, CANCELLED);
    });

    it('and before a long text that is opened has been read', async () => {
      const other = 'file:///elsewhere/very-long.planish';
      client.write(
        opened(uri, bandedCap),
        opened(other, longSpec(20_000)),
        request(310, 'textDocument/foldingRange', { textDocument: { uri: other } }),
        request(311, 'textDocument/hover', at),
      );
      const { result } = await client.answer(310);
      assert.ok((result as unknown[]).length > 1000);
      const order = client.heard.flatMap(({ id }) => (id === 310 || id === 311 ? [id] : []));
      assert.deepEqual(order, [311, 310]);
      client.write(notification('textDocument/didClose', { textDocument: { uri: other } }));
    });
  });

  describe('while a paper is written, others are answered first:', () => {
    let client: RawClient;
    beforeEach(async () => {
      client = await start();
    });
    afterEach(async () => {
      assert.equal(await client.stop(), 0);
    });

    for (const [method, to, lines] of [
      ['planish/cutList', 'html', 4000],
      ['planish/cutList', 'md', 4000],
      ['planish/cutList', 'pdf', 1000],
      ['planish/patterns', 'svg', 1000],
      ['planish/patterns', 'dxf', 1000],
      ['planish/layouts', 'dxf', 2000],
    ] as const)
      it(`${method} ${to}`, async () => {
        const isPaper = ({ id, method }: Heard) => id === 1 && method === undefined;
        const isHover = ({ id, method }: Heard) => id !== 1 && id !== undefined && method === undefined;
        client.write(opened(uri, bandedCap), opened(long, longSpec(lines)));
        client.write(request(1, method, { uri: long, to, workDoneToken: 'far' }));
        const from = client.heard.length;
        // One after the other, so that there is nearly always one that waits.
        while (!client.heard.some(isPaper)) assert.ok((await client.ask('textDocument/hover', at)).result);
        const heard = client.heard.slice(from);
        const begun = heard.findIndex(isWriting);
        assert.ok(begun >= 0, 'it never said that it is being written');
        assert.ok(heard.slice(begun, heard.findIndex(isPaper)).some(isHover), 'the paper was in the way');
      });
  });

  it('while one large form is meshed and laid flat, hovers of another spec are answered', async () => {
    const client = await start();
    const form = 'file:///elsewhere/form.planish';
    const levels = Array.from(
      { length: 12 },
      (_, i) => `  at ${i * 25} mm, round ${600 + (i % 5) * 9} mm, long ${200 + (i % 4) * 3} mm\n`,
    );
    const text = `material plate\n  mild steel 1.2 mm\npiece large\n  from plate\n  form wrap 200 deg\n${levels.join('')}  flute 5, deep 4 mm, wide 16 mm\n  cut neck from 60 mm on top to 60 mm on top, deep 25 mm\n  raise\n`;
    client.write(opened(uri, bandedCap));
    assert.ok((await client.ask('textDocument/hover', at)).result);
    client.write(opened(form, text), request(1, 'planish/explain', { uri: form }));
    const isDone = ({ id, method }: Heard) => id === 1 && method === undefined;
    let hovers = 0;
    for (; !client.heard.some(isDone); hovers++) assert.ok((await client.ask('textDocument/hover', at)).result);
    assert.ok(hovers > 5, `only ${hovers}`);
    assert.equal(await client.stop(), 0);
  });

  describe('where the editor shows it', () => {
    type Progress = Heard & { params: { token: string; value: { kind: string; title?: string } } };
    const isProgress = (each: Heard): each is Progress => each.method === '$/progress';
    const madeTokens = (client: RawClient) =>
      client.heard
        .filter(({ method }) => method === 'window/workDoneProgress/create')
        .map(({ params }) => params!['token']);

    it('which it is offered unasked, once it takes long', async () => {
      const client = await start({}, { workDoneProgress: true });
      client.write(opened(long, longSpec(1500)), request(1, 'planish/patterns', { uri: long, to: 'pdf' }));
      const begun = await client.until((each) => isProgress(each) && each.params.value.kind === 'begin', 'no progress');
      const { token, value } = (begun as Progress).params;
      assert.equal(value.title, 'Drawing the patterns');
      assert.deepEqual(madeTokens(client), [token]);
      client.write(notification('window/workDoneProgress/cancel', { token }));
      assert.equal((await client.answer(1)).error?.code, CANCELLED);
      assert.ok(client.heard.some((each) => isProgress(each) && each.params.value.kind === 'end'));
      // What is quick shows none; how quick it is hangs on the machine, so until one was.
      client.write(opened(uri, bandedCap));
      for (let took = Number.POSITIVE_INFINITY; took >= UNNOTICED_MS; ) {
        const shown = madeTokens(client).length;
        const from = performance.now();
        assert.ok((await client.ask('planish/cutList', { uri, to: 'csv' })).result);
        took = performance.now() - from;
        if (took < UNNOTICED_MS) assert.equal(madeTokens(client).length, shown);
      }
      assert.equal(await client.stop(), 0);
    });

    it('and the reading of many specs at the start says how far it is', async () => {
      const { diagnostic: _, ...textDocument } = { ...ABILITIES.textDocument, diagnostic: undefined };
      const client = await RawClient.start(program, {
        capabilities: { window: { workDoneProgress: true }, textDocument },
      });
      const COUNT = 10;
      const text = longSpec(3000);
      for (let i = 0; i < COUNT; i++) client.write(opened(`file:///elsewhere/long-${i}.planish`, text));
      const isEnd = (each: Heard) => isProgress(each) && each.params.value.kind === 'end';
      await client.until(isEnd, 'no progress came to its end');
      const kinds = client.heard.filter(isProgress).map(({ params }) => params.value.kind);
      assert.deepEqual([kinds[0], kinds.at(-1)], ['begin', 'end']);
      const [begun] = client.heard.filter(isProgress);
      assert.equal((begun!.params.value as { cancellable?: boolean }).cancellable, false, 'nobody asked for it');
      const published = client.heard.filter(({ method }) => method === 'textDocument/publishDiagnostics');
      assert.equal(published.length, COUNT, 'each is told of once');
      assert.equal(await client.stop(), 0);
    });
  });

  describe('by the text itself', () => {
    const edit = (version: number, text: string) =>
      notification('textDocument/didChange', {
        textDocument: { uri: long, version },
        contentChanges: [{ range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } }, text }],
      });

    it('has no answer where the place that it asks about is no longer there', async () => {
      const client = await start();
      client.write(opened(long, longSpec(4000)));
      const soFar = asked(client);
      client.write(
        request(1, 'textDocument/hover', { textDocument: { uri: long }, position: { line: 60, character: 8 } }),
      );
      await client.until(() => asked(client) > soFar, 'it never began');
      client.write(edit(2, '# one more line\n'));
      assert.equal((await client.answer(1)).error?.code, MODIFIED);
      assert.equal(await client.stop(), 0);
    });

    it('is answered from the new one where it asks about the whole', async () => {
      const client = await start();
      client.write(opened(long, longSpec(4000)));
      const soFar = asked(client);
      client.write(request(1, 'textDocument/diagnostic', { textDocument: { uri: long } }));
      await client.until(() => asked(client) > soFar, 'it never began');
      client.write(edit(2, '  dome 90 mm\n'));
      const { result } = (await client.answer(1)) as Heard & { result: { items: { code: string }[] } };
      assert.ok(result.items.some(({ code }) => code === 'line-outside-section'));
      assert.equal(await client.stop(), 0);
    });
  });
});
