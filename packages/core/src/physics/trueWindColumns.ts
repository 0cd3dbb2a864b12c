import { wrapDirection } from "../angles.ts";
import type { Column, MetresPerSecond, Radians } from "../units.ts";
import { leewayAngle } from "./leeway.ts";

/** Columns of readings that are free of faults, all equally long. */
export interface SailedColumns {
  /** In the mast's own plane. */
  readonly awa: Column<Radians>;
  readonly aws: Column<MetresPerSecond>;
  /** Along the boat. */
  readonly stw: Column<MetresPerSecond>;
  readonly heading: Column<Radians>;
  readonly heel: Column<Radians>;
}

/** Columns of the wind over the water, which the caller holds. */
export interface WindColumns {
  /** Where it comes from, [0, 2π), from the north of the headings. */
  readonly twd: Column<Radians>;
  readonly tws: Column<MetresPerSecond>;
  /** To the bow, (−π, π]. */
  readonly twa: Column<Radians>;
}

function demandLength(columns: Readonly<Record<string, Float64Array>>, length: number): void {
  for (const [name, column] of Object.entries(columns))
    if (column.length !== length)
      throw new RangeError(
        `trueWindColumns: ${name} must be as long as the others (${length}), got ${column.length}`,
      );
}

/**
 * M152. The wind over the water for whole columns: M11, M12 and M10 in the boat's own axes, where the triangle needs the heading only at
 * the end. Ahead: aws cos(awa) − stw; athwart: aws sin(awa) / cos(heel) − stw tan(leeway).
 *
 * @param sailed readings free of faults, rad and m/s
 * @param leewayCoefficient m²/s², as in `leewayAngle`
 * @param out columns that the caller holds, written to: rad and m/s; NaN where a reading is, or the boat lies on her side; angle and
 *   direction also in a calm
 * @returns `out`
 * @throws RangeError where columns differ in length
 * @see as `windOverWater`
 * @example
 * const column = (value) => Float64Array.of(value);
 * const sailed = { awa: column(radians(45)), aws: column(7), stw: column(3.5), heading: column(0), heel: column(0) };
 * const { tws } = trueWindColumns(sailed, 0, { twd: column(0), tws: column(0), twa: column(0) });
 * tws[0].toFixed(2) // "5.16"
 */
export function trueWindColumns<Out extends WindColumns>(
  sailed: SailedColumns,
  leewayCoefficient: number,
  out: Out,
): Out {
  const { awa, aws, stw, heading, heel } = sailed;
  const { twd, tws, twa } = out;
  demandLength({ aws, stw, heading, heel, twd, tws, twa }, awa.length);
  for (let index = 0; index < awa.length; index++) {
    const angle = awa[index]!;
    const wind = aws[index]!;
    const speed = stw[index]!;
    const list = heel[index]!;
    const upright = Math.abs(list) < Math.PI / 2 ? Math.cos(list) : Number.NaN;
    const ahead = wind * Math.cos(angle) - speed;
    const athwart =
      (wind * Math.sin(angle)) / upright - speed * Math.tan(leewayAngle(list, speed, leewayCoefficient));
    const toBow = ahead === 0 && athwart === 0 ? Number.NaN : Math.atan2(athwart, ahead);
    tws[index] = Math.sqrt(ahead * ahead + athwart * athwart);
    twa[index] = toBow === -Math.PI ? Math.PI : toBow;
    twd[index] = wrapDirection(heading[index]! + toBow);
  }
  return out;
}
