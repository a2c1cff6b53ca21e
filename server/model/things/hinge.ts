import { once } from '../../incremental/memo.ts';
import {
  barrelDiameter,
  knuckleDevelopment,
  knuckleGap,
  knuckleWidth,
  notchDepth,
  pinLength,
} from '../../trade/hinge/hinge.ts';
import type { Named } from '../names/spec-file.ts';
import { FigureSet } from '../values/figure-set.ts';
import type { MaterialModel } from './material.ts';
import type { PieceModel } from './piece.ts';
import { type SpecContext, Thing } from './thing.ts';

/** What a hinge asks of its spec. */
export interface HingeContext extends SpecContext {
  pieceOf(named: Named): PieceModel;
  materialOf(named: Named): MaterialModel;
}

/** A knuckled hinge between two edges. */
export class HingeModel extends Thing<'hinge', HingeContext> {
  readonly pin = once((): MaterialModel | undefined => {
    const named = this.line('over')?.named('wire');
    return named?.kind === 'material' ? this.model.materialOf(named) : undefined;
  });

  /** The edges it joins, with their pieces. */
  readonly leaves = once((): readonly { readonly piece: PieceModel; readonly edge: string }[] =>
    (this.line('joins')?.all('edges') ?? []).flatMap((filled) => {
      const word = filled.items[0];
      if (word?.kind !== 'word') return [];
      const [key, edge] = word.key.split('.');
      const named = edge ? this.named.file.find(key!) : undefined;
      return named?.kind === 'piece' ? [{ piece: this.model.pieceOf(named), edge: edge! }] : [];
    }),
  );

  /** How deep a leaf is cut away for the knuckles of the other, mm; of several others for the thickest. */
  notchIn(leaf: { readonly piece: PieceModel; readonly edge: string }): number | undefined {
    const pin = this.pin()?.thickness()?.value;
    const others = this.leaves().filter(({ piece, edge }) => piece !== leaf.piece || edge !== leaf.edge);
    const thickness = Math.max(0, ...others.map(({ piece }) => piece.thickness() ?? 0));
    return pin !== undefined && thickness > 0 ? notchDepth({ pin, thickness }).value : undefined;
  }

  /** How many in one build: one for each copy of its leaves. */
  readonly make = once((): number => Math.max(1, ...this.leaves().map(({ piece }) => piece.make())));

  readonly figures = once((): FigureSet => {
    const set = new FigureSet(`hinge ${this.name}`, this.name);
    const line = this.line('knuckles');
    if (!line) return set;
    const wide = line.length('wide', 'wide');
    const knuckles = line.count('knuckles');
    if (wide !== undefined && wide > 0 && knuckles !== undefined) {
      set.add('knuckle', 'width of one knuckle', knuckleWidth({ wide, knuckles }), line.place, []);
      set.add('gap', 'room between knuckles', knuckleGap(), line.place, []);
    }
    const over = this.line('over');
    const pin = this.pin()?.thickness();
    if (!over || !pin) return set;
    if (wide !== undefined && wide > 0)
      set.add('pin-length', 'pin, with its heads', pinLength({ wide, pin: pin.value }), over.place, [pin.name]);
    const told = new Set<number>();
    for (const { piece } of this.leaves()) {
      const thickness = piece.material()?.thickness();
      if (!thickness || told.has(thickness.value) || piece.material()?.kind() !== 'sheet') continue;
      const suffix = told.size ? `-${told.size + 1}` : '';
      told.add(thickness.value);
      const inputs = [pin.name, thickness.name];
      const sizes = { pin: pin.value, thickness: thickness.value };
      set.add(
        `development${suffix}`,
        `metal for one knuckle of ${piece.name}`,
        knuckleDevelopment(sizes),
        over.place,
        inputs,
      );
      set.add(`barrel${suffix}`, 'knuckles, across', barrelDiameter(sizes), over.place, inputs);
      set.add(
        `notch${suffix}`,
        `cut into the other leaf, behind its curl, for a knuckle of ${piece.name}`,
        notchDepth(sizes),
        over.place,
        inputs,
      );
    }
    return set;
  });
}
