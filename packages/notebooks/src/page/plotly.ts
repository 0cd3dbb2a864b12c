import type { JsonObject } from "@bothtacks/core/page";

/** As much of plotly as figures need. */
export interface Plotly {
  readonly react: (place: HTMLElement, traces: unknown, layout: JsonObject, config: JsonObject) => unknown;
  readonly purge: (place: HTMLElement) => void;
}

declare global {
  var Plotly: Plotly | undefined;
}

/** Where the page keeps plotly: inside it as text that does not run, or in a file beside it. */
export const PLOTLY_INSIDE = "plotly-inside";
export const PLOTLY_BESIDE = "plotly-beside";

function script(): HTMLScriptElement {
  const element = document.createElement("script");
  const inside = document.getElementById(PLOTLY_INSIDE)?.textContent;
  const beside = document.querySelector<HTMLLinkElement>(`#${PLOTLY_BESIDE}`)?.href;
  if (inside) element.textContent = inside;
  else if (beside) element.src = beside;
  else throw new Error("This page was built without figures.");
  return element;
}

function load(): Promise<void> {
  return new Promise((resolve, reject) => {
    const element = script();
    element.onload = () => resolve();
    element.onerror = () => reject(new Error(`${element.src} cannot be loaded.`));
    document.head.append(element);
    if (element.src === "") resolve();
  });
}

/** A function that loads plotly, when first called, as a classic script: a module cannot be loaded from a file. */
export function plotlyLoader(): () => Promise<Plotly> {
  let loading: Promise<void> | undefined;
  return async () => {
    loading ??= load();
    await loading;
    if (!globalThis.Plotly) throw new Error("Plotly did not start.");
    return globalThis.Plotly;
  };
}
