import type { Section, Spec } from '../../../grammar/tree.ts';

/** Where an editor says what holds of the whole spec: at its build, or else at its first header. */
export const quietSection = ({ sections }: Spec): Section | undefined =>
  sections.find(({ kind }) => kind?.kind === 'build') ?? sections.find(({ header }) => header !== undefined);
