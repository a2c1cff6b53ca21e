/** Parameters of the energy (see `energy.ts`) for one way of working, and where they come from. */
export interface Way {
  readonly name: string;
  /** How much even thickness counts against kept shape: 0 keeps angles, 1 lengths, many areas. */
  readonly k: number;
  /** The metal gathered: q as a share of φ (`conformalLog`). */
  readonly gather: number;
  /** Where it is gathered: most at the crown and none at the edge, or the other way round. */
  readonly at: 'crown' | 'edge';
  /** `held`: the blank is scaled until its free border is as long as the formed one. */
  readonly rim: 'free' | 'held';
  readonly source: string;
}
