/** Why one thing is done before another. */
export interface Reason {
  /** A whole sentence, for whoever asks at the bench. */
  readonly why: string;
  /** Common practice, which gives way to an order of the smith's own. */
  readonly yields: boolean;
}

/** Every reason that an order of work has for an arrow. All of them are common practice (no source), but for those of the spec itself. */
export const reasons = {
  'cut-to-the-line': must('The blank is cut to the line that is marked on it.'),
  'burr-first': usual('A burr cuts hands, and a nick in the edge starts a crack where the metal is stretched.'),
  'flat-first': must('It is done in the flat, as its line says: before forming.'),
  'blank-before-forming': must('There has to be a blank before it is formed.'),
  'as-written': must('The piece is worked in the order of its lines.'),
  'formed-then-trimmed': must('What stands over is cut off when the form stands.'),
  'edge-after-forming': usual(
    'A turned edge is stiff, and a rounded one is hammered flat again: the plate is formed first.',
  ),
  'opened-after-forming': must('A hole moves and stretches with the metal: it is made when the form stands.'),
  'mates-shaped': usual('A plate is fitted to a mate that has its shape.'),
  'fitted-then-drilled': must('Holes are carried over when the plates lie as they will.'),
  'holes-before-rivets': must('A rivet needs its hole.'),
  'hard-last': must('Hardened steel is neither hammered, cut nor drilled.'),
  'tempered-at-once': must('Hard steel cracks by itself until it is tempered.'),
  'welded-before-hardened': must('The heat of a weld or a joint of solder draws the temper.'),
  'hardened-apart': usual('Riveted together, one plate is not hardened without the other.'),
  'surface-after-work': usual('Hammer marks, scale and burrs come off once, after the last of them.'),
  'heat-before-surface': usual('The heat burns off a coat and takes a colour or a polish with it.'),
  'reached-before-riveted': usual('What lies under a lap cannot be reached once it is riveted.'),
  'coat-over-rivets': usual('A hammered head chips the coat round it: what has one coat all over is riveted first.'),
  'coated-apart': usual('Plates of different finish are finished before they are riveted together.'),
  'leather-last': usual('Leather shrinks in heat, and grinding dust and stain do not come out of it.'),
  'leather-after-coats': usual('A coat runs behind leather and glues it: coats dry before leather is hung.'),
  'oiled-last': usual('Oil and wax creep under everything: nothing sticks to a surface after them.'),
  'your-order': must('An order of the spec says so.'),
  // Both copies are worked in one go unless something stands against it.
  'your-order-of-a-copy': usual('An order of the spec says so of one copy.'),
} as const satisfies Readonly<Record<string, Reason>>;

export type ReasonId = keyof typeof reasons;

export const reasonOf = (id: ReasonId): Reason => reasons[id];

function must(why: string): Reason {
  return { why, yields: false };
}
function usual(why: string): Reason {
  return { why, yields: true };
}
