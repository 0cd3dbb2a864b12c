/**
 * Data that cannot answer come back so, with the reason in words and no numbers (M55).
 * INPUTS: rows made by hand.
 */
import { describe, expect, it } from "vitest";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import type { LegRow, MomentChannel } from "../../packages/core/src/sailing/legRow.ts";
import { radians } from "../../packages/core/src/units.ts";
import { withoutChannels } from "../support/alteredRows.ts";
import { handmadeRow } from "../support/handmadeRows.ts";

const CONTEXT = { heelSign: "auto", steeredBy: "sails", leewayLawHolds: true } as const;

/** Legs of so many rows each, by the side that the wind comes over. */
function sailed(...legs: readonly { readonly side: 1 | -1; readonly rows: number }[]): readonly LegRow[] {
  let at = 0;
  return legs.flatMap(({ side, rows }, leg) =>
    Array.from({ length: rows }, () => {
      at += 30;
      const mean = {
        awa: side * radians(32),
        aws: 8,
        stw: 3,
        heading: radians(180 - side * 45),
        heel: -side * radians(15),
        east: 1,
        north: -2,
      };
      return handmadeRow({ leg, at, mean });
    }),
  );
}

const BEAT = sailed({ side: 1, rows: 10 }, { side: -1, rows: 10 }, { side: 1, rows: 10 });
const without = (...missing: MomentChannel[]) => BEAT.map((row) => withoutChannels(row, missing));

describe("refused, with a reason for the navigator", () => {
  it.each([
    ["nothing was sailed", [], /sailed or motored steadily with apparent wind/],
    ["no wind in the log", without("awa", "aws"), /with apparent wind in the log/],
    ["the cups stood still", BEAT.map((row) => ({ ...row, mean: { ...row.mean, aws: 0 } })), /apparent wind/],
    ["neither GPS nor paddle wheel", without("stw", "east", "north"), /neither boat speed nor/],
    ["neither GPS nor compass", without("heading", "east", "north"), /neither a compass nor a course/],
    [
      "all on one tack",
      sailed({ side: 1, rows: 30 }),
      /15 minutes of steady sailing .* all on starboard tack/,
    ],
    [
      "too little on the other tack",
      sailed({ side: -1, rows: 20 }, { side: 1, rows: 2 }, { side: -1, rows: 20 }),
      /21 minutes .* but only 1 minute on starboard tack/,
    ],
    ["one change of tack", sailed({ side: 1, rows: 20 }, { side: -1, rows: 20 }), /changed tack only once/],
    [
      "a day under power",
      BEAT.map((row) => ({ ...row, kind: "motoring" as const })),
      /0 minutes of steady sailing were found/,
    ],
  ])("%s", (_, rows, reason) => {
    const fit = fitBoat(rows, CONTEXT);
    if (fit.status !== "unsolved") expect.fail("it was solved");
    expect(fit.reason).toMatch(reason);
    expect(fit.reason).toMatch(/\.$/);
    expect(fit.confounded).toContain("vane.mastheadOffset");
    expect(fit).not.toHaveProperty("parameters");
  });

  it("a fit that is called off throws the caller's reason", () => {
    const reason = new Error("the navigator went ashore");
    expect(() => fitBoat(BEAT, { ...CONTEXT, signal: AbortSignal.abort(reason) })).toThrow(reason);
  });
});
