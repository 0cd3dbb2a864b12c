/** A small file that swells without end is told, and neither fills memory nor takes long. */
import { gzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { LogBytes } from "../../packages/core/src/recording/logBytes.ts";

const MEGABYTE = 1e6;

/** Bytes that come out of a file, and what is wrong with it. */
function undone(file: Uint8Array): { readonly bytes: number; readonly fault: string } {
  let bytes = 0;
  const log = new LogBytes((plain) => {
    bytes += plain.length;
  });
  log.push(file);
  log.finish();
  return { bytes, fault: log.fault };
}

const bomb = Uint8Array.from(gzipSync(new Uint8Array(90 * MEGABYTE)));

describe("a gzip stream that swells", () => {
  it("to a thousand times its size is given up", () => {
    const { bytes, fault } = undone(bomb);
    expect(fault).toBe("one that swells to more than 300 times its size, as no log does");
    // the limit, and what one step of 8 kB can add to it: 1,032 times as much
    expect(bytes).toBeLessThan(64 * MEGABYTE + 9 * MEGABYTE);
  });

  it("as a log of a boat that lies still does is read to its end", () => {
    const second = "$WIMWV,0.0,R,0.0,N,A*3A\r\n$IIVHW,,T,,M,0.0,N,0.0,K*55\r\n".repeat(5);
    const log = Buffer.from(
      Array.from({ length: 250_000 }, (_, n) => `$GPZDA,${n % 240_000},14,05,2031\r\n${second}`).join(""),
    );
    expect(log.length).toBeGreaterThan(64 * MEGABYTE);
    expect(undone(Uint8Array.from(gzipSync(log)))).toEqual({ bytes: log.length, fault: "" });
  });
});
