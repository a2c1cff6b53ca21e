// npm test [-- --slowest]: sets up whatever a fresh clone on a bare machine lacks, then runs every check there is, as many
// side by side as there are processors. The last line says how many tests passed and failed; a check that is not a test
// (types, lint) counts as one failed test when it fails.
import { installWorkbench } from '../test/workbench/workbench.mjs';
import { Jobs } from './jobs.mjs';
import { build, ensureDependencies, ensureSystemPackages, main, node, npm, pack } from './setup.mjs';
import { Tallies } from './tallies.mjs';
import { mocha, testGroups } from './test-groups.mjs';

const jobs = new Jobs();
const tallies = new Tallies();
let failedSteps = 0;

await main(async () => {
  if (await succeeds(ensureDependencies().then(ensureSystemPackages))) {
    // What others wait for goes first.
    const packed = succeeds(jobs.run(() => build().then(pack)));
    const ready = Promise.all([packed, succeeds(installWorkbench())]);
    const groups = testGroups();
    const early = groups.filter(({ isOfPackage }) => !isOfPackage);
    const late = groups.filter(({ isOfPackage }) => isOfPackage);
    await Promise.all([
      ...early.map(({ title, files }) => jobs.run(() => suite(title, (env) => mocha(files, { env })))),
      jobs.run(() => check('types', () => npm(['run', '--silent', 'typecheck']))),
      jobs.run(() => check('lint', () => npm(['run', '--silent', 'lint']))),
      packed.then((isPacked) =>
        isPacked
          ? Promise.all(late.map(({ title, files }) => jobs.run(() => suite(title, (env) => mocha(files, { env })))))
          : undefined,
      ),
      // Beside the others: for the most part it waits for the editor.
      ready.then((are) => (are.every(Boolean) ? suite('tests in VS Code', inEditor) : undefined)),
    ]);
  }
  if (process.argv.includes('--slowest')) console.log(tallies.slowest());
  for (const line of tallies.broken()) console.log(line);
  console.log(tallies.closingLine(failedSteps));
  const { passed, failed } = tallies.counted();
  if (failedSteps > 0 || failed > 0 || passed === 0) process.exitCode = 1;
});

function inEditor(env) {
  return node(['test/workbench/editor-tests.mjs', '--packed'], { env, mayFail: true });
}

/** Something that others need. Where it fails they are left out, and that is one failure. */
async function succeeds(work) {
  try {
    await work;
    return true;
  } catch (error) {
    failedSteps += 1;
    console.error(`  FAILED: ${error.message}`);
    return false;
  }
}

/** A check that fails does not keep the others from running. What it writes comes in one piece, when it has ended. */
async function check(title, work) {
  const started = Date.now();
  const told = await work().then(
    ({ output }) => output,
    (error) => {
      failedSteps += 1;
      return `  FAILED: ${error.message}\n`;
    },
  );
  process.stdout.write(`- ${title}: ${((Date.now() - started) / 1000).toFixed(0)} s\n${told}`);
}

/** A suite counts its own tests; one that ends badly without counting a failure (a crash, a hang) is one failure. */
function suite(title, run) {
  return check(title, async () => {
    const env = tallies.next();
    const ran = await run(env);
    if (ran.code !== 0 && tallies.counted(env).failed === 0) {
      failedSteps += 1;
      return { output: `${ran.output}  FAILED: it ended with exit code ${ran.code}\n` };
    }
    return ran;
  });
}
