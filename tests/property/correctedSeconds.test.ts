import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wrapAngle, wrapDirection } from "../../packages/core/src/angles.ts";
import { readingsWithActive } from "../../packages/core/src/calibration/activeReadings.ts";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { correctedCsvHeader, correctedCsvLine } from "../../packages/core/src/report/correctedCsv.ts";
import {
  type CorrectedSecond,
  type CorrectionOptions,
  correctedSeconds,
} from "../../packages/core/src/sailing/correctedSeconds.ts";
import { byChannel, type SecondsBlock } from "../../packages/core/src/sailing/series.ts";
import { readingsOf, unknownBoatReadings } from "../../packages/core/src/sensors/boatReadings.ts";
import { type BoatReadings, underSail } from "../../packages/core/src/sensors/boatState.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import type { SensorSettings } from "../../packages/core/src/sensors/parameters.ts";
import { metresPerSecond, radians } from "../../packages/core/src/units.ts";

/** A boat whose every sensor is wrong, in an invented way. */
const FAULTS: SensorSettings = {
  speed: { intercept: 0.2, gainStarboard: 1.05, gainPort: 0.97 },
  compass: { a: 0.03, b: 0.02, c: -0.02, d: 0.01, e: 0.005, heelingError: 0.03 },
  heel: { sign: -1, zero: 0.03 },
  heelModel: { fullHeel: 0.7 },
  vane: { mastheadOffset: 0.04, upwash: 0.06, upwashSlope: -0.01, upwashBroad: 0.01 },
  anemometer: { threshold: 0.3, gain: 0.95, speedUp: 0.05 },
  leeway: { coefficient: 2.5 },
};

const KEYED: SensorSettings = {
  ...noCorrections,
  speed: { intercept: 0.1, gainStarboard: 1.02, gainPort: 1.02 },
  vane: { ...noCorrections.vane, mastheadOffset: -0.05 },
};

const blockOf = (
  readings: BoatReadings,
  variation: number,
  more: Partial<Record<string, number>> = {},
): SecondsBlock => ({
  length: 1,
  time: Float64Array.of(1_900_000_000),
  headingIsTrue: false,
  columns: byChannel((name) =>
    Float64Array.of(
      more[name] ??
        (name === "variation"
          ? variation
          : name in readings
            ? readings[name as keyof BoatReadings]
            : Number.NaN),
    ),
  ),
});

const options: CorrectionOptions = {
  settings: FAULTS,
  boat: { ...UNKNOWN_BOAT, settings: { base: "sensors without corrections", active: KEYED } },
  has: { paddle: true, compass: true, heel: true },
  directionsAre: "true",
  isMotoring: () => false,
};

const only = (block: SecondsBlock, more: Partial<CorrectionOptions> = {}): CorrectedSecond => {
  const [second] = [...correctedSeconds(block, { ...options, ...more })];
  if (!second) throw new Error("a block of one second gave none");
  return second;
};

/** A state of the boat, and the readings that show it through the faults and through what is keyed in. */
const scene = fc
  .record({
    heading: fc.double({ min: 0, max: 6.28, noNaN: true }),
    heel: fc.double({ min: -0.5, max: 0.5, noNaN: true }),
    speedAhead: fc.double({ min: 1, max: 8, noNaN: true }),
    apparentAngle: fc.double({ min: 0.4, max: 2.6, noNaN: true }),
    apparentSpeed: fc.double({ min: 3, max: 15, noNaN: true }),
    currentEast: fc.double({ min: -1, max: 1, noNaN: true }),
    currentNorth: fc.double({ min: -1, max: 1, noNaN: true }),
  })
  .map((state) => ({ ...state, leeway: FAULTS.leeway.coefficient * (state.heel / state.speedAhead ** 2) }))
  .filter(({ leeway, speedAhead }) => Math.abs(leeway) < 0.3 && speedAhead > metresPerSecond(3));

const VARIATION = 0.1;

const shown = (state: Parameters<typeof readingsOf>[0]): BoatReadings => {
  const circumstances = { ...underSail, variation: VARIATION };
  const sensors = readingsOf(state, circumstances, FAULTS, unknownBoatReadings());
  return readingsWithActive(sensors, KEYED, unknownBoatReadings());
};

describe("a corrected second", () => {
  it("is what was true before the faults and the keyed corrections", () => {
    fc.assert(
      fc.property(scene, (state) => {
        const second = only(blockOf(shown(state), VARIATION));
        const near = (actual: number, expected: number) =>
          // chains of inverses that each settle to a few units in the last place
          expect(Math.abs(wrapAngle(actual - expected))).toBeLessThan(1e-9);
        near(second.heading, state.heading);
        near(second.heel, state.heel);
        near(second.awa, state.apparentAngle);
        near(second.leeway, state.leeway);
        expect(second.aws).toBeCloseTo(state.apparentSpeed, 9);
        expect(second.stw).toBeCloseTo(state.speedAhead, 9);
        expect(second.drift).toBeCloseTo(Math.hypot(state.currentEast, state.currentNorth), 9);
        near(second.twa, wrapAngle(second.twd - second.heading));
      }),
    );
  });

  it("tells the two winds apart by the current and by nothing else", () => {
    fc.assert(
      fc.property(scene, (state) => {
        const { twd, tws, gwd, gws } = only(blockOf(shown(state), VARIATION));
        // a wind is where the air comes from: over the water it is the wind over the ground plus the current
        expect(tws * Math.sin(twd) - gws * Math.sin(gwd)).toBeCloseTo(state.currentEast, 9);
        expect(tws * Math.cos(twd) - gws * Math.cos(gwd)).toBeCloseTo(state.currentNorth, 9);
      }),
    );
  });

  const state = {
    heading: 1,
    heel: 0.3,
    speedAhead: 3,
    leeway: 0.05,
    apparentAngle: -0.6,
    apparentSpeed: 9,
    currentEast: 0.2,
    currentNorth: 0,
  };

  it("has no directions where only this second lacks the variation, magnetic ones where all do", () => {
    const block = blockOf(shown(state), Number.NaN);
    expect(only(block)).toMatchObject({ twd: Number.NaN, gwd: Number.NaN, heading: Number.NaN });
    expect(only(block).twa).toBeCloseTo(only(blockOf(shown(state), VARIATION)).twa, 12);
    const magnetic = only(block, { directionsAre: "magnetic" });
    expect(wrapDirection(magnetic.twd + VARIATION)).toBeCloseTo(
      only(blockOf(shown(state), VARIATION)).twd,
      12,
    );
    expect(magnetic.gws).toBeNaN();
  });

  it("takes the boat file's variation where the log has none", () => {
    const boat = { ...options.boat, variation: VARIATION };
    expect(only(blockOf(shown(state), Number.NaN), { boat })).toEqual(only(blockOf(shown(state), VARIATION)));
  });

  it("lets motion over the ground stand in for a paddle wheel or a compass that is not there", () => {
    const readings = { ...shown(state), stw: Number.NaN };
    const has = { ...options.has, paddle: false };
    expect(only(blockOf(readings, VARIATION)).tws).toBeNaN();
    expect(only(blockOf(readings, VARIATION), { has }).stw).toBeCloseTo(
      Math.hypot(readings.east, readings.north),
      12,
    );
    const blind = { ...shown(state), heading: Number.NaN };
    const course = Math.atan2(blind.east, blind.north);
    const second = only(blockOf(blind, VARIATION), { has: { ...options.has, compass: false } });
    expect(wrapAngle(second.heading + second.leeway - course)).toBeCloseTo(0, 12);
  });

  it("knows no upwash and no leeway under power, and no leeway of rigs that break the law", () => {
    const motoring = only(blockOf(shown(state), VARIATION), { isMotoring: () => true });
    expect(motoring.leeway).toBe(0);
    const boat = { ...options.boat, rig: { ...options.boat.rig, multihull: true } };
    expect(only(blockOf(shown(state), VARIATION), { boat }).leeway).toBeNaN();
  });

  it("takes the masthead's own motion off the wind", () => {
    const still = only(blockOf(shown(state), VARIATION));
    // the sensor reads starboard as negative: its rate of +0.1 rad/s is a roll to port, which blows from port
    const rolling = only(blockOf(shown(state), VARIATION, { heelRate: 0.1 }));
    const athwart = ({ aws, awa, heel }: CorrectedSecond) => aws * Math.sin(awa) * Math.cos(heel);
    expect(athwart(rolling) - athwart(still)).toBeCloseTo(15 * 0.1, 9);
  });
});

describe("the corrected log as CSV", () => {
  const second: CorrectedSecond = {
    time: Date.UTC(2031, 5, 14, 13, 5, 9) / 1000,
    twd: radians(359.999),
    tws: metresPerSecond(12),
    twa: radians(-40.126),
    gwd: Number.NaN,
    gws: Number.NaN,
    awa: radians(-0.0001),
    aws: metresPerSecond(17.5),
    stw: metresPerSecond(6.25),
    heading: radians(40),
    heel: radians(18),
    leeway: radians(4),
    set: radians(90),
    drift: metresPerSecond(1),
  };

  it("names units, and magnetic north where it is that", () => {
    expect(correctedCsvHeader("true")).toBe(
      "time,twd_deg,tws_kn,twa_deg,gwd_deg,gws_kn,awa_deg,aws_kn,stw_kn,heading_deg,heel_deg,leeway_deg,set_deg,drift_kn\n",
    );
    expect(correctedCsvHeader("magnetic")).toMatch(/^time,twd_mag_deg,tws_kn,twa_deg,gwd_mag_deg,gws_kn,/);
    expect(correctedCsvHeader("magnetic")).toContain(",heading_mag_deg,heel_deg,leeway_deg,set_mag_deg,");
  });

  it("writes a row: UTC, two decimals, nothing where there is nothing, no turn of 360 and no minus nothing", () => {
    expect(correctedCsvLine(second)).toBe(
      "2031-06-14T13:05:09Z,0.00,12.00,-40.13,,,0.00,17.50,6.25,40.00,18.00,4.00,90.00,1.00\n",
    );
  });
});
