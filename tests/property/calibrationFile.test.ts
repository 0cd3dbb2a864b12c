import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { settingsIncrement } from "../../packages/core/src/calibration/activeSettings.ts";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import type { Agreements, Calibration } from "../../packages/core/src/calibration/calibration.ts";
import {
  calibrationFileText,
  calibrationFromFile,
  PARAMETER_UNITS,
} from "../../packages/core/src/calibration/calibrationFile.ts";
import { RefusedFile } from "../../packages/core/src/calibration/refusedFile.ts";
import type { SolvedBoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import { PARAMETER_NAMES } from "../../packages/core/src/sensors/parameterNames.ts";
import type { SensorSettings } from "../../packages/core/src/sensors/parameters.ts";

/** Below 1e-300 numbers lose their digits on the way to another unit and back; no sensor is off by so little. */
const amount = fc
  .double({ min: -1, max: 1, noNaN: true })
  .map((value) => (Math.abs(value) < 1e-300 ? 0 : value));
const gain = fc.double({ min: 0.5, max: 2, noNaN: true });

const anySettings: fc.Arbitrary<SensorSettings> = fc.record({
  speed: fc.record({ intercept: amount, gainStarboard: gain, gainPort: gain }),
  compass: fc.record({ a: amount, b: amount, c: amount, d: amount, e: amount, heelingError: amount }),
  heel: fc.record({ sign: fc.constantFrom<1 | -1>(1, -1), zero: amount }),
  heelModel: fc.record({ fullHeel: amount }),
  vane: fc.record({ mastheadOffset: amount, upwash: amount, upwashSlope: amount, upwashBroad: amount }),
  anemometer: fc.record({ threshold: amount, gain, speedUp: amount }),
  leeway: fc.record({ coefficient: amount }),
});

const none = { value: Number.NaN, sd: Number.NaN, contrasts: 0 };

const calibrationWith = (
  total: SensorSettings,
  active: SensorSettings,
  values: readonly number[],
): Calibration => ({
  made: 1_900_000_000.25,
  boat: { ...UNKNOWN_BOAT, settings: { base: "sensors without corrections", active } },
  recording: {
    files: ["afternoon.nmea"],
    start: 1_899_990_000,
    end: 1_899_999_000.5,
    lines: { lines: 10, used: 7, ignored: 2, problems: 1 },
    chosen: [
      { source: { quantity: "speedThroughWater", name: "VW VHW" }, why: "the only one", rate: 1 },
      { source: { quantity: "heel", name: "HE XDR" }, why: "chosen by the boat file", rate: Number.NaN },
    ],
    directionsAre: "magnetic",
  },
  settings: { base: "sensors without corrections", active },
  fit: {
    status: "solved",
    settings: total,
    parameters: PARAMETER_NAMES.map((name, index) => ({
      name,
      value: values[index] ?? 0,
      sd: Math.abs(values[index + 1] ?? 0),
      priorMean: 0,
      priorSd: 1,
      informed: 0.5,
    })),
    covariance: Float64Array.from(
      { length: PARAMETER_NAMES.length ** 2 },
      (_, index) => values[index % values.length] ?? 0,
    ),
    wander: {
      slowDirection: 0.003,
      slowLogSpeed: 0.002,
      fastDirection: 0.05,
      fastLogSpeed: 0.1,
      fastSeconds: 25,
    },
    rows: 240,
    outliers: [1_899_991_000],
    notes: ["A note of the fit."],
  },
  before: [
    { kind: "direction between tacks", value: 0.07, sd: 0.01, contrasts: 9 },
    { kind: "direction upwind against downwind", ...none },
    { kind: "speed between tacks", value: 0.02, sd: 0.01, contrasts: 9 },
  ],
  after: [
    { kind: "direction between tacks", value: 0.003, sd: 0.01, contrasts: 9 },
    { kind: "direction upwind against downwind", ...none },
    { kind: "speed between tacks", value: 0.001, sd: 0.01, contrasts: 9 },
  ],
  notes: ["A note."],
});

const anyCalibration = fc
  .tuple(anySettings, anySettings, fc.array(amount, { minLength: 23, maxLength: 23 }))
  .map(([total, active, values]) => calibrationWith(total, active, values));

/** Numbers of two values of one shape, side by side. */
function pairs(one: unknown, other: unknown): readonly (readonly [number, number])[] {
  if (typeof one === "number" && typeof other === "number") return [[one, other]];
  if (typeof one !== "object" || typeof other !== "object" || one === null || other === null) {
    expect(other).toEqual(one);
    return [];
  }
  const others = Object.entries(other);
  expect(others.map(([key]) => key).sort()).toEqual(Object.keys(one).sort());
  return Object.entries(one).flatMap(([key, value]) =>
    pairs(value, others.find(([name]) => name === key)?.[1]),
  );
}

describe("the calibration file", () => {
  it("gives back what was written, within 6 parts in 10^15 and to the millisecond", () => {
    fc.assert(
      fc.property(anyCalibration, (calibration) => {
        const read = calibrationFromFile(calibrationFileText(calibration), "a.json");
        for (const [wrote, got] of pairs(calibration, read)) {
          if (Number.isNaN(wrote)) expect(got).toBeNaN();
          // 15 digits are off by at most half a unit of the last: 5e-15 of the number, and rounding of the conversion
          else expect(Math.abs(got - wrote)).toBeLessThanOrEqual(6e-15 * Math.abs(wrote));
        }
      }),
      { numRuns: 50 },
    );
  });

  it("is written again as the same text", () => {
    fc.assert(
      fc.property(anyCalibration, (calibration) => {
        const text = calibrationFileText(calibration);
        expect(calibrationFileText(calibrationFromFile(text, "a.json"))).toBe(text);
      }),
      { numRuns: 50 },
    );
  });

  it("prints a number that was a round one of degrees or knots as it was", () => {
    const total: SensorSettings = {
      ...noCorrections,
      vane: { ...noCorrections.vane, upwash: (2.3 * Math.PI) / 180 },
      speed: { ...noCorrections.speed, intercept: (0.4 * 1852) / 3600 },
    };
    const text = calibrationFileText(calibrationWith(total, noCorrections, [0]));
    expect(text).toContain('"upwash_deg": 2.3,');
    expect(text).toContain('"intercept_kn": 0.4,');
  });

  it("writes the increment, which turns the active settings into the total", () => {
    fc.assert(
      fc.property(anySettings, anySettings, (total, active) => {
        const increment = settingsIncrement(total, active);
        expect(active.vane.upwash + increment.vane.upwash).toBeCloseTo(total.vane.upwash, 12);
        expect(active.speed.gainPort * increment.speed.gainPort).toBeCloseTo(total.speed.gainPort, 12);
        expect(active.heel.sign * increment.heel.sign).toBe(total.heel.sign);
      }),
    );
    const same = settingsIncrement(noCorrections, noCorrections);
    expect(same).toEqual(noCorrections);
  });

  it("has a unit for each parameter, and the square of the sd on the diagonal of the covariance", () => {
    expect(Object.keys(PARAMETER_UNITS).sort()).toEqual([...PARAMETER_NAMES].sort());
    const calibration = calibrationWith(noCorrections, noCorrections, [0]);
    const n = PARAMETER_NAMES.length;
    const parameters = calibration.fit.parameters.map((parameter, i) => ({
      ...parameter,
      sd: 0.01 * (i + 1),
    }));
    const covariance = new Float64Array(n * n);
    parameters.forEach(({ sd }, i) => {
      covariance[i * n + i] = sd ** 2;
    });
    const text = calibrationFileText({ ...calibration, fit: { ...calibration.fit, parameters, covariance } });
    const file: { parameters: { sd: number }[]; covariance: number[][] } = JSON.parse(text);
    file.parameters.forEach(({ sd }, i) => {
      // two numbers of 15 digits each, one of them squared
      expect(Math.abs((file.covariance[i]?.[i] ?? Number.NaN) / sd ** 2 - 1)).toBeLessThan(2e-14);
    });
  });
});

/** What a fit and its agreements answer can be stored, and what was stored be taken for them: the compiler's check. */
export const storable = (fit: SolvedBoatFit, before: Agreements): Pick<Calibration, "fit" | "before"> => ({
  fit,
  before,
});
export const takenFor = ({ fit, before }: Calibration): readonly [SolvedBoatFit, Agreements] => [fit, before];

describe("a calibration file that cannot be taken", () => {
  const text = calibrationFileText(calibrationWith(noCorrections, noCorrections, [0.1]));
  const changed = (change: (file: Record<string, unknown>) => void): string => {
    const file: Record<string, unknown> = JSON.parse(text);
    change(file);
    return JSON.stringify(file);
  };
  const message = (broken: string): string => {
    try {
      calibrationFromFile(broken, "b.json");
    } catch (error) {
      if (error instanceof RefusedFile) return error.message;
      throw error;
    }
    return "taken";
  };

  it("names file, field, expected and received", () => {
    expect(message("")).toBe("b.json: expected a JSON object, received an empty file");
    expect(message("{")).toBe("b.json: expected a JSON object, received text that is no JSON");
    expect(message("[]")).toBe("b.json: expected a JSON object, received a list of 0");
    expect(message("{}")).toBe('b.json: schema: expected "bothtacks-calibration", received nothing');
    expect(message(changed((file) => Object.assign(file, { version: 2 })))).toBe(
      "b.json: version: expected 1, received 2",
    );
    expect(message(changed((file) => Object.assign(file, { schema: "bothtacks-boat" })))).toBe(
      'b.json: schema: expected "bothtacks-calibration", received "bothtacks-boat"',
    );
    expect(message(changed((file) => Object.assign(file, { base: "a guess" })))).toBe(
      'b.json: base: expected one of "sensors without corrections", "unknown corrections", received "a guess"',
    );
    expect(message(changed((file) => Object.assign(file, { bse: 1 })))).toBe(
      'b.json: expected a known field (did you mean "base"?), received the unknown field "bse"',
    );
    expect(message(changed((file) => Object.assign(file, { boat: { mast_height_m: "tall" } })))).toBe(
      'b.json: boat.mast_height_m: expected a number, received "tall"',
    );
    expect(message(changed((file) => Object.assign(file, { covariance: [[1]] })))).toBe(
      `b.json: covariance: expected ${PARAMETER_NAMES.length} rows of ${PARAMETER_NAMES.length} numbers, as many as parameters, received 1 rows of 1`,
    );
  });
});
