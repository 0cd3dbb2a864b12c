import { trueWindAngle } from "../physics/windTriangle.ts";
import {
  type BoatState,
  boatStateOf,
  type Circumstances,
  overWaterWind,
  underSail,
  unknownBoatState,
} from "../sensors/boatState.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { Radians } from "../units.ts";
import type { TableRow } from "./cells.ts";
import type { ComputerState, WindReading } from "./computer.ts";

/** A row's means after settings that hold no upwash: what reaches the computer. */
export interface KeyedReading {
  readonly apparent: WindReading;
  readonly state: ComputerState;
}

/** Everything is counted from the bow. */
const BOW: Radians = 0;

/** A row's state (M27); speed over ground stands in where the log holds none through the water. */
function stateOf(
  { mean }: TableRow,
  settings: SensorSettings,
  heel: Pick<Circumstances, "heelIs">,
): BoatState {
  const withWheel = !Number.isNaN(mean.stw);
  const readings = {
    ...mean,
    heading: BOW,
    stw: withWheel ? mean.stw : Math.hypot(mean.east, mean.north),
    heel: heel.heelIs === "true" ? 0 : mean.heel,
  };
  const circumstances: Circumstances = {
    ...underSail,
    ...heel,
    headingIs: "true",
    stwIs: withWheel ? "reading" : "true",
  };
  return boatStateOf(readings, circumstances, settings, unknownBoatState());
}

/**
 * What reaches the computer of a row once single settings are keyed in (M27). A computer without a heel sensor takes the
 * boat as upright.
 *
 * @param keyed settings without upwash and speed-up
 * @returns NaN where a reading is missing. Never throws.
 */
export function keyedReading(row: TableRow, keyed: SensorSettings): KeyedReading {
  const upright = Number.isNaN(row.mean.heel);
  const { flowAngle, flowSpeed, speedAhead, heel, leeway } = stateOf(row, keyed, {
    heelIs: upright ? "true" : "reading",
  });
  return {
    apparent: { angle: flowAngle, speed: flowSpeed },
    state: { boatSpeed: speedAhead, heel, leeway },
  };
}

/**
 * The best estimate of the true wind over the water of a row: everything undone (M27); heel is the stand-in from the
 * wind (M25) where there is no sensor, as in the fit.
 *
 * @returns angle to the bow, rad, and speed, m/s; NaN where a reading is missing that nothing stands in for. Never throws.
 */
export function bestTrueWind(row: TableRow, settings: SensorSettings): WindReading {
  const state = stateOf(row, settings, { heelIs: Number.isNaN(row.mean.heel) ? "modelled" : "reading" });
  const { direction, speed } = overWaterWind(state);
  return { angle: trueWindAngle(direction, BOW), speed };
}
