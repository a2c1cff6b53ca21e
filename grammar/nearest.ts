import { distance } from 'fastest-levenshtein';
import { say } from '../l10n/say.ts';

/**
 * The nearest right word, if one is near enough to be meant: at most a third of the letters differ (one for a
 * short word), and a neighbouring swap counts as one slip.
 */
export function nearest(written: string, candidates: Iterable<string>): string | undefined {
  const word = written.toLowerCase();
  // A very long word is no slip of a short one, and measuring it letter by letter would cost time for nothing.
  if (word.length > 60) return undefined;
  let best: string | undefined;
  let least = Math.max(1, Math.floor(word.length / 3)) + 0.5;
  for (const candidate of candidates) {
    const other = candidate.toLowerCase();
    if (other === word) return candidate;
    if (Math.abs(other.length - word.length) > least) continue;
    const apart = isSwap(word, other) ? 1 : distance(word, other);
    if (apart < least) {
      least = apart;
      best = candidate;
    }
  }
  return best;
}

function isSwap(a: string, b: string): boolean {
  if (a.length !== b.length) return false;
  let first = 0;
  while (first < a.length && a[first] === b[first]) first++;
  return (
    first + 1 < a.length &&
    a[first] === b[first + 1] &&
    a[first + 1] === b[first] &&
    a.slice(first + 2) === b.slice(first + 2)
  );
}

/** `a`, `a or b`, `a, b or c`: at most `most`, so that a message stays one line. */
export function anyOf(words: readonly string[], most = 6): string {
  const shown = words.slice(0, most);
  if (words.length > most) return `${shown.join(', ')} …`;
  const last = shown.pop();
  if (last === undefined) return '';
  return shown.length ? say`${shown.join(', ')} or ${last}` : last;
}
