import assert from 'node:assert/strict';
import { checks } from '../server/checks/all.generated.ts';
import type { Check } from '../server/checks/check.ts';
import { features } from '../server/editor/features/all.generated.ts';
import type { Feature } from '../server/editor/protocol/feature.ts';
import { type Export, type ExportWords, exports } from '../server/output/exports.ts';

/*
 * A check, an export and a feature that lack something do not compile, so that who adds one is told where: the type checker reads this
 * file, and fails where one of the lines below is no error any more. For forms see model/forms/not-compiling.test.ts.
 */

describe('what is added and not whole', () => {
  it('does not compile: a check', () => {
    const { source: _, ...rest } = checks[0]!;
    // @ts-expect-error: where it has its limit from is missing
    const check: Check = rest;
    assert.ok(check.code);
  });

  it('does not compile: an export, or the words for it', () => {
    const { read: _, ...rest } = exports[0]!;
    // @ts-expect-error: how the build is read is missing
    const row: Export = rest;
    const { making: __, ...few } = row.words;
    // @ts-expect-error: what is said while it is made is missing
    const words: ExportWords = few;
    assert.ok(words.title);
  });

  it('does not compile: a feature', () => {
    const { requests: _, ...rest } = features[0]!;
    // @ts-expect-error: what it is asked by is missing
    const feature: Feature = rest;
    assert.ok(feature);
  });
});
