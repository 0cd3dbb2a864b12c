import type { Seconds } from "../units.ts";
import { SECONDS_IN_A_DAY } from "./calendar.ts";

/**
 * Serial numbers of 1970-01-01: day 1 is 1900-01-01 with a 29 February 1900 that never was, or day 0 is 1904-01-01.
 *
 * @see ECMA-376, Office Open XML, first edition 2006, part 4, section 3.17.4.1
 */
const SERIAL_OF_1970 = { 1900: 25_569, 1904: 24_107 } as const;

/**
 * M113. Seconds since 1970, by the clock that the spreadsheet shows, from a serial date: days and their fraction. For dates
 * from 1900-03-01 on. Never throws; NaN in, NaN out.
 */
export const serialDateSeconds = (serial: number, dateSystem: 1900 | 1904): Seconds =>
  (serial - SERIAL_OF_1970[dateSystem]) * SECONDS_IN_A_DAY;
