import type { PhraseWord, SlotType } from '../../../grammar/pattern.ts';
import type { KnownNames } from '../../../grammar/snippets.ts';
import type { Section } from '../../../grammar/tree.ts';
import { isLibrary } from '../../model/names/library.ts';
import type { Named } from '../../model/names/spec-file.ts';
import { partsOf } from './names.ts';
import type { View } from './workspace.ts';

/** The names that may fill a slot in a section, likeliest first: what a snippet is filled with. */
export function namesKnown(view: View, section: Section): KnownNames {
  return (type, slot) => {
    const kind = KIND_OF[type];
    if (type === 'edge') return edgesFor(view, section);
    if (!kind) return [];
    if (kind === 'piece')
      return piecesNear(view, section)
        .filter((named) => type !== 'piece' || !hangsOn(view, named.section, section))
        .map(({ word }) => word.text);
    const all = view.file.visibleOf(kind).filter(({ word }) => word.key !== section.name?.key);
    const own = all.filter((named) => !isLibrary(named.file.uri));
    const here = own.length ? own : all;
    const names = kind === 'material' ? suitable(view, here, slot) : here;
    return names.map(({ word }) => word.text);
  };
}

const KIND_OF: Partial<Record<SlotType, Exclude<Named['kind'], 'let'>>> = {
  material: 'material',
  rivet: 'rivet',
  part: 'part',
  wearer: 'wearer',
  rules: 'rules',
  seam: 'seam',
  piece: 'piece',
  copy: 'piece',
  surface: 'piece',
};

/** The pieces that were written last before a section, or first behind it: of a thousand nobody reads a list. */
function piecesNear(view: View, section: Section): Named[] {
  const here = view.file.sectionsOf('piece');
  // In the order of the text: only what is near is looked at.
  let at = 0;
  for (let end = here.length; at < end; ) {
    const middle = (at + end) >> 1;
    if (here[middle]!.start < section.start) at = middle + 1;
    else end = middle;
  }
  const near: Named[] = [];
  const add = (named: Named | undefined) => {
    if (named && named.section !== section && named.word.key !== section.name?.key) near.push(named);
  };
  for (let i = at - 1; i >= 0 && near.length < MOST_PIECES; i--) add(view.file.namesIn(here[i]!)[0]);
  if (near.length) return near;
  for (let i = at; i < here.length && near.length < MOST_PIECES; i++) add(view.file.namesIn(here[i]!)[0]);
  if (near.length) return near;
  return view.file
    .visibleOf('piece')
    .filter(({ word }) => word.key !== section.name?.key)
    .slice(0, MOST_PIECES);
}
const MOST_PIECES = 20;

/** Whether a section is made of another, or of more than anybody looks through: a piece that is like one of these would turn in a circle. */
function hangsOn(view: View, section: Section, other: Section): boolean {
  const seen = new Set([section]);
  // What is added while it is gone through is gone through too.
  for (const each of seen)
    for (const { target } of view.file.referencesIn(each)) {
      if (target?.section === other) return true;
      if (target?.file === view.file) seen.add(target.section);
      if (seen.size > MOST_BEHIND) return true;
    }
  return false;
}
const MOST_BEHIND = 200;

/** Whether a slot holds the name of a thing of one kind. */
export const isNamed = (type: SlotType): boolean => KIND_OF[type] !== undefined;

/** Wire where a wire is wanted and nowhere else; for a strap leather. */
export function isSuitable(view: View, material: Named, slot: string, word?: PhraseWord): boolean {
  const kind = view.model.materialOf(material).kind();
  if (word && SOFT.has(word.id)) return kind === 'soft';
  return (kind === 'wire') === (slot === 'wire');
}
const SOFT = new Set(['strap', 'leathers', 'edge soft']);

function suitable(view: View, materials: readonly Named[], slot: string): readonly Named[] {
  const fitting = materials.filter((each) => isSuitable(view, each, slot));
  return fitting.length ? fitting : materials;
}

/** The edges of a piece itself; in a seam or a hinge those of the pieces that it joins. */
function edgesFor(view: View, section: Section): string[] {
  const named = section.name && view.file.find(section.name.key);
  if (named?.kind === 'piece' && named.section === section) return edgesOf(view, named);
  const joined = view.file.referencesIn(section).flatMap(({ target }) => (target?.kind === 'piece' ? target : []));
  const pieces = joined.length ? [...new Set(joined)] : piecesNear(view, section).slice(0, 5);
  return pieces.flatMap((piece) => edgesOf(view, piece).map((edge) => `${piece.word.text}.${edge}`));
}

const edgesOf = (view: View, piece: Named): string[] => {
  const parts = [...partsOf(piece.section).values()];
  return view.model
    .pieceOf(piece)
    .edgeNames()
    .map((edge) => parts.find(({ key }) => key === edge)?.text ?? edge);
};
