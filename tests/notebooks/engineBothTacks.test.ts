/**
 * The lesson of both tacks, run in Node.
 * INPUTS: the page's own sliders; expected values worked out here by plain trigonometry in degrees and knots, apart from the
 * library. MARGIN: rounding, but where a reason is given.
 */
import { beforeAll, describe, expect, it } from "vitest";
import bothTacks from "../../packages/notebooks/notebooks/both-tacks.md";
import {
  type Faults,
  NO_FAULTS,
  SAILED,
  type ShownWind,
  shownAllRound,
} from "../../packages/notebooks/src/course/faults.ts";
import { boatOfNumber, FAULT_WORDS, scattered } from "../../packages/notebooks/src/course/unknownFault.ts";
import { type HeadlessRun, runNotebook } from "../../packages/notebooks/src/run/runNotebook.ts";
import { numberIn, outcomes } from "../support/notebook.ts";
import { agrees } from "../support/published.ts";

const ROUNDING = "rounding of some operations";
const rad = (angle: number): number => (angle * Math.PI) / 180;
const deg = (angle: number): number => (angle * 180) / Math.PI;
const FLAT = { ...NO_FAULTS };

const runWith = (faults: Partial<Faults>, more = {}): Promise<HeadlessRun> =>
  runNotebook(bothTacks, { from: 0, strength: 14, ...FLAT, ...faults, ...more });

const shownAt = (run: HeadlessRun, angle: number): ShownWind => {
  const found = (run.names().pattern as readonly ShownWind[]).find(({ sailed }) => sailed === angle);
  if (!found) throw new Error(`nothing was sailed at ${angle}°`);
  return found;
};

/** The invented boat's speed, kn, as the page's text has it: fastest abeam. */
const boatSpeed = (angle: number): number =>
  7.5 * (1 - Math.exp(-14 / 7)) * (0.75 + 0.25 * Math.sin(rad(angle)) ** 2);

/** Direction and speed of a wind of 14 kn, left when only a share of the boat's motion is taken away. */
const leftBy = (angle: number, share: number): [number, number] => {
  const ahead = 14 * Math.cos(rad(angle)) + (1 - share) * boatSpeed(angle);
  const across = 14 * Math.sin(rad(angle));
  return [deg(Math.atan2(across, ahead)), Math.hypot(ahead, across)];
};

let flat: HeadlessRun;
beforeAll(async () => {
  flat = await runWith({});
});

it("all cells run, and with them every claim of the text", () => {
  expect(new Set(outcomes(flat))).toEqual(new Set(["done"]));
});

it("a faultless boat shows the wind there is, on every angle", () => {
  for (const { turned, stronger } of flat.names().pattern as readonly ShownWind[]) {
    agrees(turned, 0, 1e-9, ROUNDING);
    agrees(stronger, 0, 1e-9, ROUNDING);
  }
  expect(SAILED).toHaveLength(60);
});

describe("each fault writes as trigonometry has it", () => {
  it("the log low by 8 %: what is left of the headwind", async () => {
    const run = await runWith({ logLow: 8 });
    for (const angle of [40, 90, 150]) {
      const [direction, speed] = leftBy(angle, 0.92);
      agrees(shownAt(run, angle).turned, direction - angle, 1e-9, ROUNDING);
      agrees(shownAt(run, -angle).turned, angle - direction, 1e-9, ROUNDING);
      agrees(shownAt(run, angle).stronger, speed - 14, 1e-9, ROUNDING);
    }
    const [direction] = leftBy(42, 0.92);
    agrees(numberIn(run, "jump"), 2 * (direction - 42), 1e-9, ROUNDING);
  });

  it("the anemometer high: the same direction as of a log low by 1 − 1/1.1, and a tenth more wind than that shows", async () => {
    const run = await runWith({ windHigh: 10 });
    for (const angle of [40, 90, 150]) {
      const [direction, speed] = leftBy(angle, 1 / 1.1);
      agrees(shownAt(run, angle).turned, direction - angle, 1e-9, ROUNDING);
      agrees(shownAt(run, angle).stronger, 1.1 * speed - 14, 1e-9, ROUNDING);
    }
  });

  it("compass and shear: the same turn all round; shear alone makes the angles unequal", async () => {
    const [compass, shear] = [await runWith({ compassHigh: 4 }), await runWith({ shear: 4 })];
    for (const angle of [-150, -40, 40, 150]) {
      agrees(shownAt(compass, angle).turned, 4, 1e-9, ROUNDING);
      agrees(shownAt(shear, angle).turned, 4, 1e-9, ROUNDING);
      agrees(shownAt(compass, angle).angle, angle, 1e-9, ROUNDING);
      agrees(shownAt(shear, angle).angle, angle + 4, 1e-9, ROUNDING);
    }
  });

  it("deviation: by the heading the compass shows, c + b sin c", async () => {
    const run = await runWith({ deviation: 5 }, { from: 70 });
    for (const angle of [-90, -40, 40, 90]) {
      const shown = 70 - angle + shownAt(run, angle).turned;
      // the compass shows c, and heading = c − 5° sin c
      agrees(shown - 5 * Math.sin(rad(shown)), 70 - angle, 1e-9, ROUNDING);
    }
  });

  it("leeway of 5° left out close-hauled: the motion is taken along the bow, not along the track", async () => {
    const run = await runWith({ leeway: 5 });
    const { turned } = run.names().onStarboard as ShownWind;
    // she moves at 5° to leeway, to port on starboard tack, at speed/cos 5°; the computer takes away speed, along the bow
    const athwart = -boatSpeed(42) * Math.tan(rad(5));
    const made = deg(Math.atan2(14 * Math.sin(rad(42)) + athwart, 14 * Math.cos(rad(42))));
    agrees(turned, made - 42, 1e-9, ROUNDING);
  });

  it("the vane off by 3°, dead downwind, where she heels little: the felt wind turned", async () => {
    const run = await runWith({ mastheadOffset: 3 });
    const felt = 14 - boatSpeed(180);
    const made = deg(Math.atan2(-felt * Math.sin(rad(3)), -felt * Math.cos(rad(3)) - boatSpeed(180)));
    agrees(shownAt(run, 180).turned, made + 180, 1e-9, ROUNDING);
  });
});

describe("the boats of the game", () => {
  const boats = Array.from({ length: 400 }, (_, number) => boatOfNumber(number));

  it("are the same for everyone, one fault each, all faults among them in both senses where both occur", () => {
    expect(boatOfNumber(17)).toEqual(boatOfNumber(17));
    expect(new Set(boats.map(({ name }) => name)).size).toBe(FAULT_WORDS.length);
    for (const { name, faults } of boats)
      expect(
        Object.entries(faults)
          .filter(([, size]) => size !== 0)
          .map(([one]) => one),
      ).toEqual([name]);
    const senses = new Set(boats.map(({ name, faults }) => `${name} ${Math.sign(faults[name])}`));
    expect(senses.size).toBe(2 * FAULT_WORDS.length - 2);
    expect(() => boatOfNumber(1.5)).toThrow(RangeError);
  });

  it("can be told from each other by what the page shows: direction, speed, angles, log and GPS, on two days", () => {
    const days = [
      { direction: 20, speed: 14 },
      { direction: 110, speed: 14 },
    ];
    const shown = (faults: Faults): readonly number[] =>
      days.flatMap((day) => {
        const all = shownAllRound(day, faults);
        return all.flatMap(({ turned, stronger, angle, sailed, log, ground }) => [
          turned,
          3 * stronger,
          angle - sailed,
          3 * (log - ground),
        ]);
      });
    const seen = boats.slice(0, 60).map(({ name, faults }) => ({ name, values: shown(faults) }));
    for (const one of seen)
      for (const other of seen) {
        if (one.name === other.name) continue;
        const difference = Math.max(
          ...one.values.map((value, index) => Math.abs(value - (other.values[index] ?? 0))),
        );
        // the page's marks scatter by 0.35° and 0.12 kn: three times that stands out
        expect(difference, `${one.name} and ${other.name}`).toBeGreaterThan(1.05);
      }
  });

  it("tell their amount to better than the page asks: the slider's step that fits the marks best", () => {
    const day = { direction: 20, speed: 14 };
    for (const number of [1, 2, 3, 4, 5, 6, 8, 9, 10, 11, 12, 14]) {
      const { name, faults } = boatOfNumber(number);
      const marks = scattered(shownAllRound(day, faults), number);
      const isPercent = name === "logLow" || name === "windHigh";
      const steps = Array.from({ length: isPercent ? 31 : 33 }, (_, at) =>
        isPercent ? at - 15 : at / 2 - 8,
      );
      const missed = steps.map((step) => {
        const pattern = shownAllRound(day, { ...NO_FAULTS, [name]: step });
        return pattern.reduce(
          (sum, { turned, stronger }, at) =>
            sum + (turned - marks[at]!.turned) ** 2 + 9 * (stronger - marks[at]!.stronger) ** 2,
          0,
        );
      });
      const best = steps[missed.indexOf(Math.min(...missed))]!;
      agrees(best, faults[name], isPercent || name === "leeway" ? 1.5 : 1, "what the exercise asks for");
    }
  });

  it("are asked for, and the page knows the answer", async () => {
    const run = await runNotebook(bothTacks, { boatNumber: 17 });
    const answers = run
      .cells()
      .flatMap(({ shown }) => shown)
      .flatMap((one) =>
        typeof one === "object" && "asked" in one ? [(one.asked as { answer: unknown }).answer] : [],
      );
    const { name, faults } = boatOfNumber(17);
    const amount = expect.closeTo(Math.abs(faults[name]), 9);
    expect(answers).toEqual([expect.any(String), amount, expect.closeTo(10, 9), "the anemometer", 4]);
    expect(FAULT_WORDS).toContain(answers[0]);
  });
});
