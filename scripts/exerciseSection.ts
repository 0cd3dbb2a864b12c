import { binomialTail } from "../tests/support/binomial.ts";
import { TYPED_CASES } from "./exerciseCases.ts";
import { LOGGED_CASES } from "./exerciseCasesLogged.ts";
import { WIND_CASES } from "./exerciseCasesWind.ts";
import type { ExerciseCase } from "./exerciseDraws.ts";
import { insistsTable } from "./exerciseInsists.ts";

/** How many of each: drawn by formulas, and simulated. */
export interface ExerciseCounts {
  readonly drawn: number;
  readonly simulated: number;
}

/** As accuracy.md has them. */
export const EXERCISE_COUNTS: ExerciseCounts = { drawn: 2000, simulated: 200 };

/** What intervals of 95 % are to hold, at least and at most. */
const [LEAST, MOST] = [0.93, 0.97];

/** All verdicts together are wrong by chance once in so many. */
const ALL_TESTS = 0.01;

interface Counted {
  readonly of: ExerciseCase;
  readonly drawn: number;
  readonly solved: number;
  readonly held: ReadonlyMap<string, number>;
}

function counted(of: ExerciseCase, drawn: number): Counted {
  const held = new Map<string, number>();
  let solved = 0;
  for (let trial = 0; trial < drawn; trial++) {
    const found = of.draw(trial);
    if (!found) continue;
    solved++;
    for (const [number, isHeld] of Object.entries(found))
      held.set(number, (held.get(number) ?? 0) + Number(isHeld));
  }
  process.stderr.write(".");
  return { of, drawn, solved, held };
}

type Verdict = "in" | "out by chance" | "too narrow" | "too wide";

/** Exact: whether a share of 93 to 97 % leaves the count found likelier than the level. */
function verdictOf(count: number, solved: number, level: number): Verdict {
  const share = count / solved;
  if (share >= LEAST && share <= MOST) return "in";
  if (share < LEAST)
    return 1 - binomialTail(count + 1, solved, LEAST) < level ? "too narrow" : "out by chance";
  return binomialTail(count, solved, MOST) < level ? "too wide" : "out by chance";
}

const percent = (share: number): string => (100 * share).toFixed(1);

function rowOf({ of, drawn, solved, held }: Counted, level: number): string {
  const numbers = [...held].map(([number, count]) => {
    const share = percent(count / solved);
    const verdict = of.isTold ? "in" : verdictOf(count, solved, level);
    const told = verdict === "in" || verdict === "out by chance" ? share : `**${share} ${verdict}**`;
    return `${number} ${told}`;
  });
  return `| ${of.name} | ${solved === drawn ? solved : `${solved} of ${drawn}`} | ${numbers.join(", ")} |`;
}

/** The section of accuracy.md on the deliberate exercises' intervals. */
export function exerciseSection({ drawn, simulated }: ExerciseCounts): string {
  const cases = [...TYPED_CASES, ...WIND_CASES, ...LOGGED_CASES].map((of) =>
    counted(of, of.isSimulated ? simulated : drawn),
  );
  const judged = cases
    .filter(({ of }) => !of.isTold)
    .flatMap(({ held, solved }) => [...held.values()].map((count) => ({ count, solved })));
  const level = ALL_TESTS / judged.length;
  const verdicts = judged.map(({ count, solved }) => verdictOf(count, solved, level));
  const number = (...wanted: readonly Verdict[]): number =>
    verdicts.filter((verdict) => wanted.includes(verdict)).length;
  return `## Intervals of the deliberate exercises (M121 to M134, M186 to M188)

**${number("in", "out by chance")} of ${judged.length} intervals pass: ${number("in")} held the truth 93 to 97 times in 100 as counted, ${number("out by chance")} not beyond it by more than chance** (exact binomial test against 93 and 97 %, 1 % for all together); too narrow ${number("too narrow")}, too wide ${number("too wide")},
in bold. Those typed are drawn ${drawn} times each from what their methods take for granted, scatter as M121 has it, in a stream of 2 kn at any phase of its tide, which turns during the runs. Those from a log
are ${simulated} simulated boats each, with a sea, a current that turns and wanders, lags, and faults in shapes that no fit knows (M70 to M79); the variation is off by 0.5°. \`node --conditions=bothtacks-source --import tsx scripts/exerciseCoverage.ts\` counts again.

| exercise | solved | the 95 % interval holds, % |
| --- | --- | --- |
${cases.map((one) => rowOf(one, level)).join("\n")}

${insistsTable(drawn)}

Leeway, heeling error and zeros found from sailing are the joint fit's: see the section on the level of legs.
`;
}
