import type { Boat } from "../../calibration/boat.ts";
import { SLICE, type WindSlice, type WindSlices } from "../../fit/joinedMeans.ts";
import type { QuantityName, Source } from "../../recording/readings.ts";
import type { MetresPerSecond, Seconds } from "../../units.ts";
import type { JobRun, LogSource } from "../logSource.ts";
import { secondsOfLog } from "../secondsOfLog.ts";
import { surveyLogs } from "../survey.ts";
import { readingsOf } from "./readingsOf.ts";

const NOTHING: WindSlice = { count: 0, speed: 0, east: 0, north: 0, still: 0 };

class Slices {
  readonly slices = new Map<number, WindSlice>();

  add(time: Seconds, what: Partial<WindSlice>): void {
    const at = Math.floor(time / SLICE);
    const before = this.slices.get(at) ?? NOTHING;
    const { count = 0, speed = 0, east = 0, north = 0, still = 0 } = what;
    this.slices.set(at, {
      count: before.count + count,
      speed: before.speed + speed,
      east: before.east + east,
      north: before.north + north,
      still: before.still + still,
    });
  }
}

/** A boat that makes more way over the ground than this is not at rest, and her wind is not that of the place. */
const AT_REST: MetresPerSecond = 0.5;

/** A boat's apparent wind while she lies at rest, by slices, with how many seconds were left out since she moved. */
export interface WindAtRest {
  readonly slices: WindSlices;
  readonly moving: Seconds;
}

/** A boat's wind at rest in her logs. @throws as `surveyLogs` */
export async function windAtRest(logs: readonly LogSource[], boat: Boat, run: JobRun): Promise<WindAtRest> {
  const survey = await surveyLogs(logs, boat, run);
  const found = new Slices();
  let moving = 0;
  for (const log of survey.logs)
    for await (const { length, time, columns } of secondsOfLog(log, { chosen: survey.plan.chosen }, run))
      for (let at = 0; at < length; at++) {
        const speed = columns.aws[at]!;
        if (Number.isNaN(speed)) continue;
        if (Math.hypot(columns.east[at]!, columns.north[at]!) > AT_REST) moving += 1;
        else found.add(time[at]!, { count: 1, speed, still: Number(speed === 0) });
      }
  return { slices: found.slices, moving };
}

/** What a station may call its wind, the likeliest first: on something fixed all winds are one. */
const SPEEDS = ["onboardTrueWindSpeed", "apparentWindSpeed"] as const satisfies readonly QuantityName[];
const DIRECTIONS = ["onboardTrueWindDirection"] as const satisfies readonly QuantityName[];

/** A wind that a station logged, with the sources that it was read from. */
export interface StationWind {
  readonly slices: WindSlices;
  readonly speedFrom: string;
  readonly hasDirection: boolean;
}

interface OwnSource {
  readonly quantity: QuantityName;
  readonly name: string;
  readonly times: number[];
  readonly values: number[];
}

const fullest = (sources: readonly OwnSource[], among: readonly QuantityName[]): OwnSource | undefined =>
  among
    .map(
      (quantity) =>
        sources
          .filter((source) => source.quantity === quantity)
          .sort((one, other) => other.values.length - one.values.length)[0],
    )
    .find((source) => source !== undefined);

/** A station's log is not longer than so many readings. */
const MOST_READINGS = 4_000_000;

/**
 * The wind in a station's log, in any format that logs have.
 *
 * @returns undefined where it holds no wind speed. @throws what reading throws
 */
export async function stationWind(logs: readonly LogSource[], run: JobRun): Promise<StationWind | undefined> {
  const own = new Map<Source, OwnSource>();
  await readingsOf(logs, [...SPEEDS, ...DIRECTIONS], run, (source, time, value) => {
    const one = own.get(source) ?? { ...source, times: [], values: [] };
    if (one.values.length >= MOST_READINGS) return;
    one.times.push(time);
    one.values.push(value);
    own.set(source, one);
  });
  const speed = fullest([...own.values()], SPEEDS);
  if (!speed) return undefined;
  const direction = fullest([...own.values()], DIRECTIONS);
  const found = new Slices();
  speed.values.forEach((value, at) => {
    found.add(speed.times[at]!, { count: 1, speed: value });
  });
  direction?.values.forEach((value, at) => {
    const time = direction.times[at]!;
    if (found.slices.has(Math.floor(time / SLICE)))
      found.add(time, { east: Math.sin(value), north: Math.cos(value) });
  });
  return { slices: found.slices, speedFrom: speed.name, hasDirection: direction !== undefined };
}
