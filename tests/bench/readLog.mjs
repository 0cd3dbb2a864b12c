// A log of sentences, or one in columns (*.csv), with this library as built, its reader alone: prints as JSON what peers/readLog.py and
// peers/readTable.py find (sentences good and bad, or rows; the sum of the apparent wind speeds in knots), the seconds that reading took
// and the memory.
import { closeSync, openSync, readSync } from "node:fs";
import { CsvReader } from "../../packages/core/dist/recording/csvReader.js";
import { Nmea0183Reader } from "../../packages/core/dist/recording/nmea0183Reader.js";
import { knots } from "../../packages/core/dist/units.js";

const CHUNK = 1 << 18;

const path = process.argv[2];
const before = performance.now();
const inColumns = path.endsWith(".csv");
const reader = inColumns ? new CsvReader({ file: path }) : new Nmea0183Reader({ file: path });
let sum = 0;

function add(batches) {
  const wind = reader.sources.findIndex(({ quantity }) => quantity === "apparentWindSpeed");
  for (const { length, source, value } of batches)
    for (let row = 0; row < length; row++) if (source[row] === wind) sum += value[row];
}

const file = openSync(path, "r");
const chunk = new Uint8Array(CHUNK);
for (let read = readSync(file, chunk); read > 0; read = readSync(file, chunk))
  add(reader.push(chunk.subarray(0, read)));
add(reader.finish());
closeSync(file);
const seconds = (performance.now() - before) / 1000;
const { used, ignored, problems } = reader.lines;
const counted = inColumns ? { rows: used } : { good: used + ignored, bad: problems };
const found = { ...counted, wind: Number(knots(sum).toFixed(2)) };
const megabytes = process.resourceUsage().maxRSS / 1024;
console.log(JSON.stringify({ found, seconds: { reading: seconds }, megabytes }));
