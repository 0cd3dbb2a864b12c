import * as z from "zod";
import { checked } from "../../calibration/checkedFile.ts";
import { siFromEdge } from "../../calibration/edgeUnits.ts";
import {
  anemometerInCalm,
  CALM_REFUSALS,
  type CalmOptions,
  type CalmRun,
} from "../../fit/anemometerInCalm.ts";
import { anemometerTable, anemometerWords } from "../../report/exercises/anemometerWords.ts";
import { anemometerReadingOf } from "../../sensors/anemometer.ts";
import type { SensorSettings } from "../../sensors/parameters.ts";
import { speedFromReading } from "../../sensors/speedSensor.ts";
import type { Seconds } from "../../units.ts";
import { findingsOf, totalOf } from "./anemometerFindings.ts";
import type { ExerciseDefinition, ExerciseGiven, ExerciseOutcome } from "./exerciseKind.ts";
import { formLegend } from "./formLegend.ts";
import { day, oneOf } from "./formValues.ts";
import { loggedRuns } from "./loggedRuns.ts";

const speed = z.number().min(0).max(200);

/** What a run found in a log has of scatter: its wind is weighed second by second. Judgement. */
const LOGGED_SCATTER_KN = 0.1;

/** A run's own scatter as it is noted, and how well a log is known that was calibrated. Judgement. */
const USUAL_SCATTER_KN = 0.3;
const USUAL_LOG_PERCENT = 1;

const CALM = z.strictObject({
  date: day.describe("the day"),
  deviation_kn: z
    .number()
    .positive()
    .max(5)
    .default(USUAL_SCATTER_KN)
    .describe(`how well one run's wind is known (one standard deviation); ${USUAL_SCATTER_KN} unless told`),
  log_percent: z
    .number()
    .min(0)
    .max(20)
    .default(USUAL_LOG_PERCENT)
    .describe(`how well the log is known (one standard deviation); ${USUAL_LOG_PERCENT} unless told`),
  rows: z
    .array(
      z.strictObject({
        way: oneOf("there", "back").describe("there or back"),
        log_kn: z.number().positive().describe("the log's mean reading"),
        wind_kn: speed.describe("the apparent wind's mean speed; 0 where the cups stood still"),
      }),
    )
    .min(1),
});

function calmOutcome(
  runs: readonly CalmRun[],
  options: CalmOptions,
  active: SensorSettings,
  at: Seconds,
): ExerciseOutcome {
  const found = anemometerInCalm(runs, options);
  if (found.status === "unsolved") return { status: "unsolved", reason: CALM_REFUSALS[found.reason] };
  return {
    status: "solved",
    at,
    findings: findingsOf(found),
    total: totalOf(found, active),
    restsOn: ["boat speed"],
    words: anemometerWords(found, active.anemometer),
    table: anemometerTable(found, active.anemometer),
    notes: [],
  };
}

/** The anemometer from a log of such runs, by the boat speed that the instrument shows. */
async function calmFromLog(given: ExerciseGiven): Promise<ExerciseOutcome> {
  const found = (await loggedRuns(given)).filter(({ wind }) => wind >= 0);
  if (found.length === 0)
    return {
      status: "unsolved",
      reason:
        "the log holds no straight runs under power on reciprocal headings, of a minute and more each, with boat speed, heading, GPS and wind",
    };
  const { active } = given.settings;
  const runs = found.map(({ reading, way, wind, ahead }) => ({
    way,
    ahead,
    speed: speedFromReading(reading, 0, active.speed),
    reading: wind,
  }));
  const options = {
    deviation: siFromEdge(LOGGED_SCATTER_KN, "kn"),
    speedGain: USUAL_LOG_PERCENT / 100,
  };
  const outcome = calmOutcome(runs, options, active, found[0]!.start);
  const notes = [
    `${runs.length} runs under power were found in the log; boat speed was taken as the instrument shows it.`,
  ];
  return outcome.status === "solved" ? { ...outcome, notes } : outcome;
}

/** The anemometer in a calm, by motoring in both directions. */
export const calm: ExerciseDefinition = {
  kind: "calm",
  title: "Motoring in a calm, both ways",
  minutes: "20 minutes",
  settles: "threshold and gain of the anemometer, from boat speed alone",
  steps: [
    "In a calm and on flat water (a masthead that swings reads more wind), sails down, motor a straight line there and back at a steady speed, two minutes each way; note the log's and the anemometer's mean.",
    "Do so at three speeds, slow to fast; or give a log of it. The log must be right: calibrate boat speed first.",
  ],
  cautions: [],
  legend: formLegend(CALM),
  form: `# exercise: calm
# date: 2031-06-14
way,log_kn,wind_kn
there,4.0,3.3
back,4.0,2.9
there,5.5,5.0
back,5.5,4.4
there,7.0,6.4
back,7.0,5.9
`,
  async evaluate(exercise) {
    const { fields: given, file, settings } = exercise;
    if (Object.keys(given).length === 0) return calmFromLog(exercise);
    const { date, deviation_kn, log_percent, rows } = checked(CALM, given, file);
    const runs = rows.map(({ way, log_kn, wind_kn }) => ({
      way: way === "there" ? (1 as const) : (-1 as const),
      speed: siFromEdge(log_kn, "kn"),
      reading: wind_kn === 0 ? 0 : anemometerReadingOf(siFromEdge(wind_kn, "kn"), settings.active.anemometer),
    }));
    const options = { deviation: siFromEdge(deviation_kn, "kn"), speedGain: log_percent / 100 };
    return calmOutcome(runs, options, settings.active, date);
  },
};
