import { compiled } from "../../packages/notebooks/src/cells/compiled.ts";
import { readNotebook } from "../../packages/notebooks/src/cells/notebook.ts";
import type { Notebook } from "../../packages/notebooks/src/run/notebook.ts";
import type { HeadlessRun } from "../../packages/notebooks/src/run/runNotebook.ts";

const FENCE = "```";

/** A notebook of these cells, one below the other. */
export const markdownOf = (...cells: readonly string[]): string =>
  `# Test\n${cells.map((cell) => `\n${FENCE}ts\n${cell}\n${FENCE}\n`).join("")}`;

/** A notebook that imports nothing, made from its text. */
export async function notebookOf(markdown: string): Promise<Notebook> {
  const code = await compiled(readNotebook(markdown, "test.md"));
  const made: { default: Notebook } = await import(
    /* @vite-ignore */ `data:text/javascript,${encodeURIComponent(code)}`
  );
  return made.default;
}

/** The number of that name. */
export function numberIn(run: HeadlessRun, name: string): number {
  const value = run.names()[name];
  if (typeof value !== "number") throw new TypeError(`${name} is no number but ${String(value)}`);
  return value;
}

/** How each cell's run ended, and where it failed the words. */
export const outcomes = (run: HeadlessRun): readonly string[] =>
  run.cells().map(({ outcome }) => {
    if (outcome?.status === "failed") return String(outcome.error);
    return outcome?.status === "held" ? `held by line ${outcome.line}` : (outcome?.status ?? "none");
  });
