import { type Boat, leewayLawBreakers } from "../calibration/boat.ts";
import type { CalibratedRecording } from "../calibration/calibration.ts";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import type { RecordingChannels } from "../fit/fitContext.ts";
import type { QuantityName } from "../recording/readings.ts";
import { type Plan, type PlanRequest, planOf } from "./plan.ts";

/** What of a plan is up to the navigator. */
export type PlanWishes = Pick<PlanRequest, "seconds" | "windSpeed" | "windDirection" | "underPower">;

/**
 * The channels that a recording with these sources offers (M50). Never throws.
 *
 * @example
 * channelsChosen(calibration.recording.chosen).compass // true
 */
export function channelsChosen(chosen: CalibratedRecording["chosen"]): RecordingChannels {
  const has = (...names: readonly QuantityName[]): boolean =>
    chosen.some(({ source }) => names.includes(source.quantity));
  return {
    compass: has("headingMagnetic", "headingTrue"),
    paddle: has("speedThroughWater"),
    gps: has("speedOverGround") && has("courseOverGround"),
    heel: has("heel"),
  };
}

/**
 * M84. What to sail next after a fit, with the same instruments and crew.
 *
 * @param chosen sources of the recording that it was made from
 * @throws as `planOf`
 * @example
 * planFrom(fit, boat, calibration.recording.chosen, { seconds: 900 }).exercises.length > 0 // true
 */
export const planFrom = (
  fit: SolvedBoatFit,
  boat: Boat,
  chosen: CalibratedRecording["chosen"],
  wishes: PlanWishes,
): Plan =>
  planOf({
    ...wishes,
    fit,
    channels: channelsChosen(chosen),
    context: {
      heelSign: boat.heelSensorSign,
      steeredBy: boat.steeredBy,
      leewayLawHolds: leewayLawBreakers(boat.rig).length === 0,
    },
  });
