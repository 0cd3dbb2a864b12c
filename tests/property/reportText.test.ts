/** Properties of what the report says: escaping, CSV (RFC 4180), sentences, line lengths, nothing printed that is a prior. */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { OnboardComputer } from "../../packages/core/src/calibration/boat.ts";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import type { SolvedBoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { errorCovariance } from "../../packages/core/src/fit/doubtOfPriors.ts";
import type { Answer } from "../../packages/core/src/report/answer.ts";
import { tablesCsv } from "../../packages/core/src/report/csv.ts";
import {
  counted,
  duration,
  informedInWords,
  plain,
  signed,
  threeFigures,
} from "../../packages/core/src/report/format.ts";
import { htmlReport } from "../../packages/core/src/report/html.ts";
import { html, insideScript, jsonInsideScript } from "../../packages/core/src/report/markup.ts";
import { printedSummary } from "../../packages/core/src/report/summary.ts";
import { type CorrectionTables, correctionTables } from "../../packages/core/src/report/tables.ts";
import { plainWords } from "../../packages/core/src/report/words.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import {
  type AnswerFixture,
  fitFixture,
  solvedAnswerFixture,
  unsolvedAnswerFixture,
} from "../support/answerFixture.ts";

const COMPUTER: OnboardComputer = { correctsHeel: false, correctsLeeway: false, table: "apparent" };

/** A fit that learnt nothing: every posterior is its prior. */
function unlearntFit(): SolvedBoatFit {
  const fit = fitFixture();
  const size = fit.parameters.length;
  const covariance = new Float64Array(size * size);
  fit.parameters.forEach(({ priorSd }, index) => {
    covariance[index * size + index] = priorSd ** 2;
  });
  const parameters = fit.parameters.map((one) => ({ ...one, sd: one.priorSd, informed: 0 }));
  return { ...fit, parameters, covariance };
}

interface Told {
  readonly answer: Answer;
  readonly tables: CorrectionTables | undefined;
}

function told({ answer, rows }: AnswerFixture, computer = COMPUTER): Told {
  const boat = { ...UNKNOWN_BOAT, computer };
  const { fit, base, active } = answer;
  const tables = fit.status === "solved" ? correctionTables(fit, base, active, boat, rows) : undefined;
  return { answer: { ...answer, words: plainWords(answer, boat, tables) }, tables };
}

const solved = solvedAnswerFixture();
const unsolved = unsolvedAnswerFixture();
const unlearnt: AnswerFixture = { ...solved, answer: { ...solved.answer, fit: unlearntFit() } };

/** The records of a text of comma-separated values, by RFC 4180 and by nothing looser. */
function recordsOf(text: string): readonly (readonly string[])[] {
  expect(text).toMatch(/\r\n$/);
  expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
  return text
    .slice(0, -2)
    .split("\r\n")
    .map((line) => {
      const fields = [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^",]*))(?=,|$)/g)];
      return fields.map(([, quoted, bare]) => quoted?.replaceAll('""', '"') ?? bare ?? "");
    });
}

describe("numbers", () => {
  it("are written with a true minus, a plus where asked, and no sign on a zero", () => {
    expect(plain(-2.44, 1)).toBe("−2.4");
    expect(signed(2.44, 1)).toBe("+2.4");
    for (const zero of [0, -0, 0.04, -0.04]) expect(signed(zero, 1)).toBe("0.0");
    for (const write of [plain, signed]) expect(write(Number.NaN, 1)).toBe("unknown");
  });

  it("are directions of three figures below 360", () => {
    fc.assert(
      fc.property(fc.double({ min: -1e4, max: 1e4, noNaN: true }), (direction) => {
        const figures = Number(threeFigures(direction));
        expect(threeFigures(direction)).toMatch(/^\d{3}$/);
        expect(figures).toBeLessThan(360);
        const turns = (figures - direction) / 360;
        expect(360 * Math.abs(turns - Math.round(turns))).toBeLessThanOrEqual(0.5 + 1e-9);
      }),
    );
  });

  it("are counted and timed in words", () => {
    expect([counted(1, "leg"), counted(0, "leg"), counted(12345, "entry", "entries")]).toEqual([
      "1 leg",
      "0 legs",
      "12,345 entries",
    ]);
    expect([duration(48), duration(600), duration(9060)]).toEqual(["48 s", "10 min", "2 h 31 min"]);
  });

  it("are called not learnt below half an informed share, and where there is none", () => {
    expect([0, 0.49, Number.NaN].map(informedInWords)).toEqual(Array(3).fill("not learnt"));
    expect(informedInWords(0.5)).not.toBe("not learnt");
  });
});

describe("markup", () => {
  it("lets nothing from outside be markup", () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(..."<>&\"'ab/= !-") }), (text) => {
        const { markup } = html`<p title="${text}">${text}</p>`;
        const inner = markup.slice('<p title="'.length, -"</p>".length);
        expect(inner.replace('">', "")).not.toMatch(/[<>"']/);
      }),
    );
  });

  it("cannot end a script or open a comment in it", () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom("</script", "</SCRIPT>", "<!--", "<", "/script", "x")),
        (parts) => {
          const inside = insideScript(parts.join(""));
          expect(inside).not.toMatch(/<\/script|<!--/i);
          expect(jsonInsideScript(parts)).not.toContain("<");
          expect(JSON.parse(jsonInsideScript(parts))).toEqual(parts);
        },
      ),
    );
    expect(new Function(`return "${insideScript("</script><!--")}"`)()).toBe("</script><!--");
  });

  it("shows what is hostile in a log as text", () => {
    const hostile = `<img src=x onerror=alert(1)>"'</script><script>alert(2)</script><!--`;
    const { answer, rows } = solved;
    const { chosen, problems } = answer.recording;
    const recording = {
      ...answer.recording,
      files: [hostile],
      problems: [{ ...problems[0]!, file: hostile, received: hostile, expected: hostile }],
      chosen: [{ ...chosen[0]!, source: { ...chosen[0]!.source, name: hostile }, why: hostile }],
    };
    const fit = { ...fitFixture(), notes: [hostile] };
    const { answer: said, tables } = told({ rows, answer: { ...answer, recording, fit } });
    const page = htmlReport({ answer: said, tables, rows, boatName: hostile }, "/* plotly */");
    expect(page).not.toContain("<img");
    expect(page).not.toContain("alert(2)</script>");
    expect(page.match(/<script/g)).toHaveLength(3);
    expect(page).toContain("&lt;img src=x onerror=alert(1)&gt;");
  });
});

describe("tables.csv", () => {
  it.each(["apparent", "true", "none"] as const)("is RFC 4180 for a computer with table: %s", (table) => {
    const { tables } = told(solved, { ...COMPUTER, table });
    const [head, ...records] = recordsOf(tablesCsv(tables!));
    expect(new Set(head).size).toBe(head!.length);
    for (const record of records) expect(record).toHaveLength(head!.length);
    const kinds = new Set(records.map(([kind]) => kind));
    expect(kinds.has("table")).toBe(table !== "none");
    expect(records.filter(([kind]) => kind === "deviation")).toHaveLength(24);
  });

  it("holds the span of the table, blank where nothing was sailed", () => {
    const { tables } = told(solved);
    const [head, ...records] = recordsOf(tablesCsv(tables!));
    const at = (record: readonly string[], name: string): string => record[head!.indexOf(name)]!;
    const cells = records.filter((record) => at(record, "name") === "wind angle");
    const blank = cells.filter((record) => at(record, "legs") === "0");
    expect(cells.length - blank.length).toBe(tables!.cells.length);
    expect(blank.length).toBeGreaterThan(0);
    for (const record of blank)
      for (const name of ["add_deg", "add_deg_interval", "informed_share", "advice"])
        expect(at(record, name)).toBe("");
  });

  it("prints no number that is really the prior", () => {
    const { tables } = told(unlearnt);
    const [head, ...records] = recordsOf(tablesCsv(tables!));
    for (const record of records) {
      head!.forEach((name, index) => {
        if (/^(add_|leeway_coefficient)/.test(name)) expect(record[index]).toBe("");
      });
      expect(record[head!.indexOf("advice")]).not.toBe("key in");
    }
  });
});

describe("the words", () => {
  const everything: readonly (readonly [string, Told])[] = [
    ["solved", told(solved)],
    ["without a table", told(solved, { ...COMPUTER, table: "none" })],
    [
      "for a computer that does all",
      told(solved, { correctsHeel: true, correctsLeeway: true, table: "true" }),
    ],
    ["with nothing learnt", told(unlearnt)],
    ["unsolved", told(unsolved)],
  ];

  it.each(everything)("%s: are full sentences", (_, { answer }) => {
    const { keyIn, leaveAlone, couldNotTell, sailNext, notes } = answer.words;
    for (const sentence of [...keyIn, ...leaveAlone, ...couldNotTell, ...sailNext, ...notes])
      expect(sentence).toMatch(/^[A-Z][\s\S]*\.$/);
    expect(sailNext.length).toBeGreaterThan(0);
    expect(sailNext.length).toBeLessThanOrEqual(5);
    for (const sentence of [...keyIn, ...leaveAlone, ...couldNotTell])
      expect(sentence).not.toMatch(/NaN|unknown \(/);
  });

  it.each(everything)("%s: fit a terminal of 100 columns", (_, { answer, tables }) => {
    const summary = printedSummary(answer, tables);
    expect(Math.max(...summary.split("\n").map((line) => line.length))).toBeLessThanOrEqual(100);
    expect(summary).not.toContain("NaN");
    for (const { kind } of answer.before) expect(summary).toContain(kind);
  });

  it("key in nothing when nothing was learnt, and name what was not", () => {
    const { answer } = told(unlearnt);
    expect(answer.words.keyIn).toEqual([]);
    expect(answer.words.couldNotTell.join(" ")).toContain("the masthead offset");
  });

  it("say the reason of a refusal, and propose motoring with the sails down first", () => {
    const { answer } = told(unsolved);
    if (answer.fit.status === "solved") throw new Error("the fixture must be unsolved");
    expect(answer.words.couldNotTell[0]).toBe(answer.fit.reason);
    expect(answer.words.keyIn).toEqual([]);
    expect(answer.words.sailNext[0]).toMatch(/motor/);
    expect(told(unlearnt).answer.words.sailNext[0]).toMatch(/motor/);
  });

  it("name the pair that trades off, and only that pair", () => {
    const pairs = told(solved).answer.words.couldNotTell.filter((sentence) =>
      sentence.includes("told apart"),
    );
    expect(pairs).toHaveLength(2);
    expect(pairs.join(" ")).toMatch(/heeling error of the compass and leeway/);
    expect(pairs.join(" ")).toMatch(/intercept and the boat speed gain/);
  });

  it("tell what replaces and what comes on top of what is keyed in", () => {
    const { answer, rows } = solved;
    expect(told(solved).answer.words.keyIn[0]).toContain("replaces");
    const unknown = told({ rows, answer: { ...answer, base: "unknown corrections" } });
    expect(unknown.answer.words.keyIn[0]).toContain("on top");
    expect(unknown.answer.words.couldNotTell.join(" ")).toContain("boat file");
  });

  it("say that the computer is assumed where no boat file tells of one, and that what was keyed in is unknown", () => {
    const { answer, rows } = solved;
    const one = { rows, answer: { ...answer, base: "unknown corrections" as const } };
    const assumed = told(one);
    const boat = { ...UNKNOWN_BOAT, computerIs: "given" as const };
    const tables = correctionTables(fitFixture(), answer.base, answer.active, boat, rows);
    const given = { answer: { ...answer, words: plainWords(answer, boat, tables) }, tables };
    for (const [{ answer: said, tables: laid }, isAssumed] of [
      [assumed, true],
      [given, false],
    ] as const) {
      const page = htmlReport({ answer: said, tables: laid, rows, boatName: UNKNOWN_BOAT.name }, "");
      for (const text of [printedSummary(said, laid).replace(/\s+/g, " "), page]) {
        expect(text.includes("No boat file tells what computer is on board")).toBe(isAssumed);
        expect(text.includes("as the boat file says")).toBe(!isAssumed);
        expect(text.includes("What was keyed in while this was recorded is not known")).toBe(isAssumed);
      }
      expect(page).not.toContain(UNKNOWN_BOAT.name);
    }
  });

  it("key in nothing that is no more than its doubt, and say the doubt of what is hardly more", () => {
    const { answer, rows } = solved;
    const fit = fitFixture();
    const at = fit.parameters.findIndex(({ name }) => name === "vane.mastheadOffset");
    const offsetOf = (share: number) => {
      const covariance = Float64Array.from(fit.covariance);
      const sd = fit.parameters[at]!.value / (share * 1.96);
      const place = at * (fit.parameters.length + 1);
      // until the interval, in which the prior is in doubt too (M184), is as wide as asked
      for (let round = 0; round < 40; round++) {
        const errors = errorCovariance({ parameters: fit.parameters, covariance });
        covariance[place]! *= sd ** 2 / errors[place]!;
      }
      const parameters = fit.parameters.map((each, index) => (index === at ? { ...each, sd } : each));
      const sail = told({ rows, answer: { ...answer, fit: { ...fit, covariance, parameters } } });
      const words = sail.answer.words.keyIn.find((sentence) => sentence.includes("masthead offset")) ?? "";
      const [, record = ""] = /^setting,(masthead offset,.*)$/m.exec(tablesCsv(sail.tables!)) ?? [];
      const printed = printedSummary(sail.answer, sail.tables);
      const [row = ""] = /masthead offset .*/.exec(printed) ?? [];
      return { words, record, row };
    };
    const within = offsetOf(0.97);
    expect(within.words).toBe("");
    expect(within.record).toMatch(/leave alone$/m);
    expect(within.row).toContain("leave as it is");
    const hardly = offsetOf(1.03);
    expect(hardly.words).toContain("hardly more than its own doubt");
    expect(hardly.words).toContain("wind shear");
    expect(hardly.record).toMatch(/key in with doubt$/m);
    expect(hardly.row).toContain("key in, with doubt");
    const sure = offsetOf(3);
    expect(sure.words).not.toContain("hardly");
    // under sail alone, on one day, shear may be in it however narrow the interval
    expect(sure.words).toContain("wind shear");
  });

  it("key in the boat speed of both tacks, or of none", () => {
    const { settings } = told(solved).tables!;
    const gains = settings.filter(({ name }) => name.startsWith("boat speed gain"));
    expect(new Set(gains.map(({ advice }) => advice)).size).toBe(1);
    for (const { doubts, advice } of settings) if (advice !== "key in") expect(doubts).toEqual([]);
  });

  it("give an amount to add to a reading in every sentence that keys in a setting", () => {
    const sentences = told(solved).answer.words.keyIn.filter((sentence) => /^(Add|Set) /.test(sentence));
    expect(sentences.length).toBeGreaterThan(3);
    for (const sentence of sentences)
      expect(sentence).toMatch(
        /^Add [+−][\d.]+(°| kn| %) \(± [^)]*\) to the .* reading|^Set the leeway coefficient to/,
      );
  });

  it("leave alone what stands in the instruments already", () => {
    const { answer, rows } = solved;
    const settled = told({ rows, answer: { ...answer, active: fitFixture().settings } });
    const single = settled.tables!.settings.filter(({ advice }) => advice === "key in");
    expect(single).toEqual([]);
    const before = told({ rows, answer: { ...answer, active: noCorrections } });
    expect(before.tables!.settings.some(({ advice }) => advice === "key in")).toBe(true);
  });
});
