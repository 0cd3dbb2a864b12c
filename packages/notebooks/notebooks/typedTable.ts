/** What is wrong with a line of a table that someone typed; its message is for them. */
export class BadLine extends Error {}

/** The words of each line that has any, with its number from 1; words stand apart by spaces, tabs or semicolons. Never throws. */
export const linesOf = (
  text: string,
): readonly { readonly line: number; readonly words: readonly string[] }[] =>
  text
    .split("\n")
    .map((written, index) => ({ line: index + 1, words: written.trim().split(/[\s;]+/) }))
    .filter(({ words }) => words[0] !== "");

/** What a reader of tables gives, or in its stead what is wrong with a line. Throws nothing but what is no `BadLine`. */
export function orProblem<Table>(read: () => Table, none: Table): Table & { readonly problem: string } {
  try {
    return { ...read(), problem: "" };
  } catch (error) {
    if (error instanceof BadLine) return { ...none, problem: error.message };
    throw error;
  }
}
