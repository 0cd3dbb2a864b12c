import * as z from "zod";
import { checked } from "../../calibration/checkedFile.ts";
import { siFromEdge } from "../../calibration/edgeUnits.ts";
import { RefusedFile } from "../../calibration/refusedFile.ts";
import {
  anemometerAgainstReference,
  REFERENCE_REFUSALS,
  type SolvedAnemometer,
} from "../../fit/anemometerAgainstReference.ts";
import { anemometerTable, anemometerWords, ratioSentence } from "../../report/exercises/anemometerWords.ts";
import { stationWords } from "../../report/exercises/stationWords.ts";
import { anemometerReadingOf } from "../../sensors/anemometer.ts";
import type { SensorSettings } from "../../sensors/parameters.ts";
import type { Seconds } from "../../units.ts";
import { againstStation } from "./againstStation.ts";
import { findingsOf, totalOf } from "./anemometerFindings.ts";
import type { ExerciseDefinition, ExerciseGiven, ExerciseOutcome } from "./exerciseKind.ts";
import { formLegend } from "./formLegend.ts";
import { day, oneOf } from "./formValues.ts";

const speed = z.number().min(0).max(200);

/** How well a reference is known: its own calibration, another height, another place. Judgement. */
const USUAL_REFERENCE_PERCENT = 3;

const bearing = z.number().min(0).max(360);
const metres = z.number().min(0.5).max(200);

const REFERENCE = z.strictObject({
  date: day.optional().describe("the day; needed with a table, logs tell it"),
  unit: oneOf("kn", "m/s").default("kn").describe("kn or m/s, of both sources; kn unless told"),
  reference_percent: z
    .number()
    .min(0)
    .max(50)
    .default(USUAL_REFERENCE_PERCENT)
    .describe(
      `how well the reference is known (one standard deviation); ${USUAL_REFERENCE_PERCENT} unless told`,
    ),
  station_height_m: metres
    .optional()
    .describe("of the station's anemometer above the water; needed with logs"),
  distance_nm: z
    .number()
    .min(0)
    .max(50)
    .optional()
    .describe("how far the station is from the boat; needed with logs"),
  anemometer_height_m: metres
    .optional()
    .describe("of the boat's own above the water; the boat file's unless told"),
  place_percent: z
    .number()
    .min(0)
    .max(50)
    .optional()
    .describe("how far its mean wind is from the boat's; by the distance unless told"),
  mean_minutes: z
    .number()
    .positive()
    .max(120)
    .optional()
    .describe("over how long its values are means; from stamp to stamp, 10 at most, unless told"),
  stamped: oneOf("end", "middle", "start")
    .default("end")
    .describe("where in that time its stamps stand: end, middle or start; end unless told"),
  sector_from_deg: bearing
    .optional()
    .describe("only winds from here, true, clockwise to the next: open to windward of both"),
  sector_to_deg: bearing.optional().describe("likewise"),
  rows: z
    .array(
      z.strictObject({
        time: z.string().optional().describe("for your own use"),
        reading: speed.describe("the anemometer's mean over the interval"),
        reference: speed.optional().describe("the other source's over the same; empty where it has none"),
      }),
    )
    .min(1)
    .optional(),
});

/** What an anemometer that was compared comes to, but for the words. */
const anemometerOutcome = (found: SolvedAnemometer, active: SensorSettings, at: Seconds) =>
  ({
    status: "solved",
    at,
    findings: findingsOf(found),
    total: totalOf(found, active),
    restsOn: [],
    table: anemometerTable(found, active.anemometer),
    notes: [],
  }) as const;

type Reference = z.output<typeof REFERENCE>;

/** Means of both sources, typed. @throws RefusedFile where no date is told */
function typedOutcome(
  { date, unit, reference_percent }: Reference,
  rows: NonNullable<Reference["rows"]>,
  { file, settings, logs }: ExerciseGiven,
): ExerciseOutcome {
  if (date === undefined) throw new RefusedFile(file, "date", "a day such as 2031-06-14", "nothing");
  if (logs.length > 0)
    throw new RefusedFile(file, "table", "either means of both sources here, or logs of both", "both");
  const si = (value: number): number => (unit === "kn" ? siFromEdge(value, "kn") : value);
  const pairs = rows.flatMap(({ reading, reference }) => {
    // the cups' own reading, without what stands in the instrument; at rest they tell nothing
    const alone = anemometerReadingOf(si(reading), settings.active.anemometer);
    return reference === undefined || !(reading > 0 && alone > 0)
      ? []
      : [{ reading: alone, reference: si(reference) }];
  });
  const found = anemometerAgainstReference(pairs, { errorRatio: 1, referenceGain: reference_percent / 100 });
  if (found.status === "unsolved")
    return {
      status: "unsolved",
      reason: `${REFERENCE_REFUSALS[found.reason]}${found.atMean ? `; ${ratioSentence(found.atMean)}` : ""}`,
    };
  return {
    ...anemometerOutcome(found, settings.active, date),
    words: [
      ...anemometerWords(found, settings.active.anemometer),
      `From ${found.intervals} intervals, worth ${found.worth} that do not hang together.`,
    ],
  };
}

/** The anemometer against a second source. */
export const anemometer: ExerciseDefinition = {
  kind: "anemometer",
  needsForm:
    "give the means of both sources in its table, or in its place station_height_m and distance_nm, and the station's log with --reference",
  title: "Anemometer against a second source",
  minutes: "half a day alongside, in a wind from light to fresh",
  settles: "threshold and gain of the anemometer",
  steps: [
    "Lie alongside or at anchor where the wind at the masthead is that of the reference: a station near by at about the same height, or a second anemometer beside it. Sails down, so that nothing speeds the air up.",
    "Write down means over the same minutes of both (ten minutes from a station; half a minute of two sensors side by side), 48 and more, with the wind ranging from light to fresh.",
    "State how well the reference is known: its height and its place count, too.",
    "Or log the wind aboard for a day or more and get the station's own log: give both, with the station's height and distance in the form, and the means are made and joined by time.",
  ],
  cautions: [
    "Going up the mast to hold a second anemometer needs two on deck, two halyards, and flat water.",
  ],
  legend: formLegend(REFERENCE),
  form: `# exercise: anemometer
# date: 2031-06-14
# unit: kn
# reference_percent: 3
time,reading,reference
09:00:00,6.2,6.9
09:10:00,6.8,7.4
09:20:00,8.1,8.7
`,
  takesReference: true,
  async evaluate(exercise) {
    const { file } = exercise;
    const fields = checked(REFERENCE, exercise.fields, file);
    if (fields.rows) return typedOutcome(fields, fields.rows, exercise);
    if ((exercise.reference ?? []).length === 0)
      return {
        status: "unsolved",
        reason: `${REFERENCE_REFUSALS["no reference"]}; give its log with --reference, or means of both in the form`,
      };
    const answer = await againstStation(fields, exercise);
    if (answer.status === "unsolved") return answer;
    const { found, hint, ...rest } = answer;
    const { active } = exercise.settings;
    return {
      ...anemometerOutcome(found, active, answer.start),
      words: [
        ...anemometerWords(found, active.anemometer),
        ...stationWords({
          ...rest,
          ...(hint === undefined ? {} : { hint }),
          intervals: found.intervals,
          worth: found.worth,
          half: found.atMean.half / found.atMean.gain,
        }),
      ],
    };
  },
};
