// npm start: from a fresh clone to the samples open in a real VS Code with the extension running. Before that it checks
// a sample and writes its cut list, so it is of use on a machine without a screen.
//   --port N       where to serve the browser's VS Code (8097, or the next free one)
//   --browser      the browser's VS Code even where a desktop one is installed
//   --no-editor    stop after the check and the cut list
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { installWorkbench, startWorkbench } from '../test/workbench/workbench.mjs';
import {
  build,
  ensureDependencies,
  findProgram,
  main,
  node,
  pack,
  packagePath,
  root,
  run,
  SetupError,
  step,
} from './setup.mjs';

// The sample with the most in it: a helm with seams, binding, leather and finishes.
const sample = 'samples/sallet/sallet.planish';

/** Has the extension open its walkthrough beside the sample. */
const firstSteps = { PLANISH_FIRST_STEPS: '1' };

const { values: options } = parseArgs({
  options: {
    port: { type: 'string', default: '8097' },
    browser: { type: 'boolean', default: false },
    'no-editor': { type: 'boolean', default: false },
  },
});

async function checkAndExport() {
  const planish = (args, runOptions) => node(['dist/cli.cjs', ...args], runOptions);
  const { output } = await step(`planish check ${sample}`, () => planish(['check', sample], { mayFail: true }));
  process.stdout.write(indented(output));
  const folder = 'dist/cut-lists';
  mkdirSync(path.join(root, folder), { recursive: true });
  for (const kind of ['html', 'pdf']) {
    const file = `${folder}/${path.basename(sample, '.planish')}.${kind}`;
    await step(`planish cutlist ${sample} --to ${kind}`, () =>
      planish(['cutlist', sample, '--to', kind, '-o', file, '--force']),
    );
    console.log(`  ${path.join(root, file)}`);
  }
}

const indented = (text) => text.replace(/^(?=.)/gm, '  ').replace(/\n*$/, '\n');

/** The desktop's `code` command, where there is a desktop to show it on. */
function desktopEditor() {
  const hasScreen = process.platform !== 'linux' || process.env.DISPLAY || process.env.WAYLAND_DISPLAY;
  return hasScreen ? findProgram('code') : undefined;
}

async function openDesktop(code) {
  // Folders of our own, so that the user's settings and extensions are left alone.
  const own = path.join(root, '.workbench/desktop');
  const folders = ['--user-data-dir', path.join(own, 'data'), '--extensions-dir', path.join(own, 'extensions')];
  const start = (args, options) => run(process.platform === 'win32' ? 'code' : code, [...folders, ...args], options);
  await step('Installing the extension into a VS Code profile of its own', () =>
    start(['--install-extension', packagePath(), '--force']),
  );
  await step(`Opening ${sample} in VS Code`, () =>
    start(['--new-window', path.join(root, 'samples'), path.join(root, sample)], { env: firstSteps }),
  );
}

async function openInBrowser() {
  await installWorkbench();
  // Ctrl-C is how this is meant to end: no error code for it.
  for (const signal of ['SIGINT', 'SIGTERM']) process.once(signal, () => process.exit(0));
  const workbench = await step('Starting VS Code for the browser', () =>
    startWorkbench({
      port: Number(options.port),
      home: path.join(root, '.workbench/home'),
      vsix: packagePath(),
      env: firstSteps,
    }),
  );
  const page = workbench.page('samples', [['openFile', workbench.remote(sample)]]);
  console.log(`\nOpen ${page}\nCtrl-C here ends it. Ready after ${Math.round(process.uptime())} s.`);
  await workbench.ended;
  throw new SetupError(`The workbench ended by itself.\n${workbench.log().slice(-2000)}`);
}

await main(async () => {
  await ensureDependencies();
  await build();
  await pack();
  await checkAndExport();
  if (options['no-editor']) return;
  const desktop = options.browser ? undefined : desktopEditor();
  await (desktop ? openDesktop(desktop) : openInBrowser());
});
