import assert from 'node:assert/strict';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, unlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { CancellationTokenSource } from 'vscode-languageserver-protocol/node';
import type { Diagnostic, DocumentSymbol } from 'vscode-languageserver-types';
import { URI } from 'vscode-uri';
import { bandedCap, shortRivet } from '../client/specs.ts';
import { builtServer, Client } from './stdio.ts';

/* What no editor should send and no disk should hold: the server goes on, and says what is so. */

const uri = 'file:///elsewhere/cap.planish';
const document = { textDocument: { uri } };
const codes = (diagnostics: readonly Diagnostic[]) =>
  diagnostics.filter(({ severity = 1 }) => severity <= 2).map(({ code }) => String(code));

describe('a server that is asked too much', () => {
  let program: string;
  let client: Client;
  before(async () => {
    program = await builtServer();
    client = await Client.start({ program });
  });
  after(async () => {
    assert.equal(await client.stop(), 0);
    Client.endAll();
  });

  /** It still answers about a spec of its own. */
  const lives = async () => {
    const other = 'file:///elsewhere/other.planish';
    await client.open(other, shortRivet);
    assert.deepEqual(codes(await client.diagnosticsOf(other)), ['rivet-too-short']);
    await client.close(other);
  };

  /** Everything that is asked of a text as it is opened and looked at. */
  const readThrough = async (text: string) => {
    await client.open(uri, text);
    const range = { start: { line: 0, character: 0 }, end: { line: 60, character: 0 } };
    const position = { line: 2, character: 4 };
    const [diagnostics, symbols] = await Promise.all([
      client.diagnosticsOf(uri),
      client.request<DocumentSymbol[]>('textDocument/documentSymbol', document),
      client.request('textDocument/semanticTokens/full', document),
      client.request('textDocument/foldingRange', document),
      client.request('textDocument/inlayHint', { ...document, range }),
      client.request('textDocument/hover', { ...document, position }),
      client.request('textDocument/completion', { ...document, position }),
      client.request('textDocument/formatting', { ...document, options: {} }),
      client.request('textDocument/codeLens', document),
    ]);
    await client.close(uri);
    return { diagnostics, symbols };
  };

  describe('by the protocol', () => {
    it('messages that are no messages', async () => {
      const raw = (body: string) =>
        client.child.stdin!.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
      raw('{"jsonrpc":"2.0"}');
      raw('[]');
      raw('null');
      raw('{"jsonrpc":"2.0","id":null,"method":"textDocument/hover"}');
      raw('{"jsonrpc":"2.0","method":"no/such","params":{}}');
      raw('{"jsonrpc":"2.0","id":987654,"result":{}}');
      await lives();
    });

    it('changes and closings of what is not open, openings twice, versions out of order', async () => {
      const send = (method: string, params: object) =>
        client.connection.sendNotification(`textDocument/${method}`, params);
      await send('didChange', { textDocument: { uri, version: 3 }, contentChanges: [{ text: 'piece a\n' }] });
      await send('didClose', document);
      await client.open(uri, 'piece a\n');
      await client.open(uri, bandedCap);
      assert.deepEqual(codes(await client.diagnosticsOf(uri)), []);
      // Messages keep their order, whatever they are numbered: this is the text now.
      await send('didChange', { textDocument: { uri, version: 1 }, contentChanges: [{ text: shortRivet }] });
      await client.diagnostics(uri, ({ diagnostics }) => codes(diagnostics).includes('rivet-too-short'));
      await send('didClose', document);
      await send('didClose', document);
      await lives();
    });

    it('ranges outside of the text, and the wrong way round', async () => {
      await client.open(uri, bandedCap);
      const far = { line: 1e6, character: 1e6 };
      await client.change(uri, { start: far, end: far }, '# end\n');
      await client.change(uri, { start: { line: 3, character: 2 }, end: { line: 1, character: 0 } }, '');
      const symbols = await client.request<DocumentSymbol[]>('textDocument/documentSymbol', document);
      assert.ok(symbols.length > 3);
      await client.close(uri);
      await lives();
    });

    it('closed while it is still working it out', async () => {
      await client.open(uri, bandedCap);
      const asked = ['hover', 'completion', 'references'].map((method) =>
        client
          .request(`textDocument/${method}`, {
            ...document,
            position: { line: 8, character: 11 },
            context: { includeDeclaration: true },
          })
          .catch(() => null),
      );
      await client.close(uri);
      await Promise.all(asked);
      assert.deepEqual(await client.diagnostics(uri, ({ diagnostics }) => !diagnostics.length), []);
      await lives();
    });

    it('a question that is taken back gets that for an answer', async () => {
      await client.open(uri, bandedCap.repeat(30));
      const source = new CancellationTokenSource();
      const asked = client.connection.sendRequest('textDocument/semanticTokens/full', document, source.token);
      source.cancel();
      await assert.rejects(asked, ({ code }: { code: number }) => code === -32800);
      await client.close(uri);
      await lives();
    });
  });

  describe('by the text', () => {
    const head = 'planish 1\n\npiece cap\n  disc 90 mm\n';

    it('5 MB', async () => {
      const note = `  # ${'as bought, as ever, as always, as long as there is any left, '.repeat(8)}\n`;
      const sections = Array.from({ length: 9_900 }, (_, i) => `material m${i}\n  mild steel 1.5 mm\n${note}\n`);
      const text = head + sections.join('');
      assert.ok(text.length > 5_000_000);
      await client.open(uri, text);
      const symbols = await client.request<DocumentSymbol[]>('textDocument/documentSymbol', document);
      assert.equal(symbols.length, 9_901);
      await client.close(uri);
      await lives();
    });

    it('a line of 100,000 characters', async () => {
      const { symbols } = await readThrough(
        `${head}  from ${'x'.repeat(100_000)}\n\nfinish f\n  on ${'cap, '.repeat(20_000)}cap\n`,
      );
      assert.deepEqual(
        symbols.map(({ name }) => name),
        ['cap', 'f'],
      );
    });

    it('halves of letters, marks of order, nothing at all', async () => {
      for (const text of ['', '\uFEFF', '\uFEFFplanish 1\n', `${head}  # \ud83d\n  \udee1 \u202e\u0000\n`, '\ud800'])
        await readThrough(text);
      const { diagnostics } = await readThrough('\uFEFFpiece cap\n  disk 90 mm\n');
      assert.ok(codes(diagnostics).includes('unknown-word'));
    });

    it('any line ends, and all of them in one file', async () => {
      for (const end of ['\r\n', '\r', '\n']) {
        const { diagnostics, symbols } = await readThrough(shortRivet.replaceAll('\n', end));
        assert.deepEqual(codes(diagnostics), ['rivet-too-short'], JSON.stringify(end));
        assert.equal(symbols.length, 6);
      }
      let i = 0;
      const mixed = shortRivet.replace(/\n/g, () => ['\n', '\r\n', '\r'][i++ % 3]!);
      assert.deepEqual(codes((await readThrough(mixed)).diagnostics), ['rivet-too-short']);
    });

    it('arithmetic a thousand brackets deep, and as long', async () => {
      for (const text of [
        `let a = ${'('.repeat(5_000)}1 mm${')'.repeat(5_000)}\n`,
        `let a = ${'-'.repeat(5_000)}1 mm\n`,
        `let a = ${'1 mm + '.repeat(5_000)}1 mm\n`,
        `let a = ${'sqrt('.repeat(3_000)}\n`,
        `${Array.from({ length: 3_000 }, (_, i) => `let a${i} = a${i + 1} + 1 mm\n`).join('')}let a3000 = 1 mm\n`,
      ])
        await readThrough(`${text}\n${head}`);
    });

    it('more of a thing than there is room for', async () => {
      for (const count of ['1e12', '1000000000000', '999999999999999999999999'])
        await readThrough(
          `${bandedCap.replace('make 2', `make ${count}`).replace('make 3', `make ${count}`).replace('every 25 mm', 'every 0.000001 mm')}`,
        );
      await lives();
    });
  });

  describe('by the disk', () => {
    let folder: string;
    let disk: Client;
    const file = (name: string) => path.join(folder, 'open', name);
    const fileUri = (name: string) => URI.file(file(name)).toString();
    const heard = async (name: string, text: string) => {
      await disk.open(fileUri(name), text);
      const found = codes(await disk.diagnosticsOf(fileUri(name)));
      return found;
    };

    before(async () => {
      folder = mkdtempSync(path.join(tmpdir(), 'planish-'));
      mkdirSync(path.join(folder, 'open'), { recursive: true });
      disk = await Client.start({
        program,
        params: { workspaceFolders: [{ uri: URI.file(path.join(folder, 'open')).toString(), name: 'open' }] },
      });
    });
    after(async () => {
      await disk.stop();
      rmSync(folder, { recursive: true, force: true });
    });

    it('a thousand files that use each other in a circle', async () => {
      for (let i = 0; i < 1_000; i++)
        writeFileSync(
          file(`ring-${i}.planish`),
          `use "ring-${(i + 1) % 1_000}.planish"\n\nmaterial m${i}\n  mild steel 1 mm\n`,
        );
      const found = await heard('user.planish', 'use "ring-0.planish"\n\npiece cap\n  from m999\n  disc 90 mm\n');
      assert.ok(!found.includes('unknown-name'), found.join());
    });

    it('a file that may not be read, is a folder, a link to itself, or goes away', async () => {
      const stock = 'material plate\n  mild steel 16 ga\n';
      const text = (name: string) => `use "${name}"\n\npiece cap\n  from plate\n  disc 90 mm\n`;
      mkdirSync(file('folder.planish'));
      symlinkSync(file('loop.planish'), file('loop.planish'));
      writeFileSync(file('closed.planish'), stock);
      chmodSync(file('closed.planish'), 0);
      // Who runs the tests as root may read everything.
      const closed = process.getuid?.() === 0 ? [] : ['closed.planish'];
      for (const name of ['folder.planish', 'loop.planish', ...closed, 'none.planish', '../../../../etc/passwd'])
        assert.ok((await heard('reader.planish', text(name))).includes('use-missing'), name);
      writeFileSync(file('gone.planish'), stock);
      assert.deepEqual(await heard('reader.planish', text('gone.planish')), []);
      unlinkSync(file('gone.planish'));
      await disk.connection.sendNotification('workspace/didChangeWatchedFiles', {
        changes: [{ uri: fileUri('gone.planish'), type: 3 }],
      });
      await disk.diagnostics(fileUri('reader.planish'), ({ diagnostics }) =>
        codes(diagnostics).includes('use-missing'),
      );
    });
  });

  it('one that is killed says nothing false: a new one, told the same, finds the same', async () => {
    const first = await Client.start({ program });
    await first.open(uri, shortRivet);
    const before = await first.diagnosticsOf(uri);
    first.child.kill('SIGKILL');
    const second = await Client.start({ program });
    await second.open(uri, shortRivet);
    assert.deepEqual(await second.diagnosticsOf(uri), before);
    await second.stop();
  });
});
