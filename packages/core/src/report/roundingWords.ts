import type { OnboardComputer } from "../calibration/boat.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { degrees, knots } from "../units.ts";
import { keyedReading } from "./bestWind.ts";
import type { WindReading } from "./computer.ts";
import { listed, plain, signed } from "./format.ts";
import type { Rounding } from "./rounding.ts";
import { amountText } from "./settings.ts";
import type { WorkedReading } from "./workedReading.ts";

/** A hundredth of any step: amounts nearer to each other are one. */
const SAME = 1e-6;

/** What stands in the instruments already, once it is rounded. */
function standing(entries: Rounding["entries"]): readonly string[] {
  const names = entries
    .filter(({ setting: { present }, rounded }) => Math.abs(rounded - present) < SAME)
    .map(({ setting: { name } }) => name);
  return names.length === 0
    ? []
    : [
        `Rounded so, ${listed(names)} ${names.length === 1 ? "stands" : "stand"} in the instruments already: leave ${names.length === 1 ? "it" : "them"}, unless the instrument takes finer steps.`,
      ];
}

/** What is to be keyed in as instruments take it, and what rounding costs, in a sentence; none where nothing is keyed in. Never throws. */
export function roundingWords({ entries, tackGap, stepsAssumed }: Rounding): readonly string[] {
  if (entries.length === 0) return [];
  const amounts = entries.map(
    ({ setting: { name, unit }, rounded }) => `${name} ${amountText(rounded, unit)}`,
  );
  const cost = Number.isNaN(tackGap)
    ? ""
    : ` Rounding turns the true wind on starboard against port close-hauled by ${signed(degrees(tackGap), 1)}°.`;
  const steps = stepsAssumed
    ? "to steps of 1°, 1 % and 0.1 kn, since the boat file tells none (steps)"
    : "to the steps in the boat file";
  return [`Rounded ${steps}: ${listed(amounts)}.${cost}`, ...standing(entries)];
}

const wind = ({ angle, speed }: WindReading): string =>
  `${signed(degrees(angle), 0)}° and ${plain(knots(speed), 1)} kn`;

/**
 * What the displays should read once all is keyed in, where the log holds otherwise, a sentence a tack. Never throws.
 *
 * @param active what the instruments applied while the log was recorded
 */
export function checkWords(
  worked: readonly WorkedReading[],
  { table }: OnboardComputer,
  active: SensorSettings,
): readonly string[] {
  const sentences = worked.map(({ tack, cell, afterTable, afterSettings, trueWind }) => {
    const before = keyedReading(cell.typical, active).apparent;
    // a table on true wind leaves the apparent wind as the settings made it
    const apparent = table === "true" ? afterSettings : afterTable;
    const speed = plain(knots(cell.typical.mean.stw), 1);
    return `On ${tack} tack, where the log holds an apparent wind of ${wind(before)} at ${speed} kn of boat speed, the displays should now read ${wind(apparent)}, and a true wind of ${wind(trueWind)}, within a degree and what rounding leaves.`;
  });
  return sentences.length === 2
    ? [
        ...sentences,
        `Then tack a few times in a steady wind: from one tack to the other the true wind direction should ${table === "none" ? "differ by no more than that" : "stay"}.`,
      ]
    : sentences;
}
