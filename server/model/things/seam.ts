import { say } from '../../../l10n/say.ts';
import { once } from '../../incremental/memo.ts';
import { compressedThickness } from '../../trade/leather/leather.ts';
import { intervalOf } from '../../trade/reckoning/interval.ts';
import { fromSpec } from '../../trade/reckoning/readings.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { type FormedHead, holeFor, rivetLengthByRule, rivetLengthByVolume } from '../../trade/rivet/rivet.ts';
import { evenPitch, rivetsInRow, rowLength, stackOf } from '../../trade/rivet/row.ts';
import type { LineReading } from '../names/line-reading.ts';
import type { Named } from '../names/spec-file.ts';
import type { Figure } from '../values/figure.ts';
import type { FigureSet } from '../values/figure-set.ts';
import type { PieceModel } from './piece.ts';
import type { RivetModel } from './rivet.ts';
import { type SpecContext, Thing } from './thing.ts';

export interface Layer {
  readonly name: string;
  readonly copy?: 'left' | 'right';
  readonly named: Named | undefined;
  readonly piece?: PieceModel;
  readonly soft: boolean;
  /** Thickness where the rivet passes, formed and, if soft, compressed, mm: worked out when it is asked for. */
  readonly thickness: Result | undefined;
  /** How many times it passes through it: twice through a hem, three times through a double one. */
  readonly times: number;
}

/** One stack of a seam, outside first. */
export interface Stack {
  readonly line: LineReading;
  readonly layers: readonly Layer[];
  readonly washer?: { readonly thickness: number; readonly side: 'inside' | 'outside' };
  /** All that the shank passes through, mm; nothing where a layer's thickness is not known. */
  readonly total: Result | undefined;
  readonly needed: Result | undefined;
}

export interface Along {
  readonly line: LineReading;
  readonly piece: PieceModel;
  readonly edge: string;
  /** mm along the edge; a whole edge has neither. */
  readonly from?: number;
  readonly to?: number;
}

/** What a seam asks of its spec. */
export interface SeamContext extends SpecContext {
  pieceOf(named: Named): PieceModel;
  rivetOf(named: Named): RivetModel;
  readonly figuring: { seam(seam: SeamModel): FigureSet };
}

/** Riveted joints are a row of stacks; other seams have none of this. */
export class SeamModel extends Thing<'seam', SeamContext> {
  readonly rivetsLine = once(() => this.line('rivets'));

  readonly rivet = once((): RivetModel | undefined => {
    const named = this.rivetsLine()?.named('rivet');
    return named?.kind === 'rivet' ? this.model.rivetOf(named) : undefined;
  });

  /** The head made by hand. */
  readonly head = once((): FormedHead => {
    const line = this.rivetsLine();
    return line?.word('flush', 'peened') ? 'flush' : line?.word('flat', 'peened') ? 'flat' : 'domed';
  });

  readonly headInside = once(() => this.rivetsLine()?.has('head inside') ?? false);
  readonly inset = once(() => this.rivetsLine()?.length('inset', 'inset'));

  readonly along = once((): readonly Along[] =>
    this.lines.flatMap((line): Along[] => {
      const word = line.id === 'along' ? line.filled('edge')?.items[0] : undefined;
      if (word?.kind !== 'word') return [];
      const [pieceKey, edge] = word.key.split('.');
      const named = edge ? this.named.file.find(pieceKey!) : undefined;
      if (named?.kind !== 'piece') return [];
      const from = line.length('from', 'from');
      const to = line.length('to', 'from');
      return [
        {
          line,
          piece: this.model.pieceOf(named),
          edge: edge!,
          ...(from !== undefined && to !== undefined ? { from: Math.min(from, to), to: Math.max(from, to) } : {}),
        },
      ];
    }),
  );

  readonly stacks = once((): readonly Stack[] =>
    this.lines.flatMap((line): Stack[] => {
      if (line.id !== 'joins') return [];
      const layers = line.all('pieces').map((filled): Layer => {
        const named = this.named.file.find(filled.text);
        const piece = named?.kind === 'piece' ? this.model.pieceOf(named) : undefined;
        const soft = piece?.material()?.kind() === 'soft';
        // Forms may have to be laid flat for it, and who asks which pieces meet needs none of it.
        const thickness = once(() => piece && this.thicknessOf(piece));
        const times = piece ? this.timesThrough(piece) : 1;
        return {
          name: named?.word.text ?? filled.text,
          named,
          soft,
          times,
          ...(filled.copy ? { copy: filled.copy } : {}),
          ...(piece ? { piece } : {}),
          get thickness() {
            return thickness();
          },
        };
      });
      const washer = this.washer();
      const total = once(() => totalOf(layers, washer?.thickness));
      const needed = once(() => {
        const stack = total();
        return stack && this.neededFor(stack);
      });
      return [
        {
          line,
          layers,
          ...(washer ? { washer } : {}),
          get total() {
            return total();
          },
          get needed() {
            return needed();
          },
        },
      ];
    }),
  );

  readonly washer = once((): { thickness: number; side: 'inside' | 'outside' } | undefined => {
    const line = this.rivetsLine();
    const washer = this.rivet()?.washer();
    if (!line?.has('washer') || !washer) return undefined;
    return { thickness: washer.thickness, side: line.word('outside', 'washer') ? 'outside' : 'inside' };
  });

  /** How often a rivet passes a piece whose hem it goes through. */
  private timesThrough(piece: PieceModel): number {
    const inset = this.inset();
    const edges = this.along().flatMap((along) => (along.piece === piece ? [along.edge] : []));
    const hem = piece
      .edgeWorks()
      .find((work) => work.hem && piece.edgesOf(work).some((edge) => edges.includes(edge)))?.hem;
    return hem && inset !== undefined && inset <= hem.width ? (hem.double ? 3 : 2) : 1;
  }

  /** Thickness of a piece where this seam's rivets pass: at the rim a dome is thicker than at its crown. */
  private thicknessOf(piece: PieceModel): Result | undefined {
    const upTheMiddle = this.along().some((along) => along.piece === piece && along.edge === 'middle');
    return (
      (upTheMiddle && piece.material()?.kind() !== 'soft' ? overTheCrown(piece) : undefined) ?? thicknessAtEdge(piece)
    );
  }

  private neededFor(total: Result): Result | undefined {
    const size = this.rivet()?.size();
    if (!size) return undefined;
    const hole = holeFor(size.shank).value;
    const head = this.head();
    const made = (stack: number) => rivetLengthByVolume({ stack, shank: size.shank, hole, head });
    const found = made(total.value);
    const rule = rivetLengthByRule({ stack: total.value, shank: size.shank });
    const low = total.low === undefined ? found.low : made(total.low).low;
    const high = total.high === undefined ? found.high : made(total.high).high;
    return {
      ...found,
      ...(low === undefined || high === undefined ? {} : { low, high }),
      note: [
        say`The rule of 1.5 D beyond the stack would say ${rule.value.toFixed(1)} mm: it is for aircraft work, and leaves more for the head.`,
        found.note,
      ]
        .filter(Boolean)
        .join(' '),
    };
  }

  /** Length that the row runs, mm. */
  readonly length = once((): Result | undefined => {
    const along = this.along()[0];
    const whole = along?.piece.figure(`${along.edge}.length`);
    if (!along || !whole) return undefined;
    if (along.from === undefined || along.to === undefined) return whole;
    return rowLength({ from: along.from, to: along.to, whole: whole.value, edge: `${along.piece.name}.${along.edge}` });
  });

  /** A row right round a rim has no ends. */
  readonly isClosed = once(() => {
    const along = this.along()[0];
    return along !== undefined && along.from === undefined && along.piece.isClosedEdge(along.edge);
  });

  /** How far the first and the last rivet stay from the ends of the row, mm. */
  endMargin(): number {
    const shank = this.rivet()?.size()?.shank ?? 0;
    return this.isClosed() ? 0 : (this.inset() ?? 2 * shank);
  }

  /** Rivets in one row. */
  readonly rivetCount = once((): Result | undefined => {
    const line = this.rivetsLine();
    if (!line) return undefined;
    const shares = this.shares();
    if (shares.length) return fromSpec(shares.length, 'count', 'n');
    const count = line.count('count', 'count');
    if (count) return fromSpec(count, 'count', 'n');
    const every = line.length('every', 'every');
    const length = this.length();
    if (!length || every === undefined || !(every > 0)) return undefined;
    const inRow = rivetsInRow({ length: length.value, margin: this.endMargin(), closed: this.isClosed(), every });
    // What more there would be is never made one by one: the check says so at the number.
    return inRow.value <= MOST_IN_ROW ? inRow : undefined;
  });

  /** How many rivets so close a row would have, where nobody drives so many. */
  tooManyRivets(): number | undefined {
    const every = this.rivetsLine()?.length('every', 'every');
    const length = this.length()?.value;
    if (every === undefined || length === undefined || this.rivetCount()) return undefined;
    const count = Math.ceil(length / every);
    return count > MOST_IN_ROW ? count : undefined;
  }

  readonly pitch = once((): Result | undefined => {
    const length = this.length();
    const count = this.rivetCount();
    if (!length || !count || this.shares().length) return undefined;
    const pitch = evenPitch({
      length: length.value,
      margin: this.endMargin(),
      closed: this.isClosed(),
      count: count.value,
    });
    return pitch.outside === undefined ? pitch : undefined;
  });

  /** The rivets of other seams that this stack uses. */
  readonly shares = once((): readonly { line: LineReading; seam: Named | undefined; position: number }[] =>
    this.lines.flatMap((line) => {
      if (line.id !== 'shares') return [];
      const seam = line.named('seam');
      return (['first', 'second'] as const).flatMap((slot) => {
        const position = line.count(slot);
        return position ? [{ line, seam, position }] : [];
      });
    }),
  );

  /** Rows in one build: one for each stack, for each copy of its pieces. */
  readonly rows = once((): number => this.stacks().reduce((total, stack) => total + this.rowsOf(stack), 0));

  /** Rows of one of its stacks in one build. */
  rowsOf(stack: Stack): number {
    if (stack.layers.some((layer) => layer.copy)) return 1;
    const along = this.along()[0]?.piece;
    const pieces = stack.layers.flatMap((layer) => layer.piece ?? []);
    return along && pieces.includes(along) ? along.make() : Math.max(1, ...pieces.map((piece) => piece.make()));
  }

  readonly figures = once((): FigureSet => this.model.figuring.seam(this));

  figure(suffix: string): Figure | undefined {
    return this.figures().get(suffix);
  }
}

/** Thickness of a piece where a rivet passes it near its edge: as formed, or, if it is soft, as compressed. */
export function thicknessAtEdge(piece: PieceModel): Result | undefined {
  const material = piece.material();
  const start = material?.thickness();
  if (!start) return undefined;
  if (material?.kind() === 'soft') return compressed(start);
  return piece.figure('thickness.edge') ?? piece.figure('thickness.least') ?? start;
}

/** Leather as it is under the head of a rivet. */
export function compressed(start: Result): Result {
  const made = compressedThickness(start.value);
  if (start.low === undefined || start.high === undefined) return made;
  return { ...made, low: compressedThickness(start.low).low!, high: compressedThickness(start.high).high! };
}

/** Rivets in one row: more is a slip of the finger. */
const MOST_IN_ROW = 10_000;

/** All that the shank passes through. */
function totalOf(layers: readonly Layer[], washer: number | undefined): Result | undefined {
  const passed = layers.flatMap(({ name, thickness, times }) => (thickness ? [{ name, thickness, times }] : []));
  return passed.length && passed.length === layers.length ? stackOf(passed, washer) : undefined;
}

/** Thickness under a row that runs over the crown: from what is left there to what the edge has, each with its own range. */
function overTheCrown(piece: PieceModel): Result | undefined {
  const met = ['crown', 'mid', 'edge'].flatMap((where) => piece.figure(`thickness.${where}`) ?? []);
  const middle = piece.figure('thickness.mid') ?? met[0];
  if (!middle) return undefined;
  const ends = met.map(intervalOf);
  const [low, high] = [Math.min(...ends.map((each) => each.low)), Math.max(...ends.map((each) => each.high))];
  return {
    ...middle,
    low,
    high,
    note: 'The row runs from the edge over the crown: each of its rivets passes its own thickness in this range.',
  };
}
