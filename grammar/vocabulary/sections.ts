import { type LineGroup, type LineWord, need, type PhraseWord, pattern, type SectionWord } from '../pattern.ts';

/*
 * Every word of the language, once: what it holds, what it means, an example. The parser, the completions, the hovers,
 * the TextMate grammar and REFERENCE.md are all made from this.
 */

interface Extra {
  readonly group?: LineGroup;
  readonly with?: readonly PhraseWord[];
  readonly later?: boolean;
  readonly repeats?: boolean;
  /** What it must say besides its pattern: `deep`, `hollow | over` (pattern.ts, `Need`). */
  readonly needs?: readonly string[];
  readonly followedBy?: readonly string[];
}

function line(id: string, notation: string, doc: string, example: string, extra: Extra = {}): LineWord {
  return {
    id,
    pattern: pattern(notation),
    doc,
    example,
    group: extra.group ?? 'plain',
    qualifiers: extra.with ?? [],
    computed: !extra.later,
    repeats: extra.repeats ?? false,
    needs: (extra.needs ?? []).map(need),
    followedBy: extra.followedBy ?? [],
  };
}

function also(id: string, notation: string, doc: string, extra: Extra = {}): PhraseWord {
  return { id, pattern: pattern(notation), doc, computed: !extra.later, repeats: extra.repeats ?? false };
}

// ---- what may follow a comma, shared by several lines --------------------------------------------------------------

const PLACE =
  '<across:length, ±> ( from | <way:side> of | above | below ) <line:edge> [and <along:length, ±> ( from | <way2:side> of | above | below ) <line2:edge>]';

const inside = also('inside', 'inside', "The form's measures are of its inside. Governs every measure of the line.");
const outside = also(
  'outside',
  'outside',
  "The form's measures are of its outside. Governs every measure of the line.",
);
const sided = [inside, outside];
const deep = also('deep', 'deep <deep:length>', 'Depth, from the rim to the crown.');
const long = also(
  'long',
  'long <long:length>',
  'Length, front to back, of an oval section; of a cone, at its larger end.',
);
const high = also('high', 'high <high:length>', 'Height along the axis.');
const wrap = also('wrap', 'wrap <wrap:angle>', 'How far round it goes, as an angle: 360 deg is all the way.');
const wide = also('wide', 'wide <wide:length>', 'Width.');
const inset = also(
  'inset',
  'inset <inset:length, ≥ 0>',
  'How far in from the edge, to the middle of the hole or line.',
);
const stretchOfEdge = also(
  'from',
  'from <from:length, ±> to <to:length, ±>',
  'Only a part of the edge, measured along it from its start.',
);
const at = also('at', `at ${PLACE}`, 'Where it sits, measured along the finished surface, seen from outside.');
const beforeForming = also(
  'before forming',
  'before forming',
  'Made in the flat blank. Left out, openings come after forming.',
);
const gap = also('gap', 'gap <gap:length, ≥ 0>', 'Room left between the two plates.');
const mirrored = also('mirrored', 'mirrored', 'Copies are made in left and right pairs.');
const grade = also('grade', 'grade <grade:text>', 'The alloy or grade, as text: `grade "1050"`.');
const temper = also('temper', '<temper:temper>', 'How hard it is as bought.');
const plating = also('plating', '<plating:plating>', 'What it is plated with.');
const price = also('price', 'price <price:number, ≥ 0>', "Price of one, in the shop's currency.");
const have = also('have', 'have <have:count, ≥ 0 stock>', 'How many are in the rack.');
const outward = also('outward', 'outward', 'Turned to the outside.');
const inward = also('inward', 'inward', 'Turned to the inside.');
const named = also(
  'named',
  'named <which:text>',
  'The name of the shape inside the file: its id, or that of its group, layer or block.',
);

// ---- sections ------------------------------------------------------------------------------------------------------

const build: SectionWord = {
  kind: 'build',
  named: 'text',
  doc: 'The job: what is built, for whom, how many, for what duty.',
  needs: [],
  lines: [
    line('for', 'for <client:text>', 'Who it is for.', 'for "The Salt Gate, a stage production"'),
    line(
      'duty',
      'duty ( display | stage | contact )',
      'What it must bear. Planish never says that a piece is safe: the rulebook, the safety lead and their inspectors decide.',
      'duty stage',
      {
        with: [also('rules', 'rules <rules:rules>', 'The rulebook it is held against, as a `rules` section gives it.')],
      },
    ),
    line('make', 'make <make:count>', 'How many of the whole build.', 'make 6, spare 1', {
      with: [also('spare', 'spare <spare:count, ≥ 0>', 'How many more are made as spares.')],
    }),
    line(
      'units',
      'units ( mm | in )',
      'The units in which figures are shown. What is read does not change: every measure has its own unit.',
      'units mm',
      {
        with: [
          also(
            'step',
            '( sixteenths | thirty-seconds | decimal )',
            'To what lengths in inches are told: the nearest sixteenth or thirty-second, or in thousandths. Goes before the setting `planish.inches` and the option `--inches`.',
          ),
        ],
      },
    ),
    line('due', 'due <due:date>', 'When it must be ready.', 'due 2027-05-14'),
  ],
};

const wearer: SectionWord = {
  kind: 'wearer',
  named: 'name',
  doc: 'The body that wears it. A measure of two words is used with a hyphen: `guard.head-round`.',
  needs: [],
  lines: [
    line(
      'measure',
      '<measure:body measure> <value:length>',
      'A measure of the body, in terms of the trade or of ISO 7250-1 / 8559-1.',
      'head round 585 mm',
    ),
    line(
      'body',
      'body ( man | woman )',
      'Which people the measures are compared with. Left out, both are.',
      'body man',
    ),
  ],
};

const STOCK_QUALIFIERS = [price, have];

const material: SectionWord = {
  kind: 'material',
  named: 'name',
  doc: 'Stock: a metal or a soft material with its thickness, and what it is sold as.',
  needs: [{ what: 'what it is and how thick: `mild steel 16 ga`', any: ['metal', 'soft', 'wire'] }],
  lines: [
    line('wire', '<metal:metal> wire <thickness:thickness>', 'Wire, by its diameter.', 'mild steel wire 1/8 in', {
      group: 'stock',
      with: [temper, plating, grade],
    }),
    line(
      'metal',
      '<metal:metal> <thickness:thickness>',
      'Sheet metal and its thickness. A gauge number follows the table of that metal: hover says which.',
      'mild steel 16 ga',
      {
        group: 'stock',
        with: [temper, plating, grade],
      },
    ),
    line(
      'soft',
      '<soft:soft> <thickness:leather thickness>',
      'Leather, skin, felt, foam or cord. Leather thickness may be in ounces: 1 oz is 1/64 in.',
      'veg-tan leather 7 oz',
      {
        group: 'stock',
        with: [grade],
      },
    ),
    line('sheet', 'sheet <size:size, sheet>', 'A size it is sold in.', 'sheet 1250 x 2500 mm, price 74.00, have 1', {
      with: STOCK_QUALIFIERS,
      repeats: true,
    }),
    line(
      'offcut',
      'offcut <size:size, sheet>',
      'A piece left in the rack: used before a new sheet.',
      'offcut 400 x 310 mm',
      {
        repeats: true,
      },
    ),
    line(
      'hide',
      'hide ( <area:area> | <file:text> )',
      'A hide, by its area or by its outline in a drawing, SVG or DXF. What lies inside the outline, a brand or a hole, is left out.',
      'hide 2.2 m2, price 96.00',
      { with: [...STOCK_QUALIFIERS, named], repeats: true },
    ),
    line(
      'coil',
      'coil <coil:length, coil>',
      'A length that wire is sold in, coiled or straight.',
      'coil 10 m, price 6.50, have 1',
      {
        with: STOCK_QUALIFIERS,
        repeats: true,
      },
    ),
    line('margin', 'margin <margin:length, ≥ 0>', 'Left free along the edges of a sheet.', 'margin 5 mm'),
    line('kerf', 'kerf <kerf:length, ≥ 0>', 'What the cut itself takes away.', 'kerf 0.3 mm'),
    line(
      'bend radius',
      'bend radius <radius:length, ≥ 0>',
      'The tightest inside radius this stock takes, if you know better.',
      'bend radius 1.5 mm',
    ),
    line('density', 'density <density:density>', 'Density, if you know better.', 'density 7.85 g/cm3'),
    line('yield', 'yield <yield:stress>', 'Yield strength, if you know better.', 'yield 210 MPa'),
    line('tensile', 'tensile <tensile:stress>', 'Tensile strength, if you know better.', 'tensile 330 MPa'),
    line(
      'elongation',
      'elongation <elongation:percent>',
      'Elongation at break, if you know better.',
      'elongation 38 %',
    ),
  ],
};

const rivet: SectionWord = {
  kind: 'rivet',
  named: 'name',
  doc: 'A fastener: metal, shank by length, the head it comes with.',
  needs: [{ what: 'what it is: `brass 1/8 x 3/8 in, domed`', any: ['rivet'] }],
  lines: [
    line(
      'rivet',
      '<metal:metal> <size:size>',
      'Metal, shank diameter by length. A raised head is measured under the head, a countersunk one over all.',
      'brass 1/8 x 3/8 in, domed',
      {
        group: 'stock',
        with: [also('head', '<head:head>', 'The head it is bought with.'), plating, grade, temper],
      },
    ),
    line('pack', 'pack <pack:count, stock>', 'How many are sold together.', 'pack 100, price 14.50, have 40', {
      with: [price, have],
    }),
    line(
      'washer',
      'washer <washer:size>',
      'The washer that goes with it: outside diameter by thickness. A price is that of its pack, or of one.',
      'washer 10 x 0.8 mm, pack 200, price 4.20, have 60',
      { with: [also('pack', 'pack <pack:count, stock>', 'How many are sold together.'), price, have] },
    ),
  ],
};

const part: SectionWord = {
  kind: 'part',
  named: 'name',
  doc: 'Something bought: a buckle, a hook, a glove.',
  needs: [],
  lines: [
    line('price', 'price <price:number, ≥ 0>', 'Price of one, or of a pack.', 'price 6.00'),
    line('mass', 'mass <mass:mass>', 'Mass of one.', 'mass 28 g'),
    line('pack', 'pack <pack:count, stock>', 'How many are sold together.', 'pack 10, price 12.00', {
      with: [price, have],
    }),
    line('wide', 'wide <wide:length>', 'Width: the strap that a buckle takes.', 'wide 25 mm'),
    line('make', 'make <make:count>', 'How many are used in one build.', 'make 2, mirrored', { with: [mirrored] }),
  ],
};

const rules: SectionWord = {
  kind: 'rules',
  named: 'name',
  doc: "The group's rulebook, as its user entered it. Rulebooks are revised: date it, and read the book itself.",
  needs: [],
  lines: [
    line('book', 'book <book:text>', 'Which book.', 'book "Armour of the field", dated 2026-01-01', {
      with: [also('dated', 'dated <dated:date>', 'The date of the edition.')],
    }),
    line(
      'finished',
      'finished at least <finished:length, ≥ 0>',
      'Least thickness of a finished plate.',
      'finished at least 1.6 mm',
      {
        with: [also('where', 'where ( dished | raised | flat )', 'Only for plates worked so.')],
        repeats: true,
      },
    ),
    line(
      'start',
      'start at least <start:length, ≥ 0>',
      'Least thickness of the stock.',
      'start at least 2.0 mm, where dished',
      {
        with: [also('where', 'where ( dished | raised | flat )', 'Only for plates worked so.')],
        repeats: true,
      },
    ),
    line(
      'openings',
      'openings under <openings:length>',
      'No opening lets a rod of this size through.',
      'openings under 25.4 mm',
    ),
    line('rivets', 'rivets at most <rivets:length>', 'Greatest distance between rivets.', 'rivets at most 63.5 mm'),
    line('padding', 'padding at least <padding:length, ≥ 0>', 'Least padding.', 'padding at least 12.7 mm'),
    line(
      'overlap',
      'overlap at least <overlap:length, ≥ 0>',
      'Least overlap of moving plates.',
      'overlap at least 8 mm',
    ),
  ],
};

const forms: readonly LineWord[] = [
  line('plate', 'plate <size:size>', 'A flat rectangle, wide by high.', 'plate 120 x 80 mm', {
    group: 'form',
    with: sided,
  }),
  line('disc', 'disc <diameter:length>', 'A flat disc.', 'disc 90 mm', { group: 'form', with: sided }),
  line('oval', 'oval <size:size>', 'A flat oval, long by wide.', 'oval 120 x 80 mm', { group: 'form', with: sided }),
  line('strip', 'strip <size:size>', 'A flat strip, long by wide.', 'strip 400 x 18 mm', {
    group: 'form',
    with: sided,
  }),
  line(
    'outline',
    'outline [<file:text>]',
    'A flat shape: `to` and `arc to` lines follow, from its first corner and, at last, straight back to it; or a drawing file, SVG or DXF. Places on it are measured from the sides of the box round it (`at 40 mm from left and 20 mm from bottom`) or from its `middle`.',
    'outline',
    {
      needs: ['file | @outline×2'],
      followedBy: ['to 95 mm right and 0 mm up', 'to 0 mm right and 60 mm up'],
      group: 'form',
      with: [named, ...sided],
    },
  ),
  line(
    'dome',
    'dome <diameter:length>',
    'A round dome: rim diameter and depth. A spherical cap down to a half sphere; deeper than that, half an ellipsoid with the rim as its widest part.',
    'dome 210 mm, deep 60 mm',
    {
      needs: ['deep'],
      group: 'form',
      with: [deep, ...sided],
    },
  ),
  line('oval dome', 'oval dome <size:size>', 'An oval dome, long by wide.', 'oval dome 235 x 195 mm, deep 150 mm', {
    needs: ['deep'],
    group: 'form',
    with: [deep, ...sided],
  }),
  line(
    'half dome',
    'half dome ( <size:size> | round <girth:length> )',
    'A dome split lengthwise; measures are those of the whole dome. Two of them are joined along `middle`.',
    'half dome 248 x 204 mm, deep 160 mm',
    {
      needs: ['deep', 'size | long'],
      group: 'form',
      with: [long, deep, ...sided],
    },
  ),
  line(
    'gore dome',
    'gore dome <size:dimensions>',
    'A dome made of gores, by its rim: one measure, or long by wide. The piece is one gore, made as often as the dome has gores like it: of a round one all. Those of an oval one differ: `gore 2` is the next to the left of the one at its front, and each shape is a piece of its own.',
    'gore dome 210 mm, deep 105 mm, gores 6',
    {
      needs: ['deep', 'gores'],
      group: 'form',
      with: [
        deep,
        also('gores', 'gores <gores:count, 1 to 99>', 'How many gores.'),
        also(
          'gore',
          'gore <which:count, 1 to 99>',
          'Which of them, counted from the front to the left. Left out, the one at the front.',
        ),
        ...sided,
      ],
    },
  ),
  line(
    'cylinder',
    'cylinder round <girth:length>',
    'Bent round an axis, the same girth all the way. The girth is of the full circle, whatever the wrap.',
    'cylinder round 300 mm, high 120 mm',
    {
      needs: ['high'],
      group: 'form',
      with: [high, wrap, long, ...sided],
    },
  ),
  line(
    'cone',
    'cone round <top:length> to <bottom:length>',
    'Bent round an axis, from one girth to another. Girths are of the full circle, whatever the wrap.',
    'cone round 260 to 200 mm, high 220 mm',
    {
      needs: ['high'],
      group: 'form',
      with: [high, wrap, long, ...sided],
    },
  ),
  line(
    'form',
    'form ( wrap <wrap:angle> | half )',
    'A shape given by its levels: `at` lines follow. Its middle is in front, and the wrap goes along each level: 90 deg each way reaches the sides. `half` is the left half, split lengthwise.',
    'form wrap 190 deg',
    {
      needs: ['@level×2'],
      followedBy: ['at 0 mm, round 690 mm, long 235 mm', 'at 150 mm, round 560 mm, long 190 mm'],
      group: 'form',
      with: sided,
    },
  ),
  line(
    'trim',
    'trim along <edge:edge>',
    'A strip that follows an edge or a line of another piece, on its outside. Its middle lies `inset` in from there. Left out, it ends with the edge; on a line, or where halves or both sides of a ring meet, it lies with its middle on it.',
    'trim along skull.rim, wide 18 mm, inset 4 mm',
    {
      needs: ['wide'],
      group: 'form',
      with: [wide, inset, ...sided],
    },
  ),
  line(
    'comb',
    'comb along <edge:edge>',
    'A raised comb along a line of another piece, of one strip whose crest is stretched: `crest.length` and `crest.strain` say how far. Its pattern shows the folds.',
    'comb along skull.middle, high 22 mm, foot 16 mm, radius 3 mm',
    {
      needs: ['high'],
      group: 'form',
      with: [
        high,
        also('foot', 'foot <foot:length, ≥ 0>', 'Width of each foot.'),
        also('radius', 'radius <radius:length, ≥ 0>', 'Radius of its top.'),
      ],
    },
  ),
  line(
    'lies',
    'lies ( under | over ) <neighbour:piece>',
    'A plate that lies on its neighbour, the two thicknesses and the gap apart. With `high`, a lame: it takes its section from the neighbour’s bottom edge, from a dome the curve across it. With `from`, or `long` and `wide`, it has the neighbour’s own surface there: a band along an edge, or a patch half way up its side. Without `wrap` it goes as far round as its neighbour; a band with `wrap` lies about the neighbour’s middle, over a half about its front and over both halves.',
    'lies under upper-1, gap 1 mm, high 45 mm, wrap 200 deg',
    {
      needs: ['high | from | long wide'],
      group: 'form',
      with: [
        gap,
        high,
        wrap,
        long,
        wide,
        also(
          'from',
          'from <edge:edge> to <to:length, ±> [( up | down )]',
          'Which part of the neighbour it covers, measured along its surface: a band along its bottom or its top.',
        ),
        ...sided,
      ],
    },
  ),
  line(
    'like',
    'like <piece:piece>',
    'The same as another piece. Lines that follow replace its own.',
    'like scale-1, scaled 0.94',
    {
      group: 'form',
      with: [also('scaled', 'scaled <scale:number, 0.01 to 100>', 'All its lengths times this.')],
    },
  ),
];

const outlineLines: readonly LineWord[] = [
  line(
    'to',
    'to <right:length, ±> ( right | left ) and <up:length, ±> ( up | down )',
    'A straight line to this point, measured from the first corner.',
    'to 95 mm right and 0 mm up',
    {
      group: 'outline',
      repeats: true,
    },
  ),
  line(
    'arc to',
    'arc to <right:length, ±> ( right | left ) and <up:length, ±> ( up | down )',
    'An arc to this point. It bulges to the right of the way you go unless it says `hollow`.',
    'arc to 72 mm right and 105 mm up, radius 130 mm',
    {
      needs: ['radius'],
      group: 'outline',
      with: [
        also('radius', 'radius <radius:length, ≥ 0>', 'Radius of the arc.'),
        also('hollow', 'hollow', 'The arc bends into the shape.'),
      ],
      repeats: true,
    },
  ),
  line(
    'level',
    'at <height:length, ±>',
    'The shape at this height: a circle, an oval of this girth and length, or, with `wide` too, a squarer or leaner one. Between levels it runs smoothly.',
    'at 0 mm, round 690 mm, long 235 mm',
    {
      group: 'level',
      with: [
        also('round', 'round <girth:length>', 'Girth at this level, of the full circle.'),
        also('long', 'long <long:length>', 'Front to back.'),
        also('wide', 'wide <wide:length>', 'Side to side.'),
        also('deep', 'deep <deep:length>', 'How far the front stands out of the widest place.'),
        also('offset', 'offset <offset:length, ±> ( front | back )', 'How far the level is shifted.'),
        also('ridge', 'ridge', 'A ridge at the front: it fades out toward levels that have none.'),
        also('point', 'point', 'It ends in a point.'),
        also('flat', 'flat', 'It ends in a flat top of this size; without a size it closes in a round crown.'),
      ],
      repeats: true,
    },
  ),
];

const workings: readonly LineWord[] = [
  line('dish', 'dish', 'Hammered down into a hollow: the crown thins, the rim draws in.', 'dish', { group: 'working' }),
  line(
    'raise',
    'raise',
    'Drawn in over a stake: the edge thickens, the crown keeps its metal. It is cut to the length of its profile, and trimmed level at the end.',
    'raise',
    {
      group: 'working',
    },
  ),
  line('dish then raise', 'dish then raise', 'Dished first, then raised to shape.', 'dish then raise', {
    group: 'working',
  }),
  line(
    'flute',
    'flute <count:count>',
    'Flutes up the piece, evenly spread from its left edge to its right one. They stand out of it and narrow with it, their depth in proportion: the measures are those at its widest level. The blank is laid flat with them. Up to 60 on one piece are worked out.',
    'flute 4, deep 5 mm, wide 14 mm',
    {
      needs: ['deep', 'wide'],
      group: 'working',
      with: [
        also('deep', 'deep <deep:length, 0.01 to 300>', 'How far each stands out of the surface.'),
        also('wide', 'wide <wide:length>', 'Width of each, from foot to foot.'),
        also('inward', 'inward', 'Sunk into the piece instead.'),
      ],
      repeats: true,
    },
  ),
  line(
    'crease',
    'crease along <edge:edge>',
    'A ridge along a line of the form, its sides flat, running out into the curve on either side. The blank is laid flat with it.',
    'crease along middle, deep 4 mm, radius 3 mm',
    {
      needs: ['deep'],
      group: 'working',
      with: [
        also('deep', 'deep <deep:length, 0.01 to 300>', 'How far the ridge stands out of the surface.'),
        also('radius', 'radius <radius:length, ≥ 0>', 'Inside radius of the crease.'),
        also(
          'wide',
          'wide <wide:length>',
          'Width of both its sides, which are then hollow. On a flat form it must be said.',
        ),
        also('inward', 'inward', 'Sunk into the piece instead.'),
        stretchOfEdge,
      ],
      repeats: true,
    },
  ),
  line(
    'flare',
    'flare <edge:edge>',
    'An edge bent out of the finished wall: the angle it is turned through and its width. The blank is that of the wall; the edge stretches.',
    'flare bottom, 25 deg, wide 40 mm',
    {
      needs: ['angle', 'wide'],
      group: 'working',
      with: [also('angle', '<angle:angle>', 'The angle it is turned through.'), wide],
      repeats: true,
    },
  ),
  line(
    'bend',
    'bend <distance:length, ≥ 0> from <edge:edge>',
    'A straight bend. The angle is the one the metal is turned through.',
    'bend 30 mm from left, 90 deg, radius 2 mm',
    {
      needs: ['angle', 'radius'],
      group: 'working',
      with: [
        also('angle', '<angle:angle>', 'The angle the metal is turned through.'),
        also('radius', 'radius <radius:length, ≥ 0>', 'Inside radius.'),
      ],
      repeats: true,
    },
  ),
  line(
    'hold',
    'hold <edge:edge>',
    'An edge that keeps its finished length at every point of the flat blank, since it meets one that is finished already. The rest of the plate is worked the more for it: `strain.free` is what it would strain without.',
    'hold middle',
    { group: 'working', repeats: true },
  ),
  line('planish', 'planish', 'Smoothed with light, overlapping blows.', 'planish', { group: 'working' }),
  line('texture', 'texture', 'Hammer texture: it stretches the face and adds curve.', 'texture', { group: 'working' }),
  line('harden', 'harden <heat:temperature>', 'Hardened at this heat.', 'harden 830 C, quench oil', {
    group: 'working',
    with: [also('quench', 'quench <medium:medium>', 'What it is quenched in.')],
  }),
  line('temper', 'temper <heat:temperature>', 'Tempered at this heat.', 'temper 290 C', {
    group: 'working',
    with: [also('for', 'for <time:time>', 'How long.')],
  }),
  line('anneal', 'anneal [<heat:temperature>]', 'Annealed before what follows.', 'anneal', {
    group: 'working',
    repeats: true,
  }),
];

const edges: readonly LineWord[] = [
  line(
    'edge rolled',
    'edge <edge:edge> rolled [over <wire:material>]',
    'An edge rolled round a wire, or round a hollow of the given inside diameter.',
    'edge bottom rolled over edge-wire, outward',
    {
      needs: ['over | hollow'],
      group: 'edge',
      with: [
        also('hollow', 'hollow <hollow:length>', 'Inside diameter of a roll without a wire.'),
        outward,
        inward,
        stretchOfEdge,
      ],
      repeats: true,
    },
  ),
  line(
    'edge hemmed',
    'edge <edge:edge> hemmed <hem:length>',
    'An edge folded flat on itself.',
    'edge back hemmed 6 mm',
    {
      group: 'edge',
      with: [also('double', 'double', 'Folded twice.'), outward, inward, stretchOfEdge],
      repeats: true,
    },
  ),
  line(
    'edge rounded',
    'edge <edge:edge> rounded <radius:length>',
    'A plain edge with its burr off and both its corners rounded to this radius. Half the thickness makes it fully round.',
    'edge bottom rounded 0.5 mm',
    { group: 'edge', with: [stretchOfEdge], repeats: true },
  ),
  line(
    'edges rounded',
    'edges rounded <radius:length>',
    'Every edge that nothing turns, covers or joins, with its burr off and its corners rounded to this radius.',
    'edges rounded 0.5 mm',
    { group: 'edge' },
  ),
  line(
    'edge long',
    'edge <edge:edge> long <long:length>',
    'Left long, and trimmed after fitting.',
    'edge left long 3 mm',
    { group: 'edge', with: [stretchOfEdge], repeats: true },
  ),
  line(
    'edge soft',
    'edge <edge:edge> soft <material:material>',
    'An edge covered in skin or leather.',
    'edge eye soft lambskin, over cord 4 mm',
    {
      group: 'edge',
      with: [
        also('over', 'over ( cord <cord:length> | <cord-material:material> )', 'What lies under the skin.'),
        stretchOfEdge,
      ],
      repeats: true,
      later: true,
    },
  ),
  line(
    'cut',
    'cut <name:new name> from <from:length, ±> on <edge:edge> to <to:length, ±> on <edge2:edge>',
    'A bay taken out of the outline: it makes a new edge of that name. On one edge it is measured from both its ends, on two from the corner where they meet.',
    'cut armhole from 60 mm on top to 210 mm on left, deep 55 mm',
    {
      needs: ['deep'],
      group: 'edge',
      with: [
        also('deep', 'deep <deep:length>', 'How far it goes in beyond the straight line between its ends.'),
        also('mirrored', 'mirrored', 'The same again on the other side.'),
      ],
      repeats: true,
    },
  ),
];

const openings: readonly LineWord[] = [
  line(
    'slot',
    'slot [<name:new name>] <size:size>',
    'A slot, long by high.',
    'slot eye 110 x 12 mm, at 62 mm from rim',
    { needs: ['at'], group: 'opening', with: [at, beforeForming], repeats: true },
  ),
  line(
    'hole',
    'hole [<name:new name>] <diameter:length>',
    'A round hole.',
    'hole crest 1/4 in, at 13 mm from left and 12 mm from bottom',
    { needs: ['at'], group: 'opening', with: [at, beforeForming], repeats: true },
  ),
  line(
    'holes',
    'holes [<name:new name>] <holes:count of>',
    'Holes in a row along an edge.',
    'holes liner 4 of 1/8 in, along rim, inset 20 mm',
    {
      needs: ['along inset | at'],
      group: 'opening',
      with: [also('along', 'along <edge:edge>', 'Along which edge.'), inset, stretchOfEdge, at, beforeForming],
      repeats: true,
    },
  ),
  line(
    'breaths',
    'breaths [<name:new name>] <holes:count of>',
    'Breathing holes in rows.',
    'breaths cheek 24 of 4 mm, rows 4, pitch 9 mm, at 60 mm from bottom',
    {
      needs: ['at', 'pitch'],
      group: 'opening',
      with: [
        also('rows', 'rows <rows:count>', 'In how many rows.'),
        also('pitch', 'pitch <pitch:length>', 'Middle to middle.'),
        at,
        beforeForming,
      ],
      repeats: true,
    },
  ),
  line(
    'pierce',
    'pierce [<name:new name>] <file:text>',
    'Pierced work from a drawing, SVG or DXF: every closed line in it is cut out. The middle of its box lies at the place.',
    'pierce vine "vine.svg", at 40 mm from top',
    { needs: ['at'], group: 'opening', with: [at, beforeForming, named], repeats: true },
  ),
];

const piece: SectionWord = {
  kind: 'piece',
  named: 'name',
  doc: 'One plate: what it is cut from, its finished form, how it is worked, its edges and openings. Planish works out the blank.',
  needs: [
    { what: 'what it is cut from: `from material`', any: ['from', 'like'] },
    { what: 'a form: `plate`, `dome`, `cone` …', any: ['@form'] },
  ],
  lines: [
    line('from', 'from <material:material>', 'What it is cut from.', 'from skull-plate'),
    line('make', 'make <make:count>', 'How many in one build.', 'make 2, mirrored', { with: [mirrored] }),
    line(
      'fits',
      'fits <wearer:wearer> [<region:region>]',
      'Whom and what it goes round, and at which height: one line for each part of the body, as `fits reeve calf, at 250 mm` and `fits reeve ankle, along bottom`. A fitted form must say `inside` or `outside`.',
      'fits guard head, liner 10 mm, ease 6 mm',
      {
        with: [
          also('liner', 'liner <liner:length, ≥ 0>', 'Thickness of the liner, compressed.'),
          also('ease', 'ease <ease:length, ≥ 0>', 'Room left besides.'),
          also(
            'at',
            'at <height:length, ±>',
            'The height that goes round that part of the body; of a head, the brow. Heights are those of the form’s `at` lines; other forms count from their lowest place. Without it, and without an edge, neck, waist, wrist and ankle are taken at the narrowest height, everything else at the widest.',
          ),
          also('along', 'along <edge:edge>', 'The edge that goes round that part of the body, instead of a height.'),
        ],
        repeats: true,
      },
    ),
    ...forms,
    ...outlineLines,
    ...workings,
    ...edges,
    ...openings,
    line(
      'template',
      'template ( at <height:length, ±> | along <edge:edge> )',
      'A board of stiff card or thin sheet that is held against the work: the section at a height, or the profile along a line that lies in one upright plane. It fits the outside. Heights are those of the form’s `at` lines; other forms count from their lowest place.',
      'template at 220 mm',
      {
        with: [also('inside', 'inside', 'It fits into the hollow.')],
        repeats: true,
      },
    ),
    line(
      'blank',
      'blank ( disc <diameter:length> | <size:dimensions> )',
      'Your own blank. Thickness, strain and mass are those of what it becomes: one that is too small ends thinner, of one that is too large the rest is trimmed off.',
      'blank disc 260 mm',
    ),
    line('grain', 'grain ( up | across )', 'How the grain of the stock must run.', 'grain up'),
  ],
};

const seam: SectionWord = {
  kind: 'seam',
  named: 'name',
  doc: 'What holds pieces together: the stack, where it runs, and the rivets, weld, lace or straps.',
  needs: [
    { what: 'what it joins: `joins outer, inner`', any: ['joins'] },
    { what: 'how it is held: `rivets …`, `weld`, `sew` …', any: ['@joining'] },
  ],
  lines: [
    line(
      'joins',
      'joins <pieces:copy>...',
      'The stack, outside first. May stand again for another stack of the same seam.',
      'joins ridge, left skull',
      { repeats: true },
    ),
    line(
      'along',
      'along <edge:edge>',
      'The edge or line it follows. With one line for each of two pieces the second is placed in the assembly: the plates lie on either side of their row, outside to outside, and what their edges leave open is the seam’s `misfit`.',
      'along skull.rim, from 190 mm to 330 mm',
      {
        with: [stretchOfEdge],
        repeats: true,
      },
    ),
    line(
      'rivets',
      'rivets <rivet:rivet>',
      'Riveted: which rivet, how far apart, how far from the edge, what head is made.',
      'rivets small-bronze, every 28 mm, inset 8 mm, peened domed',
      {
        needs: ['every | count | @shares', 'inset | @shares'],
        group: 'joining',
        with: [
          also(
            'every',
            'every <every:length>',
            'Greatest distance from one rivet to the next; the row is divided evenly.',
          ),
          also('count', 'count <count:count>', 'How many, spread evenly.'),
          inset,
          also(
            'peened',
            'peened ( domed | flat | flush )',
            'The head that is made by hand. The bought head is outside unless `head inside`.',
          ),
          also('head inside', 'head inside', 'The bought head goes inside, the made head outside.'),
          also('washer', 'washer ( inside | outside )', "The rivet's washer, and on which side."),
          stretchOfEdge,
        ],
      },
    ),
    line(
      'shares',
      'shares <seam:seam> <first:count> [and <second:count>]',
      "Uses rivets of another seam, counted from its start: this seam's `joins` gives the whole stack at those rivets.",
      'shares rim-binding 3 and 4',
      {
        repeats: true,
      },
    ),
    line('weld', 'weld', 'Welded.', 'weld', { group: 'joining' }),
    line('solder', 'solder', 'Soldered.', 'solder', {
      group: 'joining',
      with: [also('with', 'with <solder:text>', 'Which solder.')],
    }),
    line('lace', 'lace [<lace:text>]', 'Laced.', 'lace "waxed cord"', { group: 'joining' }),
    line('sew', 'sew [<thread:text>]', 'Sewn.', 'sew "waxed linen"', { group: 'joining' }),
    line(
      'strap',
      'strap <material:material>',
      'A strap.',
      'strap strap-leather, wide 25 mm, long 180 mm, buckle buckle-25, count 2, at 25 mm from top and 120 mm from middle',
      {
        needs: ['wide', 'long'],
        group: 'joining',
        with: [
          wide,
          long,
          also('buckle', 'buckle <part:part>', 'Its buckle.'),
          also(
            'count',
            'count <count:count>',
            'How many straps one build takes, whatever copies of its pieces are made. Left out, one.',
          ),
          at,
        ],
        repeats: true,
      },
    ),
    line('overlap', 'overlap <overlap:length, ≥ 0>', 'How far the pieces lie over each other.', 'overlap 14 mm'),
  ],
};

const hinge: SectionWord = {
  kind: 'hinge',
  named: 'name',
  doc: 'A knuckled hinge.',
  needs: [
    { what: 'what it joins: `joins leaf.edge, leaf.edge`', any: ['joins'] },
    {
      what: 'its knuckles: `knuckles 5, wide 60 mm`, or a bought one: `bought part-name, wide 40 mm`',
      any: ['knuckles', 'bought'],
    },
    { what: 'its pin: `over wire-name`', any: ['over', 'bought'] },
  ],
  lines: [
    line('joins', 'joins <edges:edge>...', 'The two edges.', 'joins pivot-arm.right, visor.left'),
    line(
      'knuckles',
      'knuckles <knuckles:count, 1 to 99>',
      'How many knuckles, and how wide the hinge is.',
      'knuckles 5, wide 60 mm',
      { needs: ['wide'], with: [wide] },
    ),
    line('over', 'over <wire:material>', 'The pin: a wire.', 'over hinge-wire'),
    line(
      'bought',
      'bought <part:part>',
      'A bought hinge, riveted onto the plates: how wide it is, and how thick across its barrel. Without one it is made of knuckles.',
      'bought butt-hinge, wide 40 mm, barrel 7 mm, rivets small-bronze, count 6',
      {
        needs: ['wide'],
        with: [
          wide,
          also('barrel', 'barrel <barrel:length>', 'How thick its barrel is, pin and walls. It lies on the plates.'),
          also('rivets', 'rivets <rivet:rivet>', 'The rivets that hold it.'),
          also('count', 'count <count:count>', 'How many rivets one hinge takes.'),
        ],
      },
    ),
    line(
      'swing',
      'swing <from:angle, ±> to <to:angle, ±>',
      'How far it must swing. At 0° the second leaf goes on as the first ends, above nought it turns outward. The pin lies outside the plates. As it is drawn and weighed it stands at 0°, or in the middle of a swing that does not come there.',
      'swing 0 to 110 deg',
    ),
  ],
};

const overWasher = also('washer', 'washer', "Over the rivet's washer, on the inside.");

const inFromEnd = also(
  'end',
  'end <end:length>',
  'How far in from the end of the plate that lies under. Left out, the middle of the assembled overlap. Nearer to the end less overlap is lost, and the edge stands out less as it turns.',
);

const joint: SectionWord = {
  kind: 'joint',
  named: 'name',
  doc: 'Plates that move on each other. Each two that follow each other meet with the lower end of the first and the upper end of the second, and turn about the line through their left and right pivots. A bend opens the joint in front, at its `middle`, and is shared evenly by them. With `swings` the first of two plates turns on the other as one.',
  needs: [{ what: 'its plates: `plates a, b, c`', any: ['plates'] }],
  lines: [
    line(
      'plates',
      'plates <plates:copy>...',
      'The plates in order along the limb, from above; each lies over the next unless its form says otherwise. A dome stands among them with its crown to the front and its front downward.',
      'plates upper-1, cop, lower-1',
    ),
    line(
      'pivots',
      'pivots <rivet:rivet>',
      'The rivets it turns on, so far in from the side edges, in the middle of the assembled overlap; without a side on both. With one alone the plates turn about its shank.',
      'pivots pivot, inset 10 mm, left',
      {
        needs: ['at | inset'],
        with: [inset, also('side', '<side:side>', 'On which side.'), inFromEnd, overWasher, at],
        repeats: true,
      },
    ),
    line(
      'slides',
      'slides <rivet:rivet>',
      'Rivets that slide in a slot of the plate that lies under, in the middle of the assembled overlap as the pivots are. The ends of the slot stop each pair.',
      'slides slider, inset 10 mm, right, play 12 mm',
      {
        needs: ['at | inset'],
        with: [
          inset,
          also('side', '<side:side>', 'On which side.'),
          inFromEnd,
          overWasher,
          also('play', 'play <play:length, ≥ 0>', 'How far it slides. Left out, what the range needs.'),
          at,
        ],
        repeats: true,
      },
    ),
    line(
      'leathers',
      'leathers <material:material>',
      'Inner leathers that carry the plates, riveted half way up each of them, evenly spread. They are as long as the range needs, and let no pair open further. Without pivots the plates turn on them.',
      'leathers arm-leather, wide 22 mm, rivets leather-rivet, count 2',
      {
        needs: ['wide'],
        with: [
          wide,
          also('rivets', 'rivets <rivet:rivet>', 'The rivets that hold them, over their washers where they have any.'),
          also('count', 'count <count:count>', 'How many leathers side by side. Left out, one.'),
        ],
        repeats: true,
      },
    ),
    line('bends', 'bends <from:angle, ±> to <to:angle, ±>', 'The range it must go through.', 'bends 0 to 120 deg'),
    line(
      'lap',
      'overlap <lap:length, ≥ 0>',
      'How far its plates lie over each other as assembled, at bend 0. Left out, what the range needs is taken.',
      'overlap 16 mm',
    ),
    line(
      'overlap',
      'overlap at least <overlap:length, ≥ 0>',
      'What must still lie over at the ends of the range. Left out, the rulebook’s, or what is usual for the duty.',
      'overlap at least 8 mm',
    ),
    line(
      'swings',
      'swings <from:angle, ±> to <to:angle, ±>',
      'The first of its two plates swings on the other as one, as a visor does on a skull, with all that hangs on it, instead of bending. Its pivots `at` a place are on the other plate, and in a mirror on its other side too; with `inset` they are so far in from the side edges of the plate that swings, `end` above its bottom. What has no other place stands so that both lie on one line. At 0° it stands upright as its form is drawn, above nought its front goes up.',
      'swings 0 to 75 deg',
      {
        with: [
          also(
            'while',
            'while <joint:joint> at <angle:angle, ±>',
            'What else has to be swung out of its way before, and how far: a bevor goes up after the visor.',
          ),
        ],
      },
    ),
    line(
      'shares',
      'shares <joint:joint>',
      'It swings on the pivots of another joint, as a bevor does on those of the visor: the same rivets pass all their plates.',
      'shares lift, inset 14 mm, end 60 mm',
      {
        with: [
          inset,
          also('end', 'end <end:length>', 'How far above the bottom of the plate that swings. Left out, half way up.'),
        ],
      },
    ),
    line(
      'holds',
      'holds <at:angle, ±>',
      'Where it must stay by itself. Of what swings it is told how far from the pivots its weight lies then, and from where on it stays open by it.',
      'holds 75 deg',
      { repeats: true },
    ),
    line(
      'locks',
      'locks <part:part>',
      'What locks it: a bought part, counted for each joint, with the rivets that hold it. Their holes are drilled from the part.',
      'locks hook, at 0 deg, rivets small-bronze, count 2',
      {
        with: [
          also('at angle', 'at <angle:angle, ±>', 'At which angle.'),
          also('rivets', 'rivets <rivet:rivet>', 'The rivets that hold it.'),
          also('count', 'count <count:count>', 'How many rivets one takes.'),
        ],
        repeats: true,
      },
    ),
    line(
      'make',
      'make <make:count>',
      'How many of this joint in one build. Left out, one for each copy of its plates.',
      'make 8',
    ),
  ],
};

const finish: SectionWord = {
  kind: 'finish',
  named: 'name',
  doc: 'How surfaces end: on what, and the steps in order.',
  needs: [
    { what: 'what it is on: `on skull outside`', any: ['on'] },
    { what: 'a step: `polish`, `paint …`', any: ['@step'] },
  ],
  lines: [
    line(
      'on',
      'on <surfaces:surface>...',
      'Which pieces, or which face of them; rivets and parts too.',
      'on skull outside, ridge outside',
    ),
    line('grind', 'grind <grits:grit>...', 'Ground.', 'grind 80 grit', { group: 'step', repeats: true }),
    line('sand', 'sand <grits:grit>...', 'Sanded, grit after grit.', 'sand 120, 180, 240 grit', {
      group: 'step',
      repeats: true,
    }),
    line('polish', 'polish', 'Polished.', 'polish', { group: 'step', repeats: true }),
    line('blacken', 'blacken', 'Blackened.', 'blacken', {
      group: 'step',
      with: [also('hot', 'hot', 'By heat: oil burnt on.'), also('cold', 'cold', 'By a cold chemical.')],
    }),
    line('blue', 'blue [<heat:temperature>]', 'Blued by heat.', 'blue 300 C', { group: 'step' }),
    line('patina', 'patina <recipe:text>', 'A patina, by its recipe.', 'patina "brown, ammonia fume"', {
      group: 'step',
    }),
    line('prime', 'prime', 'Primed.', 'prime', { group: 'step' }),
    line('paint', 'paint <colour:text>', 'Painted.', 'paint "harbour grey", coats 2', {
      group: 'step',
      with: [also('coats', 'coats <coats:count, 1 to 99>', 'How many coats.')],
      repeats: true,
    }),
    line('dye', 'dye <colour:text>', 'Dyed.', 'dye "oak brown"', { group: 'step' }),
    line('oil', 'oil', 'Oiled.', 'oil', { group: 'step' }),
    line('wax', 'wax', 'Waxed.', 'wax', { group: 'step' }),
    line('lacquer', 'lacquer', 'Lacquered.', 'lacquer', { group: 'step' }),
  ],
};

const shop: SectionWord = {
  kind: 'shop',
  named: 'name',
  doc: 'What this shop has and charges.',
  needs: [],
  lines: [
    line('rate', 'rate <rate:number, ≥ 0>', 'Price of an hour.', 'rate 42.00'),
    line('currency', 'currency <currency:currency>', 'The currency of every price.', 'currency GBP'),
    line('gauges', 'gauges ( US | UK )', 'Which family of gauge tables a `ga` is read by.', 'gauges UK'),
    line(
      'shear',
      'shear up to <metal:metal> <thickness:thickness>',
      'The thickest sheet the shear cuts.',
      'shear up to mild steel 14 ga',
    ),
    line(
      'punch',
      'punch <sizes:length>...',
      'The punches there are, and the thickest sheet they take.',
      'punch 1/8, 3/16, 1/4 in, up to mild steel 16 ga',
      {
        with: [also('up to', 'up to <metal:metal> <thickness:thickness>', 'The thickest sheet.')],
      },
    ),
    line('blade', 'blade <teeth:teeth>', 'The saw blade, by its teeth to the inch.', 'blade 56 tpi', { repeats: true }),
    line('heat', 'heat <source:heat source>', 'How metal is heated.', 'heat forge', { repeats: true }),
    line('wire', 'wire <sizes:length>...', 'The wires in the rack.', 'wire 1/16, 3/32 in', { later: true }),
    line(
      'overhead',
      'overhead <overhead:percent, ≥ 0>',
      'Rent, gas and tools: added to materials and hours in a quote.',
      'overhead 12 %',
    ),
    line(
      'margin',
      'margin <margin:percent, ≥ 0>',
      'Added to the cost, overhead and all, for the price.',
      'margin 25 %',
    ),
    line('tax', 'tax <tax:percent, ≥ 0>', 'Tax on the price.', 'tax 20 %'),
    line('valid', 'valid <days:count> days', 'How long a quote stands, from the day it is made.', 'valid 30 days'),
    line(
      'terms',
      'terms <terms:text>',
      'A sentence that stands on every quote.',
      'terms "Half on order, half on delivery."',
      {
        repeats: true,
      },
    ),
  ],
};

const order: SectionWord = {
  kind: 'order',
  named: 'name',
  doc: 'What must come first, and how long a step takes. The build sheet puts all work in order by itself; what it does only because that is usual gives way to an order of yours.',
  needs: [],
  lines: [
    line(
      'first',
      'first <first:step>',
      'This, then that. An operation is a closed list; a finish or a seam stands for itself.',
      'first skull raise, then skull planish',
      {
        needs: ['then'],
        with: [also('then', 'then <then:step>', 'What comes next.', { repeats: true })],
        repeats: true,
      },
    ),
    line(
      'together',
      'together <pieces:copy>...',
      'Worked as one, so that they match.',
      'together brow-left, brow-right',
      { repeats: true, later: true },
    ),
    line(
      'hours',
      'hours <step:step> <time:time>',
      'How long a step takes you, for one build: it goes before the usual rate. Of a finish it is all its steps.',
      'hours skull raise 3.5 h',
      {
        repeats: true,
      },
    ),
  ],
};

const log: SectionWord = {
  kind: 'log',
  named: 'name',
  doc: 'What was measured when it was built: shown against the forecast.',
  needs: [],
  lines: [
    line('dated', 'dated <dated:date>', 'When.', 'dated 2027-02-11', { later: true }),
    line('copy', 'copy <copy:count>', 'Which copy.', 'copy 1', { later: true }),
    line(
      'found',
      'found <piece:copy> ( crown | edge | blank | rim | middle | top | bottom ) <value:dimensions>',
      'A measure of the finished piece or its blank.',
      'found left skull crown 1.05 mm',
      {
        repeats: true,
        later: true,
      },
    ),
    line('found mass', 'found <piece:copy> mass <mass:mass>', 'What it weighs.', 'found skull mass 1240 g', {
      repeats: true,
      later: true,
    }),
    line('took', 'took <step:step> <time:time>', 'How long a step took.', 'took skull raise 4.2 h', {
      repeats: true,
      later: true,
    }),
  ],
};

export const sections: readonly SectionWord[] = [
  build,
  wearer,
  material,
  rivet,
  part,
  rules,
  piece,
  seam,
  hinge,
  joint,
  finish,
  shop,
  order,
  log,
];
