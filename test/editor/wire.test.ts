import assert from 'node:assert/strict';
import type { Hover } from 'vscode-languageserver-types';
import { bandedCap, shortRivet } from '../client/specs.ts';
import { frame, type Heard, notification, opened, RawClient, request } from './raw.ts';
import { builtServer } from './stdio.ts';

/*
 * What comes over the wire broken, at the wrong time or in the wrong order. Either the server believes afterwards in the
 * right text, and its hover says so; or nobody can know any more where a message begins, and it ends and says why.
 */

const PARSE_ERROR = -32700;
const INVALID_REQUEST = -32600;
const NO_SUCH_METHOD = -32601;
const INVALID_PARAMS = -32602;
const NOT_INITIALIZED = -32002;

const uri = 'file:///elsewhere/cap.planish';
const document = { textDocument: { uri } };

const positionOf = (text: string, needle: string, offset = 0) => {
  const before = text.slice(0, text.indexOf(needle) + offset).split('\n');
  return { line: before.length - 1, character: before[before.length - 1]!.length };
};

describe('a server on a wire', () => {
  let program: string;
  let client: RawClient;
  before(async () => {
    program = await builtServer();
  });
  beforeEach(async () => {
    client = await RawClient.start(program);
  });
  after(() => RawClient.endAll());

  const change = (version: number, ...contentChanges: readonly object[]) =>
    notification('textDocument/didChange', { textDocument: { uri, version }, contentChanges });

  /** What the hover says of the strip of the band: how long it is, as the server believes. */
  const strip = async (text = bandedCap) => {
    const { result, error } = await client.ask('textDocument/hover', {
      ...document,
      position: positionOf(text, 'strip ', 1),
    });
    assert.equal(error, undefined);
    return JSON.stringify((result as Hover | null)?.contents ?? null);
  };
  /** It believes in this text, and goes when it is told to. */
  const believes = async (text: string, length: string) => {
    assert.match(await strip(text), new RegExp(`\\b${length}\\b`));
    assert.equal(await client.stop(), 0);
    assert.equal(client.said, '');
  };
  const longer = bandedCap.replace('strip 300', 'strip 417');

  describe('goes on after', () => {
    it('a message that is no JSON, and answers that it is none', async () => {
      client.write(
        opened(uri, bandedCap),
        frame('{"jsonrpc":"2.0","id":5,"method":'),
        frame(''),
        change(2, { text: longer }),
      );
      await believes(longer, '417');
      const errors = client.heard.filter(({ error }) => error);
      assert.deepEqual(
        errors.map(({ id, error }) => [id, error!.code]),
        [
          [null, PARSE_ERROR],
          [null, PARSE_ERROR],
        ],
      );
    });

    it('letters that are no UTF-8', async () => {
      const body = Buffer.from('{"jsonrpc":"2.0","method":"no/such","params":{"text":"\u00e9"}}', 'latin1');
      client.write(opened(uri, bandedCap), `Content-Length: ${body.length}\r\n\r\n`, body, change(2, { text: longer }));
      await believes(longer, '417');
    });

    it('what is JSON and no message, and answers that it is none', async () => {
      const odd = [
        '[]',
        'null',
        '3',
        '"hover"',
        '{}',
        '{"jsonrpc":"2.0","id":7}',
        '{"jsonrpc":"2.0","id":null,"method":"x"}',
      ];
      client.write(opened(uri, bandedCap), ...odd.map(frame), change(2, { text: longer }));
      await believes(longer, '417');
      const errors = client.heard.filter(({ error }) => error);
      assert.deepEqual(
        errors.map(({ id, error }) => [id, error!.code]),
        odd.map((each) => [each.includes('7') ? 7 : null, INVALID_REQUEST]),
      );
    });

    it('messages that come byte by byte, and many in one piece', async () => {
      client.write(opened(uri, bandedCap));
      for (const byte of Buffer.from(change(2, { text: longer }))) {
        client.write(Uint8Array.of(byte));
        if (byte % 8 === 0) await new Promise((next) => setImmediate(next));
      }
      await client.ask('textDocument/documentSymbol', document);
      assert.match(await strip(longer), /\b417\b/);
      const texts = Array.from({ length: 300 }, (_, i) =>
        change(3 + i, { text: bandedCap.replace('strip 300', `strip ${500 + i}`) }),
      );
      client.write(texts.join(''));
      await believes(bandedCap, '799');
    });

    it('headers in any case, in any order, with more beside them', async () => {
      const body = change(2, { text: longer }).replace(/^.*\r\n\r\n/, '');
      client.write(
        opened(uri, bandedCap),
        `Content-Type: application/vscode-jsonrpc; charset=utf-8\r\ncontent-length:${Buffer.byteLength(body)}\r\n\r\n${body}`,
      );
      await believes(longer, '417');
    });

    it('methods that it does not have: a question is answered so, a notice is let fall', async () => {
      client.write(opened(uri, bandedCap), notification('no/such', {}), notification('$/no/such', {}));
      for (const method of ['no/such', '$/no/such', 'textDocument/moniker'])
        assert.equal((await client.ask(method, {})).error?.code, NO_SUCH_METHOD, method);
      await believes(bandedCap, '300');
    });

    it('a question that names no document', async () => {
      client.write(opened(uri, bandedCap));
      for (const params of [{}, { textDocument: null }, { textDocument: { uri: 7 } }])
        assert.equal((await client.ask('textDocument/hover', params)).error?.code, INVALID_PARAMS);
      await believes(bandedCap, '300');
    });

    it('a second greeting', async () => {
      client.write(opened(uri, bandedCap));
      assert.equal((await client.ask('initialize', { capabilities: {} })).error?.code, INVALID_REQUEST);
      await believes(bandedCap, '300');
    });
  });

  describe('ends and says why after', () => {
    const ends = async (why: RegExp) => {
      assert.equal(await client.ended, 1);
      assert.match(client.said, why);
      assert.match(client.said, /^Planish language server: .* It ends here, to be started anew\.\n$/);
    };

    for (const [what, header, why] of [
      ['a length below nothing', 'Content-Length: -5\r\n\r\n', /the Content-Length “-5”/],
      ['a length that is no number', 'Content-Length: many\r\n\r\n', /the Content-Length “many”/],
      [
        'a length that nobody could wait for',
        'Content-Length: 99999999999\r\n\r\n',
        /the Content-Length “99999999999”/,
      ],
      ['no length', 'Content-Type: x\r\n\r\n', /no Content-Length/],
      ['an empty header', '\r\n\r\n', /no Content-Length/],
      ['line ends without a return', 'Content-Length: 2\n\n{}', /"Content-Length: 2\\n\\n\{\}" where the header/],
      ['something else than a header', '{"jsonrpc":"2.0"}', /where the header of a message should be/],
      ['a header without an end', `X: ${'y'.repeat(5_000)}`, /a header without an end/],
    ] as const)
      it(what, async () => {
        // A message before it is still good.
        client.write(request(1, 'textDocument/documentSymbol', document), header);
        await ends(why);
      });

    it('a length that is too small', async () => {
      const body = JSON.stringify({ jsonrpc: '2.0', method: 'no/such' });
      client.write(`Content-Length: ${body.length - 3}\r\n\r\n${body}`, request(1, 'shutdown'));
      await ends(/where the header of a message should be/);
    });

    it('a length that is too large', async () => {
      const body = JSON.stringify({ jsonrpc: '2.0', method: 'no/such' });
      client.write(`Content-Length: ${body.length + 9}\r\n\r\n${body}`, request(1, 'shutdown'));
      await ends(/a header with no Content-Length/);
    });

    it('a message that is cut off', async () => {
      const whole = opened(uri, bandedCap);
      client.write(whole.slice(0, whole.length - 20));
      client.close();
      await ends(/stopped in the middle of a message/);
    });

    it('a header that is cut off', async () => {
      client.write('Content-Le');
      client.close();
      await ends(/stopped in the middle of a message/);
    });

    it('an editor that goes without a word: with a code and nothing to say', async () => {
      client.close();
      assert.equal(await client.ended, 1);
      assert.equal(client.said, '');
    });
  });

  describe('at the wrong time', () => {
    it('before the greeting answers that it is too early, and knows nothing of what it was told', async () => {
      const fresh = new RawClient(program);
      fresh.write(opened(uri, shortRivet), notification('textDocument/didClose', document));
      for (const method of ['textDocument/hover', 'planish/starters', 'no/such', 'shutdown'])
        assert.equal(
          (await fresh.ask(method, { ...document, position: { line: 0, character: 0 } })).error?.code,
          NOT_INITIALIZED,
        );
      assert.ok((await fresh.greet()).result);
      assert.deepEqual((await fresh.ask('textDocument/documentSymbol', document)).result, []);
      assert.equal(await client.stop(), 0);
      client = fresh;
      client.write(opened(uri, bandedCap));
      await believes(bandedCap, '300');
    });

    it('told to go before the greeting goes, and not as one that was shut down', async () => {
      const fresh = new RawClient(program);
      fresh.write(notification('exit', undefined));
      assert.equal(await fresh.ended, 1);
    });

    it('after shutdown answers that it is too late, finishes what was asked before, and goes', async () => {
      client.write(
        opened(uri, bandedCap),
        request(1, 'textDocument/hover', { ...document, position: positionOf(bandedCap, 'strip ', 1) }),
        request(2, 'shutdown'),
        request(3, 'textDocument/hover', { ...document, position: positionOf(bandedCap, 'strip ', 1) }),
        request(4, 'no/such'),
        request(5, 'shutdown'),
      );
      const answers = await Promise.all([1, 2, 3, 4, 5].map((id) => client.answer(id)));
      assert.match(JSON.stringify(answers[0]!.result), /\b300\b/);
      assert.equal(answers[1]!.result, null);
      for (const late of answers.slice(2)) assert.equal(late.error?.code, INVALID_REQUEST);
      client.write(notification('exit', undefined));
      assert.equal(await client.ended, 0);
    });
  });

  describe('believes in the right text after', () => {
    const far = { line: 1e6, character: 1e6 };

    it('a change of what was never opened', async () => {
      client.write(change(1, { text: longer }));
      assert.equal(await strip(longer), 'null');
      client.write(opened(uri, bandedCap));
      await believes(bandedCap, '300');
    });

    it('versions that go down or stand still: messages keep their order, whatever they are numbered', async () => {
      client.write(
        opened(uri, bandedCap, 7),
        change(3, { text: longer }),
        change(3, { range: rangeOf(longer, '417'), text: '512' }),
        change(1, { range: rangeOf(longer, '417'), text: '635' }),
      );
      await believes(longer, '635');
    });

    it('ranges outside the text, the wrong way round, and no ranges at all', async () => {
      client.write(
        opened(uri, bandedCap),
        change(2, { range: { start: far, end: far }, text: '\n# the end\n' }),
        change(3, {
          range: { start: { line: -4, character: -4 }, end: { line: 0, character: 0 } },
          text: '# the start\n',
        }),
        change(4, { range: 3, text: 4 }, { text: null }),
        change(5, {}),
        notification('textDocument/didChange', { textDocument: { uri, version: 6 }, contentChanges: 'all' }),
        notification('textDocument/didChange', {}),
      );
      const text = `# the start\n${bandedCap}\n# the end\n`;
      const { start, end } = rangeOf(text, '300');
      client.write(change(7, { range: { start: end, end: start }, text: '417' }));
      const symbols = (await client.ask('textDocument/documentSymbol', document)) as Heard & {
        result: { name: string }[];
      };
      assert.ok(symbols.result.some(({ name }) => name === 'band'));
      await believes(text, '417');
    });

    it('being opened twice: what came last', async () => {
      client.write(opened(uri, bandedCap), opened(uri, longer));
      await believes(longer, '417');
    });

    it('being opened with nothing to open', async () => {
      client.write(opened(uri, bandedCap), notification('textDocument/didOpen', { textDocument: {} }));
      client.write(notification('textDocument/didOpen', { textDocument: { uri, version: 2 } }));
      await believes(bandedCap, '300');
    });

    it('being closed twice, and opened again', async () => {
      const closed = notification('textDocument/didClose', document);
      client.write(opened(uri, longer), closed, closed);
      assert.equal(await strip(longer), 'null');
      client.write(opened(uri, bandedCap));
      await believes(bandedCap, '300');
    });

    it('being closed while something is worked out of it, and opened again', async () => {
      const methods = ['hover', 'references', 'codeAction', 'inlayHint', 'semanticTokens/full'];
      const params = {
        ...document,
        position: positionOf(bandedCap, 'strip ', 1),
        range: rangeOf(bandedCap, 'strip 300'),
      };
      client.write(
        opened(uri, bandedCap),
        ...methods.map((method, id) =>
          request(id, `textDocument/${method}`, { ...params, context: { diagnostics: [], includeDeclaration: true } }),
        ),
        request(50, 'planish/patterns', { uri, to: 'svg' }),
        notification('textDocument/didClose', document),
        opened(uri, longer, 9),
      );
      const ids = [...methods.keys(), 50];
      const answers = await Promise.all(ids.map((id) => client.answer(id)));
      // Each is answered once: from a text that there was, or with the reason that there is none.
      for (const id of ids) assert.equal(client.heard.filter((each) => each.id === id && !each.method).length, 1);
      for (const { error } of answers) assert.ok(!error || [-32801, -32803].includes(error.code), error?.message);
      await believes(longer, '417');
    });
  });
});

/** Where a text stands in another. */
function rangeOf(text: string, needle: string) {
  return { start: positionOf(text, needle), end: positionOf(text, needle, needle.length) };
}
