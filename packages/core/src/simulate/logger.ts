import { wrapAngle, wrapDirection } from "../angles.ts";
import { directionOf, speedOf } from "../physics/vectors.ts";
import { degrees, knots, metresPerSecond, radians } from "../units.ts";
import type { Boat } from "./boatMotion.ts";
import type { Instruments } from "./instruments.ts";
import { Silences, Spikes } from "./mishaps.ts";
import type { RandomNumbers } from "./random.ts";
import type { Scenario } from "./scenario.ts";
import { TroubledReadings } from "./sensorTroubles.ts";

/** What the log holds, rounded as its sentences round, SI and radians. */
export const LOGGED_COLUMNS = [
  "awa",
  "aws",
  "stw",
  "heading",
  "heel",
  "pitch",
  "sog",
  "cog",
  "latitude",
  "longitude",
] as const;

export type LoggedColumns = Readonly<Record<(typeof LOGGED_COLUMNS)[number], Float64Array>>;

/** Steps of time in a second. */
const RATE = 4;
/** Radius of a sphere on which a minute of arc is a nautical mile, m. */
const EARTH = (1852 * 60 * 180) / Math.PI;

const rounded = (value: number, decimals: number): number =>
  Math.round(value * 10 ** decimals) / 10 ** decimals;

/** M73. Puts what the instruments show into the log: at its rate, rounded, with spikes, silences and sensors' troubles. */
export class Logger {
  readonly #scenario: Scenario;
  readonly #windSilence: Silences;
  readonly #gpsSilence: Silences;
  readonly #windSpikes: Spikes;
  readonly #spikes: Spikes;
  readonly #troubled: TroubledReadings;
  #windIsSilent = false;
  readonly columns: LoggedColumns;

  constructor(scenario: Scenario, columns: LoggedColumns, random: RandomNumbers) {
    const { spikesPerHour, silencesPerHour, windRate } = scenario.log;
    this.#scenario = scenario;
    this.columns = columns;
    this.#windSilence = new Silences(silencesPerHour, random);
    this.#gpsSilence = new Silences(silencesPerHour, random);
    this.#windSpikes = new Spikes(spikesPerHour, windRate, random);
    this.#spikes = new Spikes(spikesPerHour, 1, random);
    this.#troubled = new TroubledReadings(scenario.troubles ?? []);
  }

  log(step: number, instruments: Instruments, boat: Boat): void {
    const { windRate, heelRate } = this.#scenario.log;
    const seconds = step / RATE;
    if (step % RATE === 0) {
      this.#windIsSilent = this.#windSilence.holdsAt(seconds);
      this.#logPassage(step, instruments);
      if (!this.#gpsSilence.holdsAt(seconds)) this.#logPlace(step, instruments, boat);
    }
    if (step % (RATE / windRate) === 0 && !this.#windIsSilent) this.#logWind(step, instruments);
    if (step % (RATE / heelRate) === 0) {
      this.columns.heel[step] = wrapAngle(
        this.#angle(this.#troubled.passing("heel", seconds, instruments.now.heel)),
      );
      this.columns.pitch[step] = wrapAngle(this.#angle(instruments.pitch));
    }
  }

  #angle(value: number): number {
    return radians(rounded(degrees(value), this.#scenario.log.angleDecimals));
  }

  #speed(value: number): number {
    return metresPerSecond(rounded(knots(Math.max(0, value)), this.#scenario.log.speedDecimals));
  }

  #logWind(step: number, { now }: Instruments): void {
    const seconds = step / RATE;
    const awa = this.#troubled.passing("vane", seconds, this.#windSpikes.angle(now.awa));
    const aws = this.#troubled.passing("anemometer", seconds, this.#windSpikes.speed(now.aws));
    this.columns.awa[step] = wrapAngle(this.#angle(awa));
    this.columns.aws[step] = this.#speed(aws);
  }

  #logPassage(step: number, { now }: Instruments): void {
    const seconds = step / RATE;
    const stw = this.#troubled.passing("paddle", seconds, this.#spikes.speed(now.stw));
    this.columns.stw[step] = this.#speed(stw);
    this.columns.heading[step] = wrapDirection(
      this.#angle(this.#troubled.passing("compass", seconds, now.heading)),
    );
  }

  #logPlace(step: number, { now }: Instruments, boat: Boat): void {
    const { latitude, longitude, log } = this.#scenario;
    if (!log.gps.present) return;
    this.columns.sog[step] = this.#speed(speedOf(now.east, now.north));
    this.columns.cog[step] = wrapDirection(this.#angle(directionOf(now.east, now.north)));
    this.columns.latitude[step] = latitude + boat.north / EARTH;
    this.columns.longitude[step] = wrapAngle(longitude + boat.east / (EARTH * Math.cos(latitude)));
  }
}
