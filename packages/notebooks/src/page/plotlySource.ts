/** Where the page keeps plotly: inside it as text that does not run, or beside it as a script, and as another that hands over the text. */
export const PLOTLY_INSIDE = "plotly-inside";
export const PLOTLY_BESIDE = "plotly-beside";
export const PLOTLY_TEXT_BESIDE = "plotly-text-beside";

declare global {
  var plotlyText: string | undefined;
}

/** A script that hands over the text: from a file, a page can run another file but not read it. Never throws. */
export const plotlyAsText = (source: string): string => `plotlyText = ${JSON.stringify(source)};\n`;

/** The address of what lies beside the page; undefined where nothing does. Never throws. */
export const addressBeside = (id: string): string | undefined =>
  document.querySelector<HTMLLinkElement>(`#${id}`)?.href;

/** Runs a script. @throws Error naming the address, where it cannot be loaded */
export function loaded(address: string): Promise<void> {
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
  const beside = addressBeside(PLOTLY_TEXT_BESIDE);
  if (beside === undefined) throw new Error("This page was built without figures.");
  if (globalThis.plotlyText === undefined) await loaded(beside);
  if (globalThis.plotlyText === undefined) throw new Error(`${beside} holds no plotly.`);
  return globalThis.plotlyText;
}
