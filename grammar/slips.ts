import { wordLists } from './vocabulary/index.ts';

/*
 * How smiths write who have never read the reference: gauge before metal, `dia`, `1 pair`, `£18`. A line that is not understood is
 * tried in these other words. Where one of them makes it whole, that is the one thing that is said of it.
 */

interface Slip {
  /** Sections in which it is looked for; none: all. */
  readonly in?: readonly string[];
  readonly find: RegExp;
  readonly write: string | ((...parts: string[]) => string);
  /** Begins the message, before the line as it is to be written. */
  readonly why: string;
}

const MEASURE = String.raw`[\d./½¼¾⅓⅔⅛⅜⅝⅞]+(?:\s+\d+\/\d+)?\s*(?:mm|cm|m|in|inch|inches|"|ga|gauge|gage|oz|ounces?)?(?![\p{L}\p{N}])`;
const re = (source: string, flags = 'iu') => new RegExp(source.replaceAll('MEASURE', MEASURE), flags);

/** Closed-list terms of several words, longest first, so that a part of one is never taken for the whole. */
const termsOf = (list: 'metal' | 'soft'): string =>
  wordLists[list]
    .flatMap(({ word, also = [] }) => [word, ...also])
    .sort((a, b) => b.length - a.length)
    .join('|');
const STOCK = `${termsOf('metal')}|${termsOf('soft')}`;

/** Done words, and the working, the step or the joining that is meant. */
const DONE: Readonly<Record<string, string>> = {
  dished: 'dish',
  raised: 'raise',
  planished: 'planish',
  textured: 'texture',
  hardened: 'harden',
  tempered: 'temper',
  annealed: 'anneal',
  polished: 'polish',
  blackened: 'blacken',
  blued: 'blue',
  primed: 'prime',
  painted: 'paint',
  dyed: 'dye',
  oiled: 'oil',
  waxed: 'wax',
  lacquered: 'lacquer',
  ground: 'grind',
  sanded: 'sand',
  welded: 'weld',
  soldered: 'solder',
  laced: 'lace',
  sewn: 'sew',
  stitched: 'sew',
  riveted: 'rivets',
  fluted: 'flute',
  creased: 'crease',
  flared: 'flare',
  bent: 'bend',
};

const NOUNS: Readonly<Record<string, string>> = {
  depth: 'deep',
  height: 'high',
  width: 'wide',
  length: 'long',
  girth: 'round',
  circumference: 'round',
  spacing: 'every',
  spaced: 'every',
};

/** Where hyphens and spaces are a matter of taste. */
const HYPHENED = Object.values(wordLists)
  .flat()
  .flatMap(({ word, also = [] }) => [word, ...also])
  .filter((term) => /[ -]/.test(term))
  .sort((a, b) => b.length - a.length)
  .map((term) => ({
    term,
    loose: new RegExp(`(?<![\\p{L}\\p{N}.-])${term.split(/[ -]/).join('[ -]')}(?![\\p{L}\\p{N}.-])`, 'giu'),
  }));

const SLIPS: readonly Slip[] = [
  // ---- signs
  { find: /\b(ga|mm|cm|in|oz|deg|dia|thk|approx)\.(?=[\s,]|$)/giu, write: '$1', why: 'A unit has no point behind it' },
  { find: /^(\p{L}[\p{L} -]*?)\s*[:=]\s*(?=\S)/u, write: '$1 ', why: 'No sign stands between a word and its measure' },
  { find: /(,\s*\p{L}+)\s*[:=]\s*(?=\S)/giu, write: '$1 ', why: 'No sign stands between a word and its measure' },
  { find: /\s*\*\s*(?=\d)/gu, write: ' x ', why: 'A size is joined by x' },
  {
    find: /(\d(?:\s*(?:mm|cm|in|"))?)\s+by\s+(?=\d)/giu,
    write: '$1 x ',
    why: 'A size is joined by x',
  },
  { find: /[£€$¥]\s*(?=\d)/gu, write: '', why: 'A price is a number alone: the currency stands in the shop' },
  {
    find: /\b(price|rate)\s+([\d.]+)\s*(?:£|€|\$|GBP|EUR|USD|pounds?|euros?|dollars?)(?:\s*(?:\/|per|an?)\s*(?:h|hr|hour|each|ea))?(?=,|$)/giu,
    write: '$1 $2',
    why: 'A price is a number alone: the currency stands in the shop',
  },
  {
    find: /\b(price|rate)\s+([\d.]+)\s*(?:\/|per|an?)?\s*(?:h|hr|hour|each|ea)(?=,|$)/giu,
    write: '$1 $2',
    why: 'A price is a number alone: the currency stands in the shop',
  },
  // ---- stock
  {
    find: /\b(?:thick(?:ness)?|thk)\b\s*/giu,
    write: '',
    in: ['material'],
    why: 'A thickness stands behind its material, without a word',
  },
  {
    find: re(String.raw`^(MEASURE)\s+(?:of\s+)?(${STOCK})(?:\s+(?:sheet|plate))?(?=\s*(?:,|$|wire\b))(\s+wire)?`),
    write: (_, size, stock, wire = '') => `${stock}${wire} ${size}`,
    in: ['material'],
    why: 'The material comes before its thickness',
  },
  {
    find: re(String.raw`^(${STOCK})\s+(?:sheet|plate|stock)\s*,?\s*(?=\d)`),
    write: '$1 ',
    in: ['material'],
    why: 'A sheet is the material and its thickness',
  },
  {
    find: re(String.raw`^(${STOCK})\s+rivets?\s*,?\s*(?=\d)`),
    write: '$1 ',
    in: ['rivet'],
    why: 'A rivet is its metal and its size',
  },
  {
    find: re(String.raw`^((?:${STOCK})(?:\s+wire)?)\s*,\s*(?=\d)`),
    write: '$1 ',
    in: ['material', 'rivet'],
    why: 'No comma stands between a material and its thickness',
  },
  { find: /^(?:sheet\s+size|size)\s+(?=\d)/iu, write: 'sheet ', in: ['material'], why: 'A sheet is told by its size' },
  { find: /(?:\b(?:dia|diam|diameter)\b|[øØ⌀])\s*/giu, write: '', why: 'A diameter has no word of its own' },
  { find: /\bheaded\b/giu, write: 'head', in: ['rivet'], why: 'A head is told by its shape' },
  // ---- pieces
  {
    find: /^(?:cut|made)\s+(?:from|of|out of)\s+/iu,
    write: 'from ',
    in: ['piece'],
    why: 'What it is cut from has one word',
  },
  {
    find: /^(?:use|stock|sheet|of)\s+(?=\p{L}[\p{L}\p{N}-]*$)/iu,
    write: 'from ',
    in: ['piece'],
    why: 'What it is cut from has one word',
  },
  {
    find: /^(?:make\s+)?(?:(\d+|an?|one)\s+)?pairs?$/iu,
    write: (_, count = '1') => `make ${2 * (Number(count) || 1)}, mirrored`,
    in: ['piece', 'part'],
    why: 'A pair is two, one the mirror of the other',
  },
  {
    find: /^make\s+(?:(\d+)\s*,?\s*)?(?:left and right|l\s*(?:\+|&|and|\/)\s*r|mirror(?:ed)? pair)$/iu,
    write: (_, count = '2') => `make ${count}, mirrored`,
    in: ['piece', 'part'],
    why: 'A pair is two, one the mirror of the other',
  },
  {
    find: /^(?:qty|quantity|number|count|no)\s+(\d+)|^(\d+)\s*(?:off|pieces|pcs|of)$|^x\s*(\d+)$/iu,
    write: (_, a = '', b = '', c = '') => `make ${a || b || c}`,
    in: ['piece', 'part', 'build'],
    why: 'How many are made has one word',
  },
  { find: /^(?:dome|dish|bowl)\s+(?=\d)/iu, write: 'dome ', in: ['piece'], why: 'A form is told by its shape' },
  {
    find: re(String.raw`^(?:cylinder|tube)\s+(?:round\s+)?(MEASURE)(?:\s+round)?(?=,|$)`),
    write: 'cylinder round $1',
    in: ['piece'],
    why: 'The girth follows its word',
  },
  {
    find: /^cone\s+(?:from\s+|round\s+from\s+)?(?=\d)/iu,
    write: 'cone round ',
    in: ['piece'],
    why: 'The girths follow their word',
  },
  { find: /^(?:disk|circle|round)\s+(?=\d)/iu, write: 'disc ', in: ['piece'], why: 'A form is told by its shape' },
  {
    find: /^(?:rectangle|rect|square|flat)\s+(?=\d)/iu,
    write: 'plate ',
    in: ['piece'],
    why: 'A form is told by its shape',
  },
  { find: /^ellipse\s+(?=\d)/iu, write: 'oval ', in: ['piece'], why: 'A form is told by its shape' },
  { find: /^(?:half|hemi)-dome\b/iu, write: 'half dome', in: ['piece'], why: 'A form of two words has no hyphen' },
  { find: /^oval-dome\b/iu, write: 'oval dome', in: ['piece'], why: 'A form of two words has no hyphen' },
  {
    find: /^(top|bottom|left|right|rim|front|back)\s+edge\s+/iu,
    write: 'edge $1 ',
    in: ['piece'],
    why: 'An edge is named behind its word',
  },
  {
    find: /^(?:roll|wire)\s+(?:the\s+)?(top|bottom|left|right|rim)(?:\s+edge)?/iu,
    write: 'edge $1 rolled',
    in: ['piece'],
    why: 'An edge is named behind its word',
  },
  {
    find: /^hem\s+(?:the\s+)?(top|bottom|left|right|rim)(?:\s+edge)?/iu,
    write: 'edge $1 hemmed',
    in: ['piece'],
    why: 'An edge is named behind its word',
  },
  {
    find: /^(edge\s+\S+)\s+(?:wired|roll|wire rolled|wrapped)\b/iu,
    write: '$1 rolled',
    in: ['piece'],
    why: 'A wired edge is a rolled one',
  },
  {
    find: /^(edge\s+\S+\s+rolled)\s+(?:round|around|with|on|onto)\s+/iu,
    write: '$1 over ',
    in: ['piece'],
    why: 'An edge is rolled over its wire',
  },
  {
    find: /^(edge\s+\S+)\s+(?:hem|fold|folded|hemming)\b/iu,
    write: '$1 hemmed',
    in: ['piece'],
    why: 'A folded edge is a hemmed one',
  },
  { find: /\boutwards\b/giu, write: 'outward', why: 'A way has no s' },
  { find: /\binwards\b/giu, write: 'inward', why: 'A way has no s' },
  {
    find: re(String.raw`^(\d+)\s+holes\s+(?:of\s+)?(?=\d)`),
    write: 'holes $1 of ',
    in: ['piece'],
    why: 'Holes are counted behind their word',
  },
  {
    find: re(String.raw`^holes\s+(\d+)\s*x\s*(?=\d)`),
    write: 'holes $1 of ',
    in: ['piece'],
    why: 'A count is joined to its size by “of”',
  },
  { find: /^(?:drill|punch)\s+(?=\d)/iu, write: 'hole ', in: ['piece'], why: 'A hole is told by its size' },
  {
    find: /\b(harden|temper|anneal)(?:ed)?\s+(?:at|to)\s+(?=\d)/giu,
    write: '$1 ',
    in: ['piece'],
    why: 'The heat follows its word',
  },
  {
    find: /\bquench(?:ed)?\s+in\s+/giu,
    write: 'quench ',
    in: ['piece'],
    why: 'What it is quenched in follows its word',
  },
  {
    find: /\b(oil|water|brine|air)\s+quench(?:ed)?\b/giu,
    write: 'quench $1',
    in: ['piece'],
    why: 'What it is quenched in follows its word',
  },
  { find: /^fit\s+/iu, write: 'fits ', in: ['piece'], why: 'Whom it fits has one word' },
  {
    find: /^bend\s+(\d+)\s*(?:deg|degrees?|°)\s*,?\s*(?:at\s+)?(\d\S*(?:\s*(?:mm|in|cm))?\s+from\s+[^\s,]+)/iu,
    write: 'bend $2, $1 deg',
    in: ['piece'],
    why: 'A bend is told by its place first',
  },
  // ---- measures behind their words
  {
    find: re(String.raw`,\s*(MEASURE)\s+(deep|high|wide|long|inset|apart)(?=,|$)`, 'giu'),
    write: (_, size, word) => `, ${/apart/i.test(word) ? 'every' : word} ${size}`,
    why: 'A measure follows its word',
  },
  {
    find: /(^|,\s*)(depth|height|width|length|girth|circumference|spacing|spaced)\s+(?:of\s+|at\s+)?(?=[\d\p{L}])/giu,
    write: (_, before, word) => `${before}${NOUNS[word.toLowerCase()]} `,
    in: ['piece', 'seam', 'part', 'hinge', 'joint'],
    why: 'A measure has a word of its own',
  },
  { find: /,\s*pitch\s+(?=\d)/iu, write: ', every ', in: ['seam'], why: 'How far apart rivets are has one word' },
  // ---- seams
  { find: /^join\s+/iu, write: 'joins ', in: ['seam', 'hinge'], why: 'What is joined has one word' },
  {
    find: /^joins\s+(.+)$/iu,
    write: (_, rest) => `joins ${rest.replace(/\s+(?:and|to|with)\s+|\s*[+&]\s*/giu, ', ')}`,
    in: ['seam', 'hinge'],
    why: 'What is joined stands behind commas, outside first',
  },
  {
    find: /^((?:along|trim along|comb along|crease along)\s+)(?:the\s+)?(rim|top|bottom|left|right|middle)\s+of\s+(?:the\s+)?([\p{L}][\p{L}\p{N}-]*)/iu,
    write: '$1$3.$2',
    why: 'An edge of a piece is joined to it by a dot',
  },
  {
    find: /^((?:along|trim along|comb along)\s+)([\p{L}][\p{L}\p{N}-]*)\s+(rim|top|bottom|left|right|middle)(?=\s*(?:,|$))/iu,
    write: '$1$2.$3',
    why: 'An edge of a piece is joined to it by a dot',
  },
  { find: /^pin\s+/iu, write: 'over ', in: ['hinge'], why: 'The pin stands behind “over”' },
  { find: /^(\d+)\s+knuckles\b/iu, write: 'knuckles $1', in: ['hinge'], why: 'Knuckles are counted behind their word' },
  // ---- finishes
  { find: /^((?:grind|sand)\s+)(?:to|with|at)\s+/iu, write: '$1', in: ['finish'], why: 'The grit follows its word' },
  { find: /^(?:spray|coat)\s+(?=")/iu, write: 'paint ', in: ['finish'], why: 'A coat of paint has one word' },
  {
    find: /^(paint|dye|patina)\s+(\p{L}[\p{L} -]*?)(?=\s*(?:,|$))/iu,
    write: '$1 "$2"',
    in: ['finish'],
    why: 'A colour or a recipe is a text in quotes',
  },
  { find: /,\s*(\d+)\s+coats?\b/iu, write: ', coats $1', in: ['finish'], why: 'Coats are counted behind their word' },
  // ---- build, shop, wearer
  { find: /^units?\s+(?:inch|inches|imperial|")$/iu, write: 'units in', in: ['build'], why: 'Units are mm or in' },
  {
    find: /^units?\s+(?:metric|millimet(?:re|er)s?|cm)$/iu,
    write: 'units mm',
    in: ['build'],
    why: 'Units are mm or in',
  },
  {
    find: /^currency\s+(?:£|pounds?(?: sterling)?)$/iu,
    write: 'currency GBP',
    in: ['shop'],
    why: 'A currency is told by its three letters',
  },
  {
    find: /^currency\s+(?:€|euros?)$/iu,
    write: 'currency EUR',
    in: ['shop'],
    why: 'A currency is told by its three letters',
  },
  { find: /^gauges?\s+(?:swg|imperial|british)$/iu, write: 'gauges UK', in: ['shop'], why: 'Gauges are US or UK' },
  { find: /^gauges?\s+(?:awg|american|usa)$/iu, write: 'gauges US', in: ['shop'], why: 'Gauges are US or UK' },
  { find: /^client\s+|^customer\s+/iu, write: 'for ', in: ['build'], why: 'Whom it is for has one word' },
  { find: /^for\s+([^"“].*)$/iu, write: 'for "$1"', in: ['build'], why: 'Whom it is for is a text in quotes' },
  { find: /\b(\d{4})[/.](\d{2})[/.](\d{2})\b/gu, write: '$1-$2-$3', why: 'A date is year, month, day' },
  {
    find: /\b(\d{1,2})([/.])(\d{1,2})\2(\d{4})\b/gu,
    // Which of two small numbers is the month nobody can tell.
    write: (whole, a, _, b, year) =>
      Number(a) > 12 ? `${year}-${two(b)}-${two(a)}` : Number(b) > 12 ? `${year}-${two(a)}-${two(b)}` : whole,
    why: 'A date is year, month, day',
  },
];

const two = (written: string) => written.padStart(2, '0');

/** How a line may have been meant, with the reason; nothing where it has no slip that is known. */
export function inOtherWords(kind: string, line: string): { readonly text: string; readonly why: string } | undefined {
  const quoted: string[] = [];
  // What stands in quotes is the smith's own.
  let text = line.replace(QUOTED, (found) => `"${MARK}${quoted.push(found) - 1}"`);
  const start = text;
  let why: string | undefined;
  for (const slip of [...SLIPS_OF_DONE, ...SLIPS]) {
    if (slip.in && !slip.in.includes(kind)) continue;
    const written = text.replace(slip.find, slip.write as string).trim();
    if (written === text) continue;
    text = written;
    why ??= slip.why;
  }
  const hyphened = withHyphens(text.replace(/\s+,/g, ','));
  if (hyphened !== text) why ??= 'A term of a closed list is written so';
  if (why === undefined || hyphened === start) return undefined;
  return { text: hyphened.replace(MARKED, (_, at: string) => quoted[Number(at)]!), why };
}

/** A quote directly behind a number is the inch mark. */
const QUOTED = /(?<![\d½¼¾⅓⅔⅛⅜⅝⅞])["“”](?:[^"“”\\]|\\.)*["“”]/gu;
const MARK = '\uE000';
const MARKED = new RegExp(`"${MARK}(\\d+)"`, 'gu');

const SLIPS_OF_DONE: readonly Slip[] = [
  {
    find: new RegExp(`^(?:${Object.keys(DONE).join('|')})(?=[\\s,]|$)`, 'iu'),
    write: (word) => DONE[word.toLowerCase()]!,
    in: ['piece', 'seam', 'finish'],
    why: 'Work is told by what is done',
  },
];

/** Every term of a closed list as the list writes it: `mild-steel`, `veg tan leather`. */
function withHyphens(text: string): string {
  let made = text;
  for (const { term, loose } of HYPHENED)
    made = made.replace(loose, (found) => (found.toLowerCase() === term.toLowerCase() ? found : term));
  return made;
}
