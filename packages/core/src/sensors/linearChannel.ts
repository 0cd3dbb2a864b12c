/** A channel whose truth is a line in its reading: a thermometer, a load cell, an analogue input. */
export interface LinearChannel {
  /** In the unit of the truth. */
  readonly offset: number;
  /** Truth a unit of the reading. */
  readonly gain: number;
}

/** M127. Truth = offset + gain · reading. Never throws; NaN in, NaN out. */
export const channelFromReading = (reading: number, { offset, gain }: LinearChannel): number =>
  offset + gain * reading;

/** M127. Reading = (truth − offset) / gain. Never throws; NaN in, NaN out. */
export const channelReadingOf = (truth: number, { offset, gain }: LinearChannel): number =>
  (truth - offset) / gain;
