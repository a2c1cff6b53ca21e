import { insideGirth } from '../../../model/figures/fit.ts';
import { LineReading } from '../../../model/names/line-reading.ts';
import { show } from '../../../model/values/show.ts';
import { enlargedGirth } from '../../../trade/fit/clearance.ts';
import type { Check } from '../../check.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'head-does-not-fit',
  title: 'A head that does not go in',
  family: 'Fit',
  severity: 'error',
  what: 'A closed form that fits a head is inside, at its widest end, less than the head’s way round with the liner and the ease all round. Where the liner finds room, and only some of the ease is missing, it is information.',
  why: 'It is found at the first fitting, when the plate is finished.',
  todo: 'Make it larger, or the liner thinner.',
  formula: 'inside ≥ head round + 2π × (liner + ease)',
  source: 'Geometry: a closed convex line a gap further out is 2π times the gap longer',
  example: `wearer guard
  head round 585 mm
material plate
  mild steel 1.5 mm
piece band
  from plate
  fits guard head, liner 10 mm, ease 6 mm
  cylinder round 600 mm, high 60 mm, inside
  edge bottom rolled, hollow 6 mm
`,
  better: `wearer guard
  head round 585 mm
material plate
  mild steel 1.5 mm
piece band
  from plate
  fits guard head, liner 10 mm, ease 6 mm
  cylinder round 690 mm, high 60 mm, inside
  edge bottom rolled, hollow 6 mm
`,
  piece(piece, report, model) {
    const system = model.units();
    const line = piece.line('fits');
    const named = line?.named('wearer');
    if (!line || named?.kind !== 'wearer' || (line.text('region') ?? 'head') !== 'head') return;
    const at = named.section.lines.find(
      (each) => each.word?.id === 'measure' && each.head?.slots.get('measure')?.[0]?.text === 'head round',
    );
    const head = at && new LineReading(named.file, at).length('value');
    const inside = insideGirth(piece);
    if (head === undefined || inside === undefined) return;
    const liner = line.length('liner', 'liner') ?? 0;
    const ease = line.length('ease', 'ease') ?? 0;
    const least = enlargedGirth({ girth: head, gap: Math.max(0, liner) }).value;
    const good = enlargedGirth({ girth: head, gap: Math.max(0, liner + ease) }).value;
    if (inside >= good - 0.5) return;
    const cannot = inside < least - 0.5;
    report(placeIn(piece, piece.formLine()), {
      severity: cannot ? undefined : 'information',
      message: `“${piece.name}” is ${show(inside, 'mm', system)} round inside, and “${named.word.text}” needs ${show(good, 'mm', system)} with liner${ease ? ' and ease' : ''}${cannot ? '' : ` (${show(least, 'mm', system)} without ease)`}.`,
      related: [
        { uri: named.file.uri, place: { section: named.section, from: at!.from, to: at!.to }, message: 'Head round' },
      ],
    });
  },
};
