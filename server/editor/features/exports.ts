import { ErrorCodes, LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import { URI, Utils } from 'vscode-uri';
import { type Runner, type Steps, share } from '../../incremental/steps.ts';
import type { PaperSize } from '../../output/documents/patterns/tiles.ts';
import { type Export, exports, methodOf, type Part, refusedAs, type WriteAsk } from '../../output/exports.ts';
import type { FileFormat } from '../../output/writers/file-formats.ts';
import type { Written } from '../../output/writers/papers.ts';
import type { ExportAsked, LayoutFiles, PaperFile } from '../../requests.ts';
import { type Answering, type Feature, plain, type Request } from '../protocol/feature.ts';
import type { Course } from '../protocol/turns.ts';
import type { View } from '../workspace/workspace.ts';

/** A request for each row of the table of exports. */
export const feature: Feature = { requests: exports.map(requestFor) };

function requestFor(row: Export): Request {
  const what = row.words.title.toLowerCase();
  return plain<ExportAsked, PaperFile | LayoutFiles | ResponseError<void>>(methodOf(row), {
    what,
    empty: new ResponseError<void>(LSPErrorCodes.RequestFailed, 'This spec could not be read.'),
    answer(params, server, token) {
      const refused = refusedAs(row, params);
      if (refused) throw new ResponseError(ErrorCodes.InvalidParams, refused);
      const asked = { title: row.words.making, reporter: server.reporterOf(params) };
      return server.withProgress(asked, token, async (cancelled, told) => {
        const course = (from: number, to: number): Course => ({
          token: cancelled,
          told: (done) => told(from + (to - from) * done),
        });
        const made = await madeOf(row, params, server, course(0, 0.3));
        // What was made hangs on no text any more.
        const run: Runner = async (steps) => {
          const done = await server.turns.through(steps, course(0.3, 1));
          // Parts that are short each by themselves come one after the other.
          await server.turns.pass(cancelled);
          return done;
        };
        return writtenOf(row, made, params, { fonts: server.fonts, run });
      });
    },
  });
}

async function madeOf(row: Export, { uri, kerf }: ExportAsked, server: Answering, course: Course): Promise<unknown> {
  const date = server.today();
  const read = (view: View) => readOf(row, view, { date, kerf: kerf === true });
  const made = await server.steadily(uri, read, course);
  if (made === undefined) throw new ResponseError(LSPErrorCodes.RequestFailed, 'This spec could not be read.');
  return made;
}

/** What a spec says for an export, with what is wrong with it. */
export function* readOf(
  row: Export,
  view: View,
  asked: { readonly date: string; readonly kerf: boolean },
): Steps<unknown> {
  const problems = yield* share(0, 0.5, view.problemsInSteps());
  return yield* share(0.5, 1, row.read(view.model, { ...asked, problems }));
}

async function writtenOf(
  row: Export,
  made: unknown,
  { uri, to, paper, parts }: ExportAsked,
  given: Pick<WriteAsk, 'fonts' | 'run'>,
): Promise<PaperFile | LayoutFiles> {
  const ask: WriteAsk = { ...given, to: to as FileFormat, ...(paper ? { paper: paper as PaperSize } : {}) };
  if (row.whole && parts !== true) return given.run(fileOf(uri, row.fileName, await row.whole(made, ask)));
  return { sheets: await filesOf(uri, row.parts?.(made) ?? [], ask), missing: row.missing?.(made) ?? [] };
}

/** Named as on the command line: `sallet.skull-plate-1.dxf`. */
async function filesOf(uri: string, parts: readonly Part[], ask: WriteAsk): Promise<LayoutFiles['sheets']> {
  const files: LayoutFiles['sheets'][number][] = [];
  for (const [done, part] of parts.entries()) {
    const run: Runner = (steps) => ask.run(partOf(done, parts.length, steps));
    const { text = '', extension } = await part.write({ ...ask, run });
    files.push({ name: `${baseOf(uri)}.${part.name}${extension}`, title: part.title, text });
  }
  return files;
}

/** Says at its begin how many are done: a part by itself may say nothing. */
function* partOf<T>(done: number, count: number, steps: Steps<T>): Steps<T> {
  yield done / count;
  return yield* share(done / count, (done + 1) / count, steps);
}

const baseOf = (uri: string): string => Utils.basename(URI.parse(uri)).replace(/\.planish$/i, '') || 'build';

/** As on the command line too: `sallet.cut-list.html`. */
function* fileOf(uri: string, what: string, { extension, bytes, text, leftOut }: Written): Steps<PaperFile> {
  const name = `${baseOf(uri)}.${what}${extension}`;
  const without = leftOut?.length ? { leftOut } : {};
  return bytes ? { name, base64: yield* base64Of(bytes), ...without } : { name, text: text ?? '', ...without };
}

function* base64Of(bytes: Uint8Array): Steps<string> {
  const parts: string[] = [];
  // A whole PDF at once would be more arguments than a call can take. Three bytes are four letters.
  for (let at = 0; at < bytes.length; at += 0x6000) {
    if (parts.length % PARTS_AT_ONCE === PARTS_AT_ONCE - 1) yield undefined;
    parts.push(btoa(String.fromCharCode(...bytes.subarray(at, at + 0x6000))));
  }
  return parts.join('');
}

const PARTS_AT_ONCE = 20;
