import { type Cell, cellOf, type PlacedName } from "./cell.ts";
import { CellProblem } from "./cellProblem.ts";
import { type NotebookText, notebookText } from "./notebookText.ts";

/** A cell that knows the names of others that it needs, each once. */
export interface LinkedCell extends Cell {
  readonly needs: readonly string[];
}

export interface ReadNotebook extends NotebookText {
  readonly file: string;
  readonly cells: readonly LinkedCell[];
}

/** Where a name is declared. */
interface Declared extends PlacedName {
  readonly cell: number;
  /** Imports belong to the whole notebook. */
  readonly isImport: boolean;
}

function declarations(cells: readonly Cell[], file: string): ReadonlyMap<string, Declared> {
  const all = new Map<string, Declared>();
  cells.forEach(({ declares, imports }, cell) => {
    const own = declares.map((name) => ({ ...name, cell, isImport: false }));
    const imported = imports.map((name) => ({ ...name, cell, isImport: true }));
    for (const one of [...imported, ...own]) {
      const { name, line, column } = one;
      const before = all.get(name);
      if (before)
        throw new CellProblem(file, line, column, `"${name}" is declared already on line ${before.line}`);
      all.set(name, one);
    }
  });
  return all;
}

/** Whether one cell needs another, by itself or through others. */
function reaches(from: number, to: number, needed: readonly (readonly number[])[]): boolean {
  const seen = new Set<number>();
  const waiting = [from];
  for (let cell = waiting.pop(); cell !== undefined; cell = waiting.pop()) {
    if (cell === to) return true;
    if (!seen.has(cell)) waiting.push(...needed[cell]!);
    seen.add(cell);
  }
  return false;
}

/** A cell sees what stands above it; with that no cell can need itself through others. */
function demandFromAbove(
  cells: readonly Cell[],
  declared: ReadonlyMap<string, Declared>,
  file: string,
): void {
  const needed = cells.map(({ refersTo }) => refersTo.flatMap(({ name }) => declared.get(name)?.cell ?? []));
  cells.forEach(({ refersTo }, cell) => {
    for (const { name, line, column } of refersTo) {
      const from = declared.get(name);
      if (!from || from.isImport || from.cell < cell) continue;
      const circle = reaches(from.cell, cell, needed) ? ", which needs this cell in turn: a circle" : "";
      const words = `"${name}" is declared below, on line ${from.line}${circle}; a cell sees what stands above it`;
      throw new CellProblem(file, line, column, words);
    }
  });
}

/**
 * A notebook whose cells know of each other.
 *
 * @param text Markdown
 * @param file the notebook's path, for what is said of it
 * @throws CellProblem where two cells declare one name, where a cell needs what stands below it (circles are of that
 *   kind), and as `notebookText` and `cellOf` do
 */
export function readNotebook(text: string, file: string): ReadNotebook {
  const read = notebookText(text, file);
  const cells = read.cells.map((cell) => cellOf(cell, file));
  const declared = declarations(cells, file);
  demandFromAbove(cells, declared, file);
  const isOfCells = (name: string): boolean => declared.get(name)?.isImport === false;
  const needs = ({ refersTo }: Cell): readonly string[] => [
    ...new Set(refersTo.map(({ name }) => name).filter(isOfCells)),
  ];
  return { ...read, file, cells: cells.map((cell) => ({ ...cell, needs: needs(cell) })) };
}
