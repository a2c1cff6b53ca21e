import Flatbush from 'flatbush';
import type { Path } from './path.ts';
import { around, type Box, boxOfSpan, type Point, type Span, spansOf, windingOf } from './span.ts';

/** Things by their boxes, so that whoever asks for a place does not look at all of them. */
export class BoxIndex {
  /** No more than this are looked at one by one sooner than an index of them is made. */
  static readonly FEW = 24;

  private tree: Flatbush | undefined;

  constructor(readonly boxes: readonly Box[]) {}

  /** Those whose box comes so near to this one, in no order. */
  near({ left, right, bottom, top }: Box, by = 0): number[] {
    const [fromX, fromY, toX, toY] = [left - by, bottom - by, right + by, top + by];
    if (this.boxes.length > BoxIndex.FEW) return this.indexed().search(fromX, fromY, toX, toY);
    const found: number[] = [];
    for (let i = 0; i < this.boxes.length; i++) {
      const box = this.boxes[i]!;
      if (box.left <= toX && box.right >= fromX && box.bottom <= toY && box.top >= fromY) found.push(i);
    }
    return found;
  }

  /** The index itself, made when it is first needed. */
  indexed(): Flatbush {
    if (!this.tree) {
      this.tree = new Flatbush(this.boxes.length);
      for (const { left, bottom, right, top } of this.boxes) this.tree.add(left, bottom, right, top);
      this.tree.finish();
    }
    return this.tree;
  }
}

/** Spans by where they lie. */
export class SpanIndex extends BoxIndex {
  /** Whether a ray upwards meets fewer of them than one to the right, as among the teeth of a comb. */
  private looksUp: boolean | undefined;

  constructor(
    readonly spans: readonly Span[],
    boxes: readonly Box[] = spans.map(boxOfSpan),
  ) {
    super(boxes);
  }

  /** How many times closed spans run round a point: as `windingOf`, of which only those are asked that a ray from it may meet. */
  winding(point: Point): number {
    const { x, y } = point;
    if (this.spans.length <= BoxIndex.FEW) return windingOf(this.spans, point);
    this.looksUp ??= isTall(this.boxes);
    const far = Number.POSITIVE_INFINITY;
    const on = this.looksUp
      ? this.near({ left: x, right: x, bottom: y, top: far })
      : this.near({ left: x, right: far, bottom: y, top: y });
    return windingOf(
      on.map((i) => this.spans[i]!),
      point,
      this.looksUp,
    );
  }

  /** Those among which the nearest to a point is, by a measure of how far each is away. */
  nearest(point: Point, awayOf: (span: Span) => number): { readonly span: Span; readonly away: number } | undefined {
    const { x, y } = point;
    const best = (candidates: readonly number[]) =>
      candidates.reduce<{ span: Span; away: number } | undefined>((found, i) => {
        const away = awayOf(this.spans[i]!);
        return found && found.away <= away ? found : { span: this.spans[i]!, away };
      }, undefined);
    if (this.spans.length <= BoxIndex.FEW) return best([...this.spans.keys()]);
    // No box is further away than what lies in it: beyond the nearest of a few there is nothing to look for.
    const close = best(this.indexed().neighbors(x, y, BoxIndex.FEW));
    return (
      close && best(this.near({ left: x, right: x, bottom: y, top: y }, close.away + ROUNDED).sort((a, b) => a - b))
    );
  }
}

/** What a distance may be off, mm. */
const ROUNDED = 1e-6;

/** Whether the spans together are higher, as shares of the whole, than wide. */
export function isTall(boxes: readonly Box[]): boolean {
  const whole = boxes.reduce(around);
  const sum = (of: (box: Box) => number) => boxes.reduce((total, box) => total + of(box), 0) / (of(whole) || 1);
  return sum(({ bottom, top }) => top - bottom) > sum(({ left, right }) => right - left);
}

const indexes = new WeakMap<Path, SpanIndex>();

/** Of the lines and arcs of a path; kept with the path, which never changes. */
export function indexOf(path: Path): SpanIndex {
  let index = indexes.get(path);
  if (!index) {
    index = new SpanIndex(spansOf(path));
    indexes.set(path, index);
  }
  return index;
}
