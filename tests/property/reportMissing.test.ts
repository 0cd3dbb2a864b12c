/** Whatever a recording lacks, the report is made of the rest, and says nothing that is no number. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import type { Answer } from "../../packages/core/src/report/answer.ts";
import type { TableRow } from "../../packages/core/src/report/cells.ts";
import { tablesCsv } from "../../packages/core/src/report/csv.ts";
import { htmlReport } from "../../packages/core/src/report/html.ts";
import { printedSummary } from "../../packages/core/src/report/summary.ts";
import { correctionTables } from "../../packages/core/src/report/tables.ts";
import { plainWords } from "../../packages/core/src/report/words.ts";
import { MOMENT_CHANNELS } from "../../packages/core/src/sailing/legRow.ts";
import { solvedAnswerFixture } from "../support/answerFixture.ts";

const { answer: whole, rows: allRows } = solvedAnswerFixture();

const NO_NUMBER = /NaN|undefined|Infinity|\bnull\b|\[object/;

/** What a recording may lack: channels, every second direction, a tack, all rows, the agreements, its times. */
const lacks = fc.record({
  channels: fc.subarray([...MOMENT_CHANNELS]),
  directions: fc.boolean(),
  rows: fc.constantFrom("all", "port only", "motoring only", "none"),
  agreements: fc.boolean(),
  times: fc.boolean(),
  table: fc.constantFrom("apparent", "true", "none"),
  base: fc.constantFrom("sensors without corrections", "unknown corrections"),
});

type Lack = typeof lacks extends fc.Arbitrary<infer Value> ? Value : never;

function rowsWithout({ channels, rows: which }: Lack): readonly TableRow[] {
  const kept = allRows.filter(({ tack }) => which !== "none" && (which !== "port only" || tack === "port"));
  const unknown = Object.fromEntries(channels.map((channel) => [channel, Number.NaN]));
  return kept.map((row) => ({
    ...row,
    kind: which === "motoring only" ? "motoring" : row.kind,
    mean: { ...row.mean, ...unknown },
  }));
}

function answerWithout({ directions, agreements, times, base, rows }: Lack): Answer {
  const gaps = (column: Float64Array) =>
    column.map((value, index) => (directions && index % 2 === 0 ? Number.NaN : value));
  const hidden = <Kind extends { readonly value: number; readonly sd: number; readonly contrasts: number }>(
    agreement: Kind,
  ): Kind => (agreements ? { ...agreement, value: Number.NaN, sd: Number.NaN, contrasts: 0 } : agreement);
  const [a, b, c] = whole.before;
  const [d, e, f] = whole.after!;
  const { track, recording } = whole;
  return {
    ...whole,
    base,
    legs: rows === "none" ? [] : whole.legs,
    turns: rows === "none" ? [] : whole.turns,
    before: [hidden(a), hidden(b), hidden(c)],
    after: [hidden(d), hidden(e), hidden(f)],
    recording: times
      ? { ...recording, start: Number.NaN, end: Number.NaN, chosen: [], others: [], lags: [] }
      : recording,
    track: {
      ...track,
      directionBefore: gaps(track.directionBefore),
      directionAfter: gaps(track.directionAfter),
      directionResidual: gaps(track.directionResidual),
    },
  };
}

it("is made of whatever there is", () => {
  fc.assert(
    fc.property(lacks, (lack) => {
      const rows = rowsWithout(lack);
      const bare = answerWithout(lack);
      if (bare.fit.status !== "solved") throw new Error("the fixture must be solved");
      const boat = { ...UNKNOWN_BOAT, computer: { ...UNKNOWN_BOAT.computer, table: lack.table } };
      const tables = correctionTables(bare.fit, bare.base, bare.active, boat, rows);
      const answer = { ...bare, words: plainWords(bare, boat, tables) };
      expect(printedSummary(answer, tables)).not.toMatch(NO_NUMBER);
      expect(tablesCsv(tables)).not.toMatch(NO_NUMBER);
      const page = htmlReport({ answer, tables, rows, boatName: "" }, "");
      const [seen] = page.slice(page.indexOf("<body>")).split('<script type="application/json"');
      expect(seen).not.toMatch(NO_NUMBER);
    }),
    { numRuns: 60 },
  );
});
