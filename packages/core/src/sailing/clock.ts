import { wrapAngle, wrapDirection } from "../angles.ts";
import type { QuantityName, Readings } from "../recording/readings.ts";
import { type MetresPerSecond, type Radians, radians, type Seconds } from "../units.ts";
import { ChannelBins, LONGEST_BRIDGE } from "./channelBins.ts";
import { byChannel, CHANNELS, type Channel, type SecondsBlock } from "./series.ts";
import { SpikeGate } from "./spikeGate.ts";

/**
 * The quantities that make up the channels: whether each is an angle, and by how much a lone reading must stand off to
 * be a spike (M35). The bounds are judgement: no sensor that works moves so far and back between two readings.
 */
const CHANNEL_QUANTITIES = {
  apparentWindAngle: { isAngle: true, spike: radians(40) },
  apparentWindSpeed: { isAngle: false, spike: 5 },
  speedThroughWater: { isAngle: false, spike: 2 },
  headingMagnetic: { isAngle: true, spike: radians(30) },
  headingTrue: { isAngle: true, spike: radians(30) },
  variation: { isAngle: true, spike: Number.POSITIVE_INFINITY },
  heel: { isAngle: true, spike: radians(20) },
  pitch: { isAngle: true, spike: radians(15) },
  courseOverGround: { isAngle: true, spike: radians(60) },
  courseOverGroundMagnetic: { isAngle: true, spike: radians(60) },
  speedOverGround: { isAngle: false, spike: 3 },
  latitude: { isAngle: false, spike: radians(0.05) },
  longitude: { isAngle: true, spike: radians(0.05) },
} as const satisfies Partial<Record<QuantityName, { isAngle: boolean; spike: number }>>;

type ChannelQuantity = keyof typeof CHANNEL_QUANTITIES;
const NAMES = Object.keys(CHANNEL_QUANTITIES) as readonly ChannelQuantity[];

/** Whether readings of a quantity go into a channel. Never throws. */
export const isOfAChannel = (quantity: QuantityName): boolean => Object.hasOwn(CHANNEL_QUANTITIES, quantity);

/** A second is written once the log has gone this much further: neighbours for bridging, a spike's successor. */
const DELAY: Seconds = 12;

/** Longer silences are jumped over rather than walked through. */
const LONGEST_WALK: Seconds = 60;

/** Below this a course over ground is noise, and no velocity. */
const STILL: MetresPerSecond = 0.3;

/** A boat's place this old still stands for it. */
const PLACE_HOLDS: Seconds = 60;

/** Variation is worked out anew after moving this far: some 2 nautical miles, over which it changes below 0.1°. */
const VARIATION_HOLDS = { angle: radians(2 / 60), time: 86400 } as const;

/** A variation that the log told this long ago still stands: some plotters tell it now and then only. */
const LOGGED_VARIATION_HOLDS: Seconds = 600;

/** Seconds in a block. */
const BLOCK_LENGTH = 600;

/** What a `SecondsAligner` needs to know. */
export interface SecondsAlignerOptions {
  /** For each quantity the index (into the recording's sources) of the source that was chosen for it. */
  readonly chosen: Partial<Readonly<Record<QuantityName, number>>>;
  /** Variation (rad, east positive) at a latitude and longitude (rad) and time (s since 1970). */
  readonly variationAt?: (latitude: Radians, longitude: Radians, time: Seconds) => Radians;
}

/** What the aligner left out. */
export interface AlignmentCounts {
  /** Lone spikes rejected, by quantity. */
  readonly spikes: Partial<Readonly<Record<QuantityName, number>>>;
  /** How many readings came before the log had told any time. */
  readonly untimed: number;
  /** How many readings were older than what was already written. */
  readonly late: number;
}

interface Lane {
  readonly bins: ChannelBins;
  readonly gate: SpikeGate;
}

/** Opens an empty lane for one quantity. */
function lane(name: ChannelQuantity): Lane {
  const { isAngle, spike } = CHANNEL_QUANTITIES[name];
  const bins = new ChannelBins(isAngle);
  return { bins, gate: new SpikeGate(spike, isAngle, (time, value) => bins.add(time, value)) };
}

/**
 * M35. Brings the readings of a recording to one clock: a row a second, in blocks of 600. Means within the second,
 * gaps bridged up to 5 s, lone spikes left out, velocity over ground from speed and course, variation by the model at
 * the last known place, else as logged. The blocks are the same, bit for bit, however the readings are batched.
 *
 * @example
 * const aligner = new SecondsAligner({ chosen: { apparentWindSpeed: 0 } });
 * aligner.push({ length: 2, time: Float64Array.of(10, 11), source: Uint16Array.of(0, 0), value: Float64Array.of(7, 8) });
 * aligner.finish()[0].columns.aws // Float64Array.of(7, 8)
 */
export class SecondsAligner {
  readonly #lanes: Partial<Record<ChannelQuantity, Lane>> = {};
  readonly #laneOfSource: (Lane | undefined)[] = [];
  readonly #variationAt: SecondsAlignerOptions["variationAt"];
  readonly #headingIsTrue: boolean;
  #columns = byChannel(() => new Float64Array(BLOCK_LENGTH));
  #time = new Float64Array(BLOCK_LENGTH);
  #length = 0;
  /** The next second to be written, and the last that holds a reading. */
  #next = Number.NaN;
  #last = Number.NaN;
  #place = { latitude: Number.NaN, longitude: Number.NaN, time: Number.NaN };
  #variation = { latitude: Number.NaN, longitude: Number.NaN, time: Number.NaN, value: Number.NaN };
  #logged = { value: Number.NaN, time: Number.NaN };
  #untimed = 0;
  #late = 0;

  /** @throws RangeError where a chosen source is no index */
  constructor(options: SecondsAlignerOptions) {
    const { chosen } = options;
    for (const name of NAMES) {
      const source = chosen[name];
      if (source === undefined) continue;
      if (!Number.isInteger(source) || source < 0)
        throw new RangeError(`SecondsAligner: chosen.${name} must be an index into sources, got ${source}`);
      const opened = lane(name);
      this.#lanes[name] = opened;
      this.#laneOfSource[source] = opened;
    }
    this.#variationAt = options.variationAt;
    this.#headingIsTrue = this.#lanes.headingMagnetic === undefined;
  }

  get counts(): AlignmentCounts {
    const spikes = Object.entries(this.#lanes).map(([name, { gate }]) => [name, gate.rejected] as const);
    return { spikes: Object.fromEntries(spikes), untimed: this.#untimed, late: this.#late };
  }

  /** Takes a batch of readings; returns the blocks that are full. Never throws. */
  push(readings: Readings): SecondsBlock[] {
    const blocks: SecondsBlock[] = [];
    for (let index = 0; index < readings.length; index++) {
      const into = this.#laneOfSource[readings.source[index]!];
      if (into === undefined) continue;
      const time = readings.time[index]!;
      if (Number.isNaN(time)) this.#untimed += 1;
      else if (time < this.#next) this.#late += 1;
      else {
        this.#walkTo(Math.floor(time), blocks);
        into.gate.push(time, readings.value[index]!);
      }
    }
    return blocks;
  }

  /** Ends the recording; returns what was left. Never throws. */
  finish(): SecondsBlock[] {
    const blocks: SecondsBlock[] = [];
    if (!Number.isNaN(this.#last)) this.#writeUpTo(this.#last, blocks);
    if (this.#length > 0) blocks.push(this.#block());
    return blocks;
  }

  /** Writes the seconds that a reading at `second` leaves far enough behind. */
  #walkTo(second: number, blocks: SecondsBlock[]): void {
    if (Number.isNaN(this.#next)) this.#next = second;
    if (second - this.#last > LONGEST_WALK) {
      this.#writeUpTo(this.#last, blocks);
      this.#next = second;
    }
    this.#writeUpTo(second - DELAY, blocks);
    this.#last = Number.isNaN(this.#last) ? second : Math.max(this.#last, second);
  }

  #writeUpTo(last: number, blocks: SecondsBlock[]): void {
    for (; this.#next <= last; this.#next++) {
      for (const name of NAMES) this.#lanes[name]?.gate.expire(this.#next + LONGEST_BRIDGE + 1);
      if (this.#write(this.#next) && this.#length === BLOCK_LENGTH) blocks.push(this.#block());
    }
  }

  #block(): SecondsBlock {
    const length = this.#length;
    const columns = byChannel((name) => this.#columns[name].slice(0, length));
    const time = this.#time.slice(0, length);
    this.#length = 0;
    return { length, time, headingIsTrue: this.#headingIsTrue, columns };
  }

  #bridged(name: ChannelQuantity, second: number): number {
    return this.#lanes[name]?.bins.bridged(second) ?? Number.NaN;
  }

  /** Writes one row; a second in which no channel has a value makes none. */
  #write(second: number): boolean {
    const heading = this.#bridged(this.#headingIsTrue ? "headingTrue" : "headingMagnetic", second);
    const [latitude, longitude] = this.#placeAt(second);
    const variation = this.#variationNow(second);
    const [east, north] = this.#velocityOverGround(second, variation);
    const row: Record<Channel, number> = {
      awa: wrapAngle(this.#bridged("apparentWindAngle", second)),
      aws: this.#bridged("apparentWindSpeed", second),
      stw: this.#bridged("speedThroughWater", second),
      heading: wrapDirection(heading),
      heel: wrapAngle(this.#bridged("heel", second)),
      pitch: wrapAngle(this.#bridged("pitch", second)),
      heelRate: this.#lanes.heel?.bins.rate(second) ?? Number.NaN,
      pitchRate: this.#lanes.pitch?.bins.rate(second) ?? Number.NaN,
      east,
      north,
      latitude,
      longitude,
      variation,
    };
    if (![row.awa, row.aws, row.stw, row.heading, row.heel, east].some(Number.isFinite)) return false;
    for (const name of CHANNELS) this.#columns[name][this.#length] = row[name];
    this.#time[this.#length] = second;
    this.#length += 1;
    return true;
  }

  #placeAt(second: number): readonly [Radians, Radians] {
    const latitude = this.#bridged("latitude", second);
    const longitude = wrapAngle(this.#bridged("longitude", second));
    if (Number.isFinite(latitude + longitude)) this.#place = { latitude, longitude, time: second };
    if (second - this.#place.time <= PLACE_HOLDS) return [this.#place.latitude, this.#place.longitude];
    return [Number.NaN, Number.NaN];
  }

  /** Variation by the model at the last known place, else (no place, or no model for the date) as logged. */
  #variationNow(second: number): Radians {
    const modelled = this.#modelledVariation(second);
    return Number.isNaN(modelled) ? this.#loggedVariation(second) : modelled;
  }

  #loggedVariation(second: number): Radians {
    const value = wrapAngle(this.#bridged("variation", second));
    if (!Number.isNaN(value)) this.#logged = { value, time: second };
    return second - this.#logged.time <= LOGGED_VARIATION_HOLDS ? this.#logged.value : Number.NaN;
  }

  #modelledVariation(second: number): Radians {
    const { latitude, longitude } = this.#place;
    if (this.#variationAt === undefined || Number.isNaN(latitude)) return Number.NaN;
    const known = this.#variation;
    const stands =
      Math.abs(latitude - known.latitude) < VARIATION_HOLDS.angle &&
      Math.abs(wrapAngle(longitude - known.longitude)) < VARIATION_HOLDS.angle &&
      second - known.time < VARIATION_HOLDS.time;
    if (!stands) {
      const value = this.#variationAt(latitude, longitude, second);
      this.#variation = { latitude, longitude, time: second, value };
    }
    return this.#variation.value;
  }

  #velocityOverGround(second: number, variation: Radians): readonly [MetresPerSecond, MetresPerSecond] {
    const speed = this.#bridged("speedOverGround", second);
    const trueCourse = this.#bridged("courseOverGround", second);
    const course = Number.isNaN(trueCourse)
      ? this.#bridged("courseOverGroundMagnetic", second) + variation
      : trueCourse;
    if (Number.isNaN(course) && speed < STILL) return [0, 0];
    return [speed * Math.sin(course), speed * Math.cos(course)];
  }
}
