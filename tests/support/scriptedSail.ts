import { wrapAngle, wrapDirection } from "../../packages/core/src/angles.ts";
import { byChannel, type Channel, type SecondsBlock } from "../../packages/core/src/sailing/series.ts";
import { knots, metresPerSecond, radians } from "../../packages/core/src/units.ts";

/**
 * A sail written down as a script, for tests of what finds its legs and turns: steady wind with turbulence, a boat
 * that follows the script. It knows nothing of the library's own simulator, nor of its sensors' faults.
 */

/** Turn to a heading (deg) at a rate (deg/s), then hold it so long (s); under sail or power. */
export interface Step {
  readonly heading: number;
  readonly hold: number;
  readonly rate?: number;
  /** Turns further than the short way: whole turns added, clockwise positive. */
  readonly circles?: number;
  /** Speed (kn) of the engine; without it the boat sails. */
  readonly engine?: number;
  /** Sails up beside the engine. */
  readonly sails?: boolean;
}

export interface Script {
  readonly steps: readonly Step[];
  /** Wind over the water: from (deg), speed (kn), turbulence of direction (deg). */
  readonly from: number;
  readonly wind: number;
  readonly turbulence?: number;
  /** How far the boat yaws in the waves, standard deviation (deg). */
  readonly yaw?: number;
  readonly seed?: number;
}

/** Park and Miller's generator (1988, "minimal standard"), as normal deviates by the sum of twelve. */
function normalDeviates(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
  return () => {
    let sum = -6;
    for (let count = 0; count < 12; count++) sum += uniform();
    return sum;
  };
}

/** Boat speed (kn) a plain keelboat makes: none within 30° of the wind, most on a reach. */
function sailingSpeed(trueAngle: number, wind: number): number {
  const angle = Math.abs(trueAngle);
  const shape = angle < radians(30) ? 0 : Math.sin(Math.min(angle, Math.PI - 0.6)) ** 0.5;
  return shape * 8 * (1 - Math.exp(-wind / 8));
}

interface Instant {
  readonly time: number;
  readonly heading: number;
  readonly turning: boolean;
  readonly engine: number | undefined;
  readonly sails: boolean;
}

/** Where the boat heads, second by second, and which seconds turn. */
function course(steps: readonly Step[]): Instant[] {
  const instants: Instant[] = [];
  let heading = radians(steps[0]!.heading);
  for (const {
    heading: target,
    hold,
    rate = 7,
    circles = 0,
    engine,
    sails = engine === undefined,
  } of steps) {
    const change = wrapAngle(radians(target) - heading) + 2 * Math.PI * circles;
    const seconds = Math.round(Math.abs(change) / radians(rate));
    for (let second = 0; second < seconds; second++) {
      heading += change / seconds;
      instants.push({ time: instants.length, heading, turning: true, engine, sails });
    }
    for (let second = 0; second < hold; second++)
      instants.push({ time: instants.length, heading, turning: false, engine, sails });
  }
  return instants;
}

export interface ScriptedSail {
  readonly block: SecondsBlock;
  /** Start (s since 1970) of the recording; `instants[i]` is its second i. */
  readonly start: number;
  readonly instants: readonly Instant[];
}

/** The seconds that a boat with faultless sensors would have recorded, all channels but pitch and rates. */
export function scriptedSail({
  steps,
  from,
  wind,
  turbulence = 4,
  yaw: yawing = 1.2,
  seed = 1,
}: Script): ScriptedSail {
  const start = 1_700_000_000;
  const normal = normalDeviates(seed);
  const instants = course(steps);
  let [gust, lull, yaw, speed, heel] = [0, 0, 0, 3, 0];
  const rows = instants.map(({ time, heading, engine, sails }) => {
    gust += -gust / 25 + radians(turbulence) * Math.sqrt(2 / 25) * normal();
    lull += -lull / 25 + 0.06 * Math.sqrt(2 / 25) * normal();
    yaw += -yaw / 4 + radians(yawing) * Math.sqrt(2 / 4) * normal();
    const windSpeed = metresPerSecond(wind) * Math.exp(lull);
    const angle = wrapAngle(radians(from) + gust - heading - yaw);
    const goal = engine ?? sailingSpeed(angle, knots(windSpeed));
    speed += (metresPerSecond(goal) - speed) / (engine === undefined ? 9 : 4);
    const [ahead, abeam] = [windSpeed * Math.cos(angle) + speed, windSpeed * Math.sin(angle)];
    const awa = Math.atan2(abeam, ahead);
    const load = (abeam * abeam + ahead * ahead) * Math.sin(awa) * Math.cos(awa / 2) ** 2;
    heel += (-radians(sails ? 0.25 : 0.015) * load - heel) / 2.5;
    const track = heading + yaw;
    return {
      time: start + time,
      awa,
      aws: Math.hypot(ahead, abeam),
      stw: speed,
      heading: wrapDirection(track),
      heel: Math.atan(heel),
      east: speed * Math.sin(track),
      north: speed * Math.cos(track),
      latitude: radians(54),
      longitude: radians(11),
      variation: radians(4),
      pitch: Number.NaN,
      heelRate: Number.NaN,
      pitchRate: Number.NaN,
    } satisfies Record<Channel | "time", number>;
  });
  const columns = byChannel((channel) => Float64Array.from(rows, (row) => row[channel]));
  const time = Float64Array.from(rows, (row) => row.time);
  return { start, instants, block: { length: rows.length, time, headingIsTrue: false, columns } };
}
