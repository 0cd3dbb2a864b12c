/** Damaged NMEA 0183 logs and logs in columns; `FUZZ_COUNT` asks for more of them than the tests do. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { columnsFromFile } from "../../packages/core/src/calibration/columnsFile.ts";
import { columnsSkeleton } from "../../packages/core/src/calibration/columnsSkeleton.ts";
import { RefusedFile } from "../../packages/core/src/calibration/refusedFile.ts";
import { CsvReader } from "../../packages/core/src/recording/csvReader.ts";
import { nmea0183Checksum, nmea0183Sentence } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import { Nmea0183Reader } from "../../packages/core/src/recording/nmea0183Reader.ts";
import { RecognisedReader } from "../../packages/core/src/recording/recognisedReader.ts";
import { expectToBear, mutatedLogs } from "../support/mutations.ts";

const count = Number(process.env.FUZZ_COUNT ?? 2000);

const seconds = [0, 1, 2, 3];
const two = (value: number): string => String(value).padStart(2, "0");

const sentences = seconds
  .flatMap((second) => [
    `GPRMC,1159${two(56 + second)}.00,A,5030.00000,N,00115.00000,W,6.70,255.00,140531,2.00,W,A`,
    "GPGLL,5030.0,N,00115.0,W,115956,A",
    `IIVHW,,T,301.2,M,6.${second},N,11.9,K`,
    `WIMWV,33${second}.5,R,19.75,N,A`,
    "WIMWD,210.2,T,212.2,M,14.5,N,7.46,M",
    "HCHDG,252.3,1.0,E,2.0,W",
    `IIXDR,A,${18 + second},D,HEEL,A,-1.5,D,PITCH`,
    "SDDPT,12.5,0.4",
    "TIROT,3.0,A",
  ])
  .map(nmea0183Sentence);

/** Each line with a tag block, or with a time before it. */
const stamped = sentences.map((sentence, index) => {
  const tags = `s:mast,c:${1_936_526_396 + Math.floor(index / 9)}`;
  const sum = nmea0183Checksum(tags).toString(16).toUpperCase().padStart(2, "0");
  return index % 2 === 0
    ? `\\${tags}*${sum}\\${sentence}`
    : `2031-05-14T11:59:${two(56 + Math.floor(index / 9))}.500Z ${sentence}`;
});

const rows = seconds.map(
  (second) =>
    `2031-05-14T12:00:0${second}Z,-3${second}.5,19.75,6.${second},252.25,-18,255,6.7,50.5,-1.25,"fine, ""they"" say"`,
);
const table = [
  "time,AWA [deg],aws_kn,boat speed (kn),heading_mag_deg,heel,cog,sog_kn,lat,lon,note",
  ...rows,
].join("\n");

/** The same with a decimal comma, a time that only a mapping file tells, and a column turned round. */
const european = [
  "Tag;Zeit;Wind;Krängung",
  ...seconds.map((second) => `14.05.2031;12:00:0${second},5;7,${second};-18,5`),
].join("\r\n");
const mapping = columnsFromFile(
  JSON.stringify({
    time: {
      column: ["Tag", "Zeit"],
      as: { format: "day and time", order: "day-month-year", utc_offset: "+02:00" },
    },
    columns: {
      Wind: { quantity: "apparentWindSpeed", unit: "m/s" },
      "4": { quantity: "heel", unit: "deg", turned: true },
    },
  }),
  "columns.json",
);

describe(`${count} damaged logs for each reader are borne, of`, () => {
  it.each([
    ["sentences", sentences, 1000],
    ["sentences with tag blocks and times", stamped, 1001],
  ])("%s", (_, lines, seed) => {
    expectToBear(() => new Nmea0183Reader({ file: "log" }), lines.join("\r\n"), {
      count: Math.ceil(count / 2),
      seed,
      isBounded: true,
    });
  });

  it("rows", () => {
    expectToBear(() => new CsvReader({ file: "log" }), table, {
      count: Math.ceil(count / 2),
      seed: 1002,
      isBounded: true,
    });
  });

  it("rows understood by a mapping file", () => {
    expectToBear(() => new CsvReader({ file: "log", columns: mapping }), european, {
      count: Math.ceil(count / 2),
      seed: 1003,
      isBounded: true,
    });
  });

  it.each([
    ["sentences", sentences.join("\n"), 1004],
    ["rows", table, 1005],
  ])("%s whose format must be found first", (_, sample, seed) => {
    expectToBear(() => new RecognisedReader({ file: "log" }), sample, { count: Math.ceil(count / 10), seed });
  });

  it("mapping files: taken, or refused in words", () => {
    const sample = readFileSync(
      new URL("../../datasets/recorded/lake-race-2018.columns.json", import.meta.url),
    );
    let refused = 0;
    for (const { bytes } of mutatedLogs(sample, Math.ceil(count / 4), 1007))
      try {
        columnsFromFile(new TextDecoder().decode(bytes), "columns.json");
      } catch (error) {
        expect(error).toBeInstanceOf(RefusedFile);
        refused++;
      }
    expect(refused).toBeGreaterThan(count / 10);
  });

  it("rows of which a mapping file is begun", () => {
    const sample = new TextEncoder().encode(table);
    for (const { bytes } of mutatedLogs(sample, Math.ceil(count / 10), 1006)) columnsSkeleton(bytes);
  });
});
