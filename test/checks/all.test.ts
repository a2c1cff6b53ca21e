import assert from 'node:assert/strict';
import { checks } from '../../server/checks/all.generated.ts';
import type { Check } from '../../server/checks/check.ts';
import { applied, exampleFiles, type Files, problemsIn, shownProblems } from './specs.ts';

/* Every check is held to its own documentation: the example sets it off, the better one does not, each fix mends it. */

const problemsOfExample = (check: Check, files: Files) => problemsIn(files, {}, `${check.code}.planish`);

describe('checks', () => {
  for (const check of checks) {
    describe(check.code, () => {
      const files = exampleFiles(check, check.example);

      it('is set off by its example, which has no other warning or error', () => {
        const problems = problemsOfExample(check, files);
        const grave = problems.filter((each) => each.severity === 'error' || each.severity === 'warning');
        assert.ok(
          problems.some((each) => each.code === check.code),
          `not found, but:\n${shownProblems(problems)}`,
        );
        assert.deepEqual(
          grave.filter((each) => each.code !== check.code).map((each) => `${each.code}: ${each.message}`),
          [],
        );
      });

      it('is not set off by the better one', () => {
        const problems = problemsOfExample(check, exampleFiles(check, check.better));
        assert.equal(
          shownProblems(
            problems.filter(
              (each) => each.code === check.code || each.severity === 'error' || each.severity === 'warning',
            ),
          ),
          '',
        );
      });

      for (const [i, problem] of problemsOfExample(check, files).entries()) {
        if (problem.code !== check.code) continue;
        for (const fix of problem.fixes) {
          it(`is mended by “${fix.title}”${i ? ` (${i + 1})` : ''}`, () => {
            const before = problemsOfExample(check, files).filter((each) => each.code === check.code).length;
            const mended = applied(files, fix);
            const after = problemsOfExample(check, mended).filter(
              (each) => each.code === check.code || (fix.preferred && each.severity === 'error'),
            );
            assert.ok(after.length < before, `${shownProblems(after)}\n\n${mended[`${check.code}.planish`]}`);
          });
        }
      }
    });
  }
});
