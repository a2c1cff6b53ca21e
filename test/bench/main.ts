import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

// `npm run bench` lists the benchmarks; `npm run bench -- latency [options]` runs one. Run by hand, on a quiet machine.

const folder = dirname(fileURLToPath(import.meta.url));
const names = readdirSync(folder)
  .filter((file) => file.endsWith('.ts') && file !== 'main.ts')
  .map((file) => file.slice(0, -3));

const [name, ...options] = process.argv.slice(2);
if (name && names.includes(name)) {
  const { status } = spawnSync(process.execPath, ['--import', 'tsx', join(folder, `${name}.ts`), ...options], {
    stdio: 'inherit',
  });
  process.exitCode = status ?? 1;
} else {
  console.log(`Benchmarks: ${names.join(', ')}. Run one with npm run bench -- NAME [--json].`);
  process.exitCode = name ? 2 : 0;
}
