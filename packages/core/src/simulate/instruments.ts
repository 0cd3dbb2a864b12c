import { wrapDirection } from "../angles.ts";
import { readingsWithActive } from "../calibration/activeReadings.ts";
import { mastheadMotionAhead, mastheadMotionAthwart } from "../physics/attitude.ts";
import { speedOf } from "../physics/vectors.ts";
import { unknownBoatReadings } from "../sensors/boatReadings.ts";
import type { BoatReadings } from "../sensors/boatState.ts";
import type { MetresPerSecond, Radians, Seconds } from "../units.ts";
import type { Boat } from "./boatMotion.ts";
import { anemometerReading, compassReading, heelReading, paddleReading, vaneReading } from "./faultShapes.ts";
import { ornsteinUhlenbeck, type Process } from "./processes.ts";
import type { RandomNumbers } from "./random.ts";
import type { Scenario, SensorForm } from "./scenario.ts";
import { SensorLine } from "./sensorLine.ts";

/** How long the error of a satellite receiver's velocity lasts. */
const GPS_ERROR_LASTS: Seconds = 5;

/** The level apparent wind at the masthead, by components: ahead, and from starboard. */
export interface LevelWind {
  ahead: MetresPerSecond;
  athwart: MetresPerSecond;
}

const absent = (form: SensorForm, line: () => SensorLine): SensorLine | undefined =>
  form.present ? line() : undefined;

/** M73, M75 to M78. The sensors of the boat: what is true, with its faults, late, smoothed and noisy. */
export class Instruments {
  readonly #scenario: Scenario;
  readonly #variation: Radians;
  readonly #awa: SensorLine | undefined;
  readonly #aws: SensorLine | undefined;
  readonly #stw: SensorLine | undefined;
  readonly #heading: SensorLine | undefined;
  readonly #heel: SensorLine | undefined;
  readonly #pitch: SensorLine | undefined;
  readonly #east: SensorLine | undefined;
  readonly #north: SensorLine | undefined;
  readonly #eastError: Process;
  readonly #northError: Process;
  /** What they put out now, corrections applied, before rounding. */
  readonly now: BoatReadings = unknownBoatReadings();
  pitch: Radians = Number.NaN;

  constructor(scenario: Scenario, variation: Radians, step: Seconds, random: RandomNumbers) {
    const { wind, paddle, compass, heel, gps } = scenario.log;
    const angle = (form: SensorForm) =>
      absent(form, () => new SensorLine(form, form.noise, true, step, random));
    const speed = (form: SensorForm, noise: number) =>
      absent(form, () => new SensorLine(form, noise, false, step, random));
    this.#scenario = scenario;
    this.#variation = scenario.log.headings === "true" ? variation : 0;
    this.#awa = angle(wind);
    this.#aws = speed(wind, wind.speedNoise);
    this.#stw = speed(paddle, paddle.noise);
    this.#heading = angle(compass);
    this.#heel = angle(heel);
    this.#pitch = angle(heel);
    this.#east = speed(gps, 0);
    this.#north = speed(gps, 0);
    this.#eastError = ornsteinUhlenbeck(gps.noise, GPS_ERROR_LASTS, step, random);
    this.#northError = ornsteinUhlenbeck(gps.noise, GPS_ERROR_LASTS, step, random);
  }

  /**
   * Takes one step of time.
   *
   * @param magneticHeading rad
   */
  read(boat: Boat, level: LevelWind, magneticHeading: Radians): BoatReadings {
    const { now } = this;
    const { faults, log } = this.#scenario;
    this.#readWind(boat, level);
    now.stw = this.#stw?.push(paddleReading(boat.speed, boat.heel, faults.speed)) ?? Number.NaN;
    const compass = compassReading(magneticHeading, boat.heel, faults.compass) + this.#variation;
    now.heading = wrapDirection(this.#heading?.push(compass) ?? Number.NaN);
    now.heel = this.#heel?.push(heelReading(boat.heel, faults.heel)) ?? Number.NaN;
    this.pitch = this.#pitch?.push(boat.pitch) ?? Number.NaN;
    now.east = this.#east?.push(boat.groundEast + this.#eastError()) ?? Number.NaN;
    now.north = this.#north?.push(boat.groundNorth + this.#northError()) ?? Number.NaN;
    return readingsWithActive(now, log.active, now);
  }

  /** M11, M13: the level wind in the mast's own plane, with the masthead's motion; then vane and cups. */
  #readWind(boat: Boat, level: LevelWind): void {
    const { mastHeight, faults } = this.#scenario;
    const { heel, pitch } = boat;
    const ahead = level.ahead * Math.cos(pitch) + mastheadMotionAhead(mastHeight, boat.pitchRate);
    const athwart =
      level.athwart * Math.cos(heel) +
      level.ahead * Math.sin(heel) * Math.sin(pitch) +
      mastheadMotionAthwart(mastHeight, boat.heelRate, 0, 0);
    const angle = Math.atan2(athwart, ahead);
    const speed = speedOf(ahead, athwart);
    const { now } = this;
    now.awa = this.#awa?.push(vaneReading(angle, speed, boat.trim, faults.vane)) ?? Number.NaN;
    now.aws = this.#aws?.push(anemometerReading(angle, speed, boat.trim, faults.anemometer)) ?? Number.NaN;
  }
}
