/**
 * Serial dates of spreadsheets (M113).
 *
 * SOURCE: ECMA-376, Office Open XML File Formats, first edition, December 2006, part 4, section 3.17.4.1, "Date Representation":
 *   examples of DATEVALUE for both date systems. René Nyffenegger, Excel: Serial number, renenyffenegger.ch, table and text.
 * STATUS: both read on the web (the standard as c-rex.net publishes it).
 * MARGIN: none; the numbers are whole, or quarters of days.
 */
import { describe, expect } from "vitest";
import { serialDateSeconds } from "../../packages/core/src/recording/spreadsheetDate.ts";
import { published } from "../support/published.ts";

const STANDARD = "ECMA-376, 1st ed. 2006, part 4, 3.17.4.1";
const NYFFENEGGER = "R. Nyffenegger, Excel: Serial number, renenyffenegger.ch";

const EXAMPLES: readonly (readonly [system: 1900 | 1904, serial: number, date: string, source: string])[] = [
  [1900, 3687, "1910-02-03T00:00:00Z", STANDARD],
  [1900, 38749, "2006-02-01T00:00:00Z", STANDARD],
  [1900, 2_958_465, "9999-12-31T00:00:00Z", STANDARD],
  [1904, 0, "1904-01-01T00:00:00Z", STANDARD],
  [1904, 2225, "1910-02-03T00:00:00Z", STANDARD],
  [1904, 37287, "2006-02-01T00:00:00Z", STANDARD],
  [1904, 2_957_003, "9999-12-31T00:00:00Z", STANDARD],
  [1900, 61, "1900-03-01T00:00:00Z", NYFFENEGGER],
  [1900, 40_000.25, "2009-07-06T06:00:00Z", NYFFENEGGER],
  [1900, 44_444, "2021-09-05T00:00:00Z", NYFFENEGGER],
];

describe("a serial date", () => {
  for (const [system, serial, date, source] of EXAMPLES)
    published(`${serial} of the ${system} date system is ${date}`, source, () => {
      expect(serialDateSeconds(serial, system)).toBe(Date.parse(date) / 1000);
    });
});
