import { workerFor } from "../worker/workerFor.ts";
import { fitOfAfternoon, type SimulatedAfternoon, type SimulatedFit } from "./simulatedFit.ts";
import FitWorker from "./simulatedFit.worker.ts?worker&inline";

export type { FoundSetting, SimulatedAfternoon, SimulatedFit } from "./simulatedFit.ts";

/**
 * What the library's fit makes of an invented afternoon; on a page a worker does it, in Node it is done at once.
 *
 * @param signal calls it off
 * @throws the signal's reason when aborted
 */
export async function simulatedFit(
  afternoon: SimulatedAfternoon,
  signal: AbortSignal,
): Promise<SimulatedFit> {
  if (typeof document === "undefined") return fitOfAfternoon(afternoon);
  const { ended, close } = workerFor<SimulatedAfternoon, { kind: "fit"; result: SimulatedFit }>(
    () => new FitWorker(),
  );
  try {
    return (await ended(afternoon, { signal })).result;
  } finally {
    close();
  }
}
