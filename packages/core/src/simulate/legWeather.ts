import type { MetresPerSecond, Seconds } from "../units.ts";
import type { LegScenario, WalkAndTurbulence } from "./legScenario.ts";
import { ornsteinUhlenbeck, type Process } from "./processes.ts";
import type { RandomNumbers } from "./random.ts";

/** M172. A random walk and turbulence about it (M44), exact at the steps, from 0 and from what turbulence may be at any time. */
function walkAndTurbulence(
  { slow, fast }: WalkAndTurbulence,
  timeScale: Seconds,
  step: Seconds,
  random: RandomNumbers,
): Process {
  const turbulence = ornsteinUhlenbeck(fast, timeScale, step, random);
  let level = 0;
  return () => {
    level += slow * Math.sqrt(step) * random.normal();
    return level + turbulence();
  };
}

/** Wind over the water and current as vectors: where the wind comes from, where the water goes. */
export interface LegWeather {
  readonly windEast: MetresPerSecond;
  readonly windNorth: MetresPerSecond;
  readonly currentEast: MetresPerSecond;
  readonly currentNorth: MetresPerSecond;
}

/** M172. The weather of a day in steps of time: the wind over the ground and the current wander, the wind over the water is their sum. */
export function legWeather(
  { wind, current }: LegScenario,
  step: Seconds,
  random: RandomNumbers,
): () => LegWeather {
  const wander = (scales: WalkAndTurbulence): Process =>
    walkAndTurbulence(scales, wind.turbulenceSeconds, step, random);
  const direction = wander(wind.directionWander);
  const logSpeed = wander(wind.logSpeedWander);
  const [east, north] = [wander(current.wander), wander(current.wander)];
  return () => {
    const from = wind.direction + direction();
    const speed = wind.speed * Math.exp(logSpeed());
    const [currentEast, currentNorth] = [current.east + east(), current.north + north()];
    return {
      windEast: speed * Math.sin(from) + currentEast,
      windNorth: speed * Math.cos(from) + currentNorth,
      currentEast,
      currentNorth,
    };
  };
}
