import { changesNothing } from "../calibration/activeReadings.ts";
import type { Calibration } from "../calibration/calibration.ts";
import { unknownBoatReadings } from "../sensors/boatReadings.ts";
import {
  type BoatReadings,
  type BoatState,
  type Circumstances,
  underSail,
  unknownBoatState,
} from "../sensors/boatState.ts";
import { noCorrections } from "../sensors/noCorrections.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { Metres, Radians, Seconds } from "../units.ts";
import { RATE_MEMORY } from "./attitudeRate.ts";
import { DAMPING_MEMORY } from "./damping.ts";
import { LIVE_SAMPLE_LENGTH, LIVE_WIND_LENGTH } from "./liveArrays.ts";

/** Time constants of what is damped (M150), s; 0: not damped. */
export interface LiveDamping {
  /** Of the wind's direction over water and ground. */
  readonly direction: Seconds;
  /** Of the wind's speed over water and ground. */
  readonly speed: Seconds;
  /** Of the true wind angle. */
  readonly angle: Seconds;
}

/** What a live true wind is worked out by; what is left out takes its default. */
export interface LiveOptions {
  /** Total settings that undo the sensors' faults; `noCorrections`. */
  readonly settings?: SensorSettings;
  /** What the instruments apply already, from the same base; `noCorrections`. */
  readonly active?: SensorSettings;
  /** Nothing is damped. */
  readonly damping?: Partial<LiveDamping>;
  /** Place of the wind sensor above the axis of roll and forward of the one of pitch, m; left out, its motion stays in. */
  readonly masthead?: { readonly height: Metres; readonly forward: Metres };
  /** Instruments that are there; something else stands in for the others. All are there. */
  readonly has?: { readonly paddle: boolean; readonly compass: boolean; readonly heel: boolean };
  /** The north that the heading is counted from; "magnetic". */
  readonly headingsAre?: "magnetic" | "true";
  /** rad, east positive, where a sample holds none; NaN: not known. */
  readonly variation?: Radians;
  /**
   * The north that answers count from; "true". "magnetic" takes no variation and tells nothing over the ground: for boats that have none.
   */
  readonly directionsAre?: "true" | "magnetic";
}

/** Everything that a live true wind remembers, held by the caller: one for each stream of samples. It can be cloned and sent to a worker. */
export interface LiveState {
  readonly options: Readonly<Required<Omit<LiveOptions, "damping" | "masthead">>>;
  readonly damping: LiveDamping;
  readonly masthead: { readonly height: Metres; readonly forward: Metres } | undefined;
  readonly anythingActive: boolean;
  /** A sample by name or column on its way in, in the units of LIVE_SAMPLE. */
  readonly sample: Float64Array;
  /** An answer by name or column on its way out, in the units of LIVE_WIND. */
  readonly answer: Float64Array;
  readonly readings: BoatReadings;
  readonly circumstances: { -readonly [Name in keyof Circumstances]: Circumstances[Name] };
  readonly boat: BoatState;
  /** Memories of M150, as numbers of any unit: direction, speed, angle over the water; direction, speed over the ground. */
  readonly damped: Float64Array;
  /** Memories of M151, rad, rad/s and s: heel, pitch, heading. */
  readonly rates: Float64Array;
  /** Rates of heel, pitch and heading, rad/s. */
  readonly rate: Float64Array;
}

const unknown = (length: number): Float64Array => new Float64Array(length).fill(Number.NaN);

function demandTimeConstant(name: string, value: Seconds): void {
  if (!(value >= 0 && value < Number.POSITIVE_INFINITY))
    throw new RangeError(`liveState: damping.${name} must be 0 s or more and finite, got ${value}`);
}

/**
 * The state of a live true wind that has heard nothing yet.
 *
 * @param options what is left out takes its default
 * @returns to be given to `liveWindInto`, `liveWind` or `liveWinds` with each sample
 * @throws RangeError where a time constant is negative or not finite
 * @example
 * const state = liveState({ damping: { direction: 8, speed: 4 }, masthead: { height: 17, forward: 0 } });
 */
export function liveState(options: LiveOptions = {}): LiveState {
  const damping = { direction: 0, speed: 0, angle: 0, ...options.damping };
  for (const [name, value] of Object.entries(damping)) demandTimeConstant(name, value);
  const { settings = noCorrections, active = noCorrections } = options;
  const { headingsAre = "magnetic", directionsAre = "true", variation = Number.NaN } = options;
  const { has = { paddle: true, compass: true, heel: true } } = options;
  return {
    options: { settings, active, has, headingsAre, directionsAre, variation },
    damping,
    masthead: options.masthead,
    anythingActive: !changesNothing(active),
    sample: unknown(LIVE_SAMPLE_LENGTH),
    answer: unknown(LIVE_WIND_LENGTH),
    readings: unknownBoatReadings(),
    circumstances: {
      ...underSail,
      stwIs: has.paddle ? "reading" : "true",
      headingIs: has.compass ? "reading" : "course",
      heelIs: has.heel ? "reading" : "modelled",
      variation: Number.NaN,
      mastheadAhead: Number.NaN,
      mastheadAthwart: Number.NaN,
    },
    boat: unknownBoatState(),
    damped: unknown(5 * DAMPING_MEMORY),
    rates: unknown(3 * RATE_MEMORY),
    rate: unknown(3),
  };
}

/**
 * The options by which a calibration is used live, while the instruments still apply what they did when its log was made.
 * Once its corrections are keyed in, `active` are the ones that were keyed in.
 *
 * @param calibration as `calibrationFromFile` returns it
 * @returns settings, what is active, the place of the wind sensor, the variation given for the boat, the north of its directions. Never throws.
 * @example
 * const state = liveState({ ...liveOptionsOf(calibration), damping: { direction: 8 } });
 */
export const liveOptionsOf = ({ fit, settings, boat, recording }: Calibration): LiveOptions => ({
  settings: fit.settings,
  active: settings.active,
  masthead: { height: boat.windSensorHeight, forward: boat.windSensorForward },
  variation: boat.variation,
  directionsAre: recording.directionsAre,
});
