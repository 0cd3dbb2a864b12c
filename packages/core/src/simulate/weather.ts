import type { Radians, Seconds } from "../units.ts";
import { ornsteinUhlenbeck, type Process } from "./processes.ts";
import type { RandomNumbers } from "./random.ts";
import type { Scenario } from "./scenario.ts";
import { atMoment, type Wander, wanderOfWind } from "./wanderingWind.ts";

/** Half a tide: flood and ebb take it together. */
const TIDE: Seconds = 44_714;
/** Across the wind the bend is halfway to its end this far from the middle (m). */
const BEND_WIDTH = 1500;
const SHEAR_SECONDS: Seconds = 1800;
const CURRENT_SECONDS: Seconds = 1500;

/** Wind and water about the boat at one moment; vectors in m/s, a wind's pointing to where it comes from. */
export interface Weather {
  /** Over the ground and over the water at the masthead. */
  groundEast: number;
  groundNorth: number;
  waterEast: number;
  waterNorth: number;
  /** Over the water at the height of the sails. */
  sailsEast: number;
  sailsNorth: number;
  currentEast: number;
  currentNorth: number;
}

/** M72. The weather of a sail, moment after moment. */
export class WeatherOfDay {
  readonly #scenario: Scenario;
  readonly #wander: Wander;
  readonly #twist: Process;
  readonly #currentEast: Process;
  readonly #currentNorth: Process;
  readonly now: Weather = {
    groundEast: 0,
    groundNorth: 0,
    waterEast: 0,
    waterNorth: 0,
    sailsEast: 0,
    sailsNorth: 0,
    currentEast: 0,
    currentNorth: 0,
  };

  constructor(scenario: Scenario, seconds: number, step: Seconds, random: RandomNumbers) {
    const { wind, shear, current } = scenario;
    this.#scenario = scenario;
    this.#wander = wanderOfWind(wind, seconds, random);
    this.#twist = ornsteinUhlenbeck(shear.twistWander, SHEAR_SECONDS, step, random);
    this.#currentEast = ornsteinUhlenbeck(current.wander, CURRENT_SECONDS, step, random);
    this.#currentNorth = ornsteinUhlenbeck(current.wander, CURRENT_SECONDS, step, random);
  }

  /**
   * Moves on to a moment.
   *
   * @param seconds since the start
   * @param east place of the boat from the start, m
   * @param north likewise
   */
  moveTo(seconds: Seconds, east: number, north: number): Weather {
    const { wind, shear } = this.#scenario;
    const now = this.now;
    this.#runTide(seconds);
    const toTheRight = east * Math.cos(wind.direction) - north * Math.sin(wind.direction);
    const direction: Radians =
      wind.direction +
      atMoment(this.#wander.direction, seconds) +
      wind.bend * Math.tanh(toTheRight / BEND_WIDTH);
    const speed = wind.speed * Math.exp(atMoment(this.#wander.logSpeed, seconds));
    now.groundEast = speed * Math.sin(direction);
    now.groundNorth = speed * Math.cos(direction);
    now.waterEast = now.groundEast + now.currentEast;
    now.waterNorth = now.groundNorth + now.currentNorth;
    const twisted = direction + shear.twist + this.#twist();
    now.sailsEast = speed * shear.speedRatio * Math.sin(twisted) + now.currentEast;
    now.sailsNorth = speed * shear.speedRatio * Math.cos(twisted) + now.currentNorth;
    return now;
  }

  #runTide(seconds: Seconds): void {
    const { strength, set, phase } = this.#scenario.current;
    const drift = strength * Math.sin(phase + (2 * Math.PI * seconds) / TIDE);
    this.now.currentEast = drift * Math.sin(set) + this.#currentEast();
    this.now.currentNorth = drift * Math.cos(set) + this.#currentNorth();
  }
}
