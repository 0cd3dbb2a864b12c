import { variationAt } from "../physics/variation.ts";
import type { QuantityName, Readings } from "../recording/readings.ts";
import { SecondsAligner } from "../sailing/clock.ts";
import type { SecondsBlock } from "../sailing/series.ts";
import { LOGGED_COLUMNS } from "./logger.ts";
import { type SimulatedSail, STEPS_IN_A_SECOND } from "./simulatedSail.ts";

const HEADING = LOGGED_COLUMNS.indexOf("heading");

/** What each logged column is a reading of, in their order; headings by the north that they count from. */
const QUANTITY_OF_COLUMN: readonly QuantityName[] = [
  "apparentWindAngle",
  "apparentWindSpeed",
  "speedThroughWater",
  "headingMagnetic",
  "heel",
  "pitch",
  "speedOverGround",
  "courseOverGround",
  "latitude",
  "longitude",
];

/** Rows of a batch: four minutes. */
const BATCH = 960;

function quantitiesOf({ scenario }: SimulatedSail): readonly QuantityName[] {
  const isTrue = scenario.log.headings === "true";
  return QUANTITY_OF_COLUMN.map((name, place) => (place === HEADING && isTrue ? "headingTrue" : name));
}

/** The readings from one step to another, as a reader would hand them on; the source is the column's place. */
function readingsBetween({ scenario, logged }: SimulatedSail, first: number, end: number): Readings {
  const columns = LOGGED_COLUMNS.map((name) => logged[name]);
  const most = (end - first) * columns.length;
  const [time, source, value] = [new Float64Array(most), new Uint16Array(most), new Float64Array(most)];
  let length = 0;
  for (let step = first; step < end; step++) {
    for (let place = 0; place < columns.length; place++) {
      const reading = columns[place]![step]!;
      if (Number.isNaN(reading)) continue;
      time[length] = scenario.start + step / STEPS_IN_A_SECOND;
      source[length] = place;
      value[length] = reading;
      length += 1;
    }
  }
  return {
    length,
    time: time.subarray(0, length),
    source: source.subarray(0, length),
    value: value.subarray(0, length),
  };
}

/**
 * What a log's reader and the one clock (M35) would make of a simulated sail, without the way through text: the same
 * seconds, but for lines that are broken and for times within the second.
 *
 * Never throws.
 *
 * @example
 * secondsOfSail(sail)[0].columns.awa.length > 0 // true
 */
export function secondsOfSail(sail: SimulatedSail): readonly SecondsBlock[] {
  const chosen = Object.fromEntries(quantitiesOf(sail).map((name, place) => [name, place]));
  const aligner = new SecondsAligner({ chosen, variationAt });
  const steps = sail.logged.awa.length;
  const blocks: SecondsBlock[] = [];
  for (let first = 0; first < steps; first += BATCH)
    blocks.push(...aligner.push(readingsBetween(sail, first, Math.min(steps, first + BATCH))));
  blocks.push(...aligner.finish());
  return blocks;
}
