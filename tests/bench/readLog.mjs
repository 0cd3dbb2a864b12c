// A log of sentences, or one in columns (*.csv), with this library as built, its reader alone: prints as JSON what peers/readLog.py and
// peers/readTable.py find (sentences good and bad, or rows; the sums of the apparent wind speeds and the speeds over ground in knots), the
// seconds that reading took, without the sums, as in the others, and the memory.
import { closeSync, openSync, readSync } from "node:fs";
import { CsvReader } from "../../packages/core/dist/recording/csvReader.js";
import { Nmea0183Reader } from "../../packages/core/dist/recording/nmea0183Reader.js";
import { knots } from "../../packages/core/dist/units.js";

const CHUNK = 1 << 18;

const path = process.argv[2];
const inColumns = path.endsWith(".csv");
const reader = inColumns ? new CsvReader({ file: path }) : new Nmea0183Reader({ file: path });
const sums = { apparentWindSpeed: 0, speedOverGround: 0 };
let seconds = 0;

function add(batches) {
  const quantities = reader.sources.map(({ quantity }) => quantity);
  for (const { length, source, value } of batches)
    for (let row = 0; row < length; row++) {
      const quantity = quantities[source[row]];
      if (quantity in sums) sums[quantity] += value[row];
    }
}

function timed(work) {
  const before = performance.now();
  const result = work();
  seconds += (performance.now() - before) / 1000;
  return result;
}

const file = timed(() => openSync(path, "r"));
const chunk = new Uint8Array(CHUNK);
for (let read = 1; read > 0; ) {
  read = timed(() => readSync(file, chunk));
  add(timed(() => reader.push(chunk.subarray(0, read))));
}
add(timed(() => reader.finish()));
closeSync(file);
const { used, ignored, problems } = reader.lines;
const counted = inColumns ? { rows: used } : { good: used + ignored, bad: problems };
const found = { ...counted, wind: knots(sums.apparentWindSpeed), ground: knots(sums.speedOverGround) };
const megabytes = process.resourceUsage().maxRSS / 1024;
console.log(JSON.stringify({ found, seconds: { reading: seconds }, megabytes }));
