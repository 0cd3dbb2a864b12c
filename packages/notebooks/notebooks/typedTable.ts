/** What is wrong with a line of a table that someone typed; its message is for them. */
export class BadLine extends Error {}

/** The words of each line that has any, with its number from 1; words stand apart by spaces, tabs or semicolons, and a line with # before it is a note. Never throws. */
export const linesOf = (
  text: string,
): readonly { readonly line: number; readonly words: readonly string[] }[] =>
  text
    .split("\n")
    .map((written, index) => ({ line: index + 1, words: written.trim().split(/[\s;]+/) }))
    .filter(({ words: [first = ""] }) => first !== "" && !first.startsWith("#"));

/** So many times what a line was said to be good to is more than chance brings. */
const FAR = 3;

/** What to do when lines scatter by far more, over what they were said to be good to; empty where they do not. Never throws. */
export const slipWords = (scatter: number): string =>
  scatter > FAR
    ? `That is ${scatter.toFixed(0)} times what they were said to be good to: look for a slip in the lines.`
    : "";

/** What a reader of tables gives, or in its stead what is wrong with a line. Throws nothing but what is no `BadLine`. */
export function orProblem<Table>(read: () => Table, none: Table): Table & { readonly problem: string } {
  try {
    return { ...read(), problem: "" };
  } catch (error) {
    if (error instanceof BadLine) return { ...none, problem: error.message };
    throw error;
  }
}
