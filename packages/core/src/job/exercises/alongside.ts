import * as z from "zod";
import { checked } from "../../calibration/checkedFile.ts";
import type { Finding } from "../../calibration/findings.ts";
import { attitudeZero } from "../../fit/attitudeZero.ts";
import { clockAgainstGps } from "../../fit/clockAgainstGps.ts";
import { positionAtBerth } from "../../fit/positionAtBerth.ts";
import { type StampedTime, stampAgainstGps } from "../../recording/stampsAgainstGps.ts";
import { berthWords, clockWords, dockWords } from "../../report/exercises/alongsideWords.ts";
import { heelReadingOf } from "../../sensors/heelSensor.ts";
import { radians } from "../../units.ts";
import { day } from "./exerciseForm.ts";
import type { ExerciseDefinition, ExerciseGiven, ExerciseOutcome } from "./exerciseKind.ts";
import { logSeries, type SourceSeries } from "./logSeries.ts";
import { textLines } from "./textLinesOfLog.ts";

const needsLog = (what: string): ExerciseOutcome => ({
  status: "unsolved",
  reason: `there is no log: give one ${what}`,
});

/** The series of a quantity that lasts longest. */
const longest = (series: readonly SourceSeries[], quantity: SourceSeries["quantity"]) =>
  series
    .filter((one) => one.quantity === quantity)
    .sort((one, other) => other.values.length - one.values.length)[0];

const dockSchema = z.strictObject({
  date: day.optional(),
  /** How level she lies, one standard deviation. */
  level_deg: z.number().positive().max(10).default(0.5),
});

/** The zero of heel and pitch from lying alongside. */
export const dock: ExerciseDefinition = {
  kind: "dock",
  title: "Level alongside",
  minutes: "10 minutes",
  settles: "the zero of the heel sensor, and of pitch",
  steps: [
    "Lie alongside or at a mooring in still water, lines slack, sails down, crew ashore or amidships, boom on the centreline, tanks as when racing.",
    "Check with a spirit level or a plumb line that she lies level, or note how far she does not.",
    "Log heel and pitch for ten minutes, and give the log.",
  ],
  cautions: [],
  form: `# exercise: dock
# level_deg: 0.5
`,
  async evaluate({ fields, file, logs, boat, settings, run }) {
    const { level_deg } = checked(dockSchema, fields, file);
    if (logs.length === 0) return needsLog("of heel and pitch, made alongside");
    const series = await logSeries(logs, ["heel", "pitch"], run);
    const findings: Finding[] = [];
    const refused: string[] = [];
    let zero = Number.NaN;
    for (const quantity of ["heel", "pitch"] as const) {
      const own = longest(series, quantity);
      if (!own) continue;
      const raw =
        quantity === "heel"
          ? own.values.map((value) => heelReadingOf(value, settings.active.heel))
          : own.values;
      const found = attitudeZero(raw, 1, radians(level_deg));
      if (found.status === "unsolved") {
        refused.push(
          found.reason === "too short"
            ? `${quantity} was logged for less than a minute`
            : `the boat was not at rest: ${quantity} spreads by more than 3°`,
        );
        continue;
      }
      // which way the sensor counts is told by the boat file, or by what was keyed in
      const sign = boat.heelSensorSign === "auto" ? settings.active.heel.sign : boat.heelSensorSign;
      const inOurSign = quantity === "heel" ? sign * found.zero : found.zero;
      if (quantity === "heel") zero = inOurSign;
      findings.push({ name: `${quantity}.zero`, value: inOurSign, half: found.half });
    }
    if (findings.length === 0)
      return { status: "unsolved", reason: refused[0] ?? "the log holds neither heel nor pitch" };
    const heel = { ...settings.active.heel, zero };
    return {
      status: "solved",
      at: series[0]!.start,
      findings,
      ...(Number.isNaN(zero) ? {} : { total: { ...settings.active, heel } }),
      restsOn: [],
      words: dockWords(findings, settings.active.heel.zero),
      notes: refused,
    };
  },
};

const berthSchema = z.strictObject({
  date: day.optional(),
  latitude_deg: z.number().min(-90).max(90),
  longitude_deg: z.number().min(-180).max(180),
  /** How well the berth's place is known, one standard deviation. */
  place_m: z.number().min(0).max(1000).default(5),
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
  form: `# exercise: berth
# latitude_deg: 54.1234
# longitude_deg: 10.5678
# place_m: 3
`,
  async evaluate({ fields, file, logs, run }) {
    const { latitude_deg, longitude_deg, place_m } = checked(berthSchema, fields, file);
    if (logs.length === 0) return needsLog("of positions, made alongside");
    const series = await logSeries(logs, ["latitude", "longitude"], run);
    const latitude = longest(series, "latitude");
    const longitude = series.find(
      ({ quantity, source }) => quantity === "longitude" && source === latitude?.source,
    );
    if (!latitude || !longitude) return { status: "unsolved", reason: "the log holds no positions" };
    const positions = Array.from(latitude.values, (value, at) => ({
      latitude: value,
      longitude: longitude.values[at + latitude.start - longitude.start] ?? Number.NaN,
    }));
    const place = { latitude: radians(latitude_deg), longitude: radians(longitude_deg) };
    const found = positionAtBerth(positions, 1, place, place_m);
    if (Number.isNaN(found.distance))
      return { status: "unsolved", reason: "the log holds fewer than three positions" };
    return {
      status: "solved",
      at: latitude.start,
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
