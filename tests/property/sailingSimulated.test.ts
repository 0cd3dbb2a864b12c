/**
 * What is recognised of sails from the library's own simulator, which knows nothing of these rules: faults of every kind,
 * spikes and silences, gusts and waves, a wait with luffing sails, and hours under power in some (M37, M38).
 * MARGIN: 95 in 100 turns is what was asked of the detector; taking one thing for the other is asked to be rare: 1 in 100 rows.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { wrapAngle } from "../../packages/core/src/angles.ts";
import type { LegRow } from "../../packages/core/src/sailing/legRow.ts";
import type { Sailing } from "../../packages/core/src/sailing/sailing.ts";
import { summariseSailing } from "../../packages/core/src/sailing/summary.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { type SimulatedSail, simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { secondsOfSail } from "../../packages/core/src/simulate/simulatedSeconds.ts";

const SEEDS = [101, 102, 103, 104, 105, 106];

interface TrueTurn {
  readonly start: number;
  readonly end: number;
  readonly kind: "tack" | "gybe";
}

/** Tacks and gybes of more than 20° among the truth's turning seconds, with sails up before and after. */
function tacksAndGybes({ truth, scenario }: SimulatedSail): TrueTurn[] {
  const { heading, waterWindDirection, turning, sails } = truth.columns;
  const windAngle = (second: number) => wrapAngle(waterWindDirection[second]! - heading[second]!);
  const turns: TrueTurn[] = [];
  for (let first = 1; first < truth.length; first++) {
    if (turning[first] !== 1 || turning[first - 1] === 1) continue;
    let [last, change] = [first, 0];
    for (; last + 1 < truth.length && turning[last + 1] === 1; last++)
      change += wrapAngle(heading[last + 1]! - heading[last]!);
    const [before, after] = [windAngle(first - 1), windAngle(last)];
    const underSail = sails[first - 1]! > 0.9 && sails[Math.min(truth.length - 1, last + 5)]! > 0.9;
    if (!underSail || before * after > 0 || Math.abs(change) < 0.35) continue;
    const [start, end] = [scenario.start + first, scenario.start + last];
    turns.push({ start, end, kind: before * change > 0 ? "tack" : "gybe" });
  }
  return turns;
}

/** The wind changes sides on two of her turns under power. */
const underPowerFirst = simulatedSail(drawScenario(7001, { motoring: true }));

interface Recognised {
  readonly sail: SimulatedSail;
  readonly found: Sailing;
}

/** Seconds of a row of which something is true. */
function secondsOf(
  { sail: { truth, scenario } }: Recognised,
  row: LegRow,
  column: "turning" | "motoring",
): number {
  const first = row.start - scenario.start;
  return truth.columns[column].slice(first, first + row.duration).reduce((sum, flag) => sum + flag, 0);
}

describe("six simulated sails", () => {
  let sails: Recognised[];
  beforeAll(() => {
    sails = SEEDS.map((seed) => {
      const sail = simulatedSail(drawScenario(seed, { motoring: seed % 2 === 0 }));
      return { sail, found: summariseSailing(secondsOfSail(sail)) };
    });
  });

  it("show 95 and more in 100 of their tacks and gybes as what they are", () => {
    const seen = sails.flatMap(({ sail, found: { turns } }) =>
      tacksAndGybes(sail).map(({ start, end, kind }) =>
        turns.some((turn) => turn.kind === kind && turn.start < end + 5 && turn.end > start - 5),
      ),
    );
    expect(seen.length).toBeGreaterThan(80);
    expect(seen.filter(Boolean).length / seen.length).toBeGreaterThanOrEqual(0.95);
  });

  it("show hardly a tack or gybe that was none", () => {
    const real = sails.flatMap(({ sail, found: { turns } }) =>
      turns
        .filter(({ kind }) => kind !== "other")
        .map(({ start, end }) => {
          const first = start - sail.scenario.start - 5;
          return sail.truth.columns.turning.slice(first, first + end - start + 10).some((flag) => flag === 1);
        }),
    );
    expect(real.filter((isReal) => !isReal).length).toBeLessThanOrEqual(0.01 * real.length);
  });

  it("call no turn under power a tack or a gybe", () => {
    const all = [...sails.map(({ found }) => found), summariseSailing(secondsOfSail(underPowerFirst))];
    const turns = all.flatMap(({ legs, turns: found }) => {
      const under = legs.filter(({ kind }) => kind === "motoring");
      return found.filter(({ start, end }) => under.some((leg) => leg.start < end && leg.end > start - 60));
    });
    expect(turns.length).toBeGreaterThan(4);
    expect(turns.map(({ kind }) => kind)).toEqual(turns.map(() => "other"));
  });

  it("have no second of a manoeuvre in a row under sail", () => {
    const turning = sails.flatMap((sail) =>
      sail.found.rows.filter((row) => row.kind === "sailing" && secondsOf(sail, row, "turning") > 0),
    );
    expect(turning).toEqual([]);
  });

  it("show motoring where there was, and nowhere else", () => {
    const rows = sails.flatMap((sail) =>
      sail.found.rows.map((row) => ({
        kind: row.kind,
        engine: secondsOf(sail, row, "motoring") > row.duration / 2,
      })),
    );
    const count = (kind: LegRow["kind"], engine: boolean) =>
      rows.filter((row) => row.kind === kind && row.engine === engine).length;
    expect(count("motoring", true)).toBeGreaterThan(30);
    expect(count("sailing", true)).toBeLessThanOrEqual(0.01 * count("motoring", true));
    expect(count("motoring", false)).toBeLessThanOrEqual(0.01 * count("sailing", false));
  });

  it("give rows for three quarters and more of what is sailed steadily", () => {
    const sailed = sails.map(
      ({ sail: { truth } }) =>
        truth.columns.sails.filter((sail, second) => sail > 0.9 && truth.columns.turning[second] === 0)
          .length,
    );
    // regression: no source asks for three quarters; settling after turns and unsteady seconds take some of the rest
    const inRows = sails.map(({ found }) => found.seconds.sailing);
    const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
    expect(sum(inRows) / sum(sailed)).toBeGreaterThan(0.75);
  });
});
