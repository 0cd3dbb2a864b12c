/** Long work in steps: what each yields is the share of it that is done, 0 to 1; what it returns is the result. */
export type Steps<Result> = Generator<number, Result, undefined>;

/** Does all steps at once. @throws what a step throws */
export function finished<Result>(steps: Steps<Result>): Result {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** Until the tasks that wait have had their turn: events, timers, an abort among them. */
const aTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/**
 * Does the steps one at a time, and lets others have their turn between them.
 *
 * @param run told the share that is done after each step; its signal is asked before each
 * @throws the signal's reason when it is aborted; what a step throws
 */
export async function finishedInTurns<Result>(
  steps: Steps<Result>,
  run: { readonly progress?: (share: number) => void; readonly signal?: AbortSignal },
): Promise<Result> {
  for (;;) {
    run.signal?.throwIfAborted();
    const step = steps.next();
    if (step.done) return step.value;
    run.progress?.(step.value);
    await aTurn();
  }
}
