/**
 * The lesson "how sure", run in Node.
 * INPUTS: the page's hundreds of afternoons and its runs of a log, whose truths are known. What is expected is worked out here by
 * hand from textbook formulas; MARGIN: as each says.
 */
import { beforeAll, describe, expect, it } from "vitest";
import lesson from "../../packages/notebooks/notebooks/how-sure.md";
import {
  ellipseOf,
  errorSd,
  groupsOf,
  LOG_TRUTH,
  logKnown,
  offsetSd,
  rememberingSd,
  together,
} from "../../packages/notebooks/notebooks/sureness.ts";
import { type HeadlessRun, runNotebook } from "../../packages/notebooks/src/run/runNotebook.ts";
import { numberIn, outcomes } from "../support/notebook.ts";
import { agrees } from "../support/published.ts";

const ROUNDING = "rounding of some operations";

let run: HeadlessRun;
beforeAll(async () => {
  run = await runNotebook(lesson);
});

it("all cells run, and with them every claim of the text", () => {
  expect(new Set(outcomes(run))).toEqual(new Set(["done"]));
});

describe("intervals", () => {
  it("reach 1.96 σ / √n, and miss in five of a hundred afternoons, as chance has it", async () => {
    agrees(numberIn(run, "half"), (1.96 * 5) / 4, 1e-12, ROUNDING);
    const hundreds = await Promise.all([1, 2, 3, 4, 5, 6].map((draw) => runNotebook(lesson, { draw })));
    const missed = hundreds.reduce((sum, one) => sum + numberIn(one, "missed"), 0);
    agrees(missed / 600, 0.05, 0.027, "three standard deviations of a share of 600");
  });

  it("of minutes that hang together are as wide as the sum over all pairs has it", () => {
    // three minutes that share half from one to the next: (3 + 2·2·½ + 2·1·¼) / 9 of a variance of 4
    agrees(rememberingSd(3, 2, 1 / Math.log(2)), 2 * Math.sqrt(5.5 / 9), 1e-12, ROUNDING);
  });

  it("that take minutes for samples miss far more often than the honest ones", () => {
    expect(numberIn(run, "naiveMissed")).toBeGreaterThan(40);
    expect(numberIn(run, "honestMissed")).toBeLessThan(15);
    agrees(
      numberIn(run, "worth"),
      120 / ((1 + Math.exp(-1 / 6)) / (1 - Math.exp(-1 / 6))),
      0.6,
      "the ends of the two hours",
    );
  });
});

describe("before and after", () => {
  it("two pieces of knowledge weigh by the inverse of their variances", async () => {
    const both = together({ mean: 0, sd: 3 }, { mean: -4, sd: 1.5 });
    agrees(both.mean, -3.2, 1e-12, ROUNDING);
    agrees(both.sd, Math.sqrt(1.8), 1e-12, ROUNDING);
    agrees(numberIn(run, "informed"), 0.8, 1e-12, ROUNDING);
    agrees(numberIn(await runNotebook(lesson, { dataSd: 8 }), "informed"), 9 / 73, 1e-12, ROUNDING);
  });
});

describe("a log's two numbers", () => {
  const at = (one: number, other: number, pairs = 4) =>
    logKnown([one, other].map((speed) => ({ speed, pairs, sd: 0.1 })));

  it("at one speed only their sum is known, however many the runs", () => {
    const [few, many] = [at(6, 6), at(6, 6, 4000)];
    expect(errorSd(many, 6)).toBeLessThan(0.04 * errorSd(few, 6));
    // what the runs cannot tell: moving along 0.06 kn for each percent; the priors, 0.2 kn and 6 %, hold it alone
    agrees(many.gain.sd, 1 / Math.sqrt(0.06 ** 2 / 0.2 ** 2 + 1 / 36), 0.01, "runs that are not quite exact");
    expect(groupsOf(few)[0]?.members.map(({ name }) => name)).toEqual(["speed.intercept", "speed.gain"]);
    // m/s for the whole of a gain
    agrees(
      groupsOf(many)[0]!.members[1]!.weight,
      (0.06 * 0.514444) / 0.01,
      0.02,
      "runs that are not quite exact",
    );
  });

  it("at two speeds each is known, and nothing is confounded", () => {
    const both = at(6, 3, 40);
    expect(groupsOf(both)).toEqual([]);
    agrees(both.gain.mean, LOG_TRUTH.gain, 0.5, "what is usual still weighs a little");
    const around = ellipseOf(both);
    agrees(
      Math.max(...around.map(({ gain }) => gain)) - both.gain.mean,
      2.4477 * both.gain.sd,
      0.01,
      "73 points",
    );
  });
});

it("on one day the masthead offset is never known better than the day's shear lets it", () => {
  agrees(offsetSd(1e9, 1, 1, 1), 1, 1e-6, "a billion hours");
  agrees(offsetSd(4, 4, 1, 1), Math.SQRT1_2, 1e-12, ROUNDING);
});

it("the whole fit is sailed when the button is pressed, learns most of a tuned boat and says what it did not", async () => {
  await run.answer("fitMinutes", 40);
  await run.answer("outing", "tunes her instruments, first under power");
  await run.answer("pressed", 1);
  const { learnt, settings, held } = run.names() as { learnt: unknown[]; settings: unknown[]; held: number };
  expect(settings).toHaveLength(18);
  expect(learnt.length).toBeGreaterThan(9);
  expect(learnt.length).toBeLessThan(18);
  // of intervals that hold the truth 95 times in 100; boats that keep to no simple law know boat speed and leeway less well
  expect(held).toBeGreaterThanOrEqual(learnt.length - 4);
});
