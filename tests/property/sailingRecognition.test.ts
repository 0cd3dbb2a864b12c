/**
 * How much of twenty random scripted sails is recognised, sensors' faults included: laps of beats and runs with legs of
 * 1 to 5 minutes, every second sail with half an hour or so under power first (M37, M38).
 * MARGIN: 95 in 100 turns is what was asked of the detector; that nothing is taken for what it is not is asked without one.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { wrapAngle } from "../../packages/core/src/angles.ts";
import type { LegRow, Turn } from "../../packages/core/src/sailing/legRow.ts";
import { byChannel, type Channel, type SecondsBlock } from "../../packages/core/src/sailing/series.ts";
import { summariseSailing } from "../../packages/core/src/sailing/summary.ts";
import { radians } from "../../packages/core/src/units.ts";
import { type Script, type ScriptedSail, type Step, scriptedSail } from "../support/scriptedSail.ts";

const SEEDS = Array.from({ length: 20 }, (_, index) => index + 1);

/** Numbers evenly between 0 and 1 (Park and Miller 1988). */
function evenNumbers(seed: number): () => number {
  let state = seed * 7919;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

function underPower(from: number, random: () => number): Step[] {
  const engine = 5 + 2 * random();
  return [
    { heading: from, hold: 180, engine },
    { heading: from, circles: 2, rate: 2 + 3 * random(), hold: 20, engine },
    { heading: from, circles: -2, rate: 2 + 3 * random(), hold: 30, engine },
    { heading: from + 180, hold: 150, engine },
    { heading: from + 90, hold: 120, engine },
    { heading: from + 10, hold: 60, engine },
  ];
}

function laps(from: number, random: () => number): Step[] {
  const [beat, run] = [36 + 10 * random(), 140 + 20 * random()];
  const lap = (first: 1 | -1): Step[] => [
    ...[1, -1, 1, -1, 1].map((side) => ({
      heading: from + first * side * beat,
      hold: 60 + Math.floor(240 * random()),
      rate: 2.5 + 8 * random(),
    })),
    ...[1, -1, 1, -1].map((side) => ({
      heading: from + first * side * run,
      hold: 80 + Math.floor(240 * random()),
      rate: 2 + 8 * random(),
    })),
    { heading: from + first * -(70 + 30 * random()), hold: 150, rate: 4 },
  ];
  return [...lap(1), ...lap(-1), ...lap(1)];
}

function randomScript(seed: number): Script {
  const random = evenNumbers(seed);
  const from = Math.floor(360 * random());
  return {
    from,
    wind: 3.5 + 20 * random(),
    turbulence: 4 + 6 * random(),
    yaw: 1 + 3.5 * random(),
    seed,
    steps: [...(seed % 2 === 0 ? underPower(from, random) : []), ...laps(from, random)],
  };
}

/** Offset to ±4°, upwash to 6°, gains to ±8 and ±5 %, heel zero to ±3°. */
function withFaults({ columns, ...block }: SecondsBlock, seed: number): SecondsBlock {
  const random = evenNumbers(seed + 100);
  const even = (most: number) => (2 * random() - 1) * most;
  const [offset, upwash, zero] = [radians(even(4)), radians(6 * random()), radians(even(3))];
  const [logGain, windGain] = [1 + even(0.08), 1 + even(0.05)];
  const fault: Partial<Record<Channel, (value: number) => number>> = {
    awa: (angle) => wrapAngle(angle + offset + (upwash * Math.sin(angle) * (1 + Math.cos(angle)) ** 3) / 4.5),
    aws: (speed) => speed * windGain,
    stw: (speed) => speed * logGain,
    heel: (heel) => heel + zero,
  };
  return {
    ...block,
    columns: byChannel((name) => columns[name].map((value) => fault[name]?.(value) ?? value)),
  };
}

interface TrueTurn {
  readonly start: number;
  readonly end: number;
  readonly kind: "tack" | "gybe" | "other" | "under power";
}

/** The turns that the script asked for. */
function trueTurns({ instants, start }: ScriptedSail, from: number): TrueTurn[] {
  const turns: TrueTurn[] = [];
  for (let first = 1; first < instants.length; first++) {
    if (!instants[first]!.turning || instants[first - 1]!.turning) continue;
    let last = first;
    while (instants[last + 1]?.turning) last += 1;
    const [before, after] = [instants[first - 1]!, instants[last]!];
    const side = (heading: number) => Math.sin(radians(from) - heading);
    const change = after.heading - before.heading;
    const kind =
      after.engine !== undefined
        ? "under power"
        : side(before.heading) * side(after.heading) > 0
          ? "other"
          : side(before.heading) * change > 0
            ? "tack"
            : "gybe";
    turns.push({ start: start + first, end: start + last, kind });
  }
  return turns;
}

const overlaps = (found: Turn, { start, end }: TrueTurn): boolean =>
  found.start < end + 5 && found.end > start - 5;

interface Recognised {
  readonly sail: ScriptedSail;
  readonly rows: readonly LegRow[];
  readonly turns: readonly Turn[];
  readonly truth: readonly TrueTurn[];
}

function recognised(seed: number, hasHeel: boolean): Recognised {
  const script = randomScript(seed);
  const sail = scriptedSail(script);
  const faulty = withFaults(sail.block, seed);
  const columns = hasHeel
    ? faulty.columns
    : { ...faulty.columns, heel: faulty.columns.heel.map(() => Number.NaN) };
  const { rows, turns } = summariseSailing([{ ...faulty, columns }]);
  return { sail, rows, turns, truth: trueTurns(sail, script.from) };
}

describe.each([
  ["with a heel sensor", true],
  ["without one", false],
])("twenty random sails %s", (_, hasHeel) => {
  let sails: Recognised[];
  beforeAll(() => {
    sails = SEEDS.map((seed) => recognised(seed, hasHeel));
  });

  it("show 95 and more in 100 of their tacks and gybes as what they are", () => {
    const asked = sails.flatMap(({ truth, turns }) =>
      truth
        .filter(({ kind }) => kind === "tack" || kind === "gybe")
        .map((turn) => turns.some((found) => found.kind === turn.kind && overlaps(found, turn))),
    );
    expect(asked.length).toBeGreaterThan(300);
    expect(asked.filter(Boolean).length / asked.length).toBeGreaterThanOrEqual(0.95);
  });

  it("show hardly a turn that was none", () => {
    const found = sails.flatMap(({ turns, truth }) =>
      turns.map((turn) => truth.some((asked) => overlaps(turn, asked))),
    );
    expect(found.filter((isTrue) => !isTrue).length).toBeLessThanOrEqual(0.01 * found.length);
  });

  it("have no turning second in a row under sail", () => {
    const turning = sails.flatMap(({ rows, sail: { instants, start } }) =>
      rows
        .filter(({ kind }) => kind === "sailing")
        .filter((row) =>
          instants
            .slice(row.start - start, row.start - start + row.duration)
            .some((instant) => instant.turning),
        ),
    );
    expect(turning).toEqual([]);
  });

  it("never take engine for sail by more than 1 in 100 rows under power, nor sail for engine", () => {
    const judged = sails.flatMap(({ rows, sail: { instants, start } }) =>
      rows.map(({ kind, start: at }) => ({ kind, engine: instants[at - start]!.engine !== undefined })),
    );
    const underPowerRows = judged.filter(({ engine }) => engine);
    expect(underPowerRows.filter(({ kind }) => kind === "motoring").length).toBeGreaterThan(250);
    expect(
      underPowerRows.filter(({ kind }) => kind === "sailing").length / underPowerRows.length,
    ).toBeLessThan(0.01);
    expect(judged.filter(({ kind, engine }) => kind === "motoring" && !engine)).toEqual([]);
  });

  it("give rows for two thirds of the straight sailing", () => {
    const straight = sails.flatMap(({ sail }) => sail.instants.filter(({ turning }) => !turning)).length;
    const summed = sails
      .flatMap(({ rows }) => rows.map(({ count }) => count))
      .reduce((sum, count) => sum + count, 0);
    expect(summed / straight).toBeGreaterThan(2 / 3);
  });
});
