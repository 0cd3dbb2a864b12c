import { type JsonObject, plotlyScript } from "@bothtacks/core/page";
import { painted } from "./painted.ts";
import { addressBeside, loaded, PLOTLY_BESIDE, plotlySource } from "./plotlySource.ts";

/** As much of plotly as figures need. */
export interface Plotly {
  readonly react: (place: HTMLElement, traces: unknown, layout: JsonObject, config: JsonObject) => unknown;
  readonly purge: (place: HTMLElement) => void;
}

declare global {
  var Plotly: Plotly | undefined;
  var plotlySteps: (() => Iterator<undefined, Plotly>) | undefined;
}

/** So long may the start of plotly keep the page at once, ms, and then its next module, of which the slowest takes 60. */
const AT_ONCE = 5;

/** When the page has done what waits: a timer would come four milliseconds later. */
const answered = (): Promise<void> =>
  new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(undefined);
  });

/** Runs a script that the browser reads beside the page's own work, which it does not for one that is written into the page. */
async function run(pieces: readonly string[]): Promise<void> {
  const address = URL.createObjectURL(new Blob([...pieces], { type: "text/javascript" }));
  await loaded(address).finally(() => URL.revokeObjectURL(address));
}

/** Takes steps, and lets the page answer in between; returns what the last one gives. */
async function inSteps<Last>(steps: Iterator<undefined, Last>): Promise<Last> {
  for (;;) {
    const begun = performance.now();
    while (performance.now() - begun < AT_ONCE) {
      const step = steps.next();
      if (step.done) return step.value;
    }
    await answered();
  }
}

/** Plotly takes its time to start: the words around a figure come first, and the page answers meanwhile. */
async function started(): Promise<Plotly> {
  await painted();
  const beside = addressBeside(PLOTLY_BESIDE);
  if (beside !== undefined) await loaded(beside);
  else await run(plotlyScript(await plotlySource()));
  if (globalThis.plotlySteps) globalThis.Plotly = await inSteps(globalThis.plotlySteps());
  if (!globalThis.Plotly) throw new Error("Plotly did not start.");
  return globalThis.Plotly;
}

/** A function that starts plotly when it is first called. */
export function plotlyLoader(): () => Promise<Plotly> {
  let starting: Promise<Plotly> | undefined;
  return () => {
    starting ??= started();
    return starting;
  };
}
