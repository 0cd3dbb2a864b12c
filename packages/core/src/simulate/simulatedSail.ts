import { wrapAngle, wrapDirection } from "../angles.ts";
import { variationAt } from "../physics/variation.ts";
import { directionOf, speedOf } from "../physics/vectors.ts";
import type { Radians, Seconds } from "../units.ts";
import { type Boat, BoatInWind } from "./boatMotion.ts";
import { Helmsman } from "./helmsman.ts";
import { Instruments } from "./instruments.ts";
import { LOGGED_COLUMNS, type LoggedColumns, Logger } from "./logger.ts";
import { secondsOfPlan, wantedAngle } from "./planRunner.ts";
import { type RandomNumbers, randomNumbers } from "./random.ts";
import type { Scenario } from "./scenario.ts";
import { columnsNamed, TRUTH_COLUMNS, type Truth } from "./truth.ts";
import { type Weather, WeatherOfDay } from "./weather.ts";

/** Steps of time in a second; the waves swing her every two to five seconds. */
export const STEPS_IN_A_SECOND = 4;
const STEP: Seconds = 1 / STEPS_IN_A_SECOND;

/** Which stream of random numbers a part of the simulation draws from. */
const STREAMS = { weather: 1, boat: 2, helm: 3, sensors: 4, mishaps: 5 } as const;

/** A sail that was simulated: the truth, and what the instruments put out. */
export interface SimulatedSail {
  readonly scenario: Scenario;
  readonly truth: Truth;
  /** A row for every quarter of a second, NaN where nothing was put out. */
  readonly logged: LoggedColumns;
}

/** Heading and speed with which the sail begins. */
function beginning(scenario: Scenario): { readonly heading: Radians; readonly speed: number } {
  const first = scenario.plan[0];
  if (first === undefined) throw new RangeError("simulatedSail: the plan must hold a step, got none");
  if (first.kind === "motor") return { heading: first.heading, speed: first.speed };
  const { direction, speed } = scenario.wind;
  if (first.kind === "circle") return { heading: direction, speed: first.speed };
  const side = first.tack === "starboard" ? 1 : -1;
  return { heading: direction - side * wantedAngle(first, speed), speed: speed / 2 };
}

class Simulation {
  readonly #scenario: Scenario;
  readonly #seconds: number;
  readonly #variation: Radians;
  readonly #weather: WeatherOfDay;
  readonly #helmsman: Helmsman;
  readonly #boat: BoatInWind;
  readonly #instruments: Instruments;
  readonly #logger: Logger;
  readonly #truth: Truth["columns"];
  readonly #level = { ahead: 0, athwart: 0 };

  constructor(scenario: Scenario) {
    const { latitude, longitude, start, plan, log } = scenario;
    if (!log.heel.present && log.active.compass.heelingError !== 0)
      throw new RangeError("simulatedSail: an active heeling error needs a heel sensor, got none");
    const random = (stream: keyof typeof STREAMS): RandomNumbers =>
      randomNumbers(scenario.seed, STREAMS[stream]);
    this.#scenario = scenario;
    this.#seconds = secondsOfPlan(plan);
    this.#variation = variationAt(latitude, longitude, start);
    if (Number.isNaN(this.#variation))
      throw new RangeError(`simulatedSail: no variation is known at the place and time, ${start} s`);
    const { heading, speed } = beginning(scenario);
    this.#weather = new WeatherOfDay(scenario, this.#seconds, STEP, random("weather"));
    this.#boat = new BoatInWind(scenario, heading, speed, STEP, random("boat"));
    this.#helmsman = new Helmsman(scenario.helm, plan, STEP, random("helm"));
    this.#instruments = new Instruments(scenario, this.#variation, STEP, random("sensors"));
    const steps = this.#seconds * STEPS_IN_A_SECOND;
    this.#logger = new Logger(scenario, columnsNamed(LOGGED_COLUMNS, steps), random("mishaps"));
    this.#truth = columnsNamed(TRUTH_COLUMNS, this.#seconds);
  }

  run(): SimulatedSail {
    for (let step = 0; step < this.#seconds * STEPS_IN_A_SECOND; step++) this.#advance(step);
    const truth = { length: this.#seconds, variation: this.#variation, columns: this.#truth };
    return { scenario: this.#scenario, truth, logged: this.#logger.columns };
  }

  #advance(step: number): void {
    const seconds = step * STEP;
    const weather = this.#weather.moveTo(seconds, this.#boat.now.east, this.#boat.now.north);
    const { rate, wanted } = this.#helmsman.steer(seconds, this.#felt(weather));
    const boat = this.#boat.move(rate, wanted, weather);
    this.#feelWind(boat, weather);
    this.#instruments.read(boat, this.#level, boat.heading - this.#variation);
    this.#logger.log(step, this.#instruments, boat);
    if (step % STEPS_IN_A_SECOND !== 0) return;
    const second = step / STEPS_IN_A_SECOND;
    this.#truth.motoring[second] = wanted.side === 0 ? 1 : 0;
    this.#truth.turning[second] = wanted.rate === undefined ? 0 : 1;
    this.#tell(second, boat, weather);
  }

  #felt({ sailsEast, sailsNorth }: Weather) {
    const { heading, speed, leeway } = this.#boat.now;
    const windDirection = Math.atan2(sailsEast, sailsNorth);
    const windSpeed = speedOf(sailsEast, sailsNorth);
    const angle = windDirection - heading;
    const abeam = windSpeed * Math.sin(angle) + speed * Math.tan(leeway);
    return {
      heading,
      speed,
      windDirection,
      windSpeed,
      apparentAngle: Math.atan2(abeam, windSpeed * Math.cos(angle) + speed),
      displayedAngle: this.#instruments.now.awa,
    };
  }

  /** M10, M14: apparent wind = wind over the ground plus the motion over it. */
  #feelWind(boat: Boat, weather: Weather): void {
    const east = weather.groundEast + boat.groundEast;
    const north = weather.groundNorth + boat.groundNorth;
    const [sine, cosine] = [Math.sin(boat.heading), Math.cos(boat.heading)];
    this.#level.ahead = east * sine + north * cosine;
    this.#level.athwart = east * cosine - north * sine;
  }

  #tell(second: number, boat: Boat, weather: Weather): void {
    const truth = this.#truth;
    const { now } = this.#instruments;
    truth.time[second] = this.#scenario.start + second;
    truth.groundWindDirection[second] = directionOf(weather.groundEast, weather.groundNorth);
    truth.groundWindSpeed[second] = speedOf(weather.groundEast, weather.groundNorth);
    truth.waterWindDirection[second] = directionOf(weather.waterEast, weather.waterNorth);
    truth.waterWindSpeed[second] = speedOf(weather.waterEast, weather.waterNorth);
    truth.apparentAngle[second] = wrapAngle(Math.atan2(this.#level.athwart, this.#level.ahead));
    truth.apparentSpeed[second] = speedOf(this.#level.ahead, this.#level.athwart);
    truth.speed[second] = boat.speed;
    truth.heading[second] = wrapDirection(boat.heading);
    truth.heel[second] = boat.heel;
    truth.leeway[second] = boat.leeway;
    truth.currentEast[second] = weather.currentEast;
    truth.currentNorth[second] = weather.currentNorth;
    truth.sails[second] = boat.sails;
    truth.loggedAwa[second] = now.awa;
    truth.loggedAws[second] = now.aws;
    truth.loggedStw[second] = now.stw;
    truth.loggedHeading[second] = now.heading;
    truth.loggedHeel[second] = now.heel;
    truth.loggedEast[second] = now.east;
    truth.loggedNorth[second] = now.north;
  }
}

/**
 * The sail of a scenario: the same to the last bit whenever it is simulated by the same engine.
 *
 * @throws RangeError where the plan is empty, the seed no whole number, no variation known at place and time, or a
 *   heeling error corrected without a heel sensor
 * @example
 * const { truth } = simulatedSail(drawScenario(7, { seconds: 600 }));
 * truth.columns.groundWindSpeed.length === truth.length // true
 */
export const simulatedSail = (scenario: Scenario): SimulatedSail => new Simulation(scenario).run();
