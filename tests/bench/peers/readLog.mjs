// What a user would write with a package for NMEA 0183: readLog.mjs PACKAGE LOG. The log line by line, each line given to the package as
// its README says, its numbers into columns by time. Prints as JSON the sums of the speeds that it read, to compare, the seconds that
// reading took and the memory.
import { closeSync, openSync, readSync } from "node:fs";
import GPS from "gps";
import { parseNmeaSentence } from "nmea-simple";

const CHUNK = 1 << 18;
const KILOMETRES_IN_A_NAUTICAL_MILE = 1.852;

const [, , name, path] = process.argv;
const columns = new Map();
let time = Number.NaN;

function put(quantity, value) {
  if (!columns.has(quantity)) columns.set(quantity, { times: [], values: [] });
  const { times, values } = columns.get(quantity);
  times.push(time);
  values.push(value);
}

function putFix(date, latitude, longitude, knots, course) {
  time = date.getTime() / 1000;
  put("latitude", latitude);
  put("longitude", longitude);
  put("ground", knots);
  put("course", course);
}

function putPacket(packet) {
  switch (packet.sentenceId) {
    case "MWV": {
      const wind = packet.reference === "relative" ? "apparent" : "true";
      put(`${wind} angle`, packet.windAngle);
      put(wind, packet.speed);
      break;
    }
    case "VHW":
      put("heading", packet.degreesMagnetic);
      put("water", packet.speedKnots);
      break;
    case "HDG":
      put("compass", packet.heading);
      put("variation", packet.variation);
      break;
    case "RMC":
      putFix(packet.datetime, packet.latitude, packet.longitude, packet.speedKnots, packet.trackTrue);
      break;
  }
}

function putParsed(line) {
  try {
    putPacket(parseNmeaSentence(line));
  } catch {
    // a wrong checksum, or a sentence for which there is no parser
  }
}

const packages = {
  "nmea-simple": putParsed,
  // to throw takes the package longer than to parse: what it has no parser for may be left out by hand
  "nmea-simple, no XDR": (line) => {
    if (!line.startsWith("XDR", 3)) putParsed(line);
  },
  gps: (line) => {
    const told = GPS.Parse(line);
    if (told?.valid && told.type === "RMC")
      putFix(told.time, told.lat, told.lon, told.speed / KILOMETRES_IN_A_NAUTICAL_MILE, told.track);
  },
};

const readLine = packages[name];
const before = performance.now();
const file = openSync(path, "r");
const chunk = Buffer.alloc(CHUNK);
let rest = "";
for (let read = readSync(file, chunk); read > 0; read = readSync(file, chunk)) {
  const lines = (rest + chunk.latin1Slice(0, read)).split("\r\n");
  rest = lines.pop();
  lines.forEach(readLine);
}
if (rest !== "") readLine(rest);
closeSync(file);
const seconds = (performance.now() - before) / 1000;
const sumOf = (quantity) => columns.get(quantity)?.values.reduce((sum, value) => sum + value, 0);
const sums = { wind: sumOf("apparent"), ground: sumOf("ground") };
const found = Object.fromEntries(Object.entries(sums).filter(([, sum]) => sum !== undefined));
const megabytes = process.resourceUsage().maxRSS / 1024;
console.log(JSON.stringify({ found, seconds: { reading: seconds }, megabytes }));
