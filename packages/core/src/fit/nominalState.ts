import { wrapAngle, wrapDirection } from "../angles.ts";
import { directionOf } from "../physics/vectors.ts";
import { type LegRow, MOMENT_CHANNELS, type MomentChannel } from "../sailing/legRow.ts";
import { radians, type Seconds } from "../units.ts";
import { daysOf } from "./days.ts";
import type { RecordingChannels } from "./fitContext.ts";

/** Legs whose mean apparent wind angles share a sector of this width count as one point of sailing. */
const SECTOR = radians(30);

/** With fewer other legs of its kind a row's own leg is taken in. */
const LEAST_OTHER_LEGS = 2;

/** Under power the wind is taken as one over spells no further apart than this. */
const SPELL_APART: Seconds = 900;

const AWA = MOMENT_CHANNELS.indexOf("awa");
const AWS = MOMENT_CHANNELS.indexOf("aws");
const STW = MOMENT_CHANNELS.indexOf("stw");
const HEADING = MOMENT_CHANNELS.indexOf("heading");
const EAST = MOMENT_CHANNELS.indexOf("east");
const NORTH = MOMENT_CHANNELS.indexOf("north");

/** Channels that follow the wind's own fluctuation, and are therefore replaced by what is usual. */
export const FOLLOWS_THE_WIND: readonly MomentChannel[] = ["awa", "aws", "stw", "heel"];

/** The measured means of a row in the order of MOMENT_CHANNELS. */
export const measuredValues = (row: LegRow): Float64Array =>
  Float64Array.from(MOMENT_CHANNELS, (channel) => row.mean[channel]);

/** The legs' mean apparent wind angles by leg number, averaged from their rows. */
function meanAngleOfLegs(rows: readonly LegRow[]): ReadonlyMap<number, number> {
  const sums = new Map<number, { sine: number; cosine: number }>();
  for (const { leg, mean } of rows) {
    const sum = sums.get(leg) ?? { sine: 0, cosine: 0 };
    sums.set(leg, { sine: sum.sine + Math.sin(mean.awa), cosine: sum.cosine + Math.cos(mean.awa) });
  }
  return new Map([...sums].map(([leg, { sine, cosine }]) => [leg, Math.atan2(sine, cosine)]));
}

/** Rows under sail by day (M56), tack and point of sailing of their leg: what is usual is so in the day's wind. */
function rowsByPointOfSailing(rows: readonly LegRow[]): readonly (readonly number[])[] {
  const angles = meanAngleOfLegs(rows);
  const groups = new Map<string, number[]>();
  daysOf(rows).forEach(({ from, to }, day) => {
    for (let index = from; index < to; index++) {
      const { kind, tack, leg } = rows[index]!;
      if (kind === "motoring") continue;
      const sector = Math.floor(Math.abs(angles.get(leg) ?? Number.NaN) / SECTOR);
      const key = `${day} ${tack} ${sector}`;
      const group = groups.get(key);
      if (group) group.push(index);
      else groups.set(key, [index]);
    }
  });
  return [...groups.values()];
}

/** Mean over the rows that have it; NaN where none does. */
export function meanOf(rows: readonly LegRow[], read: (row: LegRow) => number): number {
  const values = rows.map(read).filter((value) => !Number.isNaN(value));
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Mean apparent wind angle, averaged the short way about a reference. */
export const meanAngle = (reference: number, rows: readonly LegRow[]): number =>
  reference + meanOf(rows, ({ mean }) => wrapAngle(mean.awa - reference));

const speedOverGround = ({ mean }: LegRow): number => Math.hypot(mean.east, mean.north);

/**
 * Of which legs of a row's kind the means are taken: of the others, which know nothing of what befell the row; or of all, where that is
 * too little to go by.
 */
export type UsualOf = "other legs" | "all legs";

/** Legs of one kind other than a row's own, or all of them where there are too few others. */
function othersOf(row: LegRow, members: readonly LegRow[], usualOf: UsualOf): readonly LegRow[] {
  if (usualOf === "all legs") return members;
  const others = members.filter(({ leg }) => leg !== row.leg);
  return new Set(others.map(({ leg }) => leg)).size >= LEAST_OTHER_LEGS ? others : members;
}

/** Rows under power in time order, apart where a quarter of an hour lies between. */
function spellsUnderPower(rows: readonly LegRow[]): readonly (readonly number[])[] {
  const spells: number[][] = [];
  let end = Number.NEGATIVE_INFINITY;
  rows.forEach(({ kind, start, duration }, index) => {
    if (kind !== "motoring") return;
    if (start - end > SPELL_APART) spells.push([]);
    spells.at(-1)!.push(index);
    end = start + duration;
  });
  return spells;
}

/** Speed through the water as shown, or over the ground where there is no wheel. */
const way = (row: LegRow): number => (Number.isNaN(row.mean.stw) ? speedOverGround(row) : row.mean.stw);

/** Where the bow points; without a compass where she goes. */
const bow = ({ mean }: LegRow): number =>
  Number.isNaN(mean.heading) ? directionOf(mean.east, mean.north) : mean.heading;

/**
 * Under power her course is not the wind's: each row's usual wind is the mean wind of the spell, plain sum of vectors, seen from
 * the row's own heading at the leg's usual speed.
 */
function usualUnderPower(rows: readonly LegRow[], spell: readonly number[], states: Float64Array[]): void {
  const members = spell.map((index) => rows[index]!);
  const plain = (component: "sin" | "cos") =>
    meanOf(members, (row) => {
      const { awa, aws } = row.mean;
      const heading = bow(row);
      return aws * Math[component](heading + awa) - way(row) * Math[component](heading);
    });
  const [windEast, windNorth] = [plain("sin"), plain("cos")];
  for (const index of spell) {
    const row = rows[index]!;
    const heading = bow(row);
    const speed = meanOf(
      members.filter(({ leg }) => leg === row.leg),
      way,
    );
    const east = windEast + speed * Math.sin(heading);
    const north = windNorth + speed * Math.cos(heading);
    const state = states[index]!;
    state[AWA] = wrapAngle(Math.atan2(east, north) - heading);
    state[AWS] = Math.hypot(east, north);
    if (!Number.isNaN(row.mean.stw)) state[STW] = speed;
  }
}

/**
 * M48. What is usual for each row's tack and point of sailing: the means of awa, aws, stw, heel and speed over ground over
 * the day's other legs of its kind. Heading and course over ground stay the row's own where compass, wheel and GPS
 * are all there; else, under sail, they are turned to the other legs' mean heading. Under power it is the mean wind of the spell, seen
 * from the row's own heading.
 *
 * The fit takes its derivatives there. Taken at the row's own values they would follow the wind's fluctuation, which is
 * the very thing that the residuals hold, and so would means over the minutes about it: that correlation is what biases
 * upwash by about a degree, and the wind speed sensor's threshold.
 *
 * @param rows leg rows in time order
 * @param channels what the recording offers
 * @param usualOf whether a row's own leg is taken in
 * @returns one array for each row, in the order of MOMENT_CHANNELS. Never throws.
 */
export function nominalStates(
  rows: readonly LegRow[],
  channels: RecordingChannels,
  usualOf: UsualOf = "other legs",
): readonly Float64Array[] {
  const states = rows.map(measuredValues);
  for (const spell of spellsUnderPower(rows)) usualUnderPower(rows, spell, states);
  for (const group of rowsByPointOfSailing(rows)) {
    const members = group.map((index) => rows[index]!);
    for (const index of group) {
      const others = othersOf(rows[index]!, members, usualOf);
      usualFor(rows[index]!, others, states[index]!);
      if (!seesMotion(channels)) turnToUsual(rows[index]!, others, states[index]!);
    }
  }
  return states;
}

/** With compass, wheel and GPS together her motion tells the compass, and the wind's part in her heading does no harm. */
const seesMotion = ({ compass, paddle, gps }: RecordingChannels): boolean => compass && paddle && gps;

/** Turns heading and course to what is usual on the other legs: steered by the wind, they follow its fluctuation too. */
function turnToUsual(row: LegRow, others: readonly LegRow[], state: Float64Array): void {
  const turn = meanOf(others, ({ mean }) => wrapAngle(mean.heading - row.mean.heading));
  if (Number.isNaN(turn)) return;
  const [east, north] = [state[EAST]!, state[NORTH]!];
  state[HEADING] = wrapDirection(row.mean.heading + turn);
  state[EAST] = east * Math.cos(turn) + north * Math.sin(turn);
  state[NORTH] = north * Math.cos(turn) - east * Math.sin(turn);
}

/** Puts what is usual in the place of a row's own values. */
function usualFor(row: LegRow, others: readonly LegRow[], state: Float64Array): void {
  for (const channel of FOLLOWS_THE_WIND) {
    const mean =
      channel === "awa"
        ? wrapAngle(meanAngle(row.mean.awa, others))
        : meanOf(others, ({ mean }) => mean[channel]);
    state[MOMENT_CHANNELS.indexOf(channel)] = mean;
  }
  const ratio = meanOf(others, speedOverGround) / speedOverGround(row);
  if (!(ratio > 0 && ratio < Number.POSITIVE_INFINITY)) return;
  state[EAST]! *= ratio;
  state[NORTH]! *= ratio;
}
