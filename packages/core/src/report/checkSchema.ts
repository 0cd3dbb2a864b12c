import * as z from "zod";
import { PROBLEM_KINDS, QUANTITIES } from "../recording/readings.ts";

/** What a file of `check` is known by. */
export const CHECK_FILE = { schema: "bothtacks-check", version: 1 } as const;

/** ISO 8601 in UTC; null where it is not known. */
const time = z.string().nullable();
/** A number; null where it is not known. */
const number = z.number().nullable();
const count = z.int().nonnegative();
const quantity = z.enum(QUANTITIES);

const stretch = z.strictObject({ start: time, length_s: number });
const excuse = z.strictObject({ name: z.string(), reason: z.string() });

const source = z.strictObject({
  quantity,
  name: z.string(),
  taken: z.boolean().describe("whether calibrate reads this source for its quantity"),
  why: z.string().describe("why it was taken, or not"),
  readings: count,
  untimed_readings: count.describe("readings before the log told any time"),
  start: time,
  end: time,
  rate_hz: number.describe("readings a second, silences left out"),
  unit: z.string().describe("of step, lowest and highest"),
  step: number.describe("the step in which its readings come"),
  lowest: number,
  highest: number,
  heard_s: number.describe("from the first to the last reading of each log, silences left out"),
  silent_s: number,
  frozen_s: number.describe(
    "for how long it stood at one value, though its quantity never rests on a boat under way",
  ),
  zero_s: number.describe("for how long a speed was exactly 0"),
  spikes: count.describe("lone readings far from both neighbours"),
  leaps: count.describe("changes of a heading faster than a boat can turn"),
  repeats: z.string().nullable().describe("the earlier source that it repeats, value for value"),
  is_course_over_ground: z.boolean().describe("a heading that is the course over ground: no compass"),
  gaps: z.array(stretch).describe("its silences, at most the longest thousand"),
  frozen: z.array(stretch),
});

const pair = z.strictObject({
  quantity,
  one: z.string(),
  other: z.string(),
  compared_s: count.describe("seconds in which both told something"),
  unit: z.string().describe("of bias, spread and noise"),
  bias: number.describe("mean of the other less the one"),
  spread: number.describe("standard deviation of that difference"),
  noise: number.describe("the part of it that is new every second"),
  lag_s: number.describe("how far the other is behind the one; null where that could not be found"),
  opposite: z
    .boolean()
    .describe("the other turns one way where the one turns the other: one has port and starboard swapped"),
});

const trouble = z.strictObject({
  kind: z.enum(["frozen", "stopped", "fouled", "turned", "spikes", "mixed"]),
  sensor: z.enum(["awa", "aws", "stw", "heading", "heel"]),
  start: time,
  end: time,
  remedy: z.string(),
});

/** The shape of what `check --json` prints. */
export const checkSchema = z.strictObject({
  schema: z.literal(CHECK_FILE.schema),
  version: z.literal(CHECK_FILE.version),
  files: z.array(z.strictObject({ name: z.string(), start: time, end: time })),
  files_left_out: z.array(excuse),
  start: time,
  end: time,
  directions_are: z.enum(["true", "magnetic"]),
  lines: z.strictObject({ all: count, used: count, ignored: count, problems: count }),
  problem_counts: z.record(z.enum(PROBLEM_KINDS), count),
  first_problems: z.array(
    z.strictObject({
      file: z.string(),
      line: z.int(),
      kind: z.enum(PROBLEM_KINDS),
      expected: z.string(),
      received: z.string(),
    }),
  ),
  sailed: z.strictObject({
    steady_s: number,
    motoring_s: number,
    other_s: number,
    legs: count,
    tacks: count,
    gybes: count,
  }),
  sources: z.array(source),
  pairs: z.array(pair).describe("sources of one quantity beside each other"),
  lags: z
    .array(z.strictObject({ sensor: z.string(), lag_s: number }))
    .describe("behind the heading, else the course over ground"),
  gaps: z.array(stretch).describe("silences of the whole log"),
  swapped_winds: z.array(z.strictObject({ apparent: z.string(), onboard_true: z.string(), share: number })),
  wind_is_mirrored: z.boolean().describe("the wind angle has port and starboard swapped"),
  troubles: z.array(trouble),
  stands_out: z.array(z.string()),
  can_calibrate: z.array(z.string()),
  cannot_calibrate: z.array(z.string()),
});

/** What `check --json` prints, as a value. */
export type CheckInFile = z.infer<typeof checkSchema>;
