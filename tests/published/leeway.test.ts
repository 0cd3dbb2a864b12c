/**
 * Leeway (M12) against what sailors and designers have written.
 *
 * SOURCE: R. Garrett, 1987: The Symmetry of Sailing, section 3.5.3; Ocean Navigator 45, page 72; P. van Oossanen, 1993:
 *   Predicting the Speed of Sailing Yachts, SNAME Transactions 101. Places in datasets/published/leeway.json.
 * STATUS: all three second-hand.
 * INPUTS: degrees and knots; coefficients in deg kn² a degree of heel.
 * MARGIN: as each says.
 */
import { describe } from "vitest";
import data from "../../datasets/published/leeway.json" with { type: "json" };
import { leewayAngle, leewayCoefficient } from "../../packages/core/src/physics/leeway.ts";
import { degrees, knots, metresPerSecond, radians } from "../../packages/core/src/units.ts";
import { agrees, published } from "../support/published.ts";

const { garrett, oceanNavigator, vanOossanen } = data;

/** Leeway in degrees from degrees and knots. */
const leewayDegrees = (heel: number, speed: number, coefficient: number): number =>
  degrees(leewayAngle(radians(heel), metresPerSecond(speed), coefficient * metresPerSecond(1) ** 2));

describe("leeway", () => {
  published(
    "coefficient 8 at heels and speeds of a race",
    `${oceanNavigator.source}; ${oceanNavigator.status}`,
    () => {
      for (const heel of [-25, -10, 5, 15, 25])
        for (const speed of [4, 6, 8]) {
          const written = (oceanNavigator.coefficient * heel) / speed ** 2;
          agrees(
            leewayDegrees(heel, speed, oceanNavigator.coefficient),
            written,
            1e-12,
            "the same law in other units",
          );
        }
    },
  );

  published("a sine of heel for the heel", `${garrett.source}; ${garrett.status}`, () => {
    const coefficient = garrett.factor * radians(1);
    for (const heel of [5, 10, 15, 20, 25])
      for (const speed of [5, 7]) {
        const written = (garrett.factor * Math.sin(radians(heel))) / speed ** 2;
        const because = "the law takes heel for its sine: heel³/6, 3.2 % at 25°";
        agrees(
          leewayDegrees(heel, speed, coefficient),
          written,
          (written * radians(heel) ** 2) / 5.8,
          because,
        );
      }
  });

  published("a coefficient between 8 and 10", `${vanOossanen.source}; ${vanOossanen.status}`, () => {
    const { leeway, heel, speed } = vanOossanen;
    const coefficient = leewayCoefficient(radians(leeway), radians(heel), metresPerSecond(speed));
    const because = "the other two sources say 8 for other hulls; this one was published for one hull only";
    agrees(coefficient * knots(1) ** 2, 9, 1, because);
  });
});
