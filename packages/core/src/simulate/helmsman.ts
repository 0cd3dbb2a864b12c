import { wrapAngle } from "../angles.ts";
import type { Radians, RadiansPerSecond, Seconds } from "../units.ts";
import { PlanRunner, type Wanted, wantedAngle } from "./planRunner.ts";
import { AngleLowPass, LowPass, ornsteinUhlenbeck, type Process } from "./processes.ts";
import type { RandomNumbers } from "./random.ts";
import type { Helm, PlanStep } from "./scenario.ts";

/** How long it takes whoever steers to feel the wind at the sails, to know its speed, to follow it off the wind. */
const FEELS_WIND: Seconds = 3;
const KNOWS_SPEED: Seconds = 30;
const FOLLOWS_OFF_WIND: Seconds = 45;
/** How long attention strays. */
const STRAYS: Seconds = 8;
/** How firmly the boat is brought back, 1/s, to windward and by the compass, and how fast at most. */
const TO_WINDWARD = 0.12;
const BY_COMPASS = 0.3;
const FASTEST: RadiansPerSecond = (4 * Math.PI) / 180;
/** Asymmetry counts double off the wind, where angles matter less. */
const ASYMMETRY_OFF_WIND = 2;

/** What whoever steers has before the eyes. */
export interface Felt {
  readonly heading: Radians;
  readonly speed: number;
  /** True wind at the sails, over the water. */
  readonly windDirection: Radians;
  readonly windSpeed: number;
  /** Apparent wind angle at the sails, and the one on the display. */
  readonly apparentAngle: Radians;
  readonly displayedAngle: Radians;
}

/**
 * M74. Whoever steers: to windward by the sails (or the display), which follows every puff after some seconds; off the
 * wind on a compass course that is set anew as the wind shifts; never quite attentive.
 */
export class Helmsman {
  readonly #helm: Helm;
  readonly #plan: PlanRunner;
  readonly #stray: Process;
  readonly #feltAngle: AngleLowPass;
  readonly #windSoon: AngleLowPass;
  readonly #windLate: AngleLowPass;
  readonly #windSpeed: LowPass;

  constructor(helm: Helm, plan: readonly PlanStep[], step: Seconds, random: RandomNumbers) {
    this.#helm = helm;
    this.#plan = new PlanRunner(plan);
    this.#stray = ornsteinUhlenbeck(helm.noise, STRAYS, step, random);
    this.#feltAngle = new AngleLowPass(FEELS_WIND, step);
    this.#windSoon = new AngleLowPass(FEELS_WIND, step);
    this.#windLate = new AngleLowPass(FOLLOWS_OFF_WIND, step);
    this.#windSpeed = new LowPass(KNOWS_SPEED, step);
  }

  /** The rate of turn that the helm is put to, and what for. */
  steer(seconds: Seconds, felt: Felt): { readonly rate: RadiansPerSecond; readonly wanted: Wanted } {
    const { heading, windDirection } = felt;
    const isDisplay = this.#helm.steersBy === "display" && !Number.isNaN(felt.displayedAngle);
    const angle = this.#feltAngle.push(isDisplay ? felt.displayedAngle : felt.apparentAngle);
    const soon = this.#windSoon.push(windDirection);
    const late = this.#windLate.push(windDirection);
    const windSpeed = this.#windSpeed.push(felt.windSpeed);
    const stray = this.#stray();
    const wanted = this.#plan.at(seconds, heading, soon, windSpeed);
    const { step, side, rate } = wanted;
    if (rate !== undefined) return { rate, wanted };
    if (step.kind === "motor")
      return { rate: bounded(BY_COMPASS * (wrapAngle(step.heading - heading) + stray)), wanted };
    const goal = side * wantedAngle(step, windSpeed) + this.#helm.asymmetry * this.#weight(step);
    if (step.kind === "beat") {
      const ahead = windSpeed * Math.cos(goal) + felt.speed;
      const apparentGoal = Math.atan2(windSpeed * Math.sin(goal), ahead);
      return { rate: bounded(TO_WINDWARD * (wrapAngle(angle - apparentGoal) + stray)), wanted };
    }
    return { rate: bounded(BY_COMPASS * (wrapAngle(late - goal - heading) + stray)), wanted };
  }

  #weight(step: PlanStep): number {
    return step.kind === "beat" ? 1 : ASYMMETRY_OFF_WIND;
  }
}

const bounded = (rate: RadiansPerSecond): RadiansPerSecond => Math.min(FASTEST, Math.max(-FASTEST, rate));
