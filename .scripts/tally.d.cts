import type { reporters } from 'mocha';

declare const Tally: typeof reporters.Base;
export = Tally;
