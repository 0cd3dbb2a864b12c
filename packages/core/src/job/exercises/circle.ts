import * as z from "zod";
import { checked } from "../../calibration/checkedFile.ts";
import type { Finding } from "../../calibration/findings.ts";
import { RefusedFile } from "../../calibration/refusedFile.ts";
import {
  CIRCLE_REFUSALS,
  circleFromBearings,
  type FoundDeviation,
  type KnownHeading,
} from "../../fit/circleFromBearings.ts";
import { circleInLog } from "../../fit/circleInLog.ts";
import { circleMisfit } from "../../judge/circleMisfit.ts";
import { suspectReadings } from "../../judge/suspectReadings.ts";
import { variationFromChart } from "../../physics/chartVariation.ts";
import { variationAt } from "../../physics/variation.ts";
import {
  circleCurve,
  circleTable,
  circleWords,
  loggedCircleWords,
} from "../../report/exercises/circleWords.ts";
import { headingReadingOf } from "../../sensors/compass.ts";
import type { SensorSettings } from "../../sensors/parameters.ts";
import { type Radians, radians, type Seconds } from "../../units.ts";
import type { ExerciseDefinition, ExerciseGiven, ExerciseOutcome } from "./exerciseKind.ts";
import { formLegend } from "./formLegend.ts";
import { day, latitude, longitude, oneOf, variationDegrees } from "./formValues.ts";
import { secondsUnderPower } from "./secondsUnderPower.ts";

/** What a helm, a bearing and a reading leave of error on one heading. Judgement. */
const USUAL_DEVIATION_DEG = 1;

/** What the World Magnetic Model leaves (M17), and how well bearings or another compass are aligned; one standard deviation each, degrees. */
const MODEL_DEG = 0.5;
const ALIGNED_DEG = 0.5;

const angle = z.number().min(-360).max(720);

const SCHEMA = z.strictObject({
  date: day.describe("the day of the circle"),
  variation_deg: variationDegrees
    .optional()
    .describe("of the place, east positive: -3.5, or 3.5 W; not needed with magnetic_deg"),
  variation_year: z
    .number()
    .int()
    .min(1900)
    .max(2200)
    .optional()
    .describe("the year that the chart gives it for; left out where it is today's"),
  annual_change_min: z
    .number()
    .min(-60)
    .max(60)
    .default(0)
    .describe("what it changes in a year, minutes, east positive"),
  latitude_deg: latitude.optional().describe("instead of a variation: the place, and the model tells it"),
  longitude_deg: longitude.optional().describe("likewise"),
  bearing_true_deg: angle.optional().describe("of the mark that relative_deg was taken of"),
  deviation_deg: z
    .number()
    .positive()
    .max(20)
    .default(USUAL_DEVIATION_DEG)
    .describe(`how well one heading is known (one standard deviation); ${USUAL_DEVIATION_DEG} unless told`),
  alignment_deg: z
    .number()
    .min(0)
    .max(20)
    .default(ALIGNED_DEG)
    .describe(`how well what it was compared with is aligned, the same for all; ${ALIGNED_DEG} unless told`),
  circle_seconds: z
    .number()
    .positive()
    .optional()
    .describe("how long a circle took, where she turned all the time"),
  circles: oneOf("one way", "both ways")
    .default("one way")
    .describe("one way or both ways, where she turned"),
  table_step_deg: z.literal([10, 15]).default(15).describe("10 or 15: the steps of the deviation table"),
  rows: z
    .array(
      z.strictObject({
        compass_deg: angle.describe("as the compass shows it"),
        true_deg: angle.optional().describe("the true heading; or one of the next two"),
        magnetic_deg: angle.optional().describe("the magnetic heading, of another compass"),
        relative_deg: angle.optional().describe("the mark's bearing from the bow, clockwise"),
        bearing_true_deg: angle.optional().describe("the mark's true bearing, where it is not above"),
        heel_deg: z
          .number()
          .min(-60)
          .max(60)
          .optional()
          .describe("positive to starboard; in every row, or in none"),
      }),
    )
    .min(1),
});

type Fields = z.output<typeof SCHEMA>;

interface Variation {
  readonly variation: Radians;
  readonly deviation: Radians;
}

function modelled({ latitude_deg, longitude_deg, date }: Fields): Radians {
  return latitude_deg === undefined || longitude_deg === undefined
    ? Number.NaN
    : variationAt(radians(latitude_deg), radians(longitude_deg), date as Seconds);
}

/** The variation of the place: as the chart gives it, or by the model. */
function variationOf(fields: Fields, file: string): Variation {
  if (fields.variation_deg !== undefined) {
    const variation = radians(fields.variation_deg);
    if (fields.variation_year === undefined) return { variation, deviation: radians(MODEL_DEG) };
    const annualChange = radians(fields.annual_change_min / 60);
    return variationFromChart({ variation, year: fields.variation_year, annualChange }, fields.date);
  }
  const variation = modelled(fields);
  if (Number.isNaN(variation))
    throw new RefusedFile(
      file,
      "variation_deg",
      "the variation of the place (with variation_year and annual_change_min, where a chart gives it), or latitude_deg and longitude_deg of a date that the model has",
      fields.latitude_deg === undefined ? "neither" : "a place on a date for which there is no model",
    );
  return { variation, deviation: radians(MODEL_DEG) };
}

/** True heading of a row by what it gives; NaN where it is magnetic. */
function trueHeadingOf(row: Fields["rows"][number], index: number, fields: Fields, file: string): Radians {
  if (row.true_deg !== undefined) return radians(row.true_deg);
  const bearing = row.bearing_true_deg ?? fields.bearing_true_deg;
  if (row.relative_deg !== undefined && bearing !== undefined) return radians(bearing - row.relative_deg);
  throw new RefusedFile(
    file,
    `rows[${index}]`,
    "true_deg, magnetic_deg, or relative_deg of a mark whose bearing_true_deg is given",
    "none of them",
  );
}

function knownHeadings(fields: Fields, file: string, { compass }: SensorSettings) {
  const isMagnetic = fields.rows.every(({ magnetic_deg }) => magnetic_deg !== undefined);
  const variation = isMagnetic ? { variation: 0, deviation: 0 } : variationOf(fields, file);
  const headings = fields.rows.map((row, index): KnownHeading => {
    const magnetic =
      row.magnetic_deg === undefined
        ? trueHeadingOf(row, index, fields, file) - variation.variation
        : radians(row.magnetic_deg);
    const heel = row.heel_deg === undefined ? {} : { heel: radians(row.heel_deg) };
    // what the compass alone would show, without the corrections that stand in it
    const alone = headingReadingOf(radians(row.compass_deg), heel.heel ?? 0, compass);
    return { compass: alone, magnetic, ...heel };
  });
  return {
    headings,
    variation: isMagnetic ? Number.NaN : variation.variation,
    common: Math.hypot(variation.deviation, radians(fields.alignment_deg)),
  };
}

const REFUSALS = {
  ...CIRCLE_REFUSALS,
  heeled: "she heeled by more than 6° all the time: give a log of motoring, the sails down",
  sailing:
    "the log shows sailing and no circle under power: she never turned slowly right round, nor went straight closer to the wind than a boat sails; give a log of motoring, the sails down, as under sail leeway passes for deviation",
  "no seconds":
    "the log holds no motion under way with boat speed, heading and GPS together, turning by less than 3° a second; note compass and true headings in a form",
} as const;

/** The compass from a log of circles under power. */
async function fromLog({ logs, boat, settings, run }: ExerciseGiven): Promise<ExerciseOutcome> {
  const seconds = await secondsUnderPower(logs, boat, settings, run);
  const found = circleInLog(seconds);
  if (found.status === "unsolved") return { status: "unsolved", reason: REFUSALS[found.reason] };
  return {
    status: "solved",
    at: seconds[0]!.time,
    findings: findingsOf(found),
    total: totalOf(found, settings.active),
    restsOn: [],
    words: loggedCircleWords(found, settings.active.compass),
    table: circleTable(found, 15),
    sketch: circleCurve(found),
    notes: [],
  };
}

const findingsOf = ({ terms, series, halves }: FoundDeviation): readonly Finding[] =>
  terms.map((term) => ({ name: `compass.${term}` as const, value: series[term], half: halves[term] }));

const totalOf = ({ series }: FoundDeviation, active: SensorSettings): SensorSettings => ({
  ...active,
  compass: series,
});

/** Compass deviation from headings whose true value is known. */
export const circle: ExerciseDefinition = {
  kind: "circle",
  title: "Compass circle",
  minutes: "25 minutes for eight headings",
  settles: "compass deviation: coefficients A to E with intervals, and the deviation table",
  steps: [
    "On calm water with room all round, keep all that is of iron where it is at sea: engine running, instruments on, nothing magnetic near the compass.",
    "Hold each of eight headings, 45° apart, for half a minute, upright; note the compass, and the true heading from a transit, the bearing of a mark miles away, or a satellite compass.",
    "Or turn a slow circle to starboard and one to port, four minutes each, and note compass and reference every half minute; with boat speed and GPS in the log turn two to each side in a steady current, and give the log.",
    "For the heeling error sail both tacks on the same headings and note the heel.",
  ],
  cautions: [
    "Circle away from traffic and from steel: ships, bridges and piles near by turn the compass themselves.",
    "A certified compass is adjusted by a licensed adjuster; this table does not replace the card.",
  ],
  legend: formLegend(SCHEMA),
  form: `# exercise: circle
# date: 2031-06-14
# variation_deg: 3.5
# variation_year: 2030
# annual_change_min: 9
compass_deg,true_deg
0,7.5
45,53.2
90,97.0
135,140.1
180,182.2
225,226.4
270,271.9
315,320.0
`,
  async evaluate(exercise: ExerciseGiven) {
    const { fields: given, file, settings } = exercise;
    if (Object.keys(given).length === 0) return fromLog(exercise);
    const fields = checked(SCHEMA, given, file);
    const { headings, common, variation } = knownHeadings(fields, file, settings.active);
    const turning =
      fields.circle_seconds === undefined
        ? {}
        : {
            turning: {
              rate: (2 * Math.PI) / fields.circle_seconds,
              bothWays: fields.circles === "both ways",
            },
          };
    const options = {
      deviation: radians(fields.deviation_deg),
      common,
      ...turning,
      withHeelingError: headings.every(({ heel }) => heel !== undefined),
    };
    const found = circleFromBearings(headings, options);
    if (found.status === "unsolved") return { status: "unsolved", reason: CIRCLE_REFUSALS[found.reason] };
    const suspects = suspectReadings(headings, (some) => {
      const rest = circleFromBearings(some, options);
      return rest.status === "solved" ? rest.scatter : Number.NaN;
    });
    return {
      status: "solved",
      at: fields.date,
      findings: findingsOf(found),
      total: totalOf(found, settings.active),
      restsOn: [],
      words: circleWords(found, {
        misfit: circleMisfit(found),
        active: settings.active.compass,
        variation,
        suspects: suspects.map((at) => radians(fields.rows[at]!.compass_deg)),
      }),
      table: circleTable(found, fields.table_step_deg),
      sketch: circleCurve(found),
      notes: [],
    };
  },
};
