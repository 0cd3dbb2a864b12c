/**
 * One clock for all channels: one row a second, values averaged within the second (angles as vectors), short
 * gaps bridged, long gaps left NaN. Headings are as the compass gives them; `headingIsTrue` says which north.
 *
 * @example
 * CHANNELS.every((name) => block.columns[name].length === block.length) // true
 */
export const CHANNELS = [
  "awa", // rad (−π, π], indicated
  "aws", // m/s, indicated
  "stw", // m/s, indicated
  "heading", // rad [0, 2π)
  "heel", // rad, as indicated
  "pitch", // rad
  "heelRate", // rad/s, from the heel sensor's own readings within the second; NaN where too slow
  "pitchRate", // rad/s
  "east", // m/s, velocity over ground
  "north", // m/s
  "latitude", // rad
  "longitude", // rad
  "variation", // rad, east positive: by model at place and date, else as logged, else NaN
] as const;

/** One of CHANNELS. */
export type Channel = (typeof CHANNELS)[number];

/** A block of whole seconds, in time order; blocks follow each other without overlap. */
export interface SecondsBlock {
  readonly length: number;
  /** s since 1970 UTC, whole seconds. */
  readonly time: Float64Array;
  readonly headingIsTrue: boolean;
  readonly columns: Readonly<Record<Channel, Float64Array>>;
}

/**
 * One value for each channel, by its name. Never throws.
 *
 * @example
 * byChannel((name) => name.length).awa // 3
 */
export const byChannel = <Value>(value: (channel: Channel) => Value): Record<Channel, Value> => ({
  awa: value("awa"),
  aws: value("aws"),
  stw: value("stw"),
  heading: value("heading"),
  heel: value("heel"),
  pitch: value("pitch"),
  heelRate: value("heelRate"),
  pitchRate: value("pitchRate"),
  east: value("east"),
  north: value("north"),
  latitude: value("latitude"),
  longitude: value("longitude"),
  variation: value("variation"),
});
