import { say, translated } from '../../../l10n/say.ts';
import type { Model } from '../spec.ts';
import { hingedBy } from './hinged.ts';
import { jointLinks } from './joint-link.ts';
import { type Link, linkedBy } from './link.ts';

/** What holds pieces together and places them: a seam, a joint, a hinge. */
export interface Bond {
  readonly kind: 'seam' | 'joint' | 'hinge';
  readonly name: string;
  readonly links: readonly Link[];
}

/** The bond of a name of the spec itself. */
export function bondNamed(model: Model, key: string): Bond | undefined {
  const named = model.file.find(key);
  if (named?.file !== model.file) return undefined;
  switch (named.kind) {
    case 'seam': {
      const seam = model.seamOf(named);
      return { kind: 'seam', name: seam.name, links: linkedBy(seam).links };
    }
    case 'joint': {
      const joint = model.jointOf(named);
      return { kind: 'joint', name: joint.name, links: jointLinks(joint).links };
    }
    case 'hinge': {
      const hinge = model.hingeOf(named);
      return { kind: 'hinge', name: hinge.name, links: hingedBy(hinge).links };
    }
    default:
      return undefined;
  }
}

/** `seam nape`, `seams a, b and hinge temple together` */
export function inWords(bonds: readonly Pick<Bond, 'kind' | 'name'>[]): string {
  const kinds = (['seam', 'joint', 'hinge'] as const).flatMap((kind) => {
    const names = [...new Set(bonds.filter((bond) => bond.kind === kind).map(({ name }) => name))];
    return names.length ? [`${kind}${names.length > 1 ? 's' : ''} ${names.join(', ')}`] : [];
  });
  return bonds.length > 1 ? say`${kinds.join(translated(' and '))} together` : kinds.join('');
}
