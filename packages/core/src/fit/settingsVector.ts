import type { LawErrors } from "../sensors/lawErrors.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { PARAMETER_NAMES, type ParameterName } from "./boatFit.ts";
import { LAW_ERROR_NAMES } from "./priors.ts";

/** Place of each parameter in the vector. */
export const INDEX_OF = Object.fromEntries(PARAMETER_NAMES.map((name, index) => [name, index])) as Readonly<
  Record<ParameterName, number>
>;

/** Place of what the laws leave out (M29) in the vector, behind the parameters. */
export const LAW_INDEX_OF = Object.fromEntries(
  LAW_ERROR_NAMES.map((name, index) => [name, PARAMETER_NAMES.length + index]),
) as Readonly<Record<keyof LawErrors, number>>;

/** M47. What the laws leave out in a vector that goes on behind the parameters. Never throws. */
export function lawErrorsOf(vector: ArrayLike<number>): LawErrors {
  const at = (name: keyof LawErrors): number => vector[LAW_INDEX_OF[name]] ?? Number.NaN;
  return {
    sidesMeet: at("sidesMeet"),
    deficitFalling: at("deficitFalling"),
    leewayPower: at("leewayPower"),
    leewaySkew: at("leewaySkew"),
    windage: at("windage"),
    thirdSine: at("thirdSine"),
    thirdCosine: at("thirdCosine"),
    compassDrift: at("compassDrift"),
  };
}

/**
 * M47. The settings that a parameter vector stands for. Gains enter by their logarithms, the two tacks' gains by mean
 * and difference: ln gain = mean ± difference / 2.
 *
 * @param vector parameters in the order of PARAMETER_NAMES, SI and radians
 * @param heelSign +1 where the installation reads heel to starboard as positive, else −1
 * @returns settings that undo the faults; NaN where the vector is too short. Never throws.
 * @example
 * settingsOf(vectorOf(noCorrections), 1) // noCorrections
 */
export function settingsOf(vector: ArrayLike<number>, heelSign: 1 | -1): SensorSettings {
  const at = (name: ParameterName): number => vector[INDEX_OF[name]] ?? Number.NaN;
  return {
    speed: {
      intercept: at("speed.intercept"),
      gainStarboard: Math.exp(at("speed.gain") + at("speed.gainDifference") / 2),
      gainPort: Math.exp(at("speed.gain") - at("speed.gainDifference") / 2),
    },
    compass: {
      a: at("compass.a"),
      b: at("compass.b"),
      c: at("compass.c"),
      d: at("compass.d"),
      e: at("compass.e"),
      heelingError: at("compass.heelingError"),
    },
    heel: { sign: heelSign, zero: at("heel.zero") },
    heelModel: { fullHeel: at("heelModel.fullHeel") },
    vane: {
      mastheadOffset: at("vane.mastheadOffset"),
      upwash: at("vane.upwash"),
      upwashSlope: at("vane.upwashSlope"),
      upwashBroad: at("vane.upwashBroad"),
    },
    anemometer: {
      threshold: at("anemometer.threshold"),
      gain: Math.exp(at("anemometer.gain")),
      speedUp: at("anemometer.speedUp"),
    },
    leeway: { coefficient: at("leeway.coefficient") },
  };
}

/**
 * The parameter vector of settings: the inverse of `settingsOf` (M47). Never throws.
 *
 * @example
 * vectorOf(noCorrections).length === PARAMETER_NAMES.length // true
 */
export function vectorOf(settings: SensorSettings): Float64Array {
  const { speed, compass, heel, heelModel, vane, anemometer, leeway } = settings;
  const values: Readonly<Record<ParameterName, number>> = {
    "speed.intercept": speed.intercept,
    "speed.gain": Math.log(speed.gainStarboard * speed.gainPort) / 2,
    "speed.gainDifference": Math.log(speed.gainStarboard / speed.gainPort),
    "compass.a": compass.a,
    "compass.b": compass.b,
    "compass.c": compass.c,
    "compass.d": compass.d,
    "compass.e": compass.e,
    "compass.heelingError": compass.heelingError,
    "heel.zero": heel.zero,
    "heelModel.fullHeel": heelModel.fullHeel,
    "leeway.coefficient": leeway.coefficient,
    "vane.mastheadOffset": vane.mastheadOffset,
    "vane.upwash": vane.upwash,
    "vane.upwashSlope": vane.upwashSlope,
    "vane.upwashBroad": vane.upwashBroad,
    "anemometer.threshold": anemometer.threshold,
    "anemometer.gain": Math.log(anemometer.gain),
    "anemometer.speedUp": anemometer.speedUp,
  };
  return Float64Array.from(PARAMETER_NAMES, (name) => values[name]);
}

/**
 * The parameter vector of settings with the laws taken at their word behind it (M29). Never throws.
 */
export function vectorWithExactLaws(settings: SensorSettings): Float64Array {
  const vector = new Float64Array(PARAMETER_NAMES.length + LAW_ERROR_NAMES.length);
  vector.set(vectorOf(settings));
  return vector;
}
