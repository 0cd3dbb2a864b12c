/**
 * The traps of fitting a boat's wind, each with and without its way out, on rows made directly with known faults. Tests hold them, and
 * `scripts/traps.ts` prints their figures.
 */
import type { FitContext, RecordingChannels } from "../../packages/core/src/fit/fitContext.ts";
import { measuredValues } from "../../packages/core/src/fit/nominalState.ts";
import { priorMeans } from "../../packages/core/src/fit/priors.ts";
import { type RowEvidence, rowEvidence } from "../../packages/core/src/fit/rowEvidence.ts";
import type { SeriesName } from "../../packages/core/src/fit/sailingSeries.ts";
import { INDEX_OF, LAW_INDEX_OF, settingsOf } from "../../packages/core/src/fit/settingsVector.ts";
import { type Settled, settle } from "../../packages/core/src/fit/settle.ts";
import type { ParameterName } from "../../packages/core/src/sensors/parameterNames.ts";
import { degrees, metresPerSecond, radians } from "../../packages/core/src/units.ts";
import { type FluctuatingLegs, fluctuatingLegs } from "./fluctuatingLegs.ts";
import { aboutTheirMean, directionsOf, naiveFit, type Residuals, speedsOf } from "./naiveFit.ts";

/** How far off a parameter was found, and its standard deviation as the fit states it. */
export interface Told {
  readonly error: number;
  readonly sd: number;
}

/** What a trap does, and what the way out does, by parameter. */
export interface Trap {
  readonly trapped: Told;
  readonly cured: Told;
}

const ALL: RecordingChannels = { compass: true, paddle: true, gps: true, heel: true };
const WIND: readonly SeriesName[] = ["direction", "logSpeed"];
const NO_SYMMETRY: FitContext = {
  heelSign: 1,
  steeredBy: "unknown",
  leewayLawHolds: true,
  symmetry: false,
};

/** All parameters at their priors' means, the laws at their word, but for some that are given. */
function vectorWith(given: Partial<Record<ParameterName, number>>): Float64Array {
  const vector = priorMeans();
  for (const index of Object.values(LAW_INDEX_OF)) vector[index] = 0;
  for (const [name, value] of Object.entries(given)) vector[INDEX_OF[name as ParameterName]] = value;
  return vector;
}

/** Rows of a boat with known faults, and what is free in the fit to them. */
interface Sail {
  readonly truth: Float64Array;
  readonly evidence: readonly RowEvidence[];
  readonly channels: RecordingChannels;
  readonly free: readonly ParameterName[];
}

function sailed(
  faults: Partial<Record<ParameterName, number>>,
  free: readonly ParameterName[],
  legs: Omit<FluctuatingLegs, "settings" | "sign" | "rowsInLeg">,
  channels: RecordingChannels = ALL,
): Sail {
  const truth = vectorWith(faults);
  const rows = fluctuatingLegs({ ...legs, rowsInLeg: 6, settings: settingsOf(truth, 1), sign: 1 });
  return { truth, evidence: rowEvidence(rows, channels), channels, free };
}

const settingOf = ({ evidence, channels, free }: Sail) => ({
  evidence,
  channels,
  heelSign: 1 as const,
  free: free.map((name) => INDEX_OF[name]),
});

function settled(sail: Sail, series = WIND, context: Partial<FitContext> = {}, start = vectorWith({})) {
  const fit = settle({ ...settingOf(sail), series, context: { ...NO_SYMMETRY, ...context }, start });
  if (!fit.atRest) throw new Error(`traps: the fit did not come to rest: ${fit.failure}`);
  return fit;
}

/** A parameter of a fit, times a factor that makes it readable. */
const toldBy = (
  { truth, free }: Sail,
  { vector, covariance }: Settled,
  name: ParameterName,
  factor: number,
): Told => ({
  error: factor * (vector[INDEX_OF[name]]! - truth[INDEX_OF[name]]!),
  sd: factor * Math.sqrt(covariance[free.indexOf(name) * (free.length + 1)]!),
});

function naively(sail: Sail, kinds: readonly Residuals[], name: ParameterName, factor: number): Told {
  const { vector, sds } = naiveFit(settingOf(sail), vectorWith({}), kinds);
  return {
    error: factor * (vector[INDEX_OF[name]]! - sail.truth[INDEX_OF[name]]!),
    sd: factor * sds[sail.free.indexOf(name)]!,
  };
}

const inDegrees = degrees(1);
const inPercent = 100;

const ofDirections: Residuals = (states) => aboutTheirMean(directionsOf(states));

/** The same row with its own values for what is usual: M48 is a way out of its own, which hides what the logarithm does. */
const own = (one: RowEvidence): RowEvidence => ({ ...one, nominal: measuredValues(one.row) });

/**
 * Least scatter of the wind's speed in knots shrinks the wind; of its logarithm it does not. In % of the anemometer's gain.
 *
 * @returns `ours` the library's fit, `ownReadings` that with derivatives at the rows' own readings
 */
export function knotsAndLogarithms(seed: number): Trap & { readonly ours: Told; readonly ownReadings: Told } {
  const sail = sailed(
    { "vane.upwash": radians(4), "anemometer.gain": 0.06 },
    ["vane.upwash", "anemometer.gain"],
    { seed, steeredBy: "compass", legs: 48, directionSd: radians(5), logSpeedSd: 0.15 },
  );
  const by = (speeds: (values: readonly number[]) => readonly number[]): Told =>
    naively(
      sail,
      [ofDirections, (states) => aboutTheirMean(speeds(speedsOf(states)))],
      "anemometer.gain",
      inPercent,
    );
  return {
    trapped: by((speeds) => speeds),
    cured: by((speeds) => speeds.map(Math.log)),
    ours: toldBy(sail, settled(sail), "anemometer.gain", inPercent),
    ownReadings: toldBy(
      sail,
      settled({ ...sail, evidence: sail.evidence.map(own) }),
      "anemometer.gain",
      inPercent,
    ),
  };
}

/** Upwind the angle asked to be the same on every row squeezes the angles by upwash; asked of the day's means it does not. In degrees. */
export function constantAngle(seed: number): Trap & { readonly evidence: number } {
  const upwash = radians(3);
  const sail = sailed({ "vane.upwash": upwash }, ["vane.upwash", "vane.mastheadOffset"], {
    seed,
    steeredBy: "compass",
    legs: 36,
    directionSd: radians(5),
    logSpeedSd: 0.1,
  });
  const upwind = sail.evidence.flatMap(({ row }, at) => (Math.abs(row.mean.awa) < radians(55) ? [at] : []));
  const angles: Residuals = (states) => aboutTheirMean(upwind.map((at) => Math.abs(states.trueAngle[at]!)));
  const fit = settled(sail, WIND, { symmetry: true, steeredBy: "sails" });
  return {
    trapped: naively(sail, [angles], "vane.upwash", inDegrees),
    cured: toldBy(sail, fit, "vane.upwash", inDegrees),
    evidence: fit.scalars.filter(({ name }) => name === "symmetry of sailing").length,
  };
}

/** An hour and a half with gusts of 18 %, in which the masthead offset hardly shows but by symmetry. */
const gusty = (seed: number, toStarboard: (day: number, isUpwind: boolean) => number, days = 1): Sail =>
  sailed(
    { "vane.mastheadOffset": radians(3) },
    ["vane.mastheadOffset", "vane.upwash", "anemometer.gain", "anemometer.threshold"],
    {
      seed,
      steeredBy: "wind",
      legs: 18 * days,
      directionSd: radians(4),
      logSpeedSd: 0.18,
      ofLeg: (leg) => {
        const day = Math.floor(leg / 18);
        return { day, toStarboard: toStarboard(day, leg % 6 < 4) };
      },
    },
  );

const offsetBy = (sail: Sail, context: Partial<FitContext>): Told =>
  toldBy(sail, settled(sail, WIND, context), "vane.mastheadOffset", inDegrees);

const BY_SAILS = { symmetry: true, steeredBy: "sails" } as const;

/** The masthead offset without symmetry of sailing, and with it. In degrees. */
export function withoutSymmetry(seed: number): Trap {
  const sail = gusty(seed, () => 0);
  return { trapped: offsetBy(sail, { symmetry: false }), cured: offsetBy(sail, BY_SAILS) };
}

/** Close-hauled the true wind angle moves by so much a degree of the apparent one. */
const TRUE_OVER_APPARENT = 1.4;

/** Steered to the displayed angle she makes any offset look like none: trusted, and told that she was so steered. In degrees. */
export function blindSymmetry(seed: number): Trap {
  const sail = gusty(seed, (_, isUpwind) => (isUpwind ? -TRUE_OVER_APPARENT * radians(3) : 0));
  return {
    trapped: offsetBy(sail, BY_SAILS),
    cured: offsetBy(sail, { symmetry: true, steeredBy: "display" }),
  };
}

/**
 * Legs far apart trusted as much as the two sides of a tack: in one bay, where the wind comes from further left, she sails mostly on port tack,
 * in the next mostly on starboard. No GPS, so that the wind alone tells the compass. Coefficient C, in degrees.
 */
export function farApart(seed: number): Trap {
  const sail = sailed(
    { "compass.c": radians(-1) },
    ["compass.b", "compass.c", "vane.upwash"],
    {
      seed,
      steeredBy: "compass",
      legs: 36,
      directionSd: radians(3),
      logSpeedSd: 0.08,
      ofLeg: (leg) => {
        const isFirstBay = leg < 18;
        const isLong = (leg % 2 === 0) !== isFirstBay;
        return { rows: isLong ? 9 : 3, turnedBy: radians(isFirstBay ? -4 : 4) };
      },
    },
    { ...ALL, gps: false },
  );
  const ofLogs: Residuals = (states) => aboutTheirMean(speedsOf(states).map(Math.log));
  return {
    trapped: naively(sail, [ofDirections, ofLogs], "compass.c", inDegrees),
    cured: toldBy(sail, settled(sail), "compass.c", inDegrees),
  };
}

/** A log that is corrected inside gets the 0.4 kn of common practice twice: taken as certain, and as a prior. What is read at 6 kn less what is at 3 kn. */
export function certainIntercept(seed: number): Trap {
  const faults = { "speed.intercept": 0, "speed.gain": 0.03 };
  const legs = {
    seed,
    steeredBy: "wind",
    legs: 24,
    directionSd: radians(3),
    logSpeedSd: 0.08,
    ofLeg: (leg: number) => (leg < 12 ? { day: 0, speedShare: 0.6 } : { day: 1, speedShare: 1 }),
  } as const;
  const current = ["currentEast", "currentNorth"] as const;
  const held = sailed(faults, ["speed.gain"], legs);
  const free = sailed(faults, ["speed.gain", "speed.intercept"], legs);
  const certain = vectorWith({ "speed.intercept": metresPerSecond(0.4) });
  return {
    trapped: toldBy(held, settled(held, current, {}, certain), "speed.gain", inPercent),
    cured: toldBy(free, settled(free, current), "speed.gain", inPercent),
  };
}

/** Mean and its standard error. */
function meanAngle(values: readonly number[]): Told {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
  return { error: mean, sd: Math.sqrt(square / values.length) };
}

/** The masthead offset as the middle between the mean angles of both tacks, as if the wind aloft were the wind below. */
function middleOfAngles({ evidence, truth }: Sail): Told {
  const on = (tack: "starboard" | "port"): Told =>
    meanAngle(
      evidence.flatMap(({ row }) =>
        row.tack === tack && Math.abs(row.mean.awa) < radians(55) ? [row.mean.awa] : [],
      ),
    );
  const [starboard, port] = [on("starboard"), on("port")];
  return {
    error: degrees((starboard.error + port.error) / 2 - truth[INDEX_OF["vane.mastheadOffset"]]!),
    sd: degrees(Math.hypot(starboard.sd, port.sd) / 2),
  };
}

/** Shear, by which the wind at the sails comes from further right, of one day and of three. */
const SHEARS = [1.5, -0.9, 0.3].map(radians);

/** A day's shear looks like a masthead offset: taken for one, one day with the day's own error, three days. In degrees. */
export function shear(seed: number): Trap & { readonly threeDays: Told } {
  const [oneDay, threeDays] = [1, 3].map((days) => gusty(seed, (day) => -SHEARS[day]!, days));
  return {
    trapped: middleOfAngles(oneDay!),
    cured: offsetBy(oneDay!, BY_SAILS),
    threeDays: offsetBy(threeDays!, BY_SAILS),
  };
}

/** A plain afternoon fitted, with two settings of the wind free: where it came to rest, and of what. */
export function plainAfternoon(seed: number, legs = 36) {
  const sail = sailed({ "vane.upwash": radians(4) }, ["vane.upwash", "vane.mastheadOffset"], {
    seed,
    steeredBy: "compass",
    legs,
    directionSd: radians(5),
    logSpeedSd: 0.1,
  });
  return { settled: settled(sail), setting: settingOf(sail) };
}
