import { PARAMETER_NAMES } from "../sensors/parameterNames.ts";
import type { RecordingChannels } from "./fitContext.ts";
import { type ImpliedStates, impliedStates } from "./impliedState.ts";
import type { LeastSquaresProblem } from "./leastSquaresProblem.ts";
import { priorWhitening } from "./priorCovariance.ts";
import { priorMeans, priorSds } from "./priors.ts";
import { measuredStates, type RowEvidence, statesOfLegs, usualStates } from "./rowEvidence.ts";
import { isOfMotion } from "./sailingSeries.ts";
import type { ScalarEvidence } from "./scalarEvidence.ts";
import { scalarResiduals } from "./scalarResiduals.ts";
import { lawErrorsOf, settingsOf } from "./settingsVector.ts";
import type { WanderingSeries } from "./wanderingSeries.ts";

/** Steps of the derivatives, as shares of the prior standard deviation: states are smooth, and far from rounding there. */
const STEP = 1e-4;

/** What the rounds of a fit have in common. */
export interface FitSetting {
  readonly evidence: readonly RowEvidence[];
  readonly channels: RecordingChannels;
  readonly heelSign: 1 | -1;
  /** Indices of the parameters that may move. */
  readonly free: readonly number[];
}

/** States that the rows' readings imply at a vector of parameters (M50). Never throws. */
export const measuredAt = (
  { evidence, heelSign, channels }: FitSetting,
  vector: Float64Array,
): ImpliedStates => measuredStates(evidence, settingsOf(vector, heelSign), channels, lawErrorsOf(vector));

/** States at what is usual for rows (M48): for their point of sailing, where the wind is judged, and on their leg, where her motion is. */
interface UsualStates {
  readonly wind: ImpliedStates;
  readonly motion: ImpliedStates;
}

const emptyUsualStates = (rows: number): UsualStates => ({
  wind: impliedStates(rows),
  motion: impliedStates(rows),
});

/** Of the usual states those that a series is judged by. */
const judgedBy = ({ name }: WanderingSeries, { wind, motion }: UsualStates): ImpliedStates =>
  isOfMotion(name) ? motion : wind;

/** Vane and anemometer have no part in her motion. */
const isOfWindSensors = (index: number): boolean => /^(vane|anemometer)\./.test(PARAMETER_NAMES[index] ?? "");

/** Usual states at a vector of parameters; on asking those of the wind alone. Never throws. */
function usualAt(
  { evidence, heelSign, channels }: FitSetting,
  vector: Float64Array,
  out: UsualStates,
  which: "wind and motion" | "wind" = "wind and motion",
): UsualStates {
  const [settings, laws] = [settingsOf(vector, heelSign), lawErrorsOf(vector)];
  usualStates(evidence, settings, channels, laws, out.wind);
  if (which === "wind and motion") statesOfLegs(evidence, settings, channels, laws, out.motion);
  return out;
}

/**
 * M54. The least squares of one round: series, then means that ought to vanish, then priors. Whitening is linear, so the Jacobian's
 * columns are whitened together, in one pass of the filter.
 */
export class RoundProblem implements LeastSquaresProblem {
  readonly count: number;
  readonly start: readonly number[];
  readonly scale: readonly number[];
  readonly #setting: FitSetting;
  readonly #series: readonly WanderingSeries[];
  readonly #scalars: readonly ScalarEvidence[];
  readonly #measured: ImpliedStates;
  readonly #usual: UsualStates;
  /** Memory for states up and down of a point. */
  readonly #up: UsualStates;
  readonly #down: UsualStates;
  readonly #trial: Float64Array;
  readonly #means = priorMeans();
  readonly #sds = priorSds();
  /** A row for each free parameter's residual, a column for each (M190). */
  readonly #whitening: readonly (readonly number[])[];

  /**
   * @param vector all parameters at the settings of the round
   * @param measured states there, as `measuredAt` gives them
   */
  constructor(
    setting: FitSetting,
    vector: Float64Array,
    measured: ImpliedStates,
    series: readonly WanderingSeries[],
    scalars: readonly ScalarEvidence[],
  ) {
    const { evidence, free } = setting;
    this.count = series.length * evidence.length + scalars.length + free.length;
    this.start = free.map((index) => vector[index]!);
    this.scale = free.map((index) => this.#sds[index]!);
    this.#setting = setting;
    this.#whitening = priorWhitening(free).to2DArray();
    this.#series = series;
    this.#scalars = scalars;
    this.#measured = measured;
    this.#usual = usualAt(setting, vector, emptyUsualStates(evidence.length));
    this.#up = emptyUsualStates(evidence.length);
    this.#down = emptyUsualStates(evidence.length);
    this.#trial = Float64Array.from(vector);
  }

  residuals(parameters: Float64Array, out: Float64Array): void {
    const { evidence, free } = this.#setting;
    this.#goTo(parameters);
    const to = usualAt(this.#setting, this.#trial, this.#up);
    const rows = evidence.length;
    this.#series.forEach((one, place) => {
      const part = out.subarray(place * rows, (place + 1) * rows);
      one.residuals(judgedBy(one, this.#usual), judgedBy(one, to), part);
    });
    const scalars = this.#series.length * rows;
    out.set(scalarResiduals(this.#scalars, this.#measured, this.#usual.wind, to.wind), scalars);
    const standing = free.map((index) => this.#trial[index]! - this.#means[index]!);
    this.#whitening.forEach((row, place) => {
      out[scalars + this.#scalars.length + place] = row.reduce(
        (sum, one, at) => sum + one * standing[at]!,
        0,
      );
    });
  }

  jacobian(parameters: Float64Array, out: Float64Array): void {
    const { evidence, free } = this.#setting;
    const [rows, columns] = [evidence.length, free.length];
    const scalars = this.#series.length * rows;
    const blocks = this.#series.map((_, place) =>
      out.subarray(place * rows * columns, (place + 1) * rows * columns),
    );
    out.fill(0);
    this.#eachMoved(parameters, (column, up, down, width) => {
      this.#slopesInto(blocks, column, up, down, width);
      const low = scalarResiduals(this.#scalars, this.#measured, this.#usual.wind, down.wind);
      scalarResiduals(this.#scalars, this.#measured, this.#usual.wind, up.wind).forEach((high, place) => {
        out[(scalars + place) * columns + column] = (high - low[place]!) / width;
      });
      this.#whitening.forEach((row, place) => {
        out[(scalars + this.#scalars.length + place) * columns + column] = row[column]!;
      });
    });
    this.#series.forEach((one, place) => {
      one.whitenTable(blocks[place]!, columns);
    });
  }

  /** Slopes of each series by the parameters before whitening, row-major, rows × parameters. */
  plainSlopes(parameters: Float64Array): readonly Float64Array[] {
    const { evidence, free } = this.#setting;
    const tables = this.#series.map(() => new Float64Array(evidence.length * free.length));
    this.#eachMoved(parameters, (column, up, down, width) => {
      this.#slopesInto(tables, column, up, down, width);
    });
    return tables;
  }

  /** The usual states with each parameter in turn moved up and down, `width` between them; memory is used again for the next. */
  #eachMoved(
    parameters: Float64Array,
    take: (column: number, up: UsualStates, down: UsualStates, width: number) => void,
  ): void {
    this.#setting.free.forEach((index, column) => {
      const step = STEP * this.#sds[index]!;
      const up = this.#shifted(parameters, index, column, step, this.#up);
      const down = this.#shifted(parameters, index, column, -step, this.#down);
      take(column, up, down, 2 * step);
    });
  }

  #slopesInto(
    tables: readonly Float64Array[],
    column: number,
    up: UsualStates,
    down: UsualStates,
    width: number,
  ): void {
    const { free } = this.#setting;
    this.#series.forEach((one, place) => {
      if (isOfMotion(one.name) && isOfWindSensors(free[column]!)) return;
      one.slopes(judgedBy(one, down), judgedBy(one, up), width, tables[place]!, column, free.length);
    });
  }

  #goTo(parameters: Float64Array): void {
    this.#setting.free.forEach((index, place) => {
      this.#trial[index] = parameters[place]!;
    });
  }

  #shifted(
    parameters: Float64Array,
    index: number,
    column: number,
    by: number,
    out: UsualStates,
  ): UsualStates {
    this.#goTo(parameters);
    this.#trial[index] = parameters[column]! + by;
    return usualAt(this.#setting, this.#trial, out, isOfWindSensors(index) ? "wind" : "wind and motion");
  }
}
