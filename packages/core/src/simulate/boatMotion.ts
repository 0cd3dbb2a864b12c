import { wrapAngle, wrapDirection } from "../angles.ts";
import {
  type MetresPerSecond,
  type Radians,
  type RadiansPerSecond,
  radians,
  type Seconds,
} from "../units.ts";
import { trueLeeway } from "./faultShapes.ts";
import type { Wanted } from "./planRunner.ts";
import { polarSpeed, steadyHeel } from "./polar.ts";
import { LowPass, ornsteinUhlenbeck, type Process, Swing } from "./processes.ts";
import type { RandomNumbers } from "./random.ts";
import type { Scenario } from "./scenario.ts";
import type { Weather } from "./weather.ts";

/** How slowly she gathers way and loses it, under sail and under power. */
const GATHERS_WAY: Seconds = 9;
const ENGINE_GATHERS: Seconds = 5;
/** How soon she answers the helm. */
const ANSWERS_HELM: Seconds = 1.2;
/** Her sideslip follows the steady part of her heel. */
const SLIPS: Seconds = 4;
/** Sails go up and come down, and begin to draw, over this. */
const TRIMS: Seconds = 5;
/** Share of their drive, heel and upwash that luffing sails have. */
const LUFFING_SHARE = 0.2;
/** Bare mast and hull heel her by this at 10 m/s abeam, and set her off by that at 3 m/s of speed. */
const WINDAGE_HEEL: Radians = radians(2);
const WINDAGE_LEEWAY: Radians = radians(0.5);
const ROLL_DAMPING = 0.2;
const PITCH_DAMPING = 0.3;
/** Waves that slow her by a share set her to leeward by so many times that share of her leeway; a choice. */
const SLIDES_BY_WAVES = 5;
const YAW_SECONDS: Seconds = 3;
const SURGE: MetresPerSecond = 0.04;
const TRIM_SECONDS: Seconds = 240;

/** What the boat does at one moment; the truth, but for what the sensors make of it. */
export interface Boat {
  heading: Radians;
  /** Along her, through the water. */
  speed: MetresPerSecond;
  leeway: Radians;
  heel: Radians;
  heelRate: RadiansPerSecond;
  pitch: Radians;
  pitchRate: RadiansPerSecond;
  /** Motion over the ground, m/s; place from the start, m. */
  groundEast: MetresPerSecond;
  groundNorth: MetresPerSecond;
  east: number;
  north: number;
  /** Share of what the sails can do: 0 down, 1 trimmed; and how well they are trimmed, about 1. */
  sails: number;
  trim: number;
}

/** M74. The boat as sea, wind and helm move her. */
export class BoatInWind {
  readonly #scenario: Scenario;
  readonly #step: Seconds;
  readonly #roll: Swing;
  readonly #pitch: Swing;
  readonly #yaw: Process;
  readonly #surge: Process;
  readonly #trim: Process;
  readonly #rudder: LowPass;
  readonly #slip: LowPass;
  readonly #sails: LowPass;
  #course: Radians;
  #way: MetresPerSecond;
  readonly now: Boat;

  constructor(
    scenario: Scenario,
    heading: Radians,
    speed: MetresPerSecond,
    step: Seconds,
    random: RandomNumbers,
  ) {
    const { sea, faults } = scenario;
    this.#scenario = scenario;
    this.#step = step;
    this.#roll = new Swing(sea.roll, sea.rollFrequency, ROLL_DAMPING, step, random);
    this.#pitch = new Swing(sea.pitch, sea.pitchFrequency, PITCH_DAMPING, step, random);
    this.#yaw = ornsteinUhlenbeck(sea.yaw, YAW_SECONDS, step, random);
    this.#surge = ornsteinUhlenbeck(SURGE, 2 * YAW_SECONDS, step, random);
    this.#trim = ornsteinUhlenbeck(faults.vane.trimWander, TRIM_SECONDS, step, random);
    this.#rudder = new LowPass(ANSWERS_HELM, step);
    this.#slip = new LowPass(SLIPS, step);
    this.#sails = new LowPass(TRIMS, step);
    this.#course = heading;
    this.#way = speed;
    this.now = {
      heading,
      speed,
      leeway: 0,
      heel: 0,
      heelRate: 0,
      pitch: 0,
      pitchRate: 0,
      groundEast: 0,
      groundNorth: 0,
      east: 0,
      north: 0,
      sails: 0,
      trim: 1,
    };
  }

  /** Moves on by one step of time. */
  move(rate: RadiansPerSecond, wanted: Wanted, weather: Weather): Boat {
    const { now } = this;
    this.#turn(rate);
    now.sails = this.#sails.push(wanted.side === 0 ? 0 : wanted.step.kind === "luff" ? LUFFING_SHARE : 1);
    now.trim = now.sails * Math.exp(this.#trim());
    this.#sail(wanted, weather);
    this.#heelOver(weather, wanted.side);
    this.#drift(weather);
    return now;
  }

  #turn(rate: RadiansPerSecond): void {
    this.#course = wrapDirection(this.#course + this.#rudder.push(rate) * this.#step);
    this.now.heading = wrapDirection(this.#course + this.#yaw());
  }

  /** M178. What waves from one side do on a tack: so much more than 1 on starboard, less on port. */
  #waves(side: number, times: number): number {
    return 1 + side * times * (this.#scenario.sea.skew ?? 0);
  }

  #sail({ step, side }: Wanted, { sailsEast, sailsNorth }: Weather): void {
    const angle = wrapAngle(Math.atan2(sailsEast, sailsNorth) - this.now.heading);
    const underPower = side === 0 && (step.kind === "motor" || step.kind === "circle");
    const goal = underPower
      ? step.speed
      : (this.now.sails * polarSpeed(Math.hypot(sailsEast, sailsNorth), angle)) / this.#waves(side, 1);
    this.#way += ((goal - this.#way) * this.#step) / (underPower ? ENGINE_GATHERS : GATHERS_WAY);
    this.now.speed = Math.max(0, this.#way + this.#surge());
  }

  #heelOver({ sailsEast, sailsNorth }: Weather, side: number): void {
    const { now } = this;
    const [sine, cosine] = [Math.sin(now.heading), Math.cos(now.heading)];
    const ahead = sailsEast * sine + sailsNorth * cosine + now.speed;
    const abeam = sailsEast * cosine - sailsNorth * sine;
    const speed = Math.hypot(ahead, abeam);
    const windage = (abeam * Math.abs(abeam)) / 100;
    const steady =
      now.sails * steadyHeel(Math.atan2(abeam, ahead), speed) - (1 - now.sails) * WINDAGE_HEEL * windage;
    this.#roll.push(steady);
    this.#pitch.push(0);
    now.heel = this.#roll.value;
    now.heelRate = this.#roll.rate;
    now.pitch = this.#pitch.value;
    now.pitchRate = this.#pitch.rate;
    const slip = this.#slip.push(now.heel * now.sails);
    const adrift = (1 - now.sails) * -WINDAGE_LEEWAY * windage * (3 / Math.max(1, now.speed));
    const slide =
      trueLeeway(slip, now.speed, this.#scenario.faults.leeway) * this.#waves(side, SLIDES_BY_WAVES);
    now.leeway = slide + this.#windageCounts() * adrift;
  }

  /** A boat that is declared to make no leeway makes none under power either. */
  #windageCounts(): 0 | 1 {
    return this.#scenario.faults.leeway.coefficient === 0 ? 0 : 1;
  }

  #drift({ currentEast, currentNorth }: Weather): void {
    const { now } = this;
    const [sine, cosine] = [Math.sin(now.heading), Math.cos(now.heading)];
    const athwart = now.speed * Math.tan(now.leeway);
    now.groundEast = now.speed * sine + athwart * cosine + currentEast;
    now.groundNorth = now.speed * cosine - athwart * sine + currentNorth;
    now.east += now.groundEast * this.#step;
    now.north += now.groundNorth * this.#step;
  }
}
