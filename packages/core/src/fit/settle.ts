import type { FitContext, RecordingChannels } from "./fitContext.ts";
import type { ImpliedStates } from "./impliedState.ts";
import { leastSquares } from "./leastSquares.ts";
import { priorMeans, priorSds } from "./priors.ts";
import { measuredStates, type RowEvidence, usualStates } from "./rowEvidence.ts";
import type { SeriesName } from "./sailingSeries.ts";
import { meanOver, type ScalarEvidence, scalarEvidence } from "./scalarEvidence.ts";
import { lawErrorsOf, settingsOf } from "./settingsVector.ts";
import { WanderingSeries } from "./wanderingSeries.ts";

/** Rounds after which scales and weights are left as they are, so that the settings can come to rest. */
const ROUNDS_OF_SCALES = 6;
const MOST_ROUNDS = 40;

/** At rest: no parameter moved by more than this share of its standard deviation. */
const AT_REST = 0.01;

export interface SettleRequest {
  readonly evidence: readonly RowEvidence[];
  readonly context: FitContext;
  readonly channels: RecordingChannels;
  readonly heelSign: 1 | -1;
  /** Indices of the parameters that may move. */
  readonly free: readonly number[];
  readonly series: readonly SeriesName[];
  readonly start: Float64Array;
}

export interface Settled {
  readonly atRest: boolean;
  readonly vector: Float64Array;
  /** Posterior covariance of the free parameters, row-major. */
  readonly covariance: Float64Array;
  /** −ln posterior up to a constant, at the settings found. */
  readonly objective: number;
  readonly series: readonly WanderingSeries[];
  readonly states: ImpliedStates;
  readonly symmetryLeftOut?: string;
}

/** A mean that ought to vanish, moved from the settings of the round to others by way of the nominal states. */
function scalarResidual(scalar: ScalarEvidence, base: ImpliedStates, from: ImpliedStates, to: ImpliedStates) {
  let sum = 0;
  for (const rows of scalar.groups) {
    sum +=
      meanOver(rows, base, scalar.place) +
      meanOver(rows, to, scalar.place) -
      meanOver(rows, from, scalar.place);
  }
  return sum / scalar.groups.length / scalar.sd;
}

/**
 * M54. Settles the free parameters: rounds of least squares in which the data enter by the states that they imply at the settings of
 * the round, and the settings act through the states that are usual for each row (M48). At the end both meet: the gradient
 * at rest is that of the usual states against the residuals of the data, which no fluctuation of the wind can bias.
 * Scales of wander and weights of rows are found anew in the first rounds, then kept.
 *
 * @returns where it came to rest, or where it stood after the last round (`atRest` false).
 * @throws what `signal` throws when it is aborted
 */
export function settle(request: SettleRequest): Settled {
  const { evidence, context, channels, heelSign, free } = request;
  const means = priorMeans();
  const sds = priorSds();
  const series = request.series.map((name) => new WanderingSeries(name, evidence));
  const vector = Float64Array.from(request.start);
  const trial = Float64Array.from(vector);
  const count = series.length * evidence.length;
  let covariance: Float64Array = new Float64Array(free.length ** 2);
  let objective = Number.POSITIVE_INFINITY;
  for (let round = 1; ; round++) {
    context.signal?.throwIfAborted();
    const settings = settingsOf(vector, heelSign);
    const laws = lawErrorsOf(vector);
    const states = measuredStates(evidence, settings, channels, laws);
    const from = usualStates(evidence, settings, channels, laws);
    const { scalars, symmetryLeftOut } = scalarEvidence(evidence, states, context, channels);
    for (const one of series) one.read(states, round <= ROUNDS_OF_SCALES);
    const fit = leastSquares({
      start: free.map((index) => vector[index]!),
      scale: free.map((index) => sds[index]!),
      count: count + scalars.length + free.length,
      residuals(parameters, out) {
        free.forEach((index, place) => {
          trial[index] = parameters[place]!;
        });
        const to = usualStates(evidence, settingsOf(trial, heelSign), channels, lawErrorsOf(trial));
        series.forEach((one, place) => {
          one.residuals(from, to, out.subarray(place * evidence.length, (place + 1) * evidence.length));
        });
        scalars.forEach((scalar, place) => {
          out[count + place] = scalarResidual(scalar, states, from, to);
        });
        free.forEach((index, place) => {
          out[count + scalars.length + place] = (trial[index]! - means[index]!) / sds[index]!;
        });
      },
    });
    if (fit.status !== "solved") return { atRest: false, vector, covariance, objective, series, states };
    covariance = fit.covariance;
    let movement = 0;
    free.forEach((index, place) => {
      const sd = Math.sqrt(covariance[place * (free.length + 1)]!);
      movement = Math.max(movement, Math.abs(fit.parameters[place]! - vector[index]!) / sd);
      vector[index] = fit.parameters[place]!;
    });
    objective = fit.sumOfSquares / 2 + series.reduce((sum, one) => sum + one.logDeterminant / 2, 0);
    const atRest = movement < AT_REST && round > ROUNDS_OF_SCALES;
    if (atRest || round === MOST_ROUNDS) {
      const left = symmetryLeftOut === undefined ? {} : { symmetryLeftOut };
      return { atRest, vector, covariance, objective, series, states, ...left };
    }
  }
}
