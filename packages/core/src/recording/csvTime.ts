import type { Seconds } from "../units.ts";
import { dayNumber, fullYear, SECONDS_IN_A_DAY } from "./calendar.ts";
import type { DateOrder, TimeFormat } from "./columnMapping.ts";
import { serialDateSeconds } from "./spreadsheetDate.ts";
import { clockSeconds, isoTime, type TimeText } from "./timeText.ts";

const [SPACE, COMMA, MINUS, POINT, SLASH, CAPITAL_T] = [0x20, 0x2c, 0x2d, 0x2e, 0x2f, 0x54] as const;

const UNITS_IN_A_SECOND = { s: 1, ms: 1e3, us: 1e6, ns: 1e9 } as const;

/** Seconds since 1970 UTC from a number, for the formats that are numbers; undefined for the others. */
export function numericTime(as: TimeFormat): ((value: number) => Seconds) | undefined {
  switch (as.format) {
    case "epoch":
      return (value) => value / UNITS_IN_A_SECOND[as.unit];
    case "spreadsheet":
      return (value) => serialDateSeconds(value, as.dateSystem) - as.zone;
    case "seconds":
      return (value) => as.start + value;
    default:
      return undefined;
  }
}

/** Where year, month and day stand in a date. */
const PLACES: Readonly<Record<DateOrder, readonly [year: number, month: number, day: number]>> = {
  "year-month-day": [0, 1, 2],
  "day-month-year": [2, 1, 0],
  "month-day-year": [2, 0, 1],
};

/** Days since 1970 from three numbers with - / . or a space between them; NaN if there is no such day. */
function dayIn(text: TimeText, order: DateOrder): number {
  const numbers: number[] = [];
  const digits: number[] = [];
  for (const place of [0, 1, 2]) {
    if (place > 0 && !text.take(MINUS, SLASH, POINT, SPACE)) return Number.NaN;
    digits.push(text.digits());
    numbers.push(text.whole(1, 4));
  }
  const [yearPlace, monthPlace, dayPlace] = PLACES[order];
  const year = numbers[yearPlace]!;
  const isShort = digits[yearPlace]! === 2;
  if (!isShort && digits[yearPlace]! !== 4) return Number.NaN;
  return dayNumber(isShort ? fullYear(year) : year, numbers[monthPlace]!, numbers[dayPlace]!);
}

/** Steps over what may stand between a date and a time. */
function skipGap(text: TimeText): void {
  while (text.take(SPACE, COMMA, CAPITAL_T));
}

/** Whether nothing but spaces is left. */
function isAtEnd(text: TimeText): boolean {
  while (text.take(SPACE));
  return text.peek() === undefined;
}

/**
 * Reads the times of a log's rows that are text, row by row; a time of day goes on past midnight. Nothing here throws; what
 * is no such time is NaN.
 */
export class RowTimes {
  readonly #as: TimeFormat;
  #latest = Number.NaN;

  constructor(as: TimeFormat) {
    this.#as = as;
  }

  /** s since 1970 UTC from a field that holds date and time, or the time of day. */
  of(text: TimeText): Seconds {
    const as = this.#as;
    switch (as.format) {
      case "iso": {
        const told = isoTime(text);
        if (told === undefined || !isAtEnd(text)) return Number.NaN;
        return told.seconds - (Number.isNaN(told.zone) ? as.zone : told.zone);
      }
      case "day and time": {
        const day = dayIn(text, as.order);
        skipGap(text);
        return day * SECONDS_IN_A_DAY + this.#clock(text) - as.zone;
      }
      case "time of day":
        return this.#goingOn(as.day * SECONDS_IN_A_DAY + this.#clock(text) - as.zone);
      default:
        return Number.NaN;
    }
  }

  /** As `of`, from a field with the date and one with the time of day, in which a zone may stand. */
  ofTwo(date: TimeText, time: TimeText): Seconds {
    const as = this.#as;
    const order = as.format === "day and time" ? as.order : "year-month-day";
    const zone = as.format === "day and time" || as.format === "iso" ? as.zone : Number.NaN;
    const day = dayIn(date, order);
    return isAtEnd(date) ? day * SECONDS_IN_A_DAY + this.#clock(time) - zone : Number.NaN;
  }

  #clock(text: TimeText): Seconds {
    const seconds = clockSeconds(text, false);
    return isAtEnd(text) ? seconds : Number.NaN;
  }

  /** The time on the day that puts it nearest to the row before. */
  #goingOn(time: Seconds): Seconds {
    if (Number.isNaN(time)) return time;
    const days = Number.isNaN(this.#latest) ? 0 : Math.round((this.#latest - time) / SECONDS_IN_A_DAY);
    this.#latest = time + days * SECONDS_IN_A_DAY;
    return this.#latest;
  }
}
