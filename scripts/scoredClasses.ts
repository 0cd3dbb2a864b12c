import { fork } from "node:child_process";
import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import type { Outing } from "../packages/core/src/simulate/drawScenario.ts";
import { type ScoredBoat, scoredBoat, Unsolved } from "../tests/support/scoredSails.ts";

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

/** Tells a process of its own that it is to score boats. */
const SCORES = "--score-boats";

/** A process takes one boat after the other as they are asked for. */
function boatsInProcess(
  next: () => Task | undefined,
  take: (task: Task, boat: ScoredBoat | undefined) => void,
) {
  return new Promise<void>((resolve, reject) => {
    const child = fork(fileURLToPath(import.meta.url), [SCORES], { serialization: "advanced" });
    const ask = (): Task | undefined => {
      const task = next();
      if (task === undefined) child.disconnect();
      else child.send(task);
      return task;
    };
    let now = ask();
    child.on("message", (boat) => {
      take(now!, boat === UNSOLVED ? undefined : (boat as ScoredBoat));
      process.stderr.write(".");
      now = ask();
    });
    child.on("error", reject);
    child.on("exit", (code) => {
      if (code === 0) resolve();
      else reject(new Error(`scoredClasses: a process ended with ${code} at seed ${now?.seed}`));
    });
  });
}

/** Scores all boats of some classes, in as many processes as there are cores. */
export async function scoredClasses(classes: readonly ScoredClass[]): Promise<readonly ScoredOfClass[]> {
  const tasks = classes.flatMap(({ days, first, boats }) =>
    Array.from({ length: boats }, (_, place): Task => ({ seed: first + place, days })),
  );
  const found = new Map<Task, ScoredBoat | undefined>();
  let at = 0;
  await Promise.all(
    Array.from({ length: availableParallelism() }, () =>
      boatsInProcess(
        () => tasks[at++],
        (task, boat) => found.set(task, boat),
      ),
    ),
  );
  return classes.map((of) => ({
    of,
    boats: tasks
      .filter(({ days }) => days === of.days)
      .map((task) => found.get(task))
      .filter((boat) => boat !== undefined),
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

if (process.argv.includes(SCORES))
  process.on("message", (task) => {
    process.send!(scoredOrUnsolved(task as Task));
  });
