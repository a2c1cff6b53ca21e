import type { Place } from '../../../grammar/tree.ts';
import { say } from '../../../l10n/say.ts';
import type { LineReading } from '../../model/names/line-reading.ts';
import { ofModel } from '../../model/per-spec.ts';
import type { Model } from '../../model/spec.ts';
import type { Related, Severity } from '../../model/values/figure.ts';
import { rawEdgesOf } from './edges.ts';
import { hotSteps } from './heat.ts';
import { finishes, pieces, seams } from './things.ts';
import { placeOf } from './writing.ts';

/*
 * Safety cautions: each is given once in a spec, at the first place that calls for it, with the others beside it. Figures
 * are those of public regulators; all of them give way to local law, the rulebook and licensed practice.
 */

export interface Caution {
  readonly code: string;
  readonly title: string;
  readonly text: string;
}

interface FoundCaution extends Omit<Caution, 'code'> {
  readonly place: Place;
  readonly severity?: Severity;
  readonly related: readonly Related[];
}

/** What calls for a caution, and what it then says. */
interface Called {
  readonly title: string;
  readonly text: string;
  readonly at: readonly Call[];
}

interface Call {
  readonly place: Place;
  readonly what: string;
  readonly severity?: Severity;
}

/**
 * Every caution that applies to a spec, whatever the settings say: for the head of the papers.
 *
 * @tests the checks read them one by one
 */
export const cautionsOf = (model: Model): readonly Caution[] =>
  [...cautions].flatMap(([code, found]) => {
    const caution = found(model);
    return caution ? [{ code, title: caution.title, text: caution.text }] : [];
  });

/** Gives a caution to its own check. */
export function reportCaution(
  model: Model,
  code: string,
  report: (place: Place, reported: { message: string; severity?: Severity; related: readonly Related[] }) => void,
): void {
  const caution = cautions.get(code)?.(model);
  if (!caution) return;
  const { text, place, severity, related } = caution;
  report(place, { message: text, related, ...(severity ? { severity } : {}) });
}

/** The first place that calls for it, the gravest before others; some more beside it. */
function atFirst({ title, text, at }: Called, { file: { uri } }: Model): FoundCaution | undefined {
  const first = at.find((each) => each.severity === 'error') ?? at.find((each) => each.severity === 'warning') ?? at[0];
  if (!first) return undefined;
  const others = at
    .slice(0, 9)
    .filter((each) => each !== first)
    .slice(0, 8);
  return {
    title,
    text,
    place: first.place,
    ...(first.severity ? { severity: first.severity } : {}),
    related: others.map((each) => ({ uri, place: each.place, message: each.what })),
  };
}

const soldered = seams.list((seam) => {
  const line = seam.line('solder');
  const item = line?.filled('solder', 'with')?.items[0];
  if (!line) return [];
  const said = item?.kind === 'text' ? item.value : undefined;
  if (said !== undefined && (/lead[- ]?free|no lead|silver/i.test(said) || !LEAD.test(said))) return [];
  return [
    {
      place: line.place,
      what: 'Soldered here',
      severity: said === undefined ? ('information' as const) : ('warning' as const),
    },
  ];
});

const LEAD = /\blead\b|\bpb\b|(?:^|\D)(?:40|50|60|63)\s*[/-]\s*(?:60|50|40|37)(?:\D|$)/i;

const LOUD = new Set(['dish', 'raise', 'dish then raise', 'planish', 'texture', 'flute', 'crease', 'flare']);
const COATS = new Set(['prime', 'paint', 'lacquer', 'dye']);

function isGround(line: LineReading): boolean {
  return line.id === 'grind' || line.id === 'sand';
}

/** The places of what every finish does of one sort. Made with the finish, since papers and checks ask at every change. */
const finishing = (isSo: (line: LineReading) => boolean, what: string) =>
  finishes.list((finish) => finish.steps.filter(isSo).map(({ place }) => ({ place, what })));

const ground = finishing(isGround, 'Ground or sanded');
const coloured = finishing(
  (line) => line.id === 'patina' || (line.id === 'blacken' && !line.has('hot')),
  'Coloured by chemicals',
);
const coated = finishing((line) => COATS.has(line.id), 'Coated');

const loud = pieces.list((piece) =>
  piece
    .lines()
    .filter((line) => LOUD.has(line.id) && line.line.section === piece.named.section)
    .slice(0, 1)
    .map(({ place }) => ({ place, what: 'Hammered' })),
);

const sharp = pieces.list((piece) =>
  rawEdgesOf(piece).length ? [{ place: piece.place, what: say`Raw edges of ${piece.name}` }] : [],
);

/** The metals of which a finish grinds something off, by their families. */
const groundFamilies = finishes.list((finish, model) =>
  finish.steps.filter(isGround).flatMap(({ place }) =>
    finish.on.flatMap((on) => {
      const family = on.named?.kind === 'piece' && model.pieceOf(on.named).material()?.metal()?.family;
      return family ? [{ family, place }] : [];
    }),
  ),
);

/** In the order of the papers. Each hangs on what calls for it alone: who hammers a plate waits for no other. */
const CAUTIONS: Readonly<Record<string, (model: Model) => Called | undefined>> = {
  'zinc-fume': (model) => {
    const hot = hotSteps(model);
    const coated = hot.filter(
      (step) =>
        step.pieces.some(
          (piece) => piece.material()?.zincCoated() || piece.edgeWorks().some((work) => work.wire?.zincCoated()),
        ) || step.rivets.some((rivet) => rivet.zincCoated()),
    );
    if (coated.length)
      return {
        title: 'Zinc fume',
        text: 'Heat on zinc gives zinc oxide fume, and metal fume fever hours later: OSHA and NIOSH limit it to 5 mg/m³, NIOSH to 10 for a short time. Strip the zinc first, outdoors, or take bare metal. Never heat galvanised or zinc-plated metal.',
        at: coated.map((step) => ({ place: step.place, what: 'Heat on zinc', severity: 'error' })),
      };
    // Zinc is also in brass, and boils just below its melting heat.
    const brass = hot.filter((step) =>
      step.pieces.some((piece) => piece.material()?.metal()?.contains.includes('zinc')),
    );
    return {
      title: 'Zinc fume',
      text: 'Brass holds zinc, which boils at about 907 °C, just below the heat at which brass melts: anneal at dull red in dim light, with extraction, and do not weld it without. OSHA and NIOSH limit zinc oxide fume to 5 mg/m³.',
      at: brass.map((step) => ({
        place: step.place,
        what: 'Heat on brass',
        severity: step.kind === 'weld' ? 'warning' : 'information',
      })),
    };
  },
  'cadmium-plating': (model) => {
    const plated = [
      ...model.materials().flatMap((each) => (each.plating() === 'cadmium plated' ? [each.stock()!] : [])),
      ...model.rivets().flatMap((each) => (each.plating() === 'cadmium plated' ? [each.stock()!] : [])),
    ];
    const heated = hotSteps(model).filter(
      (step) =>
        step.pieces.some((piece) => piece.material()?.plating() === 'cadmium plated') ||
        step.rivets.some((rivet) => rivet.plating() === 'cadmium plated'),
    );
    return {
      title: 'Cadmium',
      text: 'Cadmium is poisonous: no heat, no grinding, no bare hands, and no food near it. Its fume kills. OSHA limits it to 5 µg/m³ (29 CFR 1910.1027, from memory). Take another plating.',
      at: [
        ...heated.map((step): Call => ({ place: step.place, what: 'Hot work on cadmium', severity: 'error' })),
        ...plated.map((line): Call => ({ place: line.place, what: 'Cadmium plated', severity: 'warning' })),
      ],
    };
  },
  'chromium-fume': (model) => ({
    title: 'Chromium fume',
    text: 'Welding stainless or chromium-plated metal gives chromium(VI) fume, which causes cancer: OSHA limits it to 5 µg/m³ (29 CFR 1910.1026, from memory). Extraction at the arc and a fitted respirator; local law and licensed practice govern.',
    at: hotSteps(model)
      .filter(
        (step) =>
          step.kind === 'weld' &&
          step.pieces.some((piece) => {
            const material = piece.material();
            return material?.metal()?.contains.includes('chromium') || material?.plating() === 'chrome plated';
          }),
      )
      .map((step) => ({ place: step.place, what: 'Welded here' })),
  }),
  'lead-solder': (model) => ({
    title: 'Lead in solder',
    text: 'Tin-lead solder poisons by dust and by hands: none of it where skin or mouth may touch. Wash before eating, and keep children away. A lead-free solder does the same work. OSHA limits lead in air to 50 µg/m³ (29 CFR 1910.1025, from memory).',
    at: soldered(model),
  }),
  'hot-work': (model) => ({
    title: 'Hot work',
    text: 'Nothing that burns within 35 ft (10.7 m) or shielded, and a fire watch for at least 30 minutes after (29 CFR 1910.252). Local codes and the house you work in may ask for more.',
    at: hotSteps(model).map((step) => ({ place: step.place, what: 'Heat' })),
  }),
  'dust-and-noise': (model) => ({
    title: 'Dust and noise',
    text: 'Hammering sheet on a stake is commonly 100 to 115 dBA. OSHA allows 90 dBA for 8 h (29 CFR 1910.95), NIOSH 85 dBA with half the time for every 3 dB more: at 100 dBA that is a quarter of an hour. Grinding dust: OSHA limits the breathed-in part to 5 mg/m³. Ears, eyes, lungs.',
    at: [...loud(model), ...ground(model)],
  }),
  'aluminium-with-steel-dust': (model) => {
    const families = new Map<string, Place>();
    for (const { family, place } of groundFamilies(model)) if (!families.has(family)) families.set(family, place);
    const aluminium = families.get('aluminium');
    if (!aluminium || !(families.has('carbon steel') || families.has('stainless steel'))) return undefined;
    return {
      title: 'Aluminium and steel dust together',
      text: 'Aluminium dust on rusty steel dust burns like thermite once a spark finds it: never grind both into one collector. Clean the belt, the wheel and the hood between.',
      at: [{ place: aluminium, what: 'Aluminium is ground' }],
    };
  },
  'patina-chemicals': (model) => ({
    title: 'Patina chemicals',
    text: 'Acids, ammonia, salts and caustics: gloves, eyes, air, and the acid always into the water. Caustic bluing boils at 135 to 150 °C. Read the safety sheet of what you use; neutralise and take waste where your council says.',
    at: coloured(model),
  }),
  solvent: (model) => ({
    title: 'Solvents',
    text: 'Paint, primer, dye and lacquer give vapour that burns and dulls the head: air, no flame or spark, a respirator for spraying. Oily rags heat by themselves: spread them out or drown them.',
    at: coated(model),
  }),
  'sharp-edge': (model) =>
    model.buildSection() && {
      title: 'Sharp edges',
      text: 'Sheet as cut is a blade: gloves for cutting, deburr both faces, the backs of holes too, and round every edge that stays plain to 1 mm or more.',
      at: sharp(model),
    },
  'duty-not-certified': (model) => {
    const line = model.buildLine('duty');
    const duty = model.duty();
    if (!line || (duty !== 'stage' && duty !== 'contact')) return undefined;
    return {
      title: 'Not certified protection',
      text:
        duty === 'contact'
          ? 'Planish works out metal, not safety: nothing here is certified protection. The group’s rulebook, its marshals and inspectors decide what may be worn in contact.'
          : 'Planish works out metal, not safety: nothing here is certified protection. The production’s safety lead and the rehearsed action decide what may be worn on stage.',
      at: [{ place: placeOf(line, line.line), what: 'Duty' }],
    };
  },
};

const cautions: ReadonlyMap<string, (model: Model) => FoundCaution | undefined> = new Map(
  Object.entries(CAUTIONS).map(([code, calls]) => [
    code,
    ofModel((model) => {
      const called = calls(model);
      return called && atFirst(called, model);
    }),
  ]),
);
