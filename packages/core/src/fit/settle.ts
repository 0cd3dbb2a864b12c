import type { FitContext } from "./fitContext.ts";
import type { ImpliedStates } from "./impliedState.ts";
import { leastSquares } from "./leastSquares.ts";
import type { SolvedLeastSquares } from "./leastSquaresProblem.ts";
import { type FitSetting, measuredAt, RoundProblem } from "./roundProblem.ts";
import type { SeriesName } from "./sailingSeries.ts";
import { type ScalarEvidence, type SymmetryEvidence, scalarEvidence } from "./scalarEvidence.ts";
import { finished, type Steps } from "./steps.ts";
import { WanderingSeries } from "./wanderingSeries.ts";

/** Rounds after which scales and weights are left as they are, so that the settings can come to rest. */
const ROUNDS_OF_SCALES = 6;
const MOST_ROUNDS = 40;

/** Within a round the fit comes this near, in standard deviations: the next round moves it by more, or is the last. */
const IN_A_ROUND = 1e-4;

/** At rest: no parameter moved by more than this share of its standard deviation. */
const AT_REST = 0.01;

export interface SettleRequest extends FitSetting {
  readonly context: FitContext;
  readonly series: readonly SeriesName[];
  readonly start: Float64Array;
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
 * @returns where it came to rest, or where it stood after the last round (`atRest` false).
 * @throws what `signal` throws when it is aborted
 */
export const settle = (request: SettleRequest): Settled => finished(settleInSteps(request));

/** M54. As `settle`, a step a round. @throws as `settle` */
export function* settleInSteps(request: SettleRequest): Steps<Settled> {
  const { evidence, context, channels, free } = request;
  const series = request.series.map((name) => new WanderingSeries(name, evidence));
  const vector = Float64Array.from(request.start);
  let covariance: Float64Array = new Float64Array(free.length ** 2);
  let objective = Number.POSITIVE_INFINITY;
  let symmetry: SymmetryEvidence = { scalars: [] };
  for (let round = 1; ; round++) {
    context.signal?.throwIfAborted();
    const states = measuredAt(request, vector);
    const anew = round <= ROUNDS_OF_SCALES;
    if (anew) symmetry = scalarEvidence(evidence, states, context, channels);
    for (const one of series) one.read(states, anew);
    const { scalars, symmetryLeftOut } = symmetry;
    const fit = leastSquares(new RoundProblem(request, vector, states, series, scalars), {
      tolerance: IN_A_ROUND,
    });
    if (fit.status !== "solved")
      return { atRest: false, failure: fit.reason, vector, covariance, objective, series, states, scalars };
    covariance = fit.covariance;
    const movement = moveTo(vector, fit, free);
    objective = fit.sumOfSquares / 2 + series.reduce((sum, one) => sum + one.logDeterminant / 2, 0);
    const atRest = movement < AT_REST && round > ROUNDS_OF_SCALES;
    if (atRest || round === MOST_ROUNDS) {
      const left = symmetryLeftOut === undefined ? {} : { symmetryLeftOut };
      return { atRest, vector, covariance, objective, series, states, scalars, ...left };
    }
    yield round / MOST_ROUNDS;
  }
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
