import type { ParameterName } from "../sensors/parameterNames.ts";

/** The parameters as a sailor calls them, to stand in a sentence. */
export const PARAMETER_WORDS: Readonly<Record<ParameterName, string>> = {
  "speed.intercept": "the boat speed intercept",
  "speed.gain": "the boat speed gain",
  "speed.gainDifference": "the difference of the boat speed gain between the tacks",
  "compass.a": "the compass alignment (A)",
  "compass.b": "the deviation that follows the sine of the heading (B)",
  "compass.c": "the deviation that follows the cosine of the heading (C)",
  "compass.d": "the deviation that follows the sine of twice the heading (D)",
  "compass.e": "the deviation that follows the cosine of twice the heading (E)",
  "compass.heelingError": "the heeling error of the compass",
  "heel.zero": "the heel zero",
  "heelModel.fullHeel": "how far the boat heels",
  "leeway.coefficient": "leeway",
  "vane.mastheadOffset": "the masthead offset",
  "vane.upwash": "the upwash",
  "vane.upwashSlope": "how the upwash changes with the wind",
  "vane.upwashBroad": "the upwash off the wind",
  "anemometer.threshold": "the wind speed threshold",
  "anemometer.gain": "the wind speed gain",
  "anemometer.speedUp": "the speed-up of the wind over the sails",
};
