// The command line from source: `npm run --silent bothtacks -- COMMAND …`, in the folder that the user called from.
import { runFromSource } from "./fromSource.mjs";
import { callersFolder, setUp } from "./setUp.mjs";

await setUp({ silent: true });
await runFromSource();
process.chdir(callersFolder);
await import("../packages/core/src/cli/main.ts");
