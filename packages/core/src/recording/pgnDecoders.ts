import { wrapAngle, wrapDirection } from "../angles.ts";
import type { PgnDecoder, PgnValues } from "./pgnDecoder.ts";
import { angle, dateAndTime, depth, direction, offset, place, speed, temperature } from "./pgnValues.ts";

/** North that a direction is counted from. */
const NORTH = { true: 0, magnetic: 1 } as const;

/** What a wind is counted from: north, the bow; over the ground, the water; as it is felt. */
const WIND = { trueNorth: 0, magneticNorth: 1, apparent: 2, trueBoat: 3, trueWater: 4 } as const;

/** Kinds of a satellite fix that are no measurement: none, estimated, keyed in by hand, simulated, not told. */
const NO_FIX = new Set([0, 6, 7, 8, 15]);

/** What a temperature is of. */
const OF_THE_SEA = 0;

const RATES_IN_A_RADIAN_PER_SECOND = 32e6;
const RAPID_PARTS_OF_A_DEGREE = 1e7;
const FINE_PARTS_OF_A_DEGREE = 1e16;

const systemTime: PgnDecoder = {
  pgn: 126992,
  quantities: [],
  decode(fields, into) {
    into.time = dateAndTime(fields, 2);
  },
};

/** Heading as the sensor gives it; deviation (applied here, to a magnetic one) and variation. */
const heading: PgnDecoder = {
  pgn: 127250,
  quantities: [["headingTrue"], ["headingMagnetic"], ["variation"]],
  decode(fields, into) {
    const north = fields.bits(7, 0, 2);
    const told = direction(fields, 1);
    const deviation = angle(fields, 3);
    if (north === NORTH.true) into.readings[0] = told;
    if (north === NORTH.magnetic)
      into.readings[1] = wrapDirection(Number.isNaN(deviation) ? told : told + deviation);
    into.readings[2] = angle(fields, 5);
  },
};

const rateOfTurn: PgnDecoder = {
  pgn: 127251,
  quantities: [["rateOfTurn"]],
  decode(fields, into) {
    into.readings[0] = fields.signed(1, 4) / RATES_IN_A_RADIAN_PER_SECOND;
  },
};

/** Yaw, which nothing says the north of, pitch and roll. */
const attitude: PgnDecoder = {
  pgn: 127257,
  quantities: [["pitch"], ["heel"]],
  decode(fields, into) {
    into.readings[0] = angle(fields, 3);
    into.readings[1] = angle(fields, 5);
  },
};

const variation: PgnDecoder = {
  pgn: 127258,
  quantities: [["variation"]],
  decode(fields, into) {
    into.readings[0] = angle(fields, 4);
  },
};

const leeway: PgnDecoder = {
  pgn: 128000,
  quantities: [["leeway"]],
  decode(fields, into) {
    into.readings[0] = angle(fields, 1);
  },
};

/** Speed through the water, and over the ground where the sensor knows it. */
const waterSpeed: PgnDecoder = {
  pgn: 128259,
  quantities: [["speedThroughWater"], ["speedOverGround"]],
  decode(fields, into) {
    into.readings[0] = speed(fields, 1);
    into.readings[1] = speed(fields, 3);
  },
};

const waterDepth: PgnDecoder = {
  pgn: 128267,
  quantities: [["depthBelowTransducer"], ["transducerOffset"]],
  decode(fields, into) {
    into.readings[0] = depth(fields, 1);
    into.readings[1] = offset(fields, 5);
  },
};

/** The distance that the log has counted, with the time at which it did. */
const distanceLog: PgnDecoder = {
  pgn: 128275,
  isFast: true,
  quantities: [["distanceThroughWater"]],
  decode(fields, into) {
    into.readings[0] = fields.unsigned(6, 4);
  },
};

const rapidPosition: PgnDecoder = {
  pgn: 129025,
  quantities: [["latitude"], ["longitude"]],
  decode(fields, into) {
    const latitude = place(fields, fields.signed(0, 4), RAPID_PARTS_OF_A_DEGREE, 90);
    const longitude = place(fields, fields.signed(4, 4), RAPID_PARTS_OF_A_DEGREE, 180);
    addPosition(latitude, longitude, into);
  },
};

const courseAndSpeed: PgnDecoder = {
  pgn: 129026,
  quantities: [["courseOverGround"], ["courseOverGroundMagnetic"], ["speedOverGround"]],
  decode(fields, into) {
    const north = fields.bits(1, 0, 2);
    const course = direction(fields, 2);
    if (north === NORTH.true) into.readings[0] = course;
    if (north === NORTH.magnetic) into.readings[1] = course;
    into.readings[2] = speed(fields, 4);
  },
};

const satellitePosition: PgnDecoder = {
  pgn: 129029,
  isFast: true,
  quantities: [["latitude"], ["longitude"]],
  decode(fields, into) {
    const kind = fields.bits(31, 4, 4);
    if (Number.isNaN(kind) || NO_FIX.has(kind)) return;
    into.time = dateAndTime(fields, 1);
    const latitude = place(fields, fields.signed64(7), FINE_PARTS_OF_A_DEGREE, 90);
    const longitude = place(fields, fields.signed64(15), FINE_PARTS_OF_A_DEGREE, 180);
    addPosition(latitude, longitude, into);
  },
};

const timeAndDate: PgnDecoder = {
  pgn: 129033,
  quantities: [],
  decode(fields, into) {
    into.time = dateAndTime(fields, 0);
  },
};

/** Speed and angle of a wind, which is apparent or one of those computed on board: each kind has its own sources. */
const wind: PgnDecoder = {
  pgn: 130306,
  quantities: [
    ["apparentWindAngle", "apparent"],
    ["apparentWindSpeed", "apparent"],
    ["onboardTrueWindAngle", "true boat"],
    ["onboardTrueWindSpeed", "true boat"],
    ["onboardTrueWindAngle", "true water"],
    ["onboardTrueWindSpeed", "true water"],
    ["onboardTrueWindDirection", "true north"],
    ["onboardTrueWindSpeed", "true north"],
    ["onboardTrueWindDirectionMagnetic", "magnetic north"],
    ["onboardTrueWindSpeed", "magnetic north"],
  ],
  decode(fields, into) {
    const place = WIND_PLACES.get(fields.bits(5, 0, 3));
    if (place === undefined) return;
    const told = direction(fields, 3);
    into.readings[place] = place < FIRST_FROM_NORTH ? wrapAngle(told) : told;
    into.readings[place + 1] = speed(fields, 1);
  },
};

/** Where the wind of each reference stands among the quantities; from one on they are directions from north. */
const WIND_PLACES: ReadonlyMap<number, number> = new Map([
  [WIND.apparent, 0],
  [WIND.trueBoat, 2],
  [WIND.trueWater, 4],
  [WIND.trueNorth, 6],
  [WIND.magneticNorth, 8],
]);
const FIRST_FROM_NORTH = 6;

const oldEnvironment: PgnDecoder = {
  pgn: 130310,
  quantities: [["waterTemperature"]],
  decode(fields, into) {
    into.readings[0] = temperature(fields, 1, 2);
  },
};

const environment: PgnDecoder = {
  pgn: 130311,
  quantities: [["waterTemperature"]],
  decode(fields, into) {
    if (fields.bits(1, 0, 6) === OF_THE_SEA) into.readings[0] = temperature(fields, 2, 2);
  },
};

const anyTemperature: PgnDecoder = {
  pgn: 130312,
  quantities: [["waterTemperature"]],
  instanceAt: 1,
  decode(fields, into) {
    if (fields.bits(2, 0, 8) === OF_THE_SEA) into.readings[0] = temperature(fields, 3, 2);
  },
};

const fineTemperature: PgnDecoder = {
  pgn: 130316,
  quantities: [["waterTemperature"]],
  instanceAt: 1,
  decode(fields, into) {
    if (fields.bits(2, 0, 8) === OF_THE_SEA) into.readings[0] = temperature(fields, 3, 3);
  },
};

function addPosition(latitude: number, longitude: number, into: PgnValues): void {
  if (Number.isNaN(latitude + longitude)) return;
  into.readings[0] = latitude;
  into.readings[1] = longitude;
}

/** The parameter groups that are read. */
export const PGN_DECODERS: readonly PgnDecoder[] = [
  systemTime,
  heading,
  rateOfTurn,
  attitude,
  variation,
  leeway,
  waterSpeed,
  waterDepth,
  distanceLog,
  rapidPosition,
  courseAndSpeed,
  satellitePosition,
  timeAndDate,
  wind,
  oldEnvironment,
  environment,
  anyTemperature,
  fineTemperature,
];
