// A thread from source: its program is TypeScript, which Node does not read by itself. No part of the published package.
import { fileURLToPath } from "node:url";
import { register } from "tsx/esm/api";

register({ tsconfig: fileURLToPath(new URL("../../tsconfig.node.json", import.meta.url)) });
await import("./logThread.ts");
