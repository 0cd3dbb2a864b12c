import { execFile } from "node:child_process";
import { mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { basename, dirname, join, resolve } from "node:path";
import { CellProblem } from "../cells/cellProblem.ts";
import { readNotebook } from "../cells/notebook.ts";
import { tangled } from "../cells/tangled.ts";
import { HERE } from "./bundle.ts";

const require = createRequire(import.meta.url);

/** What cells know without importing it. */
const WORDS = `import type { CellWords } from "@bothtacks/notebooks";
declare global {
  const ask: CellWords["ask"];
  const show: CellWords["show"];
  const signal: CellWords["signal"];
}
`;

/** A cell may declare what no other uses, and import what lies beside its Markdown. */
const configFor = (folders: readonly string[]) => ({
  extends: "../../tsconfig.json",
  compilerOptions: {
    noUnusedLocals: false,
    noUnusedParameters: false,
    skipLibCheck: true,
    rootDirs: [".", ...folders],
  },
  include: ["*.ts"],
});

/** All that the compiler says of a folder. */
function compilersWords(folder: string): Promise<string> {
  const compiler = join(dirname(require.resolve("typescript/package.json")), "bin", "tsc");
  const args = [compiler, "-p", folder, "--pretty", "false"];
  return new Promise((resolve, reject) => {
    execFile(process.execPath, args, { cwd: folder, maxBuffer: 2 ** 26 }, (error, output, trouble) => {
      if (error && output === "") reject(new Error(`The compiler failed: ${trouble || error.message}`));
      else resolve(output);
    });
  });
}

/** A complaint of the compiler: file, line, column, words; more words may follow on indented lines. */
const COMPLAINT = /^(.+?)\((\d+),(\d+)\): error (TS\d+: .*(?:\n[ \t]+.*)*)$/gm;

/** The complaints, at their places in the Markdown: the tangled file has them at the same line and column. */
function problemsIn(output: string, files: ReadonlyMap<string, string>): readonly CellProblem[] {
  const complaints = [...output.matchAll(COMPLAINT)];
  const problems = complaints.flatMap(([, tangledFile = "", line, column, words = ""]) => {
    const file = files.get(basename(tangledFile));
    return file === undefined ? [] : [new CellProblem(file, Number(line), Number(column), words)];
  });
  if (problems.length < complaints.length || (problems.length === 0 && output.trim() !== ""))
    throw new Error(`The compiler complains of more than cells:\n${output}`);
  return problems;
}

/** A notebook as one file of TypeScript. */
interface Tangled {
  readonly file: string;
  readonly code: string;
}

async function read(file: string): Promise<Tangled | CellProblem> {
  try {
    const { cells } = readNotebook(await readFile(file, "utf8"), file);
    return { file, code: `${tangled(cells)}export {};\n` };
  } catch (error) {
    if (error instanceof CellProblem) return error;
    throw error;
  }
}

async function typeProblems(all: readonly Tangled[]): Promise<readonly CellProblem[]> {
  await mkdir(join(HERE, "dist"), { recursive: true });
  // no folder whose name begins with a dot: the compiler would find nothing in it, and say nothing
  const folder = await mkdtemp(join(HERE, "dist", "cells-"));
  try {
    const named = all.map(({ file, code }, index) => ({ name: `${index}.ts`, file, code }));
    const folders = [...new Set(all.map(({ file }) => dirname(resolve(file))))];
    await writeFile(join(folder, "tsconfig.json"), JSON.stringify(configFor(folders)));
    await writeFile(join(folder, "words.d.ts"), WORDS);
    for (const { name, code } of named) await writeFile(join(folder, name), code);
    return problemsIn(await compilersWords(folder), new Map(named.map(({ name, file }) => [name, file])));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/**
 * What is wrong with the cells of notebooks: cells that cannot be read or linked, and the compiler's complaints, each at its
 * line and column in the Markdown.
 *
 * @param files paths of Markdown
 * @throws Error where the compiler cannot be run or complains of something else
 */
export async function cellProblems(files: readonly string[]): Promise<readonly CellProblem[]> {
  const all = await Promise.all(files.map(read));
  const problems = all.filter((one) => one instanceof CellProblem);
  const readable = all.filter((one): one is Tangled => !(one instanceof CellProblem));
  return [...problems, ...(readable.length > 0 ? await typeProblems(readable) : [])];
}
