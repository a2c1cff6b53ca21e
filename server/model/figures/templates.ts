import { say } from '../../../l10n/say.ts';
import { sectionLength } from '../../trade/blank/template.ts';
import { spanned } from '../../trade/reckoning/readings.ts';
import { plain, type Result } from '../../trade/reckoning/result.ts';
import { placeInWords, thicknessUnder } from '../shapes/templates.ts';
import type { PieceModel } from '../things/piece.ts';
import type { FigureSet } from '../values/figure-set.ts';

/** Length, width and depth of the section that each board is cut to. */
export function addTemplates(piece: PieceModel, set: FigureSet): void {
  const thickness = piece.material()?.thickness();
  if (!thickness) return;
  // All of them first: who stops on the way begins here again.
  for (const [template, measures] of piece.templates().map((each) => [each, each.measures()] as const)) {
    if (!measures) continue;
    const { line, name, along } = template;
    const face = template.inside ? 'inside' : 'outside';
    const where = `${along === undefined ? 'section' : 'profile'} ${placeInWords(template, piece)}, ${face}`;
    const half = thicknessUnder(piece, thickness.value) / 2;
    const source = say`True section of the ${face}: the middle of the thickness moved ${template.inside ? 'in' : say`out`} by half of what forming leaves there on the mean, ${plain(half)} mm`;
    const add = (suffix: string, title: string, made: Result) =>
      set.add(`${name}.${suffix}`, title, made, line.place, [thickness.name], { decimals: 1 });
    const parts = measures.parts > 1 ? say` in ${measures.parts} parts` : '';
    add('length', say`length of the ${where}${parts}`, sectionLength(measures, source));
    const span = (axis: 'x' | 'y', [far, near]: readonly [string, string], ends: string): Result => {
      const [least, most] = measures[axis];
      return spanned('s', [far, most], [near, least], { source: `${ends}. ${source}` });
    };
    if (along === undefined) {
      add('wide', say`width of the ${where}`, span('x', ['right', 'left'], 'Both from the middle of the form'));
      add(
        'deep',
        say`depth of the ${where}, front to back`,
        span('y', ['front', 'back'], 'Both from the axis of the form'),
      );
    } else {
      add('high', say`height of the ${where}`, span('y', ['top', 'bottom'], 'Both in the heights of the form'));
      add('across', say`reach across of the ${where}`, span('x', ['far', 'near'], 'Both from the axis of the form'));
    }
  }
}
