// Runs the built command line, and leaves in a file how much memory (bytes, at most) and time of processors (s) it took:
// peak.mjs FILE COMMAND …
import { writeFileSync } from "node:fs";

const [, program, file, ...args] = process.argv;
process.argv = [process.argv[0], program, ...args];
process.on("exit", () => {
  const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();
  const processors = (userCPUTime + systemCPUTime) / 1e6;
  writeFileSync(file, JSON.stringify({ bytes: maxRSS * 1024, processors }));
});
await import("../../packages/core/dist/cli/main.js");
