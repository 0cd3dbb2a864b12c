import type { SettingsBase } from "../calibration/boat.ts";
import type { Agreements } from "../calibration/calibration.ts";
import type { BoatFit } from "../fit/boatFit.ts";
import type { LineCount, Problem, Source } from "../recording/readings.ts";
import type { Leg, Turn } from "../sailing/legRow.ts";
import type { Trouble } from "../sailing/trouble.ts";
import type { SensorSettings } from "../sensors/parameters.ts";

/** What a recording was found to hold. */
export interface RecordingSummary {
  readonly files: readonly string[];
  /** Files that were given but not used, with why in words; absent where there are none. */
  readonly filesLeftOut?: readonly { readonly name: string; readonly reason: string }[];
  /** What the files consist of, one of each: "NMEA 0183 sentence". */
  readonly records?: readonly string[];
  /** s since 1970 UTC. */
  readonly start: number;
  /** s since 1970 UTC. */
  readonly end: number;
  readonly lines: LineCount;
  /** The first problems (at most 100); `lines.problems` counts them all. */
  readonly problems: readonly Problem[];
  /** The source chosen for each quantity, with why, and its readings a second. */
  readonly chosen: readonly { readonly source: Source; readonly why: string; readonly rate: number }[];
  readonly others: readonly { readonly source: Source; readonly why: string; readonly rate: number }[];
  /** Lag of each channel behind the apparent wind (s), where it could be found. */
  readonly lags: readonly { readonly channel: string; readonly seconds: number }[];
  /** How many seconds are in rows under sail, in rows under power, and in none. */
  readonly seconds: {
    /** s. */
    readonly sailing: number;
    /** s. */
    readonly motoring: number;
    /** s. */
    readonly other: number;
  };
  readonly directionsAre: "true" | "magnetic";
  /** How many rows the answer rests on, of how many; absent where it rests on all. */
  readonly rows?: { readonly used: number; readonly all: number };
}

/** True wind row by row, before and after: the picture of the wind coming to rest. Columns of one length. */
export interface WindTrack {
  /** s since 1970 UTC, a row each. */
  readonly time: Float64Array;
  readonly tack: readonly ("starboard" | "port")[];
  readonly kind: readonly ("sailing" | "motoring")[];
  /** rad, wind over the ground where GPS exists, else over the water. */
  readonly directionBefore: Float64Array;
  /** rad. */
  readonly directionAfter: Float64Array;
  /** m/s */
  readonly speedBefore: Float64Array;
  /** m/s. */
  readonly speedAfter: Float64Array;
  /** True wind angle after, rad. */
  readonly angleAfter: Float64Array;
  /** Whitened residuals of direction and log speed after the fit, in standard deviations (NaN where unsolved). */
  readonly directionResidual: Float64Array;
  /** No unit: over its standard deviation. */
  readonly speedResidual: Float64Array;
  readonly overGround: boolean;
}

export type { SettingsBase };

/** The words for the navigator, each entry a full sentence. */
export interface PlainWords {
  readonly keyIn: readonly string[];
  readonly leaveAlone: readonly string[];
  readonly couldNotTell: readonly string[];
  readonly sailNext: readonly string[];
  readonly notes: readonly string[];
}

/** All that one run of the main job has to say; command line, page and report draw from it. */
export interface Answer {
  readonly recording: RecordingSummary;
  /** The legs and turns that the answer rests on. */
  readonly legs: readonly Leg[];
  readonly turns: readonly Turn[];
  /** Those that were left out at the navigator's wish; absent where there are none. */
  readonly leftOut?: { readonly legs: readonly Leg[]; readonly turns: readonly Turn[] };
  /** Troubles of sensors, of which the legs hold nothing any more (M90 to M96); absent where there are none. */
  readonly troubles?: readonly Trouble[];
  readonly base: SettingsBase;
  /** Settings that the instruments already applied, counted from the base. */
  readonly active: SensorSettings;
  readonly fit: BoatFit;
  readonly before: Agreements;
  /** Agreements after; undefined when the fit is unsolved. */
  readonly after?: Agreements;
  readonly track: WindTrack;
  readonly words: PlainWords;
}

/** What the words are drawn from: an answer before it has words. */
export type WordlessAnswer = Omit<Answer, "words">;
