import type { LawErrors } from "../sensors/lawErrors.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { MetresPerSecond, Radians, Seconds } from "../units.ts";
import type { PlanStep } from "./scenario.ts";

/** How a quantity wanders (M44): a random walk and turbulence about it. */
export interface WalkAndTurbulence {
  /** Unit of the quantity per √s. */
  readonly slow: number;
  /** Standard deviation, unit of the quantity. */
  readonly fast: number;
}

/** Channels that a recording may lack. */
export type MissingChannel = "heel" | "gps" | "paddle";

/** Standard deviations of what each sensor adds to the mean of three seconds: rad and m/s. */
export interface ReadingNoise {
  readonly awa: Radians;
  readonly aws: MetresPerSecond;
  readonly stw: MetresPerSecond;
  readonly heading: Radians;
  readonly heel: Radians;
  /** Of each component of the velocity over ground. */
  readonly ground: MetresPerSecond;
}

/** How the two sides differ for the day although no sensor is at fault (M53). */
export interface Asymmetry {
  /** By how much the wind comes from further to starboard than the helm steers by, upwind. */
  readonly twist: Radians;
  /** Heel to starboard that is no wind's, under sail and under power. */
  readonly heel: Radians;
  readonly upright: Radians;
}

/**
 * M172. A sail at the level of legs, in which everything goes by the fit's own laws: what its statistics are worth shows, apart from its
 * physics. The same scenario gives the same rows, to the last bit.
 */
export interface LegScenario {
  readonly seed: number;
  /** −1: the same chances the other way round, so that over both what is odd in them cancels; 1 where it is left out. */
  readonly sign?: 1 | -1;
  /** s since 1970 UTC. */
  readonly start: Seconds;
  readonly plan: readonly PlanStep[];
  readonly wind: {
    /** Over the ground, at the start: where it comes from, and its speed. */
    readonly direction: Radians;
    readonly speed: MetresPerSecond;
    readonly directionWander: WalkAndTurbulence;
    /** Of ln speed. */
    readonly logSpeedWander: WalkAndTurbulence;
    readonly turbulenceSeconds: Seconds;
  };
  readonly current: {
    readonly east: MetresPerSecond;
    readonly north: MetresPerSecond;
    /** Of each component. */
    readonly wander: WalkAndTurbulence;
  };
  /** What undoes the sensors' faults, and what the laws leave out (M29). */
  readonly settings: SensorSettings;
  readonly laws: LawErrors;
  readonly asymmetry: Asymmetry;
  readonly noise: ReadingNoise;
  readonly without: readonly MissingChannel[];
}
