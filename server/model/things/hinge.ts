import { once } from '../../incremental/memo.ts';
import { barrelDiameter, notchDepth, pinAway } from '../../trade/hinge/hinge.ts';
import type { LineReading } from '../names/line-reading.ts';
import type { Named } from '../names/spec-file.ts';
import type { FigureSet } from '../values/figure-set.ts';
import type { MaterialModel } from './material.ts';
import type { PieceModel } from './piece.ts';
import type { RivetModel } from './rivet.ts';
import { type SpecContext, Thing } from './thing.ts';

/** What a hinge asks of its spec. */
export interface HingeContext extends SpecContext {
  pieceOf(named: Named): PieceModel;
  materialOf(named: Named): MaterialModel;
  rivetOf(named: Named): RivetModel;
  readonly figuring: { hinge(hinge: HingeModel): FigureSet };
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

  /** How wide it is, mm. */
  wide(): number | undefined {
    const wide = this.line('knuckles')?.length('wide', 'wide') ?? this.line('bought')?.length('wide', 'wide');
    return wide !== undefined && wide > 0 ? wide : undefined;
  }

  /** How far it is to swing, degrees from where the leaves go on into each other, outward above nought. */
  swing(): { readonly line: LineReading; readonly from: number; readonly to: number } | undefined {
    const line = this.line('swing');
    const [from, to] = [line?.measure('angle', 'from'), line?.measure('angle', 'to')];
    if (!line || from === undefined || to === undefined) return undefined;
    return { line, from: Math.min(from, to), to: Math.max(from, to) };
  }

  /** The bought hinge that it is, if it is none of knuckles. */
  readonly part = once((): Named | undefined => {
    const named = this.line('bought')?.named('part');
    return named?.kind === 'part' ? named : undefined;
  });

  /** How thick it is across its knuckles, of a leaf of so much, mm. */
  barrel(thickness: number): number | undefined {
    const bought = this.line('bought')?.length('barrel', 'barrel');
    if (this.part()) return bought;
    const pin = this.pin()?.thickness()?.value;
    return pin === undefined ? undefined : barrelDiameter({ pin, thickness }).value;
  }

  /** How far the line of the pin lies outside the middle of a leaf of so much, mm; a bought one lies on the plates. */
  pinAway(thickness: number): number | undefined {
    if (this.part()) {
      const barrel = this.barrel(thickness);
      return barrel === undefined ? undefined : (barrel + thickness) / 2;
    }
    const pin = this.pin()?.thickness()?.value;
    return pin === undefined ? undefined : pinAway({ pin, thickness });
  }

  /** The rivets that hold a bought hinge, and how many in one hinge. */
  readonly rivets = once((): { readonly rivet: RivetModel; readonly count: number } | undefined => {
    const line = this.line('bought');
    const named = line?.named('rivet', 'rivets');
    const count = line?.count('count', 'count');
    return named?.kind === 'rivet' && count !== undefined ? { rivet: this.model.rivetOf(named), count } : undefined;
  });

  readonly figures = once((): FigureSet => this.model.figuring.hinge(this));
}
