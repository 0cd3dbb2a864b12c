/** The house is built in one direction: a module imports only from itself and from those above it. */
import { readdir, readFile } from "node:fs/promises";
import { dirname, relative, resolve, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const source = fileURLToPath(new URL("../../packages/core/src/", import.meta.url));

/** From the top down; a name is that of a folder or of a file without its ending. */
const ORDER: readonly string[] = [
  "units",
  "angles",
  "circular",
  "physics",
  "sensors",
  "recording",
  "calibration",
  "sailing",
  "live",
  "simulate",
  "fit",
  "judge",
  "report",
  "job",
  "index",
  "entries",
  "node",
  "cli",
];

const rankOf = (path: string): number => {
  const [top = ""] = relative(source, path).split(sep);
  return ORDER.indexOf(top.replace(/\.ts$/, ""));
};

/** What a file's text imports, re-exports or loads: static, types too, and dynamic. */
const importsOf = (text: string): readonly string[] =>
  [
    ...text.matchAll(
      /^\s*(?:import|export)\s(?:[^"';]*?\sfrom\s)?["']([^"']+)["']|\bimport\(\s*["']([^"']+)["']/gm,
    ),
  ].map(([, fixed, dynamic]) => fixed ?? dynamic ?? "");

interface Import {
  readonly file: string;
  readonly specifier: string;
}

const files = (await readdir(source, { recursive: true }))
  .filter((name) => name.endsWith(".ts"))
  .map((name) => resolve(source, name));

const imports: readonly Import[] = (
  await Promise.all(
    files.map(async (file) =>
      importsOf(await readFile(file, "utf8")).map((specifier) => ({ file, specifier })),
    ),
  )
).flat();

const inWords = ({ file, specifier }: Import): string => `${relative(source, file)} imports ${specifier}`;

describe("imports of the library", () => {
  it("are found in all their forms", () => {
    const text = `import type { A } from "./a.ts";
      import {
        b,
      } from "./b.ts";
      export * from './c.ts';
      import "./d.ts";
      const e = await import("./e.ts");
      // from "./f.ts"
      const words = "import g";`;
    expect(importsOf(text)).toEqual(["./a.ts", "./b.ts", "./c.ts", "./d.ts", "./e.ts"]);
    expect(imports.length).toBeGreaterThan(files.length);
  });

  it("every file has its place in the order", () => {
    expect(files.filter((file) => rankOf(file) === -1)).toEqual([]);
  });

  it("go only upwards", () => {
    const downwards = imports.filter(
      ({ file, specifier }) =>
        specifier.startsWith(".") && rankOf(resolve(dirname(file), specifier)) > rankOf(file),
    );
    expect(downwards.map(inWords)).toEqual([]);
  });

  it("name files that exist", () => {
    const known = new Set(files);
    const lost = imports.filter(
      ({ file, specifier }) => specifier.startsWith(".") && !known.has(resolve(dirname(file), specifier)),
    );
    expect(lost.map(inWords)).toEqual([]);
  });

  it("ask for Node only in node/ and cli/", () => {
    const first = ORDER.indexOf("node");
    const outside = imports.filter(
      ({ file, specifier }) => specifier.startsWith("node:") && rankOf(file) < first,
    );
    expect(outside.map(inWords)).toEqual([]);
  });
});
