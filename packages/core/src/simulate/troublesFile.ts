import * as z from "zod";
import { edgeFromSi, siFromEdge } from "../calibration/edgeUnits.ts";
import { type SensorTrouble, TROUBLED_SENSORS } from "./sensorTroubles.ts";

const number = z.number();
const span = { at_s: number.min(0), seconds: number.positive() };
const sensor = z.enum(TROUBLED_SENSORS);
const turn = number.min(-180).max(180);
const factor = number.min(0).max(10);

/** One trouble of a sensor, as a scenario file holds it. */
export const troubleSchema = z.discriminatedUnion(
  "kind",
  [
    z.strictObject({ kind: z.literal("frozen"), sensor, ...span }),
    z.strictObject({ kind: z.literal("fouled"), share: number.min(0).max(1), ...span }),
    z.strictObject({
      kind: z.literal("turned"),
      sensor: z.enum(["vane", "compass", "heel"]),
      angle_deg: turn,
      ...span,
    }),
    z.strictObject({
      kind: z.literal("drifting"),
      sensor: z.enum(["vane", "compass", "heel"]),
      angle_deg: turn,
      ...span,
    }),
    z.strictObject({
      kind: z.literal("bursts"),
      sensor,
      every_s: number.min(1),
      lasting_s: number.positive(),
      angle_deg: turn.default(0),
      factor: factor.default(1),
      ...span,
    }),
    z.strictObject({
      kind: z.literal("second wind sensor"),
      talker: z.string().regex(/^[A-Z]{2}$/, { error: "two capital letters" }),
      angle_deg: turn.default(0),
      factor: factor.default(1),
      ...span,
    }),
  ],
  { error: 'one of "frozen", "fouled", "turned", "drifting", "bursts", "second wind sensor"' },
);

type TroubleInFile = z.output<typeof troubleSchema>;

/** The trouble that a scenario file tells. Never throws. */
export function troubleFromFile(trouble: TroubleInFile): SensorTrouble {
  const { at_s: at, seconds } = trouble;
  const angle = (degrees: number): number => siFromEdge(degrees, "deg");
  switch (trouble.kind) {
    case "frozen":
      return { kind: "frozen", sensor: trouble.sensor, at, seconds };
    case "fouled":
      return { kind: "fouled", share: trouble.share, at, seconds };
    case "turned":
    case "drifting":
      return { kind: trouble.kind, sensor: trouble.sensor, angle: angle(trouble.angle_deg), at, seconds };
    case "bursts": {
      const { sensor, every_s: every, lasting_s: lasting, factor } = trouble;
      return { kind: "bursts", sensor, every, lasting, angle: angle(trouble.angle_deg), factor, at, seconds };
    }
    case "second wind sensor": {
      const { kind, talker, factor } = trouble;
      return { kind, talker, angle: angle(trouble.angle_deg), factor, at, seconds };
    }
  }
}

/** A trouble as its file holds it: the inverse of `troubleFromFile`. Never throws. */
export function troubleInFile(trouble: SensorTrouble): TroubleInFile {
  const span = { at_s: trouble.at, seconds: trouble.seconds };
  const inDegrees = (angle: number): number => edgeFromSi(angle, "deg");
  switch (trouble.kind) {
    case "frozen":
      return { kind: "frozen", sensor: trouble.sensor, ...span };
    case "fouled":
      return { kind: "fouled", share: trouble.share, ...span };
    case "turned":
    case "drifting":
      return { kind: trouble.kind, sensor: trouble.sensor, angle_deg: inDegrees(trouble.angle), ...span };
    case "bursts": {
      const { kind, sensor, every, lasting, angle, factor } = trouble;
      return {
        kind,
        sensor,
        every_s: every,
        lasting_s: lasting,
        angle_deg: inDegrees(angle),
        factor,
        ...span,
      };
    }
    case "second wind sensor": {
      const { kind, talker, angle, factor } = trouble;
      return { kind, talker, angle_deg: inDegrees(angle), factor, ...span };
    }
  }
}
