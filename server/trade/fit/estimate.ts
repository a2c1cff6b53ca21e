import { say } from '../../../l10n/say.ts';
import { roundEllipse } from '../../geometry/ellipse.ts';
import { firstOf, notAboveNothing, reckon } from '../reckoning/reckon.ts';
import { plain, type Result } from '../reckoning/result.ts';
import { type Body, measureAt } from './body.ts';
import { bodyMeans } from './body-data.ts';

/*
 * Measures that nobody has taken, from those that somebody has, or from what people have in the mean. Every one of them has the
 * ends between which nine in ten people of the survey lie.
 */

/** Nine in ten lie within so many standard deviations. */
const NINE_IN_TEN = 1.645;

/**
 * How length and breadth of a head follow its way round: mm a mm, and the standard deviation of what is left. Men: least squares over
 * the survey's own people. Women: the men's correlation taken, and with it no less spread than women have anyway, since their way
 * round is measured over hair.
 */
const FOLLOWS = {
  'head length': { man: { slope: 0.36, left: 4 }, woman: { slope: 0.317, left: 7.45 } },
  'head breadth': { man: { slope: 0.191, left: 4.6 }, woman: { slope: 0.149, left: 5.19 } },
} as const;

/** Way round a head over that of the oval of its length and breadth, mean and standard deviation. */
const FULLER = { man: { mean: 1.029, spread: 0.012 }, woman: { mean: 1.054, spread: 0.021 } } as const;

/** How far the brow, where a head is measured round, lies above the eyes, mm, and how far it may be off: from memory. */
export const BROW_OVER_EYES = { value: 22, off: 5 } as const;

const SURVEY = 'ANSUR II, US Army 2010–2012, public release';

/**
 * A measure (mm) that is missing; nothing where neither the survey nor another measure says anything of it.
 *
 * `known` gives what has been measured. Range: grown people; from 5 to 95 in a hundred of them.
 * Source: ANSUR II, US Army 2010 to 2012, public release.
 */
export function estimated(
  words: string,
  body: Body | undefined,
  known: (words: string) => number | undefined,
): Result | undefined {
  const [man, woman] = (['man', 'woman'] as const).map((each) =>
    body === undefined || body === each ? estimatedOf(words, each, known) : undefined,
  );
  const one = man ?? woman;
  if (!man || !woman) return one && { ...one, note: [MARK, one.note].filter(Boolean).join(' ') };
  return reckon({
    value: (man.value + woman.value) / 2,
    low: Math.min(man.low!, woman.low!),
    high: Math.max(man.high!, woman.high!),
    unit: 'mm',
    formula: 'x = half of {men} and {women}',
    symbols: { men: man.value, women: woman.value },
    basis: 'published',
    source: man.source,
    outside: firstOf(man.outside, woman.outside),
    note: say`${MARK} Of men ${plain(man.value)} mm, of women ${plain(woman.value)} mm: “body man” or “body woman” takes one.`,
  });
}
const MARK = 'Estimated, not measured: nine in ten people lie between the ends. Measure it where it matters.';

function estimatedOf(words: string, body: Body, known: (words: string) => number | undefined): Result | undefined {
  const girth = known('head round');
  if ((words === 'head length' || words === 'head breadth') && girth !== undefined)
    return fromGirth(words, body, girth);
  const [long, broad] = [known('head length'), known('head breadth')];
  if (words === 'head round' && long !== undefined && broad !== undefined) return fromOval(body, long, broad);
  if (words === 'crown height') return crownHeight(body);
  const at = (percent: number) => measureAt(words, percent, body);
  const middle = at(50);
  return middle && { ...middle, low: at(5)!.value, high: at(95)!.value };
}

function fromGirth(words: keyof typeof FOLLOWS, body: Body, girth: number): Result {
  const { slope, left } = FOLLOWS[words][body];
  const { mean } = bodyMeans[words][body];
  const value = mean + slope * (girth - bodyMeans['head round'][body].mean);
  return reckon({
    value,
    low: value - NINE_IN_TEN * left,
    high: value + NINE_IN_TEN * left,
    unit: 'mm',
    formula: 'x = {mean} + {b} × ({C} − {round})',
    symbols: { mean, b: slope, C: girth, round: bodyMeans['head round'][body].mean },
    basis: 'published',
    source: say`${SURVEY}: ${words === 'head length' ? say`headlength` : say`headbreadth`} on headcircumference, least squares; ± ${plain(left)} mm`,
    outside: notAboveNothing('the way round the head', girth),
    ...(body === 'woman' ? { note: 'Of women the correlation of the men is taken, and the whole spread.' } : {}),
  });
}

function fromOval(body: Body, long: number, broad: number): Result {
  const { mean, spread } = FULLER[body];
  const oval = roundEllipse(long / 2, broad / 2);
  return reckon({
    value: mean * oval,
    low: (mean - NINE_IN_TEN * spread) * oval,
    high: (mean + NINE_IN_TEN * spread) * oval,
    unit: 'mm',
    formula: 'C = {k} × {oval}',
    symbols: { k: mean, oval },
    basis: 'published',
    source: say`${SURVEY}: headcircumference over the oval of headlength and headbreadth, ${mean} ± ${spread}`,
    outside: firstOf(notAboveNothing('the head’s length', long), notAboveNothing('the head’s breadth', broad)),
  });
}

/** Brow to the top of the head: the survey has it from the corner of the eye, as the difference of two measures taken seated. */
function crownHeight(body: Body): Result {
  const [sitting, eyes] = [bodyMeans['sitting height'][body].mean, bodyMeans['sitting eye height'][body].mean];
  const value = sitting - eyes - BROW_OVER_EYES.value;
  const off = NINE_IN_TEN * bodyMeans['ear to top'][body].spread + BROW_OVER_EYES.off;
  return reckon({
    value,
    low: value - off,
    high: value + off,
    unit: 'mm',
    formula: 'h = {sitting} − {eyes} − {brow}',
    symbols: { sitting, eyes, brow: BROW_OVER_EYES.value },
    basis: 'published',
    source: say`${SURVEY}: sittingheight less eyeheightsitting; the brow ${BROW_OVER_EYES.value} ± ${BROW_OVER_EYES.off} mm above the eyes, from memory`,
    note: 'Its spread is taken from that of the ear hole to the top of the head, since the two measures are not told together.',
  });
}
