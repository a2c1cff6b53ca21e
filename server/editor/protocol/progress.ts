import {
  type CancellationToken,
  CancellationTokenSource,
  type Connection,
  WorkDoneProgressReporter,
} from 'vscode-languageserver';

export interface ProgressAsk {
  readonly title: string;
  /** The editor has said under which name it wants to be told. */
  readonly reporter?: WorkDoneProgressReporter | undefined;
  /** It takes it unasked too. */
  readonly creates?: boolean;
  /** False where nobody asked for the work, and nobody can take it back. */
  readonly cancellable?: boolean;
}

/** How much is done, from 0 to 1, and what with. */
export type Told = (share: number, what?: string) => void;

/** So long nobody wonders what is going on, ms. */
const PATIENCE = 700;

/**
 * Tells the editor how far long work has come: from its start where the editor has asked for it, and otherwise once it takes
 * long. Who takes it back there takes back the work.
 */
export async function withProgress<T>(
  connection: Connection,
  { title, reporter, creates = false, cancellable = true }: ProgressAsk,
  given: CancellationToken,
  work: (token: CancellationToken, told: Told) => Promise<T>,
): Promise<T> {
  const source = new CancellationTokenSource();
  const passedOn = given.onCancellationRequested(() => source.cancel());
  let shown: WorkDoneProgressReporter | undefined;
  let isOver = false;
  let percent = 0;
  const begin = (on: WorkDoneProgressReporter) => {
    shown = on;
    shown.begin(title, percent, undefined, cancellable);
  };
  const beginUnasked = async () => {
    const made = await connection.window.createWorkDoneProgress();
    made.token.onCancellationRequested(() => source.cancel());
    if (isOver) made.done();
    else begin(made);
  };
  let timer: ReturnType<typeof setTimeout> | undefined;
  if (reporter && !WorkDoneProgressReporter.isNullInstance(reporter)) begin(reporter);
  else if (creates) timer = setTimeout(() => void beginUnasked().catch(() => {}), PATIENCE);
  try {
    return await work(source.token, (share, what) => {
      const now = Math.floor(100 * share);
      if (now <= percent) return;
      percent = now;
      if (what === undefined) shown?.report(percent);
      else shown?.report(percent, what);
    });
  } finally {
    isOver = true;
    clearTimeout(timer);
    shown?.done();
    passedOn.dispose();
    source.dispose();
  }
}
