import { closeSync, openSync, writeSync } from "node:fs";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";

const START = Date.UTC(2031, 4, 14, 10) / 1000;

/** Rows written at once. */
const BLOCK = 8192;

const HEADER = "time,awa_deg,aws_kn,stw_kn,heading_mag_deg,heel_deg,cog_deg,sog_kn,lat_deg,lon_deg";

/** Writes a log of so many rows and ten columns, all of them numbers, at some three a second; returns its size in bytes. */
export function generateTable(path: string, count: number): number {
  const random = randomNumbers(20310514, 0);
  const field = (low: number, high: number, decimals: number): string =>
    random.between(low, high).toFixed(decimals);
  const file = openSync(path, "w");
  let bytes = writeSync(file, `${HEADER}\n`);
  for (let from = 0; from < count; from += BLOCK) {
    const rows = Array.from({ length: Math.min(BLOCK, count - from) }, (_, index) =>
      [
        (START + (from + index) * 0.3).toFixed(1),
        field(-180, 180, 2),
        field(0, 25, 3),
        field(0, 9, 3),
        field(0, 360, 2),
        field(-25, 25, 2),
        field(0, 360, 2),
        field(0, 9, 3),
        field(50.5, 50.51, 6),
        field(-1.26, -1.25, 6),
      ].join(","),
    );
    bytes += writeSync(file, `${rows.join("\n")}\n`);
  }
  closeSync(file);
  return bytes;
}
