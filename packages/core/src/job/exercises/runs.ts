import * as z from "zod";
import { checked } from "../../calibration/checkedFile.ts";
import { siFromEdge } from "../../calibration/edgeUnits.ts";
import { TYPICAL_READINGS } from "../../calibration/findings.ts";
import { RefusedFile } from "../../calibration/refusedFile.ts";
import { type LoggedRun, type SolvedSpeedSensor, speedFromRuns } from "../../fit/speedFromRuns.ts";
import { suspectReadings } from "../../judge/suspectReadings.ts";
import { noLogWords, speedFromRunsWords, speedTable } from "../../report/exercises/speedWords.ts";
import type { SensorSettings } from "../../sensors/parameters.ts";
import { speedReadingOf } from "../../sensors/speedSensor.ts";
import { type Metres, type Radians, radians, type Seconds } from "../../units.ts";
import type { ExerciseDefinition, ExerciseGiven, ExerciseOutcome } from "./exerciseKind.ts";
import { formLegend } from "./formLegend.ts";
import { day, oneOf, onward, timeOfDay } from "./formValues.ts";
import { loggedRuns } from "./loggedRuns.ts";

/** What runs of a stop watch or GPS have left of error, helm and log's display together. Judgement. */
const USUAL_DEVIATION_KN = 0.05;

/** The same of runs of some minutes in a log. Judgement. */
const LOGGED_DEVIATION_KN = 0.03;

/** The strongest stream where nobody says otherwise: much of the coast has less. */
const USUAL_STREAM_KN = 2;

const SCHEMA = z.strictObject({
  date: day.describe("the day of the first run, UTC"),
  distance_nm: z
    .number()
    .positive()
    .optional()
    .describe("how long each run is; or distance_m, or in the table"),
  distance_m: z.number().positive().optional().describe("the same in metres"),
  stream_kn: z
    .number()
    .positive()
    .max(12)
    .default(USUAL_STREAM_KN)
    .describe(`the strongest stream of the day along the course; ${USUAL_STREAM_KN} unless told`),
  deviation_kn: z
    .number()
    .positive()
    .max(2)
    .default(USUAL_DEVIATION_KN)
    .describe(
      `how well one run's speed is known (one standard deviation); ${USUAL_DEVIATION_KN} unless told`,
    ),
  rows: z
    .array(
      z.strictObject({
        start: timeOfDay.describe("when the run began"),
        end: timeOfDay.optional().describe("when it ended; or seconds"),
        seconds: z.number().positive().optional().describe("how long it lasted"),
        way: oneOf("there", "back").optional().describe("there or back; or course_deg"),
        course_deg: z.number().min(0).max(360).optional().describe("the course steered"),
        log_kn: z.number().positive().describe("the log's mean reading"),
        distance_nm: z.number().positive().optional().describe("this run's own distance"),
        distance_m: z.number().positive().optional().describe("the same in metres"),
        sog_kn: z.number().positive().optional().describe("mean speed by GPS, instead of a distance"),
        tack: oneOf("starboard", "port")
          .optional()
          .describe("starboard or port, where she sailed; empty under power"),
        heel_deg: z.number().min(-60).max(60).optional().describe("to either side; in every row, or in none"),
      }),
    )
    .min(1),
});

type Fields = z.output<typeof SCHEMA>;
type Row = Fields["rows"][number];

const NAUTICAL_MILE = 1852;

/** No run is longer: an end that seems to come later was noted before its start. */
const LONGEST_RUN: Seconds = 3 * 3600;

/** Runs further apart are not of one exercise. */
const LONGEST_PAUSE: Seconds = 12 * 3600;

/** An indicated angle on each side, which tells the tack; 0: under power. */
const sideOf = (tack: "starboard" | "port" | undefined): Radians =>
  tack === "starboard" ? 1 : tack === "port" ? -1 : 0;

/** A row of a form, with what refuses it. */
interface Place {
  readonly file: string;
  readonly index: number;
}

const refused = ({ file, index }: Place, field: string, expected: string): RefusedFile =>
  new RefusedFile(file, `rows[${index}].${field}`, expected, "nothing");

function distanceOf(row: Row, fields: Fields, seconds: Seconds, place: Place): Metres {
  if (row.sog_kn !== undefined) return siFromEdge(row.sog_kn, "kn") * seconds;
  const miles = row.distance_nm ?? fields.distance_nm;
  const metres =
    row.distance_m ?? fields.distance_m ?? (miles === undefined ? undefined : miles * NAUTICAL_MILE);
  if (metres === undefined)
    throw refused(place, "distance_nm", "a distance, here or above the table, or sog_kn");
  return metres;
}

function wayOf(row: Row, first: Row, place: Place): 1 | -1 {
  if (row.way !== undefined) return row.way === "there" ? 1 : -1;
  if (row.course_deg === undefined || first.course_deg === undefined)
    throw refused(place, "way", '"there" or "back", or course_deg on each row');
  return Math.cos(radians(row.course_deg - first.course_deg)) > 0 ? 1 : -1;
}

/** When the runs began and ended, s since 1970 UTC, going on past midnight. */
function spansOf({ rows, date }: Fields, file: string): readonly (readonly [Seconds, Seconds])[] {
  const times = onward(
    rows.flatMap(({ start, end, seconds }, index) => {
      if (end === undefined && seconds === undefined)
        throw refused({ file, index }, "end", "a time, or seconds");
      return [start, end ?? start + (seconds ?? 0)];
    }),
  );
  return rows.map((_, index) => {
    const [start, end] = [times[2 * index]!, times[2 * index + 1]!];
    // a time before the last one is taken for the next day's
    if (index > 0 && start - times[2 * index - 1]! > LONGEST_PAUSE)
      throw new RefusedFile(
        file,
        `rows[${index}].start`,
        "a time after the run before it ended and within twelve hours of it, the runs in the order in which they were run",
        "one before that",
      );
    if (!(end > start && end - start <= LONGEST_RUN))
      throw new RefusedFile(
        file,
        `rows[${index}].end`,
        "a time after the start and within three hours of it",
        end > start ? "one before it" : "the same time",
      );
    return [date + start, date + end];
  });
}

/** The form's runs, the log's readings as the sensor alone would show them. */
function runsOf(fields: Fields, file: string, { speed }: SensorSettings): readonly LoggedRun[] {
  const spans = spansOf(fields, file);
  return fields.rows.map((row, index) => {
    const [start, end] = spans[index]!;
    const place = { file, index };
    return {
      start,
      end,
      distance: distanceOf(row, fields, end - start, place),
      way: wayOf(row, fields.rows[0]!, place),
      reading: speedReadingOf(siFromEdge(row.log_kn, "kn"), sideOf(row.tack), speed),
      ...(row.tack === undefined ? {} : { tack: row.tack }),
      ...(row.heel_deg === undefined ? {} : { heel: radians(row.heel_deg) }),
    };
  });
}

const REASONS = {
  "one way":
    "all runs go the same way, so that the boat's speed and the current are one number: run there and back, twice at least",
  "too few runs": "there are too few runs",
  "not told apart": "these runs do not tell speed and current apart",
} as const;

/** No log is off by such a factor: a unit, a distance or a time is. Judgement. */
const MOST = 2;

function totalOf(found: SolvedSpeedSensor, active: SensorSettings): SensorSettings {
  const half = Number.isNaN(found.gainDifference) ? 0 : found.gainDifference / 2;
  const speed = {
    intercept: found.intercept,
    gainStarboard: found.gain * Math.exp(half),
    gainPort: found.gain * Math.exp(-half),
  };
  return { ...active, speed };
}

function outcomeOf(
  runs: readonly LoggedRun[],
  options: { readonly deviation: number; readonly stream: number },
  settings: ExerciseGiven["settings"],
): ExerciseOutcome {
  const found = speedFromRuns(runs, options);
  if (found.status === "unsolved") return { status: "unsolved", reason: REASONS[found.reason] };
  const odd = found.gains.find((at) => !(at.gain > 1 / MOST && at.gain < MOST));
  if (odd) return { status: "unsolved", reason: noLogWords(odd) };
  const suspects = suspectReadings(runs, (some) => {
    const rest = speedFromRuns(some, options);
    return rest.status === "solved" ? rest.scatter : Number.NaN;
  });
  const { gain, gainHalf, intercept, interceptHalf, gainDifference, gainDifferenceHalf } = found;
  const typical = found.gainAt(TYPICAL_READINGS.speed);
  return {
    status: "solved",
    at: runs[0]!.start,
    findings: [
      { name: "speed.atTypical", value: Math.log(typical.gain), half: typical.half / typical.gain },
      { name: "speed.intercept", value: intercept, half: interceptHalf },
      { name: "speed.gain", value: Math.log(gain), half: gainHalf / gain },
      ...(Number.isNaN(gainDifference)
        ? []
        : [{ name: "speed.gainDifference", value: gainDifference, half: gainDifferenceHalf } as const]),
    ],
    total: totalOf(found, settings.active),
    restsOn: [],
    words: speedFromRunsWords(found, settings.active.speed, suspects),
    table: speedTable(found, settings.active.speed),
    notes: [],
  };
}

async function fromLog(given: ExerciseGiven): Promise<ExerciseOutcome> {
  const runs = await loggedRuns(given);
  if (runs.length === 0)
    return {
      status: "unsolved",
      reason:
        "the log holds no straight runs under power on reciprocal headings, of a minute and more each, with boat speed, heading and GPS",
    };
  const options = {
    deviation: siFromEdge(LOGGED_DEVIATION_KN, "kn"),
    stream: siFromEdge(USUAL_STREAM_KN, "kn"),
  };
  const found = outcomeOf(runs, options, given.settings);
  return found.status === "unsolved"
    ? found
    : { ...found, restsOn: [], notes: [`${runs.length} runs under power were found in the log.`] };
}

/** Boat speed from runs over a measured distance, typed or found in a log. */
export const runs: ExerciseDefinition = {
  kind: "runs",
  title: "Runs over a measured distance",
  minutes: "40 minutes for four runs of half a mile",
  settles: "boat speed: gain and intercept, with the current taken out even where the tide turns",
  steps: [
    "Choose a distance of half a mile or a mile between two transits or two marks that a chart gives, along the stream rather than across it; or let GPS measure, and log it all.",
    "Run it under power, there and back in turn at one steady speed, four runs at least; let her settle for a minute before each transit.",
    "Note the times of both transits and the log's mean reading; do not steer to keep the reading, keep the throttle.",
    "Do the same at a second speed, at least 2 kn slower or faster, if intercept and gain are to be told apart; in light wind do a pair on each tack under sail for the gains of the tacks, and note the heel of every run.",
  ],
  cautions: ["A measured mile is often a fairway: give way early, and stop rather than force a run."],
  legend: formLegend(SCHEMA),
  form: `# exercise: runs
# date: 2031-06-14
# distance_nm: 0.5
# stream_kn: 1.5
start,end,way,log_kn
10:02:30,10:08:12,there,5.0
10:11:40,10:16:51,back,5.0
10:20:05,10:25:44,there,5.0
10:29:10,10:34:25,back,5.1
10:40:00,10:44:05,there,7.0
10:47:30,10:51:20,back,7.0
`,
  async evaluate(given) {
    if (Object.keys(given.fields).length === 0) return fromLog(given);
    const fields = checked(SCHEMA, given.fields, given.file);
    const options = {
      deviation: siFromEdge(fields.deviation_kn, "kn"),
      stream: siFromEdge(fields.stream_kn, "kn"),
    };
    return outcomeOf(runsOf(fields, given.file, given.settings.active), options, given.settings);
  },
};
