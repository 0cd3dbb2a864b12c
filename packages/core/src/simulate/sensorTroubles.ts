import type { Radians, Seconds } from "../units.ts";

export const TROUBLED_SENSORS = ["vane", "anemometer", "paddle", "compass", "heel"] as const;
/** A sensor that may come into trouble. */
export type TroubledSensor = (typeof TROUBLED_SENSORS)[number];

/** From when, counted from the start of the sail, and for how long; longer than the sail: for good. */
interface Span {
  readonly at: Seconds;
  readonly seconds: Seconds;
}

/** Something that happens to a sensor under way. */
export type SensorTrouble = Span &
  (
    | { readonly kind: "frozen"; readonly sensor: TroubledSensor }
    /** Weed on the paddle wheel: it shows this share of what it would show, 0 to 1. */
    | { readonly kind: "fouled"; readonly share: number }
    /** A loudspeaker beside the compass, a bird on the vane, a knock: the sensor shows so much more. */
    | { readonly kind: "turned"; readonly sensor: "vane" | "compass" | "heel"; readonly angle: Radians }
    /** A sensor that turns slowly: it shows ever more, evenly, up to this angle at the end of the span. */
    | { readonly kind: "drifting"; readonly sensor: "vane" | "compass" | "heel"; readonly angle: Radians }
    /** Every so often, for some seconds, a reading times a factor, plus an angle. */
    | {
        readonly kind: "bursts";
        readonly sensor: TroubledSensor;
        readonly every: Seconds;
        readonly lasting: Seconds;
        readonly angle: Radians;
        readonly factor: number;
      }
    /** Another wind sensor talks too, turned by an angle and off by a factor, under a talker's two letters. */
    | {
        readonly kind: "second wind sensor";
        readonly talker: string;
        readonly angle: Radians;
        readonly factor: number;
      }
  );

/** Whether a trouble is there at a moment, s since the start of the sail. */
export const lastsAt = ({ at, seconds }: Span, moment: Seconds): boolean =>
  moment >= at && moment < at + seconds;

/** M73. What troubles make of what the instruments put out, sensor by sensor. */
export class TroubledReadings {
  readonly #troubles: readonly SensorTrouble[];
  readonly #kept = new Map<TroubledSensor, number>();

  constructor(troubles: readonly SensorTrouble[]) {
    this.#troubles = troubles;
  }

  /** What is put out of a reading; to be asked for every reading of a sensor, in the order of time. Never throws. */
  passing(sensor: TroubledSensor, moment: Seconds, reading: number): number {
    let value = reading;
    for (const trouble of this.#troubles)
      if (lastsAt(trouble, moment)) value = this.#changed(trouble, sensor, moment, value);
    this.#kept.set(sensor, value);
    return value;
  }

  #changed(trouble: SensorTrouble, sensor: TroubledSensor, moment: Seconds, value: number): number {
    switch (trouble.kind) {
      case "frozen":
        return trouble.sensor === sensor ? (this.#kept.get(sensor) ?? value) : value;
      case "fouled":
        return sensor === "paddle" ? trouble.share * value : value;
      case "turned":
        return trouble.sensor === sensor ? value + trouble.angle : value;
      case "drifting": {
        const share = (moment - trouble.at) / trouble.seconds;
        return trouble.sensor === sensor ? value + share * trouble.angle : value;
      }
      case "bursts": {
        const strikes = trouble.sensor === sensor && (moment - trouble.at) % trouble.every < trouble.lasting;
        return strikes ? trouble.factor * value + trouble.angle : value;
      }
      case "second wind sensor":
        return value;
    }
  }
}
