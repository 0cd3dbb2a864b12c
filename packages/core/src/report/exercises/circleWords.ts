import { deviationTable, type SolvedHeadings } from "../../fit/circleFromBearings.ts";
import type { CircleMisfit } from "../../judge/circleMisfit.ts";
import type { CompassParameters } from "../../sensors/parameters.ts";
import { degrees } from "../../units.ts";
import { plain, signed, threeFigures } from "../format.ts";

/** The coefficients, then the deviation table. Never throws. */
export function circleTable(found: SolvedHeadings, step: 10 | 15): readonly (readonly string[])[] {
  const table = deviationTable(found, step).map(({ heading, deviation, half }) => [
    `${threeFigures(degrees(heading))}°`,
    `${signed(degrees(deviation), 1)}°`,
    `± ${plain(degrees(half), 1)}°`,
  ]);
  return [["compass", "add", "95 %"], ...table];
}

const LETTERS = ["a", "b", "c", "d", "e"] as const;

const coefficients = ({ series, halves }: SolvedHeadings): string =>
  LETTERS.map(
    (term) =>
      `${term.toUpperCase()} ${signed(degrees(series[term]), 1)}° ± ${plain(degrees(halves[term]), 1)}°`,
  ).join(", ");

/** Whether what was found differs from what stands in the compass by more than its doubt. */
const isBeyondDoubt = ({ series, halves }: SolvedHeadings, active: CompassParameters): boolean =>
  LETTERS.some((term) => Math.abs(series[term] - active[term]) > halves[term]);

/** What is to be made of a circle, in sentences. Never throws. */
export function circleWords(
  found: SolvedHeadings,
  misfit: CircleMisfit,
  active: CompassParameters,
): readonly string[] {
  const advice = misfit.beyondSeries
    ? "Key in nothing yet: find what is wrong with the compass or the bearings first."
    : isBeyondDoubt(found, active)
      ? "Add what the table says to the compass heading, east positive: magnetic heading = compass + deviation."
      : "Leave the compass as it is: what was found lies within its own doubt.";
  const beyond = misfit.beyondSeries
    ? [
        `The headings depart from any curve of A to E by up to ${plain(degrees(misfit.largest), 1)}°, more than chance: a compass that tilts, sticks or stands near moving iron, a wrong bearing, or a reading noted wrongly.`,
      ]
    : [];
  const large = misfit.tooLarge
    ? [
        "The deviation is above 20°, where five coefficients no longer describe it: have the compass adjusted, then circle again.",
      ]
    : [];
  const heeling = found.terms.includes("heelingError")
    ? [
        `Heeling error: ${signed(found.series.heelingError, 3)}° ± ${plain(found.halves.heelingError, 3)}° a degree of heel, heading north.`,
      ]
    : [];
  const spare =
    found.spare === 0
      ? ["Five headings and five coefficients: nothing checks this curve. Eight headings would."]
      : [];
  const alignment =
    "A and an error of the variation are one number at one place; only a circle at a place with another variation tells them apart. The table's intervals are without that, which shifts all of it alike.";
  return [
    advice,
    `Coefficients: ${coefficients(found)}.`,
    ...heeling,
    ...beyond,
    ...large,
    ...spare,
    alignment,
  ];
}
