// The same with this library as built, its reader alone: prints as JSON the good sentences, the bad ones and the sum of
// the apparent wind speeds in knots, and the seconds that reading took.
import { closeSync, openSync, readSync } from "node:fs";
import { Nmea0183Reader } from "../../packages/core/dist/recording/nmea0183Reader.js";
import { knots } from "../../packages/core/dist/units.js";

const CHUNK = 1 << 17;

const path = process.argv[2];
const before = performance.now();
const reader = new Nmea0183Reader({ file: path });
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
const found = { good: used + ignored, bad: problems, wind: Number(knots(sum).toFixed(2)) };
const megabytes = process.resourceUsage().maxRSS / 1024;
console.log(JSON.stringify({ found, seconds: { reading: seconds }, megabytes }));
