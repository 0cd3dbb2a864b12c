// What makes pages of notebooks; it runs in Node.

export { CellProblem } from "../cells/cellProblem.ts";
export { type BuiltPage, buildNotebooks } from "./buildNotebooks.ts";
export { HERE } from "./bundle.ts";
export { cellProblems } from "./cellProblems.ts";
export { CHANGES, NotebookSite, notebooksIn } from "./notebookSite.ts";
export { notebooks } from "./plugin.ts";
export { watched } from "./watched.ts";
