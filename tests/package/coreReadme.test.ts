/** The library's own README: its examples are run, one after another, and print what it shows. */
import { execFile } from "node:child_process";
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { describe, expect, it } from "vitest";

const run = promisify(execFile);
const readme = await readFile(new URL("../../packages/core/README.md", import.meta.url), "utf8");
const examples = [...readme.matchAll(/```js\n([\s\S]*?)```\s*```text\n([\s\S]*?)```/g)];

describe("the library's README", () => {
  it("shows an output with each of its examples", () => {
    expect(examples.length).toBeGreaterThanOrEqual(3);
    expect(examples.length).toBe([...readme.matchAll(/```js\n/g)].length);
  });

  it.each(examples.map(([, code, output]) => ({ code, output })))(
    "prints $output",
    async ({ code, output }) => {
      const options = ["--conditions=bothtacks-source", "--import", "tsx", "--input-type=module"];
      const { stdout } = await run(process.execPath, [...options, "--eval", String(code)], {
        cwd: fileURLToPath(new URL("..", import.meta.url)),
      });
      expect(stdout).toBe(output);
    },
  );
});
