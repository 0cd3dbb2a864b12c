import { parseArgs } from "node:util";
import type { LegCounts } from "./legCoverage.ts";

/** Sails at the level of legs, as asked for on the command line: `--sails`, `--faultless`, `--pairs`. @throws RangeError for no count */
export function legCounts(given: readonly string[]): LegCounts {
  const { values } = parseArgs({
    args: given.filter((argument) => argument !== "--"),
    options: {
      sails: { type: "string", default: "1000" },
      faultless: { type: "string", default: "400" },
      pairs: { type: "string", default: "12" },
    },
  });
  const count = (name: keyof typeof values): number => {
    const number = Number(values[name]);
    if (!Number.isInteger(number) || number < 1)
      throw new RangeError(`accuracy: --${name} must be a whole number from 1 on, got ${values[name]}`);
    return number;
  };
  return { sails: count("sails"), faultless: count("faultless"), pairs: count("pairs") };
}
