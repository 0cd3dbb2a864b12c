import { Matrix, SVD } from "ml-matrix";
import { noCorrections } from "../sensors/noCorrections.ts";
import type { SensorSettings, VaneParameters } from "../sensors/parameters.ts";
import { upwash } from "../sensors/vane.ts";
import { metresPerSecond, type Radians, radians } from "../units.ts";
import { paddleReading, trueLeeway, trueUpwash } from "./faultShapes.ts";
import type { AnemometerFault, BoatFaults, LeewayLaw, SpeedFault, VaneFault } from "./faults.ts";

/** The solution of a linear problem by least squares. */
const leastSquaresOf = (rows: readonly (readonly number[])[], values: readonly number[]): readonly number[] =>
  new SVD(new Matrix(rows.map((row) => [...row]))).solve(Matrix.columnVector([...values])).to1DArray();

const range = (first: number, last: number, step: number): readonly number[] =>
  Array.from({ length: Math.floor((last - first) / step + 1.5) }, (_, index) => first + index * step);

/** Heel at which a boat certainly shows one of her sides (rad). */
const HEELED: Radians = radians(20);

function speedSettings(fault: SpeedFault): SensorSettings["speed"] {
  const speeds = range(3, 8, 0.5).map(metresPerSecond);
  const rows = [
    ...speeds.map((speed) => [1, paddleReading(speed, -HEELED, fault), 0]),
    ...speeds.map((speed) => [1, 0, paddleReading(speed, HEELED, fault)]),
  ];
  const [intercept = 0, gainStarboard = 1, gainPort = 1] = leastSquaresOf(rows, [...speeds, ...speeds]);
  return { intercept, gainStarboard, gainPort };
}

/** Apparent wind angles (deg) at which a boat sails, as often as she does, and speeds (m/s). */
const ANGLES = [22, 25, 28, 31, 34, 37, 28, 31, 34, 60, 80, 100, 120, 140, 160];
const SPEEDS = range(5, 13, 1);

function vaneSettings(fault: VaneFault): VaneParameters {
  const none: VaneParameters = { ...noCorrections.vane };
  const states = ANGLES.flatMap((angle) => SPEEDS.map((speed) => ({ angle: radians(angle), speed })));
  const targets = states.map(({ angle, speed }) => trueUpwash(angle, speed, 1, fault));
  const rows = states.map(({ angle, speed }, at) => {
    const indicated = angle + targets[at]!;
    return [
      upwash(indicated, speed, { ...none, upwash: 1 }),
      upwash(indicated, speed, { ...none, upwashSlope: 1 }),
      upwash(indicated, speed, { ...none, upwashBroad: 1 }),
    ];
  });
  const [level = 0, upwashSlope = 0, upwashBroad = 0] = leastSquaresOf(rows, targets);
  return { mastheadOffset: fault.mastheadOffset, upwash: level, upwashSlope, upwashBroad };
}

function anemometerSettings({ threshold, gain, speedUp }: AnemometerFault): SensorSettings["anemometer"] {
  const shares = ANGLES.map((angle) => (1 + Math.tanh((angle - 105) / 30)) / 2);
  const [nearest = 0] = leastSquaresOf(
    ANGLES.map((angle) => [Math.sin(radians(angle / 2)) ** 2]),
    shares.map((share) => speedUp * share),
  );
  return { threshold, gain, speedUp: nearest };
}

/** Heel grows about as the square of speed, so that leeway is of one size at all speeds and each counts alike. */
function leewayCoefficient(law: LeewayLaw): number {
  const speeds = range(4, 7.5, 0.5).map(metresPerSecond);
  const [coefficient = 0] = leastSquaresOf(
    speeds.map(() => [1]),
    speeds.map((speed) => trueLeeway(1, speed, law) * speed ** 2),
  );
  return coefficient;
}

/**
 * The settings that come nearest to undoing faults: since the faults have other forms, by least squares over what is
 * sailed (3 to 8 kn, all points of sail, 5 to 13 m/s of apparent wind). What no fit could do better, but by chance.
 *
 * Never throws.
 *
 * @example
 * degrees(nearestSettings({ ...noFaults, vane: { ...noFaults.vane, mastheadOffset: radians(3) } }).vane.mastheadOffset).toFixed(1) // "3.0"
 */
export function nearestSettings({
  speed,
  compass,
  heel,
  vane,
  anemometer,
  leeway,
}: BoatFaults): SensorSettings {
  const { a, b, c, d, e, heelingError } = compass;
  return {
    ...noCorrections,
    speed: speedSettings(speed),
    compass: { a, b, c, d, e, heelingError },
    heel: { sign: heel.sign, zero: heel.zero },
    vane: vaneSettings(vane),
    anemometer: anemometerSettings(anemometer),
    leeway: { coefficient: leewayCoefficient(leeway) },
  };
}
