/**
 * The page "Between regattas" without a page: its notebook run in Node, its album filled and emptied.
 *
 * INPUTS: the calibrations of an invented season; invented calibrations that cannot be compared; what the command line prints.
 * MARGIN: none; the words are the same.
 */
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import type { Calibration } from "../../packages/core/src/calibration/calibration.ts";
import { calibrationFileText } from "../../packages/core/src/calibration/calibrationFile.ts";
import { printedComparison } from "../../packages/core/src/report/compareText.ts";
import { printedPlan } from "../../packages/core/src/report/planText.ts";
import { PARAMETER_NAMES } from "../../packages/core/src/sensors/parameterNames.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import notebook from "../../packages/notebooks/notebooks/between-regattas.md";
import { Album, namesOf } from "../../packages/notebooks/src/between/album.ts";
import type { BetweenRegattas } from "../../packages/notebooks/src/between/betweenRegattas.ts";
import { inThisThread } from "../../packages/notebooks/src/between/bureau.ts";
import { historyStrips } from "../../packages/notebooks/src/between/historyStrips.ts";
import { keptFilesOn } from "../../packages/notebooks/src/between/keptFiles.ts";
import { EMPTY_FORM, wishOf } from "../../packages/notebooks/src/between/planWish.ts";
import type { Shelf } from "../../packages/notebooks/src/boat/choices.ts";
import { runNotebook } from "../../packages/notebooks/src/run/runNotebook.ts";
import { calibrationFixture } from "../support/calibrationFixture.ts";
import { commandLineProcess } from "../support/commandLine.ts";
import { drawBoat, drawInformation, gaussianFit } from "../support/gaussianFits.ts";
import { outcomes } from "../support/notebook.ts";

const season = fileURLToPath(new URL("../../datasets/demo/season/", import.meta.url));
const MONTHS = ["june.json", "july.json", "september.json"];

const fileOf = (name: string, text: string): File => new File([text], name);

let album: Album;
const isBetween = (value: unknown): value is BetweenRegattas =>
  typeof value === "object" && value !== null && "album" in value;

beforeAll(async () => {
  const run = await runNotebook(notebook);
  expect(outcomes(run)).toEqual(["done"]);
  const { between } = run.names();
  if (!isBetween(between)) throw new TypeError("the notebook must name its page `between`");
  album = between.album;
  const files = await between.examples();
  expect(files.map(({ name }) => name).toSorted()).toEqual(MONTHS.toSorted());
  await album.add(files);
});

describe("a season of three days", () => {
  it("stands in the order of the days, whatever order they were given in", () => {
    expect(album.state.given.map(({ name }) => name)).toEqual(MONTHS);
  });

  it("says what the command line prints, word for word", async () => {
    const { history, given } = album.state;
    if (history?.status !== "compared") throw new Error("the season must be compared");
    const { out, status } = await commandLineProcess(season, "compare", ...MONTHS);
    expect(printedComparison(history.pairs, namesOf(given))).toBe(out);
    expect(status).toBe(3);
  });

  it("finds the knock of 4° to the masthead unit, after the second day, and nothing else", () => {
    const { history } = album.state;
    if (history?.status !== "compared") throw new Error("the season must be compared");
    const moved = history.pairs.map(({ comparison }) => comparison.moved);
    expect(moved.map((moves) => moves.map(({ name }) => name))).toEqual([
      [],
      ["vane.mastheadOffset"],
      ["vane.mastheadOffset"],
    ]);
    for (const [move] of moved.slice(1)) {
      const truth = (4 * Math.PI) / 180;
      expect(Math.abs(move!.value - truth)).toBeLessThan(1.96 * move!.sd);
    }
  });

  it("draws what moved first, with a mark in words; an unmoved setting has none", () => {
    const { history, given } = album.state;
    if (history?.status !== "compared") throw new Error("the season must be compared");
    const { markup } = historyStrips(
      given.map(({ calibration }) => calibration),
      history.pairs,
    );
    const labels = [...markup.matchAll(/aria-label="([^"]*)"/g)].map(([, label = ""]) => label);
    expect(labels[0]).toMatch(
      /^Masthead offset: 2026-06-13 \+2\.1° ± 1\.2°; .*2026-09-05 \+6\.3° ± .*, moved$/,
    );
    expect(labels.slice(1).some((label) => label.includes("moved"))).toBe(false);
    expect(labels.length).toBeGreaterThan(8);
    expect(labels.length).toBeLessThan(PARAMETER_NAMES.length);
  });

  it("plans the next sail in the words of the command line", async () => {
    const found = wishOf({ ...EMPTY_FORM, minutes: "30", windSpeed: "9", windDirection: "250" });
    if (!("wish" in found)) throw new Error("the wish must be good");
    await album.plan(2, found.wish);
    const text = album.state.planned?.text;
    if (text === undefined) throw new Error("something must be worth sailing");
    const asked = ["--minutes", "30", "--wind", "9", "--wind-direction", "250"];
    const { out } = await commandLineProcess(season, "plan", "september.json", ...asked);
    expect(printedPlan(text)).toBe(out);
  });
});

describe("what the form asks for", () => {
  it.each([
    ["minutes", ""],
    ["minutes", "7"],
    ["windSpeed", "40"],
    ["windDirection", "north"],
  ] as const)("%s of %o is refused at its field", (field, text) => {
    expect(wishOf({ ...EMPTY_FORM, [field]: text })).toMatchObject({ trouble: { field } });
  });

  it("takes a comma, and leaves out what is empty", () => {
    expect(wishOf({ ...EMPTY_FORM, minutes: "12,5", underPower: false })).toEqual({
      wish: { seconds: 750, underPower: false },
    });
  });
});

describe("calibrations that cannot be taken, or not together", () => {
  const random = randomNumbers(11, 0);
  const boat = drawBoat(random);
  const made = (day: number, change: Partial<Calibration> = {}): File => {
    const calibration = {
      ...calibrationFixture(gaussianFit(boat, drawInformation(random), random), day),
      ...change,
    };
    return fileOf("calibration.json", calibrationFileText(calibration));
  };
  const shelf = (): Shelf & { readonly kept: Map<string, string> } => {
    const kept = new Map<string, string>();
    return {
      kept,
      getItem: (key) => kept.get(key) ?? null,
      setItem: (key, value) => void kept.set(key, value),
      removeItem: (key) => void kept.delete(key),
    };
  };

  it("prose is refused by its name, the same file is not taken twice, and what is there stays", async () => {
    const own = new Album(inThisThread);
    const one = made(0);
    await own.add([one, fileOf("<b>.json", "no json")]);
    expect(own.state.given).toHaveLength(1);
    expect(own.state.refused).toEqual([expect.stringMatching(/^<b>\.json: /)]);
    await own.add([one]);
    expect(own.state.refused).toEqual(["calibration.json: is here already"]);
    expect(own.state.history).toBeUndefined();
  });

  it("files of one name are told apart by their days", async () => {
    const own = new Album(inThisThread);
    await own.add([made(5), made(0)]);
    const { given } = own.state;
    expect(given.map(({ calibration }) => namesOf(given)(calibration))).toEqual([
      "calibration.json of 2031-06-14",
      "calibration.json of 2031-06-19",
    ]);
  });

  it("two boats are refused in words; unknown corrections until it is said that nothing was keyed in", async () => {
    const own = new Album(inThisThread);
    const quince = calibrationFixture(gaussianFit(boat, drawInformation(random), random), 0);
    await own.add([made(0), made(9, { boat: { ...quince.boat, name: "Medlar" } })]);
    expect(own.state.history).toMatchObject({
      status: "refused",
      reason: "the calibrations are of two boats, Quince and Medlar",
    });
    await own.remove(1);
    const settings = { ...quince.settings, base: "unknown corrections" } as const;
    const unknown = { settings, boat: { ...quince.boat, settings } };
    await own.clear();
    await own.add([made(0, unknown), made(9, unknown)]);
    expect(own.state.history).toMatchObject({ status: "refused" });
    await own.setNothingKeyedIn(true);
    expect(own.state.history).toMatchObject({ status: "compared" });
  });

  it("stay on the shelf for the next visit, until they are cleared; a full shelf is said", async () => {
    const here = shelf();
    const own = new Album(
      inThisThread,
      keptFilesOn(() => here),
    );
    await own.add([made(0), made(3)]);
    const again = new Album(
      inThisThread,
      keptFilesOn(() => here),
    );
    expect(again.state.given.map(({ text }) => text)).toEqual(own.state.given.map(({ text }) => text));
    await again.begin();
    expect(again.state.history?.status).toBe("compared");
    await again.clear();
    expect(here.kept.size).toBe(0);
    const full = {
      ...here,
      setItem: () => {
        throw new Error("full");
      },
    };
    const crowded = new Album(
      inThisThread,
      keptFilesOn(() => full),
    );
    await crowded.add([made(0)]);
    expect(crowded.state).toMatchObject({ isKept: false, given: [{}] });
  });
});
