/** Input that no smith means and that everything must survive: see README.md beside this file. */
export interface HostileCase {
  /** In a few words what is wrong with it: `a plate 92 m long`. */
  readonly name: string;
  /** Files by their relative path, made anew at each call; the first is the spec that is opened. */
  readonly files: () => Readonly<Record<string, string | Uint8Array>>;
  /** The code of a finding that must come of it. */
  readonly finds?: string;
  /** What must not be found, since the input is ordinary. */
  readonly isClean?: boolean;
  /** Exports asked for besides diagnostics and every question of an editor. */
  readonly exports?: readonly ('cutlist' | 'order' | 'patterns' | 'layouts' | 'explain' | 'draw')[];
  /** It takes long even where all is well: `npm run hostile` sends it, the tests of every day do not. */
  readonly isDear?: true;
  /** What it may take at most: seconds of the processor for all answers together, and MiB at the peak. */
  readonly budget?: { readonly seconds?: number; readonly mebibytes?: number };
}
