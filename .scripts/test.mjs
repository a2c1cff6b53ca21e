// npm test: sets up whatever a fresh clone on a bare machine lacks, then runs every check there is. The last line says
// how many tests passed and failed; a check that is not a test (types, lint) counts as one failed test when it fails.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { installWorkbench } from '../test/workbench/workbench.mjs';
import { build, ensureDependencies, ensureSystemPackages, main, node, npm, pack, step } from './setup.mjs';

const folder = mkdtempSync(path.join(tmpdir(), 'planish-tests-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
const tally = path.join(folder, 'tally.txt');
writeFileSync(tally, '');
let failedSteps = 0;

/** A check that fails does not keep the others from running. */
async function check(title, work) {
  try {
    await step(title, work);
  } catch (error) {
    failedSteps += 1;
    console.error(`  FAILED: ${error.message}`);
  }
}

/** A suite counts its own tests; one that ends badly without counting a failure (a crash, a hang) is one failure. */
async function suite(title, script, ...options) {
  await check(title, async () => {
    const before = counted().failed;
    const { code } = await node([script, ...options], { loud: true, mayFail: true, env: { TALLY: tally } });
    if (code !== 0 && counted().failed === before) throw new Error(`${script} ended with exit code ${code}`);
  });
}

function counted() {
  const sum = { passed: 0, failed: 0, skipped: 0 };
  for (const [, count, what] of readFileSync(tally, 'utf8').matchAll(/(\d+) (passed|failed|skipped)/g))
    sum[what] += Number(count);
  return sum;
}

await main(async () => {
  try {
    await ensureDependencies();
    await ensureSystemPackages();
    await installWorkbench();
    await build();
    await pack();
  } catch (error) {
    failedSteps += 1;
    console.error(error.message);
  }
  if (failedSteps === 0) {
    await check('Types', () => npm(['run', '--silent', 'typecheck']));
    await check('Lint', () => npm(['run', '--silent', 'lint']));
    await suite('Tests without an editor', '.scripts/unit-tests.mjs');
    await suite('Tests in VS Code', 'test/workbench/editor-tests.mjs', '--packed');
  }
  const { passed, failed, skipped } = counted();
  const failures = failed + failedSteps;
  console.log(`${passed} passed, ${failures} failed${skipped ? `, ${skipped} skipped` : ''}`);
  if (failures > 0 || passed === 0) process.exitCode = 1;
});
