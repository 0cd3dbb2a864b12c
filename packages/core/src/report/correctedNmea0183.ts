import { wrapDirection } from "../angles.ts";
import {
  hdgSentence,
  hdtSentence,
  mwdSentence,
  mwvSentence,
  rmcSentence,
  type SentenceForm,
  vhwSentence,
  vtgSentence,
  xdrAttitudeSentence,
  zdaSentence,
} from "../recording/nmea0183Writer.ts";
import type { LoggedSecond } from "../sailing/loggedSecond.ts";
import type { Radians } from "../units.ts";

/** What was worked out comes from no instrument of its own; digits are those of the corrected log's CSV. */
const COMPUTED: SentenceForm = { talker: "II", angleDecimals: 2, speedDecimals: 2 };
const RECEIVER: SentenceForm = { talker: "GP", angleDecimals: 2, speedDecimals: 2 };

const isKnown = (...values: readonly number[]): boolean => values.every((value) => !Number.isNaN(value));

/** A direction by both norths; NaN where one is not known. */
interface BothNorths {
  readonly fromTrue: Radians;
  readonly fromMagnetic: Radians;
}

/** M114. True = magnetic + variation. */
const bothNorths = (
  direction: Radians,
  variation: Radians,
  directionsAre: "true" | "magnetic",
): BothNorths =>
  directionsAre === "true"
    ? { fromTrue: direction, fromMagnetic: wrapDirection(direction - variation) }
    : { fromTrue: Number.NaN, fromMagnetic: direction };

/** Where the boat is and goes: RMC, or VTG where no position is known. */
function motionSentences({
  time,
  latitude,
  longitude,
  cog,
  sog,
  variation,
}: LoggedSecond): readonly string[] {
  if (isKnown(latitude, longitude))
    return [rmcSentence({ time, latitude, longitude, sog, cog, variation }, RECEIVER)];
  return isKnown(sog) ? [vtgSentence({ cog, sog }, RECEIVER)] : [];
}

function headingSentences({ fromTrue, fromMagnetic }: BothNorths, variation: Radians): readonly string[] {
  return [
    ...(isKnown(fromTrue) ? [hdtSentence({ heading: fromTrue }, COMPUTED)] : []),
    ...(isKnown(fromMagnetic) ? [hdgSentence({ heading: fromMagnetic, variation }, COMPUTED)] : []),
  ];
}

/**
 * M114. One second of the corrected log as NMEA 0183 sentences, for replay: ZDA (time), RMC (position and motion over the ground; VTG without a position),
 * HDT and HDG (heading without deviation), VHW (speed through water), XDR (heel), MWV R (apparent wind, level), MWV T and MWD (wind over
 * the water). What is not known is left out.
 *
 * @returns sentences without line ends. Never throws.
 * @example
 * const has = { paddle: true, compass: true, heel: true };
 * const [second] = correctedSeconds(block, { settings: noCorrections, boat, has, directionsAre: "true", isMotoring: () => false });
 * const logged = { ...second, latitude: NaN, longitude: NaN, cog: 0, sog: 3, variation: 0 };
 * correctedNmea0183(logged, "true").some((sentence) => sentence.startsWith("$IIMWV")) // true
 */
export function correctedNmea0183(
  second: LoggedSecond,
  directionsAre: "true" | "magnetic",
): readonly string[] {
  const { time, stw, heel, awa, aws, twa, tws, variation } = second;
  const heading = bothNorths(second.heading, variation, directionsAre);
  const wind = bothNorths(second.twd, variation, directionsAre);
  const windFrom = { direction: wind.fromTrue, directionMagnetic: wind.fromMagnetic, speed: tws };
  const hasDirection = !Number.isNaN(second.twd);
  return [
    zdaSentence({ time }, RECEIVER),
    ...motionSentences(second),
    ...headingSentences(heading, variation),
    ...(isKnown(stw) ? [vhwSentence({ stw }, COMPUTED)] : []),
    ...(isKnown(heel) ? [xdrAttitudeSentence({ heel }, COMPUTED)] : []),
    ...(isKnown(awa, aws) ? [mwvSentence({ angle: awa, speed: aws, reference: "R" }, COMPUTED)] : []),
    ...(isKnown(twa, tws) ? [mwvSentence({ angle: twa, speed: tws, reference: "T" }, COMPUTED)] : []),
    ...(hasDirection && isKnown(tws) ? [mwdSentence(windFrom, COMPUTED)] : []),
  ];
}
