// INPUTS: invented legs of rows. Expected: what follows from "the same share of every leg under sail, all under power".
import { describe, expect, it } from "vitest";
import { rowsOfSeason } from "../../packages/core/src/job/rowsOfSeason.ts";
import { thinnedWords } from "../../packages/core/src/report/thinnedWords.ts";
import type { LegRow, RowKind } from "../../packages/core/src/sailing/legRow.ts";
import { solvedAnswerFixture } from "../support/answerFixture.ts";

const row = (leg: number, kind: RowKind, start: number): LegRow => ({
  leg,
  kind,
  tack: leg % 2 === 0 ? "starboard" : "port",
  start,
  duration: 30,
  count: 30,
  mean: { awa: 0.5, aws: 7, stw: 3, heading: 1, heel: 0.2, east: 2, north: 2 },
  covariance: new Float64Array(49),
  autocovariance: new Float64Array(9),
  headingIsTrue: true,
  variation: 0,
  latitude: 0.9,
  longitude: 0,
});

/** Legs of some lengths, the fifth of every five under power. */
const season = (lengths: readonly number[]): readonly LegRow[] =>
  lengths.flatMap((length, leg) =>
    Array.from({ length }, (_, place) =>
      row(leg, leg % 5 === 4 ? "motoring" : "sailing", 1000 * leg + 30 * place),
    ),
  );

const LENGTHS = Array.from({ length: 200 }, (_, leg) => 3 + ((leg * 7) % 12));

describe("the rows of a season", () => {
  const rows = season(LENGTHS);

  it("are all of them where there are few enough", () => {
    expect(rowsOfSeason(rows, rows.length)).toBe(rows);
  });

  it("beyond that are so many, all under power and some of nearly every leg under sail, from its first on, in their order", () => {
    const kept = rowsOfSeason(rows, 700);
    expect(kept.length).toBeGreaterThan(690);
    expect(kept.length).toBeLessThanOrEqual(700);
    const motoring = (all: readonly LegRow[]) => all.filter(({ kind }) => kind === "motoring");
    expect(motoring(kept)).toEqual(motoring(rows));
    expect(kept.map(({ start }) => start)).toEqual(kept.map(({ start }) => start).toSorted((a, b) => a - b));
    expect(new Set(kept).size).toBe(kept.length);
    const firsts = new Set(rows.filter((one, place) => one.leg !== rows[place - 1]?.leg));
    const legs = new Set(kept.map(({ leg }) => leg));
    expect(legs.size).toBeGreaterThan(0.9 * LENGTHS.length);
    for (const leg of legs) expect(firsts.has(kept.find((one) => one.leg === leg)!)).toBe(true);
  });

  it("are those under power alone where these are too many already", () => {
    const kept = rowsOfSeason(season(LENGTHS), 10);
    expect(kept.every(({ kind }) => kind === "motoring")).toBe(true);
  });
});

describe("an answer that rests on some of the rows", () => {
  it("says so", () => {
    const { answer } = solvedAnswerFixture();
    expect(thinnedWords(answer)).toEqual([]);
    const recording = { ...answer.recording, rows: { used: 8000, all: 47_123 } };
    expect(thinnedWords({ ...answer, recording })).toEqual([
      expect.stringContaining("Of 47,123 half minutes of steady sailing the answer rests on 8,000"),
    ]);
  });
});
