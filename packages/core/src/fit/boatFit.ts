import type { FittedParameter, SolvedBoatFit, WanderScales } from "../calibration/calibration.ts";
import { PARAMETER_NAMES, type ParameterName } from "../sensors/parameterNames.ts";

export type { FittedParameter, SolvedBoatFit, WanderScales };
export { PARAMETER_NAMES, type ParameterName };

/** Data that cannot answer: no values, no standard deviations, but a reason. */
export interface UnsolvedBoatFit {
  readonly status: "unsolved";
  /** A sentence for the navigator. */
  readonly reason: string;
  readonly confounded: readonly ParameterName[];
  /** What stood in for what was missing, and what was refused: each a plain sentence. */
  readonly notes: readonly string[];
}

/** A boat's fit, or the reason why her rows cannot answer; standard deviations exist on a solved one only. */
export type BoatFit = SolvedBoatFit | UnsolvedBoatFit;
