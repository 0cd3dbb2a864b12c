import { probit } from "simple-statistics";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import type { ParameterName } from "../sensors/parameterNames.ts";
import { type ConfoundedGroup, confoundedGroups } from "./confounded.ts";
import { type DataInformation, dataInformation, doubted } from "./dataInformation.ts";
import { DAY_DOUBTS } from "./dayDoubts.ts";
import {
  type DifferenceEvidence,
  differenceEvidence,
  freeMoves,
  type JointTest,
  jointTest,
  lessMoves,
  likelyMoves,
  TOLD,
} from "./difference.ts";
import { fewestMoves, standIns } from "./movement.ts";

/** A parameter's move from one fit to the other, SI and radians: value on the second less value on the first. */
export interface Move {
  readonly name: ParameterName;
  readonly value: number;
  readonly sd: number;
}

/** A move that is real, with what these data could not tell from it. */
export interface NamedMove extends Move {
  readonly orElse: readonly Move[];
}

/** What two fits of one boat say of what has moved between them. */
export interface Comparison {
  /** The fewest moves that explain what is real; empty where nothing is, or nothing can be named. */
  readonly moved: readonly NamedMove[];
  /** All differences together. */
  readonly joint: JointTest;
  /** The same once what moved is taken out. */
  readonly rest: JointTest;
  /** Whether the rest is more than chance. */
  readonly restIsReal: boolean;
  /** Every parameter's move with all others free to move as well. */
  readonly free: readonly Move[];
  /** The smallest move of each parameter alone that would have shown with probability POWER. */
  readonly smallest: readonly { readonly name: ParameterName; readonly move: number }[];
  /** Parameters of which the two together do not tell a plausible move, and which of them do not tell the parameter. */
  readonly untold: readonly Untold[];
  /** Parameters whose moves could hardly be told apart. */
  readonly confounded: readonly ConfoundedGroup[];
}

export interface Untold {
  readonly name: ParameterName;
  /** "both together": each tells something, but not enough for a difference. */
  readonly by: "the first" | "the second" | "either" | "both together";
}

/** The share of unmoved boats of which something is said to have moved: at most so much by single moves, so much by all together. */
const FALSE_ALARMS = { single: 0.04, together: 0.01 } as const;

/**
 * The share of unmoved boats of which something is said to have moved, at most.
 *
 * @example
 * FALSE_ALARM_LEVEL < 0.1 // true
 */
export const FALSE_ALARM_LEVEL = FALSE_ALARMS.single + FALSE_ALARMS.together;

/**
 * Probability with which the smallest moves would have shown.
 *
 * @example
 * POWER // 0.8
 */
export const POWER = 0.8;

/** How far a boat heels where no sensor tells is no sensor's move. */
const NO_SENSOR: ParameterName = "heelModel.fullHeel";

/** A doubt of so many scales leaves nothing of what the data said of a parameter. */
const NOTHING_LEFT = 100;

/** What the data of both said, each with the doubt of its day. */
function dataOf(
  fits: readonly [SolvedBoatFit, SolvedBoatFit],
  origin: readonly number[],
  scales: readonly number[],
  skipped: ReadonlySet<ParameterName>,
): readonly [DataInformation, DataInformation] {
  const doubts = fits[0].parameters.map(({ name }, index) =>
    skipped.has(name) ? NOTHING_LEFT : DAY_DOUBTS[name] / scales[index]!,
  );
  const said = (fit: SolvedBoatFit): DataInformation => doubted(dataInformation(fit, origin, scales), doubts);
  return [said(fits[0]), said(fits[1])];
}

function untoldBy(data: readonly [DataInformation, DataInformation], index: number): Untold["by"] {
  const [first, second] = data.map(({ information }) => information.get(index, index) > 1 / TOLD ** 2);
  if (first) return second ? "both together" : "the second";
  return second ? "the first" : "either";
}

/** What a comparison leaves out, and of how many it is one. */
export interface CompareOptions {
  /** Parameters that cannot be compared: they may have moved or not. */
  readonly skipped?: readonly ParameterName[];
  /** How many comparisons share the level of false alarms; 1. */
  readonly among?: number;
}

/**
 * M64, M80, M81. Which differences between two fits of one boat are real. Of the prior that both share nothing is taken for evidence that
 * nothing moved.
 *
 * @param first, second fits on the same base, of two recordings
 * @throws RangeError where the fits have other parameters, or `among` is less than 1
 * @example
 * compareFits(fit, fit).moved // []
 */
export function compareFits(
  first: SolvedBoatFit,
  second: SolvedBoatFit,
  { skipped = [], among = 1 }: CompareOptions = {},
): Comparison {
  const { parameters } = first;
  if (!haveSameParameters(first, second))
    throw new RangeError("compareFits: both fits must have the same parameters in the same order");
  if (!(among >= 1)) throw new RangeError(`compareFits: among must be at least 1, got ${among}`);
  const scales = parameters.map(({ priorSd }) => priorSd);
  const origin = parameters.map(({ priorMean }) => priorMean);
  const data = dataOf([first, second], origin, scales, new Set(skipped));
  const evidence = differenceEvidence(...data);
  const left = new Set([NO_SENSOR, ...skipped]);
  const compared = parameters.flatMap(({ name }, index) => (left.has(name) ? [] : [index]));
  const isTold = (index: number): boolean => evidence.precision.get(index, index) > 1 / TOLD ** 2;
  const candidates = compared.filter(isTold);
  const limit = probit(1 - FALSE_ALARMS.single / among / (2 * Math.max(1, candidates.length)));
  const best = fewestMoves(evidence, candidates, limit);
  const move = (index: number, value: number, sd: number): Move => ({
    name: parameters[index]!.name,
    value: value * scales[index]!,
    sd: sd * scales[index]!,
  });
  const rest = jointTest(lessMoves(evidence, best.members, best.moves), best.members.length);
  const smallest = (index: number): number =>
    ((limit + probit(POWER)) / Math.sqrt(evidence.precision.get(index, index))) * scales[index]!;
  const free = freeMoves(evidence);
  return {
    moved: best.members.map((index, place) => ({
      ...move(index, best.moves[place]!, Math.sqrt(best.covariance.get(place, place))),
      orElse: standIns(evidence, candidates, best, place).map((or) => move(or.index, or.move, or.sd)),
    })),
    joint: jointTest(evidence, 0),
    rest,
    restIsReal: rest.probability < FALSE_ALARMS.together / among,
    free: compared.map((index) => move(index, free.moves[index]!, free.sds[index]!)),
    smallest: candidates.map((index) => ({ name: parameters[index]!.name, move: smallest(index) })),
    untold: compared
      .filter((index) => !isTold(index))
      .map((index) => ({ name: parameters[index]!.name, by: untoldBy(data, index) })),
    confounded: confoundedMoves(evidence, first).filter(({ members }) =>
      members.every(({ name }) => !left.has(name)),
    ),
  };
}

/** M82. Groups of moves that could hardly be told apart. */
function confoundedMoves(evidence: DifferenceEvidence, { parameters }: SolvedBoatFit) {
  const likely = likelyMoves(evidence);
  const size = parameters.length;
  const scaleOf = (index: number): number => parameters[index]!.priorSd;
  return confoundedGroups({
    parameters: parameters.map((one, index) => ({
      ...one,
      sd: one.priorSd * Math.sqrt(likely.get(index, index)),
    })),
    covariance: Float64Array.from({ length: size ** 2 }, (_, at) => {
      const [row, column] = [Math.floor(at / size), at % size];
      return likely.get(row, column) * scaleOf(row) * scaleOf(column);
    }),
  });
}

/** Whether two fits have the same parameters in the same order. Never throws. */
export const haveSameParameters = (one: SolvedBoatFit, other: SolvedBoatFit): boolean =>
  one.parameters.length === other.parameters.length &&
  one.parameters.every(({ name }, index) => other.parameters[index]?.name === name);

/**
 * Whether anything is said to have moved. Never throws.
 *
 * @example
 * hasMoved(compareFits(fit, fit)) // false
 */
export const hasMoved = ({ moved, restIsReal }: Comparison): boolean => moved.length > 0 || restIsReal;
