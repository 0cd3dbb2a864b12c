import { unknownBoatReadings } from "../sensors/boatReadings.ts";
import type { BoatReadings } from "../sensors/boatState.ts";
import type { LawErrors } from "../sensors/lawErrors.ts";
import { PARAMETER_NAMES, type ParameterName } from "../sensors/parameterNames.ts";
import {
  type ActsOn,
  type Move,
  type StateSlopes,
  StateTangent,
  type Undoing,
  unknownSlopes,
} from "../sensors/stateTangent.ts";
import type { FitSetting } from "./fitSetting.ts";
import { readingsFrom } from "./impliedState.ts";
import { LAW_ERROR_NAMES, priorSds } from "./priors.ts";
import type { ImpliedSlopes } from "./sailingSeries.ts";
import { lawErrorsOf, settingsOf } from "./settingsVector.ts";

/**
 * Steps of the differences, as shares of the prior standard deviation: what they are taken of bends by a tenth of itself over a whole one, and
 * has sixteen digits.
 */
const STEP = 1e-6;

/** What each parameter, and each error of a law, acts on first (M193). */
const ACTS_ON: Readonly<Record<ParameterName | keyof LawErrors, ActsOn>> = {
  "speed.intercept": "speed",
  "speed.gain": "speed",
  "speed.gainDifference": "speed",
  "compass.a": "heading",
  "compass.b": "heading",
  "compass.c": "heading",
  "compass.d": "heading",
  "compass.e": "heading",
  "compass.heelingError": "heading",
  "heel.zero": "heel or leeway",
  "heelModel.fullHeel": "heel or leeway",
  "leeway.coefficient": "heel or leeway",
  "vane.mastheadOffset": "flow",
  "vane.upwash": "flow",
  "vane.upwashSlope": "flow",
  "vane.upwashBroad": "flow",
  "anemometer.threshold": "flow",
  "anemometer.gain": "flow",
  "anemometer.speedUp": "flow",
  sidesMeet: "speed",
  deficitFalling: "speed",
  leewayPower: "heel or leeway",
  leewaySkew: "heel or leeway",
  windage: "heel or leeway",
  thirdSine: "heading",
  thirdCosine: "heading",
  compassDrift: "heading",
};

const NAMES = [...PARAMETER_NAMES, ...LAW_ERROR_NAMES];

/**
 * M193. How what is usual for rows (M48, M50) changes with the free parameters, about one vector of all parameters: row by row, parameter by
 * parameter, into the same memory.
 */
export class UsualTangent {
  readonly #setting: FitSetting;
  readonly #at: Undoing;
  readonly #moves: readonly Move[];
  readonly #wind = new StateTangent();
  readonly #motion = new StateTangent();
  readonly #readingsOfWind: BoatReadings = unknownBoatReadings();
  readonly #readingsOfMotion: BoatReadings = unknownBoatReadings();
  readonly #slopes: StateSlopes = unknownSlopes();
  readonly #implied: ImpliedSlopes = {
    atEast: Number.NaN,
    atNorth: Number.NaN,
    windEast: Number.NaN,
    windNorth: Number.NaN,
    currentEast: Number.NaN,
    currentNorth: Number.NaN,
    apparentAngle: Number.NaN,
    heel: Number.NaN,
  };

  /** @param vector all parameters, and behind them what the laws leave out */
  constructor(setting: FitSetting, vector: Float64Array) {
    const undoing = (moved: Float64Array): Undoing => ({
      settings: settingsOf(moved, setting.heelSign),
      laws: lawErrorsOf(moved),
    });
    const sds = priorSds();
    this.#setting = setting;
    this.#at = undoing(vector);
    this.#moves = setting.free.map((index) => {
      const by = STEP * sds[index]!;
      const to = undoing(vector.with(index, vector[index]! + by));
      return { actsOn: ACTS_ON[NAMES[index]!], to, by };
    });
  }

  /** Goes to a row. Never throws. */
  goTo(row: number): void {
    const { evidence, channels } = this.#setting;
    const { nominal, ofLeg, circumstances } = evidence[row]!;
    readingsFrom(nominal, channels, this.#readingsOfWind);
    readingsFrom(ofLeg, channels, this.#readingsOfMotion);
    this.#wind.goTo(this.#readingsOfWind, circumstances, this.#at);
    this.#motion.goTo(this.#readingsOfMotion, circumstances, this.#at);
    const { overGroundEast, overGroundNorth, overWaterEast, overWaterNorth } = this.#wind.state;
    this.#implied.atEast = channels.gps ? overGroundEast : overWaterEast;
    this.#implied.atNorth = channels.gps ? overGroundNorth : overWaterNorth;
  }

  /**
   * The slopes of this row's wind, as usual for its point of sailing, and of its current, as usual on its leg.
   *
   * @param column which of the free parameters
   * @returns overwritten by the next. Never throws.
   */
  slopes(column: number): ImpliedSlopes {
    const { gps, paddle, compass } = this.#setting.channels;
    const [move, slopes, implied] = [this.#moves[column]!, this.#slopes, this.#implied];
    this.#wind.slopes(move, slopes);
    implied.windEast = gps ? slopes.overGroundEast : slopes.overWaterEast;
    implied.windNorth = gps ? slopes.overGroundNorth : slopes.overWaterNorth;
    implied.apparentAngle = slopes.apparentAngle;
    implied.heel = slopes.heel;
    // the wind's sensors have no part in her motion
    if (move.actsOn !== "flow") this.#motion.slopes(move, slopes);
    const drifts = gps && paddle && compass;
    implied.currentEast = drifts ? slopes.currentEast : Number.NaN;
    implied.currentNorth = drifts ? slopes.currentNorth : Number.NaN;
    return implied;
  }
}
