/** `pnpm schemas`: writes packages/core/schemas, one JSON Schema for each format of file and version. */
import { mkdir, writeFile } from "node:fs/promises";
import { fileSchemas } from "./fileSchemas.ts";

const folder = new URL("../packages/core/schemas/", import.meta.url);
await mkdir(folder, { recursive: true });
for (const [name, text] of fileSchemas()) await writeFile(new URL(name, folder), text);
