/**
 * How often the 95 % intervals of the deliberate exercises hold the truth:
 * node --conditions=bothtacks-source --import tsx scripts/exerciseCoverage.ts [DRAWN [SIMULATED]] [--write]
 * With --write the section of packages/core/docs/accuracy.md is put in its place.
 */
import { writeSection } from "./accuracyFile.ts";
import { EXERCISE_COUNTS, exerciseSection } from "./exerciseSection.ts";

const { drawn: usual, simulated: usualSails } = EXERCISE_COUNTS;
const [drawn = usual, simulated = usualSails] = process.argv
  .slice(2)
  .filter((word) => word !== "--write")
  .map(Number);
const section = exerciseSection({ drawn, simulated });
process.stdout.write(`\n${section}`);
if (process.argv.includes("--write")) writeSection(section);
