import { wrapAngle } from "../../packages/core/src/angles.ts";
import { leewayAngle } from "../../packages/core/src/physics/leeway.ts";
import { type LegRow, MOMENT_CHANNELS, type Tack } from "../../packages/core/src/sailing/legRow.ts";
import { readingsOf, unknownBoatReadings } from "../../packages/core/src/sensors/boatReadings.ts";
import { underSail } from "../../packages/core/src/sensors/boatState.ts";
import type { SensorSettings } from "../../packages/core/src/sensors/parameters.ts";
import { type RandomNumbers, randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { metresPerSecond, type Radians, radians, type Seconds } from "../../packages/core/src/units.ts";

/** What the helm holds while the wind fluctuates: the heading, or the angle to the wind. */
export type SteeredBy = "compass" | "wind";

/** Legs made directly as rows, without a log: exact sensors with known faults in a wind that fluctuates. */
export interface FluctuatingLegs {
  readonly seed: number;
  readonly steeredBy: SteeredBy;
  readonly settings: SensorSettings;
  readonly legs: number;
  readonly rowsInLeg: number;
  /** Standard deviation of the wind's direction from row to row, independent of each other. */
  readonly directionSd: Radians;
  /** Likewise of the logarithm of its speed. */
  readonly logSpeedSd: number;
  /** +1, or −1 for the same fluctuations the other way round, in which what is odd in them cancels. */
  readonly sign: 1 | -1;
  /** What is particular to a leg; nothing where it is left out. */
  readonly ofLeg?: (leg: number) => Partial<LegOwn>;
}

/** What one leg may have of its own. */
export interface LegOwn {
  /** Rows of it, instead of `rowsInLeg`. */
  readonly rows: number;
  /** By how much the wind comes from further right there and then. */
  readonly turnedBy: Radians;
  /** By how much wider she sails by the masthead's wind, on starboard tack positive: closer on port. */
  readonly toStarboard: Radians;
  /** Boat speed over what is usual. */
  readonly speedShare: number;
  /** Days after the first. */
  readonly day: number;
}

const PLAIN_LEG: Omit<LegOwn, "rows"> = { turnedBy: 0, toStarboard: 0, speedShare: 1, day: 0 };

const ownOf = ({ ofLeg, rowsInLeg }: FluctuatingLegs, leg: number): LegOwn => ({
  ...PLAIN_LEG,
  rows: rowsInLeg,
  ...ofLeg?.(leg),
});

const ROW: Seconds = 30;
const TURN: Seconds = 60;
const DAY: Seconds = 86_400;
const WIND_FROM: Radians = radians(70);
const WIND_SPEED = metresPerSecond(14);

/** Four legs to windward, then two downwind, tack and gybe after each. */
const legOf = (number: number): { readonly tack: Tack; readonly upwind: boolean } => ({
  tack: number % 2 === 0 ? "starboard" : "port",
  upwind: number % 6 < 4,
});

/** What the boat does in a wind, by what she is steered: heading, angle and speed of the wind over the water. */
function wayOf(asked: FluctuatingLegs, leg: number, normal: () => number) {
  const { steeredBy, directionSd, logSpeedSd, sign } = asked;
  const { tack, upwind } = legOf(leg);
  const { turnedBy, toStarboard } = ownOf(asked, leg);
  const held = (tack === "starboard" ? 1 : -1) * radians(upwind ? 43 : 145) + toStarboard;
  const windFrom = WIND_FROM + turnedBy + sign * directionSd * normal();
  const windSpeed = WIND_SPEED * Math.exp(sign * logSpeedSd * normal());
  const heading = (steeredBy === "compass" ? WIND_FROM + turnedBy : windFrom) - held;
  return { heading, angle: wrapAngle(windFrom - heading), windSpeed };
}

/** What her faulty sensors show for a row; no current, and a boat whose speed and heel do not heed the fluctuation. */
function readingsOfRow(asked: FluctuatingLegs, leg: number, { normal }: RandomNumbers) {
  const { settings } = asked;
  const { tack, upwind } = legOf(leg);
  const { heading, angle, windSpeed } = wayOf(asked, leg, normal);
  const speedAhead = metresPerSecond((upwind ? 6 : 6.5) * ownOf(asked, leg).speedShare);
  const heel = (tack === "starboard" ? -1 : 1) * radians(upwind ? 18 : 4);
  const leeway = leewayAngle(heel, speedAhead, settings.leeway.coefficient);
  const ahead = windSpeed * Math.cos(angle) + speedAhead;
  const athwart = windSpeed * Math.sin(angle) + speedAhead * Math.tan(leeway);
  const state = {
    heading,
    heel,
    speedAhead,
    leeway,
    apparentAngle: Math.atan2(athwart, ahead),
    apparentSpeed: Math.hypot(ahead, athwart),
    currentEast: 0,
    currentNorth: 0,
  };
  return readingsOf(state, underSail, settings, unknownBoatReadings());
}

function rowOf(asked: FluctuatingLegs, leg: number, start: Seconds, random: RandomNumbers): LegRow {
  return {
    leg,
    kind: "sailing",
    tack: legOf(leg).tack,
    start,
    duration: ROW,
    count: ROW,
    mean: readingsOfRow(asked, leg, random),
    covariance: new Float64Array(MOMENT_CHANNELS.length ** 2),
    autocovariance: new Float64Array(9),
    headingIsTrue: true,
    variation: Number.NaN,
    latitude: Number.NaN,
    longitude: Number.NaN,
  };
}

/** Rows of legs in time order, a minute's turn between legs. */
export function fluctuatingLegs(asked: FluctuatingLegs): readonly LegRow[] {
  const random = randomNumbers(asked.seed, 0);
  const rows: LegRow[] = [];
  let start: Seconds = Date.UTC(2026, 5, 1, 10) / 1000;
  for (let leg = 0; leg < asked.legs; leg++) {
    const own = ownOf(asked, leg);
    const from = own.day * DAY;
    for (let row = 0; row < own.rows; row++, start += ROW) rows.push(rowOf(asked, leg, from + start, random));
    start += TURN;
  }
  return rows;
}
