import { describe, expect, it } from "vitest";
import { nmea0183Sentence } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import { agrees } from "../support/published.ts";
import { wholeLog } from "../support/wholeLog.ts";

const START = Date.UTC(2031, 5, 14, 23, 59, 0) / 1000;

/** Times are differences of numbers near 2e9, in double precision. */
const ROUNDING = 1e-6;

const text = (value: number, digits: number) => String(value).padStart(digits, "0");

const timeOfDay = (time: number): string => {
  const date = new Date(time * 1000);
  return [date.getUTCHours(), date.getUTCMinutes(), date.getUTCSeconds()]
    .map((part) => text(part, 2))
    .join("");
};

const dateOf = (time: number): string => {
  const date = new Date(time * 1000);
  return [date.getUTCDate(), date.getUTCMonth() + 1, date.getUTCFullYear() % 100]
    .map((part) => text(part, 2))
    .join("");
};

const rmc = (time: number, talker = "GP"): string =>
  nmea0183Sentence(`${talker}RMC,${timeOfDay(time)},A,5000.0,N,00100.0,W,5.0,90.0,${dateOf(time)},,,A`);
const gga = (time: number): string =>
  nmea0183Sentence(`GPGGA,${timeOfDay(time)},5000.0,N,00100.0,W,1,8,1.0,,M,,M,,`);
const wind = nmea0183Sentence("WIMWV,30.0,R,10.0,N,A");
const heading = nmea0183Sentence("HCHDM,100.0,M");

/** A second of a log: a stamp, then lines of wind. */
const second = (stamp: string, lines: number): readonly string[] => [
  stamp,
  ...Array<string>(lines).fill(wind),
];

const seconds = (count: number, of: (n: number) => readonly string[]): string =>
  Array.from({ length: count }, (_, n) => of(n))
    .flat()
    .join("\n");

const windTimes = (log: string): readonly number[] => wholeLog(log).timesOf("apparentWindAngle");

function agreeAll(actual: readonly number[], expected: readonly number[]): void {
  expect(actual).toHaveLength(expected.length);
  actual.forEach((time, row) => {
    agrees(time, expected[row]!, ROUNDING, "double rounding of seconds since 1970");
  });
}

describe("lines between two ticks", () => {
  it("are spread evenly over the interval, one line after the other", () => {
    const times = windTimes(seconds(4, (n) => second(rmc(START + n), 4)));
    const expected = Array.from(
      { length: 16 },
      (_, row) => START + Math.floor(row / 4) + ((row % 4) + 1) / 5,
    );
    agreeAll(times, expected);
  });

  it("all readings of a line have its time", () => {
    const log = wholeLog(seconds(3, (n) => second(rmc(START + n), 3)));
    expect(log.timesOf("apparentWindSpeed")).toEqual(log.timesOf("apparentWindAngle"));
  });

  it("times truncated to ten seconds still give a reading a second", () => {
    const times = windTimes(seconds(100, (n) => [wind, rmc(START + Math.floor(n / 10) * 10)]));
    const within = times.slice(10, 90);
    agreeAll(
      within,
      within.map((_, row) => within[0]! + row),
    );
  });

  it("up to the first change of a truncated time keep the pace of those after it", () => {
    const truncated = (n: number) => START + Math.floor(n / 10) * 10;
    const times = windTimes(seconds(60, (n) => [wind, rmc(truncated(n + 7))])).slice(0, 40);
    agreeAll(
      times,
      times.map((_, row) => START + 6.5 + row),
    );
  });

  it("before the first tick keep the pace of the first interval, after the last that of those before", () => {
    const lines = [
      wind,
      wind,
      ...second(rmc(START), 1),
      ...second(rmc(START + 1), 1),
      ...second(rmc(START + 2), 3),
    ];
    const [first, next] = windTimes(lines.join("\n"));
    agreeAll([first!, next!], [START - 1, START - 0.5]);
    agreeAll(windTimes(lines.join("\n")).slice(-3), [START + 2.5, START + 3, START + 3.5]);
  });

  it("over a gap keep their pace, and are not smeared over it", () => {
    const before = seconds(5, (n) => second(rmc(START + n), 1));
    const after = seconds(5, (n) => second(rmc(START + 1000 + n), 1));
    const times = windTimes(`${before}\n${after}`);
    agrees(times[4]!, START + 4.5, ROUNDING, "half a second after its tick, as in the seconds before");
    agrees(times[5]!, START + 1000.5, ROUNDING, "half a second after its tick");
  });

  it("over a gap in which only the clock was silent fill it", () => {
    const silent = Array<string>(200).fill(wind);
    const log = [
      seconds(5, (n) => second(rmc(START + n), 1)),
      ...silent,
      seconds(5, (n) => second(rmc(START + 105 + n), 1)),
    ];
    const times = windTimes(log.join("\n"));
    const steps = times.slice(1).map((time, row) => time - times[row]!);
    agrees(
      Math.max(...steps.slice(6, 200)),
      0.5,
      0.01,
      "two lines a second before, two a second in the gap, to 1 in 100",
    );
  });
});

describe("dates and midnight", () => {
  it("time of day without a date goes on past midnight", () => {
    const log = [
      ...second(rmc(START + 50), 1),
      ...Array.from({ length: 200 }, (_, n) => second(gga(START + 51 + n), 1)).flat(),
    ];
    const times = windTimes(log.join("\n"));
    agrees(
      times.at(-1)!,
      START + 250.5,
      0.01,
      "half a second after the last tick, to the rounding of the pace",
    );
  });

  it("a date that changes late is not believed to go back a day", () => {
    const late = nmea0183Sentence(`GPRMC,000000,A,5000.0,N,00100.0,W,5.0,90.0,${dateOf(START)},,,A`);
    const log = [
      ...second(rmc(START + 58), 1),
      ...second(rmc(START + 59), 1),
      ...second(late, 1),
      ...second(rmc(START + 61), 1),
    ];
    const { reader } = wholeLog(log.join("\n"));
    expect(reader.problems).toEqual([]);
    agreeAll(
      windTimes(log.join("\n")),
      [58.5, 59.5, 60.5, 61.5].map((after) => START + after),
    );
  });

  it("a date that is never told is a problem of the log, and its times stand on 1970-01-01", () => {
    const { reader, time } = wholeLog(seconds(5, (n) => second(gga(START + n), 1)));
    expect(reader.problemCounts.clock).toBe(1);
    expect(reader.lines.problems).toBe(0);
    agrees(time[0]!, 86_340, ROUNDING, "23:59:00 in seconds of the day");
  });

  it("a date told late counts for all lines before it", () => {
    const log = [
      seconds(5, (n) => second(gga(START + n), 1)),
      seconds(2, (n) => second(rmc(START + 5 + n), 1)),
    ];
    expect(wholeLog(log.join("\n")).reader.problems).toEqual([]);
    agreeAll(
      windTimes(log.join("\n")),
      [0.5, 1.5, 2.5, 3.5, 4.5, 5.5, 6.5].map((after) => START + after),
    );
  });

  it("a log that tells no time at all has none", () => {
    const { time, reader } = wholeLog(`${wind}\n${wind}\n`);
    expect(time.every(Number.isNaN)).toBe(true);
    expect(reader.problems).toEqual([]);
  });
});

describe("times that go wrong", () => {
  it("a lone leap ahead is a problem, and the clock goes on", () => {
    const log = [
      seconds(5, (n) => second(rmc(START + n), 1)),
      rmc(START + 5_000_000),
      seconds(5, (n) => second(rmc(START + 5 + n), 1)),
    ];
    const whole = wholeLog(log.join("\n"));
    expect(whole.reader.problems).toHaveLength(1);
    expect(whole.reader.problems[0]).toMatchObject({ kind: "clock", line: 11 });
    expect(whole.reader.lines).toEqual({ lines: 21, used: 20, ignored: 0, problems: 1 });
    expect(whole.timesOf("latitude")).toHaveLength(10);
    expect(whole.time.at(-1)).toBeLessThan(START + 11);
  });

  it("a leap at the very start is found out too", () => {
    const whole = wholeLog([rmc(START + 5_000_000), seconds(5, (n) => second(rmc(START + n), 1))].join("\n"));
    expect(whole.reader.problems).toHaveLength(1);
    expect(whole.reader.problems[0]).toMatchObject({ kind: "clock", line: 1 });
    agreeAll(
      whole.timesOf("apparentWindAngle"),
      [0.5, 1.5, 2.5, 3.5, 4.5].map((after) => START + after),
    );
  });

  it("a lone step back is a problem and makes no reading", () => {
    const log = [
      seconds(5, (n) => second(rmc(START + n), 1)),
      rmc(START - 20),
      seconds(2, (n) => second(rmc(START + 5 + n), 1)),
    ];
    const whole = wholeLog(log.join("\n"));
    expect(whole.reader.problems.map(({ kind, line }) => [kind, line])).toEqual([["clock", 11]]);
    expect(whole.timesOf("latitude")).toHaveLength(7);
  });

  it("an earlier log joined behind a later one gives problems, no readings out of order", () => {
    const later = seconds(10, (n) => second(rmc(START + 7200 + n), 1));
    const earlier = seconds(10, (n) => second(rmc(START + n), 1));
    const whole = wholeLog(`${later}\n${earlier}\n`);
    expect(whole.timesOf("latitude")).toHaveLength(10);
    const { lines, used, problems } = whole.reader.lines;
    expect(lines).toBe(40);
    expect(used + problems).toBe(40);
    expect(problems).toBeGreaterThanOrEqual(19);
    expect(whole.time.every((time, row) => row === 0 || time >= whole.time[row - 1]!)).toBe(true);
  });

  for (const [ahead, said] of [
    [7 * 3600, "seven hours"],
    [400 * 86_400, "over a year"],
  ] as const)
    it(`a clock ${said} ahead for a minute costs one line, which is told: the others keep their times`, () => {
      const astray = (n: number) => (n >= 60 && n < 120 ? ahead : 0);
      const log = seconds(1800, (n) => second(rmc(START + n + astray(n)), 4));
      const whole = wholeLog(log);
      expect(whole.reader.problems).toMatchObject([
        { kind: "clock", line: 60 * 5 + 1, expected: expect.stringContaining("up to line 600 ") },
      ]);
      expect(whole.reader.lines).toEqual({ lines: 9000, used: 8999, ignored: 0, problems: 1 });
      const times = whole.timesOf("apparentWindAngle");
      expect(times).toHaveLength(7200);
      times.forEach((time, row) => {
        const sent = START + Math.floor(row / 4) + ((row % 4) + 1) / 5;
        agrees(
          time,
          sent,
          0.2,
          "one line fewer in that minute shifts the others by no more than a line's time",
        );
      });
    });

  it("a leap that went on for more than ten minutes stands, and what follows it out of order is told", () => {
    const log = [
      seconds(60, (n) => second(rmc(START + n), 1)),
      seconds(700, (n) => second(rmc(START + 25_200 + n), 1)),
      seconds(60, (n) => second(rmc(START + 760 + n), 1)),
    ];
    const whole = wholeLog(log.join("\n"));
    expect(whole.timesOf("apparentWindAngle").length).toBeGreaterThanOrEqual(760);
    expect(whole.reader.problems.every(({ kind }) => kind === "clock")).toBe(true);
    expect(whole.time.every((time, row) => row === 0 || time >= whole.time[row - 1]!)).toBe(true);
  });

  it("a second receiver whose clock is wrong does not disturb the first", () => {
    const log = seconds(100, (n) => [rmc(START + n), wind, rmc(START + n - 619_315_200, "II"), wind]);
    const whole = wholeLog(log);
    expect(whole.reader.problems).toEqual([]);
    expect(whole.time.at(-1)! - whole.time[0]!).toBeLessThan(101);
  });

  it("another clock takes over when the first falls silent", () => {
    const log = [
      seconds(5, (n) => second(rmc(START + n), 1)),
      seconds(200, (n) => second(gga(START + 5 + n), 1)),
    ];
    const times = windTimes(log.join("\n"));
    agrees(
      times.at(-1)!,
      START + 204.5,
      0.01,
      "half a second after the last tick, to the rounding of the pace",
    );
    expect(times.every((time, row) => row === 0 || time >= times[row - 1]!)).toBe(true);
  });

  it("a log that waits too long for its clock is read all the same, in bounded memory", () => {
    const log = [
      ...second(rmc(START), 1),
      ...second(rmc(START + 1), 1),
      ...Array<string>(200_000).fill(heading),
    ];
    const whole = wholeLog(log.join("\n"));
    expect(whole.value).toHaveLength(200_000 + 2 * (4 + 2));
    agrees(whole.time.at(-1)!, START + 100_001, 1, "two lines a second, as in the one interval there is");
  });
});

describe("times at the head of lines", () => {
  const zone = 2 * 3600;
  const iso = (time: number) => new Date(time * 1000).toISOString();
  const local = (time: number) => iso(time + zone).slice(0, -1);
  const tagged = (time: number) => `\\${nmea0183Sentence(`s:mast,c:${Math.round(time * 1000)}`).slice(1)}\\`;

  const heads: readonly (readonly [name: string, head: (time: number) => string])[] = [
    ["epoch in seconds", (time) => `${time.toFixed(3)} `],
    ["epoch in milliseconds", (time) => `${Math.round(time * 1000)},`],
    ["epoch in microseconds", (time) => `${Math.round(time * 1000)}000;`],
    ["ISO 8601 in UTC", (time) => `${iso(time)} `],
    ["ISO 8601 in brackets", (time) => `[${iso(time)}] `],
    ["ISO 8601 with a zone", (time) => `${local(time)}+02:00 `],
    ["ISO 8601 with a zone without colon", (time) => `${local(time)}+0200,`],
    ["a tag block", tagged],
    ["local date and time", (time) => `${local(time).replace("T", " ")} `],
    ["local time of day", (time) => `${local(time).slice(11)} `],
    ["local time of day with a comma", (time) => `${local(time).slice(11).replace(".", ",")} `],
  ];

  for (const [name, head] of heads)
    it(`${name}: each line has its own`, () => {
      const times = Array.from({ length: 120 }, (_, n) => START + n + (n % 3) * 0.25);
      const log = times.map((time, n) => head(time) + (n % 10 === 0 ? rmc(Math.floor(time)) : wind));
      const whole = wholeLog(log.join("\n"));
      expect(whole.reader.problems).toEqual([]);
      const expected = times.filter((_, n) => n % 10 !== 0);
      whole.timesOf("apparentWindAngle").forEach((time, row) => {
        agrees(time, expected[row]!, 1e-3, "heads are written in milliseconds");
      });
    });

  it("zones of a quarter of an hour are found, a logger's clock that is minutes off stays as it is", () => {
    const log = Array.from({ length: 60 }, (_, n) => {
      const head = new Date((START + n + 5.75 * 3600 + 100) * 1000).toISOString().slice(11, -1);
      return `${head} ${n % 5 === 0 ? rmc(START + n) : wind}`;
    });
    const [first] = windTimes(log.join("\n"));
    agrees(first!, START + 101, 1e-3, "the head's time, less a zone of 5 h 45 min");
  });

  it("whole seconds are spread within the second", () => {
    const log = seconds(10, (n) => Array.from({ length: 4 }, () => `${START + n} ${wind}`));
    agreeAll(
      windTimes(log),
      Array.from({ length: 40 }, (_, row) => START + row / 4),
    );
  });

  it("a tag block whose own checksum is wrong tells no time", () => {
    const { time } = wholeLog(`\\c:${START}*00\\${wind}\n`);
    expect(time.every(Number.isNaN)).toBe(true);
  });

  it("what is no time is passed over", () => {
    for (const head of ["RX ", "port1: ", "2031 ", "12:61:00 ", "99999 ", "abc,"])
      expect(wholeLog(`${head}${wind}\n`).time).toHaveLength(2);
  });
});
