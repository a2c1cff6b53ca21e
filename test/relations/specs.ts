/* Specs of one hammered piece each, made up from a seed: forms, ways of working, edges, bays, workings, blanks of one's own. */

/** Numbers from a seed, 0 to 1 (mulberry32). */
function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function hammeredSpec(seed: number): string {
  const next = numbers(seed);
  const between = (from: number, to: number) => Math.round(10 * (from + (to - from) * next())) / 10;
  const one = <T>(...all: readonly T[]): T => all[Math.floor(next() * all.length)]!;
  const sometimes = (share: number) => next() < share;
  const wide = between(60, 260);
  const long = sometimes(0.2) ? wide : between(wide, 1.5 * wide);
  const deep = between(0.1 * wide, 0.85 * wide);
  const kind = one('dome', 'dome', 'oval dome', 'oval dome', 'half dome', 'gore dome', 'loft', 'tip');
  const side = sometimes(0.3) ? one(', inside', ', outside') : '';
  const lines: string[] = [];
  const edge = kind === 'loft' || kind === 'tip' ? 'bottom' : 'rim';
  switch (kind) {
    case 'dome':
      lines.push(`dome ${wide} mm, deep ${deep} mm${side}`);
      break;
    case 'gore dome':
      lines.push(`gore dome ${wide} mm, deep ${deep} mm, gores ${one(3, 4, 6, 8)}`);
      break;
    case 'loft': {
      const round = 3 * wide;
      lines.push(
        `form wrap ${one(160, 180, 200)} deg${side}`,
        `at 0 mm, round ${round} mm`,
        `at ${deep} mm, round ${(round * between(1, 1.2)).toFixed(1)} mm`,
        `at ${2 * deep} mm, round ${(round * between(0.7, 0.95)).toFixed(1)} mm`,
      );
      break;
    }
    case 'tip':
      lines.push(
        `form half${side}`,
        `at 0 mm, round ${3 * wide} mm`,
        `at ${deep} mm, round ${2.6 * wide} mm`,
        `at ${1.4 * deep} mm, flat`,
      );
      break;
    default:
      lines.push(`${kind} ${long} x ${wide} mm, deep ${deep} mm${side}`);
  }
  const isDished = deep < 0.45 * wide;
  if (sometimes(0.9)) lines.push(one(isDished ? 'dish' : 'raise', 'raise', 'dish then raise'));
  if (sometimes(0.3))
    lines.push(
      one(
        `edge ${edge} long ${between(2, 12)} mm`,
        `edge ${edge} rolled, hollow ${between(3, 6)} mm`,
        `edge ${edge} hemmed ${between(5, 8)} mm`,
      ),
    );
  if (sometimes(0.12) && kind.endsWith('dome') && kind !== 'gore dome') {
    // Told from both ends of the rim.
    const rim = (Math.PI * wide) / (kind === 'half dome' ? 2 : 1);
    lines.push(
      `cut eye from ${between(10, 20)} mm on rim to ${between(0.6 * rim, 0.8 * rim)} mm on rim, deep ${between(5, 15)} mm`,
    );
  }
  if (sometimes(0.12) && (kind === 'dome' || kind === 'oval dome'))
    lines.push(`crease along middle, deep ${between(0.5, 6)} mm`);
  if (sometimes(0.4)) {
    const share = between(0.6, 1.7);
    const across = Math.round(wide * share + deep);
    lines.push(kind === 'dome' ? `blank disc ${across} mm` : `blank ${Math.round(long * share + deep)} x ${across} mm`);
  }
  return `material plate
  ${one('mild steel', 'brass', 'copper')} ${one('0.8', '1.2', '1.5', '2')} mm${sometimes(0.2) ? ' ± 0.08 mm' : ''}
piece part
  from plate
${lines.map((each) => `  ${each}\n`).join('')}`;
}
