import { nearest } from '../../../grammar/nearest.ts';
import { problemsOf } from '../../checks/run.ts';
import { atOnce } from '../../incremental/steps.ts';
import { surfaceOf } from '../../model/shapes/surface.ts';
import type { Model } from '../../model/spec.ts';
import type { PieceModel } from '../../model/things/piece.ts';
import { assemblySvgInSteps } from '../../output/documents/assembly-view.ts';
import { formViewSvg } from '../../output/documents/form-view.ts';
import { pieceMap } from '../../output/documents/piece-map.ts';
import { strainMapSvg } from '../../output/documents/strain-map.ts';
import { type Command, type ExitCode, force, inches, open, output, root, wanted } from '../support/command.ts';
import { baseOf, deliver, errorsNoted } from '../support/deliver.ts';
import { CommandError, shown } from '../support/files.ts';

export const draw: Command = {
  name: 'draw',
  usage: 'FILE [PIECE]',
  doc: 'The whole build assembled, from three sides with its measures; or a piece: its flat blank with the thickness that forming leaves, and where to stretch and shrink.',
  more: [
    'With --form, the net of the formed piece from three sides. With --exploded, the pieces of the build drawn apart.',
    'A piece stands where a wearer, its own form or a seam that gives an edge of both pieces puts it: planish assembly says which.',
  ],
  options: {
    to: { value: 'format', choices: ['svg'], doc: 'svg: the one there is.' },
    form: { doc: 'The formed piece instead of its blank.' },
    exploded: { doc: 'The build with its pieces drawn apart.' },
    output,
    force,
    inches,
    root,
  },
  async run({ named, options }, terminal): Promise<ExitCode> {
    const [file, name, ...more] = wanted(named, 'a file');
    if (more.length)
      throw new CommandError('planish draw takes a file and the name of one piece, or none for the whole.');
    if (name && options.has('exploded')) throw new CommandError('One piece cannot be drawn apart: leave its name out.');
    if (!name && options.has('form'))
      throw new CommandError('Say which piece: the formed build is drawn without --form.');
    const specs = open(file!, options);
    const model = specs.model(file!);
    if (!name) {
      const problems = problemsOf(model);
      await deliver(wholeOf(file!, model, options.has('exploded')), { options, terminal, specs });
      return errorsNoted(file!, problems, terminal);
    }
    const pieces = model.pieces();
    const piece = pieces.find((each) => each.name.toLowerCase() === name.toLowerCase());
    if (!piece) {
      const near = nearest(
        name,
        pieces.map((each) => each.name),
      );
      throw new CommandError(`${shown(file!)} has no piece ${name}${near ? `: did you mean ${near}?` : '.'}`);
    }
    // Only then has every file been read that the spec names.
    const problems = problemsOf(model);
    await deliver(drawingOf(piece, model, options.has('form')), { options, terminal, specs });
    return errorsNoted(file!, problems, terminal);
  },
};

function wholeOf(file: string, model: Model, exploded: boolean): string {
  const title = `${model.title() ?? baseOf(file)}, ${exploded ? 'drawn apart' : 'assembled'}`;
  const drawn = atOnce(assemblySvgInSteps(model, { title, system: model.units(), exploded }));
  if (drawn === undefined) throw new CommandError(`${shown(file)} has no piece with a formed surface to draw.`);
  return drawn;
}

function drawingOf(piece: PieceModel, model: Model, formed: boolean): string {
  const refused = (why: string) => new CommandError(`“${piece.name}” cannot be drawn: ${why}.`);
  if (formed) {
    const surface = surfaceOf(piece);
    if (!surface) throw refused('it has no formed surface');
    return formViewSvg({ surface, title: `${piece.name}, formed` });
  }
  const map = pieceMap(piece, model.units());
  if ('refused' in map) throw refused(map.refused);
  return strainMapSvg(map);
}
