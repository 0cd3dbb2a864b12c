/**
 * Where legs differ more than the fit expects (M180), as with a compass that turns and is set back, its intervals are widened and it is said.
 * INPUTS: rows made directly; a simulated afternoon, as it is and with a compass that turns by 6° in its first half.
 * MARGIN: half as wide again; the blocks of that afternoon ask for more than twice.
 */
import { describe, expect, it } from "vitest";
import { blockScatter } from "../../packages/core/src/fit/blockScatter.ts";
import type { SolvedBoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import { INDEX_OF } from "../../packages/core/src/fit/settingsVector.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { BENDS } from "../support/bentSails.ts";
import { requireSolved, seenSail } from "../support/scoredSails.ts";
import { plainAfternoon } from "../support/traps.ts";

describe("too few legs", () => {
  it("are not judged: fewer than six blocks of two", () => {
    const { settled, setting } = plainAfternoon(1, 10);
    expect(blockScatter(settled, setting)).toBeUndefined();
    const more = plainAfternoon(1);
    expect(blockScatter(more.settled, more.setting)!.blocks).toBe(18);
  });
});

describe("a compass that drifts and is set back", () => {
  const fitted = (name: string): SolvedBoatFit => {
    const { bent, steeredBy } = BENDS.find((bend) => bend.name === name)!;
    const { rows } = seenSail(bent(drawScenario(64001))).sailing;
    return requireSolved(fitBoat(rows, { heelSign: "auto", steeredBy, leewayLawHolds: true }));
  };
  it("makes legs differ: intervals are widened, which is said; of the same afternoon without it, they are not", () => {
    const [drifting, straight] = [fitted("a compass that drifts and is set back"), fitted("nothing")];
    expect(drifting.notes).toContainEqual(expect.stringMatching(/^Legs differ more than the fit expects/));
    expect(straight.notes).not.toContainEqual(expect.stringMatching(/^Legs differ/));
    const at = INDEX_OF["compass.a"];
    expect(drifting.parameters[at]!.sd).toBeGreaterThan(1.5 * straight.parameters[at]!.sd);
  });
});
