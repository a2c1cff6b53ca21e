import type { SemanticTokens, SemanticTokensDelta } from 'vscode-languageserver-types';

/** Remembers the tokens last sent of each spec, so that after a key only what changed goes over the wire. */
export class TokenDeltas {
  private readonly sent = new Map<string, { readonly id: string; readonly data: readonly number[] }>();
  private count = 0;

  whole(uri: string, { data }: SemanticTokens): SemanticTokens {
    return { resultId: this.keep(uri, data), data };
  }

  /** What turns the tokens of `previous` into these; the whole where those are not remembered. */
  since(uri: string, previous: string, { data }: SemanticTokens): SemanticTokens | SemanticTokensDelta {
    const before = this.sent.get(uri);
    const resultId = this.keep(uri, data);
    if (before?.id !== previous) return { resultId, data };
    return { resultId, edits: difference(before.data, data) };
  }

  forget(uri: string): void {
    this.sent.delete(uri);
  }

  private keep(uri: string, data: readonly number[]): string {
    const id = String(++this.count);
    this.sent.set(uri, { id, data });
    return id;
  }
}

/** One edit: all between what both begin with and what both end with, in whole tokens of five numbers. */
function difference(before: readonly number[], after: readonly number[]): SemanticTokensDelta['edits'] {
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start < most && before[start] === after[start]) start++;
  start -= start % 5;
  let end = 0;
  while (end < most - start && before[before.length - 1 - end] === after[after.length - 1 - end]) end++;
  end -= end % 5;
  if (start + end === before.length && before.length === after.length) return [];
  return [{ start, deleteCount: before.length - start - end, data: after.slice(start, after.length - end) }];
}
