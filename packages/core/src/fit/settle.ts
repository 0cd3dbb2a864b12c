import type { FitContext } from "./fitContext.ts";
import type { FitSetting } from "./fitSetting.ts";
import type { ImpliedStates } from "./impliedState.ts";
import { leastSquares } from "./leastSquares.ts";
import type { SolvedLeastSquares } from "./leastSquaresProblem.ts";
import { measuredAt, RoundProblem } from "./roundProblem.ts";
import type { SeriesName } from "./sailingSeries.ts";
import { type ScalarEvidence, type SymmetryEvidence, scalarEvidence } from "./scalarEvidence.ts";
import { finished, type Steps } from "./steps.ts";
import { WanderingSeries } from "./wanderingSeries.ts";

/**
 * Scales and weights are left as they are, so that the settings can come to rest, after so many rounds or as soon as none of the
 * settings moved by this share of its standard deviation.
 */
const ROUNDS_OF_SCALES = 6;
const NEARLY_AT_REST = 0.02;
const MOST_ROUNDS = 40;

/**
 * Within a round the fit comes this near, in standard deviations: while scales move the next round moves it by more, and then a tenth
 * of what counts as rest.
 */
const ON_THE_WAY = 0.05;
const IN_A_ROUND = 1e-3;

/** At rest: no parameter moved by more than this share of its standard deviation. */
const AT_REST = 0.01;

/** Settings so near to others that are at rest, in their standard deviations, are on the way there. */
const SAME_REST = 0.1;

export interface SettleRequest extends FitSetting {
  readonly context: FitContext;
  readonly series: readonly SeriesName[];
  readonly start: Float64Array;
  /** Rounds after which it is left where it stands, as a start for another; until it is at rest unless told. */
  readonly rounds?: number;
  /** Where it came to rest from other starts: on the way to one of these it is left. */
  readonly found?: readonly Settled[];
}

export interface Settled {
  readonly atRest: boolean;
  /** Why no settings of a round could be had, in the words of `leastSquares`. */
  readonly failure?: string;
  readonly vector: Float64Array;
  /** Posterior covariance of the free parameters, row-major. */
  readonly covariance: Float64Array;
  /** −ln posterior up to a constant, at the settings found. */
  readonly objective: number;
  readonly series: readonly WanderingSeries[];
  readonly states: ImpliedStates;
  readonly scalars: readonly ScalarEvidence[];
  readonly symmetryLeftOut?: string;
}

/**
 * M54. Settles the free parameters: rounds of least squares in which the data enter by the states that they imply at the settings of
 * the round, and the settings act through the states that are usual for each row (M48). At the end both meet: the gradient
 * at rest is that of the usual states against the residuals of the data, which no fluctuation of the wind can bias.
 * Scales of wander, weights of rows and what symmetry may be asked of are found anew in the first rounds, then kept: a boat that was
 * only just sailed alike would else be asked in every other round.
 *
 * @returns where it came to rest, or where it stood after the last round or on the way to what was found (`atRest` false).
 * @throws what `signal` throws when it is aborted
 */
export const settle = (request: SettleRequest): Settled => finished(settleInSteps(request));

/** M54. As `settle`, a step a round. @throws as `settle` */
export function* settleInSteps(request: SettleRequest): Steps<Settled> {
  const { evidence, context, channels, free, rounds = MOST_ROUNDS, found = [] } = request;
  const series = request.series.map((name) => new WanderingSeries(name, evidence));
  const vector = Float64Array.from(request.start);
  let covariance: Float64Array = new Float64Array(free.length ** 2);
  let objective = Number.POSITIVE_INFINITY;
  let symmetry: SymmetryEvidence = { scalars: [] };
  let roundsOfScales = ROUNDS_OF_SCALES;
  for (let round = 1; ; round++) {
    context.signal?.throwIfAborted();
    const states = measuredAt(request, vector);
    const anew = round <= roundsOfScales;
    if (anew) symmetry = scalarEvidence(evidence, states, context, channels);
    for (const one of series) one.read(states, anew);
    const { scalars, symmetryLeftOut } = symmetry;
    const fit = leastSquares(new RoundProblem(request, vector, states, series, scalars), {
      tolerance: anew ? ON_THE_WAY : IN_A_ROUND,
    });
    if (fit.status !== "solved")
      return { atRest: false, failure: fit.reason, vector, covariance, objective, series, states, scalars };
    covariance = fit.covariance;
    const movement = moveTo(vector, fit, free);
    objective = fit.sumOfSquares / 2 + series.reduce((sum, one) => sum + one.logDeterminant / 2, 0);
    if (movement < NEARLY_AT_REST) roundsOfScales = Math.min(round, roundsOfScales);
    const atRest = movement < AT_REST && !anew;
    if (atRest || round === rounds || found.some((one) => goesTo(one, vector, free))) {
      const left = symmetryLeftOut === undefined ? {} : { symmetryLeftOut };
      return { atRest, vector, covariance, objective, series, states, scalars, ...left };
    }
    yield round / rounds;
  }
}

/** Whether settings have come so near to others at rest that they would end there. */
function goesTo({ atRest, ...rest }: Settled, vector: Float64Array, free: readonly number[]): boolean {
  const sd = (place: number): number => Math.sqrt(rest.covariance[place * (free.length + 1)]!);
  return (
    atRest &&
    free.every((index, place) => Math.abs(vector[index]! - rest.vector[index]!) < SAME_REST * sd(place))
  );
}

/** Takes the free parameters over; the farthest that one moved, in its standard deviations. */
function moveTo(vector: Float64Array, fit: SolvedLeastSquares, free: readonly number[]): number {
  let farthest = 0;
  free.forEach((index, place) => {
    const sd = Math.sqrt(fit.covariance[place * (free.length + 1)]!);
    farthest = Math.max(farthest, Math.abs(fit.parameters[place]! - vector[index]!) / sd);
    vector[index] = fit.parameters[place]!;
  });
  return farthest;
}
