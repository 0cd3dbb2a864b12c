import { register as registerHook } from "node:module";
import { fileURLToPath } from "node:url";

/** Lets this process import the project's TypeScript as it stands. Call it when the packages are installed. */
export async function runFromSource() {
  const { register } = await import("tsx/esm/api");
  register({ tsconfig: fileURLToPath(new URL("../packages/core/tsconfig.node.json", import.meta.url)) });
  registerHook("./sourceCondition.mjs", import.meta.url);
}
