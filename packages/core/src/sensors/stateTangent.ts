import { wrapAngle } from "../angles.ts";
import {
  type BoatReadings,
  type BoatState,
  boatStateOf,
  type Circumstances,
  unknownBoatState,
} from "./boatState.ts";
import type { LawErrors } from "./lawErrors.ts";
import type { SensorSettings } from "./parameters.ts";
import { flowOf, headingOf, heelAndLeewayOf, type StateStep, speedAheadOf } from "./stateSteps.ts";

/** How fast a state changes with something, in the unit of each field over that of the something. */
export interface StateSlopes {
  heel: number;
  apparentAngle: number;
  overWaterEast: number;
  overWaterNorth: number;
  /** As if the velocity over ground were known, be it or not. */
  overGroundEast: number;
  overGroundNorth: number;
  currentEast: number;
  currentNorth: number;
}

/** A class for the reason that `unknownBoatReadings` gives. */
class UnknownSlopes implements StateSlopes {
  heel = Number.NaN;
  apparentAngle = Number.NaN;
  overWaterEast = Number.NaN;
  overWaterNorth = Number.NaN;
  overGroundEast = Number.NaN;
  overGroundNorth = Number.NaN;
  currentEast = Number.NaN;
  currentNorth = Number.NaN;
}

/** Slopes of which nothing is known yet, to be filled by a `StateTangent`. Never throws. */
export const unknownSlopes = (): StateSlopes => new UnknownSlopes();

/** What undoes faults. */
export interface Undoing {
  readonly settings: SensorSettings;
  readonly laws: LawErrors;
}

/** What a setting or a law's error acts on first: what needs that, and nothing else, changes with it. */
export type ActsOn = "speed" | "heel or leeway" | "heading" | "flow";

/** One of the settings or laws' errors moved a little. */
export interface Move {
  readonly actsOn: ActsOn;
  readonly to: Undoing;
  readonly by: number;
}

/** The steps of M27 to be done again, before the winds are put together. */
const STEPS: Readonly<Record<ActsOn, readonly StateStep[]>> = {
  speed: [speedAheadOf, heelAndLeewayOf, headingOf],
  "heel or leeway": [heelAndLeewayOf, headingOf],
  heading: [headingOf],
  flow: [flowOf],
};

/** What the steps fill, and the winds are put together from. */
function copyUndone(from: Readonly<BoatState>, to: BoatState): void {
  to.speedAhead = from.speedAhead;
  to.heel = from.heel;
  to.leeway = from.leeway;
  to.heading = from.heading;
  to.flowAngle = from.flowAngle;
  to.flowSpeed = from.flowSpeed;
}

/**
 * M193. A state (M27) and how it changes with its settings: differences of the steps that a setting acts through, then the derivative of
 * what puts the winds together from them. Allocates nothing from one moment to the next.
 *
 * @example
 * const tangent = new StateTangent();
 * tangent.goTo(readings, underSail, { settings: noCorrections, laws: exactLaws });
 */
export class StateTangent {
  /** Where it stands; not to be written to. */
  readonly state: BoatState = unknownBoatState();
  readonly #moved: BoatState = unknownBoatState();
  #readings!: Readonly<BoatReadings>;
  #circumstances!: Circumstances;
  /** Sine, cosine, tangent of the state's angles, once for all slopes. */
  readonly #trigonometry = {
    sine: Number.NaN,
    cosine: Number.NaN,
    ahead: Number.NaN,
    athwart: Number.NaN,
    cosineOfHeel: Number.NaN,
    tangentOfHeel: Number.NaN,
    tangentOfLeeway: Number.NaN,
  };

  /** Goes to what readings imply; they are kept, and must not change before the slopes are had. Never throws. */
  goTo(readings: Readonly<BoatReadings>, circumstances: Circumstances, { settings, laws }: Undoing): void {
    const { state } = this;
    this.#readings = readings;
    this.#circumstances = circumstances;
    boatStateOf(readings, circumstances, settings, state, laws);
    const of = this.#trigonometry;
    of.sine = Math.sin(state.heading);
    of.cosine = Math.cos(state.heading);
    of.ahead = Math.cos(state.flowAngle);
    of.athwart = Math.sin(state.flowAngle);
    of.cosineOfHeel = Math.cos(state.heel);
    of.tangentOfHeel = Math.tan(state.heel);
    of.tangentOfLeeway = Math.tan(state.leeway);
  }

  /**
   * The slopes by one of the settings or laws' errors, from where they were gone to.
   *
   * @param out filled and returned; NaN where the state is, but for what the velocity over ground alone hides. Never throws.
   */
  slopes({ actsOn, to, by }: Move, out: StateSlopes): StateSlopes {
    copyUndone(this.state, this.#moved);
    for (const step of STEPS[actsOn])
      step(this.#readings, this.#circumstances, to.settings, to.laws, this.#moved);
    this.#putTogether(by, out);
    return out;
  }

  /** The derivative of `windsOf`. */
  #putTogether(by: number, out: StateSlopes): void {
    const [state, moved, of] = [this.state, this.#moved, this.#trigonometry];
    const turn = wrapAngle(moved.heading - state.heading) / by;
    const veer = wrapAngle(moved.flowAngle - state.flowAngle) / by;
    const gain = (moved.flowSpeed - state.flowSpeed) / by;
    out.heel = (moved.heel - state.heel) / by;

    const ahead = state.flowSpeed * of.ahead;
    const athwart = (state.flowSpeed * of.athwart) / of.cosineOfHeel;
    const aheadBy = gain * of.ahead - state.flowSpeed * of.athwart * veer;
    const athwartBy =
      (gain * of.athwart + ahead * veer) / of.cosineOfHeel + athwart * of.tangentOfHeel * out.heel;
    out.apparentAngle = (ahead * athwartBy - athwart * aheadBy) / (ahead * ahead + athwart * athwart);
    // apparent wind over the ground's axes: turned with the bow, it changes by what lies across it
    out.overGroundEast =
      aheadBy * of.sine + athwartBy * of.cosine + (ahead * of.cosine - athwart * of.sine) * turn;
    out.overGroundNorth =
      aheadBy * of.cosine - athwartBy * of.sine - (ahead * of.sine + athwart * of.cosine) * turn;

    const faster = (moved.speedAhead - state.speedAhead) / by;
    const slides = (moved.leeway - state.leeway) / by;
    const driftBy =
      faster * of.tangentOfLeeway + state.speedAhead * (1 + of.tangentOfLeeway * of.tangentOfLeeway) * slides;
    const waterEastBy = faster * of.sine + driftBy * of.cosine + state.throughWaterNorth * turn;
    const waterNorthBy = faster * of.cosine - driftBy * of.sine - state.throughWaterEast * turn;
    out.overWaterEast = out.overGroundEast - waterEastBy;
    out.overWaterNorth = out.overGroundNorth - waterNorthBy;
    out.currentEast = -waterEastBy;
    out.currentNorth = -waterNorthBy;
  }
}
