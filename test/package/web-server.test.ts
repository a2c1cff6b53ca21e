import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type Browser, chromium } from 'playwright-core';
import { findBrowser } from '../../.scripts/setup.mjs';

const root = path.resolve(import.meta.dirname, '../..');

/** Where the editor of this test says that the programs of Planish lie. */
const programs = 'https://extension.example/dist/';

interface Message {
  id?: number;
  method?: string;
  params?: unknown;
  result?: unknown;
  error?: { message: string };
}

/** Talks to the packed server in a worker of a real browser: sends all, one after the other's answer, and gives what came back. */
async function converse(browser: Browser, messages: Message[]): Promise<Message[]> {
  const page = await browser.newPage();
  await page.route(`${programs}*`, (route) => {
    const file = path.join(root, 'dist', path.basename(new URL(route.request().url()).pathname));
    return route.fulfill({ path: file, headers: { 'access-control-allow-origin': '*' } });
  });
  const script = readFileSync(path.join(root, 'dist/server-web.js'), 'utf8');
  return page.evaluate(
    async ({ script, messages }) => {
      const worker = new Worker(URL.createObjectURL(new Blob([script], { type: 'text/javascript' })));
      const heard: Message[] = [];
      const asked = new Map<number, () => void>();
      worker.onmessage = ({ data }) => {
        heard.push(data);
        // Whatever the server asks of the editor (settings, watchers), this editor has nothing to say.
        if (data.method && data.id !== undefined) worker.postMessage({ jsonrpc: '2.0', id: data.id, result: null });
        else asked.get(data.id)?.();
      };
      worker.onerror = (event) => heard.push({ error: { message: event.message } });
      for (const message of messages) {
        const answered = new Promise<void>((resolve) =>
          message.id === undefined ? resolve() : asked.set(message.id, resolve),
        );
        worker.postMessage({ jsonrpc: '2.0', ...message });
        await answered;
      }
      return heard;
    },
    { script, messages },
  );
}

describe('the server in a browser', () => {
  let browser: Browser;
  before(async () => {
    const executablePath = findBrowser();
    assert.ok(executablePath, 'no Chromium: the CHROMIUM variable may name one');
    browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  });
  after(() => browser?.close());

  it('starts as a worker, reads a spec and answers', async () => {
    const uri = 'vscode-vfs://anywhere/cap.planish';
    const text = 'planish 1\n\nmaterial plate\n  mild steel 16 ga\n\npiece tab\n  from plate\n  disk 90 mm\n';
    const heard = await converse(browser, [
      {
        id: 1,
        method: 'initialize',
        params: { processId: null, rootUri: null, capabilities: {}, initializationOptions: { programs } },
      },
      { method: 'initialized', params: {} },
      {
        method: 'textDocument/didOpen',
        params: { textDocument: { uri, languageId: 'planish', version: 1, text } },
      },
      { id: 2, method: 'textDocument/hover', params: { textDocument: { uri }, position: { line: 3, character: 14 } } },
      { id: 3, method: 'planish/cutList', params: { uri, to: 'pdf' } },
    ]);
    const answer = (id: number) => JSON.stringify(heard.find((message) => message.id === id && !message.method));
    assert.match(answer(1), /"hoverProvider"/);
    assert.match(answer(2), /mm/);
    // The PDF writer and its typefaces lie beside the server, and are fetched when the first PDF is wanted.
    assert.match(answer(3), /"base64":"JVBERi/);
    const told = heard.filter(({ method }) => method === 'textDocument/publishDiagnostics');
    assert.match(JSON.stringify(told), /disc/);
    assert.deepEqual(
      heard.filter(({ error }) => error),
      [],
    );
  });
});
