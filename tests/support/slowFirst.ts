import { BaseSequencer, type TestSpecification } from "vitest/node";

/**
 * What takes longest and waits most, for other programs and for a browser: begun first, so that all cores come to an end together. For the others
 * it is what vitest knows of earlier runs, and their size where it knows none.
 */
const FIRST = [
  "package/outside",
  "browser/yourBoat",
  "browser/notebooks",
  "notebooks/yourBoatBench",
  "browser/report",
  "cli/crash",
  "cli/secondRound",
  "notebooks/engineBothTacks",
  "recovery/comesToRest",
  "recovery/scoredBoats",
];

const placeOf = ({ moduleId }: TestSpecification): number => {
  const place = FIRST.findIndex((name) => moduleId.endsWith(`/${name}.test.ts`));
  return place < 0 ? FIRST.length : place;
};

/** The order in which vitest runs the files. */
export default class SlowFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    return sorted.toSorted((one, other) => placeOf(one) - placeOf(other));
  }
}
