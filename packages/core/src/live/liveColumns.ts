import type { Column } from "../units.ts";
import { LIVE_SAMPLE, LIVE_WIND, type LiveSampleName, type LiveWindName } from "./liveArrays.ts";
import type { LiveState } from "./liveState.ts";
import { liveWindInto } from "./liveWind.ts";

/** Columns of samples by name, all equally long; SI and radians; a column that is left out is missing. */
export type LiveSampleColumns = Readonly<Partial<Record<LiveSampleName, Column<number>>>>;

/** Columns that answers are written into, by name: only the wanted ones, each as long as the samples. */
export type LiveWindColumns = Readonly<Partial<Record<LiveWindName, Column<number>>>>;

type Lane = readonly [column: Float64Array, place: number];

function lanes<Name extends string>(
  columns: Readonly<Partial<Record<Name, Float64Array>>>,
  places: Readonly<Record<Name, number>>,
  length: number,
): readonly Lane[] {
  return (Object.keys(columns) as Name[]).flatMap((name): readonly Lane[] => {
    const column = columns[name];
    if (column === undefined) return [];
    if (places[name] === undefined)
      throw new RangeError(`liveWinds: ${name} must be one of ${Object.keys(places).join(", ")}`);
    if (column.length !== length)
      throw new RangeError(
        `liveWinds: ${name} must be as long as the others (${length}), got ${column.length}`,
      );
    return [[column, places[name]]];
  });
}

/**
 * M27, by columns: samples one after another, as `liveWindInto` takes them, bit for bit. Nothing is copied but the numbers.
 *
 * @param samples SI and radians; time in s
 * @param state of this stream of samples, changed: a recording may come in several parts
 * @param out columns that the caller holds, written to: rad, m/s, s; NaN where it cannot be told
 * @returns `out`
 * @throws RangeError where columns differ in length, or a name is none
 * @example
 * const samples = { awa: Float64Array.of(0.6, 0.7), aws: Float64Array.of(8, 8), stw: Float64Array.of(3, 3), heading: Float64Array.of(1, 1), heel: Float64Array.of(0, 0) };
 * const { tws } = liveWinds(samples, liveState({ headingsAre: "true" }), { tws: new Float64Array(2) });
 * Array.from(tws, (speed) => speed.toFixed(3)) // ["5.778", "6.024"]
 */
export function liveWinds<Out extends LiveWindColumns>(
  samples: LiveSampleColumns,
  state: LiveState,
  out: Out,
): Out {
  const length = Object.values(samples)[0]?.length ?? 0;
  const [heard, told] = [lanes(samples, LIVE_SAMPLE, length), lanes(out, LIVE_WIND, length)];
  const { sample, answer } = state;
  sample.fill(Number.NaN);
  for (let index = 0; index < length; index++) {
    for (const [column, place] of heard) sample[place] = column[index]!;
    liveWindInto(sample, state, answer);
    for (const [column, place] of told) column[index] = answer[place]!;
  }
  return out;
}
