import { listWord } from '../../../../grammar/vocabulary/index.ts';
import { say } from '../../../../l10n/say.ts';
import { hyphened } from '../../../model/names/spec-file.ts';
import { show } from '../../../model/values/show.ts';
import { measureAt } from '../../../trade/fit/body.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'measure-unlikely',
  title: 'A body measure that hardly anybody has',
  family: 'Fit',
  severity: 'warning',
  what: 'A measure lies below or above those of ninety-eight in a hundred people, men and women both unless the wearer says which: information. A tenth beyond that it is most likely a slip.',
  why: 'Every girth and clearance comes out of it, and a slip of the tape shows at the first fitting.',
  todo: 'Measure again; if it stands, leave it.',
  formula: 'P₁ ≤ x ≤ P₉₉',
  usual: ['measure-slip'],
  source: 'ANSUR II, US Army 2010–2012, public release: soldiers, no children and not the heaviest civilians',
  example: `wearer guard
  body man
  head round 858 mm
`,
  better: `wearer guard
  body man
  head round 585 mm
`,
  // Wearer by wearer: with thousands of them one look at all would begin again from the first at each stop.
  section(section, report, model) {
    if (section.kind?.kind !== 'wearer' || !section.name) return;
    const named = model.file.bearersOf(section.name.key).find((each) => each.section === section);
    if (!named) return;
    const system = model.units();
    const wearer = model.wearerOf(named);
    const bodies = wearer.body() ? [wearer.body()!] : (['man', 'woman'] as const);
    for (const line of wearer.lines) {
      const text = line.text('measure');
      const value = line.length('value');
      const words = text === undefined ? undefined : (listWord('body measure', text) ?? text);
      if (words === undefined || value === undefined) continue;
      const rank = wearer.figures().get(`${hyphened(words)}.percentile`);
      if (!rank) continue;
      const ends = bodies.flatMap((body) => [measureAt(words, 1, body)?.value, measureAt(words, 99, body)?.value]);
      const known = ends.filter((end) => end !== undefined);
      if (!known.length) continue;
      const [least, most] = [Math.min(...known), Math.max(...known)];
      if (value >= least - 0.05 && value <= most + 0.05) continue;
      const slack = usual('measure-slip') / 100;
      const slip = value < least * (1 - slack) || value > most * (1 + slack);
      const people = bodies.length > 1 ? 'people' : bodies[0] === 'man' ? 'men' : 'women';
      report(placeOf(line, line.filled('value') ?? line.line), {
        severity: slip ? undefined : 'information',
        message: say`A ${words} of ${show(value, 'mm', system)}: ninety-eight in a hundred ${people} have ${show(least, 'mm', system)} to ${show(most, 'mm', system)}. ${slip ? say`It looks like a slip: measure again.` : say`It may be right: measure again.`}`,
      });
    }
  },
};
