import assert from 'node:assert/strict';
import { readSpec } from '../../grammar/reader.ts';
import { modelOf } from '../../server/model/index.ts';
import { Project } from '../../server/model/names/project.ts';
import type { Model } from '../../server/model/spec.ts';
import type { Figure, Finding } from '../../server/model/values/figure.ts';

const ROOT = 'file:///build/';

/** The model of the first of these files; the others are there to be used. */
export function modelFrom(files: Record<string, string> | string): Model {
  const all = typeof files === 'string' ? { 'helm.planish': files } : files;
  const texts = new Map(Object.entries(all).map(([path, text]) => [ROOT + path, text]));
  const project = new Project({
    read: (uri) => {
      const text = texts.get(uri);
      return text === undefined ? undefined : readSpec(text);
    },
    drawing: (uri) => texts.get(uri),
    mayRead: (uri) => uri.startsWith(ROOT),
  });
  const model = modelOf(project, ROOT + Object.keys(all)[0]);
  if (!model) throw new Error('the first file cannot be read');
  return model;
}

/** The value of a figure of this spec, by its dotted name. */
export function figureValue(model: Model, name: string): number {
  const figure = model
    .figures()
    .flatMap((set) => set.all())
    .find((each) => each.name === name);
  if (!figure) throw new Error(`no figure ${name}`);
  return figure.value;
}

/** Every figure of a spec, by its dotted name. */
export function figuresOf(spec: Parameters<typeof modelFrom>[0]): ReadonlyMap<string, Figure> {
  const all = modelFrom(spec)
    .figures()
    .flatMap((set) => set.all());
  return new Map(all.map((figure) => [figure.name, figure]));
}

export function nearFigure(figure: Figure | undefined, value: number, within = 1e-6): void {
  assert.ok(figure, `no such figure; ${value} is wanted`);
  assert.ok(Math.abs(figure.value - value) <= within, `${figure.name} is ${figure.value}, not ${value}`);
}

/** What the model finds wrong, as `code “marked text”`. */
export const marked = (findings: readonly Finding[]): string[] =>
  findings.map(({ code, place }) => `${code} “${place.section.text.slice(place.from, place.to)}”`);

export const PLATE = `material plate
  mild steel 1.5 mm
`;
