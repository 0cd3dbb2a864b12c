/** Rows by columns; `line` is the line's number, counting whole sentences of any kind. */
export interface RowColumns {
  readonly time: Float64Array<ArrayBuffer>;
  readonly source: Uint16Array<ArrayBuffer>;
  readonly value: Float64Array<ArrayBuffer>;
  readonly line: Int32Array<ArrayBuffer>;
}

/** Columns for so many rows. */
export const columnsOf = (length: number): RowColumns => ({
  time: new Float64Array(length),
  source: new Uint16Array(length),
  value: new Float64Array(length),
  line: new Int32Array(length),
});

/** The same rows in columns for more of them. */
export function grownColumns({ time, source, value, line }: RowColumns, length: number): RowColumns {
  const grown = columnsOf(length);
  grown.time.set(time);
  grown.source.set(source);
  grown.value.set(value);
  grown.line.set(line);
  return grown;
}
