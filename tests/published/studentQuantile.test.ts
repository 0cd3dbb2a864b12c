/**
 * Student's quantile (M120).
 *
 * SOURCE: as in datasets/published/studentT.json.
 * STATUS: second-hand, a reprint of the table.
 * MARGIN: half of the table's last digit.
 */
import { describe, expect, it } from "vitest";
import data from "../../datasets/published/studentT.json" with { type: "json" };
import { studentQuantile } from "../../packages/core/src/fit/studentQuantile.ts";
import { agrees, published } from "../support/published.ts";

describe("Student's distribution", () => {
  published("what holds 95 in 100", data.source, () => {
    data.freedom.forEach((freedom, at) => {
      agrees(studentQuantile(freedom), data.upper025[at]!, 0.00051, "half of the table's last digit");
    });
  });

  it("refuses what is no count and no probability", () => {
    expect(() => studentQuantile(0)).toThrow(/freedom/);
    expect(() => studentQuantile(2.5)).toThrow(/freedom/);
    expect(() => studentQuantile(3, 1)).toThrow(/probability/);
  });
});
