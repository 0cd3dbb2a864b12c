import * as z from "zod";
import { checked } from "../../calibration/checkedFile.ts";
import { clockAgainstGps } from "../../fit/clockAgainstGps.ts";
import { positionAtBerth } from "../../fit/positionAtBerth.ts";
import { type StampedTime, stampAgainstGps } from "../../recording/stampsAgainstGps.ts";
import { berthWords, clockWords, noBerthWords } from "../../report/exercises/alongsideWords.ts";
import { radians } from "../../units.ts";
import type { ExerciseDefinition, ExerciseGiven, ExerciseOutcome } from "./exerciseKind.ts";
import { formLegend } from "./formLegend.ts";
import { day, latitude, longitude } from "./formValues.ts";
import { logSeries, longest } from "./logSeries.ts";
import { textLines } from "./textLinesOfLog.ts";

const needsLog = (what: string): ExerciseOutcome => ({
  status: "unsolved",
  reason: `there is no log: give one ${what}`,
});

/** How well a berth is known from a large-scale chart. Judgement. */
const USUAL_PLACE_M = 5;

const BERTH = z.strictObject({
  date: day.optional().describe("the day; the log tells it"),
  latitude_deg: latitude.describe("where the antenna is: 54.1234, or 54 07.404 N"),
  longitude_deg: longitude.describe("likewise: 10.5678, or 10 34.068 E"),
  place_m: z
    .number()
    .min(0)
    .max(1000)
    .default(USUAL_PLACE_M)
    .describe(`how well that is known (one standard deviation); ${USUAL_PLACE_M} unless told`),
});

/** The position's error at a berth that is known. */
export const berth: ExerciseDefinition = {
  kind: "berth",
  needsForm: "give the place of the berth, and the log beside it",
  title: "Position at a known berth",
  minutes: "an hour and more, alongside",
  settles: "whether positions are right, on the chart's datum",
  steps: [
    "Take the place of the antenna from a large-scale chart or a survey, and note how well it is known.",
    "Log positions for an hour and more with open sky.",
  ],
  cautions: ["Agreement at one berth says nothing of positions elsewhere, nor of the chart there."],
  legend: formLegend(BERTH),
  form: `# exercise: berth
# latitude_deg: 54.1234
# longitude_deg: 10.5678
# place_m: 3
`,
  async evaluate({ fields, file, logs, run }) {
    const { latitude_deg, longitude_deg, place_m } = checked(BERTH, fields, file);
    if (logs.length === 0) return needsLog("of positions, made alongside");
    const series = await logSeries(logs, ["latitude", "longitude"], run);
    const parallel = longest(series, "latitude");
    // of one receiver where both bear its name; columns of a table bear their own
    const meridian =
      series.find(({ quantity, source }) => quantity === "longitude" && source === parallel?.source) ??
      longest(series, "longitude");
    if (!parallel || !meridian) return { status: "unsolved", reason: "the log holds no positions" };
    const positions = Array.from(parallel.values, (value, at) => ({
      latitude: value,
      longitude: meridian.values[at + parallel.start - meridian.start] ?? Number.NaN,
    }));
    const place = { latitude: radians(latitude_deg), longitude: radians(longitude_deg) };
    const found = positionAtBerth(positions, 1, place, place_m);
    if (Number.isNaN(found.distance))
      return { status: "unsolved", reason: "the log holds fewer than three positions" };
    const refused = noBerthWords(found);
    if (refused !== undefined) return { status: "unsolved", reason: refused };
    return {
      status: "solved",
      at: parallel.start,
      findings: [
        { name: "position.east", value: found.east, half: found.half },
        { name: "position.north", value: found.north, half: found.half },
      ],
      restsOn: [],
      words: berthWords(found),
      notes: [],
    };
  },
};

/** The clock that stamped a log's lines. */
export const clock: ExerciseDefinition = {
  kind: "clock",
  title: "Clock against GPS time",
  minutes: "any log with times at the head of its lines",
  settles: "how far the logger's clock is off, what it gains in a day, and its time zone",
  steps: ["Give a log whose lines begin with the logger's own time and which holds RMC or ZDA."],
  cautions: [],
  legend: { above: [], inTable: [] },
  form: "",
  async evaluate({ logs, run }: ExerciseGiven) {
    if (logs.length === 0) return needsLog("whose lines begin with the logger's own time");
    const times: StampedTime[] = [];
    for (const log of logs)
      for await (const line of textLines(log, run)) {
        const found = stampAgainstGps(line);
        if (found) times.push(found);
      }
    const found = clockAgainstGps(times);
    if (found.status === "unsolved")
      return {
        status: "unsolved",
        reason:
          found.reason === "too few lines"
            ? "fewer than ten lines hold the logger's time beside that of GPS"
            : "no line holds the logger's own time beside a GPS time (RMC or ZDA)",
      };
    return {
      status: "solved",
      at: times[0]!.gps,
      findings: [{ name: "clock.ahead", value: found.ahead, half: found.half }],
      restsOn: [],
      words: clockWords(found),
      notes: [],
    };
  },
};
