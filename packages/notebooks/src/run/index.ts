// What runs a notebook without a page.

export type { Names, Notebook } from "./notebook.ts";
export { type CellRecord, type HeadlessRun, runNotebook } from "./runNotebook.ts";
