// npm run workbench:install: the heavy download alone, for machines that prepare it ahead.
import { main } from '../../.scripts/setup.mjs';
import { installWorkbench } from './workbench.mjs';

await main(installWorkbench);
