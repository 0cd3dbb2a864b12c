import { PARAMETER_NAMES } from "../packages/core/src/sensors/parameterNames.ts";
import { binomialTail } from "../tests/support/binomial.ts";
import { type MeanBias, meanBias, pairedBias } from "../tests/support/legDays.ts";
import { DRAWN_WIDTH, LEG_CLASSES, type LegClass } from "../tests/support/legDraws.ts";
import { falseCorrections } from "../tests/support/legFaultless.ts";
import { type ScoredSail, scoredSail } from "../tests/support/legSails.ts";
import { familyLevel, MOST_OVER_BOUND, type NumberScore, scoresOf } from "../tests/support/legScores.ts";
import { doTasks, inProcesses } from "./inProcesses.ts";

type Task =
  | { readonly kind: "scored"; readonly of: LegClass; readonly number: number }
  | { readonly kind: "faultless"; readonly number: number }
  | { readonly kind: "days"; readonly boat: number; readonly days: number };

/** null where a fit was not solved: nothing else passes between processes as nothing. */
type Found = ScoredSail | NonNullable<ReturnType<typeof falseCorrections>> | readonly number[] | null;

/** How many sails: of each class, with nothing wrong, and pairs of boats over many days. */
export interface LegCounts {
  readonly sails: number;
  readonly faultless: number;
  readonly pairs: number;
}

/** Half the pooled sails' share of the level in tests of the faultless: one for each setting. */
const STATED = 0.05;
const ALL_TESTS = 0.01;
const MOST_BIAS = 0.2;
const [ONE_DAY, TEN_DAYS] = [1, 10];

const share = (part: number, of: number): string => `${((100 * part) / of).toFixed(1)} %`;
const marked = (text: string, fails: boolean): string => (fails ? `**${text}**` : text);
const signed = (value: number): string => `${value < 0 ? "−" : "+"}${Math.abs(value).toFixed(2)}`;

interface ClassScores {
  readonly of: LegClass;
  readonly sails: readonly ScoredSail[];
  readonly asked: number;
  readonly scores: readonly NumberScore[];
}

const NO_CELL = "–";

/** A table with a row for each number and a column for each class. */
function table(classes: readonly ClassScores[], cell: (score: NumberScore) => string | undefined): string {
  const names = [...new Set(classes.flatMap(({ scores }) => scores.map(({ name }) => name)))];
  const order = [...PARAMETER_NAMES, ...names];
  const sorted = names.toSorted((one, other) => order.indexOf(one) - order.indexOf(other));
  const rows = sorted
    .map((name) => ({
      name,
      cells: classes.map(({ scores }) => {
        const score = scores.find((one) => one.name === name);
        return score === undefined ? undefined : cell(score);
      }),
    }))
    .filter(({ cells }) => cells.some((text) => text !== undefined));
  return [
    `| | ${classes.map(({ of }) => of.name).join(" | ")} |`,
    `| --- |${" --- |".repeat(classes.length)}`,
    ...rows.map(({ name, cells }) => `| ${name} | ${cells.map((text) => text ?? NO_CELL).join(" | ")} |`),
  ].join("\n");
}

/** Pooled over parameters: what each wind and each course held. */
function pooled(sails: readonly ScoredSail[], by: "strength" | "course"): string {
  return [...new Set(sails.map((sail) => sail[by]))]
    .map((value) => {
      const scores = scoresOf(sails.filter((sail) => sail[by] === value));
      const sum = (of: "held" | "sails"): number => scores.reduce((total, score) => total + score[of], 0);
      return `${value} ${share(sum("held"), sum("sails"))}`;
    })
    .join(", ");
}

function coverageSection(classes: readonly ClassScores[]): string {
  const all = classes.flatMap(({ scores }) => scores);
  const level = familyLevel(all.length);
  const fails = ({ probability }: NumberScore): boolean => probability < level;
  const exceeds = ({ overBound }: NumberScore): boolean => (overBound ?? 0) > MOST_OVER_BOUND;
  const exceedsUsual = ({ overUsual }: NumberScore): boolean => (overUsual ?? 0) > MOST_OVER_BOUND;
  const failed = all.filter(fails).length;
  const bounded = all.filter(({ overBound }) => overBound !== undefined);
  const held = all.reduce((sum, score) => sum + score.held, 0);
  const told = all.reduce((sum, score) => sum + score.sails, 0);
  const sails = classes.flatMap((one) => one.sails);
  return `Sails: ${classes.map(({ of, sails: solved, asked }) => `${of.name} ${solved.length}${solved.length < asked ? ` of ${asked}` : ""}`).join(", ")}${
    sails.length < classes.reduce((sum, { asked }) => sum + asked, 0) ? " (the rest was not solved)" : ""
  }.

**Coverage: ${all.length - failed} of ${all.length} tests pass**, each at ${(100 * level).toPrecision(2)} % (1 % together). Over all, ${share(held, told)} of ${told} intervals held. Shares of 95 % intervals that held
the truth, of parameters called informed (in brackets in how many sails) and of the mean direction of the wind on each side; bold where the test fails:

${table(classes, (score) => marked(`${share(score.held, score.sails)} (${score.sails})`, fails(score)))}

By wind and course, pooled: ${pooled(sails, "strength")}; ${pooled(sails, "course")}.

Error over the fit's standard deviation, rms (1 is right):

${table(classes, ({ spread }) => spread.toFixed(2))}

**Sharpness: ${bounded.length - bounded.filter(exceeds).length} of ${bounded.length} pass.** Rms error over the bound, and in brackets the fit's standard deviation over it; bold beyond ${MOST_OVER_BOUND}:

${table(classes, (score) =>
  score.overBound === undefined
    ? undefined
    : marked(`${score.overBound.toFixed(2)} (${score.sdOverBound!.toFixed(2)})`, exceeds(score)),
)}

Over the bound of what is *usual* on legs, which is all that the fit lets tell (M48, M174), **${bounded.length - bounded.filter(exceedsUsual).length} of ${bounded.length}** are within ${MOST_OVER_BOUND}:

${table(classes, (score) =>
  score.overUsual === undefined ? undefined : marked(score.overUsual.toFixed(2), exceedsUsual(score)),
)}`;
}

function faultlessSection(boats: readonly NonNullable<ReturnType<typeof falseCorrections>>[]): string {
  const names = boats[0]!.map(({ name }) => name);
  const rows = names.flatMap((name) => {
    const learnt = boats.flatMap((settings) =>
      settings.filter((setting) => setting.name === name && setting.learnt),
    );
    if (learnt.length === 0) return [];
    const keyed = learnt.filter((setting) => setting.keyed).length;
    return [{ name, learnt: learnt.length, keyed, chance: binomialTail(keyed, learnt.length, STATED) }];
  });
  const level = ALL_TESTS / rows.length;
  const fails = rows.filter(({ chance }) => chance < level);
  return `**False corrections: ${rows.length - fails.length} of ${rows.length} settings pass.** ${boats.length} sails of a boat with nothing wrong, tide, all sensors: how often a setting was learnt, and how often of these she is told to key in what is no
fault. The stated level is 5 %; bold where more is no chance (exact test, one side, 1 % for all together).

| setting | learnt | told to key in |
| --- | --- | --- |
${rows.map(({ name, learnt, keyed, chance }) => `| ${name} | ${learnt} | ${marked(`${keyed}, ${share(keyed, learnt)}`, chance < level)} |`).join("\n")}`;
}

function daysSection(one: readonly (readonly number[])[], ten: readonly (readonly number[])[]): string {
  const rows = PARAMETER_NAMES.map((name, at) => ({
    name,
    short: meanBias(one, at),
    long: meanBias(ten, at),
  })).filter(({ long }) => !Number.isNaN(long.mean));
  const fails = rows.filter(({ long }) => Math.abs(long.mean) > MOST_BIAS);
  const cell = ({ mean, error }: MeanBias): string =>
    Number.isNaN(mean) ? NO_CELL : `${signed(mean)} ± ${error.toFixed(2)}`;
  return `**Bias: ${rows.length - fails.length} of ${rows.length} parameters pass.** Pairs of opposite boats (M176), ${one.length} about 300 rows of one day and ${ten.length} about 3,000 of ten: mean error in standard deviations, with its
standard error; bold beyond ${MOST_BIAS}.

| | 300 rows | 3,000 rows |
| --- | --- | --- |
${rows.map(({ name, short, long }) => `| ${name} | ${cell(short)} | ${marked(cell(long), Math.abs(long.mean) > MOST_BIAS)} |`).join("\n")}`;
}

/** The section of accuracy.md on statistics at the level of legs (M172 to M176). */
export async function legCoverage({ sails, faultless, pairs }: LegCounts): Promise<string> {
  const numbers = (count: number): readonly number[] => Array.from({ length: count }, (_, number) => number);
  // the longest first, so that no process is left with them at the end
  const tasks: readonly Task[] = [
    ...[TEN_DAYS, ONE_DAY].flatMap((days) =>
      numbers(pairs).map((boat): Task => ({ kind: "days", boat, days })),
    ),
    ...numbers(faultless).map((number): Task => ({ kind: "faultless", number })),
    ...numbers(sails).flatMap((number) => LEG_CLASSES.map((of): Task => ({ kind: "scored", of, number }))),
  ];
  const found = await inProcesses<Task, Found>(import.meta.url, tasks);
  const classes = LEG_CLASSES.map((of): ClassScores => {
    const solved = found.filter(
      (one, at) => one !== null && isScored(tasks[at]!) && tasks[at].of === of,
    ) as readonly ScoredSail[];
    return { of, sails: solved, asked: sails, scores: scoresOf(solved) };
  });
  const boats = found.filter((one, at) => one !== null && tasks[at]!.kind === "faultless") as Parameters<
    typeof faultlessSection
  >[0];
  const over = (days: number) =>
    found.filter(
      (one, at) => one !== null && isDays(tasks[at]!) && tasks[at].days === days,
    ) as readonly (readonly number[])[];
  return `## Statistics at the level of legs (M172 to M176)

Sails made directly as rows, by the fit's own laws, some 130 rows in 80 minutes, with faults drawn ${DRAWN_WIDTH} times as wide as the fit's priors; winds and courses in turn, half of them begin under
power. What fails here is the fit's statistics, not its physics.

${coverageSection(classes)}

${faultlessSection(boats)}

${daysSection(over(ONE_DAY), over(TEN_DAYS))}
`;
}

const isScored = (task: Task): task is Extract<Task, { kind: "scored" }> => task.kind === "scored";
const isDays = (task: Task): task is Extract<Task, { kind: "days" }> => task.kind === "days";

function work(task: Task): Found {
  switch (task.kind) {
    case "scored":
      return scoredSail(task.of, task.number) ?? null;
    case "faultless":
      return falseCorrections(task.number) ?? null;
    case "days":
      return pairedBias(task.boat, task.days) ?? null;
  }
}

doTasks(import.meta.url, work);
