/**
 * Writes the files of datasets/demo anew, the same to the last byte:
 * node --conditions=bothtacks-source --import tsx scripts/makeDemo.ts
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { demoFiles } from "./demo.ts";

const folder = new URL("../datasets/demo/", import.meta.url);

mkdirSync(folder, { recursive: true });
for (const [name, content] of Object.entries(demoFiles())) writeFileSync(new URL(name, folder), content);
