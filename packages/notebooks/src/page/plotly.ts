import type { JsonObject } from "@bothtacks/core/page";
import { painted } from "./painted.ts";
import { plotlyInSteps } from "./plotlyInSteps.ts";

/** As much of plotly as figures need. */
export interface Plotly {
  readonly react: (place: HTMLElement, traces: unknown, layout: JsonObject, config: JsonObject) => unknown;
  readonly purge: (place: HTMLElement) => void;
}

declare global {
  var Plotly: Plotly | undefined;
  var plotlyText: string | undefined;
  var plotlySteps: (() => Iterator<undefined, Plotly>) | undefined;
}

/** Where the page keeps plotly: inside it as text that does not run, or in a script beside it that hands over that text. */
export const PLOTLY_INSIDE = "plotly-inside";
export const PLOTLY_BESIDE = "plotly-beside";

/** The script beside the page: from a file, a page can run another file but not read it. Never throws. */
export const plotlyAsText = (source: string): string => `plotlyText = ${JSON.stringify(source)};\n`;

function loaded(address: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const element = document.createElement("script");
    element.src = address;
    element.onload = () => resolve();
    element.onerror = () => reject(new Error(`${address} cannot be loaded.`));
    document.head.append(element);
  });
}

/** The cells run while the rest of the page, plotly's text last, is still being read. */
function wholePage(): Promise<unknown> {
  if (document.readyState !== "loading") return Promise.resolve();
  return new Promise((resolve) => document.addEventListener("DOMContentLoaded", resolve, { once: true }));
}

/**
 * The source text of plotly as the page has it.
 *
 * @throws Error where the page was built without figures, or what lies beside it is gone
 */
export async function plotlySource(): Promise<string> {
  await wholePage();
  const inside = document.getElementById(PLOTLY_INSIDE)?.textContent;
  if (inside) return inside;
  const beside = document.querySelector<HTMLLinkElement>(`#${PLOTLY_BESIDE}`)?.href;
  if (beside === undefined) throw new Error("This page was built without figures.");
  if (globalThis.plotlyText === undefined) await loaded(beside);
  if (globalThis.plotlyText === undefined) throw new Error(`${beside} holds no plotly.`);
  return globalThis.plotlyText;
}

/** So long may the start of plotly keep the page at once, ms: a frame. */
const AT_ONCE = 16;

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
    await new Promise((resolve) => setTimeout(resolve));
  }
}

/** Plotly takes its time to start: the words around a figure come first, and the page answers meanwhile. */
async function started(): Promise<Plotly> {
  await painted();
  const source = await plotlySource();
  await run(plotlyInSteps(source) ?? [source]);
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
