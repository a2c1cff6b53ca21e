// npm run mutate [-- FILE…]: mutation testing of the computation. Every mutant of server/trade (or of the files named) is
// run against the tests of trade that reach it; what survives stands in .ci-output/mutation/survivors.txt. A run over
// everything writes its scores into test/mutation/README.md, which also says what is left out and why.
import { createHash } from 'node:crypto';
import { copyFileSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { ensureDependencies, main, node, npm, root, SetupError, step } from './setup.mjs';

const here = path.join(root, 'test/mutation');
// Away from the extension's own packages: the mocha runner of the tool wants an older mocha than ours.
const installed = path.join(root, '.mutation');
const out = path.join(root, '.ci-output/mutation');
const page = path.join(here, 'README.md');

await main(async () => {
  const files = process.argv.slice(2);
  await ensureDependencies();
  await installTool();
  mkdirSync(out, { recursive: true });
  const { code } = await node(
    [path.join(installed, 'node_modules/@stryker-mutator/core/bin/stryker.js'), 'run', path.join(here, 'stryker.mjs')],
    { loud: true, mayFail: true, env: { MUTATE: files.join(','), TOOL: installed } },
  );
  if (code !== 0) throw new SetupError('The mutation tool ended without a score.');
  const report = JSON.parse(readFileSync(path.join(out, 'mutation.json'), 'utf8'));
  const survivors = survivorsOf(report);
  writeFileSync(path.join(out, 'survivors.txt'), survivors);
  const table = tableOf(report);
  console.log(`\n${table}\n\nSurvivors: ${path.relative(root, path.join(out, 'survivors.txt'))}`);
  if (files.length === 0) writeTable(table);
});

async function installTool() {
  const lock = readFileSync(path.join(here, 'package-lock.json'));
  const stamp = path.join(installed, `.complete-${createHash('sha256').update(lock).digest('hex').slice(0, 16)}`);
  if (existsSync(stamp)) return;
  await step('Installing the mutation tool from npm into .mutation/ (once)', async () => {
    mkdirSync(installed, { recursive: true });
    for (const file of ['package.json', 'package-lock.json'])
      copyFileSync(path.join(here, file), path.join(installed, file));
    await npm(['ci', '--ignore-scripts', '--no-audit', '--no-fund'], { cwd: installed });
    writeFileSync(stamp, '');
  });
}

/** How many mutants of one file ended how. A mutant that runs for ever is found out: a test would never end. */
function scoreOf(mutants) {
  const count = (...states) => mutants.filter(({ status }) => states.includes(status)).length;
  const killed = count('Killed', 'Timeout');
  const survived = count('Survived', 'NoCoverage');
  const total = killed + survived;
  return { killed, survived, total, tables: count('Ignored'), share: total ? (100 * killed) / total : 100 };
}

function tableOf(report) {
  const files = Object.entries(report.files).map(([file, { mutants }]) => [path.basename(file), mutants]);
  const rows = files
    .map(([name, mutants]) => [name, scoreOf(mutants)])
    .sort(([one], [other]) => (one < other ? -1 : 1));
  rows.push(['**all**', scoreOf(files.flatMap(([, mutants]) => mutants))]);
  const cells = [
    ['file', 'mutants', 'killed', 'survived', 'score', 'not tried'],
    ...rows.map(([name, { killed, survived, total, tables, share }]) => [
      name,
      ...[total, killed, survived].map(String),
      `${share.toFixed(1)} %`,
      String(tables),
    ]),
  ];
  const widths = cells[0].map((_, column) => Math.max(...cells.map((row) => row[column].length)));
  const line = (row) =>
    `| ${row.map((cell, i) => (i ? cell.padStart(widths[i]) : cell.padEnd(widths[i]))).join(' | ')} |`;
  const rule = `| ${widths.map((width, i) => '-'.repeat(width - (i ? 1 : 0)) + (i ? ':' : '')).join(' | ')} |`;
  return [line(cells[0]), rule, ...cells.slice(1).map(line)].join('\n');
}

function survivorsOf(report) {
  const lines = [];
  for (const [file, { source, mutants }] of Object.entries(report.files)) {
    const text = source.split('\n');
    const alive = mutants.filter(({ status }) => status === 'Survived' || status === 'NoCoverage');
    alive.sort((one, other) => one.location.start.line - other.location.start.line);
    for (const { location, mutatorName, replacement, status } of alive) {
      const { start, end } = location;
      const was =
        start.line === end.line
          ? text[start.line - 1].slice(start.column - 1, end.column - 1)
          : `${text[start.line - 1].slice(start.column - 1)} … ${text[end.line - 1].slice(0, end.column - 1).trim()}`;
      lines.push(
        `${file}:${start.line}:${start.column} ${mutatorName}${status === 'NoCoverage' ? ' (no test reaches it)' : ''}`,
        `    ${text[start.line - 1].trim()}`,
        `  - ${was}`,
        `  + ${(replacement ?? '').replaceAll(/\s+/g, ' ')}`,
      );
    }
  }
  return `${lines.join('\n')}\n`;
}

/** Puts the scores between the two marks of the page, with the day they were taken. */
function writeTable(table) {
  const text = readFileSync(page, 'utf8');
  const [before, , after] = text.split(/<!-- scores(?: end)? -->\n/);
  const day = new Date().toISOString().slice(0, 10);
  writeFileSync(
    page,
    `${before}<!-- scores -->\n\n${day}, \`npm run mutate\`:\n\n${table}\n\n<!-- scores end -->\n${after}`,
  );
}
