import { wrapAngle, wrapDirection } from "../angles.ts";
import { type MetresPerSecond, metresPerSecond, type Radians, radians } from "../units.ts";
import type { AnemometerFault, CompassFault, HeelFault, LeewayLaw, SpeedFault, VaneFault } from "./faults.ts";

/**
 * What faults make of the truth. The forms are choices, none of them is the one that `sensors/` undoes: see `faults.ts`.
 * None of these throws; NaN in, NaN out.
 */

/** Speed at which the deficit of a paddle wheel is told. */
const DEFICIT_SPEED: MetresPerSecond = metresPerSecond(5);
/** No wheel's deficit grows beyond so many times what it is there. */
const MOST_DEFICITS = 2;
/** Heel by which most of the difference between the two sides of a hull is seen. */
const SIDED_HEEL: Radians = radians(4);

/**
 * M75. What a paddle wheel shows: (speed − lag) / gain, at least 0, with
 * lag = deficit · (1 − f + f · min(2, 5 kn / speed)), f the falling share, and the gain going over from one side's to the
 * other's as tanh(heel / 4°).
 */
export function paddleReading(speed: MetresPerSecond, heel: Radians, fault: SpeedFault): MetresPerSecond {
  const { deficit, deficitFalling, gainStarboard, gainPort } = fault;
  const falling = Math.min(MOST_DEFICITS, DEFICIT_SPEED / Math.max(speed, Number.MIN_VALUE));
  const lag = deficit * (1 - deficitFalling + deficitFalling * falling);
  const toPort = (1 - Math.tanh(heel / SIDED_HEEL)) / 2;
  const gain = gainPort + (gainStarboard - gainPort) * toPort;
  return Math.max(0, (speed - lag) / gain);
}

/** M76. Deviation on a compass heading: the series of M21 and a third harmonic, third · sin(3 c + thirdPhase). */
export function trueDeviation(compassHeading: Radians, heel: Radians, fault: CompassFault): Radians {
  const { a, b, c, d, e, third, thirdPhase, heelingError } = fault;
  const sine = Math.sin(compassHeading);
  const cosine = Math.cos(compassHeading);
  return (
    a +
    b * sine +
    (c + heelingError * Math.sin(heel)) * cosine +
    d * 2 * sine * cosine +
    e * (cosine * cosine - sine * sine) +
    (third === 0 ? 0 : third * Math.sin(3 * compassHeading + thirdPhase))
  );
}

/** Substitution ends once it moves by less than this, a millionth of the last digit of a compass, or after so many rounds. */
const SETTLED: Radians = 1e-9;
const MOST_ROUNDS = 50;

/** M76. What the compass shows on a heading: c = heading − deviation(c), by substitution; [0, 2π). */
export function compassReading(heading: Radians, heel: Radians, fault: CompassFault): Radians {
  let reading = heading - fault.a;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const next = heading - trueDeviation(reading, heel, fault);
    const moved = Math.abs(next - reading);
    reading = next;
    if (!(moved > SETTLED)) break;
  }
  return wrapDirection(reading);
}

/** What the heel sensor shows: sign · gain · (heel + zero). */
export const heelReading = (heel: Radians, { sign, zero, gain }: HeelFault): Radians =>
  sign * gain * (heel + zero);

/**
 * M77. Upwash at the masthead: ± upwash · (r e^(1 − r))ⁿ · cos(a/2) · e^(−½ (ln(v/v₁)/w)²) · trim, with r = |a| / upwashAngle,
 * n the narrowness, v₁ and w speed and width: largest close-hauled in moderate wind, nothing dead downwind.
 *
 * @param angle of the flow at the masthead, in the mast's plane, (−π, π]
 * @param speed of the flow there
 * @param trim 1 with sails well trimmed, 0 with none
 */
export function trueUpwash(angle: Radians, speed: MetresPerSecond, trim: number, fault: VaneFault): Radians {
  const { upwash, upwashAngle, upwashNarrowness, upwashSpeed, upwashWidth } = fault;
  const ratio = Math.abs(angle) / upwashAngle;
  const byAngle = (ratio * Math.exp(1 - ratio)) ** upwashNarrowness * Math.cos(angle / 2);
  const bySpeed = Math.exp(-((Math.log(Math.max(speed, 0.1) / upwashSpeed) / upwashWidth) ** 2) / 2);
  return Math.sign(angle) * upwash * byAngle * bySpeed * trim;
}

/** M77. What the vane shows: flow + offset + upwash, (−π, π]. */
export const vaneReading = (
  angle: Radians,
  speed: MetresPerSecond,
  trim: number,
  fault: VaneFault,
): Radians => wrapAngle(angle + fault.mastheadOffset + trueUpwash(angle, speed, trim, fault));

/** Wind angle about which the speed-up over the sails sets in, and how softly. */
const SPEED_UP_FROM: Radians = radians(105);
const SPEED_UP_SOFTNESS: Radians = radians(30);

/**
 * M78. What the cups show: (speed · (1 + speedUp · h · trim) − threshold) / gain, at least 0, with
 * h = (1 + tanh((|a| − 105°) / 30°)) / 2.
 */
export function anemometerReading(
  angle: Radians,
  speed: MetresPerSecond,
  trim: number,
  fault: AnemometerFault,
): MetresPerSecond {
  const share = (1 + Math.tanh((Math.abs(angle) - SPEED_UP_FROM) / SPEED_UP_SOFTNESS)) / 2;
  const cups = speed * (1 + fault.speedUp * share * Math.min(1, trim));
  return Math.max(0, (cups - fault.threshold) / fault.gain);
}

/** Speed at which the leeway law agrees with the common one, and the least that it counts with. */
const LEEWAY_SPEED: MetresPerSecond = metresPerSecond(7);
const LEEWAY_LEAST_SPEED: MetresPerSecond = metresPerSecond(3);

/** M79. Leeway: coefficient · heel / (7 kn)² · (7 kn / speed)^exponent, the speed counting as at least 3 kn. */
export const trueLeeway = (heel: Radians, speed: MetresPerSecond, law: LeewayLaw): Radians =>
  ((law.coefficient * heel) / LEEWAY_SPEED ** 2) *
  (LEEWAY_SPEED / Math.max(speed, LEEWAY_LEAST_SPEED)) ** law.exponent;
