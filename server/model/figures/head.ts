import type { Place } from '../../../grammar/tree.ts';
import { say, translated } from '../../../l10n/say.ts';
import { leastRoom, shareUnder } from '../../trade/fit/head.ts';
import { DEEP_EYES, seen, seenAcross } from '../../trade/fit/view.ts';
import { areaUnder, type HeadRoom, headRooms } from '../assembly/head.ts';
import { sights } from '../assembly/sight.ts';
import type { Model } from '../spec.ts';
import type { FigureSet } from '../values/figure-set.ts';
import { show } from '../values/show.ts';

/* The head in its helm: the room between it and the metal that stands round it. */

export const HEAD = /^head-clearance/;

/** Where on a helm, in words, from the middle of the head at the brow. */
export function whereabouts({ head, least }: HeadRoom, model: Model): string {
  const words = [
    ['right', 'left'],
    ['in front', 'behind'],
    ['above the brow', 'below the brow'],
  ] as const;
  const far = words.flatMap(([more, less], k) => {
    const value = least.at[k]! - head.at[k]!;
    return Math.abs(value) < 1
      ? []
      : [`${show(Math.abs(value), 'mm', model.units(), { decimals: 0 })} ${translated(value > 0 ? more : less)}`];
  });
  return far.join(', ');
}

export function addHeadRoom(model: Model, set: FigureSet, place: Place): void {
  for (const [i, room] of headRooms(model).entries()) {
    const { head, least, low, high } = room;
    const { fit, piece, level, said, estimated, inputs } = head;
    const name = `head-clearance${i ? `.${piece}` : ''}`;
    const note = [
      say`At ${whereabouts(room, model)}, to ${least.piece}.`,
      say`The brow stands ${level} of ${piece}${said ? '' : say`, which nobody has said`}, the head upright and in its middle.`,
      estimated.length ? say`Estimated: ${estimated.join(', ')}.` : '',
      'At the brow and above the head follows its measures; the face is from memory, and may be 8 mm off.',
    ]
      .filter(Boolean)
      .join(' ');
    set.add(
      name,
      say`least room between the head of ${fit.wearer.name} and the metal, besides the liner`,
      leastRoom({ apart: least.apart, liner: fit.liner, low, high, note }),
      place,
      inputs,
      { decimals: 1 },
    );
    const { under, all } = areaUnder(room, fit.ease);
    if (all > 0)
      set.add(
        `${name}.tight`,
        say`metal over the head that leaves less than ${fit.ease > 0 ? say`the ease` : say`nothing`} besides the liner`,
        shareUnder({
          under: under / 100,
          all: all / 100,
          wanted: fit.ease,
          note: 'Of what lies within 80 mm of the head.',
        }),
        place,
        [`build.${name}`],
      );
  }
}

export const SIGHT = /^sight\./;

/** What the wearer sees past the placed plates and through their slots. */
export function addSight(model: Model, set: FigureSet, place: Place): void {
  for (const [i, { head, near, deep }] of sights(model).entries()) {
    const of = `sight.${i ? `${head.piece}.` : ''}`;
    const { piece, level, said, inputs } = head;
    const note = say`The brow stands ${level} of ${piece}${said ? '' : say`, which nobody has said`}; the range is for eyes up to ${DEEP_EYES} mm deeper than it (common practice, no source). Breaths and pierced work are not looked through.`;
    const shape = { decimals: 1 };
    const across = seenAcross(near.left, near.right, deep.left + deep.right, note);
    set.add(`${of}wide`, 'seen across, with either eye', across, place, inputs, shape);
    const add = (name: Exclude<keyof typeof near, 'share'>, title: string) =>
      set.add(`${of}${name}`, title, seen(near[name], deep[name], 'deg', note), place, inputs, shape);
    add('left', 'seen to the left of straight ahead');
    add('right', 'seen to the right of straight ahead');
    add('both', 'seen across with both eyes at once');
    add('up', 'seen up from straight ahead');
    add('down', 'seen down from straight ahead');
    const share = seen(100 * near.share, 100 * deep.share, 'percent', note);
    set.add(`${of}share`, 'of what is seen without a helm', share, place, inputs, shape);
  }
}
