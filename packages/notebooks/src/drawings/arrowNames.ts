import { type Place, placeOn, SHORTEST, type Way } from "./ways.ts";

/** A side of an arrow, looking along it. */
type Side = "left" | "right";

/** An arrow that has a name. */
export interface NamedWay {
  readonly way: Way;
  readonly name: string;
}

/** A name and where it is written. */
export interface WrittenName extends Place {
  readonly name: string;
  readonly anchor: "start" | "middle" | "end";
}

/** What names must keep clear of. */
export interface Surroundings {
  /** Places that are drawn or written upon. */
  readonly drawn: readonly Place[];
  /** How far from the middle a name may reach to either side. */
  readonly reach: number;
}

/** The mean width of a letter, and how far text stands above and below its line, in the drawing's unit. */
const LETTER = 7.9;
const ABOVE = 13;
const BELOW = 5;

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function boxOf({ x, y, name, anchor }: WrittenName): Box {
  const width = LETTER * name.length;
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return { left, right: left + width, top: y - ABOVE, bottom: y + BELOW };
}

const overlap = (one: Box, other: Box): number =>
  Math.max(0, Math.min(one.right, other.right) - Math.max(one.left, other.left)) *
  Math.max(0, Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top));

const isIn = ({ x, y }: Place, { left, right, top, bottom }: Box): boolean =>
  x > left && x < right && y > top && y < bottom;

/** Where along its arrow a name may stand, the best first, and how far beside it. */
const SHARES = [0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95];
const DISTANCES = [9, 24];

/** A line is looked at in steps of so many units. */
const STEP = 5;

/**
 * What a name costs that covers a letter of another, a step of a line, or a drawn place, or stands behind another arrow; and what each place
 * less good than the best.
 */
const COST = { letter: 20, step: 1, drawn: 3, behind: 6, side: 1.5, further: 2, along: 0.5 };

/** Outward of an arrow on a side of it. */
const outward = ({ along }: Way, side: Side): Place =>
  side === "left" ? { x: along.y, y: -along.x } : { x: -along.y, y: along.x };

/** A place for a name: where it is written, and where on the arrow that is beside. */
interface Candidate {
  readonly written: WrittenName;
  readonly on: Place;
  readonly cost: number;
}

/** Beside an arrow; the line of text lies lower where it hangs below the arrow. */
function beside({ way, name }: NamedWay, side: Side, on: Place, distance: number): WrittenName {
  const out = outward(way, side);
  const anchor = out.x > 0.35 ? "start" : out.x < -0.35 ? "end" : "middle";
  return { name, anchor, x: on.x + distance * out.x, y: on.y + 5 + (distance + 7) * out.y };
}

/** The same, moved sideways as far as it reaches out of the drawing. */
function kept(written: WrittenName, reach: number): WrittenName {
  const { left, right } = boxOf(written);
  return { ...written, x: written.x + Math.max(0, -reach - left) - Math.max(0, right - reach) };
}

function candidates(named: NamedWay, preferred: Side, reach: number): readonly Candidate[] {
  return DISTANCES.flatMap((distance, far) =>
    SHARES.flatMap((share, rank) =>
      (["left", "right"] as const).map((side) => {
        const on = placeOn(named.way, share);
        const cost = COST.further * far + COST.along * rank + (side === preferred ? 0 : COST.side);
        return { written: kept(beside(named, side, on, distance), reach), on, cost };
      }),
    ),
  );
}

const mean = (some: readonly Place[]): Place => ({
  x: some.reduce((sum, { x }) => sum + x, 0) / some.length,
  y: some.reduce((sum, { y }) => sum + y, 0) / some.length,
});

/** The side of an arrow that looks away from a place. */
function sideAwayFrom(way: Way, { x, y }: Place): Side {
  const [middle, left] = [placeOn(way, 0.5), outward(way, "left")];
  return (middle.x - x) * left.x + (middle.y - y) * left.y > 0 ? "left" : "right";
}

/** On which side of the line from one place to another a third lies, by its sign. */
const turn = (from: Place, to: Place, { x, y }: Place): number =>
  (to.x - from.x) * (y - from.y) - (to.y - from.y) * (x - from.x);

/** Whether an arrow crosses the line between two places. */
const crosses = ({ start, end }: Way, from: Place, to: Place): boolean =>
  turn(from, to, start) * turn(from, to, end) < 0 && turn(start, end, from) * turn(start, end, to) < 0;

const stepsAlong = (way: Way): readonly Place[] =>
  Array.from({ length: Math.floor(way.length / STEP) + 1 }, (_, step) =>
    placeOn(way, (step * STEP) / way.length),
  );

/**
 * Where the names of arrows are written: beside their middle, outside all arrows; elsewhere beside their arrow where they would
 * cover another name, a line or a hull there, or stand behind another arrow. An arrow that is too short to be drawn has none. Never throws.
 */
export function arrowNames(
  arrows: readonly NamedWay[],
  { drawn, reach }: Surroundings,
): readonly WrittenName[] {
  const shown = arrows.filter(({ way }) => way.length >= SHORTEST);
  const ways = shown.map(({ way }) => way);
  const lines = ways.flatMap(stepsAlong);
  const inside = mean(ways.flatMap(({ start, end }) => [start, end]));
  const written: WrittenName[] = [];
  const spoiled = ({ written: one, on }: Candidate): number => {
    const box = boxOf(one);
    const middle = { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
    const letters = written.reduce((sum, other) => sum + overlap(box, boxOf(other)), 0) / (LETTER * ABOVE);
    const within = (some: readonly Place[]): number => some.filter((place) => isIn(place, box)).length;
    return (
      COST.letter * letters +
      COST.step * within(lines) +
      COST.drawn * within(drawn) +
      (ways.some((way) => crosses(way, on, middle)) ? COST.behind : 0)
    );
  };
  // a short arrow has fewer places beside it
  for (const named of [...shown].sort((one, other) => one.way.length - other.way.length)) {
    const preferred = sideAwayFrom(named.way, inside);
    const found = candidates(named, preferred, reach).map((one) => ({
      ...one,
      cost: one.cost + spoiled(one),
    }));
    written.push(found.reduce((best, next) => (next.cost < best.cost ? next : best)).written);
  }
  return written;
}
