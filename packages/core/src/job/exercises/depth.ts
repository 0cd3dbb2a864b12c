import * as z from "zod";
import { checked } from "../../calibration/checkedFile.ts";
import { correlatedMean } from "../../fit/correlatedMean.ts";
import { type KnownPoint, linearCalibration } from "../../fit/linearCalibration.ts";
import { pointScatterWords } from "../../report/exercises/channelWords.ts";
import { type DepthChecks, depthSketch, depthWords } from "../../report/exercises/depthWords.ts";
import { suspectPoints } from "./channels.ts";
import type { ExerciseDefinition, ExerciseGiven } from "./exerciseKind.ts";
import { formLegend } from "./formLegend.ts";
import { day } from "./formValues.ts";
import { logSeries, type SourceSeries } from "./logSeries.ts";

/** Waves, a soft bottom, the lead's own length. Judgement. */
const USUAL_DEVIATION_M = 0.1;

const SCHEMA = z.strictObject({
  date: day.describe("the day of the sounding"),
  draught_m: z
    .number()
    .positive()
    .max(20)
    .optional()
    .describe("from the waterline to the keel; or draught_ft"),
  deviation_m: z
    .number()
    .positive()
    .default(USUAL_DEVIATION_M)
    .describe(
      `how well a sounding is known (one standard deviation): waves, mud, the lead; ${USUAL_DEVIATION_M} unless told`,
    ),
  rows: z
    .array(
      z.strictObject({
        sounding_m: z
          .number()
          .positive()
          .describe("from the waterline to the bottom, by lead or pole; or sounding_ft"),
        reading_m: z.number().positive().describe("what the sounder showed at the time; or reading_ft"),
      }),
    )
    .min(1),
});

/** The sound's speed that a sounder assumes is that of water within some 2 %: fresh to salt, cold to warm. */
const SOUNDER_GAIN = { mean: 1, sd: 0.01 };

/** What DPT and DBT in a log say of each other. */
function checksOf(series: readonly SourceSeries[]): DepthChecks {
  const from = (sentence: string): SourceSeries | undefined =>
    series.find(({ quantity, source }) => quantity === "depthBelowTransducer" && source.includes(sentence));
  const [dpt, dbt] = [from("DPT"), from("DBT")];
  const offset = series.find(({ quantity }) => quantity === "transducerOffset");
  const sent = offset ? correlatedMean(offset.values, 1).mean : Number.NaN;
  if (!dpt || !dbt) return { sent, difference: Number.NaN, spread: Number.NaN };
  const differences = Array.from(
    dpt.values,
    (value, at) => value - (dbt.values[at + dpt.start - dbt.start] ?? Number.NaN),
  );
  const { mean, spread } = correlatedMean(differences, 1);
  return { sent, difference: mean, spread };
}

async function checksIn({ logs, run }: ExerciseGiven): Promise<DepthChecks | undefined> {
  if (logs.length === 0) return undefined;
  return checksOf(await logSeries(logs, ["depthBelowTransducer", "transducerOffset"], run));
}

/** The depth's datum: where the transducer sits. */
export const depth: ExerciseDefinition = {
  kind: "depth",
  needsForm: "give the soundings, and the log beside them",
  title: "Depth against a sounding",
  minutes: "10 minutes alongside",
  settles: "what to add to the depth so that it counts from the waterline, or from the keel",
  steps: [
    "Alongside or at anchor over hard, level ground, sound with a lead or pole from the waterline, right beside the transducer.",
    "Note the sounding and what the sounder shows; three times, and in two depths if the tide allows.",
    "Add a log of the time, and its depths are checked against each other.",
  ],
  cautions: ["Leave a margin under the keel all the same: squat, waves and the chart are no part of this."],
  legend: formLegend(SCHEMA),
  form: `# exercise: depth
# date: 2031-06-14
# draught_m: 1.9
sounding_m,reading_m
4.9,4.3
4.8,4.2
6.4,5.8
`,
  async evaluate(given) {
    const checks = await checksIn(given);
    const { date, deviation_m, draught_m, rows } = checked(SCHEMA, given.fields, given.file);
    const points = rows.map(
      ({ sounding_m, reading_m }): KnownPoint => ({ reading: reading_m, truth: sounding_m }),
    );
    const options = { deviation: deviation_m, gain: SOUNDER_GAIN };
    const found = linearCalibration(points, options);
    if (found.status === "unsolved") return { status: "unsolved", reason: "there is no sounding" };
    const offset = { value: found.middle.truth - found.middle.reading, half: found.middle.half };
    return {
      status: "solved",
      at: date,
      findings: [{ name: "depth.offset", ...offset }],
      restsOn: [],
      words: [
        ...pointScatterWords(found, suspectPoints(points, options)),
        ...depthWords(offset, draught_m, checks),
      ],
      sketch: depthSketch(offset.value, draught_m),
      notes: [],
    };
  },
};
