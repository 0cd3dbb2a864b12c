import { PARAMETER_NAMES, type ParameterName } from "../packages/core/src/sensors/parameterNames.ts";
import { BENDS, type BentBoat, bentBoat } from "../tests/support/bentSails.ts";
import { meanOf, rootMeanSquare, Unsolved } from "../tests/support/scoredSails.ts";
import { doTasks, inProcesses } from "./inProcesses.ts";

interface Task {
  readonly seed: number;
  readonly bend: string;
}

/** Boats of one bend, in the order of their seeds; undefined where the fit was not solved. */
type Boats = readonly (BentBoat | undefined)[];

const HALF_WIDTH = 1.96;
const INFORMED = 0.5;

const standing = ({ error, sd }: { readonly error: number; readonly sd: number }): number => error / sd;

/** Standardised errors of a parameter where it was learnt. */
const errorsOf = (boats: Boats, at: number): readonly number[] =>
  boats.flatMap((boat) => {
    const one = boat?.parameters[at];
    return one === undefined || one.informed < INFORMED ? [] : [standing(one)];
  });

/** By how much the bend moved a parameter's error in the mean, in standard deviations, of boats where it was learnt. */
const shiftsOf = (boats: Boats, plain: Boats, at: number): readonly number[] =>
  boats.flatMap((boat, place) => {
    const [one, before] = [boat?.parameters[at], plain[place]?.parameters[at]];
    if (one === undefined || before === undefined || one.informed < INFORMED) return [];
    return [(one.error - before.error) / one.sd];
  });

/** The parameter that is learnt on half of the boats or more with the largest mean, and that. */
function worst(of: (at: number) => readonly number[], boats: number): string {
  const means = PARAMETER_NAMES.flatMap((name: ParameterName, at) => {
    const values = of(at);
    return values.length < boats / 2 ? [] : [{ name, mean: meanOf(values) }];
  });
  const most = means.toSorted((one, other) => Math.abs(other.mean) - Math.abs(one.mean))[0];
  return most === undefined
    ? "–"
    : `${most.mean > 0 ? "+" : "−"}${Math.abs(most.mean).toFixed(2)} (${most.name})`;
}

const share = (errors: readonly number[]): string =>
  `${errors.filter((error) => Math.abs(error) <= HALF_WIDTH).length} of ${errors.length}`;

const percent = (errors: readonly number[]): string =>
  `${((100 * errors.filter((error) => Math.abs(error) <= HALF_WIDTH).length) / errors.length).toFixed(0)} %`;

function rowOf(name: string, boats: Boats, plain: Boats): string {
  const solved = boats.filter((boat) => boat !== undefined);
  const pooled = PARAMETER_NAMES.flatMap((_, at) => errorsOf(boats, at));
  const gaps = solved.flatMap((boat) => boat.gaps);
  const sizes = [0, 1].map((point) =>
    meanOf(solved.map((boat) => Math.abs(boat.gaps[point]!.left))).toFixed(2),
  );
  const errors = gaps.map(({ left, expected }) => left / expected);
  return `| ${name} | ${solved.length} | ${worst((at) => errorsOf(boats, at), solved.length)} | ${
    boats === plain ? "" : worst((at) => shiftsOf(boats, plain, at), solved.length)
  } | ${percent(pooled)} | ${rootMeanSquare(pooled).toFixed(2)} | ${sizes.join(" | ")} | ${share(errors)} | ${
    solved.filter(({ legsDiffer }) => legsDiffer).length
  } |`;
}

/** What each parameter's errors are under each bend: mean and how often its interval holds. */
function detailOf(name: string, boats: Boats, plain: Boats): readonly string[] {
  return PARAMETER_NAMES.flatMap((parameter, at) => {
    const [errors, shifts] = [errorsOf(boats, at), shiftsOf(boats, plain, at)];
    if (errors.length === 0) return [];
    const shift = shifts.length === 0 ? "–" : meanOf(shifts).toFixed(2);
    return [
      `${name}: ${parameter}: mean ${meanOf(errors).toFixed(2)}, shift ${shift}, rms ${rootMeanSquare(errors).toFixed(2)}, holds ${share(errors)}`,
    ];
  });
}

export interface BentTable {
  readonly rows: readonly string[];
  readonly details: readonly string[];
}

/** Fits boats under each bend, and makes the table of their errors. */
export async function bentTable(
  first: number,
  boats: number,
  names: readonly string[] = BENDS.map(({ name }) => name),
): Promise<BentTable> {
  const tasks = names.flatMap((bend) =>
    Array.from({ length: boats }, (_, place): Task => ({ seed: first + place, bend })),
  );
  const found = await inProcesses<Task, BentBoat | typeof UNSOLVED>(import.meta.url, tasks);
  const of = (bend: string): Boats =>
    found.filter((_, at) => tasks[at]!.bend === bend).map((boat) => (boat === UNSOLVED ? undefined : boat));
  const plain = of(names[0]!);
  const classes = names.map((name) => ({ name, boats: name === names[0] ? plain : of(name) }));
  return {
    rows: classes.map((one) => rowOf(one.name, one.boats, plain)),
    details: classes.flatMap((one) => detailOf(one.name, one.boats, plain)),
  };
}

/** Seeds that were not used while the fit was made. */
const FIRST = 54001;

/** The section of accuracy.md on boats in bent physics. */
export async function bentSection(boats: number): Promise<string> {
  const { rows } = await bentTable(FIRST, boats);
  return `## Physics that the fit does not know (M177, M178)

${boats} simulated boats (seeds from ${FIRST}) with faults of every kind on an afternoon's racing, each sailed again with the simulator bent: upwash that is broad and falls off with the wind
(its largest at 55°, in 19 kn); a shore that turns the wind by up to 6° to either side; gusts with tails (h = 0.2); the wind 3 s late and smoothed over 6 s, boat speed 2 s and 8 s; a
compass that turns by 3°, or by 6° in the first half and is set back; a helm steered by the displayed angle; waves that take 3 % of her speed on starboard tack, give it back on port, make her slide 15 % more and less, and let her sail
1.5° wider and closer. Errors over standard deviations of the parameters that are learnt (informed share of one half at least): the largest *mean error* of any, the largest mean change that
the *bend* makes on the same boats, how often the 95 % intervals *hold* over all, and the rms over all. *Gaps*: starboard less port on another day without the bend, mean sizes upwind and off the wind
in degrees, and how many were within their 95 % interval. *Told*: on how many boats the fit says that legs differ more than it expects, and widens its intervals (M180).

| bent | boats | largest mean error, sd | by the bend, sd | hold | rms | upwind | off the wind | gaps within | told |
| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |
${rows.join("\n")}

\`scripts/bentBoats.ts SEED BOATS\` prints every parameter of others. A mean over ${boats} boats has a standard error of ${(1 / Math.sqrt(boats)).toFixed(2)}, and the largest of a dozen lies near twice that by chance.
`;
}

/** Sent for a boat whose fit was not solved. */
const UNSOLVED = "unsolved";

function bentOrUnsolved({ seed, bend }: Task): BentBoat | typeof UNSOLVED {
  try {
    return bentBoat(seed, BENDS.find(({ name }) => name === bend)!);
  } catch (error) {
    if (!(error instanceof Unsolved)) throw error;
    process.stderr.write(`\n${seed}, ${bend}: ${error.message}\n`);
    return UNSOLVED;
  }
}

doTasks(import.meta.url, bentOrUnsolved);
