import assert from 'node:assert/strict';
import type { Message } from 'vscode-languageserver';
import { FrameWriter } from '../../server/framing.ts';

/** What a writer has put on its wire, and how often it waited for another turn of the event loop meanwhile. */
function wire() {
  const bytes: Buffer[] = [];
  const writes: number[] = [];
  const writer = new FrameWriter({
    write(frame, _encoding, done) {
      bytes.push(Buffer.from(frame as string));
      writes.push(bytes.length);
      done();
    },
    on: () => {},
  });
  return { writer, bytes: () => Buffer.concat(bytes), writes: () => writes.length };
}

function messagesIn(bytes: Buffer): unknown[] {
  const found: unknown[] = [];
  for (let at = 0; at < bytes.length; ) {
    const end = bytes.indexOf('\r\n\r\n', at);
    const length = Number(/^Content-Length: (\d+)$/.exec(bytes.toString('latin1', at, end))![1]);
    found.push(JSON.parse(bytes.toString('utf8', end + 4, end + 4 + length)));
    at = end + 4 + length;
  }
  return found;
}

const answer = (id: number, result: unknown) => ({ jsonrpc: '2.0', id, result }) as Message;

describe('the writer of frames', () => {
  it('writes a short message at once and as one', () => {
    const { writer, bytes, writes } = wire();
    void writer.write(answer(1, { name: 'a', text: 'Ø 4 mm' }));
    assert.equal(writes(), 1);
    assert.deepEqual(messagesIn(bytes()), [answer(1, { name: 'a', text: 'Ø 4 mm' })]);
  });

  it('writes a long one whole, letters and quotes and halves of letters included, and lets others go first', async () => {
    // At every place of a letter of two halves a part may end.
    const texts = [0, 1].map((by) => `${'x'.repeat(by)}${'🛡“"\\\n'.repeat(300_000)}\ud83d`);
    const { writer, bytes } = wire();
    let turns = 0;
    const counting = setInterval(() => {}, 1);
    const count = () => {
      turns++;
      if (!isOver) setImmediate(count);
    };
    let isOver = false;
    setImmediate(count);
    const messages = [
      answer(1, { name: 'a', text: texts[0] }),
      answer(2, { sheets: texts.map((text, i) => ({ name: `${i}`, text })), missing: [{ piece: 'p', reason: 'r' }] }),
    ];
    await Promise.all(messages.map((each) => writer.write(each)));
    isOver = true;
    clearInterval(counting);
    assert.deepEqual(messagesIn(bytes()), messages);
    assert.ok(turns > 10, `${turns} turns`);
  });

  it('writes a long list of anything in parts, as it would stand in one piece', async () => {
    const figures = Array.from({ length: 20_000 }, (_, i) => ({
      name: `p${i}.area`,
      value: i % 7 ? i / 3 : null,
      formula: `A = “${i}”\n`,
      ...(i % 5 ? {} : { note: undefined, range: [i, undefined] }),
    }));
    const { writer, bytes, writes } = wire();
    for (const [i, result] of [{ uri: 'a', figures, none: [], empty: {} }, figures].entries()) {
      const before = bytes().length;
      const had = writes();
      await writer.write(answer(i, result));
      assert.ok(writes() > had + 2, `${writes() - had} writes`);
      const frame = bytes().toString('utf8', before);
      assert.equal(frame.slice(frame.indexOf('\r\n\r\n') + 4), JSON.stringify(answer(i, result)));
    }
  });

  it('keeps the order of what is written meanwhile, and is at once again afterwards', async () => {
    const { writer, bytes, writes } = wire();
    const long = answer(1, { name: 'a', text: 'y'.repeat(2_000_000) });
    const all = [long, answer(2, null), answer(3, ['b'])];
    await Promise.all(all.map((each) => writer.write(each)));
    assert.deepEqual(messagesIn(bytes()), all);
    await new Promise((next) => setImmediate(next));
    const before = writes();
    void writer.write(answer(4, null));
    assert.equal(writes(), before + 1);
  });

  it('tells whoever wrote it that it failed, and writes the next', async () => {
    let isBroken = true;
    const heard: string[] = [];
    const writer = new FrameWriter({
      write(frame, _encoding, done) {
        if (isBroken) return done(new Error('no more room'));
        heard.push(String(frame));
        done();
      },
      on: () => {},
    });
    const long = writer.write(answer(1, { text: 'z'.repeat(2_000_000) }));
    const next = writer.write(answer(2, null));
    await assert.rejects(long, /no more room/);
    isBroken = false;
    await next.catch(() => {});
    await writer.write(answer(3, null));
    assert.ok(heard.some((frame) => frame.includes('"id":3')));
  });
});
