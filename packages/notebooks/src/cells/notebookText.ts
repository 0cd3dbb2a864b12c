import type { MarkdownIt, Token } from "markdown-it";
import { CellProblem } from "./cellProblem.ts";
import { codeMarkup, MATHS, mathsMarkup, notebookMarkdown, VALUE } from "./markdown.ts";

/** A piece of TypeScript, as it stands in the Markdown. */
export interface CellText {
  /** A fence, or an expression in prose. */
  readonly kind: "fence" | "value";
  readonly code: string;
  /** Where the code begins in the Markdown; both from 1. */
  readonly line: number;
  readonly column: number;
  /** Whether the reader may unfold the code. */
  readonly isFoldable: boolean;
}

export interface NotebookText {
  readonly title: string;
  readonly cells: readonly CellText[];
  /** The page's body, in which elements with `data-cell="n"` are the places of the cells. */
  readonly body: string;
  readonly hasMaths: boolean;
}

/** First line, from 0, and the line after the last. */
type Lines = readonly [number, number];

/** Finds the cells of a notebook from top to bottom. */
class Reader {
  readonly cells: CellText[] = [];
  /** The cell of a token. */
  readonly places = new Map<Token, number>();
  private readonly lines: readonly string[];
  /** Where the last value in prose ended; both from 0. */
  private line = 0;
  private column = 0;

  constructor(
    private readonly file: string,
    text: string,
  ) {
    this.lines = text.split("\n");
  }

  problem([first]: Lines, words: string): CellProblem {
    return new CellProblem(this.file, first + 1, 1, words);
  }

  fence(token: Token, lines: Lines): void {
    const mark = token.info.trim();
    if (!/^ts\b/.test(mark)) return;
    if (mark !== "ts" && mark !== "ts hidden")
      throw this.problem(lines, `a cell is marked "ts" or "ts hidden", not "${mark}"`);
    if (token.level > 0)
      throw this.problem(lines, "a cell must stand by itself, not within a list or a quotation");
    const isFoldable = mark === "ts";
    this.add(token, { kind: "fence", code: token.content, line: lines[0] + 2, column: 1, isFoldable });
  }

  inline(token: Token, lines: Lines): void {
    if (token.type === VALUE) this.value(token, lines);
    if (token.type === MATHS) this.maths(token, lines);
  }

  private value(token: Token, lines: Lines): void {
    const [first, last] = lines;
    if (first > this.line) [this.line, this.column] = [first, 0];
    const written = `{{${token.content}}}`;
    for (; this.line < last; this.line += 1, this.column = 0) {
      const at = this.lines[this.line]!.indexOf(written, this.column);
      if (at < 0) continue;
      this.column = at + written.length;
      const place = { line: this.line + 1, column: at + 3, isFoldable: false };
      this.add(token, { kind: "value", code: token.content, ...place });
      return;
    }
    throw this.problem(lines, `${written.replaceAll("\n", " ")} must stand on one line of the text`);
  }

  private maths(token: Token, lines: Lines): void {
    try {
      token.content = mathsMarkup(token.content, token.markup === "$$");
    } catch (error) {
      throw this.problem(lines, error instanceof Error ? error.message : String(error));
    }
  }

  private add(token: Token, cell: CellText): void {
    this.places.set(token, this.cells.push(cell) - 1);
  }
}

function read(reader: Reader, tokens: readonly Token[]): void {
  let lines: Lines = [0, 0];
  for (const token of tokens) {
    lines = token.map ?? lines;
    if (token.type === "fence") reader.fence(token, lines);
    for (const child of token.children ?? []) reader.inline(child, lines);
  }
}

function withPlaces(markdown: MarkdownIt, { places, cells }: Reader): void {
  const { rules } = markdown.renderer;
  rules.fence = (tokens, index) => {
    const token = tokens[index]!;
    const cell = places.get(token);
    const code = codeMarkup(markdown.utils.escapeHtml(token.content));
    if (cell === undefined) return code;
    const { isFoldable, line } = cells[cell]!;
    const foldable = isFoldable
      ? `<details class="code" open><summary>Cell of line ${line}</summary>${code}</details>`
      : "";
    return `<div class="cell" data-cell="${cell}"></div>${foldable}\n`;
  };
  rules[VALUE] = (tokens, index) => `<span class="value" data-cell="${places.get(tokens[index]!)}">…</span>`;
  rules[MATHS] = (tokens, index) => tokens[index]!.content;
}

/** The words of the first heading of the first level. */
function titleIn(tokens: readonly Token[]): string | undefined {
  const at = tokens.findIndex(({ type, tag }) => type === "heading_open" && tag === "h1");
  return at < 0 ? undefined : tokens[at + 1]?.content;
}

/**
 * A notebook's title, cells and body.
 *
 * @param text Markdown
 * @param file the notebook's path, for what is said of it
 * @throws CellProblem where the main heading is missing, a cell stands or is marked wrongly, or a formula is wrong
 */
export function notebookText(text: string, file: string): NotebookText {
  const markdown = notebookMarkdown();
  const tokens = markdown.parse(text, {});
  const title = titleIn(tokens);
  if (title === undefined) throw new CellProblem(file, 1, 1, "a notebook has a heading of the first level");
  const reader = new Reader(file, text);
  read(reader, tokens);
  withPlaces(markdown, reader);
  return {
    title,
    cells: reader.cells,
    body: markdown.renderer.render(tokens, markdown.options, {}),
    hasMaths: tokens.some(({ children }) => children?.some(({ type }) => type === MATHS)),
  };
}
