import type { LawErrors } from "../sensors/lawErrors.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { metresPerSecond, radians, type Seconds } from "../units.ts";
import { type Course, drawCourse } from "./drawCourse.ts";
import type { LegScenario, MissingChannel, ReadingNoise, WalkAndTurbulence } from "./legScenario.ts";
import { type RandomNumbers, randomNumbers } from "./random.ts";

/** True wind over the ground at the start, kn. */
export const WIND_STRENGTHS = { light: [7, 10], moderate: [10, 15], fresh: [16, 22] } as const;
export type WindStrength = keyof typeof WIND_STRENGTHS;

/** What may be asked of a drawn sail at the level of legs. */
export interface LegScenarioOptions {
  /** What undoes the sensors' faults, and what the laws leave out. */
  readonly settings: SensorSettings;
  readonly laws: LawErrors;
  readonly strength: WindStrength;
  readonly course: Course;
  /** Whether a stream runs, of up to 2 kn; else hardly any, and none without GPS. */
  readonly tide: boolean;
  readonly without: readonly MissingChannel[];
  readonly seconds: Seconds;
  /** Whether she begins under power; drawn, one in two, where it is not told. */
  readonly motoring?: boolean;
  /** s since 1970 UTC. */
  readonly start?: Seconds;
  /** −1: the same sail with all chances the other way round. */
  readonly sign?: 1 | -1;
}

const DRAWING = 20;
const NOON: Seconds = Date.UTC(2026, 4, 2, 12) / 1000;
const HALF_AN_HOUR = Math.sqrt(1800);

/**
 * Of three seconds' mean. With ten of them a row's own error of direction is some 0.5°, of the current some 0.03 m/s: what the fit takes
 * for it (M52).
 */
const NOISE: ReadingNoise = {
  awa: radians(1.3),
  aws: 0.25,
  stw: 0.06,
  heading: radians(0.5),
  heel: radians(0.5),
  ground: 0.05,
};

/** Scales about those that are usual, from a half to twice for most. */
function scales(inHalfAnHour: number, turbulence: number, { normal }: RandomNumbers): WalkAndTurbulence {
  const factor = (): number => Math.exp(Math.max(-1, Math.min(1, 0.5 * normal())));
  return { slow: (factor() * inHalfAnHour) / HALF_AN_HOUR, fast: factor() * turbulence };
}

/** M53, as the fit has it: upwind the mean of both tacks' apparent angles is off by 0.8°, heel by 0.8°, upright by 0.6°. */
const TWIST = radians(0.8 / 0.74);
const HEEL = radians(0.78);
const UPRIGHT = radians(0.6);

/** M173. A sail at the level of legs, drawn from a seed. @throws RangeError where the seed is no whole number */
export function drawLegScenario(seed: number, options: LegScenarioOptions): LegScenario {
  const random = randomNumbers(seed, DRAWING);
  const { between, normal } = random;
  const { settings, laws, strength, course, tide, without, seconds, start = NOON, sign = 1 } = options;
  const direction = radians(between(0, 360));
  const [least, most] = WIND_STRENGTHS[strength];
  const still = without.includes("gps");
  const stream = tide ? 0.6 : 0.1;
  const motoring = options.motoring ?? random.chance(0.5);
  return {
    seed,
    sign,
    start,
    plan: drawCourse(course, direction, seconds, motoring, random),
    wind: {
      direction,
      speed: metresPerSecond(between(least, most)),
      directionWander: scales(radians(4), radians(4), random),
      logSpeedWander: scales(0.08, 0.08, random),
      turbulenceSeconds: between(20, 30),
    },
    current: {
      east: still ? 0 : stream * normal(),
      north: still ? 0 : stream * normal(),
      wander: still
        ? { slow: 0, fast: 0 }
        : scales(metresPerSecond(tide ? 0.25 : 0.08), tide ? 0.05 : 0.03, random),
    },
    settings,
    laws,
    asymmetry: {
      twist: sign * TWIST * normal(),
      heel: sign * HEEL * normal(),
      upright: sign * UPRIGHT * normal(),
    },
    noise: NOISE,
    without,
  };
}
