/** What is wrong with a notebook's text, and where. */
export class CellProblem extends Error {
  override readonly name = "CellProblem";

  /**
   * @param file the notebook's path
   * @param line in the Markdown, from 1
   * @param column from 1
   */
  constructor(
    readonly file: string,
    readonly line: number,
    readonly column: number,
    readonly words: string,
  ) {
    super(`${file}:${line}:${column}: ${words}`);
  }
}
