import { angleBetween, degrees, type Leg, type Turn, type WindTrack, wrapDirection } from "@bothtacks/core";
import { capital, clock, counted, duration, legMeans, threeFigures, timeOfDay } from "@bothtacks/core/page";
import type { Answered, LeftOut } from "./bench.ts";
import type { LogsSeen } from "./workshop.ts";

/** A leg or a turn on the line of time. */
export interface Item {
  readonly what: keyof LeftOut;
  /** Its number, counted from 0: legs by themselves, turns by themselves. */
  readonly place: number;
  readonly start: number;
  /** Minutes. */
  readonly length: number;
  /** What it looks like: the tack of a leg under sail, "power", or the kind of a turn. */
  readonly look: "starboard" | "port" | "power" | Turn["kind"];
  readonly name: string;
  /** What it is, for those who do not see it, and for the line that tells of it. */
  readonly more: string;
}

/** What begins on one day. */
export interface DayOfItems {
  readonly day: string;
  readonly items: readonly Item[];
}

const span = (start: number, end: number): string =>
  `${timeOfDay(start).replace(" UTC", "")} to ${timeOfDay(end)}`;

const legItem = (leg: Leg, place: number): Item => ({
  what: "legs",
  place,
  start: leg.start,
  length: (leg.end - leg.start) / 60,
  look: leg.kind === "motoring" ? "power" : leg.tack,
  name: `Leg ${leg.number + 1}`,
  more: `${leg.kind === "motoring" ? "under power" : `${leg.tack} tack`}, ${span(leg.start, leg.end)}, ${duration(leg.end - leg.start)}`,
});

const turnItem = ({ kind, start, end, change }: Turn, place: number): Item => ({
  what: "turns",
  place,
  start,
  length: (end - start) / 60,
  look: kind,
  name: `${kind === "other" ? "Turn" : capital(kind)} at ${timeOfDay(start)}`,
  more: `${Math.round(Math.abs(degrees(change)))}° to ${change < 0 ? "port" : "starboard"}`,
});

const dayOf = (time: number): string => clock(time).slice(0, 10);

/** Legs and turns day by day, in the order of time; where there are several days, their words tell the date. Never throws. */
export function daysOf({ sailing: { legs, turns } }: Pick<LogsSeen, "sailing">): readonly DayOfItems[] {
  const items = [...legs.map(legItem), ...turns.map(turnItem)].sort((a, b) => a.start - b.start);
  const days: { readonly day: string; readonly items: Item[] }[] = [];
  for (const item of items) {
    const day = dayOf(item.start);
    if (days.at(-1)?.day !== day) days.push({ day, items: [] });
    days.at(-1)!.items.push(item);
  }
  if (days.length < 2) return days;
  return days.map(({ day, items: own }) => ({
    day,
    items: own.map((item) => ({ ...item, more: `${item.more}, ${day}` })),
  }));
}

/** The mean of directions that lie on one line, rad, by the number of the leg. */
const windOfLegs = (legs: readonly Leg[], { time, directionAfter }: WindTrack): ReadonlyMap<number, number> =>
  new Map(legMeans(legs, time, directionAfter).map(({ leg, mean }) => [leg.number, mean]));

/**
 * What is known of an item beside its name: whether it is left out, and where the corrected wind came from on a leg.
 * Never throws.
 *
 * @param others the mean over all legs is told beside it
 */
export function itemWords(item: Item, isLeftOut: boolean, answered: Answered | undefined): string {
  const left = isLeftOut ? "left out" : "counts";
  const { answer } = answered?.calibrated ?? {};
  if (answer === undefined || item.what === "turns" || item.look === "power") return `${left}.`;
  // the answer's legs keep their numbers, which are the places in the sailing
  const winds = windOfLegs(answer.legs, answer.track);
  const own = winds.get(item.place);
  if (own === undefined || Number.isNaN(own)) return `${left}.`;
  const before = [...winds].filter(([number]) => number < item.place).at(-1)?.[1];
  const turned = before === undefined ? "" : shiftWords(angleBetween(own, before));
  return `${left}; wind from ${threeFigures(degrees(wrapDirection(own)))}°${turned}.`;
}

function shiftWords(shift: number): string {
  const size = Math.round(Math.abs(degrees(shift)));
  return size === 0
    ? ", as on the leg before"
    : `, ${size}° ${shift > 0 ? "right" : "left"} of the leg before`;
}

const countsOf = (legs: number, turns: number): string =>
  [...(legs > 0 ? [counted(legs, "leg")] : []), ...(turns > 0 ? [counted(turns, "turn")] : [])].join(" and ");

/** "2 legs and 1 turn"; empty where there are none. Never throws. */
export function leftOutWords(items: readonly Item[]): string {
  const legs = items.filter(({ what }) => what === "legs").length;
  return countsOf(legs, items.length - legs);
}

/** How much is left out, in words. Never throws. */
export function leftOutCount({ legs, turns }: LeftOut): string {
  const some = countsOf(legs.length, turns.length);
  return some === "" ? "Nothing is left out." : `${capital(some)} left out.`;
}
