/**
 * The live form against the forms that exist without it.
 *
 * INPUTS: expected values follow from the other forms (bit for bit, same engine), from the definition of a first-order lag, and from
 *   a wind and a motion that the test makes up.
 * MARGIN: with each assertion.
 */
import { execFile } from "node:child_process";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wrapAngle, wrapDirection } from "../../packages/core/src/angles.ts";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { attitudeRate, RATE_MEMORY } from "../../packages/core/src/live/attitudeRate.ts";
import {
  DAMPING_MEMORY,
  dampedAngle,
  dampedNumber,
  dampingShare,
} from "../../packages/core/src/live/damping.ts";
import {
  LIVE_SAMPLE,
  LIVE_SAMPLE_LENGTH,
  LIVE_WIND,
  LIVE_WIND_LENGTH,
  type LiveSampleName,
  type LiveWindName,
} from "../../packages/core/src/live/liveArrays.ts";
import { liveWinds } from "../../packages/core/src/live/liveColumns.ts";
import { type LiveOptions, liveState } from "../../packages/core/src/live/liveState.ts";
import { liveWind, liveWindInto } from "../../packages/core/src/live/liveWind.ts";
import {
  levelWind,
  mastheadMotionAhead,
  mastheadMotionAthwart,
  windInMastPlane,
} from "../../packages/core/src/physics/attitude.ts";
import { leewayAngle, motionThroughWater } from "../../packages/core/src/physics/leeway.ts";
import { trueWindColumns } from "../../packages/core/src/physics/trueWindColumns.ts";
import { apparentWind, trueWindAngle, windOverWater } from "../../packages/core/src/physics/windTriangle.ts";
import { type CorrectedSecond, correctedSeconds } from "../../packages/core/src/sailing/correctedSeconds.ts";
import { CHANNELS, type SecondsBlock } from "../../packages/core/src/sailing/series.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { secondsOfSail } from "../../packages/core/src/simulate/simulatedSeconds.ts";
import { degrees, radians } from "../../packages/core/src/units.ts";
import { between, settings } from "../support/boats.ts";
import { agrees } from "../support/published.ts";

const unknown = (length: number): Float64Array => new Float64Array(length).fill(Number.NaN);
const memory = (): Float64Array => unknown(DAMPING_MEMORY);
const rounding = "sums of a few rounded terms near 1";

describe("damping (M150)", () => {
  it("follows a sudden change to 1 − 1/e within the time constant", () => {
    agrees(dampingShare(7, 7), 1 - Math.exp(-1), 1e-15, rounding);
    expect(dampingShare(3, 0)).toBe(1);
    expect(dampingShare(0, 5)).toBe(0);
  });

  it("does not mind how the way to a value is divided into steps", () => {
    fc.assert(
      fc.property(
        between(-9, 9),
        between(-9, 9),
        between(0.01, 9),
        between(0.01, 9),
        between(0.1, 20),
        (from, to, one, two, constant) => {
          const [once, twice] = [memory(), memory()];
          for (const each of [once, twice]) dampedNumber(each, 0, from, 0, constant);
          dampedNumber(twice, 0, to, one, constant);
          const divided = dampedNumber(twice, 0, to, one + two, constant);
          agrees(divided, dampedNumber(once, 0, to, one + two, constant), 1e-13, "rounding at sizes of 9");
        },
      ),
    );
  });

  it("leads an angle the short way round, over north and over astern", () => {
    const across = memory();
    dampedAngle(across, 0, radians(350), 0, 4);
    const half = dampedAngle(across, 0, radians(10), 4 * Math.LN2, 4);
    agrees(wrapAngle(half), 0, 1e-15, rounding);
    dampedAngle(across, 0, radians(170), 100, 0);
    agrees(
      wrapAngle(dampedAngle(across, 0, radians(-170), 100 + 4 * Math.LN2, 4)) / Math.PI,
      1,
      1e-15,
      rounding,
    );
  });

  it("turns with the scene", () => {
    fc.assert(
      fc.property(
        fc.array(between(-0.6, 0.6), { minLength: 2, maxLength: 9 }),
        between(0, 6.28),
        (angles, turn) => {
          const [here, there] = [memory(), memory()];
          angles.forEach((angle, index) => {
            const one = dampedAngle(here, 0, angle, index, 3);
            const other = dampedAngle(there, 0, angle + turn, index, 3);
            agrees(wrapAngle(other - one - turn), 0, 1e-13, rounding);
          });
        },
      ),
    );
  });

  it("holds over what is missing, and lets the next value count for the longer step", () => {
    const [gap, plain] = [memory(), memory()];
    for (const each of [gap, plain]) dampedNumber(each, 0, 5, 0, 6);
    expect(dampedNumber(gap, 0, Number.NaN, 1, 6)).toBeNaN();
    expect(dampedNumber(gap, 0, 8, Number.NaN, 6)).toBeNaN();
    expect(dampedNumber(gap, 0, 8, 2, 6)).toBe(dampedNumber(plain, 0, 8, 2, 6));
    expect(dampedAngle(gap, 0, Number.NaN, 3, 6)).toBeNaN();
  });

  it("begins anew where the clock was set back", () => {
    const each = memory();
    dampedNumber(each, 0, 5, 100, 6);
    expect(dampedNumber(each, 0, 8, 40, 6)).toBe(8);
  });
});

describe("the rate of an angle (M151)", () => {
  it("is the slope of one that changes evenly, also across the end of its interval", () => {
    const each = unknown(RATE_MEMORY);
    const rates = [0, 0.1, 0.25, 0.3, 0.7].map((time) =>
      attitudeRate(each, 0, wrapAngle(3.1 + 0.5 * time), time),
    );
    expect(rates[0]).toBeNaN();
    for (const rate of rates.slice(1)) agrees(rate, 0.5, 1e-13, "differences of angles near π over 0.05 s");
  });

  it("is not told by samples too far apart, nor by one", () => {
    const each = unknown(RATE_MEMORY);
    attitudeRate(each, 0, 0.1, 0);
    expect(attitudeRate(each, 0, 0.2, 0.6)).toBeNaN();
    agrees(attitudeRate(each, 0, 0.3, 1), 0.25, 1e-15, rounding);
    expect(attitudeRate(each, 0, Number.NaN, 1.2)).toBe(attitudeRate(each, 0, 0.9, 1));
    expect(attitudeRate(each, 0, Number.NaN, 2)).toBeNaN();
  });
});

const FAULTY = fc.sample(settings, { numRuns: 1, seed: 5 })[0]!;
const SAIL = secondsOfSail(
  simulatedSail({
    ...drawScenario(11),
    plan: [
      { kind: "beat", tack: "port", seconds: 150 },
      { kind: "beat", tack: "starboard", seconds: 150 },
      { kind: "run", tack: "port", seconds: 100 },
    ],
  }),
);

/** The sail with gaps of each channel, in turn. */
const gappy = SAIL.map(
  (block): SecondsBlock => ({
    ...block,
    columns: Object.fromEntries(
      CHANNELS.map((name, place) => [
        name,
        block.columns[name].map((value, index) => (index % 23 === place ? Number.NaN : value)),
      ]),
    ) as SecondsBlock["columns"],
  }),
);

const boat = {
  ...UNKNOWN_BOAT,
  settings: {
    base: "sensors without corrections",
    active: { ...noCorrections, vane: { ...noCorrections.vane, mastheadOffset: 0.03 } },
  },
} as const;
const { active } = boat.settings;
const masthead = { height: boat.windSensorHeight, forward: boat.windSensorForward };
const options: LiveOptions = { settings: FAULTY, active, masthead };

/** The samples of a block as the live form takes them: rates as the clock found them, 0 where it found none. */
const samplesOf = ({
  time,
  columns,
}: SecondsBlock): Readonly<Partial<Record<LiveSampleName, Float64Array>>> => {
  const { latitude, longitude, ...heard } = columns;
  const known = (column: Float64Array) => column.map((value) => (Number.isNaN(value) ? 0 : value));
  return {
    ...heard,
    time,
    heelRate: known(columns.heelRate),
    pitchRate: known(columns.pitchRate),
    rateOfTurn: new Float64Array(time.length),
  };
};

const NAMES = Object.keys(LIVE_WIND) as readonly LiveWindName[];
const COLUMNS_OUT = (length: number) =>
  Object.fromEntries(NAMES.map((name) => [name, unknown(length)])) as Record<LiveWindName, Float64Array>;

describe("the live true wind", () => {
  it("is, bit for bit, what is applied to a log", () => {
    let told = 0;
    for (const block of gappy) {
      const live = liveWinds(samplesOf(block), liveState(options), COLUMNS_OUT(block.length));
      const applied = [
        ...correctedSeconds(block, {
          settings: FAULTY,
          boat,
          has: { paddle: true, compass: true, heel: true },
          directionsAre: "true",
          isMotoring: () => false,
        }),
      ];
      for (const name of NAMES)
        applied.forEach((second, index) => {
          expect(live[name][index], `${name} at ${index}`).toBe(second[name]);
          if (name === "twd" && !Number.isNaN(second.twd)) told += 1;
        });
    }
    expect(told).toBeGreaterThan(200);
  });

  it("is the same, bit for bit, by array, by name and by column, damped and not", () => {
    const damping = { direction: 8, speed: 4, angle: 3 };
    for (const more of [{}, { damping }]) {
      const [byArray, byName, byColumn] = [0, 1, 2].map(() => liveState({ ...options, ...more }));
      const [sample, out] = [unknown(LIVE_SAMPLE_LENGTH), unknown(LIVE_WIND_LENGTH)];
      for (const block of gappy) {
        const samples = samplesOf(block);
        const columns = liveWinds(samples, byColumn!, COLUMNS_OUT(block.length));
        for (let index = 0; index < block.length; index++) {
          for (const [name, column] of Object.entries(samples))
            sample[LIVE_SAMPLE[name as LiveSampleName]] = column[index]!;
          liveWindInto(sample, byArray!, out);
          const named: CorrectedSecond = liveWind(
            Object.fromEntries(Object.entries(samples).map(([name, column]) => [name, column[index]!])),
            byName!,
          );
          for (const name of NAMES) {
            expect(out[LIVE_WIND[name]]).toBe(named[name]);
            expect(out[LIVE_WIND[name]]).toBe(columns[name][index]);
          }
        }
      }
    }
  });

  it("is steadier when damped, about the same wind", () => {
    const spread = (values: Float64Array) => {
      const known = values.filter((value) => !Number.isNaN(value));
      const mean = known.reduce((sum, value) => sum + value, 0) / known.length;
      const steps = known.slice(1).map((value, index) => value - known[index]!);
      const range = Math.max(...known) - Math.min(...known);
      return { mean, range, variance: steps.reduce((sum, step) => sum + step ** 2, 0) / steps.length };
    };
    const [block] = SAIL;
    const of = (speed: number) =>
      spread(
        liveWinds(
          samplesOf(block!),
          liveState({ ...options, damping: { speed } }),
          COLUMNS_OUT(block!.length),
        ).tws,
      );
    const [raw, damped] = [of(0), of(10)];
    expect(damped.variance).toBeLessThan(0.1 * raw.variance);
    agrees(
      damped.mean,
      raw.mean,
      (10 * raw.range) / block!.length,
      "a lag moves a mean by the time constant times the change from first to last, over the duration",
    );
  });

  it("tells no direction without a north, and magnetic ones when asked to", () => {
    const sample = { awa: 0.6, aws: 8, stw: 3, heading: 1, heel: -0.2, east: 1, north: 2 };
    const bare = liveWind(sample, liveState());
    expect([bare.twd, bare.gwd, bare.heading]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
    const known = liveWind({ ...sample, variation: 0.1 }, liveState());
    const magnetic = liveWind({ ...sample, variation: 0.1 }, liveState({ directionsAre: "magnetic" }));
    expect(magnetic.gwd).toBeNaN();
    agrees(wrapAngle(known.twd - magnetic.twd), 0.1, 1e-14, rounding);
    expect(liveWind(sample, liveState({ variation: 0.1 })).twd).toBe(known.twd);
    expect(bare.twa).toBeCloseTo(known.twa, 12);
  });

  it("lets speed and course over ground stand in for a wheel and a compass that are not there", () => {
    const state = liveState({ has: { paddle: false, compass: false, heel: true } });
    const { twd, tws, gwd, gws, stw } = liveWind({ awa: 0.6, aws: 8, heel: 0, east: 3, north: 4 }, state);
    expect(stw).toBe(5);
    agrees(wrapAngle(twd - gwd), 0, 1e-14, rounding);
    agrees(tws, gws, 1e-14, rounding);
  });

  it("makes no leeway under power", () => {
    const state = liveState({ settings: FAULTY, headingsAre: "true" });
    const sample = { awa: 0.6, aws: 8, stw: 3, heading: 1, heel: -0.2 };
    expect(liveWind({ ...sample, underPower: 1 }, state).leeway).toBe(0);
    expect(liveWind({ ...sample, underPower: 0 }, state).leeway).not.toBe(0);
  });

  it("takes off the masthead's own motion as she rolls and pitches", () => {
    const [wind, heading, height, forward] = [{ direction: 1, speed: 8 }, 0.3, 16, 2];
    const moving = motionThroughWater(heading, 3, 0);
    const level = apparentWind(wind, heading, moving);
    const roll = (2 * Math.PI) / 5;
    const errors = (masthead: LiveOptions["masthead"]): number => {
      const state = liveState({ headingsAre: "true", ...(masthead ? { masthead } : {}) });
      let worst = 0;
      for (let time = 0; time < 30; time += 0.1) {
        const heel = -0.2 + radians(4) * Math.sin(roll * time);
        const pitch = radians(0.3) * Math.sin(1.7 * time);
        const inPlane = windInMastPlane(level, heel, 0);
        const ahead =
          inPlane.speed * Math.cos(inPlane.angle) +
          mastheadMotionAhead(height, radians(0.3) * 1.7 * Math.cos(1.7 * time));
        const athwart =
          inPlane.speed * Math.sin(inPlane.angle) +
          mastheadMotionAthwart(height, radians(4) * roll * Math.cos(roll * time), forward, 0);
        const sample = {
          time,
          awa: Math.atan2(athwart, ahead),
          aws: Math.hypot(athwart, ahead),
          stw: 3,
          heading,
          heel,
          pitch,
        };
        const { twd } = liveWind(sample, state);
        if (time > 2) worst = Math.max(worst, Math.abs(wrapAngle(twd - wind.direction)));
      }
      return worst;
    };
    const [left, taken] = [errors(undefined), errors({ height, forward })];
    expect(degrees(left)).toBeGreaterThan(5);
    // a lag of 0.2 s + half a step in a roll of 5 s: 2 sin(π · 0.25 / 5) = 0.31
    expect(taken).toBeLessThan(0.35 * left);
  });

  it("can be cloned, and goes on the same", () => {
    const state = liveState({ headingsAre: "true", damping: { direction: 9, speed: 9, angle: 9 } });
    const sample = (time: number) => ({ time, awa: 0.5 + time / 50, aws: 7, stw: 3, heading: 6.2, heel: 0 });
    for (let time = 0; time < 5; time++) liveWind(sample(time), state);
    const clone = structuredClone(state);
    expect(liveWind(sample(6), clone)).toEqual(liveWind(sample(6), state));
  });

  it("refuses what is no time constant, and columns that do not fit", () => {
    expect(() => liveState({ damping: { speed: -1 } })).toThrow(
      new RangeError("liveState: damping.speed must be 0 s or more and finite, got -1"),
    );
    const state = liveState();
    expect(() => liveWinds({ awa: new Float64Array(2), aws: new Float64Array(3) }, state, {})).toThrow(
      new RangeError("liveWinds: aws must be as long as the others (2), got 3"),
    );
    expect(() =>
      liveWinds({ awa: new Float64Array(2) }, state, { wind: new Float64Array(2) } as object),
    ).toThrow("liveWinds: wind must be one of time, twd");
  });

  it("leaves next to nothing to be collected", async () => {
    // with a young generation of 1 MB, one number a sample made an object would be 16 collections in a million samples
    const script = fileURLToPath(new URL("../support/liveCollections.ts", import.meta.url));
    const flags = ["--max-semi-space-size=1", "--conditions=bothtacks-source", "--import", "tsx"];
    const { stdout } = await promisify(execFile)(process.execPath, [...flags, script, "1000000"]);
    const { minor } = JSON.parse(stdout) as { minor: number };
    expect(minor).toBeLessThanOrEqual(5);
  });
});

describe("the true wind by columns (M152)", () => {
  const column = (value: number): Float64Array => Float64Array.of(value);
  const blank = () => ({ twd: column(0), tws: column(0), twa: column(0) });

  it("is that of level, leeway and triangle", () => {
    fc.assert(
      fc.property(
        between(-3.14, 3.14),
        between(0.5, 25),
        between(0.5, 10),
        between(0, 6.28),
        between(-1, 1),
        between(0, 4),
        (awa, aws, stw, heading, heel, coefficient) => {
          const sailed = {
            awa: column(awa),
            aws: column(aws),
            stw: column(stw),
            heading: column(heading),
            heel: column(heel),
          };
          const { twd, tws, twa } = trueWindColumns(sailed, coefficient, blank());
          const level = levelWind({ angle: awa, speed: aws }, heel, 0);
          const wind = windOverWater(
            level,
            heading,
            motionThroughWater(heading, stw, leewayAngle(heel, stw, coefficient)),
          );
          const near = 1e-13 * (aws + stw) * 4;
          agrees(
            tws[0]!,
            wind.speed,
            near,
            "rounding of a few products at this size, cos(heel) down to 0.54",
          );
          // a calm, which has no direction, but for what rounding leaves of it
          if (wind.speed < near) return;
          agrees(wrapAngle(twd[0]! - wind.direction) * wind.speed, 0, near, "the same, across");
          agrees(
            wrapAngle(twa[0]! - trueWindAngle(wind.direction, heading)) * wind.speed,
            0,
            near,
            "the same, across",
          );
          expect(wrapDirection(twd[0]!)).toBe(twd[0]);
        },
      ),
    );
  });

  it("is NaN where a reading is, on her side, and without direction in a calm", () => {
    const at = (change: object) =>
      trueWindColumns(
        { awa: column(0.5), aws: column(8), stw: column(3), heading: column(1), heel: column(0), ...change },
        2,
        blank(),
      );
    for (const name of ["awa", "aws", "stw", "heel"])
      expect(at({ [name]: column(Number.NaN) }).tws[0]).toBeNaN();
    expect(at({ heading: column(Number.NaN) }).twd[0]).toBeNaN();
    expect(at({ heading: column(Number.NaN) }).tws[0]).toBe(at({}).tws[0]);
    expect(at({ heel: column(1.6) }).tws[0]).toBeNaN();
    const calm = at({ awa: column(0), aws: column(3) });
    expect([calm.tws[0], calm.twa[0], calm.twd[0]]).toEqual([0, Number.NaN, Number.NaN]);
    expect(() => at({ heel: new Float64Array(2) })).toThrow(
      new RangeError("trueWindColumns: heel must be as long as the others (1), got 2"),
    );
  });
});
