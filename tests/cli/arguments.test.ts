import { describe, expect, it } from "vitest";
import { type CommandShape, callOf, givenTo } from "../../packages/core/src/cli/arguments.ts";
import { failureOf, UsageFailure } from "../../packages/core/src/cli/failures.ts";

const shape: CommandShape = {
  name: "measure",
  purpose: "measures logs",
  operands: ["LOG…"],
  options: {
    out: { value: "FOLDER", required: true, meaning: "where to" },
    replace: { meaning: "over what is there" },
  },
};
const single: CommandShape = { ...shape, operands: ["FILE", "LOG"] };

describe("arguments", () => {
  it("are operands, options with a value, and flags, in any order", () => {
    const given = givenTo(shape, ["a.nmea", "--out", "x", "b.nmea", "--replace"]);
    expect(given.operands).toEqual(["a.nmea", "b.nmea"]);
    expect([...given.options]).toEqual([
      ["out", "x"],
      ["replace", ""],
    ]);
  });

  it("may join a value by =, and end the options by --", () => {
    const given = givenTo(shape, ["--out=x=y", "--", "--odd-name.nmea"]);
    expect(given.options.get("out")).toBe("x=y");
    expect(given.operands).toEqual(["--odd-name.nmea"]);
  });

  it.each([
    [["a", "--ouy", "x"], "measure: unknown option --ouy (did you mean --out?)"],
    [["a", "-o", "x"], "measure: unknown option -o (did you mean --out?)"],
    [["a", "--constructor", "x"], "measure: unknown option --constructor;"],
    [["a"], "measure: --out FOLDER is missing"],
    [["a", "--out"], "measure: --out needs a FOLDER"],
    [["a", "--out", "--replace"], "measure: --out needs a FOLDER"],
    [["a", "--out="], "measure: --out needs a FOLDER"],
    [["a", "--out", "x", "--out", "y"], "measure: --out is given twice"],
    [["a", "--out", "x", "--replace=yes"], "measure: --replace takes no value"],
    [["--out", "x"], "measure: LOG is missing"],
  ])("refuses %j in words", (args, words) => {
    expect(() => givenTo(shape, args)).toThrow(UsageFailure);
    expect(() => givenTo(shape, args)).toThrow(words);
  });

  it("refuses one operand too many or too few", () => {
    expect(() => givenTo(single, ["a", "b", "c", "--out", "x"])).toThrow('"c" is one argument too many');
    expect(() => givenTo(single, ["a", "--out", "x"])).toThrow("LOG is missing");
  });

  it("says how the command is called", () => {
    expect(callOf(shape)).toBe("bothtacks measure LOG… --out FOLDER [--replace]");
  });
});

describe("a failure", () => {
  it("is one line, whatever was thrown", () => {
    expect(failureOf(new UsageFailure("a\n  b"))).toEqual({ status: 2, line: "a b" });
    expect(failureOf(new TypeError("x is not\r\na function"))).toEqual({
      status: 1,
      line: "unforeseen: x is not a function",
    });
    expect(failureOf("text")).toEqual({ status: 1, line: "text" });
  });

  it("tells an interruption from others", () => {
    expect(failureOf(AbortSignal.abort().reason).status).toBe(130);
  });
});
