import { wrapAngle } from "../angles.ts";
import type { Tack } from "../sailing/legRow.ts";
import { type Radians, type RadiansPerSecond, radians, type Seconds } from "../units.ts";
import { beatAngle, runAngle } from "./polar.ts";
import type { PlanStep } from "./scenario.ts";

/** True wind angle of a boat that lies with luffing sails. */
const LUFFING: Radians = radians(48);
/** She turns under sail, and under power, as fast as this. */
const SAILING_TURN: RadiansPerSecond = (7.5 * Math.PI) / 180;
const MOTORING_TURN: RadiansPerSecond = (4 * Math.PI) / 180;
/** A turn is over this near to where it leads. */
const ARRIVED: Radians = radians(5);

/** What a step wants of the helm. */
export interface Wanted {
  /** How she goes: `plain` for the straight parts, a fixed rate else. */
  readonly rate: RadiansPerSecond | undefined;
  readonly step: PlanStep;
  /** Where the wind comes over: 1 starboard, −1 port, 0 under power. */
  readonly side: 1 | -1 | 0;
}

/** How long all steps take, the turns between them included. */
export const secondsOfPlan = (plan: readonly PlanStep[]): Seconds =>
  Math.ceil(plan.reduce((sum, step) => sum + secondsOf(step), 0));

function secondsOf(step: PlanStep): Seconds {
  return step.kind === "circle" ? (2 * Math.PI * Math.abs(step.turns)) / step.rate : step.seconds;
}

const sideOf = (tack: Tack): 1 | -1 => (tack === "starboard" ? 1 : -1);

/** The true wind angle that a step under sail wants, unsigned. */
export function wantedAngle(step: PlanStep, windSpeed: number): Radians {
  switch (step.kind) {
    case "beat":
      return beatAngle(windSpeed);
    case "run":
      return runAngle(windSpeed);
    case "reach":
      return step.angle;
    default:
      return LUFFING;
  }
}

/** Goes through a plan in time. */
export class PlanRunner {
  readonly #plan: readonly PlanStep[];
  #index = -1;
  #ends: Seconds = 0;
  #turning = 0;

  constructor(plan: readonly PlanStep[]) {
    this.#plan = plan;
  }

  /**
   * What is wanted at a moment.
   *
   * @param heading of the boat
   * @param windDirection as whoever steers feels it
   * @param windSpeed likewise
   */
  at(seconds: Seconds, heading: Radians, windDirection: Radians, windSpeed: number): Wanted {
    let starts = false;
    while (seconds >= this.#ends && this.#index < this.#plan.length - 1) {
      this.#index += 1;
      this.#ends += secondsOf(this.#plan[this.#index]!);
      starts = true;
    }
    const step = this.#plan[this.#index]!;
    if (step.kind === "circle") return { rate: Math.sign(step.turns) * step.rate, step, side: 0 };
    if (step.kind === "motor") {
      const off = wrapAngle(step.heading - heading);
      if (starts) this.#turning = Math.sign(off);
      return { rate: this.#rate(off, MOTORING_TURN), step, side: 0 };
    }
    const side = sideOf(step.tack);
    const wanted = windDirection - side * wantedAngle(step, windSpeed);
    const off = wrapAngle(wanted - heading);
    if (starts) this.#turning = this.#wayRound(step, side, wrapAngle(windDirection - heading), off);
    return { rate: this.#rate(off, SAILING_TURN), step, side };
  }

  /** Through the wind if she will be closer than abeam, else before it: tacks and gybes; else the short way. */
  #wayRound(step: PlanStep, side: 1 | -1, windAngle: Radians, off: Radians): number {
    if (Math.sign(windAngle) === side || Math.abs(windAngle) < ARRIVED) return Math.sign(off);
    const tacks = step.kind === "beat" || step.kind === "luff" || Math.abs(windAngle) < Math.PI / 3;
    return tacks ? -side : side;
  }

  #rate(off: Radians, rate: RadiansPerSecond): RadiansPerSecond | undefined {
    if (this.#turning === 0) return undefined;
    const isPast = Math.sign(off) !== this.#turning && Math.abs(off) < Math.PI / 2;
    if (Math.abs(off) < ARRIVED || isPast) {
      this.#turning = 0;
      return undefined;
    }
    return this.#turning * rate;
  }
}
