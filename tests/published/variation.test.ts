/**
 * Variation (M17) against the World Magnetic Model's own test values.
 *
 * SOURCE: National Centers for Environmental Information, British Geological Survey, 2024: The US/UK World Magnetic
 *   Model for 2025–2030, the 100 test values and the 12 points of the technical report
 *   (datasets/published/wmm2025TestValues.txt, wmm2025ReportTable.txt).
 * STATUS: second-hand, through the copies in the repositories boxpet/pygeomag and Mayitzin/ahrs.
 * INPUTS: decimal years, which are turned into dates of a year of its real length.
 * MARGIN: half of the last digit printed (0.005°), and 0.002° for the package's year of 365 days in leap years: a day's
 *   secular change at the steepest, 0.7° a year, which is near the poles.
 */
import { describe, expect, it } from "vitest";
import { wrapAngle } from "../../packages/core/src/angles.ts";
import {
  NEWEST_VARIATION,
  OLDEST_VARIATION,
  variationAt,
} from "../../packages/core/src/physics/variation.ts";
import { degrees, radians } from "../../packages/core/src/units.ts";
import { publishedRows } from "../support/dataset.ts";
import { agrees, published } from "../support/published.ts";

const MODEL = "NCEI and BGS, 2024, World Magnetic Model 2025, second-hand";

/** Seconds since 1970 at a decimal year. */
function timeOf(decimalYear: number): number {
  const year = Math.floor(decimalYear);
  const [start, end] = [Date.UTC(year), Date.UTC(year + 1)];
  return (start + (decimalYear - year) * (end - start)) / 1000;
}

const values = await publishedRows("wmm2025TestValues.txt");
const report = await publishedRows("wmm2025ReportTable.txt");

describe("variation by the World Magnetic Model 2025", () => {
  const years = [...new Set(values.map(([year]) => year!))];
  it("has its 100 test values, ten for each half year", () => {
    expect(values).toHaveLength(100);
    expect(years).toHaveLength(10);
  });
  for (const year of years) {
    const rows = values.filter(([when]) => when === year);
    published(`10 test values of ${year}, as printed`, `${MODEL}, test values`, () => {
      for (const [when, height, latitude, longitude, declination] of rows) {
        const found = variationAt(radians(latitude!), radians(longitude!), timeOf(when!), height! * 1000);
        const because = `two decimals printed, and a day of change in leap years; at ${latitude}, ${longitude}`;
        agrees(degrees(found), declination!, 0.005 + 0.002, because);
      }
    });
    published(`10 test values of ${year}, from their components`, `${MODEL}, test values`, () => {
      for (const [when, height, latitude, longitude, , , , north, east] of rows) {
        const found = variationAt(radians(latitude!), radians(longitude!), timeOf(when!), height! * 1000);
        const because = `a day of change in leap years; at ${latitude}, ${longitude}`;
        agrees(degrees(wrapAngle(found - Math.atan2(east!, north!))), 0, 0.002, because);
      }
    });
  }

  published("12 points of the technical report", `${MODEL}, technical report`, () => {
    expect(report).toHaveLength(12);
    for (const row of report) {
      const [when, height, latitude, longitude] = row;
      const found = variationAt(radians(latitude!), radians(longitude!), timeOf(when!), height! * 1000);
      agrees(degrees(found), row[10]!, 0.005, `two decimals printed; at ${latitude}, ${longitude}`);
    }
  });
});

describe("where there is no variation", () => {
  const [latitude, longitude] = [radians(50), radians(-4)];
  it("is NaN before the oldest model and after the newest, and a number between", () => {
    for (const time of [Date.UTC(2008, 5, 1) / 1000, OLDEST_VARIATION - 1, NEWEST_VARIATION + 1])
      expect(variationAt(latitude, longitude, time)).toBeNaN();
    for (let time = OLDEST_VARIATION; time < NEWEST_VARIATION; time += 30 * 86_400)
      expect(Math.abs(degrees(variationAt(latitude, longitude, time)))).toBeLessThan(4);
    expect(variationAt(latitude, longitude, NEWEST_VARIATION)).not.toBeNaN();
  });
  it("is NaN where place or time is", () => {
    expect(variationAt(Number.NaN, longitude, OLDEST_VARIATION)).toBeNaN();
    expect(variationAt(latitude, Number.NaN, OLDEST_VARIATION)).toBeNaN();
    expect(variationAt(latitude, longitude, Number.NaN)).toBeNaN();
    expect(variationAt(latitude, longitude, OLDEST_VARIATION, Number.NaN)).toBeNaN();
  });
  it("refuses a latitude in degrees", () => {
    expect(() => variationAt(50, longitude, OLDEST_VARIATION)).toThrow(/variationAt: latitude .* got 50/);
  });
});
