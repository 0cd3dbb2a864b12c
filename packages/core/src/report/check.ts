import type { SourceRow } from "../recording/inventoryPart.ts";
import type { Problem } from "../recording/readings.ts";
import type { LegRow } from "../sailing/legRow.ts";
import type { SourcePair } from "../sailing/sourcePairs.ts";
import type { SwappedWind } from "../sailing/windOrder.ts";
import type { Seconds } from "../units.ts";
import type { RecordedSailing } from "./recordingText.ts";

/** A silence of the whole log: its start, s since 1970 UTC, and its length. */
export interface Gap {
  readonly start: Seconds;
  readonly seconds: Seconds;
}

/** One log of a recording: from its first second to its last, s since 1970 UTC; NaN where it tells no time. */
export interface LogSpan {
  readonly name: string;
  readonly start: Seconds;
  readonly end: Seconds;
}

/** What the readings of a recording are worth, source by source and beside each other. */
export interface RecordingHealth {
  readonly logs: readonly LogSpan[];
  /** Silences within the logs. */
  readonly gaps: readonly Gap[];
  readonly sources: readonly SourceRow[];
  readonly pairs: readonly SourcePair[];
  readonly swapped: readonly SwappedWind[];
  /** Whether the wind angle has port and starboard swapped. */
  readonly windIsMirrored: boolean;
  readonly problemCounts: Readonly<Record<Problem["kind"], number>>;
}

/** A recording, what is sailed in it, and what its readings are worth. */
export interface CheckedRecording extends RecordedSailing {
  readonly health: RecordingHealth;
}

/** All that `check` tells of a recording. */
export interface Check extends CheckedRecording {
  /** Summary rows. */
  readonly rows: readonly LegRow[];
}
