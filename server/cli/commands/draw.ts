import { nearest } from '../../../grammar/nearest.ts';
import { problemsOf } from '../../checks/run.ts';
import { surfaceOf } from '../../model/shapes/surface.ts';
import type { Model } from '../../model/spec.ts';
import type { PieceModel } from '../../model/things/piece.ts';
import { formViewSvg } from '../../output/documents/form-view.ts';
import { pieceMap } from '../../output/documents/piece-map.ts';
import { strainMapSvg } from '../../output/documents/strain-map.ts';
import { type Command, type ExitCode, force, open, output, root, wanted } from '../support/command.ts';
import { deliver, errorsNoted } from '../support/deliver.ts';
import { CommandError, shown } from '../support/files.ts';

export const draw: Command = {
  name: 'draw',
  usage: 'FILE PIECE',
  doc: 'A piece as a drawing: its flat blank with the thickness that forming leaves, and where to stretch and shrink.',
  more: ['With --form, the net of the formed piece from three sides.'],
  options: {
    to: { value: 'format', choices: ['svg'], doc: 'svg: the one there is.' },
    form: { doc: 'The formed piece instead of its blank.' },
    output,
    force,
    root,
  },
  async run({ named, options }, terminal): Promise<ExitCode> {
    const [file, name, ...more] = wanted(named, 'a file and a piece');
    if (!name || more.length) throw new CommandError('planish draw takes a file and the name of one piece.');
    const specs = open(file!, options);
    const model = specs.model(file!);
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
