/**
 * Names of files, columns and sources that would act rather than show: in the report they are text, and the names that readers make
 * of a log's own bytes act on nothing.
 *
 * INPUTS: an invented answer, logs made here.
 */
import { describe, expect, it } from "vitest";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { nmea0183Checksum, nmea0183Sentence } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import { htmlReport } from "../../packages/core/src/report/html.ts";
import { correctionTables } from "../../packages/core/src/report/tables.ts";
import { plainWords } from "../../packages/core/src/report/words.ts";
import { solvedAnswerFixture } from "../support/answerFixture.ts";
import { wholeCsv } from "../support/wholeCsv.ts";
import { wholeLog } from "../support/wholeLog.ts";

const HOSTILE = '<img src=x onerror="alert(1)">\u001b[2J\u202e</script>';

/** What a terminal acts on, and what turns the direction of writing. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
const ACTS = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;

describe("the report", () => {
  const { answer, rows } = solvedAnswerFixture();
  const { recording, fit, base, active } = answer;
  const tables =
    fit.status === "solved" ? correctionTables(fit, base, active, UNKNOWN_BOAT, rows) : undefined;
  const hostile = {
    ...answer,
    recording: {
      ...recording,
      files: [HOSTILE],
      chosen: recording.chosen.map((one) => ({ ...one, source: { ...one.source, name: HOSTILE } })),
      problems: [
        { kind: "field" as const, file: HOSTILE, line: 1, received: HOSTILE, expected: `not ${HOSTILE}` },
      ],
    },
  };
  const words = plainWords(hostile, UNKNOWN_BOAT, tables);
  const page = htmlReport({ answer: { ...hostile, words }, tables, rows, boatName: HOSTILE }, "let plotly;");

  it("shows them as text", () => {
    expect(page).toContain("&lt;img src=x onerror=&quot;alert(1)&quot;&gt;\\u001b[2J\\u202e&lt;/script&gt;");
    expect(page.replaceAll(/<script[\s\S]*?<\/script>/g, "")).not.toMatch(/<img/);
    expect(page).not.toMatch(ACTS);
  });
});

describe("a reader makes of a log's own bytes names that act on nothing", () => {
  const expectHarmless = (names: readonly string[]) => {
    expect(names.length).toBeGreaterThan(0);
    for (const name of names) {
      expect(name).not.toMatch(ACTS);
      expect(name.length).toBeLessThan(150);
    }
  };

  it("of columns", () => {
    const name = `${HOSTILE.replaceAll('"', "'")}${"x".repeat(500)}`;
    const { reader } = wholeCsv(`time,"${name}"\n2031-05-14T12:00:00Z,6\n2031-05-14T12:00:01Z,6\nnever,x\n`, {
      columns: { "2": { quantity: "speedThroughWater", unit: "kn" } },
    });
    expectHarmless(reader.sources.map((source) => source.name));
    expectHarmless(reader.problems.flatMap(({ received, expected }) => [received, expected]));
    const asked = wholeCsv(`time,"heading ${name}"\n2031-05-14T12:00:00Z,6\n`, {
      columns: { "7": { quantity: "none" } },
    });
    expect(asked.reader.refusal).not.toMatch(ACTS);
  });

  it("of tag blocks and transducers", () => {
    const tags = `s:${HOSTILE.replaceAll(/[\\*]/g, "")}`.replaceAll("\u202e", "\xff");
    const sum = nmea0183Checksum(tags).toString(16).toUpperCase().padStart(2, "0");
    const { reader } = wholeLog(
      [
        `\\${tags}*${sum}\\${nmea0183Sentence("WIMWV,30.0,R,10.0,N,A")}`,
        nmea0183Sentence("IIXDR,A,5.0,D,HEEL\u001b[2J<img>"),
      ].join("\n"),
    );
    expect(reader.lines).toMatchObject({ used: 2, problems: 0 });
    expectHarmless(reader.sources.map((source) => source.name));
  });
});
