/**
 * How often the 95 % intervals of the deliberate exercises hold the truth (M121 to M133, M186): each case drawn a thousand times from what its method
 * takes for granted, the tide turning as it does. `node --conditions=bothtacks-source --import tsx scripts/exerciseCoverage.ts [TRIALS]`
 */
import { anemometerAgainstReference } from "../packages/core/src/fit/anemometerAgainstReference.ts";
import { anemometerInCalm } from "../packages/core/src/fit/anemometerInCalm.ts";
import { circleFromBearings, deviationTable } from "../packages/core/src/fit/circleFromBearings.ts";
import { circleInLog } from "../packages/core/src/fit/circleInLog.ts";
import { correlatedMean } from "../packages/core/src/fit/correlatedMean.ts";
import { linearCalibration } from "../packages/core/src/fit/linearCalibration.ts";
import { speedFromRuns } from "../packages/core/src/fit/speedFromRuns.ts";
import { deviation } from "../packages/core/src/sensors/compass.ts";
import { nearestSettings } from "../packages/core/src/simulate/nearestSettings.ts";
import { randomNumbers } from "../packages/core/src/simulate/random.ts";
import { METRES_PER_SECOND_IN_A_KNOT as KNOT, radians } from "../packages/core/src/units.ts";
import { circles, HEADINGS_HELD, motored } from "../tests/support/circlesUnderPower.ts";
import { runsIn } from "../tests/support/tidalRuns.ts";

const trials = Number(process.argv[2] ?? 1000);
const { between, normal } = randomNumbers(139, 0);

/** A deviation about the one stated, as spread as four readings leave it. */
const about = (stated: number): number =>
  stated * Math.sqrt(4 / [0, 0, 0, 0].reduce((sum) => sum + normal() ** 2, 0));

/** A series that forgets with a time constant, of standard deviation 1. */
function wandering(count: number, constant: number): readonly number[] {
  const keep = Math.exp(-1 / constant);
  let value = normal();
  return Array.from({ length: count }, () => {
    value = keep * value + Math.sqrt(1 - keep * keep) * normal();
    return value;
  });
}

type Held = Readonly<Record<string, boolean>>;

/** Counts how often each number of a case is held; cases that are refused do not count. */
function count(name: string, draw: () => Held | undefined, times = trials): void {
  const held = new Map<string, number>();
  let solved = 0;
  for (let trial = 0; trial < times; trial++) {
    const found = draw();
    if (!found) continue;
    solved++;
    for (const [number, holds] of Object.entries(found))
      held.set(number, (held.get(number) ?? 0) + Number(holds));
  }
  const shares = [...held].map(([number, many]) => `${number} ${((100 * many) / solved).toFixed(1)} %`);
  process.stdout.write(`${name.padEnd(46)} ${String(solved).padStart(5)}  ${shares.join(", ")}\n`);
}

function runs(name: string, speeds: readonly number[], stated: boolean): void {
  count(`runs: ${name}${stated ? ", scatter as stated" : ""}`, () => {
    const [intercept, gain] = [0.2 * KNOT * (1 + normal()), 1 + 0.06 * normal()];
    const scatter = stated ? 0.05 * KNOT : about(0.05 * KNOT);
    const boat = {
      intercept,
      gain,
      stream: 2 * KNOT,
      phase: between(0, 2 * Math.PI),
      error: () => scatter * normal(),
    };
    const found = speedFromRuns(runsIn(boat, speeds), { deviation: 0.05 * KNOT, stream: 2 * KNOT });
    if (found.status === "unsolved") return undefined;
    const middle = found.gains[found.gains.length >> 1]!;
    return {
      "gain there": Math.abs(middle.gain - gain - intercept / middle.reading) < middle.half,
      gain: Math.abs(found.gain - gain) < found.gainHalf,
      intercept: Math.abs(found.intercept - intercept) < found.interceptHalf,
    };
  });
}

runs("a pair at one speed", [5.5, 5.5], false);
runs("four at one speed", [5.5, 5.5, 5.5, 5.5], false);
runs("three speeds, there and back", [3.5, 3.5, 5, 5, 6.5, 6.5], false);
runs("two speeds, four each", [4, 4, 4, 4, 6.5, 6.5, 6.5, 6.5], false);
runs("two speeds, four each", [4, 4, 4, 4, 6.5, 6.5, 6.5, 6.5], true);

for (const headings of [5, 8, 16])
  count(`circle of ${headings} headings`, () => {
    const [a, b, c, d, e] = [1, 2, 2, 1, 0.5].map((size) => radians(size * normal()));
    const series = { a: a!, b: b!, c: c!, d: d!, e: e!, heelingError: 0 };
    const [scatter, common] = [about(radians(1)), radians(0.7) * normal()];
    const known = Array.from({ length: headings }, (_, at) => {
      const compass = (2 * Math.PI * at) / headings;
      return { compass, magnetic: compass + deviation(compass, 0, series) + common + scatter * normal() };
    });
    const found = circleFromBearings(known, { deviation: radians(1), common: radians(0.7) });
    if (found.status === "unsolved") return undefined;
    const told = deviationTable(found, 15)[5]!;
    return {
      A: Math.abs(found.series.a - series.a) < found.halves.a,
      B: Math.abs(found.series.b - series.b) < found.halves.b,
      D: Math.abs(found.series.d - series.d) < found.halves.d,
      "table at 075°": Math.abs(told.deviation - common - deviation(told.heading, 0, series)) < told.half,
    };
  });

/** Boats of the simulator: a sea, a current that wanders and shapes of faults that the fit does not know. */
const SIMULATED = 200;

for (const [name, plan] of [
  ["one to each side", circles(1, -1)],
  ["two to each side", circles(1, -1, 1, -1)],
  ["two to starboard", circles(1, 1)],
  ["eight headings held", HEADINGS_HELD],
] as const) {
  let seed = 720_000;
  count(
    `circles in a log, ${name}`,
    () => {
      const { faults, seconds } = motored(seed++, plan);
      const found = circleInLog(seconds);
      if (found.status === "unsolved") return undefined;
      const truth = nearestSettings(faults).compass;
      const holds = (term: "a" | "b" | "c" | "d" | "e"): boolean =>
        Math.abs(found.series[term] - truth[term]) < found.halves[term];
      return { A: holds("a"), B: holds("b"), C: holds("c"), D: holds("d"), E: holds("e") };
    },
    Math.min(trials, SIMULATED),
  );
}

count("linear channel, four points", () => {
  const [offset, gain, scatter] = [normal(), 1 + 0.1 * normal(), about(0.2)];
  const points = [5, 10, 15, 25].map((reading) => ({
    reading,
    truth: offset + gain * reading + scatter * normal(),
  }));
  const found = linearCalibration(points, { deviation: 0.2 });
  if (found.status === "unsolved") return undefined;
  return {
    offset: Math.abs(found.offset - offset) < found.offsetHalf,
    gain: Math.abs(found.gain - gain) < found.gainHalf,
  };
});

for (const [length, constant] of [
  [600, 5],
  [1200, 10],
  [600, 60],
] as const)
  count(`mean over ${length} s of what forgets in ${constant} s`, () => {
    const { mean, deviation: sd } = correlatedMean(wandering(length, constant), 1);
    return { mean: Math.abs(mean) < 1.96 * sd };
  });

for (const [length, constant] of [
  [64, 1],
  [64, 2],
  [200, 5],
  [64, 5],
] as const)
  count(`anemometer, ${length} intervals that forget in ${constant}`, () => {
    const [threshold, gain] = [0.4 + 0.2 * normal(), 1 + 0.06 * normal()];
    const [one, other] = [wandering(length, constant), wandering(length, constant)];
    const pairs = one.map((error, at) => {
      const wind = 7 + 4 * Math.sin((7 * at) / length);
      return {
        reading: Math.max(0.05, (wind + 0.25 * error - threshold) / gain),
        reference: Math.max(0, wind + 0.25 * gain * other[at]!),
      };
    });
    const found = anemometerAgainstReference(pairs, { errorRatio: 1, referenceGain: 0 });
    if (found.status === "unsolved") return undefined;
    const truth = gain + threshold / found.atMean.reading;
    return {
      "ratio at the mean": Math.abs(found.atMean.gain - truth) < found.atMean.half,
      gain: Math.abs(found.gain - gain) < found.gainHalf,
      threshold: Math.abs(found.threshold - threshold) < found.thresholdHalf,
    };
  });

count("anemometer in a calm, three speeds", () => {
  const [threshold, gain] = [0.4 + 0.2 * normal(), 1 + 0.06 * normal()];
  const [wind, scatter] = [0.5 * normal(), about(0.1)];
  const motored = [2, 2, 3, 3, 3.6, 3.6].map((speed, at) => {
    const way = at % 2 === 0 ? (1 as const) : (-1 as const);
    return { speed, way, reading: (speed + way * wind - threshold + scatter * normal()) / gain };
  });
  if (motored.some(({ reading }) => reading < 0)) return undefined;
  const found = anemometerInCalm(motored, { deviation: 0.1, speedGain: 0 });
  if (found.status === "unsolved") return undefined;
  const truth = gain + threshold / found.atMean.reading;
  return {
    "ratio at the mean": Math.abs(found.atMean.gain - truth) < found.atMean.half,
    gain: Math.abs(found.gain - gain) < found.gainHalf,
    threshold: Math.abs(found.threshold - threshold) < found.thresholdHalf,
  };
});
