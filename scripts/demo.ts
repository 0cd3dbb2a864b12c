import { gzipSync } from "fflate";
import { noCorrections } from "../packages/core/src/sensors/noCorrections.ts";
import type { BoatFaults } from "../packages/core/src/simulate/faults.ts";
import { randomNumbers } from "../packages/core/src/simulate/random.ts";
import type { PlanStep, Scenario } from "../packages/core/src/simulate/scenario.ts";
import { scenarioFileText, scenarioFromFile } from "../packages/core/src/simulate/scenarioFile.ts";
import { linesOfSail } from "../packages/core/src/simulate/simulatedLog.ts";
import { simulatedSail } from "../packages/core/src/simulate/simulatedSail.ts";
import { METRES_PER_SECOND_IN_A_KNOT, metresPerSecond, radians } from "../packages/core/src/units.ts";

/** The invented boat's faults; `TRUTH` says them in words. */
const faults: BoatFaults = {
  speed: { deficit: metresPerSecond(0.2), deficitFalling: 0.5, gainStarboard: 0.955, gainPort: 0.945 },
  compass: {
    a: radians(2),
    b: radians(1),
    c: radians(-1),
    d: radians(0.3),
    e: radians(0.2),
    third: radians(0.15),
    thirdPhase: radians(40),
    heelingError: 0.02,
  },
  heel: { sign: 1, zero: radians(1), gain: 1 },
  vane: {
    mastheadOffset: radians(2.4),
    upwash: radians(5),
    upwashAngle: radians(33),
    upwashNarrowness: 1.6,
    upwashSpeed: metresPerSecond(14.5),
    upwashWidth: 1.3,
    trimWander: 0.06,
  },
  anemometer: { threshold: metresPerSecond(0.8), gain: 1.04, speedUp: 0.04 },
  leeway: { coefficient: 10 * METRES_PER_SECOND_IN_A_KNOT ** 2, exponent: 1.9 },
};

/** The same in words and in the units of files. What the sensors' readings need is given, as corrections are. */
const TRUTH = {
  about:
    "The invented boat's true faults, against which an answer can be judged. True value = what the entry makes of the reading.",
  masthead_offset_deg: 2.4,
  masthead_offset: "the vane reads 2.4° too far to starboard on both tacks: take 2.4° off every reading",
  upwash_deg: 5,
  upwash:
    "with well trimmed sails, close-hauled in some 15 kn of apparent wind, the vane reads up to 5° too wide on either tack",
  speed_gain_starboard: 0.955,
  speed_gain_port: 0.945,
  speed_gain:
    "the speed sensor reads some 5 % too much: multiply by 0.955 on starboard tack, by 0.945 on port",
  speed_intercept_kn: 0.2,
  speed_intercept: "the paddle wheel loses 0.2 kn at 5 kn, half of it falling with speed: add it",
  compass_a_deg: 2,
  compass_b_deg: 1,
  compass_c_deg: -1,
  compass_d_deg: 0.3,
  compass_e_deg: 0.2,
  compass_heeling_error_deg_per_deg: 0.02,
  compass:
    "deviation A to E, to be added to the compass heading; beside it 0.15° in the third harmonic, which no table has",
  heel_sensor_sign: 1,
  heel_zero_deg: 1,
  heel: "the heel sensor reads 1° when she is upright: take it off",
  anemometer_threshold_kn: 0.8,
  anemometer_gain: 1.04,
  anemometer:
    "the anemometer reads some 4 % too little (multiply by 1.04) and turns from 0.8 kn on (add that)",
  anemometer_speed_up: 0.04,
  speed_up: "over the sails the air is up to 4 % faster, dead downwind",
  leeway_coefficient_deg_kn2_per_deg: 10,
  leeway: "leeway = 10 · heel / speed² at 7 kn, with 1.9 for the exponent",
} as const;

const BOAT = {
  schema: "bothtacks-boat",
  version: 1,
  name: "the demonstration boat",
  mast_height_m: 15.5,
  computer: { corrects_heel: true, corrects_leeway: true, table: "apparent" },
  steered_by: "sails",
  active_settings: "none",
} as const;

const [STARBOARD, PORT] = ["starboard", "port"] as const;

/** Legs one after another on changing tacks. */
const zigzag = (kind: "beat" | "run", first: "starboard" | "port", seconds: readonly number[]): PlanStep[] =>
  seconds.map((lasting, leg) => ({
    kind,
    tack: (leg % 2 === 0) === (first === STARBOARD) ? STARBOARD : PORT,
    seconds: lasting,
  }));

const motor = (heading: number, seconds: number): PlanStep => ({
  kind: "motor",
  heading: radians(heading),
  speed: metresPerSecond(5.8),
  seconds,
});

const reach = (tack: "starboard" | "port", angle: number, seconds: number): PlanStep => ({
  kind: "reach",
  tack,
  angle: radians(angle),
  seconds,
});

const luff = (seconds: number): PlanStep => ({ kind: "luff", tack: STARBOARD, seconds });

/** Two hours and a half: out of harbour under power with a circle each way, then three rounds. */
const PLAN: readonly PlanStep[] = [
  motor(205, 240),
  motor(290, 150),
  { kind: "circle", turns: 1, rate: radians(3.6), speed: metresPerSecond(5.8) },
  { kind: "circle", turns: -1, rate: radians(3.6), speed: metresPerSecond(5.8) },
  motor(235, 200),
  luff(110),
  ...zigzag("beat", STARBOARD, [300, 260, 330, 210, 280, 240]),
  ...zigzag("run", PORT, [290, 340, 250, 300]),
  luff(60),
  ...zigzag("beat", PORT, [260, 310, 190, 340, 230, 270]),
  reach(STARBOARD, 95, 300),
  ...zigzag("run", STARBOARD, [270, 320, 240, 280]),
  ...zigzag("beat", STARBOARD, [320, 250, 300, 230]),
  reach(PORT, 80, 260),
  ...zigzag("run", PORT, [330, 260, 290]),
];

const sensor = (lag: number, damping: number, noise: number) => ({ present: true, lag, damping, noise });

/** An invented bay, in truth open sea; a June day. */
export const DEMO_SCENARIO: Scenario = {
  seed: 20_260_613,
  start: Date.UTC(2026, 5, 13, 11, 5) / 1000,
  latitude: radians(48.85),
  longitude: radians(-10.4),
  mastHeight: 15.5,
  faults,
  wind: {
    direction: radians(228),
    speed: metresPerSecond(13),
    directionSd: radians(6),
    turbulentDirectionSd: radians(3.4),
    logSpeedSd: 0.12,
    turbulentLogSpeedSd: 0.07,
    turbulenceSeconds: 25,
    veer: radians(4),
    rise: 0.08,
    bend: radians(0.5),
  },
  shear: { twist: radians(0.4), twistWander: radians(0.2), speedRatio: 0.96 },
  current: {
    strength: metresPerSecond(0.7),
    set: radians(70),
    phase: radians(50),
    wander: metresPerSecond(0.06),
  },
  sea: {
    roll: radians(1.4),
    pitch: radians(0.8),
    yaw: radians(1.2),
    rollFrequency: 0.27,
    pitchFrequency: 0.4,
  },
  helm: { steersBy: "sails", asymmetry: radians(0.3), noise: radians(1.4) },
  plan: PLAN,
  log: {
    wind: { ...sensor(0.5, 1, radians(2)), speedNoise: 0.2 },
    paddle: sensor(0.75, 1.5, 0.08),
    compass: sensor(0.25, 0.4, radians(0.5)),
    heel: sensor(0.25, 0.5, radians(0.4)),
    gps: sensor(0.75, 0.5, 0.04),
    windRate: 2,
    heelRate: 2,
    angleDecimals: 1,
    speedDecimals: 2,
    headings: "magnetic",
    active: noCorrections,
    spikesPerHour: 4,
    silencesPerHour: 1,
    brokenLinesPerHour: 6,
    onboardTrueWind: false,
  },
};

/** Bytes that are no text, as when a plug is pulled; at these lines of the log. */
const JUNK_AFTER_LINES = [9_000, 41_000] as const;

function* withJunk(lines: Iterable<string>): Generator<string> {
  const random = randomNumbers(DEMO_SCENARIO.seed, 99);
  let count = 0;
  for (const line of lines) {
    yield line;
    count += 1;
    if (!JUNK_AFTER_LINES.some((after) => after === count)) continue;
    yield Array.from({ length: 40 }, () => String.fromCharCode(random.between(128, 256))).join("");
  }
}

/** One byte a character: the log holds bytes that are no UTF-8. */
const bytesOf = (lines: Iterable<string>): Buffer =>
  Buffer.from([...lines].map((line) => `${line}\r\n`).join(""), "latin1");

/** "No time", by RFC 1952: the same bytes whenever they are made. */
const NO_TIME = 0;

const json = (value: unknown): string => `${JSON.stringify(value, undefined, 2)}\n`;

/** The files of datasets/demo that are made, by their names; the same bytes each time. */
export function demoFiles(): Readonly<Record<string, Uint8Array | string>> {
  const scenario = scenarioFileText(DEMO_SCENARIO);
  // the scenario as its file says it, so that `bothtacks simulate` makes the same log of it, but for the junk
  const sail = simulatedSail(scenarioFromFile(scenario, "scenario.json"));
  const log = bytesOf(withJunk(linesOfSail(sail)));
  return {
    "demo.nmea.gz": gzipSync(log, { level: 9, mtime: NO_TIME }),
    "boat.json": json(BOAT),
    "scenario.json": scenario,
    "truth.json": json(TRUTH),
  };
}
