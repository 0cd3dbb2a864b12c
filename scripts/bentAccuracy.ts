/**
 * Writes the sections of packages/core/docs/accuracy.md on bent physics and on the open recordings' halves, by themselves:
 * node --conditions=bothtacks-source --import tsx scripts/bentAccuracy.ts [BOATS]
 */
import { writeSection } from "./accuracyFile.ts";
import { bentSection } from "./bentClasses.ts";
import { halvesSection } from "./recordedHalves.ts";

const [boats = "16"] = process.argv.slice(2);
if (!(Number.isInteger(Number(boats)) && Number(boats) > 0))
  throw new RangeError(`bentAccuracy: how many boats must be a whole number from 1 on, got ${boats}`);
writeSection(await bentSection(Number(boats)));
writeSection(await halvesSection());
