/** A number of the language, `2 1/2` or `0.032`, as a fraction. */
export function exactNumber(written: string): readonly [bigint, bigint] {
  const mixed = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(written);
  if (mixed) return [BigInt(mixed[1] ?? 0) * BigInt(mixed[3]!) + BigInt(mixed[2]!), BigInt(mixed[3]!)];
  const [whole = '', part = ''] = written.split('.');
  return [BigInt(whole + part), 10n ** BigInt(part.length)];
}
