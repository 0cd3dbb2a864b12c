import { wrapAngle } from "../angles.ts";
import { directionOf, speedOf } from "../physics/vectors.ts";
import { type Radians, radians, type Seconds } from "../units.ts";
import type { Way } from "./lawfulReadings.ts";
import type { LegScenario } from "./legScenario.ts";
import type { LegWeather } from "./legWeather.ts";
import { wantedAngle } from "./planRunner.ts";
import { polarSpeed, steadyHeel } from "./polar.ts";
import { AngleLowPass, LowPass, ornsteinUhlenbeck, type Process } from "./processes.ts";
import type { RandomNumbers } from "./random.ts";
import type { PlanStep } from "./scenario.ts";

/** How long whoever steers takes to follow the wind upwind and off it, and the boat to gather way and to heel; choices, as in M74. */
const FOLLOWS_UPWIND: Seconds = 8;
const FOLLOWS_OFF_WIND: Seconds = 45;
const KNOWS_SPEED: Seconds = 30;
const GATHERS_WAY: Seconds = 15;
const HEELS: Seconds = 4;
/** How far helm, speed and heel stray from what they should be, and for how long. */
const STRAYS: Seconds = 12;
const HELM: Radians = radians(1.5);
const SPEED = 0.03;
const HEEL: Radians = radians(1.5);

/** M172. A boat that is where she is steered to at once: heading, speed and heel in the wind that there is, step by step. */
export class LegHelm {
  readonly #asymmetry: LegScenario["asymmetry"];
  readonly #soon: AngleLowPass;
  readonly #late: AngleLowPass;
  readonly #known: LowPass;
  readonly #way: LowPass;
  readonly #heel: LowPass;
  readonly #strays: Readonly<Record<"helm" | "speed" | "heel", Process>>;

  constructor({ asymmetry }: LegScenario, step: Seconds, random: RandomNumbers) {
    this.#asymmetry = asymmetry;
    this.#soon = new AngleLowPass(FOLLOWS_UPWIND, step);
    this.#late = new AngleLowPass(FOLLOWS_OFF_WIND, step);
    this.#known = new LowPass(KNOWS_SPEED, step);
    this.#way = new LowPass(GATHERS_WAY, step);
    this.#heel = new LowPass(HEELS, step);
    const stray = (sd: number): Process => ornsteinUhlenbeck(sd, STRAYS, step, random);
    this.#strays = { helm: stray(HELM), speed: stray(SPEED), heel: stray(HEEL) };
  }

  /** What she does for a step of the plan in the weather of the moment. */
  way(step: PlanStep, weather: LegWeather): Way {
    const { windEast, windNorth } = weather;
    const [from, speed] = [directionOf(windEast, windNorth), speedOf(windEast, windNorth)];
    const [soon, late, known] = [this.#soon.push(from), this.#late.push(from), this.#known.push(speed)];
    const [helm, quicker, tilted] = [this.#strays.helm(), this.#strays.speed(), this.#strays.heel()];
    if (step.kind === "motor") {
      const heel = this.#heel.push(this.#asymmetry.upright) + tilted;
      const speedAhead = this.#way.push(step.speed) * (1 + quicker / 2);
      return { ...weather, heading: step.heading + helm / 2, speedAhead, heel };
    }
    if (step.kind === "circle")
      throw new RangeError("LegHelm: rows of circles are not simulated at the level of legs");
    const side = step.tack === "starboard" ? 1 : -1;
    const angle = side * wantedAngle(step, known) + this.#asymmetry.twist;
    const heading = (step.kind === "beat" ? soon : late) - angle + helm;
    // She goes and heels by the wind at the sails.
    const sailed = wrapAngle(from - heading - this.#asymmetry.twist);
    const speedAhead = this.#way.push(polarSpeed(speed, sailed)) * (1 + quicker);
    const apparent = Math.atan2(speed * Math.sin(sailed), speed * Math.cos(sailed) + speedAhead);
    const apparentSpeed = Math.hypot(speed * Math.sin(sailed), speed * Math.cos(sailed) + speedAhead);
    const heel = this.#heel.push(steadyHeel(apparent, apparentSpeed) + this.#asymmetry.heel) + tilted;
    return { ...weather, heading, speedAhead, heel };
  }
}
