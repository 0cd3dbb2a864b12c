import type { ImpliedStates } from "./impliedState.ts";
import { studentWeight } from "./robustWeights.ts";
import type { RowEvidence } from "./rowEvidence.ts";
import {
  type SeriesName,
  seriesDifference,
  seriesValue,
  unwrapDirections,
  WANDER_PRIORS,
} from "./sailingSeries.ts";
import { seriesNoise } from "./seriesNoise.ts";
import { maximumLikelihoodWander, type WanderModel, whiten } from "./stateSpace.ts";
import { windTimes } from "./windTimes.ts";

/** Degrees of freedom of the innovations' law: tails for squalls and weed, yet most rows count nearly whole. */
const DEGREES_OF_FREEDOM = 6;

/** Passes of weighing after each search for scales: the weights are as good as at rest. */
const PASSES = 2;

/** One wandering quantity over all rows (M51): its values in the round, its scales of wander, its rows' weights. */
export class WanderingSeries {
  readonly name: SeriesName;
  /** Values that the settings of the round imply, directions unwrapped. */
  readonly values: Float64Array;
  /** Standardised innovations of the last whitening; 0 in rows that have none. */
  readonly innovations: Float64Array;
  /** Robust weights, 1 for a row that counts whole. */
  readonly weights: Float64Array;
  wander: WanderModel;
  /** Σ ln S of the last whitening. */
  logDeterminant = 0;
  readonly #evidence: readonly RowEvidence[];
  readonly #times: Float64Array;
  readonly #durations: Float64Array;
  readonly #variances: Float64Array;
  readonly #column: Float64Array;

  constructor(name: SeriesName, evidence: readonly RowEvidence[]) {
    const column = (): Float64Array => new Float64Array(evidence.length);
    const { slow, fast, fastSeconds } = WANDER_PRIORS[name];
    this.name = name;
    this.values = column();
    this.innovations = column();
    this.weights = column().fill(1);
    this.wander = { slow: slow.median, fast: fast.median, fastSeconds: fastSeconds[0]! };
    this.#evidence = evidence;
    const ofCurrent = name === "currentEast" || name === "currentNorth";
    this.#times = ofCurrent
      ? Float64Array.from(evidence, ({ time }) => time)
      : windTimes(evidence.map(({ row }) => row));
    this.#durations = Float64Array.from(evidence, ({ row }) => row.duration);
    this.#variances = column();
    this.#column = column();
  }

  /** Takes the values that states imply; on asking finds scales of wander and weights of rows anew. */
  read(states: ImpliedStates, anew: boolean): void {
    this.#evidence.forEach((_, row) => {
      this.values[row] = seriesValue(this.name, states, row);
    });
    if (this.name === "direction") unwrapDirections(this.values);
    this.#weigh(states);
    for (let pass = 0; anew && pass < PASSES; pass++) {
      this.wander = this.#scales();
      this.#whiten(this.values);
      this.innovations.forEach((innovation, row) => {
        const plain = innovation / Math.sqrt(this.weights[row]!);
        this.weights[row] = Math.min(1, studentWeight(plain, DEGREES_OF_FREEDOM));
      });
      this.#weigh(states);
    }
    this.#whiten(this.values);
  }

  /** Standardised innovations of the round's values, moved by what lies between two usual states. */
  residuals(from: ImpliedStates, to: ImpliedStates, out: Float64Array): void {
    this.values.forEach((value, row) => {
      const moved = seriesDifference(
        this.name,
        seriesValue(this.name, to, row),
        seriesValue(this.name, from, row),
      );
      this.#column[row] = value + moved;
    });
    this.#whiten(this.#column);
    out.set(this.innovations);
  }

  #scales(): WanderModel {
    const prior = WANDER_PRIORS[this.name];
    return maximumLikelihoodWander(this.#times, this.#durations, this.values, this.#variances, prior).model;
  }

  /** M52: each row's own variance; a row of weight w is given what makes its innovation's variance S / w. */
  #weigh(states: ImpliedStates): void {
    this.#evidence.forEach((one, row) => {
      const noise = seriesNoise(this.name, one.row.kind, states, row);
      const doubt = this.wander.fast ** 2 * (1 / this.weights[row]! - 1);
      this.#variances[row] = noise + doubt;
    });
  }

  #whiten(column: Float64Array): void {
    const { logDeterminant } = whiten(
      this.wander,
      this.#times,
      this.#durations,
      this.#variances,
      column,
      this.innovations,
    );
    this.logDeterminant = logDeterminant;
  }
}
