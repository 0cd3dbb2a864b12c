/**
 * INPUTS: invented calibrations: normal fits of one boat by data of random information (tests/support/gaussianFits.ts).
 */
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import type { Calibration } from "../../packages/core/src/calibration/calibration.ts";
import { calibrationFileText } from "../../packages/core/src/calibration/calibrationFile.ts";
import { PARAMETER_NAMES } from "../../packages/core/src/fit/boatFit.ts";
import { BOAT_PRIORS } from "../../packages/core/src/fit/priors.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { radians } from "../../packages/core/src/units.ts";
import { calibrationFixture } from "../support/calibrationFixture.ts";
import { commandLine, type Outcome } from "../support/commandLine.ts";
import { drawBoat, drawInformation, gaussianFit } from "../support/gaussianFits.ts";

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "bothtacks-compare-"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const random = randomNumbers(20, 0);
const boat = drawBoat(random);
const sharp = drawInformation(random, 1.5);
const OFFSET = PARAMETER_NAMES.indexOf("vane.mastheadOffset");
const turned = boat.with(OFFSET, boat[OFFSET]! + radians(6) / BOAT_PRIORS["vane.mastheadOffset"].sd);

const then = calibrationFixture(gaussianFit(boat, sharp, random), 0);
const same = calibrationFixture(gaussianFit(boat, sharp, random), 20);
const moved = calibrationFixture(gaussianFit(turned, sharp, random), 40);
const vague = calibrationFixture(gaussianFit(boat, drawInformation(random, -2).mul(1e-3), random), 60);

/** Runs compare on calibrations in files a.json, b.json … */
async function compared(
  calibrations: readonly Calibration[],
  ...options: readonly string[]
): Promise<Outcome> {
  const paths = await Promise.all(
    calibrations.map(async (calibration, index) => {
      const path = join(folder, `${"abcd"[index]}.json`);
      await writeFile(path, calibrationFileText(calibration));
      return path;
    }),
  );
  const outcome = await commandLine("compare", ...paths, ...options);
  const short = (text: string) => text.replaceAll(`${folder}/`, "").replaceAll(/\s+/g, " ");
  return { ...outcome, out: short(outcome.out), err: short(outcome.err) };
}

const unknown = (calibration: Calibration): Calibration => {
  const settings = { ...calibration.settings, base: "unknown corrections" } as const;
  return { ...calibration, boat: { ...calibration.boat, settings }, settings };
};

describe("compare", () => {
  it("ends with status 0 where nothing moved, and says what would have shown", async () => {
    const { status, out, err } = await compared([then, same]);
    expect({ status, err }).toEqual({ status: 0, err: "" });
    expect(out).toContain(
      "From a.json (2031-06-14) to b.json (2031-07-04): nothing has moved, as far as these recordings tell.",
    );
    expect(out).toContain("would have shown in 80 of 100 cases");
    expect(out).not.toContain("What has moved");
  });

  it("ends with status 3 where something moved, and says what, which way and by how much", async () => {
    const { status, out, err } = await compared([then, moved]);
    expect({ status, err }).toEqual({ status: 3, err: "" });
    const words = /The masthead unit has turned ([\d.]+)° ± ([\d.]+)° to port/.exec(out);
    expect(words, out).not.toBeNull();
    const [size, interval] = [Number(words![1]), Number(words![2])];
    // 6° more in the unit's reading, less what the fits' own noise makes of it
    expect(Math.abs(size - 6)).toBeLessThan(1.5 * interval);
  });

  it("puts the recordings in the order of their days", async () => {
    const { out } = await compared([moved, then]);
    expect(out).toContain("From b.json (2031-06-14) to a.json (2031-07-24)");
    expect(out).toContain("to port");
  });

  it("goes through a history step by step, and from its first to its last", async () => {
    const { status, out } = await compared([moved, same, then]);
    expect(status).toBe(3);
    const steps = [...out.matchAll(/From (\w)\.json \(\S+\) to (\w)\.json/g)].map(
      ([, from, to]) => `${from}${to}`,
    );
    expect(steps).toEqual(["cb", "ba", "ca"]);
    expect(out).toContain("in all 3 comparisons together");
  });

  it("ends with status 1 where the recordings cannot tell, and says of what", async () => {
    const { status, out, err } = await compared([then, vague]);
    expect(status).toBe(1);
    expect(out).toContain("do not tell whether anything has moved");
    expect(out).toMatch(
      /The second recording does not tell .*the masthead offset.*, so that no change could show/,
    );
    expect(err).toContain("do not tell");
  });

  it("is called wrongly with one calibration", async () => {
    expect(await compared([then])).toMatchObject({ status: 2, out: "" });
  });
});

describe("compare refuses, in words", () => {
  it("two boats", async () => {
    const other = { ...same, boat: { ...same.boat, name: "Medlar" } };
    const { status, err } = await compared([then, other]);
    expect(status).toBe(1);
    expect(err).toBe("bothtacks: a.json, b.json: the calibrations are of two boats, Quince and Medlar ");
  });

  it("totals that do not count from the same start", async () => {
    const { status, err } = await compared([then, unknown(same)]);
    expect(status).toBe(1);
    expect(err).toContain("do not count from the same start");
  });

  it("unknown corrections, unless nothing was keyed in or one came after the other", async () => {
    const pair = [unknown(then), unknown(same)] as const;
    expect(await compared(pair)).toMatchObject({ status: 1, out: "" });
    expect((await compared(pair)).err).toContain("--nothing-keyed-in");
    expect((await compared(pair, "--nothing-keyed-in")).status).toBe(0);
    const settings = { ...pair[1].settings, active: pair[0].fit.settings };
    const after = { ...pair[1], boat: { ...pair[1].boat, settings }, settings };
    expect((await compared([pair[0], after])).status).toBe(0);
  });

  it("one recording twice", async () => {
    const { status, err } = await compared([then, { ...then, made: then.made + 10 }]);
    expect(status).toBe(1);
    expect(err).toContain("the same recording");
  });

  it("rigs for which leeway is not the same", async () => {
    const rig = { ...same.boat.rig, foils: true };
    const { status, err } = await compared([then, { ...same, boat: { ...same.boat, rig } }]);
    expect(status).toBe(1);
    expect(err).toContain("leeway");
  });
});

describe("compare notes", () => {
  it("other sails, other sources, a boat without a name", async () => {
    const chosen = same.recording.chosen.map((one) => ({
      ...one,
      source: { ...one.source, name: "II MWV" },
    }));
    const other = {
      ...same,
      boat: { ...same.boat, name: UNKNOWN_BOAT.name, sails: "storm jib" },
      recording: { ...same.recording, chosen },
    };
    const { out } = await compared([then, other]);
    expect(out).toContain("Other sails were set");
    expect(out).toContain(
      "The wind angle came from WI MWV in the first recording and from II MWV in the second",
    );
    expect(out).toContain("names no boat");
  });

  it("a heel sensor that was turned, which is a move", async () => {
    const { heel, ...settings } = same.fit.settings;
    const fit = { ...same.fit, settings: { ...settings, heel: { ...heel, sign: -1 as const } } };
    const { status, out } = await compared([then, { ...same, fit }]);
    expect(status).toBe(3);
    expect(out).toContain("The heel sensor reads the other way round");
  });

  it("headings from another north, and leaves the compass out", async () => {
    const chosen = same.recording.chosen.map((one) =>
      one.source.quantity === "headingMagnetic"
        ? { ...one, source: { quantity: "headingTrue" as const, name: "HC HDT" } }
        : one,
    );
    const { out } = await compared([then, { ...same, recording: { ...same.recording, chosen } }]);
    expect(out).toContain("the compass was not compared");
    expect(out).not.toContain("compass alignment");
  });
});
