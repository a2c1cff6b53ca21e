import type { Basis } from '../trade/reckoning/result.ts';

/**
 * How much more hide than finished leather to reckon with, as a share of the leather's own area: belly, brands and
 * the gaps between pieces. Every shop has its own figure; this is where ours stands.
 */
export const HIDE_WASTE: { readonly share: number; readonly basis: Basis; readonly source: string } = {
  share: 0.25,
  basis: 'common practice',
  source: 'Common practice (no source): a quarter over the area of the pieces.',
};

export interface HideNeed {
  /** Area of the pieces themselves, mm². */
  readonly pieces: number;
  readonly waste: number;
  /** Area of hide to have, waste included, mm². */
  readonly needed: number;
  /** Area of one hide, mm²; absent when the stock does not say. */
  readonly hide?: number;
  /** Hides of that size the job takes; absent when the size is not known. */
  readonly hides?: number;
  readonly have?: number;
  readonly buy?: number;
}

/** A hide given by its area alone is not laid out: area against area, with an allowance for waste. */
export function hideNeed(pieces: number, hide?: number, have?: number, share = HIDE_WASTE.share): HideNeed {
  const waste = pieces * share;
  const needed = pieces + waste;
  if (hide === undefined || !(hide > 0)) return { pieces, waste, needed, ...(have === undefined ? {} : { have }) };
  const hides = Math.ceil(needed / hide - 1e-9);
  return {
    pieces,
    waste,
    needed,
    hide,
    hides,
    buy: Math.max(0, hides - (have ?? 0)),
    ...(have === undefined ? {} : { have }),
  };
}
