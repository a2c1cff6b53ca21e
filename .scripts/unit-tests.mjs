// npm run test:unit [-- --slowest | mocha's own arguments]: every test that needs no editor, several processes side by side;
// with files or other arguments for mocha, these alone and in one process.
import { Jobs } from './jobs.mjs';
import { main } from './setup.mjs';
import { Tallies } from './tallies.mjs';
import { mocha, testGroups } from './test-groups.mjs';

const own = process.argv.slice(2);

await main(own.some((argument) => argument !== '--slowest') ? runThese : runAll);

async function runThese() {
  const named = own.some((argument) => argument.endsWith('.ts'));
  const files = named ? [] : ['--exclude', 'test/client/**', '--exclude', 'test/workbench/**', 'test/**/*.test.ts'];
  const { code } = await mocha([...files, ...own], { loud: true });
  process.exitCode = code;
}

async function runAll() {
  const jobs = new Jobs();
  const tallies = new Tallies();
  await Promise.all(
    testGroups().map(({ files }) =>
      jobs.run(async () => {
        const { code, output } = await mocha(files, { env: tallies.next() });
        process.stdout.write(output);
        if (code !== 0) process.exitCode = code;
      }),
    ),
  );
  if (own.includes('--slowest')) console.log(tallies.slowest());
  for (const line of tallies.broken()) console.log(line);
  console.log(tallies.closingLine());
}
