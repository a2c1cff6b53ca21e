// A server that ends by itself, or is ended because it hangs, is started again, and told every text as it is typed. One that
// does so over and over is left alone, and it is said how to start it.
import * as vscode from 'vscode';
import { CloseAction, type CloseHandlerResult, ErrorAction, type ErrorHandler } from 'vscode-languageclient';
import type { Hang } from './watch.ts';

/** So many ends within so long, ms, and it is left alone. */
const MOST = 5;
const WITHIN = 3 * 60_000;

export class Crashes implements ErrorHandler {
  private ends: number[] = [];
  private word: string | undefined;
  private hang: Hang | undefined;

  /** `startedAnew` hears of one that hung, and why it was given up. */
  constructor(private readonly startedAnew: (why: string) => void = () => undefined) {}

  /** What was said when it was left alone: the editor offers no way to read it back. */
  lastWord(): string | undefined {
    return this.word;
  }

  /** Whoever starts it by hand starts counting anew. */
  forget(): void {
    this.ends = [];
    this.word = undefined;
  }

  /** The end that comes next is our doing, since the server does not answer. */
  hangs(hang: Hang): void {
    this.hang = hang;
  }

  /**
   * What cannot be written to a server that has just ended is no news of its own, however many keys are typed before that is
   * noticed: who took the fourth for a reason to shut it down would not see it start again.
   */
  error() {
    return { action: ErrorAction.Continue, handled: true };
  }

  closed(): CloseHandlerResult {
    const now = Date.now();
    this.ends = [...this.ends.filter((end) => now - end <= WITHIN), now];
    const { hang } = this;
    this.hang = undefined;
    if (this.ends.length < MOST) {
      const why = hang
        ? silence(hang)
        : vscode.l10n.t('The language server has ended by itself, and is started again.');
      if (hang) this.startedAnew(why);
      return { action: CloseAction.Restart, handled: true, message: why };
    }
    this.word = vscode.l10n.t(
      'The language server of Planish has ended or hung {0} times within 3 minutes and is not started again. Until it is, specs show no problems and no figures.',
      MOST,
    );
    void this.offerRestart(this.word);
    return { action: CloseAction.DoNotRestart, handled: true, message: this.word };
  }

  private async offerRestart(word: string): Promise<void> {
    const restart = vscode.l10n.t('Restart');
    const answer = await vscode.window.showErrorMessage(word, restart);
    if (answer === restart) await vscode.commands.executeCommand('planish.restartServer');
  }
}

/** How it hung, and on what: that is what somebody needs to find out why. */
function silence({ seconds, last, open }: Hang): string {
  const none = vscode.l10n.t('nothing');
  return vscode.l10n.t(
    'The language server has not answered for {0} s, and was ended and started again. What it heard last: {1}. What it had not answered: {2}.',
    seconds,
    last ?? none,
    open.join(', ') || none,
  );
}
