import type { Outing } from "../packages/core/src/simulate/drawScenario.ts";
import { type ScoredBoat, scoredBoat, Unsolved } from "../tests/support/scoredSails.ts";
import { doTasks, inProcesses } from "./inProcesses.ts";

/** Boats that are fitted on days of the same kinds. */
export interface ScoredClass {
  readonly name: string;
  readonly days: readonly Outing[];
  /** Seed of the first boat; the others follow. */
  readonly first: number;
  readonly boats: number;
}

export interface ScoredOfClass {
  readonly of: ScoredClass;
  /** Those whose fit was solved. */
  readonly boats: readonly ScoredBoat[];
}

interface Task {
  readonly seed: number;
  readonly days: readonly Outing[];
}

/** Scores all boats of some classes, in as many processes as there are cores. */
export async function scoredClasses(classes: readonly ScoredClass[]): Promise<readonly ScoredOfClass[]> {
  const tasks = classes.flatMap(({ days, first, boats }) =>
    Array.from({ length: boats }, (_, place): Task => ({ seed: first + place, days })),
  );
  const boats = await inProcesses<Task, ScoredBoat | typeof UNSOLVED>(import.meta.url, tasks);
  return classes.map((of) => ({
    of,
    boats: boats.filter(
      (boat, at) => tasks[at]!.days === of.days && boat !== UNSOLVED,
    ) as readonly ScoredBoat[],
  }));
}

/** Sent for a boat whose fit was not solved. */
const UNSOLVED = "unsolved";

function scoredOrUnsolved({ seed, days }: Task): ScoredBoat | typeof UNSOLVED {
  try {
    return scoredBoat(seed, { days });
  } catch (error) {
    if (!(error instanceof Unsolved)) throw error;
    process.stderr.write(`\n${seed}, ${days.join(" and ")}: ${error.message}\n`);
    return UNSOLVED;
  }
}

doTasks(import.meta.url, scoredOrUnsolved);
