import { element } from "../inputs/labelled.ts";

const KINDS: Readonly<Record<string, string>> = {
  json: "application/json",
  csv: "text/csv",
  html: "text/html",
};

/** Time for the browser to begin: it reads the text after the click, ms. */
const LONG_ENOUGH = 10_000;

/** Hands a text to the reader as a file to keep. */
export function save(name: string, text: string): void {
  const type = `${KINDS[name.split(".").at(-1) ?? ""] ?? "text/plain"};charset=utf-8`;
  const address = URL.createObjectURL(new Blob([text], { type }));
  element("a", { href: address, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(address), LONG_ENOUGH);
}
