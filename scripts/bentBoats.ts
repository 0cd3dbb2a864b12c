/**
 * Boats in physics that the fit does not know: what it does to corrections and to their intervals, parameter by parameter.
 * node --conditions=bothtacks-source --import tsx scripts/bentBoats.ts FIRST_SEED [BOATS] [BEND…]
 */
import { bentTable } from "./bentClasses.ts";

const [first, boats = "16", ...bends] = process.argv.slice(2);
if (!Number.isInteger(Number(first ?? Number.NaN)) || !Number.isInteger(Number(boats)))
  throw new RangeError("give the first seed, and how many boats");
const { rows, details } = await bentTable(
  Number(first),
  Number(boats),
  bends.length > 0 ? ["nothing", ...bends] : undefined,
);
console.log([...details, ...rows].join("\n"));
