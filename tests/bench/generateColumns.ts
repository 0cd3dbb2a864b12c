import { closeSync, openSync, writeFileSync, writeSync } from "node:fs";
import { join } from "node:path";
import { uniform } from "./uniform.ts";

const DEGREE = Math.PI / 180;
const ROWS_IN_A_BLOCK = 200;
const STEP_SECONDS = 0.3;

/** Masthead offset, wind gain, upwash, boat speed gain, leeway coefficient (deg·kn²/deg), compass offset: what the fit should find. */
const TRUTH = { offset: -1.5, windGain: 1.03, upwash: 2, speedGain: 0.97, leeway: 9, compass: 2 } as const;

interface Row {
  readonly awa: number;
  readonly aws: number;
  readonly stw: number;
  readonly hdg: number;
  readonly heel: number;
}

/** What is true behind a row of readings: the wind toward which it blows and the boat's motion, east and north, kn. */
function behind({ awa, aws, stw, hdg, heel }: Row) {
  const angle = (awa + TRUTH.offset + TRUTH.upwash * Math.sin(awa * DEGREE)) * DEGREE;
  const [ahead, athwart] = [
    aws * TRUTH.windGain * Math.cos(angle),
    (aws * TRUTH.windGain * Math.sin(angle)) / Math.cos(heel * DEGREE),
  ];
  const speed = stw * TRUTH.speedGain;
  const heading = (hdg + TRUTH.compass) * DEGREE;
  const track = heading + ((TRUTH.leeway * heel) / speed ** 2) * DEGREE;
  const [east, north] = [speed * Math.sin(track), speed * Math.cos(track)];
  return {
    east,
    north,
    windEast: east - (ahead * Math.sin(heading) + athwart * Math.cos(heading)),
    windNorth: north - (ahead * Math.cos(heading) - athwart * Math.sin(heading)),
  };
}

/**
 * Writes a log in columns, `log.csv` (t in s, angles in degrees, speeds in knots), and the mean wind of each of its blocks of 60 s, `ref.csv`: a
 * boat on a new course and angle in each block. Readings come first and the truth follows from them, so that a fit has an answer.
 *
 * @returns bytes of the log
 */
export function generateColumns(folder: string, rows: number): number {
  const random = uniform(20_310_614);
  // about normal: the sum of three uniform numbers, of unit variance
  const noise = (sd: number): number => 2 * sd * (random() + random() + random() - 1.5);
  const file = openSync(join(folder, "log.csv"), "w");
  let bytes = writeSync(file, "t,awa,aws,stw,hdg,heel,cog,sog\n");
  const reference = ["block,ref_e,ref_n"];
  for (let block = 0; block * ROWS_IN_A_BLOCK < rows; block++) {
    const side = random() < 0.5 ? -1 : 1;
    const mean = { awa: side * (25 + 130 * random()), aws: 8 + 14 * random(), stw: 4 + 5 * random() };
    const usual = { ...mean, hdg: 360 * random(), heel: -side * 20 * random() };
    const lines: string[] = [];
    let [sumEast, sumNorth] = [0, 0];
    for (let row = 0; row < ROWS_IN_A_BLOCK; row++) {
      const read: Row = {
        awa: usual.awa + noise(3),
        aws: usual.aws + noise(0.6),
        stw: usual.stw + noise(0.15),
        hdg: (usual.hdg + noise(2) + 360) % 360,
        heel: usual.heel + noise(2),
      };
      const { east, north, windEast, windNorth } = behind(read);
      sumEast += windEast;
      sumNorth += windNorth;
      const course = (Math.atan2(east, north) / DEGREE + noise(0.6) + 360) % 360;
      const time = STEP_SECONDS * (block * ROWS_IN_A_BLOCK + row);
      const { awa, aws, stw, hdg, heel } = read;
      const fields = [awa.toFixed(2), aws.toFixed(3), stw.toFixed(3), hdg.toFixed(2), heel.toFixed(2)];
      lines.push([time.toFixed(1), ...fields, course.toFixed(2), Math.hypot(east, north).toFixed(3)].join());
    }
    bytes += writeSync(file, `${lines.join("\n")}\n`);
    const [east, north] = [sumEast / ROWS_IN_A_BLOCK + noise(0.1), sumNorth / ROWS_IN_A_BLOCK + noise(0.1)];
    reference.push([block, east.toFixed(4), north.toFixed(4)].join());
  }
  closeSync(file);
  writeFileSync(join(folder, "ref.csv"), `${reference.join("\n")}\n`);
  return bytes;
}
