import { describe, expect, it } from "vitest";
import { applicability } from "../../packages/core/src/calibration/activeSettings.ts";
import { leewayLawBreakers } from "../../packages/core/src/calibration/boat.ts";
import { boatFromFile, boatInFile, UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { contradiction } from "../../packages/core/src/calibration/startingFrom.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import { degrees, knots, radians } from "../../packages/core/src/units.ts";

const boat = (fields: object) => boatFromFile(JSON.stringify(fields), "boat.json");

describe("the boat file", () => {
  it("may leave out every field", () => {
    expect(boat({})).toEqual(UNKNOWN_BOAT);
    expect(UNKNOWN_BOAT).toMatchObject({
      mastHeight: 15,
      windSensorHeight: 15,
      windSensorForward: 0,
      computer: { correctsHeel: false, correctsLeeway: false, table: "apparent" },
      steeredBy: "unknown",
      settings: { base: "unknown corrections", active: noCorrections },
      heelSensorSign: "auto",
      sources: {},
    });
    expect(UNKNOWN_BOAT.variation).toBeNaN();
  });

  it("speaks degrees, knots and metres", () => {
    const read = boat({
      schema: "bothtacks-boat",
      version: 1,
      mast_height_m: 19,
      wind_sensor_forward_m: -0.5,
      variation_deg: -12,
      active_settings: { speed: { intercept_kn: 0.4 }, vane: { masthead_offset_deg: -3 } },
    });
    expect(read.windSensorHeight).toBe(19);
    expect(degrees(read.variation)).toBeCloseTo(-12, 12);
    expect(read.settings.base).toBe("sensors without corrections");
    expect(knots(read.settings.active.speed.intercept)).toBeCloseTo(0.4, 12);
    expect(degrees(read.settings.active.vane.mastheadOffset)).toBeCloseTo(-3, 12);
    expect(read.settings.active.speed.gainPort).toBe(1);
  });

  it("tells the sensors' own readings from readings of unknown making", () => {
    expect(boat({ active_settings: "none" }).settings.base).toBe("sensors without corrections");
    expect(boat({ active_settings: "unknown" }).settings.base).toBe("unknown corrections");
  });

  it("is written back with every default in place", () => {
    const fields = {
      name: "Example",
      rig: { foils: true },
      steered_by: "sails",
      heel_sensor_sign: -1,
      sources: { heel: "HE XDR" },
      variation_deg: 4.5,
      active_settings: { compass: { a_deg: 1.5 } },
    };
    const read = boat(fields);
    expect(boat(boatInFile(read))).toEqual(read);
    expect(leewayLawBreakers(read.rig)).toEqual(["foils"]);
    expect(leewayLawBreakers(UNKNOWN_BOAT.rig)).toEqual([]);
  });

  it.each([
    [{ mast_height_m: "tall" }, 'boat.json: mast_height_m: expected a number, received "tall"'],
    [{ mast_height_m: -2 }, "boat.json: mast_height_m: expected a number of more than 0, received -2"],
    [
      { mast_hight_m: 15 },
      'boat.json: expected a known field (did you mean "mast_height_m"?), received the unknown field "mast_hight_m"',
    ],
    [
      { computer: { wheels: 4 } },
      'boat.json: computer: expected one of "corrects_heel", "corrects_leeway", "table", received the unknown field "wheels"',
    ],
    [
      { computer: { table: "both" } },
      'boat.json: computer.table: expected one of "apparent", "true", "none", received "both"',
    ],
    [{ computer: 3 }, "boat.json: computer: expected an object, received 3"],
    [{ version: 2 }, "boat.json: version: expected 1, received 2"],
    [
      { active_settings: "some" },
      'boat.json: active_settings: expected "none", "unknown" or an object of settings, received "some"',
    ],
    [
      { active_settings: { vane: { upwash: 3 } } },
      'boat.json: active_settings.vane: expected a known field (did you mean "upwash_deg"?), received the unknown field "upwash"',
    ],
    [
      { active_settings: { speed: { gain_port: 0 } } },
      "boat.json: active_settings.speed.gain_port: expected a number of more than 0, received 0",
    ],
    [
      { sources: { headingMagnet: "II HDG" } },
      'boat.json: sources: expected a known field (did you mean "headingMagnetic"?), received the unknown field "headingMagnet"',
    ],
  ])("refuses %j in words", (fields, words) => {
    expect(() => boat(fields)).toThrow(words);
  });
});

describe("whether a calibration holds for a recording", () => {
  const known = { base: "sensors without corrections", active: noCorrections } as const;
  const unknown = { base: "unknown corrections", active: noCorrections } as const;
  const keyed = {
    ...known,
    active: { ...noCorrections, vane: { ...noCorrections.vane, mastheadOffset: radians(-3) } },
  };

  it("does when the same was active in both", () => {
    expect(applicability(known, known)).toEqual({ status: "applicable", note: undefined });
    expect(applicability(keyed, keyed)).toEqual({ status: "applicable", note: undefined });
  });

  it("does, with a caution, when nobody knows either", () => {
    expect(applicability(unknown, unknown)).toMatchObject({
      status: "applicable",
      note: expect.stringContaining("Nobody said"),
    });
  });

  it("does not when only one is known, or when they differ", () => {
    expect(applicability(unknown, known)).toMatchObject({
      status: "refused",
      reason: expect.stringContaining("active_settings"),
    });
    expect(applicability(known, keyed)).toMatchObject({
      status: "refused",
      reason: expect.stringContaining("vane.masthead_offset_deg: 0 against -3"),
    });
  });

  it("takes settings closer than any display shows for the same", () => {
    const near = {
      ...known,
      active: { ...noCorrections, vane: { ...noCorrections.vane, mastheadOffset: radians(0.009) } },
    };
    const far = {
      ...known,
      active: { ...noCorrections, vane: { ...noCorrections.vane, mastheadOffset: radians(0.011) } },
    };
    expect(applicability(known, near).status).toBe("applicable");
    expect(applicability(known, far).status).toBe("refused");
  });
});

describe("a boat file beside a calibration that was keyed in", () => {
  const after = {
    base: "sensors without corrections",
    active: { ...noCorrections, vane: { ...noCorrections.vane, upwash: radians(3) } },
  } as const;

  it("may not know what was active, or say the same", () => {
    expect(contradiction(boat({}), after)).toBeUndefined();
    const same = boat({ active_settings: { vane: { upwash_deg: 3 } } });
    expect(contradiction(same, after)).toBeUndefined();
  });

  it("may not say something else", () => {
    expect(contradiction(boat({ active_settings: "none" }), after)).toBe("vane.upwash_deg: 0 against 3");
    expect(contradiction(boat({ active_settings: "none" }), { ...after, base: "unknown corrections" })).toBe(
      "the calibration counts from unknown corrections",
    );
  });
});
