/** Parameters of the energy (see `energy.ts`) for one way of working, and where they come from. */
export interface Way {
  readonly name: string;
  /** How much even thickness counts against kept shape: 0 keeps angles, 1 lengths, many areas. */
  readonly k: number;
  /** Metal gathered by raising: ln of the greatest thickening asked for, for each steradian of Gauss curvature. */
  readonly gather: number;
  /** `held`: the blank is scaled until its free border is as long as the formed one. */
  readonly rim: 'free' | 'held';
  readonly source: string;
}
