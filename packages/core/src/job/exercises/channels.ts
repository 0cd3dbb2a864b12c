import * as z from "zod";
import { checked } from "../../calibration/checkedFile.ts";
import {
  type KnownPoint,
  type LinearCalibrationOptions,
  linearCalibration,
} from "../../fit/linearCalibration.ts";
import { suspectReadings } from "../../judge/suspectReadings.ts";
import { channelWords, offsetWords } from "../../report/exercises/channelWords.ts";
import type { ExerciseDefinition } from "./exerciseKind.ts";
import { formLegend } from "./formLegend.ts";
import { day } from "./formValues.ts";

/** The points of which one is probably wrong. */
export const suspectPoints = (
  points: readonly KnownPoint[],
  options: LinearCalibrationOptions,
): readonly number[] =>
  suspectReadings(points, (some) => {
    const rest = linearCalibration(some, options);
    return rest.status === "solved" ? rest.scatter : Number.NaN;
  });

/** A unit as it follows a number: degrees and the like without a space. */
const unitText = (unit: string): string => (unit === "" || /^[°%]/.test(unit) ? unit : ` ${unit}`);

const UNSOLVED = {
  "no point": "there is no known point",
  "one reading":
    "all points have one reading: a gain needs two that differ, one at each end of what the channel is used for",
} as const;

/** How well a thermometer is read. Judgement. */
const USUAL_DEVIATION_C = 0.3;

const WATER = z.strictObject({
  date: day.describe("the day"),
  deviation_c: z
    .number()
    .positive()
    .default(USUAL_DEVIATION_C)
    .describe(`how well the thermometer is right (one standard deviation); ${USUAL_DEVIATION_C} unless told`),
  rows: z
    .array(
      z.strictObject({
        reading_c: z.number().describe("what the instrument showed, °C; or reading_f"),
        truth_c: z.number().describe("what the thermometer showed, °C; or truth_f"),
      }),
    )
    .min(1),
});

/** A thermometer's scale is good; what is off is its zero. Common practice. */
const THERMOMETER_GAIN = { mean: 1, sd: 0.01 };

/** The water's thermometer against another. */
export const temperature: ExerciseDefinition = {
  kind: "temperature",
  needsForm: "give the known points",
  title: "Water temperature against a thermometer",
  minutes: "10 minutes",
  settles: "the offset of the water's thermometer",
  steps: [
    "Draw a bucket of water from beside the sensor, stir, and read a trusted thermometer in it at once; note both.",
    "Once more in water of another temperature, if there is any.",
  ],
  cautions: [],
  legend: formLegend(WATER),
  form: `# exercise: temperature
# date: 2031-06-14
reading_c,truth_c
17.2,16.4
17.4,16.5
`,
  async evaluate({ fields: given, file }) {
    const { date, deviation_c, rows } = checked(WATER, given, file);
    const points = rows.map(({ reading_c, truth_c }) => ({ reading: reading_c, truth: truth_c }));
    const options = { deviation: deviation_c, gain: THERMOMETER_GAIN };
    const found = linearCalibration(points, options);
    if (found.status === "unsolved") return { status: "unsolved", reason: UNSOLVED[found.reason] };
    const { middle } = found;
    const suspects = suspectPoints(points, options);
    return {
      status: "solved",
      at: date,
      findings: [{ name: "temperature.offset", value: middle.truth - middle.reading, half: middle.half }],
      restsOn: [],
      words: offsetWords(found, { name: "water temperature", unit: " °C", decimals: 1, suspects }),
      notes: [],
    };
  },
};

const CHANNEL = z.strictObject({
  date: day.describe("the day"),
  name: z.string().min(1).describe("what the channel is of: its name in the boat's history"),
  unit: z.string().default("").describe("the unit of the truth"),
  deviation: z
    .number()
    .positive()
    .describe("how well one point is known (one standard deviation), in that unit"),
  rows: z
    .array(
      z.strictObject({
        reading: z.number().describe("what the channel showed, in whatever unit"),
        truth: z.number().describe("what it should have shown"),
      }),
    )
    .min(1),
});

/** Any channel that is linear: an analogue input, a load cell. */
export const channel: ExerciseDefinition = {
  kind: "channel",
  needsForm: "give the known points",
  title: "A linear channel at known points",
  minutes: "15 minutes",
  settles: "offset and gain of a load cell, an analogue input or any other linear channel",
  steps: [
    "Bring the channel to two known values at least, at both ends of what it is used for, and to one between: a known weight, a scale, a stop.",
    "Note the reading at each, going up and coming down: what differs between the two is friction, and no calibration takes it out.",
  ],
  cautions: ["Nobody stands in line with a loaded rope, block or cylinder."],
  legend: formLegend(CHANNEL),
  form: `# exercise: channel
# date: 2031-06-14
# name: forestay load
# unit: kN
# deviation: 0.2
reading,truth
0.3,0
10.6,10
20.7,20
10.9,10
`,
  async evaluate({ fields: given, file }) {
    const { date, name, unit, deviation, rows } = checked(CHANNEL, given, file);
    const found = linearCalibration(rows, { deviation });
    if (found.status === "unsolved") return { status: "unsolved", reason: UNSOLVED[found.reason] };
    const suspects = suspectPoints(rows, { deviation });
    return {
      status: "solved",
      at: date,
      findings: [
        { name: "channel.offset", of: name, value: found.offset, half: found.offsetHalf },
        { name: "channel.gain", of: name, value: found.gain, half: found.gainHalf },
      ],
      restsOn: [],
      words: channelWords(found, { name, unit: unitText(unit), decimals: 2, suspects }),
      notes: [],
    };
  },
};
