import { shown } from "./shown.ts";

/**
 * Markup that escapes by itself: whatever is put into the template is text, unless it is markup already. So nothing from
 * a log or a boat file can become part of the page.
 */
export interface Markup {
  readonly markup: string;
}

type Part = Markup | string | number | readonly Markup[];

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Text as it stands in markup, between tags or in a quoted attribute; what would act rather than show, by its code. Never throws. */
export const escaped = (text: string): string =>
  shown(text).replace(/[&<>"']/g, (sign) => ENTITIES[sign] ?? sign);

function markupOf(part: Part): string {
  if (typeof part === "string" || typeof part === "number") return escaped(String(part));
  return "markup" in part ? part.markup : part.map(markupOf).join("");
}

/** Template tag: the literal parts are markup, what is put in is escaped. Never throws. */
export const html = (literals: TemplateStringsArray, ...parts: readonly Part[]): Markup => ({
  markup: literals
    .map((literal, index) => literal + (index < parts.length ? markupOf(parts[index]!) : ""))
    .join(""),
});

export const NOTHING: Markup = { markup: "" };

/**
 * Source text that may stand in an inline classic script: what would end the script or open a comment in it is written
 * with a backslash, which means the same inside a string of JavaScript. Never throws.
 */
export const insideScript = (source: string): string =>
  source.replace(/<(?=\/script)/gi, "<\\").replace(/<!--/g, "<\\!--");

/** A value as JSON that may stand in an inline script element; NaN becomes null. Never throws for plain data. */
export const jsonInsideScript = (value: unknown): string => JSON.stringify(value).replace(/</g, "\\u003c");
