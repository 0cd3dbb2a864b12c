import type { Finding, FindingName, OTHER_FINDINGS } from "../calibration/findings.ts";
import { degrees } from "../units.ts";
import { HALF_WIDTH_95, plain, signed } from "./format.ts";
import { parameterAmount, parameterInterval, parameterRow } from "./parameterAmounts.ts";

type OtherName = (typeof OTHER_FINDINGS)[number];

interface Shape {
  readonly words: string;
  readonly suffix: string;
  readonly decimals: number;
  /** From SI to what is shown; as it is unless told. */
  readonly of?: (value: number) => number;
}

const percent = (value: number): number => 100 * value;

const OTHERS: Readonly<Record<OtherName, Shape>> = {
  "speed.atTypical": { words: "boat speed at 6 kn", suffix: " %", decimals: 1, of: percent },
  "anemometer.atTypical": { words: "wind speed at 15 kn", suffix: " %", decimals: 1, of: percent },
  "pitch.zero": { words: "pitch zero", suffix: "°", decimals: 1, of: degrees },
  "depth.offset": { words: "depth, to the waterline", suffix: " m", decimals: 2 },
  "temperature.offset": { words: "water temperature", suffix: " °C", decimals: 1 },
  "position.east": { words: "position, east", suffix: " m", decimals: 1 },
  "position.north": { words: "position, north", suffix: " m", decimals: 1 },
  "clock.ahead": { words: "clock, ahead of GPS", suffix: " s", decimals: 1 },
  "channel.offset": { words: "offset", suffix: "", decimals: 2 },
  "channel.gain": { words: "gain", suffix: "", decimals: 4 },
};

const isOther = (name: FindingName): name is OtherName => Object.hasOwn(OTHERS, name);

/** Names for a narrow table, where those of other tables are too long. */
const SHORT: Partial<Readonly<Record<FindingName, string>>> = {
  "speed.gainDifference": "gain, starboard less port",
  "compass.heelingError": "heeling error, °/°",
  "vane.upwashSlope": "upwash, with the wind",
};

/** What a finding is of, for a table. Never throws. */
export function findingName({ name, of }: Finding): string {
  const words = isOther(name) ? OTHERS[name].words : (SHORT[name] ?? parameterRow(name)[0]!);
  return of === undefined ? words : `${of}: ${words}`;
}

/** "+4.2 %": a value of a finding, in the unit in which it is shown. Never throws. */
export function findingValue(name: FindingName, value: number): string {
  if (!isOther(name)) return parameterAmount(name, value);
  const { suffix, decimals, of } = OTHERS[name];
  return `${signed(of ? of(value) : value, decimals)}${suffix}`;
}

/** "± 0.8 %": half the 95 % interval of a finding. Never throws. */
export function findingInterval({ name, half }: Finding): string {
  if (!isOther(name)) return parameterInterval(name, half / HALF_WIDTH_95);
  const { suffix, decimals, of } = OTHERS[name];
  return `± ${plain(of ? of(half) : half, decimals)}${suffix}`;
}

/** A value or interval without a unit that stands with the name already. Never throws. */
export const inColumn = (text: string): string => text.replace(/(?: deg·kn²\/deg|°\/°)/, "");
