/** What no one sees and yet steers: control characters, and marks that turn round the order in which all that follows is read. */
const UNSEEN = /[\p{Cc}\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu;

/** A text of one line in which everything can be seen: `<U+202E>` stands for what would have turned the rest round. */
export const seen = (text: string): string => text.replace(UNSEEN, named);

/** The same in the strings of a JSON, which stay what they are to whoever reads it. */
export const seenInJson = (json: string): string =>
  json.replace(UNSEEN, (mark) => (mark === '\n' ? mark : `\\u${hexOf(mark)}`));

const named = (mark: string): string => `<U+${hexOf(mark).toUpperCase()}>`;

const hexOf = (mark: string): string => mark.charCodeAt(0).toString(16).padStart(4, '0');
