/**
 * Times that stand in the lines of a log, and sources that tag blocks name.
 *
 * INPUTS: logs made here; what is expected follows from the times that they were made with.
 * MARGIN: double rounding of seconds since 1970, or of the milliseconds written.
 */
import { describe, expect, it } from "vitest";
import { nmea0183Checksum, nmea0183Sentence } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import { agrees } from "../support/published.ts";
import { wholeLog } from "../support/wholeLog.ts";

const START = Date.UTC(2031, 4, 14, 10, 59, 57) / 1000;
const ROUNDING = 1e-6;

const wind = nmea0183Sentence("WIMWV,30.0,R,10.0,N,A");
const zda = nmea0183Sentence("GPZDA,105957.00,14,05,2031,00,00");

const two = (value: number): string => String(value).padStart(2, "0");
const parts = (time: number) => {
  const date = new Date(time * 1000);
  return {
    iso: date.toISOString(),
    day: two(date.getUTCDate()),
    month: two(date.getUTCMonth() + 1),
    hour: date.getUTCHours(),
    clock: date.toISOString().slice(11, 19),
    rest: date.toISOString().slice(13, 19),
  };
};

/** What loggers write before (or behind) a sentence, and how finely. */
const STAMPS: readonly (readonly [what: string, line: (time: number) => string])[] = [
  ["ISO 8601 in UTC", (time) => `${parts(time).iso} ${wind}`],
  ["ISO 8601 with a zone", (time) => `${parts(time + 7200).iso.replace("Z", "+02:00")},${wind}`],
  ["ISO 8601 without marks", (time) => `${parts(time).iso.replace(/[-:]/g, "")};${wind}`],
  ["epoch in seconds", (time) => `${time.toFixed(3)} ${wind}`],
  ["epoch in whole seconds", (time) => `[${Math.floor(time)}] ${wind}`],
  ["epoch in milliseconds", (time) => `${Math.round(time * 1000)}\t${wind}`],
  ["epoch behind the sentence", (time) => `${wind},${Math.floor(time)}`],
  ["epoch and receiver behind the sentence", (time) => `${wind} ${time.toFixed(1)},mast`],
];

/** As before, of a clock that shows no zone: an hour ahead of UTC here. */
const LOCAL_STAMPS: typeof STAMPS = [
  ["time of day", (time) => `${parts(time + 3600).clock} ${wind}`],
  ["time of day in brackets", (time) => `[${parts(time + 3600).clock}.0] ${wind}`],
  ["ISO 8601 without a zone", (time) => `${parts(time + 3600).iso.slice(0, 19)} ${wind}`],
  ["day/month", (time) => `14/05/2031 ${parts(time + 3600).clock} ${wind}`],
  ["month/day", (time) => `05/14/2031 ${parts(time + 3600).clock},${wind}`],
  ["day.month.", (time) => `14.05.2031, ${parts(time + 3600).clock}: ${wind}`],
  ["name of the month", (time) => `May 14 ${parts(time + 3600).clock} logger: ${wind}`],
  [
    "twelve hours twice",
    (time) => {
      const { hour, rest } = parts(time + 3600);
      return `5/14/2031 ${hour % 12 === 0 ? 12 : hour % 12}${rest} ${hour < 12 ? "AM" : "PM"} ${wind}`;
    },
  ],
];

const timesIn = (log: string): readonly number[] => {
  const whole = wholeLog(log);
  expect(whole.reader.problems).toEqual([]);
  return whole.timesOf("apparentWindAngle");
};

function expectSeconds(times: readonly number[]): void {
  expect(times).toHaveLength(8);
  times.forEach((time, n) => {
    agrees(time, START + n, ROUNDING, "double rounding of seconds since 1970");
  });
}

describe("a time that stands in the line", () => {
  it.each(STAMPS)("%s", (_, line) => {
    expectSeconds(timesIn(Array.from({ length: 8 }, (_, n) => line(START + n)).join("\n")));
  });

  it.each(LOCAL_STAMPS)("%s, placed by a sentence that tells the date", (_, line) => {
    // noon is passed by the local clock
    const [first, ...more] = Array.from({ length: 8 }, (_, n) => line(START + n));
    const dated = first!.replace(wind, zda);
    expectSeconds(timesIn([first, dated, ...more].join("\n")));
  });

  it("a day that does not exist is no time", () => {
    const log = wholeLog(`2031-02-30T12:00:00Z ${wind}\n2031-02-30T12:00:01Z ${wind}\n`);
    expect(log.reader.lines).toMatchObject({ used: 2 });
    // the time of day alone is left, and no date is told: that is a problem of the log
    expect(log.reader.problemCounts.clock).toBe(1);
  });

  it("numbers of a sentence that lost its beginning are no time", () => {
    const log = wholeLog([zda, `1234567,N,00012.3,W,12${wind}`, `0034.12,N,${wind}`].join("\n"));
    expect(log.reader.problems).toEqual([]);
    expect(log.timesOf("apparentWindAngle").every((time) => Math.abs(time - START) < 60)).toBe(true);
  });
});

const tagged = (tags: string, sentence: string): string =>
  `\\${tags}*${nmea0183Checksum(tags).toString(16).toUpperCase().padStart(2, "0")}\\${sentence}`;

const namesOf = (log: string) =>
  wholeLog(log).reader.sources.map(({ quantity, name }) => `${quantity}: ${name}`);

describe("tag blocks", () => {
  it("give the time, in seconds or milliseconds", () => {
    for (const unit of [1, 1000])
      expectSeconds(
        timesIn(
          Array.from({ length: 8 }, (_, n) => tagged(`s:mast,c:${(START + n) * unit}`, wind)).join("\r\n"),
        ),
      );
  });

  it("keep sources of one talker apart by name", () => {
    const log = [
      tagged("s:mast", wind),
      tagged("s:deck,n:2", wind),
      wind,
      tagged("s:mast", nmea0183Sentence("IIXDR,A,5.0,D,HEEL")),
    ].join("\n");
    expect(namesOf(log)).toEqual([
      "apparentWindAngle: WI MWV R (mast)",
      "apparentWindSpeed: WI MWV R (mast)",
      "apparentWindAngle: WI MWV R (deck)",
      "apparentWindSpeed: WI MWV R (deck)",
      "apparentWindAngle: WI MWV R",
      "apparentWindSpeed: WI MWV R",
      "heel: II XDR HEEL (mast)",
    ]);
  });

  it("may be several before one sentence", () => {
    expect(namesOf(`${tagged("c:1500000000", "")}${tagged("s:mast", wind)}`)).toContain(
      "apparentWindAngle: WI MWV R (mast)",
    );
  });

  it.each([
    ["a wrong checksum", `\\s:mast,c:${START}*00\\${wind}`],
    ["no checksum", `\\s:mast,c:${START}\\${wind}`],
    ["no end", `\\s:mast,c:${START}${wind}`],
    ["something between it and the sentence", `${tagged("s:mast", "")}x${wind}`],
  ])("with %s make the line a problem", (_, line) => {
    const { reader, value } = wholeLog(`${zda}\n${line}\n`);
    expect(reader.problems.map(({ kind, line: at }) => [kind, at])).toEqual([["checksum", 2]]);
    expect(value).toEqual([]);
  });

  it("that name sources without end do not fill the memory", () => {
    const log = Array.from({ length: 1000 }, (_, n) => tagged(`s:x${n}`, wind)).join("\n");
    const { reader } = wholeLog(log);
    expect(reader.lines).toMatchObject({ lines: 1000, used: 1000 });
    expect(reader.sources.length).toBeLessThan(600);
    expect(reader.sources.at(-1)?.name).toBe("WI MWV R");
  });
});
