/** The readings of one log written in another format, as loggers of that format would have written them. */
import type { QuantityName } from "../../packages/core/src/recording/readings.ts";
import { degrees } from "../../packages/core/src/units.ts";
import { packedLine } from "./canLines.ts";
import type { WholeLog } from "./wholeLog.ts";

interface Reading {
  readonly quantity: QuantityName;
  readonly time: number;
  readonly value: number;
}

const readingsOf = ({ reader, time, value, source }: WholeLog): readonly Reading[] =>
  time.map((one, row) => ({
    quantity: reader.sources[source[row]!]!.quantity,
    time: one,
    value: value[row]!,
  }));

/** A count of a field, little endian; counts below 0 as they stand in so many bytes. */
const bytesOfCount = (count: number, bytes: number): readonly number[] =>
  Array.from({ length: bytes }, (_, at) => Math.floor(count / 256 ** at) & 0xff);

const count = (value: number, resolution: number, bytes: number): readonly number[] => {
  const whole = Math.round(value / resolution);
  return bytesOfCount(whole < 0 ? whole + 256 ** bytes : whole, bytes);
};

const TURN = 2 * Math.PI;
const none = (bytes: number): readonly number[] => new Array<number>(bytes).fill(0xff);
const noAngle = [0xff, 0x7f];
const angle = (value: number) => count(value, 1e-4, 2);
const turn = (value: number) => angle(value < 0 ? value + TURN : value);
const speed = (value: number) => count(value, 0.01, 2);

/** The frame of a reading: group and bytes; latitude and longitude go together and are not here. */
const FRAMES: Partial<
  Readonly<Record<QuantityName, readonly [pgn: number, bytes: (value: number) => readonly number[]]>>
> = {
  apparentWindAngle: [130306, (value) => [0, ...none(2), ...turn(value), 0xfa, ...none(2)]],
  apparentWindSpeed: [130306, (value) => [0, ...speed(value), ...none(2), 0xfa, ...none(2)]],
  speedThroughWater: [128259, (value) => [0, ...speed(value), ...none(5)]],
  headingMagnetic: [127250, (value) => [0, ...turn(value), ...noAngle, ...noAngle, 0xfd]],
  headingTrue: [127250, (value) => [0, ...turn(value), ...noAngle, ...noAngle, 0xfc]],
  variation: [127258, (value) => [0, 0xff, ...none(2), ...angle(value), ...none(2)]],
  heel: [127257, (value) => [0, ...noAngle, ...noAngle, ...angle(value), 0xff]],
  pitch: [127257, (value) => [0, ...noAngle, ...angle(value), ...noAngle, 0xff]],
  courseOverGround: [129026, (value) => [0, 0xfc, ...turn(value), ...none(4)]],
  speedOverGround: [129026, (value) => [0, 0xfc, ...none(2), ...speed(value), ...none(2)]],
};

/** The readings of a log, those that sailing is judged by, as frames on one bus; a microsecond apart where they share a time. */
export function framesOf(log: WholeLog): string {
  const lines: string[] = [];
  let latitude = Number.NaN;
  let last = 0;
  for (const { quantity, time, value } of readingsOf(log)) {
    if (quantity === "latitude") latitude = value;
    const position = [...count(degrees(latitude), 1e-7, 4), ...count(degrees(value), 1e-7, 4)];
    const [pgn, bytes] = FRAMES[quantity] ?? [];
    const frame =
      quantity === "longitude"
        ? { pgn: 129025, source: 3, data: position }
        : pgn && { pgn, source: 3, data: bytes!(value) };
    if (!frame) continue;
    last = Math.max(time, last + 1e-6);
    lines.push(packedLine(frame, last));
  }
  return `${lines.join("\n")}\n`;
}

const PATHS: Partial<Readonly<Record<QuantityName, string>>> = {
  apparentWindAngle: "environment.wind.angleApparent",
  apparentWindSpeed: "environment.wind.speedApparent",
  speedThroughWater: "navigation.speedThroughWater",
  headingMagnetic: "navigation.headingMagnetic",
  headingTrue: "navigation.headingTrue",
  variation: "navigation.magneticVariation",
  courseOverGround: "navigation.courseOverGroundTrue",
  speedOverGround: "navigation.speedOverGround",
};

/** What a reading is in a delta: path and value; undefined where it goes with another. */
function pathAndValue(
  { quantity, value }: Reading,
  latitude: number,
): readonly [string, unknown] | undefined {
  if (quantity === "heel") return ["navigation.attitude", { roll: value, pitch: null, yaw: null }];
  if (quantity === "pitch") return ["navigation.attitude", { roll: null, pitch: value, yaw: null }];
  if (quantity === "longitude")
    return ["navigation.position", { latitude: degrees(latitude), longitude: degrees(value) }];
  const path = PATHS[quantity];
  return path === undefined ? undefined : [path, value];
}

/** The readings of a log, those that sailing is judged by, as deltas; a microsecond apart where they share a time. */
export function deltasOf(log: WholeLog): string {
  const lines: string[] = [];
  let latitude = Number.NaN;
  let last = 0;
  for (const reading of readingsOf(log)) {
    if (reading.quantity === "latitude") latitude = reading.value;
    const told = pathAndValue(reading, latitude);
    if (told === undefined) continue;
    last = Math.max(reading.time, last + 1e-6);
    const [path, value] = told;
    lines.push(
      JSON.stringify({
        context: "vessels.self",
        updates: [{ $source: "serial.II", timestamp: microseconds(last), values: [{ path, value }] }],
      }),
    );
  }
  return `${lines.join("\n")}\n`;
}

/** A time by ISO 8601 to the microsecond. */
function microseconds(time: number): string {
  const whole = Math.floor(time);
  const fraction = Math.round((time - whole) * 1e6);
  const carried = new Date((whole + Math.floor(fraction / 1e6)) * 1000).toISOString();
  return carried.replace(/\.\d+Z/, `.${String(fraction % 1e6).padStart(6, "0")}Z`);
}
