import type { OnboardComputer } from "../calibration/boat.ts";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import type { ImpliedStates } from "../fit/impliedState.ts";
import { agreementsOf } from "../judge/agreements.ts";
import { statesCorrected, statesOnBoard } from "../judge/rowWind.ts";
import { degrees, type Radians } from "../units.ts";
import type { TableRow } from "./cells.ts";
import { plain } from "./format.ts";
import type { Rounding } from "./rounding.ts";

/** What the corrected wind differs by from tack to tack comes of the wind and not of the instruments, and is taken off. */
function leftBetweenTacks(
  { settings }: Rounding,
  computer: OnboardComputer,
  fit: SolvedBoatFit,
  rows: readonly TableRow[],
): Radians {
  const gap = (states: ImpliedStates): Radians => agreementsOf(rows, states, fit.wander)[0].value;
  return gap(statesOnBoard(rows, settings, computer)) - gap(statesCorrected(rows, fit.settings));
}

/**
 * M69. Of a computer without a table: by how much the true wind direction that it shows will still differ from one tack to the other, in winds as in
 * the log, once the amounts stand in it as it takes them; a sentence. None where it has a table, or nothing compares the tacks. Never throws.
 *
 * @param rows in time order, on the base that the fit counts from
 */
export function leftOnDisplay(
  rounding: Rounding,
  computer: OnboardComputer,
  fit: SolvedBoatFit,
  rows: readonly TableRow[],
): readonly string[] {
  if (computer.table !== "none") return [];
  const left = leftBetweenTacks(rounding, computer, fit, rows);
  if (Number.isNaN(left)) return [];
  return [
    `Without a table the instruments cannot hold all of it: in winds as in this log the true wind direction that they show will still differ by some ${plain(Math.abs(degrees(left)), 1)}° from one tack to the other, give or take what the corrected one does. The corrected one, said at the head of this summary, is what apply makes of a log.`,
  ];
}
