/**
 * Halves of one recording, each fitted by itself, agree within their intervals: nothing moved on board, and nobody knows the truth.
 * INPUTS: the open recordings of a race on a lake (4.9 h, no compass, no heel) and of a start in a bay (37 min).
 * MARGIN: 2.5 standard deviations for each of four settings, which independent ones pass all together 95 times in 100; 5 % for all together.
 */
import { describe, expect, it } from "vitest";
import { hasMoved } from "../../packages/core/src/judge/compare.ts";
import { HALVED, recordedHalves } from "../support/recordedHalves.ts";

const [BAY, LAKE] = HALVED;

describe("a race on a lake, its first part and its second", () => {
  it("tell the same settings as far as they tell any, and nothing is said to have moved", async () => {
    const { halves, comparison } = await recordedHalves(LAKE);
    const [first, second] = halves.map(({ fit }) => fit);
    if (first?.status !== "solved" || second?.status !== "solved") expect.fail("a half was not solved");
    const told = first.parameters.flatMap((one, at) => {
      const other = second.parameters[at]!;
      return one.informed < 0.1 || other.informed < 0.1 ? [] : [[one, other] as const];
    });
    expect(told.length).toBeGreaterThanOrEqual(3);
    for (const [one, other] of told)
      expect(Math.abs(one.value - other.value), one.name).toBeLessThan(2.5 * Math.hypot(one.sd, other.sd));
    expect(comparison!.joint.probability).toBeGreaterThan(0.05);
    expect(hasMoved(comparison!)).toBe(false);
  });
});

describe("half an hour in a bay", () => {
  it("is too little to be parted: one half says so, and the tacks disagree by the same in both", async () => {
    const { halves, comparison } = await recordedHalves(BAY);
    expect(comparison).toBeUndefined();
    expect(halves.map(({ fit }) => fit.status)).toEqual(["unsolved", "solved"]);
    for (const kind of ["before", "after"] as const) {
      const [one, other] = [halves[0][kind], halves[1][kind]];
      expect(Math.abs(one.value - other.value)).toBeLessThan(1.96 * Math.hypot(one.sd, other.sd));
    }
  });
});
