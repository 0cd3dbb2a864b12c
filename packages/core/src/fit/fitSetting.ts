import type { RecordingChannels } from "./fitContext.ts";
import type { RowEvidence } from "./rowEvidence.ts";

/** What a fit goes by from its first round to its last. */
export interface FitSetting {
  readonly evidence: readonly RowEvidence[];
  readonly channels: RecordingChannels;
  readonly heelSign: 1 | -1;
  /** Indices of the parameters that may move. */
  readonly free: readonly number[];
}
