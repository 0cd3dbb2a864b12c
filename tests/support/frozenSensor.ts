import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import type { LogSource } from "../../packages/core/src/job/logSource.ts";
import { secondsOfLog } from "../../packages/core/src/job/secondsOfLog.ts";
import { surveyLogs } from "../../packages/core/src/job/survey.ts";
import type { Source } from "../../packages/core/src/recording/readings.ts";
import { correctedSeconds } from "../../packages/core/src/sailing/correctedSeconds.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { linesOfSail } from "../../packages/core/src/simulate/simulatedLog.ts";
import { type SimulatedSail, simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { degrees } from "../../packages/core/src/units.ts";

const SECONDS = 1500;
const FREEZES_AT = 500;

/** A boat with nothing wrong but that the second of her two wind sensors freezes after eight minutes. */
function twoSensors(seed: number): SimulatedSail {
  const { log, ...scenario } = drawScenario(seed, { faults: "none", seconds: SECONDS, motoring: false });
  return simulatedSail({
    ...scenario,
    log: { ...log, brokenLinesPerHour: 0, silencesPerHour: 0, spikesPerHour: 0 },
    troubles: [
      { kind: "second wind sensor", talker: "II", angle: 0, factor: 1, at: 0, seconds: 2 * SECONDS },
    ],
  });
}

/** Her log: the sensor that freezes speaks first of all, and then each time after the other. */
function linesWithFrozen(sail: SimulatedSail): readonly string[] {
  const isSecond = (line: string): boolean => line.startsWith("$IIMWV");
  let told = 0;
  let frozen = "";
  const lines = [...linesOfSail(sail)].map((line) => {
    if (!isSecond(line)) return line;
    told += 1;
    if (told <= FREEZES_AT) frozen = line;
    return frozen;
  });
  return [lines.find(isSecond)!, ...lines];
}

/** Rms error of the true wind direction as a faultless boat shows it, degrees. */
async function directionError(
  log: LogSource,
  chosen: readonly Source[],
  { truth, scenario }: SimulatedSail,
): Promise<number> {
  const options = {
    settings: { ...noCorrections, leeway: scenario.faults.leeway },
    boat: { ...UNKNOWN_BOAT, windSensorHeight: scenario.mastHeight },
    has: { paddle: true, compass: true, heel: true },
    directionsAre: "true" as const,
    isMotoring: () => false,
  };
  const squares: number[] = [];
  for await (const block of secondsOfLog(log, { chosen }))
    for (const { time, twd } of correctedSeconds(block, options)) {
      const error = twd - truth.columns.waterWindDirection[time - scenario.start]!;
      if (!Number.isNaN(error)) squares.push(degrees(Math.atan2(Math.sin(error), Math.cos(error))) ** 2);
    }
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length);
}

export interface FrozenSensor {
  /** Rms error of the true wind direction, degrees: by the sensor that came last, and by the one that is chosen. */
  readonly trapped: number;
  readonly cured: number;
  /** The source that is chosen, and why not the other. */
  readonly chosen: string;
  readonly whyNot: string;
}

/** Two wind sensors, one of which froze: what comes last, and what is chosen by health (M34). */
export async function frozenSensor(seed: number): Promise<FrozenSensor> {
  const sail = twoSensors(seed);
  const bytes = new TextEncoder().encode(`${linesWithFrozen(sail).join("\r\n")}\r\n`);
  async function* chunks() {
    yield bytes;
  }
  const log: LogSource = { name: "two sensors", chunks: { [Symbol.asyncIterator]: chunks } };
  const { choice, plan } = await surveyLogs([log], UNKNOWN_BOAT);
  const last = choice.others.filter(({ source }) => source.name === "II MWV R");
  const others = plan.chosen.filter(({ quantity }) => !quantity.startsWith("apparentWind"));
  const angle = choice.chosen.find(({ source }) => source.quantity === "apparentWindAngle")!;
  return {
    trapped: await directionError(log, [...others, ...last.map(({ source }) => source)], sail),
    cured: await directionError(log, plan.chosen, sail),
    chosen: angle.source.name,
    whyNot: last.find(({ source }) => source.quantity === "apparentWindAngle")?.why ?? "",
  };
}
