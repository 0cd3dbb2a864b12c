import type { Tack } from "../sailing/legRow.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { Metres, MetresPerSecond, Radians, Seconds } from "../units.ts";
import type { BoatFaults } from "./faults.ts";
import type { SensorTrouble } from "./sensorTroubles.ts";

/** Everything that a simulated sail follows from: the same scenario gives the same sail, to the last bit. */
export interface Scenario {
  /** Of the chances within the day: a whole number. */
  readonly seed: number;
  /** s since 1970 UTC, a whole second. */
  readonly start: Seconds;
  readonly latitude: Radians;
  readonly longitude: Radians;
  /** Of the wind sensor above the axis of roll. */
  readonly mastHeight: Metres;
  readonly faults: BoatFaults;
  readonly wind: WindOfDay;
  readonly shear: ShearOfDay;
  readonly current: CurrentOfDay;
  readonly sea: SeaOfDay;
  readonly helm: Helm;
  readonly plan: readonly PlanStep[];
  readonly log: LogForm;
  /** What happens to sensors under way; nothing where it is left out. */
  readonly troubles?: readonly SensorTrouble[];
}

/** M72. Wind over the ground at the masthead. */
export interface WindOfDay {
  /** Mean over the sail: where it comes from; its speed, the mean of the logarithm. */
  readonly direction: Radians;
  readonly speed: MetresPerSecond;
  /** How far direction and ln speed wander, standard deviations over the sail: all in all, and the turbulence in it. */
  readonly directionSd: Radians;
  readonly turbulentDirectionSd: Radians;
  readonly logSpeedSd: number;
  readonly turbulentLogSpeedSd: number;
  /** Time scale of the turbulence. */
  readonly turbulenceSeconds: Seconds;
  /** Veer, and rise of ln speed, from the first second to the last; part of the wander. */
  readonly veer: Radians;
  readonly rise: number;
  /** How much further to the right it comes from far out to the right, seen to windward, than in the middle. */
  readonly bend: Radians;
  /** How heavy the tails of the turbulence are, the h of M177; 0, none heavier than a normal number's, where it is left out. */
  readonly gustTails?: number;
}

/** How the wind at the sails differs from the one at the masthead. */
export interface ShearOfDay {
  /** By how much it comes from further to the right. */
  readonly twist: Radians;
  readonly twistWander: Radians;
  /** Speed at the sails over speed at the masthead. */
  readonly speedRatio: number;
}

/** A tide that runs to and fro, and wanders a little. */
export interface CurrentOfDay {
  readonly strength: MetresPerSecond;
  /** Where the flood goes. */
  readonly set: Radians;
  /** At the start, 0 being slack before the flood. */
  readonly phase: Radians;
  readonly wander: MetresPerSecond;
}

/** What the waves do to her: standard deviations, and how often. */
export interface SeaOfDay {
  readonly roll: Radians;
  readonly pitch: Radians;
  readonly yaw: Radians;
  /** Hz, of the roll. */
  readonly rollFrequency: number;
  readonly pitchFrequency: number;
  /** By which share waves from one side slow her on starboard tack, and make her slide more, and the reverse on port (M178); 0. */
  readonly skew?: number;
}

/** Whoever steers. */
export interface Helm {
  /** To windward by the sails themselves, or by the displayed wind angle. */
  readonly steersBy: "sails" | "display";
  /** Sails so much wider of the wind on starboard tack, and so much closer on port. */
  readonly asymmetry: Radians;
  /** How far off the wanted angle without noticing, standard deviation. */
  readonly noise: Radians;
}

/** What is done one after another; the turn into it is part of a step. */
export type PlanStep =
  | {
      readonly kind: "motor";
      readonly heading: Radians;
      readonly speed: MetresPerSecond;
      readonly seconds: Seconds;
    }
  /** Circles, sails down: whole turns, to starboard positive, at a rate in rad/s. */
  | {
      readonly kind: "circle";
      readonly turns: number;
      readonly rate: number;
      readonly speed: MetresPerSecond;
    }
  | { readonly kind: "beat" | "run" | "luff"; readonly tack: Tack; readonly seconds: Seconds }
  | { readonly kind: "reach"; readonly tack: Tack; readonly angle: Radians; readonly seconds: Seconds };

/** A sensor on its way into the log. */
export interface SensorForm {
  readonly present: boolean;
  /** How old a value is when it is put out, and how much the instrument smooths it. */
  readonly lag: Seconds;
  readonly damping: Seconds;
  /** Standard deviation of what it adds, a reading of a quarter of a second; rad or m/s. */
  readonly noise: number;
}

/** What is logged, and how. */
export interface LogForm {
  readonly wind: SensorForm & { readonly speedNoise: number };
  readonly paddle: SensorForm;
  readonly compass: SensorForm;
  readonly heel: SensorForm;
  readonly gps: SensorForm;
  /** Readings a second of wind and of heel and pitch: 1, 2 or 4; the rest comes once a second. */
  readonly windRate: 1 | 2 | 4;
  readonly heelRate: 1 | 2 | 4;
  /** Decimals of angles in degrees, of speeds in knots. */
  readonly angleDecimals: number;
  readonly speedDecimals: number;
  /** Which north the logged headings count from. */
  readonly headings: "magnetic" | "true";
  /** Corrections that the instruments apply to what their sensors read. */
  readonly active: SensorSettings;
  /** An hour: single readings far off, silences of a sensor, lines that are broken. */
  readonly spikesPerHour: number;
  readonly silencesPerHour: number;
  readonly brokenLinesPerHour: number;
  /** Whether the computer on board adds the true wind that it makes of it. */
  readonly onboardTrueWind: boolean;
}
