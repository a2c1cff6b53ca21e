import type { Steps } from '../../incremental/steps.ts';
import type { Point } from '../outline/span.ts';

/*
 * A DXF file in text is pairs of lines: a group code, and the value that it says the meaning of. Here the pairs become
 * entities. The reader that is kept in npm goes round for ever on files that are cut off, and writes to the terminal.
 */

export interface DxfFile {
  /** Numbers of the HEADER section by their names: `$INSUNITS`. */
  readonly header: ReadonlyMap<string, number>;
  /** By name, lower case. */
  readonly blocks: ReadonlyMap<string, { readonly base: Point; readonly entities: readonly Entity[] }>;
  readonly entities: readonly Entity[];
}

type Tag = readonly [code: number, value: string];

/** Groups that are read before others may go first. */
const AT_ONCE = 5_000;

/** One entity with its groups, and the vertices that follow a POLYLINE. */
export class Entity {
  readonly tags: Tag[] = [];
  readonly followers: Entity[] = [];

  constructor(
    readonly kind: string,
    /** Where in the file it begins. */
    readonly line: number,
  ) {}

  /** How many groups it has in all. */
  get size(): number {
    return this.followers.reduce((sum, { tags }) => sum + tags.length, this.tags.length);
  }

  text(code: number): string | undefined {
    return this.tags.find(([each]) => each === code)?.[1];
  }

  number(code: number): number | undefined {
    const text = this.text(code);
    return text === undefined ? undefined : numberIn(text);
  }

  numbers(code: number): number[] {
    return this.tags.flatMap(([each, value]) => (each === code ? [numberIn(value) ?? Number.NaN] : []));
  }

  points(code: number): Point[] {
    const ys = this.numbers(code + 10);
    return this.numbers(code).map((x, i) => ({ x, y: ys[i] ?? Number.NaN }));
  }

  /** The corners of a polyline with their bulges: its own, or those of the VERTEX entities that follow it. */
  corners(): (Point & { bulge?: number })[] {
    if (this.kind === 'POLYLINE')
      return this.followers.flatMap((vertex) => {
        // 16: a point that only holds a spline's frame.
        if (((vertex.number(70) ?? 0) & 16) !== 0) return [];
        const bulge = vertex.number(42);
        return [{ x: vertex.number(10) ?? 0, y: vertex.number(20) ?? 0, ...(bulge ? { bulge } : {}) }];
      });
    const corners: { x: number; y: number; bulge?: number }[] = [];
    for (const [code, value] of this.tags) {
      const last = corners.at(-1);
      const number = numberIn(value) ?? Number.NaN;
      if (code === 10) corners.push({ x: number, y: 0 });
      else if (code === 20 && last) last.y = number;
      else if (code === 42 && last && number !== 0) last.bulge = number;
    }
    return corners;
  }
}

/** The file's parts; nothing where the text is no DXF. */
export function* tagged(text: string): Steps<DxfFile | undefined> {
  const header = new Map<string, number>();
  const blocks = new Map<string, { base: Point; entities: Entity[] }>();
  const entities: Entity[] = [];
  let section = '';
  let variable = '';
  let list: Entity[] | undefined;
  let now: Entity | undefined;
  let block: { head: Entity; entities: Entity[] } | undefined;
  const endBlock = () => {
    if (!block) return;
    const { head } = block;
    blocks.set((head.text(2) ?? '').toLowerCase(), {
      base: { x: head.number(10) ?? 0, y: head.number(20) ?? 0 },
      entities: block.entities,
    });
    block = undefined;
  };
  let any = false;
  let count = 0;
  for (const [code, value, line] of tagsOf(text)) {
    if (++count % AT_ONCE === 0) yield undefined;
    if (code === 0) {
      now = undefined;
      const kind = value.toUpperCase();
      if (kind === 'EOF') break;
      if (kind === 'SECTION') section = '?';
      else if (kind === 'ENDSEC') {
        endBlock();
        section = '';
      } else if (kind === 'BLOCK' && section === 'BLOCKS') {
        endBlock();
        now = new Entity(kind, line);
        block = { head: now, entities: [] };
      } else if (kind === 'ENDBLK') endBlock();
      else {
        list = section === 'ENTITIES' ? entities : section === 'BLOCKS' ? block?.entities : undefined;
        if (!list) continue;
        now = new Entity(kind, line);
        const host = list.at(-1);
        if (kind === 'VERTEX' && host?.kind === 'POLYLINE') host.followers.push(now);
        else if (kind !== 'SEQEND') list.push(now);
      }
    } else if (section === '?' && code === 2) {
      section = value.toUpperCase();
      any = true;
    } else if (section === 'HEADER') {
      if (code === 9) variable = value.toUpperCase();
      else if (code === 70) header.set(variable, numberIn(value) ?? 0);
    } else now?.tags.push([code, value]);
  }
  endBlock();
  return any ? { header, blocks, entities } : undefined;
}

function* tagsOf(text: string): Generator<readonly [...Tag, line: number]> {
  let line = 1;
  let at = 0;
  const next = (): string | undefined => {
    if (at > text.length) return undefined;
    ENDS.lastIndex = at;
    const end = ENDS.exec(text);
    const found = text.slice(at, end ? end.index : text.length);
    at = end ? end.index + end[0].length : text.length + 1;
    return found;
  };
  for (; ; line += 2) {
    const code = Number.parseInt(next() ?? '', 10);
    const value = next();
    // 999 is a comment. A code that is no number ends what can be understood.
    if (Number.isNaN(code) || value === undefined) return;
    if (code !== 999) yield [code, value.trim(), line];
  }
}

const ENDS = /\r\n|\n|\r/g;

function numberIn(text: string): number | undefined {
  const number = Number(text);
  return text === '' || !Number.isFinite(number) ? undefined : number;
}
