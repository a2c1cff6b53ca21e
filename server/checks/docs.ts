import { reasons } from '../model/operations/reasons.ts';
import { show } from '../model/values/show.ts';
import type { Interval } from '../trade/reckoning/interval.ts';
import type { Unit } from '../trade/reckoning/result.ts';
import { dutyTable } from '../trade/usual/duty.ts';
import { PRACTICE, practiceTable } from '../trade/usual/practice.ts';
import { type Per, type Rate, rateTable } from '../trade/usual/rates.ts';
import { checks } from './all.generated.ts';
import type { Check } from './check.ts';
import { FAMILIES } from './check.ts';

/* The documentation of the checks, made from the checks themselves: for the editor, the command line and CHECKS.md. */

/** All checks by family, each under its code: `CHECKS.md#rivet-too-short` leads to it. */
export function checksMarkdown(): string {
  const families = FAMILIES.map((family) => ({ family, own: checks.filter((check) => check.family === family) }));
  return [
    '# What Planish checks',
    'Made from the checks by `npm run generate`. Do not edit.',
    [
      '- **error**: it cannot be made as written',
      '- **warning**: it is likely to fail, or hurts the result',
      '- **information**: worth knowing',
      '- **hint**: tidy',
    ].join('\n'),
    'Hand work varies, so figures have ranges: a check says *cannot* where even the favourable end fails, and *may not* otherwise. A workspace sets how loudly each check speaks in `planish.checks.severity`. One line is excused by a remark at its end: `# allow pitch-too-wide: the strap covers it`. Safety cautions go no lower than information, and no excuse takes them away.',
    families
      .map(({ family, own }) => `- ${family}: ${own.map((check) => `[${check.code}](#${check.code})`).join(' · ')}`)
      .join('\n'),
    ...families.flatMap(({ family, own }) => [
      `## ${family}`,
      ...own.map((check) => `### ${check.code}\n\n**${check.title}.**\n\n${bodyOf(check)}`),
    ]),
    ...usualMarkdown(),
    '',
  ].join('\n\n');
}

/** What is usual: every limit without a source, in one place, with the checks that read it. */
function usualMarkdown(): string[] {
  const readers = (id: string) =>
    checks
      .filter((check) => check.usual?.includes(id))
      .map((check) => `[${check.code}](#${check.code})`)
      .join(' · ');
  const of = (value: number, unit: Unit) => (unit === 'ratio' ? String(value) : show(value, unit));
  const duties = dutyTable.map(
    ({ id, what, unit, sense, display, stage, contact, source }) =>
      `| ${what}${source === PRACTICE ? '' : ` (${source.replace(`${PRACTICE}; `, '')})`} | at ${sense} | ${[display, stage, contact].map((each) => of(each, unit)).join(' | ')} | ${readers(id)} |`,
  );
  const rules = Object.entries(practiceTable).map(
    ([id, { what, unit, sense, value }]) => `| ${what} | at ${sense} | ${of(value, unit)} | ${readers(id)} |`,
  );
  return [
    '## What is usual',
    `Limits that no book gives: all of them are ${PRACTICE}. A rulebook that the build names goes before them, and none of them says that a thing is safe.`,
    ['| by duty | | display | stage | contact | read by |', '| --- | --- | --- | --- | --- | --- |', ...duties].join(
      '\n',
    ),
    ['| whatever the duty | | | read by |', '| --- | --- | --- | --- |', ...rules].join('\n'),
    ...workMarkdown(),
  ];
}

const PER: Readonly<Record<Per, string>> = { each: '', m: 'metre', dm2: 'dm²' };

/** Rates of work and the reasons for its order: common practice too, in one place. */
function workMarkdown(): string[] {
  const rates = Object.values(rateTable).map(({ what, per, setUp, rate, ...more }: Rate) => {
    const { of, wait } = more;
    const spread = ({ low, value, high }: Interval) => `${value} (${low} to ${high})`;
    return `| ${what} | ${setUp} | ${spread(rate)} | ${of ?? PER[per]} | ${wait ? spread(wait) : ''} |`;
  });
  const whys = Object.values(reasons).map(({ why, yields }) => `| ${why} | ${yields ? 'usual' : 'must'} |`);
  return [
    '## Hours of work',
    `Minutes by which \`build.hours\` and the build sheet forecast the work: all of them are ${PRACTICE}, and spread widely. Hours of your own in an order (\`hours skull raise 3.5 h\`) go before them. Laying out is counted once for all work of a kind.`,
    ['| work | laying out | minutes | for each | then wait |', '| --- | ---: | ---: | --- | ---: |', ...rates].join(
      '\n',
    ),
    '## Order of work',
    `Why the build sheet puts one thing before another: ${PRACTICE}, all of it. What is usual gives way to an order of yours; what must be does not, and an order against it is an [order-circle](#order-circle).`,
    ['| reason | |', '| --- | --- |', ...whys].join('\n'),
  ];
}

function bodyOf(check: Check): string {
  const facts = [
    `*${check.severity}${check.caution ? ', a safety caution' : ''}*`,
    check.what,
    check.why,
    `**What to do:** ${check.todo}`,
    ...(check.formula ? [`**Formula:** ${check.formula}`] : []),
    `**Source:** ${check.source}`,
    'Sets it off:',
    spec(check.example),
    'Better:',
    spec(check.better),
  ];
  return facts.join('\n\n');
}

const spec = (text: string): string => `\`\`\`planish\n${text.trimEnd()}\n\`\`\``;

/** The checks as properties of the setting `planish.checks.severity`. */
export function severitySchema(): Record<string, object> {
  return Object.fromEntries(
    checks.map((check) => [
      check.code,
      {
        type: 'string',
        enum: check.caution ? ['error', 'warning', 'information'] : ['error', 'warning', 'information', 'hint', 'off'],
        default: check.severity,
        description: `${check.title}.`,
      },
    ]),
  );
}

/** The small spec in samples/faults that sets a check off, with a remark at its head. */
export function faultSample(check: Check): string {
  const version = /^planish \d/.test(check.example);
  const remark = `# ${check.title}: ${check.code}.\n`;
  const body = spaced(check);
  // The remark must not stand between the version and the rest, nor be taken for a note.
  return version ? `${body}\n${remark}` : `planish 1\n\n${remark}\n${body}`;
}

/** The example with a blank line before each section, as the formatter would lay it out. */
function spaced({ example }: Check): string {
  const lines = example.trimEnd().split('\n');
  return `${lines.map((line, i) => (i > 0 && /^\S/.test(line) && lines[i - 1] !== '' && !isSingle(line) ? `\n${line}` : line)).join('\n')}\n`;
}

const isSingle = (line: string): boolean => /^(?:let|use)\b/.test(line);
