/**
 * Tag blocks of NMEA 0183 (M110): their checksums, times and sources.
 *
 * SOURCE: schwehr/libais and GlobalFishingWatch/ais-tools, tests; places and commits in datasets/published/tagBlocks.json.
 * STATUS: read in the repositories; second-hand for the standard, which is not public.
 * INPUTS: each line alone.
 * MARGIN: as printed beside the time that the line tells a second time.
 */
import { describe, expect, it } from "vitest";
import data from "../../datasets/published/tagBlocks.json" with { type: "json" };
import { nmea0183Checksum } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import { tagBlock } from "../../packages/core/src/recording/tagBlock.ts";
import { agrees, published } from "../support/published.ts";
import { bytesOf } from "../support/wholeLog.ts";

const blockOf = (line: string) => tagBlock(bytesOf(line), 0, line.lastIndexOf("\\") + 1);

describe("a tag block", () => {
  for (const { line, source, time, timeIs, within, readAt } of data.blocks) {
    published(`checksum of ${line}`, readAt, () => {
      const [body, printed] = line.slice(1, line.lastIndexOf("\\")).split("*");
      expect(nmea0183Checksum(body!)).toBe(Number.parseInt(printed!, 16));
    });

    published(`time and source of ${line}`, readAt, () => {
      const told = blockOf(line)!;
      agrees(told.time, Date.parse(time) / 1000, within, `the second time is ${timeIs}`);
      expect(told.source).toBe(source);
    });

    it(`with one letter changed is none: ${line}`, () => {
      expect(blockOf(line.replace(source, `x${source.slice(1)}`))).toBeUndefined();
    });
  }
});
