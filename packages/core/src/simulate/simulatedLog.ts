import { wrapDirection } from "../angles.ts";
import {
  hdgSentence,
  hdtSentence,
  mwvSentence,
  rmcSentence,
  type SentenceForm,
  vhwSentence,
  xdrAttitudeSentence,
  zdaSentence,
} from "../recording/nmea0183Writer.ts";
import { BrokenLines } from "./brokenLines.ts";
import { randomNumbers } from "./random.ts";
import type { Scenario } from "./scenario.ts";
import { lastsAt } from "./sensorTroubles.ts";
import { type SimulatedSail, STEPS_IN_A_SECOND } from "./simulatedSail.ts";

/** Stream of random numbers, beside those of the sail. */
const BREAKS = 6;

const onboardTrueWind = (awa: number, aws: number, stw: number) => {
  const ahead = aws * Math.cos(awa) - stw;
  const abeam = aws * Math.sin(awa);
  return { angle: Math.atan2(abeam, ahead), speed: Math.hypot(ahead, abeam), reference: "T" } as const;
};

/** What another wind sensor tells of the same wind. */
function* secondWindSentences(
  { troubles = [] }: Scenario,
  step: number,
  angle: number,
  speed: number,
  form: SentenceForm,
): Generator<string> {
  for (const trouble of troubles) {
    if (trouble.kind !== "second wind sensor" || !lastsAt(trouble, step / STEPS_IN_A_SECOND)) continue;
    const wind = { angle: wrapDirection(angle + trouble.angle), speed: speed * trouble.factor };
    yield mwvSentence({ ...wind, reference: "R" }, { ...form, talker: trouble.talker });
  }
}

/** The sentences of one step of time, in the order in which the instruments talk. */
function* sentencesAt({ scenario, truth, logged }: SimulatedSail, step: number): Generator<string> {
  const { log, start } = scenario;
  const form: SentenceForm = { angleDecimals: log.angleDecimals, speedDecimals: log.speedDecimals };
  const isWholeSecond = step % STEPS_IN_A_SECOND === 0;
  const at = (name: keyof typeof logged): number => logged[name][step]!;
  if (isWholeSecond) {
    const time = start + step / STEPS_IN_A_SECOND;
    const [latitude, longitude, sog, cog] = [at("latitude"), at("longitude"), at("sog"), at("cog")];
    yield log.gps.present
      ? rmcSentence({ time, latitude, longitude, sog, cog, variation: truth.variation }, form)
      : zdaSentence({ time });
    const heading = at("heading");
    if (log.compass.present)
      yield log.headings === "true" ? hdtSentence({ heading }, form) : hdgSentence({ heading }, form);
    if (log.paddle.present) yield vhwSentence({ stw: at("stw") }, form);
  }
  if (log.wind.present && step % (STEPS_IN_A_SECOND / log.windRate) === 0) {
    const [angle, speed] = [at("awa"), at("aws")];
    yield mwvSentence({ angle: wrapDirection(angle), speed, reference: "R" }, form);
    yield* secondWindSentences(scenario, step, angle, speed, form);
    if (log.onboardTrueWind && isWholeSecond)
      yield mwvSentence(onboardTrueWind(angle, speed, at("stw")), form);
  }
  if (log.heel.present && step % (STEPS_IN_A_SECOND / log.heelRate) === 0)
    yield xdrAttitudeSentence({ heel: at("heel"), pitch: at("pitch") }, form);
}

/**
 * The lines of a simulated sail's NMEA 0183 log, without line ends, some broken as the scenario asks. Never throws.
 *
 * @example
 * const [first] = linesOfSail(sail);
 * first.startsWith("$") // true
 */
export function* linesOfSail(sail: SimulatedSail): Generator<string> {
  const { seed, log } = sail.scenario;
  const linesInASecond = 4 + log.windRate + log.heelRate;
  const broken = new BrokenLines(log.brokenLinesPerHour, linesInASecond, randomNumbers(seed, BREAKS));
  for (let step = 0; step < sail.logged.awa.length; step++)
    for (const sentence of sentencesAt(sail, step)) yield* broken.passing(sentence);
}
