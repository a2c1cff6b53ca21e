// A page of a workbench that runs the editor suite: opened in our own Chromium, and heard until it says how it ended.
import path from 'node:path';
import { root } from '../../.scripts/setup.mjs';
import { launchBrowser } from './workbench.mjs';

/** For a workbench that never gets as far as the tests, or that hangs with them: each of them has a limit of its own. */
const timeLimit = Number(process.env.EDITOR_TESTS_SECONDS ?? 1800) * 1000;

/**
 * Whether all tests passed; undefined where the run broke off, which is told with a picture. `hear` is given what the
 * extension host writes to its console, as the values that were written; what the page itself writes is told where a run breaks off.
 */
export async function runTestPage(chromium, address, { picture, hear }) {
  const browser = await launchBrowser(chromium);
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const written = [];
  const write = (text) => written.push(text.slice(0, 500));
  page.on('console', (message) => write(message.text()));
  page.on('pageerror', (error) => write(error.stack || String(error)));
  page.on('requestfailed', (request) => write(`${request.url()}: ${request.failure()?.errorText}`));
  try {
    const ended = new Promise((resolve, reject) => {
      page.on('crash', () => reject(new Error('the page of the workbench crashed')));
      setTimeout(() => reject(new Error(`no end after ${timeLimit / 1000} s`)), timeLimit).unref();
      // The workbench calls this when the extension host has run the tests.
      page.exposeFunction('codeAutomationExit', resolve);
    });
    await page.exposeFunction('codeAutomationLog', (_kind, parts) => hear(parts));
    await page.goto(address, { waitUntil: 'commit' });
    return (await ended) === 0;
  } catch (error) {
    console.error(`  The run of the editor tests broke off: ${error.message}`);
    console.error(written.slice(-30).join('\n'));
    const file = path.join(root, '.ci-output', picture);
    await page.screenshot({ path: file }).then(
      () => console.error(`  What was on the screen: ${file}`),
      () => {},
    );
    return undefined;
  } finally {
    await browser.close().catch(() => {});
  }
}
