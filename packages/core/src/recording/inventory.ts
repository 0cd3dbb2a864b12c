import { wrapAngle, wrapDirection } from "../angles.ts";
import type { Seconds } from "../units.ts";
import { type InventoryPart, inventoryRows, type SourceRow } from "./inventoryPart.ts";
import { Likeness } from "./likeness.ts";
import { QUANTITY_TRAITS } from "./quantityTraits.ts";
import type { QuantityName, Readings, Source } from "./readings.ts";
import { SourceHealth } from "./sourceHealth.ts";

/** Readings this far apart are of one moment. */
const SAME_MOMENT: Seconds = 2;

/** A magnetic heading made from the course holds three roundings: its own, the course's and the variation's. */
const MAGNETIC_PARTS = 3;

/** One source as it is watched. */
interface Watched {
  readonly source: Source;
  readonly health: SourceHealth;
  readonly course: Likeness;
  /** Earlier sources of the same quantity, and how like them this one is. */
  readonly rivals: readonly { readonly other: Watched; readonly likeness: Likeness }[];
  time: Seconds;
  value: number;
}

/**
 * M34. What is in a recording, source by source, from its readings as they come: rates, gaps, frozen stretches,
 * resolution, range, spikes, sources that repeat another, and headings that are the course over ground. Never throws.
 *
 * @example
 * const inventory = new RecordingInventory();
 * for (const readings of reader.push(chunk)) inventory.add(readings, reader.sources);
 */
export class RecordingInventory {
  readonly #watched: Watched[] = [];
  readonly #courseSources: Watched[] = [];
  readonly #magneticCourseSources: Watched[] = [];
  readonly #variationSources: Watched[] = [];

  add(readings: Readings, sources: readonly Source[]): void {
    for (let index = this.#watched.length; index < sources.length; index++) this.#watch(sources[index]!);
    for (let row = 0; row < readings.length; row++)
      this.#addReading(this.#watched[readings.source[row]!]!, readings.time[row]!, readings.value[row]!);
  }

  /** What was read so far, as plain values that add up with those of other logs. */
  get part(): InventoryPart {
    return this.#watched.map(({ source, health, course, rivals }) => ({
      source,
      health: health.part,
      course: course.count,
      rivals: rivals.map(({ other, likeness }) => ({ name: other.source.name, count: likeness.count })),
    }));
  }

  /** A row for each source, in the order in which they turned up. */
  get rows(): readonly SourceRow[] {
    return inventoryRows([this.part]);
  }

  #watch(source: Source): void {
    const same = this.#watched.filter((other) => other.source.quantity === source.quantity);
    const watched: Watched = {
      source,
      health: new SourceHealth(QUANTITY_TRAITS[source.quantity]),
      course: new Likeness(),
      rivals: same.map((other) => ({ other, likeness: new Likeness() })),
      time: Number.NaN,
      value: Number.NaN,
    };
    this.#watched.push(watched);
    if (source.quantity === "courseOverGround") this.#courseSources.push(watched);
    if (source.quantity === "courseOverGroundMagnetic") this.#magneticCourseSources.push(watched);
    if (source.quantity === "variation") this.#variationSources.push(watched);
  }

  #addReading(watched: Watched, time: Seconds, value: number): void {
    watched.health.add(time, value);
    const isChange = value !== watched.value;
    watched.time = time;
    watched.value = value;
    if (!isChange) return;
    for (const { other, likeness } of watched.rivals)
      if (isOfOneMoment(other, time)) likeness.add(isSame(watched, other.value));
    if (isHeading(watched.source.quantity)) this.#compareWithCourse(watched);
  }

  #compareWithCourse(heading: Watched): void {
    const isMagnetic = heading.source.quantity === "headingMagnetic";
    const courses = this.#courses(isMagnetic, heading.time);
    const parts = isMagnetic ? MAGNETIC_PARTS : 1;
    if (courses.length > 0) heading.course.add(courses.some((course) => isSame(heading, course, parts)));
  }

  /** The courses over ground that were told last, from the same north. */
  #courses(isMagnetic: boolean, time: Seconds): readonly number[] {
    const fromTrueNorth = told(this.#courseSources, time);
    if (!isMagnetic) return fromTrueNorth;
    const turned = this.#variationSources.flatMap(({ value }) =>
      fromTrueNorth.map((course) => wrapDirection(course - value)),
    );
    return [...told(this.#magneticCourseSources, time), ...turned];
  }
}

/** What sources told at about a time. */
const told = (sources: readonly Watched[], time: Seconds): readonly number[] =>
  sources.filter((source) => isOfOneMoment(source, time)).map(({ value }) => value);

const isHeading = (quantity: QuantityName): boolean =>
  quantity === "headingTrue" || quantity === "headingMagnetic";

const isOfOneMoment = ({ time }: Watched, now: Seconds): boolean => Math.abs(now - time) <= SAME_MOMENT;

/** Whether a source's value is another one, to the rounding of so many parts. */
function isSame({ source, value }: Watched, other: number, parts = 1): boolean {
  const { isAngle, same } = QUANTITY_TRAITS[source.quantity];
  return Math.abs(isAngle ? wrapAngle(value - other) : value - other) <= parts * same;
}
