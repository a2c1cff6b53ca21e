import { problemsOf } from '../../checks/run.ts';
import { atOnce } from '../../incremental/steps.ts';
import { type System, show } from '../../model/values/show.ts';
import { type AssemblyData, assemblyInSteps } from '../../output/documents/assembly.ts';
import { type Command, type ExitCode, force, inches, open, output, root, wanted } from '../support/command.ts';
import { deliver, errorsNoted, json, posix } from '../support/deliver.ts';
import { CommandError, typed } from '../support/files.ts';
import { clean } from '../support/terminal.ts';

export const assembly: Command = {
  name: 'assembly',
  usage: 'FILE',
  doc: 'Where every piece of a build stands, by what it came there, and how well its seams meet.',
  more: [
    'A piece is placed by the wearer it fits, by its own form (a half, a trim, a lame), or by a seam that gives an edge of both pieces.',
    'mm; z up, y to the front, x to the wearer’s right. Ends with 1 where the spec has errors.',
  ],
  options: { json: { doc: 'As JSON: every pose, and every station of the seams.' }, output, force, inches, root },
  async run({ named, options }, terminal): Promise<ExitCode> {
    const [file, ...more] = wanted(named, 'a file');
    if (more.length) throw new CommandError('planish assembly takes one file.');
    const specs = open(file!, options);
    const model = specs.model(file!);
    const problems = problemsOf(model);
    const found = atOnce(assemblyInSteps(model, posix(typed(file!))));
    await deliver(options.has('json') ? json(found) : assemblyText(found, model.units()), { options, terminal, specs });
    return errorsNoted(file!, problems, terminal);
  },
};

function assemblyText(
  { groups, unplaced, seams, hinges, joints, through, heads }: AssemblyData,
  system: System,
): string {
  const length = (value: number) => show(value, 'mm', system, { decimals: 1 });
  const lines = groups.flatMap(({ pieces, box }) => [
    ...(box
      ? [`${box.map(([least, most]) => length(most - least)).join(' × ')}, wide, deep and high`]
      : ['no size known']),
    ...pieces.flatMap(({ name, by, shift, assumed }) => [
      `  ${clean(name)}  ${clean(by)}${shift.some((x) => Math.abs(x) > 0.05) ? `; ${away(shift, length)}` : ''}`,
      ...(assumed ? [`    ${clean(assumed)}`] : []),
    ]),
    '',
  ]);
  if (unplaced.length)
    lines.push('Without a place', ...unplaced.map(({ piece, why }) => `  ${clean(piece)}  ${clean(why)}`), '');
  if (seams.length)
    lines.push(
      'Seams',
      ...seams.map(
        ({ name, misfit, misfitMean }) =>
          `  ${clean(name)}  ${misfit < 0.05 ? 'meets' : `up to ${length(misfit)} apart, ${length(misfitMean)} in the mean`}`,
      ),
      '',
    );
  if (hinges.length)
    lines.push(
      'Hinges',
      ...hinges.map(
        ({ name, inward, outward, least }) =>
          `  ${clean(name)}  ${swingText({ down: inward, up: outward, ...(least ? { least } : {}) }, length)}`,
      ),
      '',
    );
  const swung = joints.filter(({ swing }) => swing);
  if (swung.length)
    lines.push(
      'Swing on pivots',
      ...swung.map(({ name, swing }) => `  ${clean(name)}  ${swingText(swing!, length)}`),
      '',
    );
  if (through.length)
    lines.push(
      'Run through each other',
      ...through.map(({ one, other, deep }) => `  ${clean(one)}, ${clean(other)}  ${length(deep)} deep`),
      '',
    );
  if (heads.length)
    lines.push(
      'Heads',
      ...heads.map(
        ({ wearer, piece, level, least, estimated }) =>
          `  ${clean(wearer)}  brow ${clean(level)} of ${clean(piece)}; nearest metal ${length(least.apart)} from the skin, ${clean(least.piece)}${estimated.length ? `; estimated: ${estimated.map(clean).join(', ')}` : ''}`,
      ),
      '',
    );
  return lines.length ? `${lines.slice(0, -1).join('\n')}\n` : 'There is no piece in this file.\n';
}

const degrees = (angle: number) => `${Math.round(10 * angle) / 10 + 0}°`;

function swingText(
  {
    down,
    up,
    least,
  }: Pick<NonNullable<AssemblyData['joints'][number]['swing']>, 'down' | 'up'> &
    Pick<AssemblyData['hinges'][number], 'least'>,
  length: (value: number) => string,
): string {
  const near = least
    ? `; least room ${length(least.clear)} at ${degrees(least.angle)}, between ${clean(least.between)}`
    : '';
  return `swings from ${swungTo(down)} to ${swungTo(up)}${near}`;
}

const swungTo = ({ angle, meets }: AssemblyData['hinges'][number]['inward']) =>
  meets ? `${degrees(angle)} (${clean(meets)})` : degrees(angle);

/** Where a piece's own origin has gone, in words. */
function away([x, y, z]: readonly number[], length: (value: number) => string): string {
  const part = (value: number, more: string, less: string) =>
    Math.abs(value) > 0.05 ? [`${length(Math.abs(value))} ${value > 0 ? more : less}`] : [];
  return [...part(x!, 'right', 'left'), ...part(y!, 'front', 'back'), ...part(z!, 'up', 'down')].join(', ');
}
