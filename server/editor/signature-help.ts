import type { Position, SignatureHelp, SignatureInformation } from 'vscode-languageserver-types';
import { leadingWords, type PhraseWord } from '../../grammar/pattern.ts';
import { notationOf } from './hover.ts';
import { spotAt } from './spot.ts';
import type { View } from './workspace.ts';

/** How the line under the cursor is written, with what may follow its commas. */
export function signatureHelpAt(view: View, position: Position): SignatureHelp | undefined {
  const offset = view.offsetAt(position);
  const spot = spotAt(view, offset);
  const { section } = spot;
  if (spot.comment) return undefined;
  // Behind the last word of a line the cursor is past the line's own text.
  const line =
    spot.line ??
    section.lines.find((each) => {
      const at = offset - section.start;
      return (
        each.to <= at &&
        /^[,\s]*$/.test(section.text.slice(each.to, at)) &&
        !/[\r\n]/.test(section.text.slice(each.to, at))
      );
    });
  const word = line?.word;
  if (!line || !word) return undefined;
  const parts = [word, ...word.qualifiers].map((each, i) => (i === 0 ? notationOf(each) : `, ${notationOf(each)}`));
  let label = '';
  const parameters: SignatureInformation['parameters'] = [];
  const words: readonly PhraseWord[] = [word, ...word.qualifiers];
  parts.forEach((part, i) => {
    const from = label.length + (i ? 2 : 0);
    label += part;
    parameters.push({ label: [from, label.length], documentation: words[i]!.doc });
  });
  const at = offset - section.start;
  const qualifier = line.qualifiers.find((each) => each.from <= at && at <= each.to)?.word;
  const active = qualifier ? words.indexOf(qualifier) : at <= (line.head?.to ?? line.to) ? 0 : undefined;
  return {
    signatures: [{ label, documentation: leadingWords(word.pattern) ? word.doc : word.example, parameters }],
    activeSignature: 0,
    ...(active === undefined || active < 0 ? {} : { activeParameter: active }),
  };
}
