import { needInWords } from './needs.ts';
import { FUNCTIONS } from './parser.ts';
import {
  isWordList,
  type LineWord,
  type Pattern,
  type PhraseWord,
  type SectionWord,
  type SlotType,
} from './pattern.ts';
import { LANGUAGE_VERSION } from './reader.ts';
import { type Dimension, units } from './units.ts';
import { type ListWord, reservedNames, sections, singleWords, wordLists } from './vocabulary/index.ts';

/*
 * REFERENCE.md: the language for who writes specs, made from the vocabulary, so that it says what is read and no more.
 */

/** The whole page; `ranges` is the table of how large and how small measures get, which is not the grammar's to know. */
export function referenceMarkdown(ranges: string): string {
  return `${[
    PRINCIPLES,
    LINES,
    COMMENTS,
    WORDS,
    unitTable(),
    MEASURES,
    TOLD,
    `${RANGES}\n\n${ranges}`,
    PLACES,
    LAYOUT,
    singlesPart(),
    sectionsPart(),
    listsPart(),
  ]
    .join('\n\n')
    .replace(/\n{3,}/g, '\n\n')}\n`;
}

/** The notation as a smith reads it: \`half dome ⟨size⟩ | half dome round ⟨girth⟩\`. */
function readableNotation(pattern: Pattern): string {
  return pattern.notation
    .replace(SLOT, (_, before: string, name: string, type: string, range: string | undefined, list?: string) => {
      const unit = type === 'length' && / to /.test(range ?? '') ? ' mm' : '';
      const shown = withRange(slotShown(name, type as SlotType, before.trim()), range && `${range}${unit}`);
      return list ? `${before}${shown}, ${shown} …` : `${before}${shown}`;
    })
    .replace(/([[(]) /g, '$1')
    .replace(/ ([\])])/g, '$1');
}

/** A slot, with the word before it if there is one. */
const SLOT = /((?:^|[\p{L}-]+ )?)<([^:>]+):([^,>]+)(?:, ([^>]+))?>(\.\.\.)?/gu;

/** What can fill it where that is not what its kind can be everywhere: `‹gap ≥ 0›`, `‹number 0.01 to 100›`. */
const withRange = (shown: string, range: string | undefined): string =>
  range && !MEASURED_OF.has(range) ? shown.replace('›', ` ${range.replace(/ stock$/, '')}›`) : shown;

/** Ranges that the word itself says: `coil`, `sheet`. */
const MEASURED_OF = new Set(['sheet', 'coil', 'stock']);

/** A slot by its name, and by its kind where its name only says the word before it again: `due ‹date›`. */
function slotShown(name: string, type: SlotType, before: string): string {
  if (type === 'text') return `"‹${name === before ? 'text' : name}›"`;
  if (isWordList(type)) return `‹${type}›`;
  const plain = name.replace(/^(way|line|side)2?$/, (_, word: string) => (word === 'line' ? 'edge' : 'side'));
  const shown = plain === before || plain === before.replace(/s$/, '') ? (KINDS[type] ?? type) : plain;
  return `‹${shown.replace(/2$/, '').replaceAll('-', ' ')}›`;
}

const KINDS: Readonly<Partial<Record<SlotType, string>>> = {
  count: 'number',
  copy: 'piece',
  surface: 'piece',
  'new name': 'name',
  'count of': 'count of size',
  dimensions: 'size',
};

const PRINCIPLES = `# The Planish language, version ${LANGUAGE_VERSION}

<!-- Made from grammar/vocabulary by \`npm run generate\`. Change it there. -->

A spec says what a piece of armour is to be when it is finished: what it is made of, its shape, how it is worked and what
holds it together. Planish works out what that takes.

- **It reads like a shop note.** One fact a line. No braces, no semicolons, nothing to close.
- **A section runs until the next section.** Blank lines and indents are for the eye.
- **Every line has one shape:** words and what they take, then what qualifies it, each after a comma.
- **A measure has its unit.** Counts, prices and ratios have none.
- **Say what you want.** Blanks, rivet lengths, hours and mass are worked out; a line such as \`blank disc 260 mm\` says
  that you know better, and is checked.
- **Nothing is silently ignored.** What is not understood is marked where it stands, and the rest still works.`;

const LINES = `## Lines and sections

\`\`\`planish
piece skull
  from plate-16
  oval dome 235 x 195 mm, deep 150 mm
  raise
\`\`\`

A **section** begins with its header: the kind of section and one name, alone on a line. A \`build\` has a title in quotes
in place of the name. The lines that follow belong to it until the next header.

A **line** may go on in the next one if it ends in a comma. It does not go on over a blank line, a comment, a header or
a word that begins a line of its own: then the comma is marked.

**Single lines** (\`use\`, \`let\`, \`planish ${LANGUAGE_VERSION}\`) may stand anywhere and belong to no section.

Upper and lower case are the same. A word at the very start of a row with one name after it, such as \`peice skull\`, is
taken for the header of a section that Planish does not know, so that its lines go to no other.`;

const COMMENTS = `## Comments, notes, excuses

\`\`\`planish
# A comment: a # with a space after it.

## A note: what stands right above a header or a line belongs to it.
## It is shown with it, and printed on the build sheet.
piece skull
  from plate-16
  oval dome 235 x 195 mm, deep 150 mm # a comment may follow a line
\`\`\`

An **excuse** stands behind the line that a check marks. It names the check and says why the line is right as it is:
\`# allow pitch-too-wide: the strap covers it\`. Without a reason it excuses nothing.

A \`#\` before anything but a space is an error that says so: a colour or a number that needs one is a text, in quotes.`;

const WORDS = `## Names, texts, numbers

**Names** are letters of any script, digits and hyphens, and begin with a letter: \`skull\`, \`plate-16\`, \`lame-2\`. All
names of a build are one list: no two things have the same. A dot reaches a figure of a thing: \`skull.rim\`,
\`skull.rim.length\`, \`guard.head-round\`. These cannot be names: ${[...reservedNames].map((word) => `\`${word}\``).join(', ')}, and the units.

**Texts** stand in quotes on one line; \`\\"\` is a quote inside one, \`\\\\\` a backslash. A quote directly behind a
number is the inch mark.

**Numbers** are exact: \`12\`, \`0.032\`, \`1/8\`, \`2 1/2\`. What could mean two things is an error with the ways to write
it: \`2-1/2\`, \`120,5\`, \`1,220\`. A **date** is \`2027-05-14\`. Alloys and grades are texts: \`grade "1050"\`.`;

const DIMENSIONS: Readonly<Record<Dimension, string>> = {
  length: 'length',
  area: 'area',
  mass: 'mass',
  angle: 'angle',
  temperature: 'temperature',
  time: 'time',
  density: 'density',
  stress: 'stress',
  force: 'force',
  percent: 'share',
  grit: 'abrasives',
  teeth: 'saw blades',
  gauge: 'sheet thickness',
  ounce: 'leather thickness',
};

function unitTable(): string {
  const rows = units.map((unit) => {
    const others = unit.spellings.filter((spelling) => spelling !== unit.id).map((spelling) => code(spelling));
    return `| ${DIMENSIONS[unit.dimension]} | ${code(unit.id)} | ${others.join(', ')} | ${unit.doc} |`;
  });
  return `## Units\n\nThe formatter writes the first spelling.\n\n| for | unit | also read | |\n|---|---|---|---|\n${rows.join('\n')}`;
}

const MEASURES = `## Measures and arithmetic

A unit reaches back over \`x\`, \`to\`, \`±\` and a list of one kind: \`1220 x 2440 mm\`, \`260 to 200 mm\`,
\`80, 120, 180 grit\`. It never reaches into another fact of the line, and never into arithmetic.

- a size: \`120 x 80 mm\`
- a count of a size: \`12 of 1/8 in\`
- a tolerance: \`585 mm ± 0.5 mm\`, also written \`+/-\`; it covers the whole size before it
- arithmetic: \`+ - * / ( )\`, \`pi\`, ${[...FUNCTIONS].map((name) => `\`${name}\``).join(', ')}: \`round-up(rim-round / 4, 5 mm)\`

\`+\` and \`-\` between two measures have a space on both sides, since a hyphen may be part of a name. Units are checked:
a length and an angle do not add.

Arithmetic is exact, so that \`2 1/2 in\` is \`63.5 mm\` to the last digit, until a root, an angle's function or \`pi\` comes in, or a
fraction would have more than 60 digits above or below its line: from there on it goes by floating point, to some sixteen digits.`;

const TOLD = `### How lengths are told

\`units mm\` or \`units in\` in the build says how figures are shown; nothing that is reckoned hangs on it. In inches:

- From half an inch on a length is measured with a rule and told as a fraction, to the nearest 1/32. \`units in, sixteenths\`
  makes that 1/16, \`units in, decimal\` thousandths. Where the build does not say, the editor's setting \`planish.inches\` or the
  option \`--inches\` of the command line does. A length is never further from its fraction than half a step.
- What is cut off and cannot be made longer, the size of a blank, a wire, a pin, a leather and the length of a rivet, is told to the
  next step up. All that is marked out on it, a bend, a hole, a template, a place on a sheet, is told to the nearest.
- Under half an inch callipers are used: thousandths. What lies on a sixty-fourth to the last digit is told as that fraction.
- Limits in the words of a message go by the same rules. Sums are worked in inches where they have no constant of millimetres, and
  else told by their formula. Stock is called as it is sold: a wire of 2 mm stays one.
- What a machine reads has decimals: CSV in inches, square inches and ounces; DXF and SVG are drawn in millimetres and say so in
  their own unit, which every program that reads them goes by. JSON is in millimetres and grams throughout.

On papers an arc whose radius is over 600 mm, which no trammel on a bench strikes, is told by its chord and its rise (where a
bench ends is common practice, no source). Of two sides of a blank the longer one is told first and called long.`;

const RANGES = `### What a number can be

A measure is above nought and within these bounds; what lies outside was never meant, is marked at once, and nothing is
worked out from it. A line says where it is otherwise: \`‹gap ≥ 0›\` may be nought, \`‹up ±›\` may lie on the other side,
\`‹number 0.01 to 100›\` lies between these. Whatever may be nought has no least.`;

const PLACES = `## Places

Everything is seen from outside, as worn, and measured along the finished surface.

| form | its edges |
|---|---|
| plate, strip, cylinder, cone, form | \`top\`, \`bottom\`, \`left\`, \`right\` |
| disc, oval, dome | \`rim\` |
| half dome | \`rim\`, \`middle\` (where the halves meet) |
| gore dome | \`rim\`, \`left\`, \`right\` |

Lines on a form are \`front\`, \`back\`, \`side\` and \`middle\`. A \`cut\` makes a new edge of its name. Left and right are those
of the one who looks at the outside. The middle of a wrapped form is in front; that of a half, its seam, begins at the front.

A distance runs along the form's own lines: up and down a line from bottom to top, left and right along a level. With one
measure alone a place lies on the middle. An inset goes straight in from its edge.

- a place: \`at 62 mm from rim and 38 mm right of middle\`
- a part of an edge: \`along rim, from 25 mm to 330 mm\`
- one copy of a mirrored piece: \`left skull\`, \`right skull\`; the bare name means both
- one face: \`skull outside\`, \`skull inside\`

A form's measures are those of the middle of the metal, unless the line ends in \`inside\` or \`outside\`.`;

const LAYOUT = `## The formatter's layout

Two spaces before a line, four where it goes on, none before headers and single lines. One blank line between sections,
at most one inside. Single spaces, a space after a comma, one before a comment. \`18ga\` becomes \`18 ga\`, \`120x80\`
becomes \`120 x 80\`, \`2½"\` becomes \`2 1/2 in\`, \`25°\` becomes \`25 deg\`, curly quotes become straight.

It never changes what a spec says. Names keep their spelling and comments their text. A comment on a header stays with
the header, unless it is indented and stands right under a line: then it belongs to that line. What cannot be read is
left as it is.`;

function singlesPart(): string {
  const parts = Object.values(singleWords).map(
    ({ notation, doc, example }) =>
      `- \`${readableNotation({ notation, elements: [] })}\` — ${doc} *Example:* \`${example}\``,
  );
  return `## Single lines\n\n${parts.join('\n')}`;
}

function sectionsPart(): string {
  const index = sections.map((section) => `| [\`${section.kind}\`](#${section.kind}) | ${section.doc} |`).join('\n');
  return `## Sections

In what follows, ‹ › is something to fill in, [ ] may be left out, ( | ) is one of these. What is *not computed yet* is
read and kept, and no figure comes from it so far.

| section | |
|---|---|
${index}

${sections.map(sectionPart).join('\n\n')}`;
}

function sectionPart(section: SectionWord): string {
  const needs = section.needs.map(({ what }) => what);
  const header = section.named === 'text' ? `\`${section.kind} "title"\`` : `\`${section.kind} name\``;
  return `### ${section.kind}

${header}: ${section.doc}${needs.length ? `\n\nIt must say ${needs.join('; and ')}.` : ''}

${section.lines.map((line) => linePart(line, section)).join('\n')}`;
}

function linePart(line: LineWord, section: SectionWord): string {
  const qualifiers = line.qualifiers.map((qualifier) => `  - ${phrasePart(qualifier)}`);
  const more = line.repeats ? ' May stand more than once.' : '';
  const needs = line.needs.map((each) => needInWords(each, line, section).replace(/“([^”]*)”/g, '`$1`'));
  const wanted = needs.length ? ` It also wants ${needs.join('; and ')}.` : '';
  return [`- ${phrasePart(line)}${wanted}${more}`, `  *Example:* \`${line.example}\``, ...qualifiers].join('\n');
}

function phrasePart(word: PhraseWord): string {
  return `\`${readableNotation(word.pattern)}\` — ${word.doc}${word.computed ? '' : ' *Not computed yet.*'}`;
}

function listsPart(): string {
  const parts = Object.entries(wordLists)
    .filter(([, words]) => words.length)
    .map(([name, words]) => `### ${name[0]!.toUpperCase()}${name.slice(1)}\n\n${words.map(listEntry).join('\n')}`);
  return `## Closed lists\n\nWhere a line takes one of these, it takes no other word.\n\n${parts.join('\n\n')}`;
}

function listEntry({ word, doc, also }: ListWord): string {
  const others = also?.length ? ` (also ${also.map((text) => `\`${text}\``).join(', ')})` : '';
  return `- \`${word}\`${others} — ${doc}`;
}

const code = (text: string): string => `\`${text}\``;
