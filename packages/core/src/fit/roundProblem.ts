import type { FitSetting } from "./fitSetting.ts";
import { type ImpliedStates, impliedStates } from "./impliedState.ts";
import type { LeastSquaresProblem } from "./leastSquaresProblem.ts";
import { priorWhitening } from "./priorCovariance.ts";
import { priorMeans, priorSds } from "./priors.ts";
import { measuredStates, statesOfLegs, usualStates } from "./rowEvidence.ts";
import { type ImpliedSlopes, isOfMotion, seriesSlope } from "./sailingSeries.ts";
import type { ScalarEvidence } from "./scalarEvidence.ts";
import { residualsOfMeans, scalarResiduals } from "./scalarResiduals.ts";
import { lawErrorsOf, settingsOf } from "./settingsVector.ts";
import { UsualTangent } from "./usualTangent.ts";
import type { WanderingSeries } from "./wanderingSeries.ts";

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

/** Usual states at a vector of parameters. Never throws. */
function usualAt(
  { evidence, heelSign, channels }: FitSetting,
  vector: Float64Array,
  out: UsualStates,
): UsualStates {
  const [settings, laws] = [settingsOf(vector, heelSign), lawErrorsOf(vector)];
  usualStates(evidence, settings, channels, laws, out.wind);
  statesOfLegs(evidence, settings, channels, laws, out.motion);
  return out;
}

/** One of the scalars of which a row is a part, and which part of its mean. */
interface PartOfMean {
  readonly scalar: number;
  readonly place: ScalarEvidence["place"];
  readonly share: number;
}

/** What rows are a part of; undefined for those of none. */
function partsOfMeans(
  scalars: readonly ScalarEvidence[],
  rows: number,
): readonly (readonly PartOfMean[] | undefined)[] {
  const parts = Array.from<PartOfMean[] | undefined>({ length: rows });
  scalars.forEach(({ groups, place }, scalar) => {
    for (const group of groups)
      for (const row of group) {
        parts[row] ??= [];
        parts[row].push({ scalar, place, share: 1 / group.length / groups.length });
      }
  });
  return parts;
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
  /** Memory for the usual states at a point. */
  readonly #there: UsualStates;
  readonly #trial: Float64Array;
  readonly #means = priorMeans();
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
    const sds = priorSds();
    this.scale = free.map((index) => sds[index]!);
    this.#setting = setting;
    this.#whitening = priorWhitening(free).to2DArray();
    this.#series = series;
    this.#scalars = scalars;
    this.#measured = measured;
    this.#usual = usualAt(setting, vector, emptyUsualStates(evidence.length));
    this.#there = emptyUsualStates(evidence.length);
    this.#trial = Float64Array.from(vector);
  }

  residuals(parameters: Float64Array, out: Float64Array): void {
    const { evidence, free } = this.#setting;
    this.#goTo(parameters);
    const to = usualAt(this.#setting, this.#trial, this.#there);
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
    const blocks = this.#series.map((_, place) =>
      out.subarray(place * rows * columns, (place + 1) * rows * columns),
    );
    const means = free.map(() => this.#scalars.map(() => 0));
    const parts = partsOfMeans(this.#scalars, rows);
    this.#writeSlopes(parameters, blocks, (row, column, slopes) => {
      for (const { scalar, place, share } of parts[row] ?? [])
        means[column]![scalar]! += share * slopes[place];
    });
    this.#series.forEach((one, place) => {
      one.whitenTable(blocks[place]!, columns);
    });
    let from = this.#series.length * rows * columns;
    const ofScalars = means.map((ofColumn) => residualsOfMeans(this.#scalars, ofColumn));
    for (const place of this.#scalars.keys())
      for (const ofColumn of ofScalars) out[from++] = ofColumn[place]!;
    for (const row of this.#whitening) for (const value of row) out[from++] = value;
  }

  /** Slopes of each series by the parameters before whitening, row-major, rows × parameters. */
  plainSlopes(parameters: Float64Array): readonly Float64Array[] {
    const { evidence, free } = this.#setting;
    const tables = this.#series.map(() => new Float64Array(evidence.length * free.length));
    this.#writeSlopes(parameters, tables);
    return tables;
  }

  /** Writes the slopes of each series before whitening; whoever wants them is shown what they are made of. */
  #writeSlopes(
    parameters: Float64Array,
    tables: readonly Float64Array[],
    show?: (row: number, column: number, slopes: Readonly<ImpliedSlopes>) => void,
  ): void {
    const columns = this.#setting.free.length;
    this.#goTo(parameters);
    const tangent = new UsualTangent(this.#setting, this.#trial);
    for (let row = 0; row < this.#setting.evidence.length; row++) {
      tangent.goTo(row);
      for (let column = 0; column < columns; column++) {
        const slopes = tangent.slopes(column);
        for (let place = 0; place < tables.length; place++)
          tables[place]![row * columns + column] = seriesSlope(this.#series[place]!.name, slopes);
        show?.(row, column, slopes);
      }
    }
  }

  #goTo(parameters: Float64Array): void {
    this.#setting.free.forEach((index, place) => {
      this.#trial[index] = parameters[place]!;
    });
  }
}
