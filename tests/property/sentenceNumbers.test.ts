/**
 * Numbers in sentences, as the quick scan of a plain sentence reads them and as the one of any other does.
 *
 * INPUTS: any decimal number that a field holds as degrees Celsius, which need no factor; the engine's `Number` of the same text says what
 * it is, to the last bit. An exclamation mark before the sentence keeps the quick scan away.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nmea0183Sentence } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import { wholeLog } from "../support/wholeLog.ts";

const digits = (most: number) => fc.stringMatching(new RegExp(`^[0-9]{0,${most}}$`));

/** A sign, zeros, digits, a point and decimals, each there or not; some digits more than a double holds. */
const written = fc
  .tuple(fc.constantFrom("", "-"), fc.constantFrom("", "0", "0000000"), digits(2), fc.boolean(), digits(18))
  .map(([sign, zeros, whole, hasPoint, decimals]) => sign + zeros + whole + (hasPoint ? `.${decimals}` : ""));

const read = (before: string, field: string) =>
  wholeLog(`${before}${nmea0183Sentence(`IIMTW,${field},C`)}\n`);

describe.each([
  ["plain", ""],
  ["behind other signs", "!,7,"],
])("a number in a sentence, %s,", (_, before) => {
  it("is the double that is nearest to its text", () => {
    fc.assert(
      fc.property(written, (field) => {
        fc.pre(/[0-9]/.test(field));
        expect(read(before, field).valuesOf("waterTemperature")).toEqual([Number(field)]);
      }),
      { numRuns: 1000 },
    );
  });

  it.each(["", " ", "."])('is none in a field "%s"; a field with something else is told', (field) => {
    const { reader, valuesOf } = read(before, field);
    expect(valuesOf("waterTemperature")).toEqual([]);
    expect(reader.problemCounts.field).toBe(field === "." ? 1 : 0);
  });

  it.each(["1.2.3", "12a", "a12", "--1", "1-", "1e1", "-", "0x10", "12 3"])(
    "is not read from %s",
    (field) => {
      const { reader, value } = read(before, field);
      expect(value).toEqual([]);
      expect(reader.problems).toMatchObject([{ kind: "field", expected: "a number in field 1" }]);
    },
  );
});
