/**
 * What a depth is counted from (M126).
 *
 * SOURCE: as in datasets/published/depthDatums.json.
 * STATUS: read.
 * MARGIN: rounding of one addition.
 */
import { describe, expect, it } from "vitest";
import data from "../../datasets/published/depthDatums.json" with { type: "json" };
import {
  belowTransducerOf,
  depthWithOffset,
  draught,
  offsetFor,
} from "../../packages/core/src/sensors/depthSounder.ts";
import { agrees, published } from "../support/published.ts";

describe("depth and offset", () => {
  for (const { source, examples } of [data.dpt, data.signalK])
    published("depth below waterline and keel", source, () => {
      for (const { depth, offset, below, expect: wanted } of examples) {
        const found = depthWithOffset(depth, offset);
        expect(found.below).toBe(below);
        agrees(found.depth, wanted, 1e-12, "rounding of one addition");
      }
    });

  it("an empty offset counts from the transducer; offsets of a place are read back", () => {
    expect(depthWithOffset(3, Number.NaN)).toEqual({ depth: 3, below: "transducer" });
    const place = { belowWaterline: 0.6, aboveKeel: 1.3 };
    expect(draught(place)).toBeCloseTo(1.9, 12);
    for (const below of ["waterline", "keel", "transducer"] as const)
      expect(depthWithOffset(4, offsetFor(below, place)).below).toBe(below);
    agrees(belowTransducerOf(5, place), 4.4, 1e-12, "rounding of one subtraction");
  });
});
