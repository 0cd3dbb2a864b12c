import { constants, gunzipSync, gzipSync } from "node:zlib";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { arbitraryLog, chunkSizes } from "../support/arbitraryLog.ts";
import { bytesOf, type WholeLog, wholeLog } from "../support/wholeLog.ts";

/** All that was read of a log. */
const contents = ({ reader, time, value, source }: WholeLog) => ({
  time,
  value,
  source,
  sources: reader.sources,
  lines: reader.lines,
  problems: reader.problems,
  counts: reader.problemCounts,
});

const joined = (...parts: readonly Uint8Array[]): Uint8Array => Uint8Array.from(Buffer.concat(parts));

describe("a log in chunks", () => {
  it("gives the same readings, problems and counts, bit for bit, however it is cut", () => {
    fc.assert(
      fc.property(arbitraryLog, chunkSizes, (log, sizes) => {
        expect(contents(wholeLog(log, sizes))).toEqual(contents(wholeLog(log)));
      }),
    );
  });

  it("gives the same byte by byte", () => {
    fc.assert(
      fc.property(arbitraryLog, (log) => {
        expect(contents(wholeLog(log, [1]))).toEqual(contents(wholeLog(log)));
      }),
      { numRuns: 30 },
    );
  });
});

describe("a compressed log", () => {
  it("reads as the plain one", () => {
    fc.assert(
      fc.property(arbitraryLog, chunkSizes, (log, sizes) => {
        fc.pre(log[0] !== 0x1f);
        expect(contents(wholeLog(Uint8Array.from(gzipSync(log)), sizes))).toEqual(contents(wholeLog(log)));
      }),
    );
  });

  it("may be several members in a row, cut anywhere", () => {
    fc.assert(
      fc.property(fc.array(arbitraryLog, { minLength: 2, maxLength: 4 }), chunkSizes, (logs, sizes) => {
        const plain = joined(...logs);
        fc.pre(plain.length > 1 && plain[0] !== 0x1f);
        const members = joined(...logs.map((log) => Uint8Array.from(gzipSync(log))));
        expect(contents(wholeLog(members, sizes))).toEqual(contents(wholeLog(plain)));
      }),
    );
  });

  it("that ends too early is a problem, and all that zlib could still read of it stands", () => {
    const log = bytesOf(
      Array.from({ length: 4000 }, (_, n) => `$SDDPT,${(n * 7919) % 997}.5,0.0\n`).join(""),
    );
    const packed = Uint8Array.from(gzipSync(log));
    for (const share of [0.01, 0.3, 0.7, 0.999]) {
      const part = packed.subarray(0, Math.floor(packed.length * share));
      const plain = gunzipSync(part, { finishFlush: constants.Z_SYNC_FLUSH });
      const read = wholeLog(part);
      expect(read.reader.problemCounts.compression).toBe(1);
      expect(read.reader.lines.lines).toBe(wholeLog(Uint8Array.from(plain)).reader.lines.lines);
      expect(read.value).toEqual(wholeLog(Uint8Array.from(plain)).value);
    }
  });

  it("never throws, whatever bytes are damaged, and a wrong member's checksum is told", () => {
    const log = bytesOf(Array.from({ length: 500 }, (_, n) => `$SDDPT,${n % 37}.5,0.0\n`).join(""));
    const packed = Uint8Array.from(gzipSync(log));
    fc.assert(
      fc.property(fc.nat({ max: packed.length - 1 }), fc.integer({ min: 1, max: 255 }), (at, flip) => {
        fc.pre(at > 1);
        const damaged = packed.slice();
        damaged[at] = damaged[at]! ^ flip;
        const { reader, value } = wholeLog(damaged);
        const isSame = value.length === 1000 && reader.lines.lines === 500;
        const isTold = reader.problemCounts.compression > 0;
        const isHeaderOrLength = at < 10 || at >= packed.length - 4;
        expect(isTold || isHeaderOrLength || isSame).toBe(true);
      }),
    );
    const wrong = packed.slice();
    wrong[packed.length - 8] = wrong[packed.length - 8]! ^ 1;
    expect(wholeLog(wrong).reader.problems.map(({ kind }) => kind)).toEqual(["compression"]);
  });
});
