import type { WordListName, WordLists } from '../pattern.ts';

/** A word of a closed list, and what it means at the bench. */
export interface ListWord {
  readonly word: string;
  readonly doc: string;
  /** Other spellings that are read and kept as written. */
  readonly also?: readonly string[];
}

const entry = (word: string, doc: string, ...also: string[]): ListWord => ({
  word,
  doc,
  ...(also.length ? { also } : {}),
});

export const wordLists: Readonly<Record<WordListName, readonly ListWord[]>> = {
  metal: [
    entry(
      'mild steel',
      'Low-carbon sheet steel: the usual armour plate. Gauge numbers follow the table of uncoated steel sheet.',
      'steel',
      'ms',
      'low carbon steel',
      'cold rolled steel',
      'cold rolled mild steel',
      'hot rolled steel',
      'crs',
    ),
    entry(
      'galvanised steel',
      'Zinc-coated steel. Its gauge counts the zinc; hot work on it gives zinc fume.',
      'galvanized steel',
      'galv steel',
    ),
    entry(
      'stainless steel',
      'Chromium steel; say which with `grade "304"`. Hardens fast under the hammer.',
      'stainless',
    ),
    entry('spring steel', 'Carbon steel that hardens; say which with `grade "1050"`.', 'carbon steel'),
    entry('alloy steel', 'Low-alloy steel such as `grade "4130"`.'),
    entry('tinplate', 'Thin steel with a coat of tin.'),
    entry('wrought iron', 'Iron with slag fibres.'),
    entry('brass', 'Copper and zinc. Gauge numbers follow the Brown & Sharpe table.'),
    entry('bronze', 'Copper and tin; say which with `grade "C510"`. Brown & Sharpe gauge.'),
    entry('copper', 'Soft, easily raised. Brown & Sharpe gauge.'),
    entry('nickel silver', 'Copper, zinc and nickel: white, and holds no silver.', 'german silver'),
    entry('aluminium', 'Light; say which with `grade "5052"`. Brown & Sharpe gauge.', 'aluminum'),
    entry('titanium', 'Light and springy; say which with `grade "grade 2"`.'),
  ],
  soft: [
    entry('veg-tan leather', 'Vegetable-tanned leather, sold by ounces of 1/64 in.', 'vegetable-tanned leather'),
    entry('leather', 'Leather of any tannage; say which with `grade`.'),
    entry('rawhide', 'Untanned hide.'),
    entry('lambskin', 'Thin soft skin for edges and linings.'),
    entry('goatskin', 'Thin strong skin for linings.'),
    entry('felt', 'Pressed wool.'),
    entry('foam', 'Closed-cell foam.'),
    entry('cord', 'Cord for soft edges and laces.'),
  ],
  temper: [
    entry('soft', 'As annealed.', 'annealed'),
    entry('quarter hard', 'Cold rolled a little after the last anneal.'),
    entry('half hard', 'Cold rolled after the last anneal.'),
    entry('three-quarter hard', 'Cold rolled more.'),
    entry('hard', 'Cold rolled hard: anneal before forming.'),
    entry('spring hard', 'Cold rolled to a spring.'),
    entry('normalised', 'Heated and cooled in air.', 'normalized'),
    entry('tempered', 'Hardened and tempered.'),
  ],
  plating: [
    entry('zinc plated', 'Zinc: no heat on it, the fume makes you ill.', 'galvanised', 'galvanized'),
    entry('nickel plated', 'Nickel.'),
    entry('brass plated', 'A skin of brass.'),
    entry('tin plated', 'Tin.', 'tinned'),
    entry('chrome plated', 'Chromium.'),
    entry('cadmium plated', 'Cadmium: poisonous; no heat, no grinding.'),
    entry('unplated', 'Bare metal.'),
  ],
  head: [
    entry('domed', 'A round head.', 'round', 'round head', 'domed head', 'dome head', 'snap head', 'button head'),
    entry('flat', 'A flat head.', 'flat head'),
    entry('pan', 'A pan head.', 'pan head'),
    entry('countersunk', 'A head that sits in a countersink.', 'flush', 'countersunk head', 'csk', 'flush head'),
    entry('tinners', "The large flat head of a tinners' rivet.", 'tinners head', 'tinman'),
  ],
  'body measure': [
    entry('head round', 'Head circumference, over the brow (ISO 7250-1 head circumference).', 'head circumference'),
    entry('head length', 'Brow to the back of the head (ISO 7250-1).'),
    entry('head breadth', 'Side to side above the ears (ISO 7250-1).', 'head width'),
    entry('eye distance', 'Between the pupils.', 'pupil distance'),
    entry('crown height', 'Brow to the top of the head, upright.'),
    entry('face length', 'Root of the nose to the chin (ISO 7250-1).'),
    entry('face breadth', 'Across the cheekbones (ISO 7250-1).', 'face width'),
    entry('neck round', 'Neck circumference.', 'neck circumference'),
    entry('shoulder breadth', 'Across the shoulders.', 'shoulder width'),
    entry('chest round', 'Chest circumference.', 'chest circumference'),
    entry('chest breadth', 'Side to side at the chest.'),
    entry('chest depth', 'Front to back at the chest.'),
    entry('waist round', 'Waist circumference.', 'waist circumference'),
    entry('hip round', 'Hip circumference, at its widest.', 'hip circumference'),
    entry('hip breadth', 'Side to side at the hips.', 'hip width'),
    entry('waist to throat', 'Front length, from the waist to the pit of the throat.'),
    entry('back length', 'Nape to waist.'),
    entry('upper arm round', 'Upper arm circumference, tensed.', 'upper arm circumference', 'biceps round'),
    entry('upper arm length', 'Shoulder to elbow.'),
    entry('elbow round', 'Elbow circumference, arm straight.'),
    entry('bent elbow round', 'Elbow circumference, arm bent.', 'elbow round bent'),
    entry('forearm round', 'Forearm circumference, tensed.', 'forearm circumference'),
    entry('forearm length', 'Elbow to wrist.'),
    entry('wrist round', 'Wrist circumference.', 'wrist circumference'),
    entry('hand breadth', 'Across the knuckles (ISO 7250-1).'),
    entry('hand length', 'Wrist to the tip of the middle finger (ISO 7250-1).'),
    entry('hand round', 'Hand circumference at the knuckles.'),
    entry('thigh round', 'Thigh circumference.', 'thigh', 'thigh circumference'),
    entry('thigh length', 'Hip to knee.'),
    entry('knee round', 'Knee circumference, leg straight.', 'knee', 'knee circumference'),
    entry('bent knee round', 'Knee circumference, leg bent.', 'knee round bent'),
    entry('calf round', 'Calf circumference.', 'calf', 'calf circumference'),
    entry('lower leg length', 'Knee to ankle.'),
    entry('ankle round', 'Ankle circumference.', 'ankle', 'ankle circumference'),
    entry('foot round', 'Round heel and instep: what a closed greave must pass.', 'heel round', 'heel circumference'),
  ],
  region: [
    entry('head', 'The head at the brow.'),
    entry('face', 'The face.'),
    entry('neck', 'The neck.'),
    entry('shoulder', 'The shoulder.'),
    entry('chest', 'The chest.'),
    entry('waist', 'The waist.'),
    entry('hip', 'The hips.'),
    entry('upper arm', 'The upper arm.'),
    entry('elbow', 'The elbow.'),
    entry('forearm', 'The forearm.'),
    entry('wrist', 'The wrist.'),
    entry('hand', 'The hand.'),
    entry('thigh', 'The thigh.'),
    entry('knee', 'The knee.'),
    entry('calf', 'The calf.'),
    entry('ankle', 'The ankle.'),
    entry('foot', 'The foot.'),
  ],
  operation: [
    entry('cut', 'Cutting the blank.'),
    entry('file', 'Filing the edges.'),
    entry('drill', 'Drilling.'),
    entry('punch', 'Punching.'),
    entry('bend', 'Bending.'),
    entry('roll', 'Rolling edges.'),
    entry('dish', 'Dishing.'),
    entry('raise', 'Raising.'),
    entry('dish then raise', 'Dishing, then raising.'),
    entry('planish', 'Planishing.'),
    entry('flute', 'Fluting.'),
    entry('crease', 'Creasing.'),
    entry('flare', 'Flaring an edge.'),
    entry('texture', 'Hammer texture.'),
    entry('anneal', 'Annealing.'),
    entry('harden', 'Hardening.'),
    entry('temper', 'Tempering.'),
    entry('weld', 'Welding.'),
    entry('solder', 'Soldering.'),
    entry('fit', 'Fitting to its neighbours.'),
    entry('rivet', 'Riveting.'),
    entry('polish', 'Polishing.'),
    entry('finish', 'Finishing.'),
  ],
  side: [
    entry('left', 'The left, as worn.'),
    entry('right', 'The right, as worn.'),
    entry('front', 'The front.'),
    entry('back', 'The back.'),
  ],
  medium: [
    entry('oil', 'Oil quench.'),
    entry('water', 'Water quench.'),
    entry('brine', 'Salt-water quench.'),
    entry('air', 'Cooling in air.'),
  ],
  currency: ['GBP', 'EUR', 'USD', 'CAD', 'AUD', 'NZD', 'CHF', 'SEK', 'NOK', 'DKK', 'PLN', 'CZK', 'JPY'].map((code) =>
    entry(code, `ISO 4217 code ${code}.`),
  ),
  'heat source': [
    entry('torch', 'A torch.'),
    entry('forge', 'A forge.'),
    entry('kiln', 'A kiln with a thermostat.'),
    entry('none', 'No heat in this shop.'),
  ],
  'colour word': [],
};

const sets = new Map<WordListName, Set<string>>();
const longest = new Map<WordListName, number>();
const canonical = new Map<WordListName, Map<string, string>>();
for (const [name, words] of Object.entries(wordLists) as [WordListName, readonly ListWord[]][]) {
  const spellings = words.flatMap((each) => [each.word, ...(each.also ?? [])].map((text) => text.toLowerCase()));
  sets.set(name, new Set(spellings));
  longest.set(name, Math.max(1, ...spellings.map((text) => text.split(' ').length)));
  const map = new Map<string, string>();
  for (const each of words)
    for (const text of [each.word, ...(each.also ?? [])]) map.set(text.toLowerCase(), each.word);
  canonical.set(name, map);
}

export const lists: WordLists = {
  has: (list, words) => sets.get(list)?.has(words) ?? false,
  longest: (list) => longest.get(list) ?? 1,
};

/** The word of a list that a spelling means: `galvanized steel` is `galvanised steel`. */
export const listWord = (list: WordListName, spelling: string): string | undefined =>
  canonical.get(list)?.get(spelling.toLowerCase());

export const listDoc = (list: WordListName, spelling: string): string | undefined => {
  const word = listWord(list, spelling);
  return wordLists[list].find((each) => each.word === word)?.doc;
};
