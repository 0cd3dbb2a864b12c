import { degrees, type WindTrack } from "@bothtacks/core";
import {
  clock,
  counted,
  describedTable,
  html,
  type Markup,
  NOTHING,
  plain,
  signed,
} from "@bothtacks/core/page";

/** True wind angles within this of the bow are upwind, °. */
const UPWIND = 70;

/** Minutes of one tack that lie together are one leg: rows further apart than this begin another, s. */
const SAME_LEG = 90;

/** How unlike the angles of the two tacks were on a day, upwind and after correction; °. */
export interface DayOfAngles {
  readonly day: string;
  readonly starboard: Side;
  readonly port: Side;
  /** M53: mean of starboard (positive) plus mean of port (negative), over two: what a turned vane and shear have in common. */
  readonly unlike: number;
}

/** Mean angle of a tack, ° off the bow, over so many legs. */
interface Side {
  readonly angle: number;
  readonly legs: number;
}

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** The legs of a tack count alike, however long they were. */
const sideOf = (legs: readonly (readonly number[])[]): Side => ({
  angle: Math.abs(meanOf(legs.map(meanOf))),
  legs: legs.length,
});

/** The angles of the upwind rows of each day and tack, leg by leg. */
function legsByDay({ time, tack, kind, angleAfter }: WindTrack) {
  const days = new Map<string, Record<"starboard" | "port", number[][]>>();
  let last: { readonly time: number; readonly tack: string } | undefined;
  time.forEach((at, row) => {
    const angle = degrees(angleAfter[row]!);
    if (kind[row] !== "sailing" || !(Math.abs(angle) < UPWIND)) return;
    const day = clock(at).slice(0, 10);
    const own = days.get(day) ?? { starboard: [], port: [] };
    days.set(day, own);
    const side = own[tack[row]!];
    if (side.length === 0 || last?.tack !== tack[row] || at - (last?.time ?? 0) > SAME_LEG) side.push([]);
    side.at(-1)!.push(angle);
    last = { time: at, tack: tack[row]! };
  });
  return days;
}

/** How unlike the tacks' angles were, day by day; days with one tack only are left out. Never throws. */
export const anglesByDay = (track: WindTrack): readonly DayOfAngles[] =>
  [...legsByDay(track)].flatMap(([day, { starboard, port }]) => {
    if (starboard.length === 0 || port.length === 0) return [];
    const [right, left] = [sideOf(starboard), sideOf(port)];
    return { day, starboard: right, port: left, unlike: (right.angle - left.angle) / 2 };
  });

const WHAT_IT_MEANS =
  "Steered by her sails she sails the same angle on both tacks to the wind in her sails. What is left of a difference after correction is the day's shear, the helm, or a masthead offset that was not found: alike on all days it is likely the masthead unit, another on each day it is likely the wind.";

const sideCell = ({ angle, legs }: Side): Markup =>
  html`<td class="number">${plain(angle, 1)}°<span class="evidence">${counted(legs, "leg")}</span></td>`;

const row = ({ day, starboard, port, unlike }: DayOfAngles): Markup =>
  html`<tr><th scope="row" class="day">${day}</th>${sideCell(starboard)}${sideCell(port)}<td class="number">${signed(unlike, 1)}°</td></tr>`;

/** The table of the days; nothing where no day has both tacks. Never throws. */
export function shearByDay(track: WindTrack): Markup {
  const days = anglesByDay(track);
  if (days.length === 0) return NOTHING;
  return html`<div class="card"><h3 id="shear">Shear, day by day</h3>${describedTable(
    "shear-description",
    WHAT_IT_MEANS,
    html`<table class="shear" aria-labelledby="shear-description"><thead><tr><th scope="col">Upwind, tack</th><th scope="col" class="number">starboard</th><th scope="col" class="number">port</th><th scope="col" class="number">half the<br>difference</th></tr></thead><tbody>${days.map(row)}</tbody></table>`,
  )}</div>`;
}
