import { drawFaults, NO_FAULTS } from "./drawFaults.ts";
import { drawPlan } from "./drawPlan.ts";
import { Random } from "./random.ts";
import { SCENARIO_FILE, type Scenario, type ScenarioInstruments, type ScenarioWind } from "./scenario.ts";

export interface ScenarioOptions {
  /** A boat with nothing wrong. */
  readonly faultless?: boolean;
  /** About how long; 2.5 unless told. */
  readonly hours?: number;
  /** Begins under power; drawn unless told. */
  readonly motoring?: boolean;
  /** Of the wind, where it shall not be drawn (8 to 17 kn). */
  readonly windSpeedKn?: number;
  /** What the boat has or lacks: `{ heel: false }` is a boat without a heel sensor. */
  readonly instruments?: Partial<ScenarioInstruments>;
}

/** Invented waters: open sea, Baltic, far from land on every scale that matters here. */
const PLACE = { latitude_deg: 55.6, longitude_deg: 16.2 } as const;
const FIRST_DAY = Date.UTC(2025, 4, 3, 10);
const DAYS = 120;
const DAY = 86_400_000;

/** Standard deviations of a slow and a fast part whose squares add up to the whole. */
function parts(whole: number, random: Random): readonly [slow: number, fast: number] {
  const share = random.between(0.3, 0.6);
  return [whole * Math.sqrt(1 - share), whole * Math.sqrt(share)];
}

/** M71. */
function drawWind(speed: number | undefined, random: Random): ScenarioWind {
  const [directionSlow, directionFast] = parts(random.between(5, 9), random);
  const [speedSlow, speedFast] = parts(random.between(0.08, 0.18), random);
  const drawn = random.between(8, 17);
  return {
    direction_deg: random.between(0, 360),
    speed_kn: speed ?? drawn,
    veer_deg_per_hour: random.between(-3, 3),
    rise_per_hour: random.between(-0.06, 0.06),
    direction_slow_sd_deg: directionSlow,
    direction_fast_sd_deg: directionFast,
    speed_slow_sd: speedSlow,
    speed_fast_sd: speedFast,
    slow_scale_minutes: random.between(30, 60),
    fast_scale_seconds: random.between(20, 30),
    shear_deg: random.normal(),
  };
}

function drawInstruments(random: Random): ScenarioInstruments {
  return {
    heel: true,
    gps: true,
    paddle: true,
    compass: true,
    heading: "magnetic",
    vane_noise_deg: random.between(0.5, 1),
    anemometer_noise_kn: random.between(0.1, 0.25),
    speed_noise_kn: random.between(0.03, 0.08),
    compass_noise_deg: random.between(0.2, 0.5),
    heel_noise_deg: random.between(0.15, 0.3),
    gps_noise_kn: random.between(0.03, 0.08),
    vane_damping_seconds: random.between(0.3, 1),
    wind_lag_seconds: random.between(0, 1.5),
    speed_lag_seconds: random.between(0.5, 2),
    heading_lag_seconds: random.between(0, 0.5),
    heel_lag_seconds: random.between(0, 0.5),
    gps_lag_seconds: random.between(0, 1.5),
    angle_decimals: 1,
    speed_decimals: random.oneOf([1, 2]),
    silences_per_hour: random.between(0, 3),
    spikes_per_hour: random.between(0, 6),
    active_settings: "none",
  };
}

/** What another day has of its own: date, wind, current, sea, plan and helmsman. */
function drawDay(seed: number, { hours = 2.5, motoring, windSpeedKn }: ScenarioOptions) {
  const random = new Random(seed, "day");
  const wind = drawWind(windSpeedKn, random);
  return {
    seed,
    start_utc: new Date(FIRST_DAY + DAY * Math.floor(DAYS * random.uniform()))
      .toISOString()
      .replace(".000", ""),
    wind,
    current: {
      set_deg: random.between(0, 360),
      drift_kn: random.between(0, 1.2),
      wander_sd_kn: random.between(0.05, 0.15),
    },
    sea: {
      roll_sd_deg: random.between(0.4, 1.2) * (wind.speed_kn / 12),
      roll_period_seconds: random.between(2.5, 5),
      pitch_sd_deg: random.between(0.3, 0.9) * (wind.speed_kn / 12),
      pitch_period_seconds: random.between(2, 3.5),
    },
    helm: {
      asymmetry_deg: 0.8 * random.normal(),
      noise_deg: random.between(1, 2),
      lag_seconds: random.between(4, 8),
    },
    plan: drawPlan(wind.direction_deg, hours, motoring, random),
  };
}

/**
 * M73, M74. A boat, her faults and a day on the water, all drawn.
 *
 * @param seed a whole number: the same seed and options give the same scenario
 * @throws RangeError where it is none
 */
export function drawScenario(seed: number, options: ScenarioOptions = {}): Scenario {
  const random = new Random(seed, "boat");
  const drawnFaults = drawFaults(random);
  const boat = {
    name: `simulated boat ${seed}`,
    wind_sensor_height_m: random.between(12, 18),
    fastest_kn: random.between(7.5, 9.5),
    closest_angle_deg: random.between(40, 43),
    full_heel_deg: random.between(22, 28),
  };
  return {
    ...SCENARIO_FILE,
    ...PLACE,
    ...drawDay(seed, options),
    boat,
    faults: options.faultless ? NO_FAULTS : drawnFaults,
    instruments: { ...drawInstruments(random), ...options.instruments },
  };
}

/**
 * The same boat with the same faults and instruments on another day: other wind, shear, current, sea, plan and helmsman.
 *
 * @throws RangeError where the seed is no whole number
 */
export const anotherDay = (
  scenario: Scenario,
  seed: number,
  options: Pick<ScenarioOptions, "hours" | "motoring" | "windSpeedKn"> = {},
): Scenario => ({ ...scenario, ...drawDay(seed, options) });
