import type { Section } from '../../grammar/tree.ts';
import { Gathering, kept, type Lists, type Memo, Roster, type Same, sameList } from '../incremental/memo.ts';
import { pause, type Steps } from '../incremental/steps.ts';
import { homeOf, type Model, type Things } from './spec.ts';

/* What is worked out of a whole spec, and kept as long as it holds. */

/** Something worked out of a whole spec, kept as long as it holds. */
export function ofModel<T>(compute: (model: Model) => T): (model: Model) => T {
  return perModel((model) => kept(() => compute(model)));
}

/**
 * What is worked out of one thing and kept by itself: who asks hangs on what comes out, not on all that the thing is. After an edit
 * another thing stands for its section, so it is looked up anew; `none` where the section is of no such thing any more. With `stops` a
 * long question may stop once it is kept: a build may have hundreds of them.
 */
export function ofThing<Kind extends 'piece' | 'seam' | 'hinge' | 'joint', T>(
  kind: Kind,
  none: T,
  compute: (thing: Things[Kind], model: Model) => T,
  { same, what, stops = false }: { readonly same?: Same<T>; readonly what?: string; readonly stops?: boolean } = {},
): (thing: Things[Kind]) => T {
  const known = perModel((model) => {
    const each = model.eachSection<T>(same, what);
    const get = (section: Section): T => {
      let isNew = false;
      const found = each.get(section, () => {
        isNew = true;
        const thing = thingOf(model, kind, section);
        return thing ? compute(thing, model) : none;
      });
      if (stops && isNew) pause();
      return found;
    };
    return () => get;
  });
  return (thing) => known(homeOf(thing))(thing.named.section);
}

/**
 * What each thing of a kind brings to what must see all of them, in the order of the spec. After an edit only the things
 * that something changed of are asked again.
 */
export function gathered<Kind extends keyof Things, T>(
  kind: Kind,
  of: (thing: Things[Kind], model: Model) => readonly T[],
): (model: Model) => readonly T[] {
  return perModel((model) => {
    const list = new Gathering<Section, T>(() => model.sectionsOf(kind), broughtBy(model, kind, of));
    return () => list.get();
  });
}

/**
 * Lists and counts of what the things of a kind bring, asked for together: after an edit a thing is asked once for all of
 * them. For what the checks look for, since who asks for one list has all of them made: what the model itself asks for on
 * its way would run in circles so.
 */
export class Together<Kind extends keyof Things> {
  private readonly asks: ((thing: Things[Kind], model: Model) => readonly unknown[])[] = [];
  private isInUse = false;

  constructor(private readonly kind: Kind) {}

  /** What they bring, in the order of the spec. */
  list<T>(of: (thing: Things[Kind], model: Model) => readonly T[]): (model: Model) => readonly T[] {
    const at = this.add(of);
    return (model) => this.rosterOf(model).list(at) as readonly T[];
  }

  /** Whether any of them brings something. */
  tally<T>(of: (thing: Things[Kind], model: Model) => readonly T[]): (model: Model) => { has(each: T): boolean } {
    const at = this.add(of);
    return (model) => this.rosterOf(model).tally(at);
  }

  /** Asks one thing after the other, where that takes long. */
  inSteps(model: Model): Steps<void> {
    return this.rosterOf(model).inSteps();
  }

  private add(of: (thing: Things[Kind], model: Model) => readonly unknown[]): number {
    if (this.isInUse) throw new Error('The things have been asked already.');
    return this.asks.push(of) - 1;
  }

  private readonly rosterOf = perModel((model) => {
    this.isInUse = true;
    const { asks } = this;
    const all = (thing: Things[Kind]): Lists => {
      const lists = asks.map((of) => of(thing, model));
      return lists.some((list) => list.length) ? lists : NOTHING;
    };
    const memoOf = broughtBy(model, this.kind, all);
    const roster = new Roster<Section>(() => model.sectionsOf(this.kind), memoOf, asks.length);
    return () => roster;
  });
}

const NOTHING: Lists = [];

function broughtBy<Kind extends keyof Things, T>(
  model: Model,
  kind: Kind,
  of: (thing: Things[Kind], model: Model) => readonly T[],
): (section: Section) => Memo<readonly T[]> {
  const each = model.eachSection<readonly T[]>(sameList);
  return (section) => each.memo(section, () => of(thingOf(model, kind, section)!, model));
}

/** The thing that a section is about; nothing where it is of another kind or has no name. */
export function thingOf<Kind extends keyof Things>(
  model: Model,
  kind: Kind,
  section: Section,
): Things[Kind] | undefined;
export function thingOf(model: Model, kind: keyof Things, section: Section): Things[keyof Things] | undefined {
  if (kind === 'section') return section;
  const named = section.name && section.kind?.kind === kind ? model.file.namesIn(section)[0] : undefined;
  if (!named) return undefined;
  switch (kind) {
    case 'material':
      return model.materialOf(named);
    case 'rivet':
      return model.rivetOf(named);
    case 'piece':
      return model.pieceOf(named);
    case 'seam':
      return model.seamOf(named);
    case 'finish':
      return model.finishOf(named);
    case 'hinge':
      return model.hingeOf(named);
    case 'joint':
      return model.jointOf(named);
  }
}

/** The same for what looks after itself: one for each spec. */
export function perModel<T>(make: (model: Model) => () => T): (model: Model) => T {
  const known = new WeakMap<Model, () => T>();
  return (model) => {
    let get = known.get(model);
    if (!get) {
      get = make(model);
      known.set(model, get);
    }
    return get();
  };
}
