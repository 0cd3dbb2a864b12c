import type { CellText } from "./notebookText.ts";

/**
 * The cells as one module of TypeScript in which everything has the line and the column that it has in the Markdown.
 * Values in prose stand as expressions: the double braces become `;(` and `);`. Never throws.
 */
export function tangled(cells: readonly CellText[]): string {
  const lines: string[] = [];
  const write = (code: string, line: number, column: number): void => {
    while (lines.length < line) lines.push("");
    lines[line - 1] = lines[line - 1]!.padEnd(column - 1) + code;
  };
  for (const { kind, code, line, column } of cells) {
    if (kind === "value") write(`;(${code});`, line, column - 2);
    else code.split("\n").forEach((text, index) => void write(text, line + index, column));
  }
  return `${lines.join("\n")}\n`;
}
