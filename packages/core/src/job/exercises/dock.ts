import * as z from "zod";
import { checked } from "../../calibration/checkedFile.ts";
import type { Finding } from "../../calibration/findings.ts";
import { type AttitudeZero, attitudeZero, attitudeZeroByEye } from "../../fit/attitudeZero.ts";
import { dockWords } from "../../report/exercises/alongsideWords.ts";
import { capital } from "../../report/format.ts";
import { heelReadingOf } from "../../sensors/heelSensor.ts";
import { type Radians, radians } from "../../units.ts";
import type { ExerciseDefinition, ExerciseGiven } from "./exerciseKind.ts";
import { formLegend } from "./formLegend.ts";
import { day } from "./formValues.ts";
import { logSeries, longest, type SourceSeries } from "./logSeries.ts";

/** How level a boat lies that was looked at with a spirit level. Judgement. */
const USUAL_LEVEL_DEG = 0.5;

const tilt = z.number().min(-20).max(20);

const SCHEMA = z.strictObject({
  date: day.optional().describe("the day; a log tells it"),
  heel_shown_deg: tilt
    .optional()
    .describe("what the instrument shows, in its own sign; a log tells it better"),
  pitch_shown_deg: tilt.optional().describe("likewise"),
  heel_true_deg: tilt.default(0).describe("how far she really heels, positive to starboard; 0 unless told"),
  pitch_true_deg: tilt.default(0).describe("how far her bow is really up; 0 unless told"),
  level_deg: z
    .number()
    .positive()
    .max(10)
    .default(USUAL_LEVEL_DEG)
    .describe(`how well that is known (one standard deviation); ${USUAL_LEVEL_DEG} unless told`),
});

const QUANTITIES = ["heel", "pitch"] as const;
type Quantity = (typeof QUANTITIES)[number];

const TROUBLES = {
  "too short": (quantity: Quantity) => `${quantity} was logged for less than a minute`,
  "not at rest": (quantity: Quantity) =>
    `the boat was not at rest: ${quantity} spreads by more than 3°; give a log of the stay alongside alone`,
} as const;

/** A sensor's reading of the boat at rest, without what stands in the instrument: from the log, else from the form. */
function atRest(
  quantity: Quantity,
  series: readonly SourceSeries[],
  fields: z.output<typeof SCHEMA>,
  { settings }: ExerciseGiven,
): AttitudeZero | keyof typeof TROUBLES | undefined {
  const alone = (value: Radians): Radians =>
    quantity === "heel" ? heelReadingOf(value, settings.active.heel) : value;
  const level = radians(fields.level_deg);
  const logged = longest(series, quantity);
  if (logged) {
    const found = attitudeZero(logged.values.map(alone), 1, level);
    return found.status === "unsolved" ? found.reason : found;
  }
  const shown = fields[`${quantity}_shown_deg`];
  return shown === undefined ? undefined : attitudeZeroByEye(alone(radians(shown)), level);
}

/** The zero of heel and pitch from lying alongside. */
export const dock: ExerciseDefinition = {
  kind: "dock",
  title: "Level alongside",
  minutes: "10 minutes",
  settles: "the zero of the heel sensor, and of pitch",
  steps: [
    "Lie alongside or at a mooring in still water, lines slack, sails down, crew ashore or amidships, boom on the centreline, tanks as when racing.",
    "Check with a spirit level or a plumb line that she lies level, or note how far she does not.",
    "Log heel and pitch for ten minutes, and give the log; or note in the form what the instrument shows.",
  ],
  cautions: [],
  legend: formLegend(SCHEMA),
  form: `# exercise: dock
# date: 2031-06-14
# heel_shown_deg: 1.8
# pitch_shown_deg: -0.6
# heel_true_deg: 0
# pitch_true_deg: 0
# level_deg: 0.5
`,
  async evaluate(given) {
    const { file, logs, boat, settings, run } = given;
    const fields = checked(SCHEMA, given.fields, file);
    const series = logs.length === 0 ? [] : await logSeries(logs, QUANTITIES, run);
    // which way the sensor counts is told by the boat file, or by what was keyed in
    const side = boat.heelSensorSign === "auto" ? settings.active.heel.sign : boat.heelSensorSign;
    const findings: Finding[] = [];
    const refused: string[] = [];
    for (const quantity of QUANTITIES) {
      const found = atRest(quantity, series, fields, given);
      // a boat that rolls has no trim of her own either
      if (found === "not at rest") return { status: "unsolved", reason: TROUBLES[found](quantity) };
      if (typeof found === "string") refused.push(TROUBLES[found](quantity));
      if (found === undefined || typeof found === "string") continue;
      const shown = quantity === "heel" ? side * found.zero : found.zero;
      const value = shown - radians(fields[`${quantity}_true_deg`]);
      findings.push({ name: `${quantity}.zero`, value, half: found.half });
    }
    if (findings.length === 0)
      return {
        status: "unsolved",
        reason:
          refused[0] ??
          (logs.length > 0
            ? "the log holds neither heel nor pitch"
            : "give a log of heel and pitch, made alongside, or heel_shown_deg in the form"),
      };
    const zero = findings.find(({ name }) => name === "heel.zero")?.value;
    return {
      status: "solved",
      at: series[0]?.start ?? fields.date ?? Number.NaN,
      findings,
      ...(zero === undefined
        ? {}
        : { total: { ...settings.active, heel: { ...settings.active.heel, zero } } }),
      restsOn: [],
      words: dockWords(findings, settings.active.heel.zero),
      notes: refused.map((reason) => `${capital(reason)}.`),
    };
  },
};
