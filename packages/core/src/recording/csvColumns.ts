import type { ColumnMapping, TimeFormat } from "./columnMapping.ts";
import { type ColumnMeaning, columnMeaning, unitInCell } from "./columnNames.ts";
import { type ColumnUnit, isAngle } from "./columnUnits.ts";
import type { CsvHead } from "./csvHead.ts";
import { plainDateAndTime, plainTime, type TimeDoubt } from "./csvPlainTime.ts";
import type { ColumnQuestion } from "./csvQuestions.ts";
import type { QuantityName } from "./readings.ts";

/** A column that is read: where it stands, and how its numbers become a reading. */
export interface PlannedColumn {
  readonly index: number;
  readonly name: string;
  readonly quantity: QuantityName;
  /** As the header or the mapping tells it. */
  readonly unit: ColumnUnit;
  readonly isTurned: boolean;
}

/** How the rows of a log are read. */
export interface CsvPlan {
  readonly columns: readonly PlannedColumn[];
  /** Columns that tell the time: one, or date and time. */
  readonly time: { readonly indices: readonly number[]; readonly as: TimeFormat };
}

/** What is known of a log's columns. */
export interface ColumnFindings {
  readonly columns: readonly PlannedColumn[];
  readonly time: CsvPlan["time"] | undefined;
  /** Nothing is read as long as one is open. */
  readonly questions: readonly ColumnQuestion[];
  /** Columns of quantities that no calibration needs, whose units are not told: they are not read. */
  readonly unread: readonly string[];
}

/** Quantities that a calibration rests on: what is not plain about them is asked, not passed over. */
const ESSENTIAL: ReadonlySet<QuantityName> = new Set<QuantityName>([
  "apparentWindAngle",
  "apparentWindSpeed",
  "speedThroughWater",
  "headingMagnetic",
  "headingTrue",
  "heel",
  "courseOverGround",
  "courseOverGroundMagnetic",
  "speedOverGround",
]);

/** A table with the wind over the ground by this name is one that this library wrote: north is true in it unless told. */
const WIND_OVER_GROUND = "gwd_deg";

/** A whole turn in radians, and what rounding may add: an angle beyond it is in degrees. */
const TURN = 2 * Math.PI + 1e-3;

const numberIn = (cell: string): number => (cell === "" ? Number.NaN : Number(cell.replace(",", ".")));

/** M111. Whether a column of angles is in degrees for certain: a value in it would be more than a turn in radians. */
const isInDegrees = ({ rows }: CsvHead, indices: readonly number[]): boolean =>
  rows.some((cells) => indices.some((index) => Math.abs(numberIn(cells[index] ?? "")) > TURN));

/** So many times show how a column tells them. */
const TIMES_LOOKED_AT = 200;

/** Latitude and longitude are in one unit. */
const POSITION: ReadonlySet<QuantityName> = new Set<QuantityName>(["latitude", "longitude"]);

class Finder {
  readonly #head: CsvHead;
  readonly #mapping: ColumnMapping | undefined;
  readonly #meanings: readonly ColumnMeaning[];
  readonly columns: PlannedColumn[] = [];
  readonly questions: ColumnQuestion[] = [];
  readonly unread: string[] = [];

  constructor(head: CsvHead, mapping: ColumnMapping | undefined) {
    this.#head = head;
    this.#mapping = mapping;
    this.#meanings = head.names.map((name) => (head.header === "" ? { isUtc: false } : columnMeaning(name)));
  }

  /** The index of the column that the mapping means by a name or number; −1 where there is none: that is asked. */
  #indexOf(column: string): number {
    const { names } = this.#head;
    const byName = names.indexOf(column);
    const byNumber = /^\d+$/.test(column) ? Number(column) - 1 : -1;
    const index = byName >= 0 ? byName : byNumber < names.length ? byNumber : -1;
    if (index < 0) this.questions.push({ asks: "column", column, known: names });
    return index;
  }

  findColumns(): void {
    const mapped = new Map(
      Object.entries(this.#mapping?.columns ?? {}).map(([column, as]) => [this.#indexOf(column), as]),
    );
    this.#head.names.forEach((name, index) => {
      const as = mapped.get(index);
      if (as === undefined) this.#findByHeader(name, index);
      else if (as.quantity !== "none") this.columns.push({ index, name, ...as });
    });
    if (this.columns.length === 0 && this.questions.length === 0) this.questions.push({ asks: "quantities" });
  }

  #findByHeader(name: string, index: number): void {
    const { names, units } = this.#head;
    const meaning = this.#meanings[index]!;
    const isOurs = names.includes(WIND_OVER_GROUND);
    const quantity = meaning.quantity === "heading" && isOurs ? "headingTrue" : meaning.quantity;
    if (quantity === undefined) return;
    const unit = meaning.unit ?? unitInCell(units[index] ?? "") ?? this.#unitByValues(quantity, index);
    if (quantity === "heading") this.questions.push({ asks: "north", column: name, unit });
    else if (unit !== undefined) this.columns.push({ index, name, quantity, unit, isTurned: false });
    else if (ESSENTIAL.has(quantity)) this.questions.push({ asks: "unit", column: name, quantity });
    else this.unread.push(name);
  }

  #unitByValues(quantity: QuantityName | "heading", index: number): ColumnUnit | undefined {
    if (quantity !== "heading" && !isAngle(quantity)) return undefined;
    const isPosition = quantity !== "heading" && POSITION.has(quantity);
    const indices = isPosition
      ? this.#meanings.flatMap((other, at) =>
          other.quantity && other.quantity !== "heading" && POSITION.has(other.quantity) ? [at] : [],
        )
      : [index];
    return isInDegrees(this.#head, indices) ? "deg" : undefined;
  }

  findTime(): CsvPlan["time"] | undefined {
    const told = this.#mapping?.time;
    if (!told) return this.#plainTime();
    const indices = told.columns.map((column) => this.#indexOf(column));
    return indices.includes(-1) ? undefined : { indices, as: told.as };
  }

  /** Columns by their headers: whatever tells the time plainly by itself, else date and time together. */
  #plainTime(): CsvPlan["time"] | undefined {
    const candidates = this.#candidates();
    const [first] = candidates;
    if (first === undefined) {
      this.questions.push({ asks: "time column" });
      return undefined;
    }
    const judged = candidates.map((indices) => ({ indices, as: this.#judged(indices) }));
    for (const { indices, as } of judged) if (typeof as !== "string") return { indices, as };
    const { indices, as } = judged.find((one) => one.as === "zone") ?? judged[0]!;
    const received = this.#valuesOf(indices)[0]?.join(" ") ?? "nothing";
    const columns = indices.map((index) => this.#head.names[index]!);
    this.questions.push({ asks: as === "zone" ? "zone" : "time", columns, received });
    return undefined;
  }

  #candidates(): readonly (readonly number[])[] {
    const of = (kind: "time" | "date") =>
      this.#meanings.flatMap(({ time }, index) => (time === kind ? [index] : []));
    const [times, dates] = [of("time"), of("date")];
    const pairs = dates.flatMap((date) => times.map((time) => [date, time]));
    return [...times.map((time) => [time]), ...pairs, ...dates.map((date) => [date])];
  }

  #valuesOf(indices: readonly number[]): readonly (readonly string[])[] {
    const { rows } = this.#head;
    const values = rows.map((cells) => indices.map((index) => cells[index] ?? ""));
    return values.filter((cells) => cells.every((cell) => cell !== "")).slice(0, TIMES_LOOKED_AT);
  }

  #judged(indices: readonly number[]): TimeFormat | TimeDoubt {
    const values = this.#valuesOf(indices);
    const isUtc = indices.some((index) => this.#meanings[index]!.isUtc);
    return indices.length === 1
      ? plainTime(values.flat(), isUtc)
      : plainDateAndTime(
          values.map(([date = "", time = ""]) => [date, time]),
          isUtc,
        );
  }
}

/**
 * M111, M112. What the columns of a log hold: by the mapping, else by their headers where these are plain. What is not plain is a
 * question, never a guess. Never throws.
 */
export function findColumns(head: CsvHead, mapping: ColumnMapping | undefined): ColumnFindings {
  const finder = new Finder(head, mapping);
  finder.findColumns();
  const time = finder.findTime();
  const { columns, questions, unread } = finder;
  return { columns, time, questions, unread };
}
