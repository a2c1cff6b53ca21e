import { buildFigures } from './figures/build.ts';
import { finishFigures } from './figures/finish.ts';
import { hingeFigures } from './figures/hinge.ts';
import { jointFigures } from './figures/joint.ts';
import { pieceFigures } from './figures/piece.ts';
import { seamFigures } from './figures/seam.ts';
import type { Project } from './names/project.ts';
import { type Figuring, type Model, Registry } from './spec.ts';

/* Where what a spec says and the figures that are made of it come together. */

const figuring: Figuring = {
  piece: pieceFigures,
  seam: seamFigures,
  joint: jointFigures,
  hinge: hingeFigures,
  finish: finishFigures,
  build: buildFigures,
};

const registries = new WeakMap<Project, Registry>();

/** The model of a spec; nothing if there is no such spec. */
export function modelOf(project: Project, uri: string): Model | undefined {
  let registry = registries.get(project);
  if (!registry) {
    const made = new Registry(project, figuring);
    registry = made;
    registries.set(project, made);
    project.figureOf = (named, rest) => made.modelOf(named.file).figureOf(named, rest);
  }
  const file = project.file(uri);
  return file && registry.modelOf(file);
}
