import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";

const require = createRequire(import.meta.url);

/** Names three kinds of font for each face; browsers of today take the first. */
const SOURCES = /src:\s*url\((fonts\/[^)]+\.woff2)\) format\("woff2"\)[^;}]*/g;

/**
 * The style sheet of formulas with the fonts inside it, so that it asks for no file.
 *
 * @throws Error where the package is not installed
 */
export async function katexStyle(): Promise<string> {
  const path = require.resolve("katex/dist/katex.min.css");
  const text = await readFile(path, "utf8");
  const names = [...text.matchAll(SOURCES)].map(([, name = ""]) => name);
  const fonts = new Map(
    await Promise.all(
      names.map(async (name) => [name, await readFile(join(dirname(path), name), "base64")] as const),
    ),
  );
  return text.replace(
    SOURCES,
    (_, name: string) => `src:url(data:font/woff2;base64,${fonts.get(name)}) format("woff2")`,
  );
}
