import type { ActiveSettings, Boat } from "../../calibration/boat.ts";
import type { ExerciseKind } from "../../calibration/boatRecord.ts";
import type { Finding, SensorName } from "../../calibration/findings.ts";
import type { FormLegend } from "../../report/exercises/exerciseText.ts";
import type { SensorSettings } from "../../sensors/parameters.ts";
import type { Seconds } from "../../units.ts";
import type { JobRun, LogSource } from "../logSource.ts";

/** What an exercise is worked out from. */
export interface ExerciseGiven {
  /** The form's fields, and its name for messages; none where only logs were given. */
  readonly fields: Readonly<Record<string, unknown>>;
  readonly file: string;
  /** The line of each of the form's rows, where it is a table. */
  readonly lines?: readonly number[];
  readonly logs: readonly LogSource[];
  /** Logs of another source that the sensor is compared with. */
  readonly reference?: readonly LogSource[];
  readonly boat: Boat;
  /** What was active in the instruments. */
  readonly settings: ActiveSettings;
  readonly run: JobRun;
}

/** What came of an exercise. */
export type ExerciseOutcome =
  | {
      readonly status: "solved";
      /** When it was sailed; NaN where the form does not tell. */
      readonly at: Seconds;
      readonly findings: readonly Finding[];
      readonly total?: SensorSettings;
      readonly restsOn: readonly SensorName[];
      /** The answer in sentences, the most important first. */
      readonly words: readonly string[];
      /** A table of it, its first row the heads. */
      readonly table?: readonly (readonly string[])[];
      /** Lines of a drawing in letters. */
      readonly sketch?: readonly string[];
      readonly notes: readonly string[];
    }
  | { readonly status: "unsolved"; readonly reason: string };

/** An exercise: what it is, how it is sailed, what its form is, how it is worked out. */
export interface ExerciseDefinition {
  readonly kind: ExerciseKind;
  readonly title: string;
  readonly minutes: string;
  readonly settles: string;
  /** What to do, in order, a sentence each. */
  readonly steps: readonly string[];
  /** Beyond the cautions that stand on every page. */
  readonly cautions: readonly string[];
  /** What a form may hold. */
  readonly legend: FormLegend;
  /** A form to fill in, with an invented example; empty where a log is all. */
  readonly form: string;
  /** Whether logs of another source may be given beside the boat's. */
  readonly takesReference?: boolean;
  /** What to say to someone who gives a log and no form; absent where a log is enough. */
  readonly needsForm?: string;
  /** @throws RefusedFile where the form cannot be taken; what reading logs throws */
  readonly evaluate: (given: ExerciseGiven) => Promise<ExerciseOutcome>;
}
