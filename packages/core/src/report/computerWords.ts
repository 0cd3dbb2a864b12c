import type { SettingsBase } from "../calibration/boat.ts";
import type { CorrectionTables } from "./tables.ts";

const does = (whether: boolean, what: string): string =>
  `${whether ? "corrects" : "does not correct"} ${what}`;

const UNKNOWN_BASE =
  "What was keyed in while this was recorded is not known either way: the amounts come on top of it, whatever it was.";

const baseWords = (base: SettingsBase): string => (base === "unknown corrections" ? ` ${UNKNOWN_BASE}` : "");

/**
 * For what kind of computer on board the numbers are laid out, whether the boat file says so or it is assumed, and what they
 * are counted from. Never throws.
 */
export function computerWords({ computer, computerIs, base }: CorrectionTables): string {
  const table = computer.table === "none" ? "has no wind table" : `has its table on ${computer.table} wind`;
  const kind = `a computer that ${does(computer.correctsHeel, "heel")}, ${does(computer.correctsLeeway, "leeway")} and ${table}`;
  const said =
    computerIs === "given"
      ? `Laid out for ${kind}, as the boat file says.`
      : `No boat file tells what computer is on board, so ${kind} is assumed: if yours does otherwise, say so in a boat file and calibrate again before keying in anything.`;
  return `${said}${baseWords(base)}`;
}
