import type { SourceRow } from "./inventoryPart.ts";
import type { QuantityName } from "./readings.ts";

/** Shares of the time that differ by less than this are alike; rates, by less than this factor. */
const LIKE_SHARES = 0.05;
const LIKE_RATES = 1.5;

/** The talkers of the standard that are instruments of one kind, and what they measure themselves. */
const SPECIALISTS: readonly (readonly [talkers: RegExp, quantities: readonly QuantityName[]])[] = [
  [/^WI /, ["apparentWindAngle", "apparentWindSpeed"]],
  [/^V[DMW] /, ["speedThroughWater", "distanceThroughWater"]],
  [/^HC /, ["headingMagnetic", "variation"]],
  [/^(HE|HN) /, ["headingTrue"]],
  [/^G[A-Z] /, ["courseOverGround", "speedOverGround", "latitude", "longitude"]],
  [/^SD /, ["depthBelowTransducer"]],
];

export interface Candidate extends SourceRow {
  /** Share of the recording in which it told something: not silent, not frozen, not at 0. */
  readonly aliveShare: number;
}

/** One rule: which of the candidates stay, and what is said of winner and loser. */
export interface Rule {
  readonly keep: (candidates: readonly Candidate[]) => readonly Candidate[];
  readonly won: (winner: Candidate, loser: Candidate) => string;
  readonly lost: (loser: Candidate, winner: Candidate) => string;
}

const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;
const hertz = (rate: number): string => `${rate.toFixed(1)} Hz`;

/** The highest of the candidates' values that are known. */
const highest = (candidates: readonly Candidate[], of: (candidate: Candidate) => number): number =>
  Math.max(...candidates.map(of).filter((value) => !Number.isNaN(value)));

const isSpecialist = ({ source }: Candidate): boolean =>
  SPECIALISTS.some(
    ([talkers, quantities]) => talkers.test(source.name) && quantities.includes(source.quantity),
  );

/** The rules, in the order in which they are applied. */
export const SOURCE_RULES: readonly Rule[] = [
  {
    keep: (all) => all.filter(({ isCourse }) => !isCourse),
    won: (_, loser) => `since ${loser.source.name} gives the course over ground`,
    lost: ({ courseShare }) => `the course over ground in ${percent(courseShare)} of its changes: no compass`,
  },
  {
    keep: (all) =>
      all.filter(({ aliveShare }) => aliveShare > highest(all, (one) => one.aliveShare) - LIKE_SHARES),
    won: (winner, loser) =>
      `alive for ${percent(winner.aliveShare)} of the time, ${loser.source.name} for ${percent(loser.aliveShare)}`,
    lost: (loser, winner) =>
      `alive for ${percent(loser.aliveShare)} of the time, ${winner.source.name} for ${percent(winner.aliveShare)}`,
  },
  {
    keep: (all) => all.filter(({ rate }) => !(rate * LIKE_RATES < highest(all, (one) => one.rate))),
    won: (_, loser) => `more often than ${loser.source.name}, which comes at ${hertz(loser.rate)}`,
    lost: (_, winner) => `less often than ${winner.source.name}, which comes at ${hertz(winner.rate)}`,
  },
  {
    keep: (all) => {
      const finest = -highest(all, ({ resolution }) => -resolution);
      return all.filter(({ resolution }) => !(resolution > finest * LIKE_RATES));
    },
    won: (_, loser) => `in finer steps than ${loser.source.name}`,
    lost: (_, winner) => `in coarser steps than ${winner.source.name}`,
  },
  {
    keep: (all) => (all.some(isSpecialist) ? all.filter(isSpecialist) : all),
    won: (_, loser) => `the instrument itself, where ${loser.source.name} passes it on`,
    lost: (_, winner) => `passed on, where ${winner.source.name} is the instrument itself`,
  },
  {
    keep: (all) => all.slice(0, 1),
    won: (_, loser) => `the first of equals (${loser.source.name})`,
    lost: (loser, winner) =>
      loser.repeats === undefined ? `no better than ${winner.source.name}` : `a copy of ${loser.repeats}`,
  },
];
