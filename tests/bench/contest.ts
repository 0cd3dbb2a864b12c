import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

/** One that does the job: a command that prints what it found, the seconds of its stages and its memory, as JSON. */
export interface Contestant {
  readonly name: string;
  readonly command: string;
  readonly options: readonly string[];
}

interface Printed {
  readonly found: Readonly<Record<string, number | readonly number[]>>;
  readonly seconds: Readonly<Record<string, number | readonly number[]>>;
  readonly megabytes: number;
}

/** The times of a stage over all rounds, s, ascending. */
export type Times = readonly number[];

export interface Performance {
  readonly name: string;
  /** Of each stage, and of the process from its start to its end ("whole process"). */
  readonly stages: ReadonlyMap<string, Times>;
  readonly megabytes: number;
  readonly found: Printed["found"];
}

export const WHOLE = "whole process";

export const besideThis = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

export const median = (times: Times): number => times[times.length >> 1] ?? Number.NaN;

/** The first Python that has some packages: that of BOTHTACKS_PYTHON, the one on the PATH, the system's own. */
export const pythonWith = (packages: string): string | undefined =>
  [process.env.BOTHTACKS_PYTHON, "python3", "/usr/bin/python3"].find(
    (command) => command && spawnSync(command, ["-c", `import ${packages}`]).status === 0,
  );

function ran({ name, command, options }: Contestant): Printed & { readonly whole: number } {
  const begin = performance.now();
  const { status, stdout, stderr } = spawnSync(command, options, { encoding: "utf8" });
  const whole = (performance.now() - begin) / 1000;
  if (status !== 0) throw new Error(`${name} failed:\n${stderr}`);
  return { ...(JSON.parse(stdout) as Printed), whole };
}

/** Whether numbers that both found agree to a share: two programs do not round alike. @throws Error also where they found nothing alike */
function requireAlike(one: Printed["found"], other: Printed["found"], share: number): void {
  const names = Object.keys(one).filter((name) => name in other);
  if (names.length === 0) throw new Error(`one found ${Object.keys(one)}, another ${Object.keys(other)}`);
  for (const name of names) {
    const [mine, theirs] = [[one[name]!].flat(), [other[name]!].flat()];
    mine.forEach((number, place) => {
      if (!(Math.abs(number - theirs[place]!) <= share * Math.max(1, Math.abs(number))))
        throw new Error(`${name}: one found ${mine}, another ${theirs}`);
    });
  }
}

/** Runs all in turn, round after round, and requires that they find the same. */
export function contest(
  contestants: readonly Contestant[],
  rounds: number,
  share: number,
): readonly Performance[] {
  const runs = contestants.map((): (Printed & { readonly whole: number })[] => []);
  for (let round = 0; round < rounds; round++)
    contestants.forEach((contestant, place) => {
      runs[place]!.push(ran(contestant));
    });
  const first = runs[0]![0]!.found;
  for (const run of runs.flat()) requireAlike(first, run.found, share);
  return contestants.map(({ name }, place) => {
    const own = runs[place]!;
    const times = (stage: string): Times =>
      own.flatMap(({ seconds }) => seconds[stage] ?? []).sort((one, other) => one - other);
    const stages = new Map(Object.keys(own[0]!.seconds).map((stage) => [stage, times(stage)]));
    stages.set(
      WHOLE,
      own.map(({ whole }) => whole).sort((one, other) => one - other),
    );
    return { name, stages, megabytes: Math.max(...own.map((run) => run.megabytes)), found: own[0]!.found };
  });
}
