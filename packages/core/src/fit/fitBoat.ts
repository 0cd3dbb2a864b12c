import type { SymmetryShare } from "../calibration/calibration.ts";
import type { LegRow } from "../sailing/legRow.ts";
import { PARAMETER_NAMES, type ParameterName } from "../sensors/parameterNames.ts";
import type { BoatFit, FittedParameter, SolvedBoatFit, WanderScales } from "./boatFit.ts";
import { doubtedCovariance } from "./doubtedCovariance.ts";
import { errorCovariance } from "./doubtOfPriors.ts";
import { enoughSailed } from "./enoughSailed.ts";
import type { FitContext, RecordingChannels } from "./fitContext.ts";
import { leewayByTack } from "./leewayByTack.ts";
import { legsDiffer } from "./legsDiffer.ts";
import { withinPriors } from "./priorCovariance.ts";
import { BOAT_PRIORS, LAW_ERROR_NAMES, priorMeans, priorSds } from "./priors.ts";
import { channelsOf, heelSignOf } from "./recordingChannels.ts";
import { rowEvidence } from "./rowEvidence.ts";
import type { SeriesName } from "./sailingSeries.ts";
import { INDEX_OF, LAW_INDEX_OF, settingsOf, vectorOf } from "./settingsVector.ts";
import { type Settled, type SettleRequest, settleInSteps } from "./settle.ts";
import { finished, type Steps } from "./steps.ts";
import { symmetryShare } from "./symmetryShare.ts";

const MOTION: readonly ParameterName[] = [
  "speed.intercept",
  "speed.gain",
  "speed.gainDifference",
  "compass.a",
  "compass.b",
  "compass.c",
  "compass.d",
  "compass.e",
  "compass.heelingError",
  "heel.zero",
  "heelModel.fullHeel",
  "leeway.coefficient",
];

const WIND: readonly ParameterName[] = PARAMETER_NAMES.filter((name) => !MOTION.includes(name));

const MOTION_SERIES: readonly SeriesName[] = ["currentEast", "currentNorth"];
const WIND_SERIES: readonly SeriesName[] = ["direction", "logSpeed", "calmEast", "calmNorth"];

/** Further starts (in prior standard deviations), lest a second minimum be taken for the answer. */
const OTHER_STARTS: readonly Partial<Record<ParameterName, number>>[] = [
  { "vane.upwash": 1.5, "vane.mastheadOffset": -1 },
  { "vane.upwash": -1.5, "vane.mastheadOffset": 1 },
];

/** Rounds of the fits that the joint one starts from: they need not come to rest. */
const STAGE_ROUNDS = 2;

/** Rows whose innovation counts less than half. */
const OUTLIER_WEIGHT = 0.5;

/** Parameters that a recording's channels and the boat's rig let move; the others stay at their priors' means. */
function movable(
  names: readonly ParameterName[],
  channels: RecordingChannels,
  context: FitContext,
): readonly number[] {
  return names
    .filter((name) => {
      if (context.held?.includes(name)) return false;
      if (name.startsWith("compass.")) return channels.compass;
      if (name.startsWith("speed.")) return channels.paddle;
      if (name === "heel.zero") return channels.heel;
      if (name === "leeway.coefficient") return context.leewayLawHolds;
      if (name === "heelModel.fullHeel") return !channels.heel;
      return true;
    })
    .map((name) => INDEX_OF[name]);
}

/** What the laws leave out, where the recording has the motion to see it by (M29). */
function movableLaws(channels: RecordingChannels, context: FitContext): readonly number[] {
  const { compass, paddle, gps } = channels;
  return LAW_ERROR_NAMES.filter((name) => {
    if (context.lawsExact || !(compass && gps)) return false;
    if (name === "sidesMeet" || name === "deficitFalling") return paddle;
    if (name === "leewayPower" || name === "leewaySkew") return context.leewayLawHolds;
    return true;
  }).map((name) => LAW_INDEX_OF[name]);
}

const startAt = (moves: Partial<Record<ParameterName, number>>, from: Float64Array): Float64Array =>
  from.map((value, index) => {
    const name = PARAMETER_NAMES[index];
    const move = name === undefined ? undefined : moves[name];
    return name === undefined || move === undefined
      ? value
      : BOAT_PRIORS[name].mean + move * BOAT_PRIORS[name].sd;
  });

/**
 * M55. Fits the boat: boat speed, compass and leeway from her motion, then the wind sensors from the wind, each starting the
 * next, then all jointly, from several starts; the most probable of those that came to rest is the answer.
 *
 * @param rows leg rows in time order, on the base that the settings are to count from
 * @returns a solved fit, or why the rows cannot answer
 * @throws what `context.signal` throws when it is aborted
 * @example
 * fitBoat(rows.slice(0, 3), { heelSign: "auto", steeredBy: "unknown", leewayLawHolds: true }).status // "unsolved"
 */
export const fitBoat = (rows: readonly LegRow[], context: FitContext): BoatFit =>
  finished(fitBoatInSteps(rows, context));

/** Fits one after another: motion and wind by themselves, jointly from each start, and once more without symmetry. */
const FITS = 2 + 1 + OTHER_STARTS.length + 1;

/** The steps of one of the fits, as shares of all of them. */
function* fitNumber<Result>(number: number, steps: Steps<Result>): Steps<Result> {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    yield (number + step.value) / FITS;
  }
}

/**
 * M55. As `fitBoat`, in steps of some hundredths of a second to some tenths, so that a page stays awake and an abort is heard.
 *
 * @throws as `fitBoat`
 */
export function* fitBoatInSteps(rows: readonly LegRow[], context: FitContext): Steps<BoatFit> {
  const channels = channelsOf(rows);
  const lacking = enoughSailed(rows, channels);
  if (lacking !== undefined) return { status: "unsolved", notes: [], ...lacking };
  const heelSign = heelSignOf(rows, context.heelSign);
  const start = priorMeans();
  const laws = movableLaws(channels, context);
  for (const index of Object.values(LAW_INDEX_OF)) if (!laws.includes(index)) start[index] = 0;
  if (context.start) start.set(vectorOf(context.start));
  if (!context.leewayLawHolds) start[INDEX_OF["leeway.coefficient"]] = 0;
  const free = [...movable(PARAMETER_NAMES, channels, context), ...laws];
  let failure: string | undefined;
  // what is usual on the other legs is unbiased, but where it hardly differs between points of sailing the rounds may run away
  for (const usualOf of ["other legs", "all legs"] as const) {
    const evidence = rowEvidence(rows, channels, usualOf);
    const base = { evidence, context, channels, heelSign };
    const joint = { ...base, free, series: [...MOTION_SERIES, ...WIND_SERIES] };
    const found = yield* settledFrom(joint, yield* stagewise(base, start));
    const [best] = found
      .filter((one) => one.atRest && isNearPriors(one.vector, free))
      .sort((one, other) => one.objective - other.objective);
    if (best !== undefined) {
      const symmetry = yield* fitNumber(FITS - 1, symmetryShare(best, joint));
      const doubted = { ...best, covariance: doubtedCovariance(best, joint) };
      return solved(doubted, joint, notesOf(channels, context, best), symmetry);
    }
    failure ??= found.find((one) => one.failure !== undefined)?.failure;
  }
  return {
    status: "unsolved",
    reason: `The fit did not come to rest: the recording contradicts itself more than wind and faults explain${failure === undefined ? "" : ` (${failure})`}.`,
    confounded: [],
    notes: [],
  };
}

/** A boat so many prior standard deviations from anything usual is no boat: the rounds ran away. */
const FAR_OFF = 5;

/** Whether what was found is a boat that might be met. */
function isNearPriors(vector: Float64Array, free: readonly number[]): boolean {
  const [means, sds] = [priorMeans(), priorSds()];
  return free.every((index) => Math.abs(vector[index]! - means[index]!) <= FAR_OFF * sds[index]!);
}

/** Where the joint fit settles from each start. */
function* settledFrom(joint: Omit<SettleRequest, "start">, stages: Float64Array): Steps<readonly Settled[]> {
  const found: Settled[] = [];
  for (const moves of [{}, ...OTHER_STARTS])
    found.push(
      yield* fitNumber(2 + found.length, settleInSteps({ ...joint, start: startAt(moves, stages), found })),
    );
  return found;
}

function* stagewise(
  base: Omit<SettleRequest, "free" | "series" | "start">,
  start: Float64Array,
): Steps<Float64Array> {
  const motion: SettleRequest = {
    ...base,
    free: [...movable(MOTION, base.channels, base.context), ...movableLaws(base.channels, base.context)],
    series: MOTION_SERIES,
    start,
    rounds: STAGE_ROUNDS,
  };
  const { vector } = yield* fitNumber(0, settleInSteps(motion));
  const wind: SettleRequest = {
    ...base,
    free: movable(WIND, base.channels, base.context),
    series: WIND_SERIES,
    start: vector,
    rounds: STAGE_ROUNDS,
  };
  return (yield* fitNumber(1, settleInSteps(wind))).vector;
}

/** The first rows and columns of a square, row-major: what is free begins with the parameters. */
const blockOf = (square: Float64Array, width: number, size: number): Float64Array =>
  Float64Array.from({ length: size * size }, (_, at) => square[Math.floor(at / size) * width + (at % size)]!);

function solved(
  best: Settled,
  request: Omit<SettleRequest, "start">,
  notes: readonly string[],
  symmetry: SymmetryShare | undefined,
): SolvedBoatFit {
  const { free, heelSign, evidence } = request;
  const all = PARAMETER_NAMES.length;
  const covariance = new Float64Array(all * all);
  const widened = legsDiffer(best, request);
  const places = free.filter((index) => index < all);
  const size = places.length;
  const known = withinPriors(blockOf(best.covariance, free.length, size), places);
  places.forEach((row, i) => {
    places.forEach((column, j) => {
      covariance[row * all + column] = widened.factors[i]! * widened.factors[j]! * known[i * size + j]!;
    });
  });
  PARAMETER_NAMES.forEach((name, index) => {
    if (!free.includes(index)) covariance[index * all + index] = BOAT_PRIORS[name].sd ** 2;
  });
  const priors = PARAMETER_NAMES.map((name) => ({ name, priorSd: BOAT_PRIORS[name].sd }));
  const errors = errorCovariance({ parameters: priors, covariance });
  const parameters = PARAMETER_NAMES.map((name, index): FittedParameter => {
    const { mean, sd: priorSd } = BOAT_PRIORS[name];
    const sd = Math.sqrt(errors[index * all + index]!);
    const informed = Math.min(1, Math.max(0, 1 - covariance[index * all + index]! / priorSd ** 2));
    return { name, value: best.vector[index]!, sd, priorMean: mean, priorSd, informed };
  });
  const byTack = leewayByTack(best, free, widened.factors);
  const outliers = evidence
    .filter((_, row) => best.series.some(({ weights }) => weights[row]! < OUTLIER_WEIGHT))
    .map(({ row }) => row.start);
  return {
    status: "solved",
    settings: settingsOf(best.vector, heelSign),
    parameters,
    covariance,
    wander: wanderScales(best),
    rows: evidence.length,
    outliers,
    notes: widened.note === undefined ? notes : [...notes, widened.note],
    ...(symmetry ? { symmetry } : {}),
    ...(byTack ? { leewayByTack: byTack } : {}),
  };
}

function wanderScales({ series }: Settled): WanderScales {
  const of = (name: SeriesName) => series.find((one) => one.name === name)!.wander;
  const direction = of("direction");
  const logSpeed = of("logSpeed");
  return {
    slowDirection: direction.slow,
    slowLogSpeed: logSpeed.slow,
    fastDirection: direction.fast,
    fastLogSpeed: logSpeed.fast,
    fastSeconds: direction.fastSeconds,
  };
}

function notesOf(
  channels: RecordingChannels,
  context: FitContext,
  { symmetryLeftOut }: Settled,
): readonly string[] {
  const notes: string[] = [];
  if (!channels.heel) notes.push("No heel sensor: heel was modelled from the wind, with its uncertainty.");
  if (!channels.gps) notes.push("No usable GPS: boat speed and compass rest on what was known beforehand.");
  if (!channels.paddle) notes.push("No boat speed: speed over ground stood in for it, current and all.");
  if (!channels.compass)
    notes.push(
      "No compass: course over ground, less leeway, stood in for the heading; a current turns it, which the intervals do not know.",
    );
  if (!context.leewayLawHolds)
    notes.push(
      "Leeway was left out: for this rig it does not follow heel and boat speed, so nothing is said of it.",
    );
  if (symmetryLeftOut !== undefined) notes.push(symmetryLeftOut);
  return notes;
}
