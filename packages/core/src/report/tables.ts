import type { Boat, OnboardComputer, SettingsBase } from "../calibration/boat.ts";
import type { LeewayByTack } from "../calibration/calibration.ts";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { ANGLE_BANDS, type TableRow, tableCells } from "./cells.ts";
import { type DeviationEntry, deviationCard, isTold } from "./deviationCard.ts";
import { lookedUpWind, type TableCell, tableCell } from "./entries.ts";
import { LEARNT } from "./format.ts";
import { keyedSettings } from "./keyed.ts";
import { leftOnDisplay } from "./leftOnDisplay.ts";
import { type Rounding, roundingOf } from "./rounding.ts";
import { checkWords, roundingWords } from "./roundingWords.ts";
import { type SingleSetting, singleSettings } from "./settings.ts";
import { anyStandsOut } from "./standsOut.ts";
import { withoutTable } from "./withoutTable.ts";
import { type WorkedReading, workedReadings } from "./workedReading.ts";

/** What to do with a table or card, taken whole. */
export type WholeAdvice = "key in" | "leave alone";

/** Everything that can be keyed in, laid out for the computer that the boat has. */
export interface CorrectionTables {
  readonly computer: OnboardComputer;
  /** Whether the boat file tells of that computer. */
  readonly computerIs: Boat["computerIs"];
  /** What the amounts are counted from. */
  readonly base: SettingsBase;
  readonly settings: readonly SingleSetting[];
  /** Of each tack, told and not keyed in; absent where leeway was left out. */
  readonly leewayByTack?: LeewayByTack;
  readonly deviation: readonly DeviationEntry[];
  /** "leave alone" where no heading asks for more than chance among so many would bring. */
  readonly deviationAdvice: WholeAdvice;
  /** Cells that hold evidence, learnt or not; of a computer without a table, what stays uncorrected in them. */
  readonly cells: readonly TableCell[];
  /** Of the whole table, whose cells hang together: all that was learnt is keyed in, or nothing. */
  readonly tableAdvice: WholeAdvice;
  /** One for each tack that was sailed. */
  readonly worked: readonly WorkedReading[];
  /** What is keyed in as the instruments take it. */
  readonly rounding: Rounding;
  /** What they should read afterwards, a sentence each. */
  readonly checks: readonly string[];
}

/** Whether the data, more than the prior, speak for both amounts of a cell. */
export const learntCells = (cells: readonly TableCell[]): readonly TableCell[] =>
  cells.filter(({ angle }) => angle.informed >= LEARNT);

/** Whether any heading asks for a change of the card beyond its doubt (M65). */
const cardAdvice = (card: readonly DeviationEntry[]): WholeAdvice =>
  anyStandsOut(
    card.filter(isTold).map(({ estimate, present }) => ({ ...estimate, value: estimate.value - present })),
  )
    ? "key in"
    : "leave alone";

/** Whether any entry of the table is beyond its doubt (M65). */
const tableAdviceOn = (cells: readonly TableCell[], { table }: OnboardComputer): WholeAdvice =>
  table !== "none" && anyStandsOut(learntCells(cells).flatMap(({ angle, speed }) => [angle, speed]))
    ? "key in"
    : "leave alone";

/**
 * The numbers to key in, refitted for the boat's own computer: what it cannot hold is held at what it does (M68),
 * and the table takes up the rest (M66, M67); without a table the masthead offset and the wind speed gain do, as well as they can (M69).
 *
 * @param fit total settings, counted from `base`
 * @param active what the instruments applied while the log was recorded, counted from `base`
 * @param rows the rows that the fit was made from, in time order, with readings counted from `base`
 * @returns amounts to add to the readings. Never throws.
 * @example
 * correctionTables(fit, "sensors without corrections", noCorrections, boat, rows) !== undefined // true
 */
export function correctionTables(
  fit: SolvedBoatFit,
  base: SettingsBase,
  active: SensorSettings,
  boat: Boat,
  rows: readonly TableRow[],
): CorrectionTables {
  const { computer } = boat;
  const fitted = singleSettings(fit, base, active, boat, rows);
  const settings = computer.table === "none" ? withoutTable(fitted, fit, active, boat, rows) : fitted;
  const keyed = keyedSettings(settings, active, fit.settings.heel.sign);
  const place = computer.table === "true" ? "true" : "apparent";
  const cells = tableCells(rows, (row) => lookedUpWind(row, keyed, computer), ANGLE_BANDS[place]).map(
    (cell) => tableCell(cell, fit, keyed, fitted, computer),
  );
  const deviation = deviationCard(fit, active, rows);
  const tableAdvice = tableAdviceOn(cells, computer);
  const isTableKeyed = tableAdvice === "key in";
  const deviationAdvice = cardAdvice(deviation);
  const isCardKeyed = deviationAdvice === "key in";
  const worked = workedReadings(cells, keyed, computer, isTableKeyed);
  const rounding = roundingOf({ settings, cells, isTableKeyed, isCardKeyed }, fit, active, boat);
  const isAnythingKeyed = isTableKeyed || rounding.entries.length > 0;
  return {
    computer,
    computerIs: boat.computerIs,
    base,
    settings,
    ...(fit.leewayByTack ? { leewayByTack: fit.leewayByTack } : {}),
    deviation,
    deviationAdvice,
    cells,
    tableAdvice,
    worked,
    rounding,
    checks: isAnythingKeyed
      ? [
          ...roundingWords(rounding),
          ...leftOnDisplay(rounding, computer, fit, rows),
          ...checkWords(worked, computer, active),
        ]
      : [],
  };
}
