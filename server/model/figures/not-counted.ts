import { leadingWords } from '../../../grammar/pattern.ts';
import type { Line, Place, Section } from '../../../grammar/tree.ts';
import { say, translated } from '../../../l10n/say.ts';
import { gathered, thingOf } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import { jointLeathers } from './joint-hardware.ts';
import { wires } from './wires.ts';

/*
 * What a spec says and no sum holds: told by name at its place, and on every paper before the sum that leaves it out.
 * Stock that is only priced is no matter of this: what has no price says so by itself.
 */

/** Something that is read and not counted. */
export interface NotCounted {
  /** `joint elbow`, `soft edge skull.eye` */
  readonly what: string;
  readonly place: Place;
  readonly reason: string;
  readonly perBuild?: number;
  /** What it is missing from: the mass, or only what is ordered, paid and timed. */
  readonly from: 'mass and order' | 'order' | 'figures';
  /** Whether it is used up out of a tin: what a shop’s overhead is for. */
  readonly isUsedUp?: true;
}

/** Everything of the spec that is read and not counted. */
export const notCounted = (model: Model): readonly NotCounted[] => [
  ...inPieces(model),
  ...inSeams(model),
  ...(['hinge', 'joint', 'finish', 'shop', 'order'] as const).flatMap((kind) =>
    model.sectionsOf(kind).flatMap((section) => notCountedIn(section, model)),
  ),
];

// There are many of these: after an edit only those are asked again of which something changed.
const inPieces = gathered('piece', (piece, model) => notCountedIn(piece.named.section, model));
const inSeams = gathered('seam', (seam, model) => notCountedIn(seam.named.section, model));

/** The same of one section. */
function notCountedIn(section: Section, model: Model): readonly NotCounted[] {
  const kind = section.kind?.kind;
  switch (kind) {
    case 'piece':
      return softEdges(section, model);
    case 'seam':
      return [...boughtLayers(section, model), ...threads(section)];
    case 'hinge':
      return [...pinless(section, model), ...laterLines(section)];
    case 'joint':
      return jointIn(section, model);
    case 'finish':
      return coats(section);
    default:
      return laterLines(section);
  }
}

function softEdges(section: Section, model: Model): NotCounted[] {
  const piece = thingOf(model, 'piece', section);
  return (piece?.edgeWorks() ?? [])
    .filter(({ kind, line }) => kind === 'soft' && line.line.section === section)
    .map(({ line, edge }) => ({
      what: say`soft edge ${piece!.name}.${edge}`,
      place: line.place,
      perBuild: piece!.make(),
      reason: 'its skin and cord are not computed yet',
      from: 'mass and order' as const,
    }));
}

/** A rivet that passes something bought: how thick that is nobody knows. */
function boughtLayers(section: Section, model: Model): NotCounted[] {
  const seam = thingOf(model, 'seam', section);
  if (!seam?.rivetsLine()) return [];
  return seam.stacks().flatMap(({ line, layers }) => {
    const bought = layers.filter(({ named }) => named?.kind === 'part');
    if (!bought.length) return [];
    const names = bought.map(({ name }) => `“${name}”`).join(translated(' and '));
    return [
      {
        what: say`length of the rivets of ${seam.name}`,
        place: line.place,
        reason: say`they pass ${names}, which is bought, and how thick that is is not known: measure the stack yourself`,
        from: 'figures' as const,
      },
    ];
  });
}

const THREADS: Readonly<Record<string, string>> = {
  lace: 'lace',
  sew: 'thread',
  solder: 'solder',
  weld: 'filler and gas',
};

function threads(section: Section): NotCounted[] {
  return section.lines.flatMap((line) => {
    const what = line.word && THREADS[line.word.id];
    return what
      ? [
          {
            what: say`${what} of ${nameOf(section)}`,
            place: placeOf(line),
            reason: 'what it takes is in no list and no sum',
            from: 'mass and order' as const,
          },
        ]
      : [];
  });
}

function pinless(section: Section, model: Model): NotCounted[] {
  const hinge = thingOf(model, 'hinge', section);
  if (hinge?.part())
    return hinge.rivets()
      ? []
      : [
          {
            what: say`rivets of hinge ${hinge.name}`,
            place: hinge.line('bought')!.place,
            reason: 'what holds it is not said: `rivets …, count …`',
            from: 'mass and order',
          },
        ];
  if (!hinge || wires(model).some(({ what, of }) => what === 'pin' && of === hinge.name)) return [];
  return [
    {
      what: `hinge ${hinge.name}`,
      place: headerOf(section),
      reason: 'its pin has no length yet: it wants `knuckles …, wide …` and a wire, `over …`',
      from: 'mass and order',
    },
  ];
}

/** What of a joint is not read yet, and leathers that cannot be cut. */
function jointIn(section: Section, model: Model): NotCounted[] {
  const joint = thingOf(model, 'joint', section);
  const uncut = joint
    ?.leathers()
    .filter(({ line }) => !jointLeathers(model).some((use) => use.leather.line === line && use.long));
  return [
    ...(uncut ?? []).map(({ line }) => ({
      what: say`leathers of ${nameOf(section)}`,
      place: line.place,
      reason: 'how long they are is not known, since how the joint moves is not',
      from: 'mass and order' as const,
    })),
    ...laterLines(section),
  ];
}

/** What is laid on: how much of some of it is a figure, but none of it is bought or weighed. */
function coats(section: Section): NotCounted[] {
  const steps = section.lines.filter(({ word }) => word?.group === 'step' && LAID_ON.has(word.id));
  const [first] = steps;
  if (!first) return [];
  const names = [...new Set(steps.map(({ word }) => leadingWords(word!.pattern)))];
  return [
    {
      what: say`${names.join(', ')} of ${nameOf(section)}`,
      place: placeOf(first),
      reason: 'what is laid on is in no order, no price and no mass',
      from: 'mass and order',
      isUsedUp: true,
    },
  ];
}
const LAID_ON: ReadonlySet<string> = new Set(['blacken', 'patina', 'prime', 'paint', 'dye', 'oil', 'wax', 'lacquer']);

/** Lines from which nothing is computed yet. */
function laterLines(section: Section): NotCounted[] {
  return section.lines
    .filter(({ word }) => word?.computed === false)
    .map((line) => ({
      what: writtenIn(line),
      place: placeOf(line),
      reason: 'it is read, and no sum holds it yet',
      from: 'order' as const,
    }));
}

const nameOf = (section: Section): string => section.name?.text ?? section.kind!.kind;
const headerOf = (section: Section): Place => {
  const { from, to } = section.name ?? section.header!;
  return { section, from, to };
};
const placeOf = (line: Line): Place => ({ section: line.section, from: line.from, to: line.to });
const writtenIn = ({ section, from, to }: Line): string => section.text.slice(from, to).replace(/\s+/g, ' ');
