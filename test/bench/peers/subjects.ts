// The servers that are measured: ours as it is shipped, and general-purpose ones, in a folder of their own.
import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { longSpec } from './long-spec.ts';
import { blocks, json, schema, yaml } from './records.ts';

const root = path.resolve(import.meta.dirname, '../../..');
const folder = path.join(root, '.bench-peers');

export interface Subject {
  readonly name: 'planish' | 'before' | 'json' | 'yaml' | 'langium';
  /** Program and arguments after `node`. */
  readonly program: readonly string[];
  readonly language: string;
  readonly text: (lines: number) => string;
  /** Finds places whose first letter makes an error when it is another: the first group. The middle one is taken. */
  readonly spot: RegExp;
  readonly options?: unknown;
  /** What `workspace/configuration` is answered from. */
  readonly settings?: Readonly<Record<string, unknown>>;
}

const own: Omit<Subject, 'program'> = {
  name: 'planish',
  language: 'planish',
  text: longSpec,
  spot: /\n {2}from (plate)\n/g,
};

const schemas = [{ url: 'mem:///schema', fileMatch: ['*.json'], schema }];
const peers: Subject[] = [
  {
    name: 'json',
    program: ['node_modules/vscode-langservers-extracted/bin/vscode-json-language-server', '--stdio'],
    language: 'json',
    text: json,
    spot: /"finish": "(\w+)"/g,
    options: { provideFormatter: true },
    settings: { json: { validate: { enable: true }, schemas } },
  },
  {
    name: 'yaml',
    program: ['node_modules/yaml-language-server/bin/yaml-language-server', '--stdio'],
    language: 'yaml',
    text: yaml,
    spot: /finish: (\w+)/g,
    settings: {
      yaml: { validate: true, hover: true, completion: true, schemaStore: { enable: false }, schemas: {} },
    },
  },
  {
    name: 'langium',
    program: ['langium-server.mjs', '--stdio'],
    language: 'parts',
    text: blocks,
    spot: /joins (\w+)/g,
  },
];

export interface SubjectOptions {
  /** Which of the others; all unless said. */
  readonly only?: readonly string[];
  readonly profile?: boolean;
  /** The `dist` of another state of ours, made with `node .scripts/bundle.mjs --minify`, to be measured beside. */
  readonly before?: string | undefined;
}

/** Ours first, bundled from the sources as it is shipped. The others are installed where they are not there yet. */
export function subjects({ only, profile = false, before }: SubjectOptions = {}): Subject[] {
  const others = peers.filter(({ name }) => !only || only.includes(name));
  if (others.length) installPeers();
  const ofOurs = (server: string, name: 'planish' | 'before'): Subject => ({
    ...own,
    name,
    program: [server, '--stdio'],
  });
  return [
    ofOurs(bundledServer(profile), 'planish'),
    ...(before ? [ofOurs(path.resolve(before, 'server.cjs'), 'before')] : []),
    ...others.map(inFolder),
  ];
}

const inFolder = (subject: Subject): Subject => ({
  ...subject,
  program: [path.join(folder, subject.program[0]!), ...subject.program.slice(1)],
});

function installPeers(): void {
  mkdirSync(folder, { recursive: true });
  copyFileSync(path.join(import.meta.dirname, 'langium-server.mjs'), path.join(folder, 'langium-server.mjs'));
  const wanted = ['package.json', 'package-lock.json'].map((file) => path.join(import.meta.dirname, file));
  const isThere =
    existsSync(path.join(folder, 'node_modules')) &&
    wanted.every((file) => {
      const there = path.join(folder, path.basename(file));
      return existsSync(there) && readFileSync(there, 'utf8') === readFileSync(file, 'utf8');
    });
  if (isThere) return;
  console.error('Installing the servers to measure beside into .bench-peers …');
  for (const file of wanted) copyFileSync(file, path.join(folder, path.basename(file)));
  const { status } = spawnSync('npm', ['ci', '--no-audit', '--no-fund', '--ignore-scripts'], {
    cwd: folder,
    stdio: ['ignore', 'ignore', 'inherit'],
    shell: process.platform === 'win32',
  });
  if (status !== 0) throw new Error('The servers to measure beside could not be installed.');
}

/** Ours, made and started as it is shipped; readable where it is to be profiled. */
function bundledServer(profile: boolean): string {
  const { status } = spawnSync(process.execPath, ['.scripts/bundle.mjs', ...(profile ? [] : ['--minify'])], {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  if (status !== 0) throw new Error('The server could not be bundled.');
  return path.join(root, 'dist/server.cjs');
}
