// npm run screenshots [-- options]: pictures of the real editor with the packed extension, in a light, a dark and a high-contrast
// theme, into .ci-output/screenshots/. For looking at, and for the README.
//   --file FILE         one spec, as sallet/sallet.planish (may be repeated; otherwise every build of samples/)
//   --hover TEXT        hover over this text (with --nth N, its Nth appearance) …
//   --complete TEXT     … and ask for completions at the end of the line that holds this text
//   --figures TEXT      … and the panel of figures of what this text belongs to
//   --paper NAME        … and the panel of a paper: “cut list”, “patterns”
//   --reveal TEXT       scroll to this text first
//   --theme NAME        one theme only: light, dark or contrast
//   --size 1280x800     the window
//   --alone             the editor without the side bar
//   --packed            take the .vsix that is there
import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { build, findBrowser, main, pack, packagePath, root, SetupError } from '../../.scripts/setup.mjs';
import { installWorkbench, launchBrowser, startWorkbench } from './workbench.mjs';

const { values: options } = parseArgs({
  options: {
    file: { type: 'string', multiple: true },
    hover: { type: 'string' },
    nth: { type: 'string', default: '1' },
    complete: { type: 'string' },
    figures: { type: 'string' },
    paper: { type: 'string' },
    reveal: { type: 'string' },
    theme: { type: 'string' },
    size: { type: 'string', default: '1280x800' },
    alone: { type: 'boolean', default: false },
    packed: { type: 'boolean', default: false },
  },
});

const themes = { light: 'Default Light Modern', dark: 'Default Dark Modern', contrast: 'Default High Contrast' };
const output = path.join(root, '.ci-output/screenshots');

/** Every spec of the samples that is a build, not something builds share, and made to be looked at. */
function builds() {
  const samples = path.join(root, 'samples');
  return readdirSync(samples, { recursive: true })
    .filter((file) => file.endsWith('.planish') && !file.startsWith('faults'))
    .filter((file) => /^build\s/m.test(readFileSync(path.join(samples, file), 'utf8')))
    .sort();
}

async function picture(chromium, theme, files) {
  const workbench = await startWorkbench({
    testing: true,
    vsix: packagePath(),
    settings: {
      'workbench.colorTheme': themes[theme],
      'editor.fontSize': 14,
      'editor.minimap.enabled': false,
      'editor.hover.delay': 100,
      'breadcrumbs.enabled': true,
      'window.commandCenter': false,
      'workbench.layoutControl.enabled': false,
    },
  });
  const browser = await launchBrowser(chromium);
  try {
    const [width, height] = options.size.split('x').map(Number);
    const page = await browser.newPage({ viewport: { width, height }, deviceScaleFactor: 2 });
    for (const file of files) {
      await page.goto(workbench.page('samples', [['openFile', workbench.remote(`samples/${file}`)]]));
      await new Shots(page, `${file.replaceAll('/', '-').replace(/\.planish$/, '')}-${theme}`, file).take();
    }
  } finally {
    await browser.close();
    workbench.stop();
  }
}

class Shots {
  constructor(page, name, file) {
    this.page = page;
    this.name = name;
    this.text = readFileSync(path.join(root, 'samples', file), 'utf8').split('\n');
  }

  async take() {
    const { page } = this;
    await page.waitForSelector('.monaco-editor .view-line', { timeout: 90_000 });
    await page.click('.monaco-editor .view-lines');
    // The status bar item tells that the server has read the spec; hints follow it.
    await page.waitForSelector('[id="planish.planish.planish.summary"]', { timeout: 60_000 });
    await page
      .waitForSelector('.monaco-editor [class*="dyn-rule"], .squiggly-error, .squiggly-warning', { timeout: 15_000 })
      .catch(() => {});
    await page.waitForTimeout(1500);
    if (options.alone) await page.keyboard.press('Control+B');
    if (options.reveal) await this.goTo(options.reveal);
    await this.save('editor');
    await page.keyboard.press('Control+Shift+M');
    await page.waitForSelector('.markers-panel', { timeout: 10_000 });
    await page.waitForTimeout(800);
    await this.save('problems');
    await page.keyboard.press('Control+J');
    if (options.hover) await this.hover(options.hover, Number(options.nth));
    if (options.complete) await this.complete(options.complete);
    if (options.figures) {
      await this.goTo(options.figures);
      await this.panel('Explain this piece', 'figures');
    }
    if (options.paper) await this.panel(`Show ${options.paper}`, options.paper.replaceAll(' ', '-'));
  }

  async save(what) {
    const file = path.join(output, `${this.name}-${what}.png`);
    await this.page.screenshot({ path: file });
    console.log(`  ${path.relative(root, file)}`);
  }

  /** Line and column, from 1, of the nth appearance of a text. */
  find(text, nth = 1) {
    let left = nth;
    for (const [index, line] of this.text.entries())
      for (let at = line.indexOf(text); at >= 0; at = line.indexOf(text, at + 1)) {
        left -= 1;
        if (left === 0) return { line: index + 1, column: at + 1, length: line.length };
      }
    throw new SetupError(`The sample has no ${JSON.stringify(text)} (${nth}).`);
  }

  async goTo(text, nth, { end = false } = {}) {
    const { page } = this;
    const { line, column, length } = this.find(text, nth);
    await page.click('.monaco-editor .view-lines');
    await page.keyboard.press('Control+G');
    await page.waitForSelector('.quick-input-widget input:visible');
    await page.keyboard.type(`${line}:${end ? length + 1 : column + 1}`);
    await page.keyboard.press('Enter');
    await page.waitForTimeout(500);
  }

  async hover(text, nth) {
    const { page } = this;
    await this.goTo(text, nth);
    // The keyboard's hover, which needs no aim: Ctrl-K Ctrl-I.
    await page.keyboard.press('Control+K');
    await page.keyboard.press('Control+I');
    await page.waitForSelector('.monaco-hover:visible', { timeout: 15_000 });
    await page.waitForTimeout(800);
    await this.save('hover');
    await page.keyboard.press('Escape');
  }

  /** What a command opens beside the spec. */
  async panel(command, name) {
    const { page } = this;
    await page.keyboard.press('F1');
    await page.waitForSelector('.quick-input-widget input:visible');
    await page.keyboard.type(command);
    await page.waitForTimeout(500);
    await page.keyboard.press('Enter');
    await page.waitForSelector('iframe.webview.ready', { timeout: 15_000 });
    await page.waitForTimeout(2500);
    await this.save(name);
  }

  async complete(text) {
    const { page } = this;
    await this.goTo(text, 1, { end: true });
    await page.keyboard.press('Enter');
    await page.keyboard.press('Control+Space');
    await page.waitForSelector('.suggest-widget.visible .monaco-list-row', { timeout: 15_000 });
    // The second press opens the explanation beside the list.
    await page.keyboard.press('Control+Space');
    await page.waitForTimeout(1000);
    await this.save('completion');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+Z');
  }
}

await main(async () => {
  const chromium = findBrowser();
  if (!chromium) throw new SetupError('Screenshots need Chromium; the CHROMIUM variable may name one.');
  if (!options.packed) {
    await build();
    await pack();
  }
  await installWorkbench();
  mkdirSync(output, { recursive: true });
  const files = options.file?.map((file) => file.replace(/^samples\//, '')) ?? builds();
  for (const theme of options.theme ? [options.theme] : Object.keys(themes)) await picture(chromium, theme, files);
});
