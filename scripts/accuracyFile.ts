import { readFileSync, writeFileSync } from "node:fs";

const file = new URL("../packages/core/docs/accuracy.md", import.meta.url);

/** Puts a section (from its "## " heading on) into accuracy.md: in the place of the one of that heading, else at the end. */
export function writeSection(section: string): void {
  const [heading = ""] = section.split("\n");
  const text = readFileSync(file, "utf8");
  const from = text.indexOf(`${heading}\n`);
  const next = text.indexOf("\n## ", from + heading.length);
  const [before, after] =
    from < 0 ? [text.trimEnd(), ""] : [text.slice(0, from).trimEnd(), next < 0 ? "" : text.slice(next)];
  writeFileSync(file, `${before}\n\n${section.trimEnd()}\n${after}`);
}
