// A live true wind from the instruments' NMEA 0183 over TCP, a line of JSON for each reading of the wind:
//   node logger.mjs HOST PORT [CALIBRATION.json]
import { once } from "node:events";
import { readFile } from "node:fs/promises";
import { connect } from "node:net";
import {
  calibrationFromFile,
  degrees,
  knots,
  liveOptionsOf,
  liveState,
  liveWind,
  Nmea0183Reader,
  variationAt,
} from "@bothtacks/core";

const [host, port, calibration] = process.argv.slice(2);
if (port === undefined) {
  console.error("usage: node logger.mjs HOST PORT [CALIBRATION.json]");
  process.exit(2);
}

/** Readings older than this are as good as none. */
const STALE_SECONDS = 5;

/** Where a reading goes in a live sample; speed and course over ground become a velocity below. */
const PLACES = {
  apparentWindAngle: "awa",
  apparentWindSpeed: "aws",
  speedThroughWater: "stw",
  headingMagnetic: "heading",
  heel: "heel",
  pitch: "pitch",
  rateOfTurn: "rateOfTurn",
  variation: "variation",
};

const calibrated = calibration
  ? liveOptionsOf(calibrationFromFile(await readFile(calibration, "utf8"), calibration))
  : {};
const state = liveState({ ...calibrated, damping: { direction: 8, speed: 4, angle: 4 } });
const reader = new Nmea0183Reader({ file: `${host}:${port}` });

/** The last reading of each quantity: its value, and when it was heard. */
const heard = new Map();

const fresh = (quantity, now) => {
  const last = heard.get(quantity);
  return last && now - last.time <= STALE_SECONDS ? last.value : Number.NaN;
};

function sampleAt(now) {
  const sample = Object.fromEntries(
    Object.entries(PLACES).map(([quantity, place]) => [place, fresh(quantity, now)]),
  );
  const speed = fresh("speedOverGround", now);
  const course = fresh("courseOverGround", now);
  const [latitude, longitude] = [fresh("latitude", now), fresh("longitude", now)];
  return {
    ...sample,
    time: now,
    east: speed * Math.sin(course),
    north: speed * Math.cos(course),
    variation: Number.isNaN(latitude) ? sample.variation : variationAt(latitude, longitude, now),
  };
}

const rounded = (value, digits) => (Number.isNaN(value) ? null : Number(value.toFixed(digits)));

function tell(now) {
  const { twd, tws, twa, gwd, gws } = liveWind(sampleAt(now), state);
  const line = {
    time: new Date(now * 1000).toISOString(),
    twd_deg: rounded(degrees(twd), 1),
    tws_kn: rounded(knots(tws), 2),
    twa_deg: rounded(degrees(twa), 1),
    gwd_deg: rounded(degrees(gwd), 1),
    gws_kn: rounded(knots(gws), 2),
  };
  process.stdout.write(`${JSON.stringify(line)}\n`);
}

function take(batches) {
  for (const { length, time, source, value } of batches)
    for (let index = 0; index < length; index++) {
      const { quantity } = reader.sources[source[index]];
      heard.set(quantity, { time: time[index], value: value[index] });
      if (quantity === "apparentWindSpeed" && !Number.isNaN(time[index])) tell(time[index]);
    }
}

const socket = connect(Number(port), host);
socket.on("data", (chunk) => take(reader.push(chunk)));
await once(socket, "end");
take(reader.finish());
const { lines, used, problems } = reader.lines;
console.error(`${lines} lines: ${used} used, ${problems} that could not be read`);
