// What the panel of a paper and its page tell each other: types only.

/** A part of a paper that is drawn: a pattern, a sheet. */
export interface Picture {
  readonly title: string;
  readonly svg: string;
}

export type Shown =
  | { readonly kind: 'page'; readonly html: string }
  /** `missing` says what is on none of them, or that there is none. */
  | { readonly kind: 'pictures'; readonly pictures: readonly Picture[]; readonly missing: string };

export type ToPage =
  | Shown
  /** How it stands with what is shown; empty where it is as the spec is. */
  | { readonly kind: 'state'; readonly text: string }
  /** For whoever sits before the page, where no program of theirs can be reached. */
  | { readonly kind: 'file'; readonly name: string; readonly base64: string };

export type FromPage = { readonly kind: 'ready' } | { readonly kind: 'print' } | { readonly kind: 'save' };
