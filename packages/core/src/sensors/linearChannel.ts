/** A channel whose truth is a line in its reading: a thermometer, a load cell, an analogue input. */
export interface LinearChannel {
  /** In the unit of the truth. */
  readonly offset: number;
  /** Truth a unit of the reading. */
  readonly gain: number;
}

/**
 * M127. Truth = offset + gain · reading, each in its own unit. Never throws; NaN in, NaN out.
 *
 * @param reading in the unit of the channel
 * @example
 * channelFromReading(10, { offset: -0.5, gain: 2 }) // 19.5
 */
export const channelFromReading = (reading: number, { offset, gain }: LinearChannel): number =>
  offset + gain * reading;

/**
 * M127. Reading = (truth − offset) / gain, each in its own unit. Never throws; NaN in, NaN out.
 *
 * @param truth in the unit of the truth
 * @example
 * channelReadingOf(19.5, { offset: -0.5, gain: 2 }) // 10
 */
export const channelReadingOf = (truth: number, { offset, gain }: LinearChannel): number =>
  (truth - offset) / gain;
