// The stages of peers/wholeJob.py with this library, as built: node wholeJob.mjs FOLDER; prints the same as JSON.
import { readFileSync } from "node:fs";
import { leastSquares } from "../../packages/core/dist/fit/leastSquares.js";
import { CsvRow } from "../../packages/core/dist/recording/csvRow.js";
import { degrees, knots, metresPerSecond, radians } from "../../packages/core/dist/units.js";

const LINE_FEED = 10;
const DEGREE = radians(1);
const BLOCK_SECONDS = 60;
const KNOT = metresPerSecond(1);
const folder = process.argv[2];
const seconds = {};

function stage(name, work) {
  const begin = performance.now();
  const result = work();
  seconds[name] = (performance.now() - begin) / 1000;
  return result;
}

const COLUMNS = ["t", "awa", "aws", "stw", "hdg", "heel", "cog", "sog"];

/** No row is shorter: eight fields, their separators and the end of the line. */
const SHORTEST_ROW = 24;

/** The log's numbers, row by row where they lie among its bytes, into columns; SI and radians. */
function readLog() {
  const bytes = readFileSync(`${folder}/log.csv`);
  const most = Math.ceil(bytes.length / SHORTEST_ROW);
  const columns = COLUMNS.map(() => new Float64Array(most));
  const [time, awa, aws, stw, hdg, heel, cog, sog] = columns;
  const row = new CsvRow({
    delimiter: ",",
    decimal: ".",
    columns: COLUMNS.length,
    numbers: COLUMNS.map((_, index) => index),
    texts: [],
  });
  const { numbers } = row;
  let length = 0;
  for (let at = bytes.indexOf(LINE_FEED) + 1; at < bytes.length; length++) {
    at = row.read(bytes, at) + 1;
    time[length] = numbers[0];
    awa[length] = numbers[1] * DEGREE;
    aws[length] = numbers[2] * KNOT;
    stw[length] = numbers[3] * KNOT;
    hdg[length] = numbers[4] * DEGREE;
    heel[length] = numbers[5] * DEGREE;
    cog[length] = numbers[6] * DEGREE;
    sog[length] = numbers[7] * KNOT;
  }
  return { length, time, awa, aws, stw, hdg, heel, cog, sog };
}

function readReference() {
  const lines = readFileSync(`${folder}/ref.csv`, "utf8").trim().split("\n").slice(1);
  const fields = lines.map((line) => line.split(",").map((field) => metresPerSecond(Number(field))));
  return {
    east: Float64Array.from(fields, ([, east]) => east),
    north: Float64Array.from(fields, ([, , north]) => north),
  };
}

/**
 * As peers/wholeJob.py has it: leeway without a bound, 10 deg·kn² a degree of heel, in the boat's own axes. What the means over blocks
 * need again is kept: the wind's components, sine and cosine of the apparent angle.
 */
function trueWind({ length, awa, aws, stw, hdg, heel }) {
  const [twd, tws, ahead, athwart, sine, cosine] = Array.from({ length: 6 }, () => new Float64Array(length));
  const coefficient = 10 * KNOT ** 2;
  for (let row = 0; row < length; row++) {
    const leeway = (coefficient * heel[row]) / Math.max(stw[row] ** 2, 1e-6 * KNOT ** 2);
    sine[row] = Math.sin(awa[row]);
    cosine[row] = Math.cos(awa[row]);
    // leeway is less than a right angle: its cosine follows from its sine
    const adrift = Math.sin(leeway);
    const along = aws[row] * cosine[row] - stw[row] * Math.sqrt(1 - adrift * adrift);
    const across = (aws[row] * sine[row]) / Math.cos(heel[row]) - stw[row] * adrift;
    ahead[row] = along;
    athwart[row] = across;
    twd[row] = hdg[row] + Math.atan2(across, along);
    tws[row] = Math.sqrt(along * along + across * across);
  }
  return { twd, tws, ahead, athwart, sine, cosine };
}

/** Means over blocks of 60 s, angles as vectors; the wind's from its components, turned by the heading. */
function blockMeans(log, { tws, ahead, athwart, sine, cosine }) {
  const { length, time, hdg, cog } = log;
  const blocks = Math.floor(time[length - 1] / BLOCK_SECONDS) + 1;
  const sums = () => new Float64Array(blocks);
  const count = sums();
  const { aws, stw, heel, sog } = log;
  const [speeds, boatSpeeds, heels, overGround, winds] = Array.from({ length: 5 }, sums);
  const [awa, heading, course, wind] = Array.from({ length: 4 }, () => ({ sine: sums(), cosine: sums() }));
  for (let row = 0; row < length; row++) {
    const block = Math.floor(time[row] / BLOCK_SECONDS);
    count[block] += 1;
    speeds[block] += aws[row];
    boatSpeeds[block] += stw[row];
    heels[block] += heel[row];
    overGround[block] += sog[row];
    winds[block] += tws[row];
    const sin = Math.sin(hdg[row]);
    const cos = Math.cos(hdg[row]);
    heading.sine[block] += sin;
    heading.cosine[block] += cos;
    course.sine[block] += Math.sin(cog[row]);
    course.cosine[block] += Math.cos(cog[row]);
    awa.sine[block] += sine[row];
    awa.cosine[block] += cosine[row];
    wind.sine[block] += (sin * ahead[row] + cos * athwart[row]) / tws[row];
    wind.cosine[block] += (cos * ahead[row] - sin * athwart[row]) / tws[row];
  }
  const mean = (of) => of.map((sum, block) => sum / count[block]);
  const angle = (of) => of.sine.map((value, block) => Math.atan2(value, of.cosine[block]));
  return {
    aws: mean(speeds),
    stw: mean(boatSpeeds),
    heel: mean(heels),
    sog: mean(overGround),
    tws: mean(winds),
    awa: angle(awa),
    hdg: angle(heading),
    cog: angle(course),
    twd: angle(wind),
  };
}

/** Six corrections: offset, wind gain, upwash, boat speed gain, leeway coefficient, compass; SI and radians. */
function fit({ awa, aws, stw, hdg, heel, cog, sog }, reference) {
  const length = awa.length;
  const [sineOfAngle, upright] = [awa.map(Math.sin), heel.map(Math.cos)];
  const [groundEast, groundNorth] = [
    sog.map((v, row) => v * Math.sin(cog[row])),
    sog.map((v, row) => v * Math.cos(cog[row])),
  ];
  const residuals = (parameters, out) => {
    const [offset, windGain, upwash, speedGain, leeway, compass] = parameters;
    for (let row = 0; row < length; row++) {
      const angle = awa[row] + offset + upwash * sineOfAngle[row];
      const ahead = aws[row] * windGain * Math.cos(angle);
      const athwart = (aws[row] * windGain * Math.sin(angle)) / upright[row];
      const speed = stw[row] * speedGain;
      const heading = hdg[row] + compass;
      const track = heading + (leeway * heel[row]) / Math.max(speed * speed, 1e-6 * KNOT * KNOT);
      const [east, north] = [speed * Math.sin(track), speed * Math.cos(track)];
      const [sine, cosine] = [Math.sin(heading), Math.cos(heading)];
      out[row] = east - ahead * sine - athwart * cosine - reference.east[row];
      out[length + row] = north - ahead * cosine + athwart * sine - reference.north[row];
      out[2 * length + row] = east - groundEast[row];
      out[3 * length + row] = north - groundNorth[row];
    }
  };
  const scale = [radians(1), 0.1, radians(1), 0.1, KNOT ** 2, radians(1)];
  return leastSquares({ start: [0, 1, 0, 1, 0, 0], scale, count: 4 * length, residuals });
}

const { log, reference } = stage("reading", () => ({ log: readLog(), reference: readReference() }));
const wind = stage("true wind", () => trueWind(log));
const blocks = stage("blocks", () => blockMeans(log, wind));
const fitted = stage("fit", () => fit(blocks, reference));
if (fitted.status !== "solved") throw new Error(fitted.reason);
const [offset, windGain, upwash, speedGain, leeway, compass] = fitted.parameters;
const found = {
  rows: log.length,
  blocks: blocks.aws.length,
  "mean tws": knots(wind.tws.reduce((sum, speed) => sum + speed, 0) / log.length),
  "first block": [degrees(blocks.twd[0]), knots(blocks.tws[0])],
  corrections: [degrees(offset), windGain, degrees(upwash), speedGain, leeway / KNOT ** 2, degrees(compass)],
};
const megabytes = process.resourceUsage().maxRSS / 1024;
console.log(JSON.stringify({ found, seconds, megabytes }));
