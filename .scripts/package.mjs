// npm run package: dist/ as it ships, then planish-<version>.vsix.
import { build, main, pack, packagePath } from './setup.mjs';

await main(async () => {
  await build();
  await pack();
  console.log(packagePath());
});
