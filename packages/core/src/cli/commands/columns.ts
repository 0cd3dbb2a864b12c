import { columnsSkeleton } from "../../calibration/columnsSkeleton.ts";
import { logFile } from "../../node/logFile.ts";
import { plainHead } from "../../node/logHead.ts";
import { requireFileFree, writeFileWhole } from "../../node/writeWhole.ts";
import { COLUMNS_HEAD } from "../../recording/csvReader.ts";
import type { Command } from "../command.ts";
import { InputFailure } from "../failures.ts";

/** Writes a mapping file to fill in. */
export const columns: Command = {
  shape: {
    name: "columns",
    purpose: "writes a mapping file for a CSV log: what its columns hold, and ? where that must be filled in",
    operands: ["LOG"],
    options: {
      out: { value: "FILE", required: true, meaning: "the mapping file to write, for --columns" },
      replace: { meaning: "write over a file that is there" },
    },
  },

  async execute({ operands, options }, { print }) {
    const [path = ""] = operands;
    const out = options.get("out") ?? "";
    const replace = options.has("replace");
    const log = await logFile(path);
    await requireFileFree(out, replace);
    const skeleton = columnsSkeleton((await plainHead(log, COLUMNS_HEAD)).subarray(0, COLUMNS_HEAD));
    if (skeleton === undefined)
      throw new InputFailure(`${path}: its lines are not parted into fields by commas, semicolons or tabs`);
    await writeFileWhole(out, [skeleton], replace);
    const open = skeleton.split('"?"').length - 1;
    print(`${out}: ${open === 0 ? "nothing is to be filled in" : `${open} × "?" to be filled in`}.\n`);
  },
};
