import type { LinesOf } from '../../../grammar/typed-line.ts';
import { LineReading } from '../names/line-reading.ts';
import type { Named } from '../names/spec-file.ts';
import { ofModel } from '../per-spec.ts';
import type { PieceModel } from '../things/piece.ts';

/* The rulebook that the build names, as its user entered it. */

export interface Limit {
  readonly value: number;
  readonly line: LineReading;
  /** `where dished`: only for plates worked so. */
  readonly where?: 'dished' | 'raised' | 'flat';
}

export interface Rulebook {
  readonly named: Named;
  readonly name: string;
  /** `Rules of the list (2026-01-01)` */
  readonly title: string;
  readonly finished: readonly Limit[];
  readonly start: readonly Limit[];
  readonly openings?: Limit;
  readonly rivets?: Limit;
  readonly padding?: Limit;
  readonly overlap?: Limit;
}

export const rulebook = ofModel((model): Rulebook | undefined => {
  const named = model.rules();
  return named && read(named);
});

function read(named: Named): Rulebook {
  const lines = named.section.lines.map((line) => new LineReading<LinesOf<'rules'>>(named.file, line));
  const limits = (id: 'finished' | 'start' | 'openings' | 'rivets' | 'padding' | 'overlap'): Limit[] =>
    lines.flatMap((line): Limit[] => {
      const value = line.is(id) ? line.length(id) : undefined;
      if (value === undefined || !(value > 0)) return [];
      const where = (['dished', 'raised', 'flat'] as const).find((word) => line.word(word, 'where'));
      return [{ value, line, ...(where ? { where } : {}) }];
    });
  const book = lines.find((line) => line.is('book'));
  const dated = book?.text('dated', 'dated');
  const text = book?.filled('book')?.items[0];
  const title = text?.kind === 'text' ? text.value : named.word.text;
  const [openings] = limits('openings');
  const [rivets] = limits('rivets');
  const [padding] = limits('padding');
  const [overlap] = limits('overlap');
  return {
    named,
    name: named.word.text,
    title: dated ? `${title} (${dated})` : title,
    finished: limits('finished'),
    start: limits('start'),
    ...(openings ? { openings } : {}),
    ...(rivets ? { rivets } : {}),
    ...(padding ? { padding } : {}),
    ...(overlap ? { overlap } : {}),
  };
}

/** The strictest limit that holds for a piece, by how it is worked. */
export function strictest(limits: readonly Limit[], piece: PieceModel): Limit | undefined {
  const { method } = piece.method();
  const worked = {
    dished: method === 'dish' || method === 'dish then raise',
    raised: method === 'raise' || method === 'dish then raise',
    flat: method === undefined,
  };
  return limits
    .filter((limit) => !limit.where || worked[limit.where])
    .reduce<Limit | undefined>((most, limit) => (most && most.value >= limit.value ? most : limit), undefined);
}
