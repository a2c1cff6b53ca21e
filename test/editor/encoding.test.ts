import assert from 'node:assert/strict';
import fc from 'fast-check';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Diagnostic, SemanticTokens } from 'vscode-languageserver-types';
import { changed, type Encoding, offsetAt, positionAt } from '../../server/editor/workspace/encoding.ts';
import { ABILITIES, builtServer, Client } from './stdio.ts';

const ENCODINGS: readonly Encoding[] = ['utf-8', 'utf-16', 'utf-32'];

/** How many units of a column a text takes, by Node's own coders. */
const lengthIn: Record<Encoding, (text: string) => number> = {
  'utf-8': (text) => Buffer.byteLength(text, 'utf8'),
  'utf-16': (text) => text.length,
  'utf-32': (text) => [...text].length,
};

const texts = fc.string({ unit: fc.constantFrom('a', 'é', 'ß', '½', 'Ж', '漢', '😀', '🛡️', '\n', '\r\n', '\r') });

describe('position encodings', () => {
  for (const encoding of ENCODINGS) {
    it(`${encoding}: a column counts what Node counts, and leads back`, () => {
      fc.assert(
        fc.property(texts, fc.nat(), (text, number) => {
          const document = TextDocument.create('a:b', 'planish', 1, text);
          let at = number % (text.length + 1);
          // Between the halves of a letter, or of a line's end, nobody stands.
          if (/[\uDC00-\uDFFF]/.test(text[at] ?? '') || (text[at] === '\n' && text[at - 1] === '\r')) at--;
          const position = positionAt(document, at, encoding);
          const lineStart = Math.max(text.lastIndexOf('\n', at - 1), text.lastIndexOf('\r', at - 1)) + 1;
          assert.equal(position.character, at === 0 ? 0 : lengthIn[encoding](text.slice(lineStart, at)));
          assert.equal(offsetAt(document, position, encoding), at);
        }),
      );
    });

    it(`${encoding}: of several changes is told what all of them left alone`, () => {
      const change = fc.record({ a: fc.nat(), b: fc.nat(), put: texts });
      fc.assert(
        fc.property(texts, fc.array(change, { minLength: 1, maxLength: 4 }), (text, changes) => {
          let document = TextDocument.create('a:b', 'planish', 1, text);
          const events = changes.map(({ a, b, put }) => {
            const start = positionAt(document, a % (document.getText().length + 1), encoding);
            const end = positionAt(document, b % (document.getText().length + 1), encoding);
            const event = { range: { start, end }, text: put };
            document = changed(document, [event], 2, encoding, TextDocument.update).document;
            return event;
          });
          const before = TextDocument.create('a:b', 'planish', 1, text);
          const { kept } = changed(before, events, 2, encoding, TextDocument.update);
          const now = document.getText();
          assert.equal(text.slice(0, kept.before), now.slice(0, kept.before));
          assert.equal(text.slice(text.length - kept.after), now.slice(now.length - kept.after));
          assert.ok(kept.before + kept.after <= Math.min(text.length, now.length));
        }),
      );
    });

    it(`${encoding}: a change lands where the editor made it`, () => {
      fc.assert(
        fc.property(texts, fc.nat(), fc.nat(), texts, (text, a, b, put) => {
          const document = TextDocument.create('a:b', 'planish', 1, text);
          const whole = (at: number) =>
            /[\uDC00-\uDFFF]/.test(text[at] ?? '') || (text[at] === '\n' && text[at - 1] === '\r') ? at - 1 : at;
          const [from, to] = [whole(a % (text.length + 1)), whole(b % (text.length + 1))].sort((x, y) => x - y) as [
            number,
            number,
          ];
          const range = { start: positionAt(document, from, encoding), end: positionAt(document, to, encoding) };
          const after = changed(document, [{ range, text: put }], 2, encoding, TextDocument.update);
          const now = text.slice(0, from) + put + text.slice(to);
          assert.equal(after.document.getText(), now);
          assert.deepEqual(after.kept, { before: from, after: text.length - to });
        }),
      );
    });
  }

  describe('as agreed on with an editor', () => {
    after(() => Client.endAll());
    const text = 'piece crête\n  disc 90 mm # 🛡️ größte Scheibe, disc 9O mm\n  form "😀", peice\n';

    for (const [offered, agreed] of [
      [['utf-8', 'utf-16'], 'utf-8'],
      [['utf-32'], 'utf-32'],
      [['utf-7', 'utf-16', 'utf-8'], 'utf-16'],
      [undefined, 'utf-16'],
    ] as const)
      it(`${offered?.join(', ') ?? 'nothing'} offered: columns count in ${agreed}`, async () => {
        const client = await Client.start({
          program: await builtServer(),
          params: {
            capabilities: { ...ABILITIES, ...(offered ? { general: { positionEncodings: [...offered] } } : {}) },
          },
        });
        assert.equal(client.result.capabilities.positionEncoding, agreed);
        const uri = 'file:///elsewhere/crest.planish';
        await client.open(uri, text);
        const found: Diagnostic[] = await client.diagnosticsOf(uri);
        const row = text.split('\n')[2]!;
        const unknown = found.find(({ range }) => range.start.line === 2);
        assert.ok(unknown);
        // Every mark of the line begins and ends between two letters, so its columns are those of some piece of it.
        const columns = [...row, ''].map((_, i) => lengthIn[agreed]([...row].slice(0, i).join('')));
        assert.ok(columns.includes(unknown.range.start.character) && columns.includes(unknown.range.end.character));
        const { data } = await client.request<SemanticTokens>('textDocument/semanticTokens/full', {
          textDocument: { uri },
        });
        // The second token of the first line is the name, an é within it.
        assert.equal(data[7], lengthIn[agreed]('crête'));
        // Typed behind the emoji: it lands there.
        const end = lengthIn[agreed](row);
        await client.change(
          uri,
          { start: { line: 2, character: end - lengthIn[agreed]('peice') }, end: { line: 2, character: end } },
          '"é"',
        );
        const hover = await client.request<unknown>('textDocument/documentSymbol', { textDocument: { uri } });
        assert.ok(hover);
        assert.ok(!(await client.diagnosticsOf(uri)).some(({ message }) => String(message).includes('peice')));
        await client.stop();
      });
  });
});
