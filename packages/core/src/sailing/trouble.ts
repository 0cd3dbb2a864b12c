import type { Seconds } from "../units.ts";

/** Channels whose sensors are watched. */
export const WATCHED = ["awa", "aws", "stw", "heading", "heel"] as const;
/** What is watched for trouble. */
export type WatchedChannel = (typeof WATCHED)[number];

/** Frozen: one value stayed. Stopped: a wheel showed 0 under way. Fouled: a wheel showed too little. Turned: a step, and back or not. Mixed: two talked under one name. */
export type TroubleKind = "frozen" | "stopped" | "fouled" | "turned" | "spikes" | "mixed";

/** What became of what a trouble touched: the rows, the channel all over the recording, or the seconds were left out; or its size was taken off the readings. */
export type Remedy =
  | "rows left out"
  | "channel left out"
  | "seconds left out"
  | "set right"
  | "nothing left out";

/** A sensor's trouble, from when to when, and what was done. Plain values. */
export interface Trouble {
  readonly kind: TroubleKind;
  readonly channel: WatchedChannel;
  /** s since 1970 UTC. */
  readonly start: Seconds;
  readonly end: Seconds;
  /**
   * How large: of a frozen channel the value at which it stood, SI; of a stopped or fouled wheel the share of the speed that it
   * showed; of a turned sensor by how much more it read between start and end than in the rest of the recording, rad; of spikes
   * the number of seconds; of two sensors under one name how far apart they were, SI.
   */
  readonly size: number;
  readonly remedy: Remedy;
}

/** With another remedy. Never throws. */
export const treatedBy = (trouble: Trouble, remedy: Remedy): Trouble => ({ ...trouble, remedy });
