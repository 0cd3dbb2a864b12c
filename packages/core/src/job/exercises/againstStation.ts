import { RefusedFile } from "../../calibration/refusedFile.ts";
import {
  anemometerAgainstReference,
  type ComparedSpeed,
  REFERENCE_REFUSALS,
  type SolvedAnemometer,
} from "../../fit/anemometerAgainstReference.ts";
import {
  correlationOf,
  type JoinedMean,
  type JoinOptions,
  joinedMeans,
  SLICE,
  stepOf,
  type WindSlices,
} from "../../fit/joinedMeans.ts";
import { type StationDoubt, stationDoubt } from "../../fit/stationDoubt.ts";
import { ratioSentence } from "../../report/exercises/anemometerWords.ts";
import { clockHint, noOverlapWords, noWindWords } from "../../report/exercises/stationWords.ts";
import { anemometerReadingOf } from "../../sensors/anemometer.ts";
import { radians, type Seconds } from "../../units.ts";
import type { ExerciseGiven } from "./exerciseKind.ts";
import { stationWind, type WindAtRest, windAtRest } from "./windSlices.ts";

/** What a form tells of a station whose log is compared. */
export interface StationFields {
  readonly station_height_m?: number | undefined;
  readonly distance_nm?: number | undefined;
  readonly anemometer_height_m?: number | undefined;
  readonly reference_percent: number;
  readonly place_percent?: number | undefined;
  readonly mean_minutes?: number | undefined;
  readonly stamped: "end" | "middle" | "start";
  readonly sector_from_deg?: number | undefined;
  readonly sector_to_deg?: number | undefined;
}

/** What came of a comparison with a station's log. */
export type AgainstStation =
  | {
      readonly status: "solved";
      readonly found: SolvedAnemometer;
      readonly doubt: StationDoubt;
      readonly start: Seconds;
      readonly mean: Seconds;
      readonly heights: readonly [number, number];
      readonly moving: Seconds;
      /** Where the two series would go together far better; words. */
      readonly hint?: string;
    }
  | { readonly status: "unsolved"; readonly reason: string };

const MILE = 1852;

/** Means of two sensors side by side, and of two places, where a station tells often: eddies must have passed both. Judgement. */
const BESIDE: Seconds = 60;
const APART: Seconds = 600;
const SIDE_BY_SIDE = 0.05;

const STAMPED = { end: 1, middle: 0.5, start: 0 } as const;

function required(value: number | undefined, file: string, field: string, expected: string): number {
  if (value === undefined) throw new RefusedFile(file, field, expected, "nothing");
  return value;
}

function joinOptions(fields: StationFields, distance: number, station: WindSlices): JoinOptions {
  const told = fields.mean_minutes === undefined ? undefined : 60 * fields.mean_minutes;
  const usual = Math.max(distance < SIDE_BY_SIDE ? BESIDE : APART, SLICE);
  const mean = told ?? Math.min(APART, Math.max(usual, stepOf(station)));
  const { sector_from_deg: from, sector_to_deg: to } = fields;
  const sector =
    from === undefined || to === undefined ? {} : { sector: [radians(from), radians(to)] as const };
  return { mean, stampedAt: STAMPED[fields.stamped], ...sector };
}

/** Hours by which a clock may be off where somebody mistook its zone. */
const HOURS = Array.from({ length: 27 }, (_, at) => at - 13).filter((hours) => hours !== 0);

/** So much better must the two go together with the clock moved. Judgement. */
const FAR_BETTER = 0.15;
const WELL = 0.8;

/** With so few means a correlation is chance. */
const ENOUGH = 48;

/** By how many whole hours the station's clock should probably be moved; undefined where it goes well enough as it is. */
function hoursOff(boat: WindSlices, station: WindSlices, options: JoinOptions): number | undefined {
  const goes = (hours: number): number => {
    const pairs = joinedMeans(boat, station, { ...options, shift: 3600 * hours });
    return pairs.length < ENOUGH ? Number.NEGATIVE_INFINITY : correlationOf(pairs);
  };
  const now = goes(0);
  const best = HOURS.map((hours) => ({ hours, goes: goes(hours) })).sort((a, b) => b.goes - a.goes)[0]!;
  return best.goes > WELL && !(best.goes < now + FAR_BETTER) ? best.hours : undefined;
}

/** The pairs as the fit takes them: the cups' own reading, the station's brought to the masthead's height. */
const pairsOf = (
  joined: readonly JoinedMean[],
  factor: number,
  { settings }: ExerciseGiven,
): readonly ComparedSpeed[] =>
  joined.flatMap(({ reading, reference }) => {
    const alone = anemometerReadingOf(reading, settings.active.anemometer);
    return reading > 0 && alone > 0 ? [{ reading: alone, reference: factor * reference }] : [];
  });

/**
 * M188. A boat's anemometer against the log of a station.
 *
 * @throws RefusedFile where the form lacks the station's height or distance; what reading throws
 */
export async function againstStation(fields: StationFields, given: ExerciseGiven): Promise<AgainstStation> {
  const { file, logs, reference = [], boat, settings, run } = given;
  const height = required(
    fields.station_height_m,
    file,
    "station_height_m",
    "how high above the water the station's anemometer stands",
  );
  const miles = required(
    fields.distance_nm,
    file,
    "distance_nm",
    "how far the station is from the boat; 0 beside her",
  );
  if (logs.length === 0)
    return { status: "unsolved", reason: "the boat's own log is missing: give it beside the form" };
  const sensorHeight = fields.anemometer_height_m ?? boat.windSensorHeight;
  const [own, station] = [
    await windAtRest(logs, { ...boat, settings }, run),
    await stationWind(reference, run),
  ];
  const name = reference.map((log) => log.name).join(", ");
  if (!station) return { status: "unsolved", reason: noWindWords(name) };
  const options = joinOptions(fields, miles, station.slices);
  if (options.sector && !station.hasDirection)
    return { status: "unsolved", reason: `${name} holds no true wind direction, which a sector needs` };
  const place = fields.place_percent === undefined ? {} : { place: fields.place_percent / 100 };
  const doubt = stationDoubt(
    { height, distance: MILE * miles, own: fields.reference_percent / 100, ...place },
    sensorHeight,
  );
  const joined = joinedMeans(own.slices, station.slices, options);
  const pairs = pairsOf(joined, doubt.factor, given);
  const hours = hoursOff(own.slices, station.slices, options);
  const hint = hours === undefined ? undefined : clockHint(hours);
  if (pairs.length === 0)
    return { status: "unsolved", reason: noPairsReason(own, station.slices, options, hint) };
  const found = anemometerAgainstReference(pairs, { errorRatio: 1, referenceGain: doubt.all });
  if (found.status === "unsolved") {
    const told = found.atMean ? `; ${ratioSentence(found.atMean)}` : "";
    const have = found.reason === "too few intervals" ? `; there are ${pairs.length} here` : "";
    return {
      status: "unsolved",
      reason: [`${REFERENCE_REFUSALS[found.reason]}${have}${told}`, hint].filter(Boolean).join("; "),
    };
  }
  const heights = [height, sensorHeight] as const;
  const { mean } = options;
  return {
    status: "solved",
    found,
    doubt,
    start: joined[0]!.start,
    mean,
    heights,
    moving: own.moving,
    ...(hint === undefined ? {} : { hint }),
  };
}

const spanOf = (slices: WindSlices): readonly [Seconds, Seconds] => {
  let [first, last] = [Infinity, -Infinity];
  for (const at of slices.keys()) [first, last] = [Math.min(first, at), Math.max(last, at)];
  return [first * SLICE, (last + 1) * SLICE];
};

/** Why there is no mean of both. */
function noPairsReason(
  { slices, moving }: WindAtRest,
  station: WindSlices,
  { sector }: JoinOptions,
  hint: string | undefined,
): string {
  if (slices.size === 0)
    return moving > 0
      ? "the boat was never at rest in her log: lie alongside or at anchor, so that the masthead feels the wind of the place"
      : "the boat's log holds no apparent wind speed";
  const [own, other] = [spanOf(slices), spanOf(station)];
  if (own[0] < other[1] && other[0] < own[1])
    return sector
      ? "while both logs ran the wind never came from the sector that is asked for"
      : "while both logs ran there is no time of which both hold a whole mean: see mean_minutes";
  return [noOverlapWords(own, other), hint].filter(Boolean).join("; ");
}
