import { parseSync } from "vite";
import { CellProblem } from "./cellProblem.ts";
import { freeNames } from "./freeNames.ts";
import type { CellText } from "./notebookText.ts";
import { declaredBy, isNode, nameOf, nodesIn, type SyntaxNode } from "./syntax.ts";

/** The names that every cell has without a declaration. */
const WORDS = ["ask", "show", "signal"];

/** In the Markdown; both from 1. */
interface Place {
  readonly line: number;
  readonly column: number;
}

/** A name where it stands. */
export interface PlacedName extends Place {
  readonly name: string;
}

/** A cell's text with what it declares and what it needs. */
export interface Cell extends CellText {
  readonly declares: readonly PlacedName[];
  /** Names bound by `import`. */
  readonly imports: readonly PlacedName[];
  /** Names declared as `const name = ask(…)`, in the order of the text. */
  readonly asks: readonly string[];
  /** References to what the cell does not declare; imports and globals are among them. */
  readonly refersTo: readonly PlacedName[];
  /** The code's import statements, and what is left where they are blanked out. */
  readonly importCode: string;
  readonly bodyCode: string;
}

/** A declaration `const name = ask(…)`. */
interface Ask {
  readonly statement: SyntaxNode;
  readonly id: SyntaxNode;
  readonly call: SyntaxNode;
}

function askIn(statement: SyntaxNode): readonly Ask[] {
  const [only, ...others] = nodesIn(statement.declarations);
  if (statement.type !== "VariableDeclaration" || !only || others.length > 0) return [];
  const [id, call] = [only.id, only.init];
  if (nameOf(id) === "" || !isNode(id) || !isNode(call)) return [];
  return call.type === "CallExpression" && nameOf(call.callee) === "ask" ? [{ statement, id, call }] : [];
}

const program = (body: readonly SyntaxNode[]): SyntaxNode => ({ type: "Program", start: 0, end: 0, body });

/** Reads one cell; what it says of it names the place in the Markdown. */
class CellReader {
  constructor(
    private readonly file: string,
    private readonly text: CellText,
  ) {}

  read(): Cell {
    const statements = this.statements();
    const imported = statements.filter(({ type }) => type === "ImportDeclaration");
    const own = statements.filter((statement) => !imported.includes(statement));
    for (const statement of own) this.demandPlain(statement);
    const [declares, imports] = [own.flatMap(declaredBy), imported.flatMap(declaredBy)];
    for (const name of [...declares, ...imports])
      if (WORDS.includes(nameOf(name)))
        throw this.problem(name.start, `"${nameOf(name)}" is a word that every cell has already`);
    const asks = own.flatMap(askIn);
    this.demandAsksAlone(own, asks);
    return {
      ...this.text,
      declares: declares.map(this.placed),
      imports: imports.map(this.placed),
      asks: asks.map(({ id }) => nameOf(id)),
      refersTo: freeNames(program(own))
        .map(this.placed)
        .filter(({ name }) => !WORDS.includes(name)),
      importCode: imported.map(({ start, end }) => this.text.code.slice(start, end)).join("\n"),
      bodyCode: imported.reduce(blankedOut, this.text.code),
    };
  }

  private statements(): readonly SyntaxNode[] {
    const { program: parsed, errors } = parseSync("cell.ts", this.text.code, {
      lang: "ts",
      sourceType: "module",
    });
    const [error] = errors;
    if (error) throw this.problem(error.labels[0]?.start ?? 0, error.message);
    const statements = nodesIn(parsed.body);
    if (this.text.kind === "value" && statements.map(({ type }) => type).join() !== "ExpressionStatement")
      throw this.problem(0, "a value in prose is one expression");
    return statements;
  }

  private demandPlain(statement: SyntaxNode): void {
    const { type, kind, start } = statement;
    if (type === "VariableDeclaration" && kind !== "const" && statement.declare !== true)
      throw this.problem(start, `a cell declares "const", functions and classes, not "${kind}"`);
    if (type.startsWith("Export"))
      throw this.problem(start, "a cell exports nothing: the cells below see what it declares");
  }

  /** `ask` stands nowhere but in declarations, and what it gives is not used where it is asked. */
  private demandAsksAlone(own: readonly SyntaxNode[], asks: readonly Ask[]): void {
    const others = own.filter((one) => !asks.some(({ statement }) => statement === one));
    const given = asks.flatMap(({ call }) => nodesIn(call.arguments));
    for (const name of freeNames(program([...others, ...given]))) {
      if (nameOf(name) === "ask")
        throw this.problem(name.start, "ask(…) stands alone to the right of: const name =");
      if (asks.some(({ id }) => nameOf(id) === nameOf(name)))
        throw this.problem(
          name.start,
          `"${nameOf(name)}" is asked in this cell, so only the cells below know it`,
        );
    }
  }

  private readonly placed = (name: SyntaxNode): PlacedName => ({
    name: nameOf(name),
    ...this.place(name.start),
  });

  private place(at: number): Place {
    const lines = this.text.code.slice(0, at).split("\n");
    const column = lines.at(-1)!.length + (lines.length === 1 ? this.text.column : 1);
    return { line: this.text.line + lines.length - 1, column };
  }

  private problem(at: number, words: string): CellProblem {
    const { line, column } = this.place(at);
    return new CellProblem(this.file, line, column, words);
  }
}

/** The code with a statement blanked out, its lines kept. */
const blankedOut = (code: string, { start, end }: SyntaxNode): string =>
  code.slice(0, start) + code.slice(start, end).replace(/[^\n]/g, " ") + code.slice(end);

/**
 * What a cell declares and needs.
 *
 * @param file the notebook's path, for what is said of it
 * @throws CellProblem where the cell cannot be read, or declares what a cell may not
 */
export const cellOf = (text: CellText, file: string): Cell => new CellReader(file, text).read();
