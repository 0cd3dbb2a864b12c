import { fork } from "node:child_process";
import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";

/** Tells a process of its own that it is to do tasks as they are sent. */
const WORKS = "--does-tasks";

/** A process takes one task after the other as they are asked for. */
function tasksInProcess<Task extends object, Result>(
  script: string,
  next: () => Task | undefined,
  take: (task: Task, result: Result) => void,
) {
  return new Promise<void>((resolve, reject) => {
    const child = fork(fileURLToPath(script), [WORKS], { serialization: "advanced" });
    const ask = (): Task | undefined => {
      const task = next();
      if (task === undefined) child.disconnect();
      else child.send(task);
      return task;
    };
    let now = ask();
    child.on("message", (result) => {
      take(now!, result as Result);
      process.stderr.write(".");
      now = ask();
    });
    child.on("error", reject);
    child.on("exit", (code) => {
      if (code === 0) resolve();
      else reject(new Error(`${script}: a process ended with ${code} at ${JSON.stringify(now)}`));
    });
  });
}

/**
 * Does tasks in as many processes as there are cores, each of which runs a script that calls `doTasks`.
 *
 * @param script `import.meta.url` of that script
 * @returns the results in the order of the tasks
 */
export async function inProcesses<Task extends object, Result>(
  script: string,
  tasks: readonly Task[],
): Promise<readonly Result[]> {
  const found = new Map<Task, Result>();
  let at = 0;
  await Promise.all(
    Array.from({ length: availableParallelism() }, () =>
      tasksInProcess<Task, Result>(
        script,
        () => tasks[at++],
        (task, result) => found.set(task, result),
      ),
    ),
  );
  return tasks.map((task) => found.get(task)!);
}

/** Where the script runs as one of those processes: does each task that is sent, and sends back what it found. */
export function doTasks<Task>(script: string, work: (task: Task) => unknown): void {
  if (process.argv[1] === fileURLToPath(script) && process.argv.includes(WORKS))
    process.on("message", (task) => {
      process.send!(work(task as Task));
    });
}
