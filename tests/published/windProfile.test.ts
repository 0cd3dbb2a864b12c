/**
 * Wind speed at another height (M15, M16).
 *
 * SOURCE: wind-python/windpowerlib, tests/test_wind_speed.py; International Towing Tank Conference, Recommended Procedure
 *   7.5-04-01-01.1, equation E-8. Places in datasets/published/windProfile.json.
 * STATUS: read in the repository; the procedure second-hand through a repository that codes it.
 * MARGIN: a unit of the last digit printed: some are cut, not rounded.
 */
import { describe } from "vitest";
import data from "../../datasets/published/windProfile.json" with { type: "json" };
import { logarithmicWindSpeed, powerLawWindSpeed } from "../../packages/core/src/physics/windProfile.ts";
import { agrees, published } from "../support/published.ts";

const { examples, heightCorrection } = data;

/** Exponents as the sources write them. */
const EXPONENTS: ReadonlyMap<string | number | undefined, number> = new Map<string | number, number>([
  ["1/ln(100/0.15)", 1 / Math.log(100 / 0.15)],
  ["1/7", 1 / 7],
  ["1/9", 1 / 9],
  [0.2, 0.2],
]);
const exponentOf = (written: string | number | undefined): number => EXPONENTS.get(written) ?? Number.NaN;

/** One unit of the last decimal that a number was printed with. */
const lastDigit = (value: number): number => 10 ** -(String(value).split(".")[1]?.length ?? 0) * 1.000001;

describe("wind at another height", () => {
  for (const { law, speed, from, to, roughness, displacement, exponent, expect } of examples.rows) {
    const found = () =>
      law === "power"
        ? powerLawWindSpeed(speed, from, to, exponentOf(exponent))
        : logarithmicWindSpeed(speed, from, to, roughness ?? Number.NaN, displacement);
    const detail = exponent ?? (displacement === undefined ? "no displacement" : "with displacement");
    published(`${law} law, ${speed} m/s, ${detail}`, examples.source, () =>
      agrees(
        found(),
        expect,
        lastDigit(expect),
        "a unit of the last digit printed: some are cut, not rounded",
      ),
    );
  }
  published(
    "power law, down to half the height",
    `${heightCorrection.source}; ${heightCorrection.status}`,
    () => {
      const { speed, from, to, exponent, expect } = heightCorrection;
      const found = powerLawWindSpeed(speed, from, to, exponentOf(exponent));
      agrees(found, expect, 1e-13, "printed to the last bits of a double");
    },
  );
});
