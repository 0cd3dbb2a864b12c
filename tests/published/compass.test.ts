/**
 * Deviation (M21) and its series from a table (M26).
 *
 * SOURCE: National Geospatial-Intelligence Agency, 2004: Handbook of Magnetic Compass Adjustment, chapter V, article 501,
 *   figure 501.
 * STATUS: the table of eight points and the rules were read; the page's own printed coefficients were cut off, so what is
 *   compared is the table itself.
 * INPUTS: degrees, east positive, by compass heading.
 * MARGIN: as each says.
 */
import { describe, expect } from "vitest";
import table from "../../datasets/published/compassDeviation.json" with { type: "json" };
import { deviation, headingFromReading, headingReadingOf } from "../../packages/core/src/sensors/compass.ts";
import {
  deviationSeriesByLeastSquares,
  deviationSeriesByRules,
} from "../../packages/core/src/sensors/deviationSeries.ts";
import { degrees, radians } from "../../packages/core/src/units.ts";
import { agrees, published } from "../support/published.ts";

const headings = table.headingDeg.map(radians);
const deviations = table.deviationDeg.map(radians);
const upright = 0;

describe("the deviation table of the handbook", () => {
  published("comes back from the series by its own rules", table.source, () => {
    const series = { ...deviationSeriesByRules(deviations), heelingError: 0 };
    headings.forEach((heading, index) => {
      const found = degrees(deviation(heading, upright, series));
      const because = "five terms cannot hold eight readings that are printed to 0.1° and smoothed by hand";
      agrees(found, table.deviationDeg[index]!, 0.15, because);
    });
    for (const cardinal of [0, 2, 4, 6]) {
      const found = degrees(deviation(headings[cardinal]!, upright, series));
      agrees(found, table.deviationDeg[cardinal]!, 1e-12, "the rules take the cardinal points exactly");
    }
  });

  published("is met by least squares with less residual than by the rules", table.source, () => {
    const squares = (series: ReturnType<typeof deviationSeriesByRules>): number =>
      headings.reduce((sum, heading, index) => {
        const miss = deviation(heading, upright, { ...series, heelingError: 0 }) - deviations[index]!;
        return sum + miss * miss;
      }, 0);
    const fitted = deviationSeriesByLeastSquares(headings, deviations);
    const byRules = deviationSeriesByRules(deviations);
    expect(squares(fitted)).toBeLessThan(squares(byRules));
    for (const term of ["a", "d", "e"] as const)
      agrees(
        degrees(fitted[term] - byRules[term]),
        0,
        1e-12,
        "on eight points these rules are least squares",
      );
    for (const term of ["b", "c"] as const) {
      const because = "the rules leave four of the eight readings out, which were read to 0.1°";
      agrees(degrees(fitted[term] - byRules[term]), 0, 0.1, because);
    }
    for (const change of [1e-4, -1e-4])
      for (const term of ["a", "b", "c", "d", "e"] as const)
        expect(squares({ ...fitted, [term]: fitted[term] + change })).toBeGreaterThan(squares(fitted));
  });

  published("turns a compass heading into a magnetic one and back", table.source, () => {
    const series = { ...deviationSeriesByRules(deviations), heelingError: 0 };
    for (const heading of headings) {
      const magnetic = headingFromReading(heading, upright, series);
      agrees(headingReadingOf(magnetic, upright, series), heading, 1e-14, "rounding of a turn");
    }
  });
});
