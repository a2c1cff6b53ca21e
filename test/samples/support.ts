import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { readSpec } from '../../grammar/reader.ts';
import { modelOf } from '../../server/model/index.ts';
import { Project } from '../../server/model/names/project.ts';
import type { Model } from '../../server/model/spec.ts';

export const folder = fileURLToPath(new URL('../../samples/', import.meta.url));

/** Every sample, by its path in `samples/`; the faults are made to be marked and have their own test. */
export const samples: readonly string[] = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .map((file) => file.replaceAll('\\', '/'))
  .filter((file) => file.endsWith('.planish') && !file.startsWith('faults/'))
  .sort();

/** The samples that are builds: the others are stock. */
export const builds = samples.filter((file) => /^build\s/m.test(textOf(file)));

export function textOf(file: string): string {
  return readFileSync(`${folder}${file}`, 'utf8');
}

/** A sample, read once for all who only ask it. */
export function sample(file: string): Model {
  const model = read.get(file) ?? freshSample(file);
  read.set(file, model);
  return model;
}

const read = new Map<string, Model>();

/** A sample that nobody has asked anything yet. */
export function freshSample(file: string): Model {
  const text = (uri: string) => {
    const path = fileURLToPath(uri);
    return existsSync(path) ? readFileSync(path, 'utf8') : undefined;
  };
  const project = new Project({
    mayRead: () => true,
    read: (uri) => {
      const found = text(uri);
      return found === undefined ? undefined : readSpec(found);
    },
    drawing: text,
  });
  const model = modelOf(project, pathToFileURL(`${folder}${file}`).href);
  if (!model) throw new Error(`no sample ${file}`);
  return model;
}

/** A spec of texts alone; the first file is the one that is asked for. */
export function specOf(files: Readonly<Record<string, string>>): Model {
  const texts = new Map(Object.entries(files).map(([name, text]) => [`file:///bench/${name}`, text]));
  const project = new Project({
    mayRead: () => true,
    read: (uri) => {
      const text = texts.get(uri);
      return text === undefined ? undefined : readSpec(text);
    },
  });
  return modelOf(project, [...texts.keys()][0]!)!;
}
