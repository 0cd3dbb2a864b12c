/**
 * INPUTS: normal fits of boats drawn from the priors, data of random information, the days' doubts drawn too (seeds below).
 * MARGIN: shares are held against the stated level by the exact binomial sum; a test that is right fails in one of a thousand draws, and
 * the draws are fixed.
 */
import { Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { PARAMETER_NAMES, type ParameterName } from "../../packages/core/src/fit/boatFit.ts";
import { BOAT_PRIORS } from "../../packages/core/src/fit/priors.ts";
import { chiSquareTail } from "../../packages/core/src/judge/chiSquare.ts";
import { compareFits, FALSE_ALARM_LEVEL, hasMoved, POWER } from "../../packages/core/src/judge/compare.ts";
import { dataInformation } from "../../packages/core/src/judge/dataInformation.ts";
import { DAY_DOUBTS } from "../../packages/core/src/judge/dayDoubts.ts";
import { differenceEvidence, freeMoves } from "../../packages/core/src/judge/difference.ts";
import { type RandomNumbers, randomNumbers } from "../../packages/core/src/simulate/random.ts";
import {
  binomialAtMost,
  drawBoat,
  drawInformation,
  gaussianFit,
  onSomeDay,
  SIZE,
} from "../support/gaussianFits.ts";

const scales = PARAMETER_NAMES.map((name) => BOAT_PRIORS[name].sd);
const origin = PARAMETER_NAMES.map((name) => BOAT_PRIORS[name].mean);
const doubts = PARAMETER_NAMES.map((name, index) => DAY_DOUBTS[name] / scales[index]!);

/** Two days of one boat; what is given moves in between, in prior standard deviations. */
function twoDays(random: RandomNumbers, moved: Readonly<Record<number, number>> = {}, least = -2) {
  const boat = drawBoat(random);
  const information = [drawInformation(random, least), drawInformation(random, least)] as const;
  const now = boat.map((value, index) => value + (moved[index] ?? 0));
  const fit = (who: readonly number[], day: 0 | 1) =>
    gaussianFit(onSomeDay(who, doubts, random), information[day], random);
  return [fit(boat, 0), fit(now, 1)] as const;
}

describe("the tail of χ² (M80)", () => {
  it("is e^(−x/2) with two degrees of freedom, all of it above 0, and nothing to exceed with none", () => {
    for (const x of [0.1, 1, 5, 20]) expect(chiSquareTail(x, 2)).toBeCloseTo(Math.exp(-x / 2), 12);
    for (const freedom of [1, 2, 7, 8]) expect(chiSquareTail(0, freedom)).toBeCloseTo(1, 6);
    expect(chiSquareTail(0, 0)).toBe(1);
    expect(chiSquareTail(Number.NaN, 3)).toBeNaN();
  });
});

describe("what the data of a fit said (M63)", () => {
  it("is the fit with its prior taken away again", () => {
    const random = randomNumbers(1, 0);
    const information = drawInformation(random);
    const found = dataInformation(gaussianFit(drawBoat(random), information, random), origin, scales);
    // a matrix with entries up to 400 was inverted twice, in doubles
    expect(Matrix.sub(found.information, information).norm()).toBeLessThan(1e-8);
  });

  it("is nothing for a parameter that was held, wherever it was held", () => {
    const random = randomNumbers(2, 0);
    const fit = gaussianFit(drawBoat(random), Matrix.eye(SIZE, SIZE, 1e-300), random);
    const parameters = fit.parameters.map((one) => ({ ...one, value: one.priorMean + 7 * one.priorSd }));
    const covariance = Float64Array.from(
      Matrix.diag(parameters.map(({ priorSd }) => priorSd ** 2)).to1DArray(),
    );
    const { information, score } = dataInformation({ ...fit, parameters, covariance }, origin, scales);
    expect(information.norm()).toBeLessThan(1e-12);
    expect(score.norm()).toBe(0);
  });
});

describe("what two fits say of their difference (M64)", () => {
  const random = randomNumbers(3, 0);
  const full = (): Matrix => drawInformation(random).add(Matrix.eye(SIZE, SIZE, 1e4));
  const [one, other] = [full(), full()];
  const [first, second] = [one, other].map((information) =>
    dataInformation(gaussianFit(drawBoat(random), information, random), origin, scales),
  );

  it("is the plain difference with the sum of both covariances where both tell all", () => {
    const { moves, sds } = freeMoves(differenceEvidence(first!, second!));
    const at = (data: typeof first) => solved(data!.information, data!.score);
    const [then, now] = [at(first), at(second)];
    moves.forEach((move, index) => {
      // both priors, of the middle and of the moves, weigh 10⁻⁴ of the data
      expect(move).toBeCloseTo(now[index]! - then[index]!, 3);
      expect(sds[index]).toBeLessThan(0.016);
    });
  });

  it("turns its sign with the order", () => {
    const [forth, back] = [differenceEvidence(first!, second!), differenceEvidence(second!, first!)];
    expect(Matrix.sub(forth.precision, back.precision).norm()).toBeLessThan(1e-6);
    expect(Matrix.add(forth.score, back.score).norm()).toBeLessThan(1e-6);
  });
});

/** Solves a symmetric system by conjugate gradients: another way than the library's. */
function solved(matrix: Matrix, right: Matrix): readonly number[] {
  let x = Matrix.zeros(right.rows, 1);
  let residual = right.clone();
  let direction = residual.clone();
  for (let step = 0; step < 10 * right.rows; step++) {
    const before = residual.norm() ** 2;
    if (before < 1e-20) break;
    const image = matrix.mmul(direction);
    const length = before / direction.transpose().mmul(image).get(0, 0);
    x = Matrix.add(x, Matrix.mul(direction, length));
    residual = Matrix.sub(residual, Matrix.mul(image, length));
    direction = Matrix.add(residual, Matrix.mul(direction, residual.norm() ** 2 / before));
  }
  return x.to1DArray();
}

describe("comparing fits (M64, M80, M81)", () => {
  const PAIRS = 120;

  it(`says that something moved of ${100 * FALSE_ALARM_LEVEL} % of unmoved boats at most, and not of none at all`, () => {
    const alarms = Array.from({ length: PAIRS }, (_, seed) =>
      hasMoved(compareFits(...twoDays(randomNumbers(seed, 10)))),
    ).filter(Boolean).length;
    // more than that in one of a thousand; fewer in one of a thousand, were the level spent on half of what it is stated
    expect(binomialAtMost(alarms - 1, PAIRS, FALSE_ALARM_LEVEL)).toBeLessThan(0.999);
    expect(binomialAtMost(alarms, PAIRS, FALSE_ALARM_LEVEL / 3)).toBeGreaterThan(0.001);
  });

  it("holds the truth in the intervals of all moves, with everything free to move", () => {
    const ratios = Array.from({ length: 50 }, (_, seed) => {
      const moved = Object.fromEntries(PARAMETER_NAMES.map((_, index) => [index, ((seed + index) % 5) - 2]));
      const { free } = compareFits(...twoDays(randomNumbers(seed, 11), moved, 0));
      return free.map(({ name, value, sd }) => {
        const index = PARAMETER_NAMES.indexOf(name);
        return (value - moved[index]! * scales[index]!) / sd;
      });
    }).flat();
    const inside = ratios.filter((ratio) => Math.abs(ratio) <= 1.96).length / ratios.length;
    // intervals that hold what is far from the prior as surely as what is near
    expect(inside).toBeGreaterThan(0.93);
    expect(inside).toBeLessThan(0.97);
  });

  it(`finds a move that would show in ${100 * POWER} of 100 cases that often, and nearly always one twice as large`, () => {
    const found = [1, 2].map((times) => {
      const outcomes = Array.from({ length: PAIRS }, (_, seed) => {
        const told = compareFits(...twoDays(randomNumbers(seed, 12), {}, 0)).smallest;
        const { name, move } = told[seed % told.length]!;
        const index = PARAMETER_NAMES.indexOf(name);
        const by = (times * move) / scales[index]!;
        return hasMoved(compareFits(...twoDays(randomNumbers(seed, 12), { [index]: by }, 0)));
      });
      return outcomes.filter(Boolean).length;
    });
    expect(binomialAtMost(found[0]!, PAIRS, POWER)).toBeGreaterThan(0.001);
    expect(found[1]).toBeGreaterThan(0.97 * PAIRS);
  });

  it("does not take the prior that both share for evidence that nothing moved", () => {
    const random = randomNumbers(5, 13);
    const weak = drawInformation(random)
      .mul(0)
      .add(Matrix.eye(SIZE, SIZE, 2));
    const at = PARAMETER_NAMES.indexOf("vane.mastheadOffset");
    const boat = Array<number>(SIZE).fill(0);
    const moved = boat.with(at, 20);
    const { free } = compareFits(gaussianFit(boat, weak, random), gaussianFit(moved, weak, random));
    const move = free.find(({ name }) => name === "vane.mastheadOffset")!;
    // the prior pulls each fit's own value a third of the way to its mean
    expect(Math.abs(move.value / scales[at]! - 20)).toBeLessThan(3 * (move.sd / scales[at]!));
  });

  it("counts from nothing but totals: another base shifts nothing, a parameter skipped says nothing", () => {
    const days = twoDays(randomNumbers(6, 14), { 0: 3 });
    const skipped = compareFits(...days, { skipped: ["speed.intercept"] });
    expect([...skipped.free, ...skipped.moved].map(({ name }) => name)).not.toContain("speed.intercept");
    expect(skipped.untold.map(({ name }) => name)).not.toContain("speed.intercept");
  });

  it("says which of the two does not tell a parameter, and which moves hang together", () => {
    const random = randomNumbers(9, 17);
    const boat = drawBoat(random);
    const at = (name: ParameterName) => PARAMETER_NAMES.indexOf(name);
    const all = Matrix.eye(SIZE, SIZE, 400);
    const blind = Matrix.eye(SIZE, SIZE, 400).set(at("heel.zero"), at("heel.zero"), 1e-6);
    const { untold } = compareFits(gaussianFit(boat, all, random), gaussianFit(boat, blind, random));
    expect(untold).toContainEqual({ name: "heel.zero", by: "the second" });
    const row = Matrix.zeros(1, SIZE).set(0, at("vane.upwash"), 1).set(0, at("leeway.coefficient"), 1);
    const bare = Matrix.eye(SIZE, SIZE, 400);
    for (const name of ["vane.upwash", "leeway.coefficient"] as const) bare.set(at(name), at(name), 1e-6);
    const sum = Matrix.add(bare, row.transpose().mmul(row).mul(400));
    const { confounded } = compareFits(gaussianFit(boat, sum, random), gaussianFit(boat, sum, random));
    expect(confounded.map(({ members }) => members.map(({ name }) => name))).toEqual([
      ["leeway.coefficient", "vane.upwash"],
    ]);
  });

  it("is stricter with each of several comparisons", () => {
    const days = twoDays(randomNumbers(7, 15));
    const [alone, among] = [compareFits(...days), compareFits(...days, { among: 5 })];
    alone.smallest.forEach(({ move }, index) => {
      expect(among.smallest[index]!.move).toBeGreaterThan(move);
    });
  });

  it("refuses fits of other parameters, and no comparison", () => {
    const [first, second] = twoDays(randomNumbers(8, 16));
    expect(() => compareFits(first, { ...second, parameters: second.parameters.toReversed() })).toThrow(
      /compareFits: both fits must have the same parameters/,
    );
    expect(() => compareFits(first, second, { among: 0 })).toThrow(/among must be at least 1, got 0/);
  });
});
