import type { ActiveSettings, Boat } from "../../calibration/boat.ts";
import type { SecondUnderPower } from "../../fit/circleBlocks.ts";
import type { SecondsBlock } from "../../sailing/series.ts";
import { anemometerReadingOf } from "../../sensors/anemometer.ts";
import { headingReadingOf } from "../../sensors/compass.ts";
import { speedReadingOf } from "../../sensors/speedSensor.ts";
import type { JobRun, LogSource } from "../logSource.ts";
import { secondsOfLog } from "../secondsOfLog.ts";
import { surveyLogs } from "../survey.ts";

/** A log of an exercise under power is not longer than this. */
const LONGEST = 12 * 3600;

function* secondsIn(
  { length, time, headingIsTrue, columns }: SecondsBlock,
  { active }: ActiveSettings,
  variation: number,
): Generator<SecondUnderPower> {
  for (let at = 0; at < length; at++) {
    const logged = columns.variation[at]!;
    yield {
      time: time[at]!,
      // the sensors' own readings, without what stands in the instruments; upright, under power
      heading: headingReadingOf(columns.heading[at]!, 0, active.compass),
      variation: headingIsTrue ? 0 : Number.isNaN(variation) ? logged : variation,
      stw: speedReadingOf(columns.stw[at]!, 0, active.speed),
      east: columns.east[at]!,
      north: columns.north[at]!,
      awa: columns.awa[at]!,
      heel: columns.heel[at]!,
      aws: anemometerReadingOf(columns.aws[at]!, active.anemometer),
    };
  }
}

/**
 * The seconds of logs made under power, readings as the sensors alone would give them, not put in step: circles at one steady rate can feign a lag of
 * many seconds (M36), and the fit finds the compass's own. @throws as `surveyLogs`
 */
export async function secondsUnderPower(
  logs: readonly LogSource[],
  boat: Boat,
  settings: ActiveSettings,
  run: JobRun,
): Promise<readonly SecondUnderPower[]> {
  const survey = await surveyLogs(logs, { ...boat, settings }, run);
  const seconds: SecondUnderPower[] = [];
  for (const log of survey.logs)
    for await (const block of secondsOfLog(log, { chosen: survey.plan.chosen }, run))
      if (seconds.length < LONGEST) seconds.push(...secondsIn(block, settings, boat.variation));
  return seconds.sort((one, other) => one.time - other.time);
}
