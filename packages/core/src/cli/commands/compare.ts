import { historyOf, verdictOf } from "../../judge/history.ts";
import { printedComparison } from "../../report/compareText.ts";
import type { Command } from "../command.ts";
import { EXIT, InputFailure, UsageFailure } from "../failures.ts";
import { calibrationAt } from "../givenFiles.ts";

/** Tells what has moved between calibrations of one boat. */
export const compare: Command = {
  shape: {
    name: "compare",
    purpose: "tells what has moved between calibrations of one boat, or what would have shown",
    operands: ["CALIBRATION…"],
    options: {
      "nothing-keyed-in": {
        meaning:
          "nothing was keyed in between the recordings, of which nobody said what was active in the instruments",
      },
    },
  },

  async execute({ operands, options }, { print }) {
    if (operands.length < 2)
      throw new UsageFailure(
        "compare: give two calibrations or more, such as: bothtacks compare A.json B.json",
      );
    const calibrations = await Promise.all(operands.map(calibrationAt));
    const nameOf = (calibration: (typeof calibrations)[number]): string =>
      operands[calibrations.indexOf(calibration)] ?? "";
    const history = historyOf(calibrations, options.has("nothing-keyed-in"));
    if (history.status === "refused")
      throw new InputFailure(`${nameOf(history.then)}, ${nameOf(history.now)}: ${history.reason}`);
    print(printedComparison(history.pairs, nameOf));
    const verdict = verdictOf(history.pairs);
    if (verdict === "not told")
      throw new InputFailure(`${operands.join(", ")}: the recordings do not tell whether anything has moved`);
    return verdict === "moved" ? EXIT.moved : EXIT.done;
  },
};
