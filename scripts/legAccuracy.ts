/**
 * Writes the section of packages/core/docs/accuracy.md on statistics at the level of legs, by itself:
 * node --conditions=bothtacks-source --import tsx scripts/legAccuracy.ts [--sails 1000] [--faultless 400] [--pairs 12]
 */
import { writeSection } from "./accuracyFile.ts";
import { legCounts } from "./legCounts.ts";
import { legCoverage } from "./legCoverage.ts";

writeSection(await legCoverage(legCounts(process.argv.slice(2))));
