import { createHash } from "node:crypto";
import { readdirSync, readFileSync, statSync } from "node:fs";
import { endianness } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import * as z from "zod";

const CODE = fileURLToPath(new URL("..", import.meta.url));
const PACKAGE = fileURLToPath(new URL("../../package.json", import.meta.url));
const PROGRAM = /(?<!\.d)\.(ts|js)$/;

const packageSchema = z.object({ name: z.literal("@bothtacks/core") });

function identity(): string | undefined {
  try {
    const text = readFileSync(PACKAGE, "utf8");
    packageSchema.parse(JSON.parse(text));
    const names = readdirSync(CODE, { recursive: true, encoding: "utf8" });
    const files = names
      .filter((name) => PROGRAM.test(name))
      .sort()
      .map((name) => {
        const { size, mtimeMs } = statSync(join(CODE, name));
        return [name, size, mtimeMs];
      });
    const { v8 } = process.versions;
    return createHash("sha256")
      .update(JSON.stringify([text, v8, process.arch, endianness(), files]))
      .digest("hex")
      .slice(0, 32);
  } catch {
    return undefined;
  }
}

/**
 * What the program is known by since it was started: its package with the version, the engine (engines differ in the last bits of
 * sines and cosines), and size and time of change of each of its files, so that what another state of the program found is not
 * taken for this one's. Undefined where the program does not lie in its package, as in a bundle: then nothing can be kept.
 */
export const CODE_IDENTITY: string | undefined = identity();
