/**
 * SOURCE: simulation (M70 to M79): a boat fitted on an hour's sail; then together with half an hour more in another wind, of the
 * plan made from that fit, or of rounds to windward and back.
 * INPUTS: seed 83005; `scripts/plannedBoats.ts` does ten boats, with 2.5 hours and one hour.
 * MARGIN: a day's wind wanders by a third more or less than the one that the plan reckons with (M45), and so do standard deviations.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { type PlannedBoat, plannedBoat, worstParameter } from "../support/plannedSails.ts";

describe("a plan that is followed", () => {
  let boat: PlannedBoat;
  beforeAll(() => {
    boat = plannedBoat(83005, 30, 3600);
  }, 300_000);

  const sds = () => {
    const at = worstParameter(boat);
    const [before, planned, rounds] = [boat.before, boat.planned, boat.rounds].map(
      ({ parameters }) => parameters[at]!.sd,
    ) as [number, number, number];
    return { before, planned, rounds, expected: boat.plan.parameters[at]!.after };
  };

  it("leaves less doubt of the worst parameter than as many minutes of rounds to windward and back", () => {
    const { before, planned, rounds } = sds();
    expect(planned).toBeLessThan(rounds);
    expect(planned).toBeLessThan(before);
  });

  it("leaves about what it was expected to leave", () => {
    const { planned, expected } = sds();
    expect(planned / expected).toBeGreaterThan(0.67);
    expect(planned / expected).toBeLessThan(1.33);
  });
});
