import { readFileSync } from "node:fs";
import * as z from "zod";

const packageSchema = z.object({ version: z.string() });

/** The version of this package, from its own package.json. */
export const VERSION: string = packageSchema.parse(
  JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8")),
).version;
