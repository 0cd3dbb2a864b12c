import type { ExerciseKind } from "../../calibration/boatRecord.ts";
import { berth, clock } from "./alongside.ts";
import { anemometer } from "./anemometer.ts";
import { calm } from "./calm.ts";
import { channel, temperature } from "./channels.ts";
import { circle } from "./circle.ts";
import { depth } from "./depth.ts";
import { dock } from "./dock.ts";
import type { ExerciseDefinition } from "./exerciseKind.ts";
import { runs } from "./runs.ts";

/** Every deliberate exercise, in the order in which a boat is calibrated. */
export const EXERCISE_DEFINITIONS: Readonly<Record<ExerciseKind, ExerciseDefinition>> = {
  runs,
  circle,
  dock,
  calm,
  anemometer,
  depth,
  temperature,
  channel,
  berth,
  clock,
};
